"""A plan laid on a calendar: which step on which day, and how many throws.

The number of throws follows from a budget on a session's summed area (the areas under the curves of its throws added
up). The budget climbs from week to week by no more than its limit; every n-th week is an easier one, at a share of what
the week before had, and the climb goes on after it from where it was. No published limit on throws is used: those are
limits for games.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType

from model.build_up import Plan, Step
from model.checks import InputError, Limit, check_number
from model.ladder import Most, Rung

WEEKLY_RISE = 0.10  # common practice, no source: tradition, not established for throwing (values.csv 9-load-rules-14)
EASIER_EVERY = 4  # weeks: common practice, no source
EASIER_SHARE = 0.6  # of the budget: common practice, no source
REPEATS = 2  # sessions at each step: common practice, no source

WEEK = 7  # days
REPEATS_LIMIT = Limit(1, 30, "sessions")
AREA_LIMIT = Limit(0.1, 100_000.0, "N·m·s")
RISE_LIMIT = Limit(0.0, 1.0, "of the budget")
EASIER_LIMIT = Limit(0.1, 1.0, "of the budget")
EVERY_LIMIT = Limit(2, 26, "weeks")
THROWS_LIMIT = Limit(1, 500, "throws")
ROUNDING = 1e-9


@dataclass(frozen=True)
class Calendar:
    """Days to throw on.

    Parameters
    ----------
    first_day : date
        No session is before it; weeks are counted from it.
    weekdays : frozenset of int
        Days of the week, Monday 0 to Sunday 6.
    easier_every : int, optional
        Every so many weeks is an easier one; None for none.
    easier_share : float
        Share of the budget in such a week.
    target_day : date, optional
        The day by which the last session should be.

    Raises
    ------
    InputError
        If there is no day to throw on, or a value is not accepted.
    """

    first_day: date
    weekdays: frozenset[int]
    easier_every: int | None = EASIER_EVERY
    easier_share: float = EASIER_SHARE
    target_day: date | None = None

    def __post_init__(self) -> None:
        if not self.weekdays or not self.weekdays <= set(range(WEEK)):
            raise InputError("weekdays", sorted(self.weekdays), "one or more of 0 (Monday) to 6 (Sunday)")
        if self.easier_every is not None:
            check_number("easier_every", self.easier_every, EVERY_LIMIT)
        check_number("easier_share", self.easier_share, EASIER_LIMIT)
        if self.target_day is not None and self.target_day < self.first_day:
            raise InputError("target_day", self.target_day.isoformat(), f"{self.first_day.isoformat()} or later")

    def is_easier(self, week: int) -> bool:
        """Whether a week, counted from 0, is an easier one."""
        return self.easier_every is not None and week % self.easier_every == self.easier_every - 1


@dataclass(frozen=True)
class Budget:
    """How much a session may sum up to.

    Parameters
    ----------
    first_nms : float
        Summed area of a session in the first week, at most (N m s).
    weekly_rise : float
        The most that it climbs from one week to the next, relative.
    most_nms : float, optional
        Where the climb ends (N m s).
    least_throws, most_throws : int
        Throws of a session.

    Raises
    ------
    InputError
        If a value is not accepted.
    """

    first_nms: float
    weekly_rise: float = WEEKLY_RISE
    most_nms: float | None = None
    least_throws: int = 1
    most_throws: int = 60

    def __post_init__(self) -> None:
        check_number("first_nms", self.first_nms, AREA_LIMIT)
        check_number("weekly_rise", self.weekly_rise, RISE_LIMIT)
        if self.most_nms is not None:
            check_number("most_nms", self.most_nms, Limit(self.first_nms, AREA_LIMIT.high, AREA_LIMIT.unit))
        check_number("least_throws", self.least_throws, THROWS_LIMIT)
        check_number("most_throws", self.most_throws, Limit(self.least_throws, THROWS_LIMIT.high, THROWS_LIMIT.unit))


@dataclass(frozen=True)
class Session:
    """One day's throwing.

    Attributes
    ----------
    week : int
        From 0.
    easier : bool
        Whether the week is an easier one.
    index, place : int
        Its place in the plan's row of sessions, and which step of the plan it is of or climbs to, from 0.
    lowered : bool
        Whether it is slower than the plan's step.
    area_nms, budget_nms : float
        Summed area of its throws, and what it could have been (N m s).
    """

    day: date
    week: int
    easier: bool
    index: int
    place: int
    lowered: bool
    step: Step
    throws: int
    area_nms: float
    budget_nms: float


@dataclass(frozen=True)
class ByHand:
    """What a person has set of a session.

    Raises
    ------
    InputError
        If the number of throws is not accepted.
    """

    day: date | None = None
    throws: int | None = None

    def __post_init__(self) -> None:
        if self.throws is not None:
            check_number("throws", self.throws, THROWS_LIMIT)


NOT_BY_HAND = ByHand()
NOTHING_BY_HAND: Mapping[int, ByHand] = MappingProxyType({})


@dataclass(frozen=True)
class SessionBreach:
    """A limit that a session breaks.

    Attributes
    ----------
    session : int
        Its place, from 0.
    kind : {'budget', 'most_throws', 'least_throws', 'weekday', 'order', 'first_day'}
        More than the week's budget (N m s), more or fewer throws than are wanted, a day that is none to throw on, a day
        that is not after the one before, a day before the first one.
    value, limit : float
        What it is and what was allowed; NaN for days.
    """

    session: int
    kind: str
    value: float = math.nan
    limit: float = math.nan


@dataclass(frozen=True)
class Schedule:
    """A plan on its days.

    Attributes
    ----------
    days_late : int or None
        How many days the last session is after the target day; negative if there is time left; None without one.
    spare_sessions : int or None
        How many sessions more, or fewer if negative, there would be room for up to the target day; None without one.
    """

    sessions: tuple[Session, ...]
    days_late: int | None
    spare_sessions: int | None


def budgets(budget: Budget, calendar: Calendar, weeks: int) -> tuple[float, ...]:
    """Budget of a session in each week.

    Returns
    -------
    tuple of float (weeks,)
        N m s. From one week that is no easier one to the next it climbs by no more than the limit.
    """
    found: list[float] = []
    climb = budget.first_nms
    for week in range(weeks):
        if calendar.is_easier(week):
            found.append((found[-1] if found else climb) * calendar.easier_share)
            continue
        found.append(climb)
        climb *= 1.0 + budget.weekly_rise
        if budget.most_nms is not None:
            climb = min(climb, budget.most_nms)
    return tuple(found)


def schedule(plan: Plan, calendar: Calendar, budget: Budget, repeats: int | Sequence[int] = REPEATS) -> Schedule:
    """Lay a plan on a calendar.

    Parameters
    ----------
    repeats : int or sequence of int
        Sessions at each step: the same for all, or one number for each step.

    Raises
    ------
    InputError
        If a number is not accepted, or a week's budget is too small for the least number of throws of its step.
    """
    counts = [repeats] * len(plan.steps) if isinstance(repeats, int) else list(repeats)
    if len(counts) != len(plan.steps):
        raise InputError("repeats", counts, f"one number, or {len(plan.steps)}, one for each step")
    rungs = [Rung(i, place, plan.steps[place]) for i, place in enumerate(order_of(counts))]
    return lay_out(rungs, calendar, budget)


def order_of(repeats: Sequence[int]) -> tuple[int, ...]:
    """Which step each session is of.

    Parameters
    ----------
    repeats : sequence of int
        Sessions at each step.

    Returns
    -------
    tuple of int
        Places of the steps, from 0, one for each session.

    Raises
    ------
    InputError
        If a number is not accepted.
    """
    return tuple(
        i for i, count in enumerate(repeats) for _ in range(int(check_number("repeats", count, REPEATS_LIMIT)))
    )


def lay_out(
    rungs: Sequence[Rung],
    calendar: Calendar,
    budget: Budget,
    *,
    not_before: date | None = None,
    by_hand: Mapping[int, ByHand] = NOTHING_BY_HAND,
    most: Most | None = None,
) -> Schedule:
    """Lay sessions on a calendar, each on the next day to throw on.

    Parameters
    ----------
    rungs : sequence of Rung
        All sessions, or those that are left.
    not_before : date, optional
        No session is before it; weeks are counted from the calendar's first day all the same.
    by_hand : mapping of int to ByHand
        What a person has set, by the session's index. It is taken as it is: `check_sessions` tells what it breaks.
        Sessions after a day that was set are after that day.
    most : Most, optional
        What no session is more than, whatever budget, least number of throws or a person say.

    Raises
    ------
    InputError
        If a week's budget is too small for the least number of throws of its step.
    """
    day = max(calendar.first_day, not_before or calendar.first_day)
    days = []
    by_rung = [NOT_BY_HAND if rung.lowered else by_hand.get(rung.index, NOT_BY_HAND) for rung in rungs]
    for one in by_rung:
        if one.day is None:
            while day.weekday() not in calendar.weekdays:
                day += timedelta(1)
        days.append(one.day or day)
        day = max(day, days[-1] + timedelta(1))
    weeks = [max(0, (one - calendar.first_day).days // WEEK) for one in days]
    allowed = budgets(budget, calendar, max(weeks, default=0) + 1)
    sessions = []
    for on, week, rung, set_by_hand in zip(days, weeks, rungs, by_rung, strict=True):
        area = rung.step.metrics["area"]
        throws = min(_times(allowed[week], area), budget.most_throws)
        if set_by_hand.throws is None and throws < budget.least_throws and most is None:
            needed = f"{budget.least_throws * area:.1f} N·m·s or more in week {week + 1}, for step {rung.place + 1}"
            raise InputError("first_nms", budget.first_nms, f"a budget that comes to {needed}")
        count = throws if set_by_hand.throws is None else set_by_hand.throws
        if most is not None:
            count = max(1, min(count, most.throws, _times(most.area_nms, area)))
        easier = calendar.is_easier(week)
        kept = (rung.index, rung.place, rung.lowered, rung.step)
        sessions.append(Session(on, week, easier, *kept, count, count * area, allowed[week]))
    if calendar.target_day is None or not days:
        return Schedule(tuple(sessions), None, None)
    begin = max(calendar.first_day, not_before or calendar.first_day)
    span = range((calendar.target_day - begin).days + 1)
    room = sum((begin + timedelta(n)).weekday() in calendar.weekdays for n in span)
    return Schedule(tuple(sessions), (max(days) - calendar.target_day).days, room - len(rungs))


def _times(total_nms: float, area_nms: float) -> int:
    """How often an area goes into a total."""
    return int(total_nms / area_nms * (1.0 + ROUNDING))


def check_sessions(sessions: Sequence[Session], calendar: Calendar, budget: Budget) -> tuple[SessionBreach, ...]:
    """Hold sessions against calendar and budget.

    Parameters
    ----------
    sessions : sequence of Session
        As laid out, some of them set by hand.

    Returns
    -------
    tuple of SessionBreach
        Empty if all is kept.
    """
    found = []
    for i, one in enumerate(sessions):
        if one.area_nms > one.budget_nms * (1.0 + ROUNDING):
            found.append(SessionBreach(i, "budget", one.area_nms, one.budget_nms))
        if one.throws > budget.most_throws:
            found.append(SessionBreach(i, "most_throws", one.throws, budget.most_throws))
        if one.throws < budget.least_throws:
            found.append(SessionBreach(i, "least_throws", one.throws, budget.least_throws))
        if one.day.weekday() not in calendar.weekdays:
            found.append(SessionBreach(i, "weekday"))
        if i and one.day <= sessions[i - 1].day:
            found.append(SessionBreach(i, "order"))
        if one.day < calendar.first_day:
            found.append(SessionBreach(i, "first_day"))
    return tuple(found)
