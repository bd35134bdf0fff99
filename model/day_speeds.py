"""Full-effort speeds with the own ball, gathered by day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from model.checks import check_number
from model.speed_readings import EFFORT_LIMIT
from model.throw import SPEED_LIMIT

SEASON_DAYS = 180  # half a year: judgement, no source


def season_start(today: date) -> date:
    """The first day of the readings that are used unless another is chosen.

    Returns
    -------
    date
        `SEASON_DAYS` before: long enough for a pre-season and a season's first half, short enough that a speed of last
        year does not stand for today's. Our own judgement.
    """
    return today - timedelta(SEASON_DAYS)


@dataclass(frozen=True)
class DatedSpeed:
    """A speed with the own ball that was read on a day.

    Parameters
    ----------
    speed_m_s : float
        Release speed (m/s).
    asked_effort : float, optional
        Share of full effort that was asked for; None and 1 are full effort.

    Raises
    ------
    InputError
        If a number is outside its accepted range.
    """

    day: date
    speed_m_s: float
    asked_effort: float | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "speed_m_s", check_number("speed_m_s", self.speed_m_s, SPEED_LIMIT))
        if self.asked_effort is not None:
            check_number("asked_effort", self.asked_effort, EFFORT_LIMIT)

    @property
    def full_effort(self) -> bool:
        """Whether the throw was at full effort."""
        return self.asked_effort in (None, 1.0)


@dataclass(frozen=True)
class DaySpeed:
    """The full-effort throws of a day with the own ball.

    Attributes
    ----------
    mean_m_s, best_m_s : float
        Their mean and the fastest (m/s).
    sd_m_s : float or None
        Standard deviation of the throws about their mean (n - 1 in the denominator, m/s); None of a single throw, or
        where it is not known.
    """

    day: date
    throws: int
    mean_m_s: float
    best_m_s: float
    sd_m_s: float | None = None


def by_day(readings: Iterable[DatedSpeed]) -> tuple[DaySpeed, ...]:
    """Gather the readings of each day; those at less than full effort are left out.

    Parameters
    ----------
    readings : iterable of DatedSpeed
        In any order.

    Returns
    -------
    tuple of DaySpeed
        The oldest day first.
    """
    days: dict[date, list[float]] = {}
    for reading in readings:
        if reading.full_effort:
            days.setdefault(reading.day, []).append(reading.speed_m_s)
    found = []
    for day, speeds in sorted(days.items()):
        sd = float(np.std(speeds, ddof=1)) if len(speeds) > 1 else None
        found.append(DaySpeed(day, len(speeds), float(np.mean(speeds)), max(speeds), sd))
    return tuple(found)
