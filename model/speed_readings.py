"""Radar readings, and what of them a speed profile is fitted to: all throws, their mean or the best of each ball."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

import numpy as np
from scipy.special import ndtr

from model.ball import BALL_LIMITS
from model.checks import InputError, Limit, check_choice, check_number
from model.speed_posterior import Observations
from model.throw import SPEED_LIMIT

EFFORT_LIMIT = Limit(0.1, 1.0, "of full effort")
THROWS_LIMIT = Limit(1, 1000, "throws")
SAME_BALL_KG = 1e-4  # masses that differ by less are one ball

BASES = {
    "all": "every throw",
    "mean": "the mean of each ball",
    "best": "the best throw of each ball. The best of several lies above the mean throw, the more so the more were "
    "thrown: the fit takes this excess off, by normal order statistics, so that two throws with one ball and ten with "
    "another are compared fairly and the profile still speaks of the mean full-effort throw",
}
"""What a profile can be fitted to, in words."""


@dataclass(frozen=True)
class RadarReading:
    """One reading.

    Parameters
    ----------
    ball_mass_kg, speed_m_s : float
        Ball mass (kg) and release speed (m/s); a radar's own speed is corrected first, if at all (`radar`).
    asked_effort : float
        Share of full effort that was asked for, 1 for full effort.
    throws : int
        How many throws the number stands for, if it is already their mean or the best of them.
    on : date, optional
        The day.

    Raises
    ------
    InputError
        If a value is outside its accepted range.
    """

    ball_mass_kg: float
    speed_m_s: float
    asked_effort: float = 1.0
    throws: int = 1
    on: date | None = None

    def __post_init__(self) -> None:
        limits = {"ball_mass_kg": BALL_LIMITS["mass_kg"], "speed_m_s": SPEED_LIMIT, "asked_effort": EFFORT_LIMIT}
        for field, limit in limits.items():
            object.__setattr__(self, field, check_number(field, getattr(self, field), limit))
        throws = check_number("throws", self.throws, THROWS_LIMIT)
        if throws != int(throws):
            raise InputError("throws", self.throws, f"a whole number from {THROWS_LIMIT}")
        object.__setattr__(self, "throws", int(throws))


@dataclass(frozen=True)
class Point:
    """What the fit sees of one ball, or of one throw.

    Attributes
    ----------
    ball_mass_kg, speed_m_s : float
        Ball mass (kg) and the speed used (m/s).
    throws : int
        How many throws it is the mean or the best of.
    """

    ball_mass_kg: float
    speed_m_s: float
    throws: int


def points_of(readings: Iterable[RadarReading], basis: str) -> tuple[tuple[Point, ...], tuple[RadarReading, ...]]:
    """Sort readings into what is used and what is left out.

    Readings at less than full effort are left out: what share of full speed they are is just what is not known of this
    athlete. They are not lost: `effort` learns the athlete's own shares from them.

    Parameters
    ----------
    basis : {'all', 'mean', 'best'}

    Returns
    -------
    tuple of Point
        For 'all' in the order given, else one for each ball, light to heavy.
    tuple of RadarReading
        Those left out.

    Raises
    ------
    InputError
        If the basis is unknown, or 'all' meets a reading that stands for several throws.
    """
    check_choice("basis", basis, BASES)
    readings = tuple(readings)
    used = tuple(reading for reading in readings if reading.asked_effort == 1.0)
    left_out = tuple(reading for reading in readings if reading.asked_effort != 1.0)
    if basis == "all":
        for reading in used:
            if reading.throws != 1:
                raise InputError("throws", reading.throws, "1 when every throw is used; else work from mean or best")
        return tuple(Point(reading.ball_mass_kg, reading.speed_m_s, 1) for reading in used), left_out
    balls: dict[int, list[RadarReading]] = {}
    for reading in sorted(used, key=lambda one: one.ball_mass_kg):
        balls.setdefault(round(reading.ball_mass_kg / SAME_BALL_KG), []).append(reading)
    points = []
    for group in balls.values():
        throws = [reading.throws for reading in group]
        speeds = [reading.speed_m_s for reading in group]
        speed = max(speeds) if basis == "best" else float(np.average(speeds, weights=throws))
        points.append(Point(group[0].ball_mass_kg, speed, sum(throws)))
    return tuple(points), left_out


def observations_of(points: Iterable[Point], basis: str, own_mass_kg: float, mu_kg: float) -> Observations:
    """Put points into the form of the regression.

    Parameters
    ----------
    basis : {'all', 'mean', 'best'}
    own_mass_kg, mu_kg : float
        Mass of the own ball and the arm's equivalent mass (kg).
    """
    points = tuple(points)
    best = [best_of(point.throws) if basis == "best" else (0.0, 1.0 / point.throws) for point in points]
    masses = np.array([point.ball_mass_kg for point in points])
    return Observations(
        np.log((masses + mu_kg) / (own_mass_kg + mu_kg)),
        np.log([point.speed_m_s for point in points]),
        np.array([shift for shift, _ in best]),
        np.array([spread for _, spread in best]),
    )


@lru_cache(maxsize=1024)
def best_of(throws: int) -> tuple[float, float]:
    """Mean and variance of the largest of n standard normal numbers.

    E[max^k] = integral of z^k n phi(z) Phi(z)^(n-1) dz: 0 and 1 for one, 0.5642 and 0.6817 for two.

    Parameters
    ----------
    throws : int
        n, 1 or more.

    Returns
    -------
    (float, float)
        Mean, in standard deviations of one number, and variance, in variances of one.
    """
    z = np.linspace(-9.0, 9.0, 3601)  # the trapezoid rule is exact to rounding for so smooth a bell
    density = throws * np.exp(-0.5 * z * z) / math.sqrt(2.0 * math.pi) * ndtr(z) ** (throws - 1)
    mean = float(np.trapezoid(z * density, z))
    return mean, float(np.trapezoid((z - mean) ** 2 * density, z))
