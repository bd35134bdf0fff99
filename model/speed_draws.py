"""Draws of what the radar readings leave open of an athlete: own-ball speed and exponent, jointly.

The draws are points that fill the posterior evenly, not random ones: the same readings give the same answer.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri
from scipy.stats import qmc

from model.checks import InputError
from model.speed import SpeedProfile
from model.speed_posterior import distribution

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


@lru_cache(maxsize=4)
def _filling(log2: int) -> Array:
    """Points that fill the unit cube evenly, none on its faces (N, 4)."""
    return qmc.Sobol(4, scramble=False).random_base2(log2) + 0.5 / 2**log2


def draws_of(profile: SpeedProfile, log2: int) -> SpeedDraws:
    """Draw from what is known of an athlete.

    Parameters
    ----------
    profile : SpeedProfile
    log2 : int
        2 to this power is the number of draws.

    Returns
    -------
    SpeedDraws

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed.
    """
    posterior = profile.posterior
    if posterior.own is None:
        raise InputError("readings", "none at full effort", "at least one, or an own-ball speed")
    of_sigma, of_p, of_own, of_deviate = _filling(log2).T
    row = np.searchsorted(np.cumsum(posterior.weight.sum(axis=1)), of_sigma).clip(max=posterior.sigma.size - 1)
    p = np.empty(row.size)
    for k in np.unique(row):
        grid, rising = distribution(posterior.p, posterior.weight[k])
        here = row == k
        p[here] = np.interp(of_p[here], rising, grid)
    centre = posterior.own.log_speed[row] + p * posterior.own.x[row]
    sd = np.sqrt(posterior.own.variance[row] + profile.common_relative_sd**2)
    return SpeedDraws(centre + sd * ndtri(of_own), p, ndtri(of_deviate))
