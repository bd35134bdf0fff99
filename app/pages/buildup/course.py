"""What follows from a kept plan: broken limits, what may come next, and on which days."""

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

import numpy as np

from app.pages.buildup.first_limits import passing
from app.pages.buildup.record import Record, Throws, steps_with
from model.ball import Ball
from model.build_up import Breach, Plan, PlanLimits, check_plan, metrics_at
from model.calendar_plan import (
    AREA_LIMIT,
    WEEK,
    Budget,
    Calendar,
    Schedule,
    Session,
    SessionBreach,
    budgets,
    check_sessions,
    lay_out,
)
from model.checks import InputError
from model.course import Standing, standing_of
from model.full_speeds import SpeedTable
from model.ladder import Row
from model.person import Person
from model.session_log import after_a_sign, earliest_day, weeks_from, withdrawn_of
from model.stop_signs import StopSign, standing

SIGNED = ("stop_sign", "plan_anew")
"""Reasons for which a plan stands still that are no matter of the log."""


@dataclass(frozen=True)
class Course:
    """What follows from a kept plan.

    Attributes
    ----------
    record : Record
    row : Row
        Its sessions in a row.
    breaches : tuple of Breach
        Limits that steps break, read off whole curves.
    passes : dict of int to tuple of str
        Limits from Start that steps pass: place, and keys of the limits.
    standing : Standing
        What may come next.
    calendar : Calendar
        As it holds for the sessions that are left: after a break, and after pain, its weeks begin anew.
    schedule : Schedule
        The sessions that are left.
    session_breaches : tuple of SessionBreach
        Of those; places from the first that is left.
    trouble : str
        Why the sessions that are left have no days; empty if they have.
    """

    record: Record
    row: Row
    breaches: tuple[Breach, ...]
    passes: dict[int, tuple[str, ...]]
    standing: Standing
    calendar: Calendar
    schedule: Schedule
    session_breaches: tuple[SessionBreach, ...]
    trouble: str = ""

    @property
    def closed(self) -> str:
        """Why there is no next session; one of `model.course.CLOSED`."""
        return self.standing.closed

    @property
    def done(self) -> bool:
        """Whether every session was thrown."""
        return self.closed == "done"

    @property
    def next(self) -> Session | None:
        """The next session; None while there is none."""
        return self.schedule.sessions[0] if self.schedule.sessions else None

    @property
    def place(self) -> int:
        """The step that comes next, or at which the plan stands; beyond the last when all was thrown."""
        if self.standing.rungs:
            return self.standing.rungs[0].place
        steps = len(self.record.throws)
        return steps if self.done else min(self.record.log[-1].place, steps - 1) if self.record.log else 0

    @property
    def signs(self) -> tuple[StopSign, ...]:
        """The stop signs that stand; the urgent ones first."""
        return standing(self.record.signs)

    @property
    def late(self) -> frozenset[int]:
        """Places in the log of the sessions thrown since a stop sign that was entered late."""
        return after_a_sign(self.record.log, self.record.signs, self.record.mark)

    @property
    def waits(self) -> bool:
        """Whether later sessions wait until somebody clears the limits from Start."""
        rungs = self.standing.rungs
        limited = self.record.first is not None and bool(self.record.first.most_share)
        return limited and self.standing.most is None and bool(rungs) and rungs[-1].index < len(self.row.order) - 1


def thrown_metrics(course: Course) -> tuple[dict[str, float], ...]:
    """Metrics (SI) of one throw of each session of the log, at its highest speed."""
    log = course.record.log
    return _thrown(course.record.person, tuple(one.ball for one in log), tuple(one.reached_m_s for one in log))


@lru_cache(maxsize=16)
def _thrown(person: Person, balls: tuple[Ball, ...], speeds: tuple[float, ...]) -> tuple[dict[str, float], ...]:
    found = metrics_at(person, balls, np.array(speeds)) if balls else {}
    return tuple({key: float(values[i]) for key, values in found.items()} for i in range(len(balls)))


def broken(person: Person, table: SpeedTable, throws: Throws, limits: PlanLimits) -> tuple[Breach, ...]:
    """Which limits steps break, every step read anew off its whole curves; see `check_plan`."""
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


def standing_in(record: Record, row: Row) -> Standing:
    """What may come next."""
    most_share = {} if record.first is None else record.first.most_share
    return standing_of(row, record.log, record.signs, plan=record.mark, lifted=record.lifted, most_share=most_share)


def course_of(record: Record) -> Course:
    """Work out what follows from a kept plan."""
    row = record.row
    found = standing_in(record, row)
    first, target = record.calendar.first_day, record.calendar.target_day
    withdrawn = withdrawn_of(record.signs, record.mark)
    begin = earliest_day(max(first, record.not_before or first), record.log, withdrawn)
    weeks, budget = _from_then_on(record, found, weeks_from(first, record.log, begin), row)
    missed = target is not None and target < weeks
    calendar = replace(record.calendar, first_day=weeks, target_day=None if missed else target)
    try:
        laid = lay_out(found.rungs, calendar, budget, not_before=begin, by_hand=record.by_hand, most=found.most)
        trouble = ""
    except InputError as error:
        laid, trouble = Schedule((), None, None), f"No days: {error.accepted} is needed."
    if missed and target is not None and laid.sessions:
        laid = replace(laid, days_late=(laid.sessions[-1].day - target).days, spare_sessions=-len(laid.sessions))
    breaches = broken(record.person, record.table, record.throws, record.limits)
    passes = passing(record.first, record.steps)
    sessions = () if found.most is not None else check_sessions(laid.sessions, calendar, budget)
    return Course(record, row, breaches, passes, found, calendar, laid, sessions, trouble)


def _from_then_on(record: Record, found: Standing, weeks: date, row: Row) -> tuple[date, Budget]:
    """The day from which weeks count, and the budget: after pain both climb from the first session without."""
    one, budget, calendar = found.since_pain, record.budget, record.calendar
    if one is None:
        return weeks, budget
    thrown = one.throws * row.at(one.ball, one.reached_m_s).metrics["area"]
    week = max(0, (one.day - weeks).days // WEEK)
    then = budgets(budget, replace(calendar, first_day=weeks, target_day=None), week + 1)[week]
    base = max(min(thrown, then), AREA_LIMIT.low)
    most = None if budget.most_nms is None else max(budget.most_nms, base)
    return max(weeks, one.day), replace(budget, first_nms=base, least_throws=1, most_nms=most)
