"""What is done to a kept plan: changes by hand, new numbers, the log. Each returns a new plan, or refuses by field."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from app.buildup.answers import search
from app.buildup.record import Acknowledgement, Record, course_of
from model.ball import Ball
from model.build_up import SHARE_LIMIT, NoPlan
from model.calendar_plan import REPEATS_LIMIT, ByHand
from model.checks import InputError, check_number
from model.course import Thrown
from model.full_speeds import SpeedTable
from model.person import Person

LONGEST_INITIALS = 8
LONGEST_NOTE = 200
MOST_STEPS = 60
MOST_LOGGED = 400
MOST_CHANGES = 100  # lines that are kept of them; the oldest go


def told(record: Record, line: str) -> Record:
    """Keep a line about a change."""
    return replace(record, changed=(*record.changed, line)[-MOST_CHANGES:])


def change_step(record: Record, place: int, ball: Ball, share: float, repeats: int, today: date) -> Record:
    """Give a step another ball, share or number of sessions.

    Parameters
    ----------
    record : Record
    place : int
        Of the step, from 0.
    ball : Ball
        Of the plan's rack.
    share : float
        Of full speed with the ball.
    repeats : int
        Sessions at the step.
    today : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If the step was thrown already or a value is not accepted.
    """
    _still_to_come(record, place)
    share = check_number("Share", share, SHARE_LIMIT)
    count = int(check_number("Sessions", repeats, REPEATS_LIMIT))
    if place == record.place and record.at is not None:
        thrown = record.at - record.order.index(place)
        if count <= thrown:
            raise InputError("Sessions", count, f"{thrown + 1} or more: {thrown} at this step were thrown")
    throws = (*record.throws[:place], (ball, share), *record.throws[place + 1 :])
    steps = (*record.repeats[:place], count, *record.repeats[place + 1 :])
    if (throws, steps) == (record.throws, record.repeats):
        return record
    made = replace(record, throws=throws, repeats=steps, by_hand=_kept_by_hand(record, place))
    return told(made, f"{today}: step {place + 1} changed by hand")


def leave_out(record: Record, place: int, today: date) -> Record:
    """Leave a step out.

    Parameters
    ----------
    record : Record
    place : int
    today : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If it was begun or is the only one.
    """
    _still_to_come(record, place)
    if place == record.place and record.log:
        raise InputError("Step", place + 1, "a step that was not begun")
    if len(record.throws) == 1:
        raise InputError("Step", place + 1, "one of several: a plan has at least one step")
    made = replace(
        record,
        throws=record.throws[:place] + record.throws[place + 1 :],
        repeats=record.repeats[:place] + record.repeats[place + 1 :],
        by_hand=_kept_by_hand(record, place),
    )
    return told(made, f"{today}: step {place + 1} left out by hand")


def put_in(record: Record, place: int, today: date) -> Record:
    """Put a copy of a step after it, to be changed.

    Parameters
    ----------
    record : Record
    place : int
    today : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If the step was thrown already or there are too many.
    """
    _still_to_come(record, place)
    if len(record.throws) >= MOST_STEPS:
        raise InputError("Steps", len(record.throws) + 1, f"up to {MOST_STEPS}")
    made = replace(
        record,
        throws=(*record.throws[: place + 1], *record.throws[place:]),
        repeats=(*record.repeats[: place + 1], *record.repeats[place:]),
        by_hand=_kept_by_hand(record, place + 1),
    )
    return told(made, f"{today}: a step put in after step {place + 1} by hand")


def change_session(record: Record, index: int, day: date | None, throws: int | None, today: date) -> Record:
    """Set day and throws of a session.

    Parameters
    ----------
    record : Record
    index : int
        Its place in the whole row of sessions, from 0.
    day : date or None
        None for the calendar's.
    throws : int or None
        None for what the budget gives.
    today : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If it was thrown already or a value is not accepted.
    """
    at = record.at
    if at is None or not at <= index < len(record.order):
        raise InputError("Session", index + 1, "a session that is still to come")
    by_hand = {i: one for i, one in record.by_hand.items() if i != index}
    if day is not None or throws is not None:
        by_hand[index] = ByHand(day, throws)
    if by_hand == dict(record.by_hand):
        return record
    return told(replace(record, by_hand=by_hand), f"{today}: session {index + 1} set by hand")


def plan_rest(record: Record, place: int, steps: int | None, today: date) -> Record | NoPlan:
    """Plan again from a step to the goal, within the plan's own limits.

    Parameters
    ----------
    record : Record
    place : int
        The step that stays and that the new ones follow.
    steps : int or None
        How many, this one and the goal among them; None for as many as the limits ask for.
    today : date

    Returns
    -------
    Record or NoPlan

    Raises
    ------
    InputError
        If the step was thrown already.
    """
    _still_to_come(record, place)
    found = search(
        record.person, record.table, record.throws[-1], record.throws[place], steps, record.limits, record.lead
    )
    if isinstance(found, NoPlan):
        return found
    new = tuple((step.ball, step.share) for step in found.steps)
    repeats = (*record.repeats[: place + 1], *(record.repeats[-1],) * (len(new) - 1))
    made = replace(
        record,
        throws=(*record.throws[:place], *new),
        repeats=repeats,
        why=found.why,
        by_hand=_kept_by_hand(record, place),
    )
    return told(made, f"{today}: planned again from step {place + 1}")


def take_numbers(record: Record, person: Person, table: SpeedTable, rests_on: str, today: date) -> Record:
    """Take new measures and full speeds; balls and shares stay, so that speed caps and metrics change.

    Parameters
    ----------
    record : Record
    person : Person
    table : SpeedTable
        With every ball of the plan.
    rests_on : str
        Where the speeds come from.
    today : date

    Returns
    -------
    Record
    """
    made = replace(record, person=person, table=table, rests_on=rests_on, refused="")
    return told(made, f"{today}: new measures or readings taken")


def log_session(record: Record, thrown: Thrown) -> Record:
    """Keep what was said of the next session, and what was decided.

    Parameters
    ----------
    record : Record
    thrown : Thrown

    Returns
    -------
    Record
        After another decision than to go on, days that were set by hand are the calendar's again.

    Raises
    ------
    InputError
        If no session is left, or its day is before that of the last.
    """
    course = course_of(record)
    if course.at is None or course.done:
        raise InputError("Session", "none", "a plan with a session that is still to come")
    if len(record.log) >= MOST_LOGGED:
        raise InputError("Log", len(record.log) + 1, f"up to {MOST_LOGGED} sessions")
    if record.log and thrown.day < record.log[-1].day:
        raise InputError("Day", thrown.day.isoformat(), f"{record.log[-1].day} or later, the day of the session before")
    by_hand = dict(record.by_hand)
    if thrown.decision != "advance":
        by_hand = {i: replace(one, day=None) for i, one in by_hand.items() if one.throws is not None}
    return replace(record, log=(*record.log, thrown), by_hand=by_hand)


def reopened(record: Record) -> Record:
    """Take the last session out of the log, to be filled in again.

    Parameters
    ----------
    record : Record

    Returns
    -------
    Record
        The same if none was thrown.
    """
    log = record.log[:-1]
    return replace(record, log=log, lifted=min(record.lifted, len(log)))


def take_up_again(record: Record, day: date, today: date) -> Record:
    """Go on after a stop, with the session at which it was stopped.

    Parameters
    ----------
    record : Record
    day : date
        Of the next session, at the earliest.
    today : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If the plan was not stopped.
    """
    if record.at is not None:
        raise InputError("Plan", "not stopped", "a plan that was stopped")
    return told(
        replace(record, lifted=len(record.log), not_before=day),
        f"{today}: taken up again from {day}; after a break weeks and budget begin anew",
    )


def acknowledge(record: Record, by: str, on: date) -> Record:
    """Keep that the text about growing throwers was read.

    Parameters
    ----------
    record : Record
    by : str
        Initials.
    on : date

    Returns
    -------
    Record

    Raises
    ------
    InputError
        If there are no initials.
    """
    return replace(record, read=Acknowledgement(initials(by), on))


def initials(text: object) -> str:
    """Read initials.

    Parameters
    ----------
    text : object
        As typed.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If there are none, they are too long to be initials, or cannot be printed.
    """
    typed = text.strip() if isinstance(text, str) else ""
    if not typed or len(typed) > LONGEST_INITIALS or not typed.isprintable():
        raise InputError("Initials", typed, f"1 to {LONGEST_INITIALS} printable characters")
    return typed


def _still_to_come(record: Record, place: int) -> None:
    if not 0 <= place < len(record.throws):
        raise InputError("Step", place + 1, f"1 to {len(record.throws)}")
    if place < record.place and record.at is not None:
        raise InputError("Step", place + 1, "a step that is still to come: this one was thrown")


def _kept_by_hand(record: Record, place: int) -> Mapping[int, ByHand]:
    """What was set of the sessions before a step; those from it on are others now."""
    first = record.order.index(place) if place < len(record.throws) else len(record.order)
    return {i: one for i, one in record.by_hand.items() if i < first}
