"""How far a plan has come: the sessions that were thrown, what was decided after each, and what is left.

A plan is a row of sessions, each of a step. What a person decides after a session moves the place in that row: on to
the next session, the same once more, back to the step before, or no further. The soreness rules (`soreness`) only
suggest.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from model.ball import Ball
from model.checks import InputError, Limit, check_choice, check_number
from model.soreness import After

DECISIONS = {
    "advance": "go on to the next session of the plan",
    "repeat": "throw this session again",
    "step_back": "go back one step",
    "stop": "stop here",
}
"""What can be decided after a session: key, and in words."""

BREAK_DAYS = 14  # without a session: after it weeks and budget begin anew; judgement
DAYS_OFF_LIMIT = Limit(0, 60, "days")


@dataclass(frozen=True)
class Thrown:
    """A session that was thrown, and what was decided after it.

    Parameters
    ----------
    day : date
    place : int
        Which step it was of, from 0.
    ball : Ball
    speed_m_s : float
        Of the step as it stood then: its speed cap (m/s).
    throws : int
        As planned then.
    after : After
        What was said of it.
    decision : str
        A key of `DECISIONS`.
    days_off : int
        Days without throwing before the next session.
    by : str
        Initials of who decided.
    note : str

    Raises
    ------
    InputError
        If there are no initials or a value is not accepted.
    """

    day: date
    place: int
    ball: Ball
    speed_m_s: float
    throws: int
    after: After
    decision: str
    days_off: int
    by: str
    note: str = ""

    def __post_init__(self) -> None:
        check_choice("decision", self.decision, DECISIONS)
        if check_number("days_off", self.days_off, DAYS_OFF_LIMIT) != int(self.days_off):
            raise InputError("days_off", self.days_off, f"a whole number from {DAYS_OFF_LIMIT}")
        if not self.by.strip():
            raise InputError("by", self.by, "the initials of who decided")


def next_session(order: Sequence[int], decisions: Iterable[str]) -> int | None:
    """Find the session that comes next.

    Parameters
    ----------
    order : sequence of int
        Which step each session of the plan is of.
    decisions : iterable of str
        Keys of `DECISIONS`, from the first session on.

    Returns
    -------
    int or None
        Its place in `order`; ``len(order)`` when all were thrown; None after a stop. Back one step is to the first
        session of the step before, at the first step to its own first.
    """
    at = 0
    for decision in decisions:
        if decision == "stop":
            return None
        if at >= len(order) or decision == "repeat":
            continue
        if decision == "advance":
            at += 1
        else:
            at = order.index(max(order[at] - 1, order[0]))
    return at


def earliest_day(first_day: date, thrown: Sequence[Thrown]) -> date:
    """The first day on which the next session may be.

    Parameters
    ----------
    first_day : date
        Of the calendar.
    thrown : sequence of Thrown

    Returns
    -------
    date
        The day after the last session and its days off.
    """
    if not thrown:
        return first_day
    return max(first_day, thrown[-1].day + timedelta(1 + thrown[-1].days_off))


def weeks_from(first_day: date, thrown: Sequence[Thrown], next_day: date) -> date:
    """The day from which weeks, and with them the climb of the budget, are counted.

    Parameters
    ----------
    first_day : date
        Of the calendar.
    thrown : sequence of Thrown
    next_day : date
        On which the next session may be.

    Returns
    -------
    date
        The first day, or the end of the last break of more than `BREAK_DAYS`: no budget climbs while nothing is thrown.
    """
    days = [first_day, *(one.day for one in thrown), next_day]
    return next((end for begin, end in reversed(list(pairwise(days))) if (end - begin).days > BREAK_DAYS), first_day)
