"""A plan as it is kept: all it was made from, its steps and days, what was changed by hand, and its log.

It stands by itself: nothing in it is read from another page, so that it opens on another machine. What follows from it
(metrics, broken limits, days, the session that is next) is worked out here and never kept.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache

from model.ball import Ball
from model.build_up import Breach, Plan, PlanLimits, Step, check_plan, steps_of
from model.calendar_plan import (
    Budget,
    ByHand,
    Calendar,
    Schedule,
    SessionBreach,
    check_sessions,
    lay_out,
    order_of,
)
from model.checks import InputError
from model.course import Thrown, earliest_day, next_session, weeks_from
from model.full_speeds import SpeedTable
from model.person import Person

Throws = tuple[tuple[Ball, float], ...]
"""Steps as they are kept: ball and share of full speed with it."""


@dataclass(frozen=True)
class Acknowledgement:
    """That the text about growing throwers was read: by whom (initials) and when."""

    by: str
    on: date


@dataclass(frozen=True)
class Record:
    """A plan as it is kept.

    Attributes
    ----------
    code : str
        The athlete's.
    invented : bool
        Whether the athlete is of the demo data.
    person : Person
    own_ball : Ball
    table : SpeedTable
        Full speed with each ball, as known when the plan was made or new numbers were last taken.
    rests_on : str
        Where these speeds come from, in words.
    aim, lead : str
        Keys of `AIMS` and of `METRICS`.
    limits : PlanLimits
    throws : tuple of (Ball, float)
        The steps.
    repeats : tuple of int
        Sessions at each.
    why : str
        Why the balls come in this order.
    calendar : Calendar
    budget : Budget
    made_on : date
    mark : str
        What tells the plan from others: made of all it started from, and the same as long as it is kept.
    by_hand : mapping of int to ByHand
        What was set of single sessions, by their place in the whole row.
    changed : tuple of str
        What was changed since, one line each.
    read : Acknowledgement or None
    log : tuple of Thrown
    lifted : int
        A decision to stop among so many first sessions of the log no longer holds.
    not_before : date or None
        No session that is left is before it.
    refused : str
        Mark of the new numbers that were last refused; they are not asked about again.
    """

    code: str
    invented: bool
    person: Person
    own_ball: Ball
    table: SpeedTable
    rests_on: str
    aim: str
    lead: str
    limits: PlanLimits
    throws: Throws
    repeats: tuple[int, ...]
    why: str
    calendar: Calendar
    budget: Budget
    made_on: date
    mark: str
    by_hand: Mapping[int, ByHand] = field(default_factory=dict)
    changed: tuple[str, ...] = ()
    read: Acknowledgement | None = None
    log: tuple[Thrown, ...] = ()
    lifted: int = 0
    not_before: date | None = None
    refused: str = ""

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps with their metrics."""
        return steps_with(self.person, self.table, self.throws)

    @property
    def plan(self) -> Plan:
        """The plan, as the model has it."""
        return Plan(self.person, self.steps, self.limits, self.lead, 0.0, self.why)

    @property
    def order(self) -> tuple[int, ...]:
        """Which step each session is of."""
        return order_of(self.repeats)

    @property
    def at(self) -> int | None:
        """The next session's place in `order`; its length when all were thrown; None after a stop."""
        decisions = (
            "repeat" if one.decision == "stop" and i < self.lifted else one.decision for i, one in enumerate(self.log)
        )
        return next_session(self.order, decisions)

    @property
    def place(self) -> int:
        """The step that the next session is of; beyond the last when there is none."""
        order, at = self.order, self.at
        return order[at] if at is not None and at < len(order) else len(self.throws)


@dataclass(frozen=True)
class Course:
    """What follows from a kept plan.

    Attributes
    ----------
    record : Record
    breaches : tuple of Breach
        Limits that steps break, read off whole curves.
    order : tuple of int
        Which step each session is of.
    at : int or None
        The next session's place in it; None after a stop.
    calendar : Calendar
        As it holds for the sessions that are left: after a break its weeks begin anew.
    schedule : Schedule
        The sessions that are left.
    session_breaches : tuple of SessionBreach
        Of those; places from the first that is left.
    trouble : str
        Why the sessions that are left have no days; empty if they have.
    """

    record: Record
    breaches: tuple[Breach, ...]
    order: tuple[int, ...]
    at: int | None
    calendar: Calendar
    schedule: Schedule
    session_breaches: tuple[SessionBreach, ...]
    trouble: str = ""

    @property
    def done(self) -> bool:
        """Whether every session was thrown."""
        return self.at == len(self.order)


@lru_cache(maxsize=64)
def steps_with(person: Person, table: SpeedTable, throws: Throws) -> tuple[Step, ...]:
    """Steps with their metrics; kept for all that ask.

    Parameters
    ----------
    person : Person
    table : SpeedTable
    throws : tuple of (Ball, float)

    Returns
    -------
    tuple of Step
    """
    return steps_of(person, table, throws)


def broken(person: Person, table: SpeedTable, throws: Throws, limits: PlanLimits) -> tuple[Breach, ...]:
    """Which limits steps break, every step read anew off its whole curves; see `check_plan`.

    Parameters
    ----------
    person : Person
    table : SpeedTable
    throws : tuple of (Ball, float)
    limits : PlanLimits

    Returns
    -------
    tuple of Breach
    """
    return _broken(person, table, throws, tuple(limits.rises.items()), tuple(limits.caps.items()))


@lru_cache(maxsize=64)
def _broken(
    person: Person,
    table: SpeedTable,
    throws: Throws,
    rises: tuple[tuple[str, float], ...],
    caps: tuple[tuple[str, float], ...],
) -> tuple[Breach, ...]:
    limits = PlanLimits(dict(rises), dict(caps))
    return check_plan(Plan(person, steps_with(person, table, throws), limits, "rise_rate", 0.0, ""))


def course_of(record: Record) -> Course:
    """Work out what follows from a kept plan.

    Parameters
    ----------
    record : Record

    Returns
    -------
    Course
    """
    breaches = broken(record.person, record.table, record.throws, record.limits)
    order, at = record.order, record.at
    left = order[at:] if at is not None else ()
    first, target = record.calendar.first_day, record.calendar.target_day
    begin = earliest_day(max(first, record.not_before or first), record.log)
    weeks = weeks_from(first, record.log, begin)
    missed = target is not None and target < weeks
    calendar = replace(record.calendar, first_day=weeks, target_day=None if missed else target)
    by_hand = {i - (at or 0): one for i, one in record.by_hand.items() if i >= (at or 0)}
    try:
        laid = lay_out(record.steps, left, calendar, record.budget, not_before=begin, by_hand=by_hand)
        trouble = ""
    except InputError as error:
        laid, trouble = Schedule((), None, None), f"No days: {error.accepted} is needed."
    if missed and target is not None and laid.sessions:
        laid = replace(laid, days_late=(laid.sessions[-1].day - target).days, spare_sessions=-len(laid.sessions))
    found = check_sessions(laid.sessions, calendar, record.budget)
    return Course(record, breaches, order, at, calendar, laid, found, trouble)
