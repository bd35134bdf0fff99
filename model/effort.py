"""Asked effort and the share of full speed that it brings.

Asked effort is not speed: pitchers asked for 75 % and 50 % threw at 90 % and 85 % of full speed (Fiegen 2023;
values.csv 4-effort-distance-10 and -12). Between the points the share is taken as straight, and nothing is said below
the lowest. The athlete's own readings with asked effort, where there are any, take the place of the published points.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from model.checks import InputError, Limit, check_number
from model.published import values
from model.speed import SpeedProfile
from model.speed_readings import RadarReading

FULL = 1.0
PUBLISHED_ROWS = {
    0.75: "4-effort-distance-10",
    0.50: "4-effort-distance-12",
}  # change of ball speed in % of full effort
SAME_EFFORT = 0.005  # asked efforts closer than this are one


@dataclass(frozen=True)
class EffortPoint:
    """A share of full speed at an asked effort.

    Attributes
    ----------
    asked_effort, speed_share : float
        Shares of full effort and of full speed.
    source : {'own', 'published', 'definition'}
        The athlete's own readings; Fiegen 2023 (carried on from the athlete's own lowest point, where there is one); or
        full effort itself.
    readings : int
        How many own readings it is the geometric mean of; 0 if none.
    """

    asked_effort: float
    speed_share: float
    source: str
    readings: int = 0


@dataclass(frozen=True)
class EffortCurve:
    """Share of full speed against asked effort: straight between its points, lowest effort first."""

    points: tuple[EffortPoint, ...]

    @property
    def lowest_effort(self) -> float:
        """The lowest asked effort of which anything is known."""
        return self.points[0].asked_effort

    @property
    def is_own(self) -> bool:
        """Whether any of it rests on the athlete's own readings."""
        return any(point.source == "own" for point in self.points)

    def share_of_speed(self, asked_effort: float) -> float:
        """Share of full speed that an asked effort brings.

        Parameters
        ----------
        asked_effort : float
            Share of full effort.

        Returns
        -------
        float
            The inertial part of torque goes as its square.

        Raises
        ------
        InputError
            Below the lowest point, or above full effort.
        """
        limit = Limit(self.lowest_effort, FULL, "of full effort")
        effort = check_number("asked_effort", asked_effort, limit)
        return float(np.interp(effort, *self._columns()))

    def effort_for(self, speed_share: float) -> float:
        """The lowest asked effort that brings a share of full speed.

        Parameters
        ----------
        speed_share : float
            Share of full speed.

        Returns
        -------
        float
            Share of full effort.

        Raises
        ------
        InputError
            Outside the shares that its points span.
        """
        effort, share = self._columns()
        wanted = check_number("speed_share", speed_share, Limit(share[0], max(share), "of full speed"))
        if wanted == share[0]:
            return effort[0]
        # own readings need not rise with effort: take the first stretch that reaches the share
        i = next(k for k in range(1, len(share)) if share[k] >= wanted)
        return float(np.interp(wanted, share[i - 1 : i + 1], effort[i - 1 : i + 1]))

    def _columns(self) -> tuple[list[float], list[float]]:
        return [point.asked_effort for point in self.points], [point.speed_share for point in self.points]


def published_effort() -> EffortCurve:
    """The published points: 50 % -> 85 %, 75 % -> 90 %, 100 % -> 100 % (Fiegen 2023, ten high-school pitchers)."""
    rows = values()
    found = [
        EffortPoint(effort, FULL + rows[row].number / 100.0, "published")
        for effort, row in sorted(PUBLISHED_ROWS.items())
    ]
    return EffortCurve((*found, EffortPoint(FULL, FULL, "definition")))


def effort_curve(readings: Iterable[RadarReading], profile: SpeedProfile | None = None) -> EffortCurve:
    """The athlete's own relation of speed to asked effort, as far as there are readings; else the published one.

    Each reading at less than full effort counts as its speed over the profile's mean full-effort speed with that ball.
    One point is made of all readings at one asked effort (geometric mean). Own points take the place of all published
    ones above the lowest of them; below it the published curve is carried on in proportion, so that the two meet.

    Parameters
    ----------
    readings : iterable of RadarReading
        Those at full effort are passed over: they are in the profile.
    profile : SpeedProfile, optional
        Fitted to full-effort readings; needed if any reading is at less.

    Raises
    ------
    InputError
        If readings at less than full effort are given without a profile that knows a full speed.
    """
    published = published_effort()
    groups: dict[int, list[RadarReading]] = {}
    for reading in readings:
        if reading.asked_effort < FULL:
            groups.setdefault(round(reading.asked_effort / SAME_EFFORT), []).append(reading)
    if not groups:
        return published
    if profile is None:
        raise InputError("profile", None, "a speed profile, to take full speed from")
    own = []
    for group in (groups[key] for key in sorted(groups)):
        full = profile.mean_speed([reading.ball_mass_kg for reading in group]).estimate
        logs = np.log([reading.speed_m_s for reading in group]) - np.log(full)
        own.append(EffortPoint(group[0].asked_effort, float(np.exp(logs.mean())), "own", len(group)))
    lowest = own[0]
    below = [point for point in published.points if point.asked_effort < lowest.asked_effort - SAME_EFFORT]
    carried = []
    if below:
        factor = lowest.speed_share / published.share_of_speed(lowest.asked_effort)
        carried = [EffortPoint(point.asked_effort, point.speed_share * factor, "published") for point in below]
    return EffortCurve((*carried, *own, EffortPoint(FULL, FULL, "definition")))
