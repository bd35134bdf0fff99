"""Where an athlete's exponent falls: the points at which a readout is level, the zones between them, their odds."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.channels import READINGS
from model.checks import InputError, check_choice
from model.identity import PathLoads
from model.level import line_of
from model.quantity import READOUTS, Quantity
from model.speed import SpeedProfile
from model.throw import Throw, path_loads

Array = NDArray[np.float64]

ZONE_SENTENCES = (
    "every readout before release rises with a heavier ball",
    "the rise is gentler but the peak higher",
    "the peak falls while the area still grows",
    "only the time grows",
)
"""What a heavier ball does in each zone, from the smallest exponent to the largest."""

BRAKING = "after release the hand is empty: only the clock counts there, and a slower throw lowers it"


@dataclass(frozen=True)
class LevelPoints:
    """Exponents at which a heavier ball leaves a readout as it is, for each of several balls.

    Attributes
    ----------
    reading : str
        A key of `channels.READINGS`.
    mass_kg : ndarray (M,)
    rise_rate, peak, area, loaded_s : ndarray (M,)
        Exponents; infinite or NaN as `level.LevelLine.exponent` says.
    """

    reading: str
    mass_kg: Array
    rise_rate: Array
    peak: Array
    area: Array
    loaded_s: Array

    @property
    def borders(self) -> tuple[float, float, float] | None:
        """Borders of the four zones: the median over the balls of the points of rise rate, peak and area.

        None if a point does not exist, or if the points of time, rise rate, peak and area do not come in that order
        whichever balls are taken: then there are no such zones. An infinite last border leaves the fourth zone empty:
        the area grows however slow the throw.
        """
        ordered = (self.loaded_s, self.rise_rate, self.peak, self.area)
        if not self.mass_kg.size or any(np.isnan(points).any() for points in ordered):
            return None
        if any(below.max() >= above.min() for below, above in pairwise(ordered)):
            return None
        rise, peak, area = (float(np.median(points)) for points in ordered[1:])
        return rise, peak, area

    def span(self, readout: str) -> tuple[float, float]:
        """Smallest and largest point of a readout over the balls.

        Parameters
        ----------
        readout : str
            A key of `quantity.READOUTS`.

        Returns
        -------
        (float, float)
            Exponents, the smaller first.

        Raises
        ------
        InputError
            If the readout is unknown.
        """
        values = getattr(self, check_choice("readout", readout, READOUTS))
        return float(values.min()), float(values.max())


def level_points(reference: Throw, reading: str, mass_kg: ArrayLike) -> LevelPoints:
    """Find the level points of a reading for balls of the own ball's diameter.

    Parameters
    ----------
    reference : Throw
        The own ball, full effort.
    reading : str
        A key of `channels.READINGS`. For the braking group every point is 0: there only the clock counts.
    mass_kg : array_like (M,)
        Ball mass (kg).

    Raises
    ------
    InputError
        If the reading or a mass is not accepted.
    """
    loads = path_loads(reference.person, reference.ball.diameter_m)
    return points_of_arm(loads, reading, reference.ball.mass_kg, reference.speed_m_s, mass_kg)


def points_of_arm(
    loads: PathLoads, reading: str, own_mass_kg: float, own_speed_m_s: float, mass_kg: ArrayLike
) -> LevelPoints:
    """As `level_points`, for the curves of an arm.

    Parameters
    ----------
    own_mass_kg, own_speed_m_s : float
        The reference throw (kg, m/s).
    mass_kg : array_like (M,)
    """
    masses = np.atleast_1d(np.asarray(mass_kg, dtype=float))
    lines = {
        readout: line_of(loads, Quantity(reading, readout), own_mass_kg, own_speed_m_s, masses).exponent
        for readout in READOUTS
    }
    return LevelPoints(reading, masses, **lines)


@dataclass(frozen=True)
class Zone:
    """One zone of the exponent.

    Attributes
    ----------
    sentence : str
        What a heavier ball does there.
    low, high : float
        Its borders; 0 and infinity at the ends.
    probability : float
        Posterior probability that the athlete's exponent lies in it.
    """

    sentence: str
    low: float
    high: float
    probability: float


@dataclass(frozen=True)
class Standing:
    """Where an athlete stands.

    Attributes
    ----------
    zones : tuple of Zone
        The four, from the smallest exponent to the largest.
    best : Zone
        The one that the best estimate of the exponent (the median) falls in.
    """

    zones: tuple[Zone, ...]
    best: Zone


def standing(profile: SpeedProfile, points: LevelPoints) -> Standing:
    """Lay a profile's exponent on the zones.

    Parameters
    ----------
    points : LevelPoints
        Of the same athlete.

    Raises
    ------
    InputError
        If the reading has no such zones: it belongs to the braking group, or its points are missing or out of order.
    """
    borders = points.borders
    if READINGS[points.reading].braking or borders is None:
        raise InputError("reading", points.reading, "one before release whose rise rate, peak and area can be level")
    below = np.concatenate(([0.0], profile.probability_below(borders), [1.0]))
    edges = (0.0, *borders, np.inf)
    zones = tuple(
        Zone(sentence, low, high, float(chance))
        for sentence, (low, high), chance in zip(ZONE_SENTENCES, pairwise(edges), np.diff(below), strict=True)
    )
    middle = profile.exponent().estimate
    return Standing(zones, next(zone for zone in zones if zone.low <= middle < zone.high))
