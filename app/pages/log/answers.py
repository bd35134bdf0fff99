"""What the log of an athlete comes to: sessions and calendar weeks, done beside planned. Pure."""

from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import groupby
from types import MappingProxyType
from typing import Any

from app.records.reads import AthleteData, person_on
from app.show.sessions import Entry, Sessions, sessions_of
from model.person import Person
from model.tally import WEEK, Session, Tally, Thrown, Week, book_of


@dataclass(frozen=True)
class SessionLine:
    """A session: its numbers, its entries, and what was planned for it, if anything was."""

    session: Session
    entries: tuple[Entry, ...]
    planned: Tally | None

    @property
    def plan_name(self) -> str:
        """The name of its plan; empty for a session of none."""
        return self.entries[0].plan_name


@dataclass(frozen=True)
class WeekLine:
    """A calendar week: its numbers, what was planned, how many throws were of no plan, and whether it is over."""

    week: Week
    planned: Tally | None
    outside: int
    over: bool

    @property
    def empty(self) -> bool:
        """Whether nothing of it is in the log."""
        return self.week.sessions == 0


@dataclass(frozen=True)
class LogAnswer:
    """What the page shows.

    Attributes
    ----------
    read : Sessions
        As the records have them.
    missing : tuple of str
        Paths of the measures without which nothing can be summed.
    reading : str
        The torque that is summed, a key of `model.tally.TORQUES`.
    level_nm : float or None
    sessions : tuple of Session
        The oldest first.
    weeks : tuple of WeekLine
        Without a gap, up to this week.
    today : date
    planned : mapping of (date, str) to Tally
        What was planned for a session, by day and session.
    """

    read: Sessions
    missing: tuple[str, ...]
    reading: str
    level_nm: float | None
    sessions: tuple[Session, ...]
    weeks: tuple[WeekLine, ...]
    today: date
    planned: Mapping[tuple[date, str], Tally] = field(default_factory=lambda: MappingProxyType({}))

    def session_lines(self, start: int, stop: int) -> list[SessionLine]:
        """A page of the sessions, the newest first, with what was thrown in each."""
        shown = self.sessions[::-1][start:stop]
        parts: dict[tuple[date, str], list[Entry]] = {(one.day, one.session): [] for one in shown}
        for entry in self.read.entries:
            if (entry.day, entry.session) in parts:
                parts[entry.day, entry.session].append(entry)
        keys = ((one, (one.day, one.session)) for one in shown)
        return [SessionLine(one, tuple(parts[key]), self.planned.get(key)) for one, key in keys]

    @property
    def last(self) -> WeekLine | None:
        """The newest week of which something is in the log."""
        return next((week for week in reversed(self.weeks) if not week.empty), None)


def answer_of(data: AthleteData, today: date) -> LogAnswer:
    """Count and sum the log of an athlete.

    Parameters
    ----------
    data : AthleteData
    today : date
        Weeks are counted up to it.

    Returns
    -------
    LogAnswer
    """
    read, settings = sessions_of(data), data.settings
    reading, level = settings["log.reading"], settings["log.level_nm"]
    people, missing = people_of(data, today)
    if not read.entries or missing:
        return LogAnswer(read, missing, reading, level, (), (), today)
    days = [day for day, _ in people]

    def thrower(day: date) -> Person:
        return people[max(0, bisect_right(days, day) - 1)][1]

    done = [one.done_by(thrower(one.day)) for one in read.entries]
    planned = [one.planned_for(thrower(one.day)) for one in read.entries if one.has_plan]
    first, last = done[0].day, max(done[-1].day, today)
    how: dict[str, Any] = {"reading": reading, "level_nm": level, "since": first, "until": last}
    book, plan_book = book_of(done, **how), book_of(planned, **how)
    return LogAnswer(
        read,
        missing,
        reading,
        level,
        book.sessions,
        _week_lines(read.entries, book.weeks, plan_book.weeks, planned, today),
        today,
        {(one.day, one.session): one.tally for one in plan_book.sessions},
    )


def people_of(data: AthleteData, today: date) -> tuple[list[tuple[date, Person]], tuple[str, ...]]:
    """The athlete as measured, from each day on which something was; what was thrown before is by the first measures.

    Returns
    -------
    list of (date, Person)
    tuple of str
        Paths of what is missing today; without it the list is empty.
    """
    person, missing = person_on(data, today)
    if person is None:
        return [], tuple(missing)
    days = sorted({row.day for row in data.measures if row.day <= today}) or [today]
    found = [(day, person_on(data, day)[0]) for day in days]
    return [(day, one) for day, one in found if one is not None], ()


def monday_of(day: date) -> date:
    """The first day of a day's week."""
    return day - timedelta(day.weekday())


def _week_lines(
    entries: tuple[Entry, ...],
    done: tuple[Week, ...],
    planned: tuple[Week, ...],
    planned_entries: list[Thrown],
    today: date,
) -> tuple[WeekLine, ...]:
    with_plan = {monday_of(one.day) for one in planned_entries}
    outside: Counter[date] = Counter()
    for one in entries:
        if not (one.plan or one.has_plan):
            outside[monday_of(one.day)] += one.throws
    of = {one.monday: one.tally for one in planned}
    return tuple(
        WeekLine(
            one, of[one.monday] if one.monday in with_plan else None, outside[one.monday], one.monday + WEEK <= today
        )
        for one in done
    )


@dataclass(frozen=True)
class Gap:
    """Weeks one after another of which nothing is in the log."""

    first: Week
    last: Week
    weeks: int


def with_gaps(weeks: tuple[WeekLine, ...]) -> list[WeekLine | Gap]:
    """The weeks, the newest first; several that are empty, one after another, as one line."""
    made: list[WeekLine | Gap] = []
    for empty, group in groupby(reversed(weeks), key=lambda line: line.empty and line.over):
        lines = list(group)
        if empty and len(lines) > 1:
            made.append(Gap(lines[-1].week, lines[0].week, len(lines)))
        else:
            made += lines
    return made
