"""What was thrown, counted and summed: by session, by calendar week, and a week beside the four before it.

Bookkeeping of the model's torques, no judgement: nothing here says what is much. All throws of an entry are taken to
have been thrown at its speed, so with the highest speed that was read the sums are upper bounds.

Weeks are those of ISO 8601, Monday to Sunday. A week without an entry between others counts as zero. What was thrown
before the log began is not known, and is not zero: a week is set beside the four before it only where the log covers
all four.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import date, timedelta
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.batch import read_throws
from model.channels import READINGS
from model.checks import InputError, Limit, check_choice, check_number
from model.person import Person
from model.quantity import ROWS, curve_parts
from model.readouts import read
from model.session_log import Logged
from model.throw import Throw, path_loads

Array = NDArray[np.float64]
K = TypeVar("K")

TORQUES = tuple(key for key, reading in READINGS.items() if reading.unit == "N·m")
COUNT_LIMIT = Limit(0, 10_000, "throws")
LEVEL_LIMIT = Limit(0.0, 2000.0, "N·m")
WEEKS_BEFORE = 4  # that a week is set beside, itself not among them: common practice, no source
WEEK = timedelta(7)


@dataclass(frozen=True)
class Thrown:
    """Throws alike, of one day.

    Parameters
    ----------
    throw : Throw
        The athlete as measured then, the ball and the speed.
    count : int
        How many.
    session : str
        What tells the day's sessions apart; a session may have many entries.

    Raises
    ------
    InputError
        If the count is no whole number within `COUNT_LIMIT`.
    """

    day: date
    throw: Throw
    count: int
    session: str = ""

    def __post_init__(self) -> None:
        count = check_number("count", self.count, COUNT_LIMIT)
        if count != int(count):
            raise InputError("count", self.count, f"a whole number from {COUNT_LIMIT}")
        object.__setattr__(self, "count", int(count))


def done_of(person: Person, logged: Logged, session: str = "") -> Thrown:
    """What was thrown in a session of a plan.

    Parameters
    ----------
    session : str
        What tells the day's sessions apart.

    Returns
    -------
    Thrown
        At the highest speed that was read, also where that was more than planned; at the planned one where none was.
    """
    speed = logged.speed_m_s if logged.top_speed_m_s is None else logged.top_speed_m_s
    return Thrown(logged.day, Throw(person, logged.ball, speed), logged.throws, session)


def planned_of(person: Person, logged: Logged, session: str = "") -> Thrown:
    """What was planned for a session that was thrown: as `done_of`, with the planned count and speed."""
    return Thrown(logged.day, Throw(person, logged.ball, logged.speed_m_s), logged.planned, session)


@dataclass(frozen=True)
class Tally:
    """Four numbers of some throws, each by itself.

    Attributes
    ----------
    throws : float
        How many; a mean of weeks need not be whole.
    peak_nm : float
        Highest peak of all throws (N m); 0 if nothing was thrown.
    area_nm_s : float
        Area under the curve, summed over all throws (N m s).
    area_above_nm_s : float or None
        Area between the curve and a level where the curve is above it, summed over all throws (N m s): the integral of
        max(torque - level, 0). None without a level.
    """

    throws: float
    peak_nm: float
    area_nm_s: float
    area_above_nm_s: float | None


@dataclass(frozen=True)
class Session:
    """A session: its day, what tells it from others of that day, the balls that were thrown, and its numbers."""

    day: date
    session: str
    balls: tuple[Ball, ...]
    tally: Tally


@dataclass(frozen=True)
class Ratios:
    """A week's numbers over the mean of those of the weeks before; None where that mean is 0 or there is no level."""

    throws: float | None
    peak: float | None
    area: float | None
    area_above: float | None


@dataclass(frozen=True)
class Week:
    """A calendar week.

    Attributes
    ----------
    monday : date
        Its first day.
    year, number : int
        By ISO 8601: the days round New Year may belong to a week of the other year, and some years have a week 53.
    before : Tally or None
        Mean of each number over the `WEEKS_BEFORE` weeks before, zeros among them; None where the log does not cover
        all of these.
    ratios : Ratios or None
        This week over that mean.
    """

    monday: date
    year: int
    number: int
    sessions: int
    tally: Tally
    before: Tally | None
    ratios: Ratios | None

    @property
    def sunday(self) -> date:
        """Its last day: until then more may come."""
        return self.monday + timedelta(6)


@dataclass(frozen=True)
class Book:
    """A log counted by session and by calendar week, the oldest first.

    Attributes
    ----------
    reading : str
        What was summed, a key of `TORQUES`.
    weeks : tuple of Week
        Without a gap, from the log's first to its last.
    """

    reading: str
    level_nm: float | None
    sessions: tuple[Session, ...]
    weeks: tuple[Week, ...]


def book_of(
    log: Iterable[Thrown],
    *,
    reading: str = "varus",
    level_nm: float | None = None,
    since: date | None = None,
    until: date | None = None,
) -> Book:
    """Count and sum a log.

    Parameters
    ----------
    log : iterable of Thrown
        In any order.
    reading : str
        The torque, a key of `TORQUES`.
    level_nm : float, optional
        Level (N m) of the area above it.
    since, until : date, optional
        Days from which and up to which everything thrown is in the log, if earlier and later than its entries: the
        weeks between count as zero.

    Returns
    -------
    Book
        Without sessions and weeks where nothing was logged and no days were given.

    Raises
    ------
    InputError
        If the reading is unknown, the level not accepted, or the log has entries outside the days given.
    """
    check_choice("reading", reading, TORQUES)
    level = None if level_nm is None else check_number("level_nm", level_nm, LEVEL_LIMIT)
    entries = sorted(log, key=lambda one: (one.day, one.session))
    first, last = _ends(entries, since, until)
    table = _table(entries, reading, level)
    sessions = []
    for (day, session), rows in _grouped((one.day, one.session) for one in entries).items():
        balls = dict.fromkeys(entries[row].throw.ball for row in rows if entries[row].count)
        sessions.append(Session(day, session, tuple(balls), _tally(table[rows], level)))
    if first is None or last is None:
        return Book(reading, level, tuple(sessions), ())
    of_week = _grouped(_monday(one.day) for one in entries)
    mondays = [_monday(first) + k * WEEK for k in range((_monday(last) - _monday(first)).days // 7 + 1)]
    tallies = [_tally(table[of_week.get(monday, [])], level) for monday in mondays]
    counts = {monday: len({(entries[row].day, entries[row].session) for row in of_week[monday]}) for monday in of_week}
    weeks = []
    for k, (monday, tally) in enumerate(zip(mondays, tallies, strict=True)):
        before = _mean(tallies[k - WEEKS_BEFORE : k]) if k >= WEEKS_BEFORE else None
        ratios = None if before is None else _ratios(tally, before)
        year, number, _ = monday.isocalendar()
        weeks.append(Week(monday, year, number, counts.get(monday, 0), tally, before, ratios))
    return Book(reading, level, tuple(sessions), tuple(weeks))


def _ends(entries: Sequence[Thrown], since: date | None, until: date | None) -> tuple[date | None, date | None]:
    """First and last day that the log covers; None for both where there is nothing to go by."""
    first = entries[0].day if entries else since or until
    last = entries[-1].day if entries else until or since
    if since is not None and first is not None and first < since:
        raise InputError(
            "since", since.isoformat(), f"{first.isoformat()} or earlier: the log has an entry of that day"
        )
    if until is not None and last is not None and last > until:
        raise InputError("until", until.isoformat(), f"{last.isoformat()} or later: the log has an entry of that day")
    return since or first, until or last


def _monday(day: date) -> date:
    return day - timedelta(day.weekday())


def _grouped(keys: Iterable[K]) -> dict[K, list[int]]:
    found: dict[K, list[int]] = {}
    for row, key in enumerate(keys):
        found.setdefault(key, []).append(row)
    return found


def _table(entries: Sequence[Thrown], reading: str, level: float | None) -> Array:
    """Count, peak, area and area above a level of one throw of each entry (N, 4); each different throw is read once."""
    places: dict[Throw, int] = {}
    which = [places.setdefault(one.throw, len(places)) for one in entries]
    throws = list(places)
    readouts = read_throws(throws, [reading])[reading]
    above = np.zeros(len(throws)) if level is None else areas_above(throws, reading, level)
    counts = np.array([one.count for one in entries], dtype=float)
    return np.column_stack((counts, np.column_stack((readouts.peak, readouts.area, above))[which]))


def areas_above(throws: Sequence[Throw], reading: str, level_nm: float) -> Array:
    """Area between each throw's curve and a level, where the curve is above it.

    Parameters
    ----------
    throws : sequence of Throw
        All of them, M.
    reading : str
        A key of `TORQUES`.
    level_nm : float
        The level (N m).

    Returns
    -------
    ndarray (len(throws),)
        In N m s: the integral over time of max(torque - level, 0), in the reading's window.
    """
    source, found = READINGS[reading], np.empty(len(throws))
    for (person, diameter_m), rows in _grouped((one.person, one.ball.diameter_m) for one in throws).items():
        loads = path_loads(person, diameter_m)
        mass = np.array([throws[row].ball.mass_kg for row in rows])
        clock = np.atleast_1d(loads.clock(np.array([throws[row].speed_m_s for row in rows])))
        for start in range(0, len(rows), ROWS):
            some = slice(start, start + ROWS)
            inertial, weight = curve_parts(loads, source, mass[some])
            over = clock[some, None] ** 2 * inertial + weight - level_nm
            read_over = read(loads.phase, over, window=(source.start_phase, source.end_phase))
            found[rows[some]] = read_over.in_time(loads.duration_s / clock[some]).area
    return found


def _tally(rows: Array, level: float | None) -> Tally:
    """Numbers of some rows of a table (R, 4)."""
    counts, peaks, areas, above = rows.T
    peak = float(peaks[counts > 0].max(initial=0.0))
    return Tally(int(counts.sum()), peak, float(counts @ areas), None if level is None else float(counts @ above))


def _mean(tallies: Sequence[Tally]) -> Tally:
    def mean(values: list[float | None]) -> float | None:
        known = [value for value in values if value is not None]
        return sum(known) / len(known) if known else None

    found: Mapping[str, float | None] = {
        field.name: mean([getattr(one, field.name) for one in tallies]) for field in fields(Tally)
    }
    return Tally(**found)  # type: ignore[arg-type]


def _ratios(week: Tally, before: Tally) -> Ratios:
    def ratio(now: float | None, then: float | None) -> float | None:
        return now / then if now is not None and then else None

    return Ratios(
        ratio(week.throws, before.throws),
        ratio(week.peak_nm, before.peak_nm),
        ratio(week.area_nm_s, before.area_nm_s),
        ratio(week.area_above_nm_s, before.area_above_nm_s),
    )
