"""What is done to a kept plan: changes by hand, new numbers. Each returns a new plan, or refuses by field."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from app.pages.buildup.answers import search
from app.pages.buildup.course import SIGNED, Course, course_of
from app.pages.buildup.first_limits import FirstLimits
from app.pages.buildup.orders import WHY_OWN_FIRST, rack_between
from app.pages.buildup.record import MOST_CHANGES, MOST_STEPS, Record
from app.pages.buildup.words import share_words
from model.ball import Ball
from model.build_up import ROUNDING, SHARE_LIMIT, NoPlan
from model.calendar_plan import REPEATS_LIMIT, ByHand
from model.checks import InputError, check_number
from model.full_speeds import SpeedTable
from model.ladder import Rung, fitted
from model.person import Person


def told(record: Record, line: str) -> Record:
    """Keep a line about a change."""
    return replace(record, changed=(*record.changed, line)[-MOST_CHANGES:])


def change_step(record: Record, place: int, ball: Ball, share: float, repeats: int, today: date) -> Record:
    """Give a step another ball, share or number of sessions.

    Parameters
    ----------
    place : int
        Of the step, from 0.
    ball : Ball
        Of the plan's rack.
    share : float
        Of full speed with the ball.
    repeats : int
        Sessions at the step.

    Raises
    ------
    InputError
        If the step was thrown already or a value is not accepted.
    """
    course = _still_to_come(record, place)
    share = check_number("Share", share, SHARE_LIMIT)
    count = int(check_number("Sessions", repeats, REPEATS_LIMIT))
    if place == course.place and course.standing.rungs:
        thrown = course.standing.rungs[0].index - course.row.order.index(place)
        if count <= thrown:
            raise InputError("Sessions", count, f"{thrown + 1} or more: {thrown} at this step were thrown")
    throws = (*record.throws[:place], (ball, share), *record.throws[place + 1 :])
    steps = (*record.repeats[:place], count, *record.repeats[place + 1 :])
    if (throws, steps) == (record.throws, record.repeats):
        return record
    made = replace(record, throws=throws, repeats=steps, by_hand=_kept_by_hand(record, place))
    return told(_within_rules(made), f"{today}: step {place + 1} changed by hand")


def leave_out(record: Record, place: int, today: date) -> Record:
    """Leave a step out.

    Raises
    ------
    InputError
        If it was begun or is the only one.
    """
    course = _still_to_come(record, place)
    if place == course.place and record.log:
        raise InputError("Step", place + 1, "a step that was not begun")
    if len(record.throws) == 1:
        raise InputError("Step", place + 1, "one of several: a plan has at least one step")
    made = replace(
        record,
        throws=record.throws[:place] + record.throws[place + 1 :],
        repeats=record.repeats[:place] + record.repeats[place + 1 :],
        by_hand=_kept_by_hand(record, place),
    )
    return told(_within_rules(made), f"{today}: step {place + 1} left out by hand")


def put_in(record: Record, place: int, today: date) -> Record:
    """Put a copy of a step after it, to be changed.

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
    return told(_within_rules(made), f"{today}: a step put in after step {place + 1} by hand")


def change_session(record: Record, index: int, day: date | None, throws: int | None, today: date) -> Record:
    """Set day and throws of a session.

    Parameters
    ----------
    index : int
        Its place in the whole row of sessions, from 0.
    day : date or None
        None for the calendar's.
    throws : int or None
        None for what the budget gives.

    Raises
    ------
    InputError
        If it was thrown already or a value is not accepted.
    """
    if index not in {one.index for one in course_of(record).schedule.sessions if not one.lowered}:
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
    place : int
        The step that stays and that the new ones follow.
    steps : int or None
        How many, this one and the goal among them; None for as many as the limits ask for.

    Raises
    ------
    InputError
        If the step was thrown already.
    """
    _still_to_come(record, place)
    start, goal = record.throws[place], record.throws[-1]
    rack = record.table.balls if not record.own_early else rack_between(record.table.balls, start[0], goal[0])
    first_steps, first_shares = _first_left(record.first, place)
    order = replace(record.balls_order, first_steps=first_steps, first_shares=first_shares, before=place)
    if place:  # the step that stays may be faster than what may come first
        order = replace(order, own_first_share=max(order.own_first_share, start[1] if start[0] == goal[0] else 0.0))
    found = search(record.person, record.table, rack, goal, start, steps, record.limits, record.lead, order)
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
    return told(_within_rules(made), f"{today}: planned again from step {place + 1}")


def _first_left(first: FirstLimits | None, place: int) -> tuple[int, dict[Ball, tuple[float, float]]]:
    """How many steps from one on keep the limits from Start, and the shares that these allow."""
    if first is None or first.cleared is not None or first.steps <= place:
        return 0, {}
    return first.steps - place, first.shares


def take_numbers(
    record: Record, person: Person, table: SpeedTable, rests_on: str, first: FirstLimits | None, today: date
) -> Record:
    """Take new measures and full speeds; balls and shares stay, so that speed caps and metrics change.

    Parameters
    ----------
    table : SpeedTable
        With every ball of the plan.
    rests_on : str
        Where the speeds come from.
    first : FirstLimits or None
        What the limits from Start allow by the new numbers.
    """
    made = replace(record, person=person, table=table, rests_on=rests_on, first=first, refused="")
    return told(_within_rules(made), f"{today}: new measures or readings taken")


def _still_to_come(record: Record, place: int) -> Course:
    course = course_of(record)
    if not 0 <= place < len(record.throws):
        raise InputError("Step", place + 1, f"1 to {len(record.throws)}")
    if course.closed in SIGNED:
        raise InputError("Step", place + 1, "a plan that does not stand still under a stop sign")
    if place < course.place:
        raise InputError("Step", place + 1, "a step that is still to come: this one was thrown")
    return course


def _within_rules(record: Record) -> Record:
    """The same plan, if its own ball comes as early and as slowly as it has to, and its start is low enough."""
    own, first_own = record.balls_order.own, record.own_first
    if own is not None:
        at = next((i for i, (ball, _) in enumerate(record.throws) if ball == own), len(record.throws))
        latest = record.balls_order.own_from(len(record.throws))
        if at > latest:
            raise InputError("Step", latest + 1, "the own ball by then: it comes within two thirds of the steps")
        if record.throws[at][1] > first_own * (1.0 + ROUNDING):
            said = f"the own ball first at {share_words(first_own)} or less: {WHY_OWN_FIRST}"
            raise InputError("Of full speed with it", share_words(record.throws[at][1]), said)
    most, begin = record.start_most, Rung(0, 0, record.steps[0])
    if most is not None and not record.log and fitted(record.row, begin, most) != begin:
        said = "a first step no higher than the last painless session before the stop sign"
        raise InputError("Step 1", share_words(record.throws[0][1]), said)
    return record


def _kept_by_hand(record: Record, place: int) -> Mapping[int, ByHand]:
    """What was set of the sessions before a step; those from it on are others now."""
    order = record.row.order
    first = order.index(place) if place < len(record.throws) else len(order)
    return {i: one for i, one in record.by_hand.items() if i < first}
