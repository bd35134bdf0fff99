"""Readings that do not sit with the others: flagged, their pull shown, none dropped."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from model.interval import LEVEL, Interval, tails_of
from model.speed import SpeedProfile
from model.speed_posterior import posterior_of
from model.speed_readings import Point, observations_of

WILD = 0.05  # a point is called wild if even the farthest of as many were so far out with less than this probability


@dataclass(frozen=True)
class PointCheck:
    """How one point sits with all others.

    Attributes
    ----------
    expected : Interval
        Speed (m/s) that the others lead one to expect.
    tail : float
        Probability, by the others, of a speed at least so far out, both tails together.
    wild : bool
        Whether even the farthest of as many readings would be so far out with less than 5 % probability.
    exponent_without : Interval
        The exponent had this point not been there: set beside `SpeedProfile.exponent` it is the point's pull.
    """

    point: Point
    expected: Interval
    tail: float
    wild: bool
    exponent_without: Interval


def check_points(profile: SpeedProfile, level: float = LEVEL) -> tuple[PointCheck, ...]:
    """Hold every point against the profile fitted to the others; none is ever dropped.

    Parameters
    ----------
    level : float
        Probability of the intervals.

    Returns
    -------
    tuple of PointCheck
        In the order of `profile.points`; empty for fewer than two. Two wild points can hide each other.
    """
    points = profile.points
    if len(points) < 2:
        return ()
    seen = observations_of(points, profile.basis, profile.own_mass_kg, profile.mu_kg)
    tails = tails_of(level)
    found = []
    for i, point in enumerate(points):
        posterior = posterior_of(seen.without(i))
        noise, shift, place = float(np.sqrt(seen.spread[i])), float(seen.shift[i]), seen.x[[i]]
        drawn = posterior.drawn
        centre = drawn.centres(place, shift)[0]
        below = float(ndtr((seen.log_speed[i] - centre) / (noise * drawn.sigma)).mean())
        tail = 2.0 * min(below, 1.0 - below)
        expected = np.exp(posterior.quantile(tails, place, noise=noise, shift=shift))[:, 0]
        without = posterior.quantile_p(tails)
        wild = tail * len(points) < WILD
        found.append(PointCheck(point, _interval(expected, level), tail, wild, _interval(without, level)))
    return tuple(found)


def _interval(quantiles: NDArray[np.float64], level: float) -> Interval:
    low, middle, high = quantiles.tolist()
    return Interval(middle, low, high, level)
