"""Readings that do not sit with the others: flagged, their pull shown, none dropped."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from model.interval import LEVEL, Interval, tails_of
from model.speed import SpeedProfile
from model.speed_posterior import mixture_quantiles, posterior_of
from model.speed_readings import Point, observations_of

WILD = 0.05  # a point is called wild if even the farthest of as many were so far out with less than this probability


@dataclass(frozen=True)
class PointCheck:
    """How one point sits with all others.

    Attributes
    ----------
    point : Point
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
    profile : SpeedProfile
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
    posteriors = [posterior_of(seen.without(i)) for i in range(len(points))]
    parts = [
        posterior.components(seen.x[[i]], float(np.sqrt(seen.spread[i])), float(seen.shift[i]))
        for i, posterior in enumerate(posteriors)
    ]
    mean, sd, weight = (_stacked([np.ravel(part[k]) for part in parts], filling) for k, filling in enumerate((0, 1, 0)))
    expected = np.exp(mixture_quantiles(tails, mean, sd, weight)).T
    below = np.sum(weight * ndtr((seen.log_speed[:, None] - mean) / sd), axis=1)
    outside = 2.0 * np.minimum(below, 1.0 - below)
    return tuple(
        PointCheck(
            point,
            _interval(speeds, level),
            float(tail),
            bool(tail * len(points) < WILD),
            _interval(posterior.quantile_p(tails), level),
        )
        for point, speeds, tail, posterior in zip(points, expected, outside, posteriors, strict=True)
    )


def _interval(quantiles: NDArray[np.float64], level: float) -> Interval:
    low, middle, high = quantiles.tolist()
    return Interval(middle, low, high, level)


def _stacked(rows: list[NDArray[np.float64]], filling: float) -> NDArray[np.float64]:
    """Rows of different lengths as one array, filled up at their ends."""
    found = np.full((len(rows), max(row.size for row in rows)), float(filling))
    for i, row in enumerate(rows):
        found[i, : row.size] = row
    return found
