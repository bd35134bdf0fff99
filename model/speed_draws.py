"""Draws of what the radar readings leave open of an athlete: own-ball speed and exponent, jointly.

The draws are points that fill the posterior evenly, not random ones: the same readings give the same answer.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.checks import InputError
from model.speed import SpeedProfile

Array = NDArray[np.float64]


@dataclass(frozen=True)
class SpeedDraws:
    """Draws, each as probable as the others; arrays (N,).

    Attributes
    ----------
    log_own : ndarray
        ln of the mean full-effort speed with the own ball (m/s).
    p : ndarray
        The exponent.
    deviate : ndarray
        A standard normal number, independent of both: for a doubt from elsewhere.
    """

    log_own: Array
    p: Array
    deviate: Array


def draws_of(profile: SpeedProfile, log2: int) -> SpeedDraws:
    """Draw from what is known of an athlete.

    Parameters
    ----------
    log2 : int
        2 to this power is the number of draws.

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed.
    """
    if profile.posterior.own is None:
        raise InputError("readings", "none at full effort", "at least one, or an own-ball speed")
    drawn = profile.posterior.draw(log2)
    return SpeedDraws(drawn.log_own + profile.common_relative_sd * drawn.common, drawn.p, drawn.deviate)
