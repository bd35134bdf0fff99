"""Which ball to throw next, and how often, to learn most of an athlete's exponent.

For given a, p and sigma the mean of k more throws with a ball is normal. So what the posterior would become can be
computed for any outcome, and its interval averaged over the outcomes that the present posterior expects: one integral
over one number, no simulation. Throws with the own ball tell of a alone, throws with others never of an a that was
measured (`speed_posterior`).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.checks import InputError, check_number
from model.interval import LEVEL, tails_of
from model.speed import SpeedProfile
from model.speed_own import Measured, Regressed, distribution
from model.speed_posterior import OWN_X, Posterior
from model.speed_readings import THROWS_LIMIT

Array = NDArray[np.float64]

THROWS = (1, 2, 3, 5)  # how many further throws are looked at, unless other counts are asked for
THINNED = 3  # every third sigma is enough
OUTCOMES = np.linspace(-4.0, 4.0, 25)  # outcomes averaged over, in predictive standard deviations


@dataclass(frozen=True)
class NextReading:
    """What some further throws with a ball can be expected to do to the interval of the exponent.

    Attributes
    ----------
    throws : int
        How many, at full effort.
    width_now, width_then : float
        Width of the exponent's interval now, and on average after them.
    level : float
        Probability of the interval.
    """

    ball: Ball
    throws: int
    width_now: float
    width_then: float
    level: float

    @property
    def ratio(self) -> float:
        """Width then as a share of the width now."""
        return self.width_then / self.width_now


def next_readings(
    profile: SpeedProfile, rack: Sequence[Ball], *, throws: Sequence[int] = THROWS, level: float = LEVEL
) -> tuple[NextReading, ...]:
    """Look at every ball of a rack and several numbers of throws.

    Parameters
    ----------
    level : float
        Probability of the interval.

    Returns
    -------
    tuple of NextReading
        For each number of throws in the order given, the ball that narrows the interval most first.

    Raises
    ------
    InputError
        If there is no reading yet (one ball alone tells nothing of p: begin with the own ball), or a value is not
        accepted.
    """
    own = profile.posterior.own
    if own is None:
        accepted = "at least one, or an own-ball speed: begin with the own ball"
        raise InputError("readings", "none at full effort", accepted)
    if not rack:
        raise InputError("rack", "no ball", "one ball or more")
    now = profile.exponent(level)
    found = []
    for count in throws:
        number = int(check_number("throws", count, THROWS_LIMIT))
        expected = [_expected_width(profile.posterior, own, profile.x(ball.mass_kg), number, level) for ball in rack]
        widths = np.minimum(expected, now.high - now.low).tolist()  # throws that tell nothing leave it as it is
        order = np.argsort(widths, kind="stable")
        found += [NextReading(rack[i], number, now.high - now.low, widths[i], level) for i in order]
    return tuple(found)


def _expected_width(seen: Posterior, own: Measured | Regressed, x: Array, throws: int, level: float) -> float:
    """Width of the exponent's interval after further throws, averaged over their outcomes."""
    every = slice(None, None, THINNED)
    sigma = seen.sigma[every]
    if isinstance(own, Measured):
        share, given = own.share, own.given[:, every] / own.given[:, every].sum(axis=(1, 2), keepdims=True)
        joint = share[:, None, None] * given  # (J, K, P)
        p = own.offset + own.slope * (own.nodes - own.mean)[:, None, None]
        mean = own.nodes[:, None, None] - p * x
        variance = (sigma**2 / throws)[:, None]
    else:
        joint = seen.weight[None, every] / seen.weight[every].sum()
        mean = own.log_speed[every, None] + seen.p * (own.x[every, None] - x)
        variance = (own.variance[every] + sigma**2 / throws)[:, None]
    middle = float((joint * mean).sum())
    spread = float(np.sqrt((joint * (variance + (mean - middle) ** 2)).sum()))
    outcome = (middle + spread * OUTCOMES)[:, None, None, None]
    told = joint * np.exp(-0.5 * (outcome - mean) ** 2 / variance) / np.sqrt(variance)  # (outcomes, J, K, P)
    evidence = told.sum(axis=(1, 2, 3))
    if not isinstance(own, Measured):
        after = told.sum(axis=(1, 2))
    elif abs(x) < OWN_X:
        after = own.over(seen.p, told.sum(axis=(2, 3))[..., None] * given.sum(axis=1))
    else:
        after = own.over(seen.p, share[:, None] * told.sum(axis=2) / told.sum(axis=(2, 3))[..., None])
    grid, rising = distribution(seen.p, after)
    low, _, high = tails_of(level)
    widths = [np.interp(high, row, grid) - np.interp(low, row, grid) for row in rising]
    return float(evidence @ np.array(widths) / evidence.sum())
