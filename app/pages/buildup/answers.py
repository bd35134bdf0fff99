"""From the form and the athlete to a plan, or to why there is none. Pure."""

import hashlib
from datetime import date

from app.pages.buildup.aims import MORE_STEPS, OWN_FIRST
from app.pages.buildup.athlete import Athlete, given_balls, goal_ball, speeds_words
from app.pages.buildup.first_limits import FirstLimits, first_limits
from app.pages.buildup.orders import begin_of, rack_between
from app.pages.buildup.record import Record
from app.pages.buildup.wanted import Wanted
from app.show.rack import balls_in
from model.ball import Ball
from model.build_up import NoPlan, Plan, PlanLimits
from model.checks import InputError
from model.full_speeds import SpeedTable, table_of
from model.person import Person
from model.plan_nodes import ANY_ORDER, Order
from model.plan_search import find_plan

MARK_LETTERS = 20
GRID, FINE_GRID = 0.01, 0.005  # of full speed: shares looked at, and where many steps are wanted with one ball
ROOM = 0.7  # of the shares of the grid: so many steps at most leave room for an even climb
FEWEST_STEPS = 2  # asked for first, to learn how many the limits ask for


def make(wanted: Wanted, athlete: Athlete, today: date) -> Record | NoPlan:
    """Make a plan.

    Parameters
    ----------
    wanted : Wanted
        With an order of the balls; nothing is missing.
    athlete : Athlete
        Whose person and speeds are known.

    Raises
    ------
    InputError
        If a ball, a share, a day or a budget does not do; it names the field.
    """
    case, care = athlete.case, wanted.care
    if case.person is None or case.profile is None:
        raise InputError("athlete", "no measures", "an athlete whose measures and full speed are known")
    balls = balls_in(case, wanted["left_out"] or "")
    goal = goal_ball(care, wanted["goal_ball"], athlete)
    table = table_of(case.profile, tuple(dict.fromkeys([*balls, goal, case.own_ball, *given_balls(athlete)])))
    calendar = wanted.calendar  # refuses a week without days before the search begins
    first = None
    if athlete.given is not None:
        holds, count = wanted["holds"], wanted["hold_count"] or 0
        first = first_limits(athlete.given, case, table.balls, holds, count, len(calendar.weekdays), wanted["repeats"])
    begin = begin_of(wanted, athlete, table, first)
    share = wanted["goal_percent"]
    if wanted["steps"] == 1 and not wanted.said("goal_percent") and begin.ball == goal:
        share = begin.share  # what is kept level is kept at the start's
    rack = rack_between(balls, begin.ball, goal)
    order = Order(goal, OWN_FIRST if care.guarded else 1.0, *_first_steps(first))
    found = search(
        case.person, table, rack, (goal, share), (begin.ball, begin.share), wanted["steps"], wanted.limits,
        wanted.lead, order,
    )  # fmt: skip
    if isinstance(found, NoPlan):
        return found
    area = found.steps[0].metrics["area"]
    begin.check_throws(wanted, area)
    throws = tuple((step.ball, step.share) for step in found.steps)
    return Record(
        code=case.code,
        invented=athlete.invented,
        person=case.person,
        own_ball=case.own_ball,
        table=table,
        rests_on=speeds_words(case),
        aim=care.aim,
        lead=wanted.lead,
        limits=wanted.limits,
        throws=throws,
        repeats=(wanted["repeats"],) * len(found.steps),
        why=found.why,
        calendar=calendar,
        budget=wanted.budget(area),
        made_on=today,
        mark=_mark(today, case.code, case.person, table, care.aim, calendar, throws, athlete.known),
        way=wanted["order"],
        own_early=True,
        own_first=order.own_first_share,
        reference=athlete.reference,
        asked=wanted.asked,
        first=first,
        notes=begin.notes,
        earlier=athlete.known.signs,
        start_most=athlete.known.most,
    )


def _first_steps(first: FirstLimits | None) -> tuple[int, dict[Ball, tuple[float, float]]]:
    return (0, {}) if first is None else (first.steps, first.shares)


def _mark(*made_of: object) -> str:
    return hashlib.sha256(repr(made_of).encode("utf-8", "replace")).hexdigest()[:MARK_LETTERS]


def search(
    person: Person,
    table: SpeedTable,
    rack: tuple[Ball, ...],
    goal: tuple[Ball, float],
    start: tuple[Ball, float],
    steps: int | None,
    limits: PlanLimits,
    lead: str,
    order: Order = ANY_ORDER,
) -> Plan | NoPlan:
    """Find a plan of so many steps, or of a few more than the limits ask for.

    Parameters
    ----------
    rack : tuple of Ball
        Those that it may go through.
    goal, start
        As `find_plan` takes them.
    steps : int or None
        None for the fewest within the limits and `MORE_STEPS`.
    """

    def of(count: int) -> Plan | NoPlan:
        grid = GRID if len(rack) > 1 or count <= ROOM * abs(goal[1] - start[1]) / GRID else FINE_GRID
        return find_plan(
            person, table, rack, goal, count, start=start, limits=limits, lead=lead, share_step=grid, order=order
        )

    if steps is not None:
        return of(steps)
    if start == goal:
        return of(1)
    found = of(FEWEST_STEPS)
    fewest = FEWEST_STEPS if isinstance(found, Plan) else found.fewest_steps
    if fewest is None:
        return found
    for count in range(fewest + MORE_STEPS, fewest - 1, -1):
        found = of(count)
        if isinstance(found, Plan):
            break
    return found
