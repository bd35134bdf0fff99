"""Readings that do not sit with the others, or not on one curve: flagged, their pull shown, none dropped."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaincc, ndtr

from model.interval import LEVEL, Interval, tails_of
from model.speed import SpeedProfile
from model.speed_posterior import OWN_X, Observations, posterior_of
from model.speed_prior import NOISE_PRIOR
from model.speed_readings import Point, observations_of

WILD = 0.05  # a point is called wild if even the farthest of as many were so far out with less than this probability


OFF_CURVE = 0.005  # readings are not on one curve if chance would put them so far from it less often (judgement)
EXPONENT_REACH = (0.0, 2.5)  # exponents looked at: beyond the prior's 1 in 10 000 either way, none is believed
SIGMAS = 400  # quantiles of the noise's prior averaged over


@dataclass(frozen=True)
class CurveCheck:
    """Whether one law can hold all readings together.

    Attributes
    ----------
    one_curve : bool
        Whether it can; always for fewer than three points.
    chance : float
        Probability that readings on one curve would scatter so much about the best one.
    exponent : float
        Of that best curve.
    own_speed_m_s : float
        Where the best curve has the own ball (m/s): what was read with it is not moved there.
    farthest : Point or None
        The point farthest off that curve, in the spread of its readings; None if there is none.
    """

    one_curve: bool
    chance: float
    exponent: float
    own_speed_m_s: float
    farthest: Point | None


def check_curve(profile: SpeedProfile) -> CurveCheck:
    """Hold all readings against the one curve that fits them best, whatever is taken of the own ball.

    S is the least sum of squares of the logs about the law, each over the variance that it has in sigma^2, with a and
    the exponent free (the exponent within `EXPONENT_REACH`). For a given sigma S / sigma^2 is chi-squared with n - 2
    degrees of freedom; the chance of as much is averaged over what the noise is believed to be before any reading.

    Parameters
    ----------
    profile : SpeedProfile

    Returns
    -------
    CurveCheck
    """
    points = profile.points
    if not points:
        return CurveCheck(True, 1.0, np.nan, np.nan, None)
    seen = observations_of(points, profile.basis, profile.own_mass_kg, profile.mu_kg)
    a, p, residual = _best_curve(seen)
    squares, freedom = float(np.sum(residual**2)), len(points) - 2
    chance = 1.0
    if freedom > 0:
        sigma = NOISE_PRIOR.ppf((np.arange(SIGMAS) + 0.5) / SIGMAS)
        chance = float(gammaincc(0.5 * freedom, 0.5 * squares / sigma**2).mean())
    elif squares > 0.0 and len(points) == 2:  # no exponent that is believed goes through both
        sigma = NOISE_PRIOR.ppf((np.arange(SIGMAS) + 0.5) / SIGMAS)
        chance = float(gammaincc(0.5, 0.5 * squares / sigma**2).mean())
    off = chance < OFF_CURVE
    farthest = points[int(np.abs(residual).argmax())] if off else None
    return CurveCheck(not off, chance, p, float(np.exp(a)), farthest)


def _best_curve(seen: Observations) -> tuple[float, float, NDArray[np.float64]]:
    """Least squares of the law with its exponent bounded: a, p, and the residuals over the root of their spread."""
    shifted = seen.log_speed - seen.shift * float(NOISE_PRIOR.median())
    weight = 1.0 / seen.spread
    x, y = seen.x, shifted
    x_mean, y_mean = float(weight @ x / weight.sum()), float(weight @ y / weight.sum())
    across = float(weight @ (x - x_mean) ** 2)
    flat = across < OWN_X**2
    slope = 0.0 if flat else -float(weight @ ((x - x_mean) * (y - y_mean))) / across
    p = float(np.clip(slope, *EXPONENT_REACH))
    a = y_mean + p * x_mean
    return a, p, (y - a + p * x) * np.sqrt(weight)


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
