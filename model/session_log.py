"""The log of a plan: sessions that were thrown, what was noted of each, and what was decided after it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from types import MappingProxyType

from model.ball import Ball
from model.checks import InputError, Limit, check_choice, check_number
from model.session_rules import OPEN, Advice, Facts, Notes, advise
from model.stop_signs import CLINICIAN, ROLES, Signed, StopSign
from model.throw import SPEED_LIMIT

NOT_DECIDED = ""
DECISIONS = (NOT_DECIDED, *OPEN, "stop")
"""What can be decided after a session: nothing yet, and then the next one stays closed; what comes next; to stop the
plan without a stop sign."""

BREAK_DAYS = 14  # without a session: after it weeks and budget begin anew; judgement
DAYS_OFF_LIMIT = Limit(0, 60, "days")
THROWN_LIMIT = Limit(0, 500, "throws")
NONE_WITHDRAWN: Mapping[int, frozenset[str]] = MappingProxyType({})


@dataclass(frozen=True)
class Logged:
    """A session that was thrown, what was noted of it, and what was decided after it.

    Parameters
    ----------
    index : int
        Its place in the plan's row of sessions, from 0.
    place : int
        Which step it was of, from 0.
    speed_m_s : float
        The most that was to be thrown (m/s): the step's, or less where it was lowered.
    planned, throws : int
        Throws as planned; and thrown.
    decision : str
        One of `DECISIONS`.
    days_off : int
        Days without throwing before the next session.
    by, role : str
        Initials and role (`stop_signs.ROLES`) of who decided.
    top_speed_m_s : float, optional
        Highest speed read.
    was_repeat : bool
        Whether the session before was thrown again in its place, because of soreness in the warm-up.

    Raises
    ------
    InputError
        If there are no initials, nothing was thrown without pain before it, or a value is not accepted.
    """

    day: date
    index: int
    place: int
    ball: Ball
    speed_m_s: float
    planned: int
    throws: int
    notes: Notes
    decision: str
    days_off: int
    by: str
    role: str
    top_speed_m_s: float | None = None
    was_repeat: bool = False
    note: str = ""

    def __post_init__(self) -> None:
        check_choice("decision", self.decision, DECISIONS)
        check_choice("role", self.role, ROLES)
        for name, limit in (("days_off", DAYS_OFF_LIMIT), ("throws", THROWN_LIMIT)):
            if check_number(name, getattr(self, name), limit) != int(getattr(self, name)):
                raise InputError(name, getattr(self, name), f"a whole number from {limit}")
        if self.throws == 0 and not self.notes.painful and not tuple(self.notes.signs):
            raise InputError("throws", 0, "1 or more, or 0 where pain came before the first throw")
        check_number("speed_m_s", self.speed_m_s, SPEED_LIMIT)
        if self.top_speed_m_s is not None:
            check_number("top_speed_m_s", self.top_speed_m_s, SPEED_LIMIT)
        if not self.by.strip():
            raise InputError("by", self.by, "initials")

    @property
    def by_clinician(self) -> bool:
        """Whether a licensed clinician decided."""
        return self.role == CLINICIAN

    @property
    def reached_m_s(self) -> float:
        """The highest speed that counts as thrown (m/s): what was read, and no more than was to be thrown."""
        return min(self.speed_m_s, self.top_speed_m_s or self.speed_m_s)


def withdrawn_of(signs: Iterable[StopSign], plan: str) -> Mapping[int, frozenset[str]]:
    """Find the signs of a plan's sessions that were withdrawn.

    Parameters
    ----------
    plan : str
        What tells the plan from the athlete's others.

    Returns
    -------
    mapping of int to frozenset of str
        By the session's place in the log.
    """
    found: dict[int, frozenset[str]] = {}
    for one in signs:
        if one.withdrawn is not None and one.session is not None and one.plan == plan:
            found[one.session] = found.get(one.session, frozenset()) | {one.sign}
    return found


def facts_of(log: Sequence[Logged], withdrawn: Mapping[int, frozenset[str]] = NONE_WITHDRAWN) -> tuple[Facts, ...]:
    """What the rules look at, session by session.

    Parameters
    ----------
    withdrawn : mapping of int to frozenset of str
        As `withdrawn_of` has it: these count as never entered.

    Returns
    -------
    tuple of Facts
        A session of which pain is not known yet, or was dulled, neither counts as painful nor ends a row of such.
    """
    found = []
    run, painless = 0, False
    for i, one in enumerate(log):
        taken = withdrawn.get(i, frozenset())
        notes = replace(one.notes, signs=[sign for sign in one.notes.signs if sign not in taken])
        run += notes.painful
        found.append(Facts(notes, one.throws, run if notes.painful else 0, painless, one.was_repeat, taken))
        if notes.painless:
            run, painless = 0, True
    return tuple(found)


def advice_of(log: Sequence[Logged], withdrawn: Mapping[int, frozenset[str]] = NONE_WITHDRAWN) -> tuple[Advice, ...]:
    """What the rules allow after each session.

    Parameters
    ----------
    withdrawn : mapping of int to frozenset of str
        As for `facts_of`.
    """
    return tuple(advise(facts) for facts in facts_of(log, withdrawn))


def new_signs(
    log: Sequence[Logged], known: Iterable[StopSign], entered: Mapping[int, Signed], plan: str = ""
) -> tuple[StopSign, ...]:
    """The stop signs of a log that are not known yet.

    Parameters
    ----------
    known : iterable of StopSign
        What stands, was cleared or was withdrawn: none of these is made again.
    entered : mapping of int to Signed
        Who entered what was noted of a session, by its place in the log; without one, whoever decided after it.
    plan : str
        What tells the plan from the athlete's others.

    Returns
    -------
    tuple of StopSign
        Each holds from the day of its session, however late it was entered.
    """
    marks = {one.mark for one in known}
    found = []
    for i, (one, advice) in enumerate(zip(log, advice_of(log), strict=True)):
        for sign in advice.signs:
            made = StopSign(sign, one.day, i, entered.get(i, Signed(one.by, one.role, one.day)), plan=plan)
            if made.mark not in marks:
                found.append(made)
    return tuple(found)


def earliest_day(
    first_day: date, log: Sequence[Logged], withdrawn: Mapping[int, frozenset[str]] = NONE_WITHDRAWN
) -> date:
    """The first day on which the next session may be: after the last, its days off, and those the rules ask for.

    Parameters
    ----------
    first_day : date
        Of the calendar.
    withdrawn : mapping of int to frozenset of str
        As for `facts_of`.

    Returns
    -------
    date
        Where a licensed clinician decided, the days off are the clinician's.
    """
    if not log:
        return first_day
    last, asked = log[-1], advice_of(log, withdrawn)[-1].days_off or 0
    off = last.days_off if last.by_clinician else max(last.days_off, asked)
    return max(first_day, last.day + timedelta(1 + off))


def weeks_from(first_day: date, log: Sequence[Logged], next_day: date) -> date:
    """The day from which weeks, and with them the climb of the budget, are counted.

    Parameters
    ----------
    first_day : date
        Of the calendar.
    next_day : date
        On which the next session may be.

    Returns
    -------
    date
        The first day, or the end of the last break of more than `BREAK_DAYS`: no budget climbs while nothing is thrown.
    """
    days = [first_day, *(one.day for one in log), next_day]
    return next((end for begin, end in reversed(list(pairwise(days))) if (end - begin).days > BREAK_DAYS), first_day)


def after_a_sign(log: Sequence[Logged], signs: Iterable[StopSign], plan: str = "") -> frozenset[int]:
    """Find the sessions that were thrown since a stop sign that was entered late and not withdrawn.

    Parameters
    ----------
    plan : str
        What tells the log's plan from the athlete's others.

    Returns
    -------
    frozenset of int
        Places in the log.
    """

    def since(sign: StopSign, i: int) -> bool:
        return i > sign.session if sign.session is not None and sign.plan == plan else log[i].day > sign.since

    return frozenset(
        i
        for i, one in enumerate(log)
        for sign in signs
        if sign.withdrawn is None and since(sign, i) and (sign.cleared is None or one.day < sign.cleared.on)
    )
