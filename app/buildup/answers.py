"""From the form and the athlete to a plan, or to why there is none. Pure."""

import hashlib
from dataclasses import dataclass
from datetime import date

from app.athlete.answers import Case
from app.buildup.aims import MORE_STEPS, aim_named
from app.buildup.checks import CheckedPlan
from app.buildup.form import BY_AIM, LOWEST, PlanForm
from app.buildup.record import Record
from app.rack import balls_in, picked_texts, texts_of
from model.ball import Ball
from model.build_up import NoPlan, Plan, PlanLimits
from model.checks import InputError
from model.full_speeds import SpeedTable, table_of
from model.person import Person
from model.plan_search import find_plan

MARK_LETTERS = 20
FEWEST_STEPS = 2  # asked for first, to learn how many the limits ask for


@dataclass(frozen=True)
class Missing:
    """What is missing before a plan can be made.

    Attributes
    ----------
    measures : bool
        Whether the person is not whole.
    speed : bool
        Whether no full-effort speed is known.
    reasons : tuple of str
        What is wrong on this page.
    """

    measures: bool = False
    speed: bool = False
    reasons: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return self.measures or self.speed or bool(self.reasons)


def missing_of(case: Case, checked: CheckedPlan) -> Missing:
    """Say what is missing before a plan can be made.

    Parameters
    ----------
    case : Case
    checked : CheckedPlan

    Returns
    -------
    Missing
        False if nothing is.
    """
    speed = case.profile is not None and case.profile.posterior.own is None
    return Missing(case.person is None, speed, tuple(checked.problems.values()))


def speeds_words(case: Case) -> str:
    """Say where the full speeds come from.

    Parameters
    ----------
    case : Case

    Returns
    -------
    str
    """
    profile = case.profile
    if profile is None:
        return ""
    full = [reading for reading in case.found.used if reading.asked_effort == 1.0]
    if profile.exponent_is_prior:
        told = "one ball only" if full else "no radar reading"
        return (
            f"{told}: how much this athlete slows down with another ball is taken from published groups. "
            "Measure full speed with the balls of the plan before it begins"
        )
    balls = len({round(reading.ball_mass_kg, 4) for reading in full})
    return f"{len(full)} full-effort radar readings with {balls} balls"


def make(form: PlanForm, checked: CheckedPlan, case: Case, invented: bool, today: date) -> Record | NoPlan:
    """Make a plan.

    Parameters
    ----------
    form : PlanForm
    checked : CheckedPlan
        The same, read without problems.
    case : Case
        Whose person and speeds are known.
    invented : bool
        Whether the athlete is of the demo data.
    today : date

    Returns
    -------
    Record or NoPlan

    Raises
    ------
    InputError
        If a ball, a day or a budget does not do; it names the field.
    """
    if case.person is None or case.profile is None:
        raise InputError("athlete", "no measures", "an athlete whose measures and full speed are known")
    rack = balls_in(case, form.left_out)
    goal = _ball(form.goal_ball, "own", case)
    start = _ball(form.start_ball, "own" if aim_named(form.aim).start_own else LOWEST, case)
    if start is None and not rack:
        raise InputError("Balls", "none", "one or more")
    if goal is None:
        raise InputError("Goal", form.goal_ball, "a ball of the rack")
    balls = tuple(dict.fromkeys([*rack, goal, *((start,) if start is not None else ())]))
    table = table_of(case.profile, balls)
    calendar = checked.calendar  # refuses a week without days before the search begins
    begin: tuple[Ball, float] | float = checked.values["start_percent"]
    if start is not None:
        begin = (start, checked.values["start_percent"])
    found = search(
        case.person, table, (goal, checked.values["goal_percent"]), begin, checked.steps, checked.limits, checked.lead
    )
    if isinstance(found, NoPlan):
        return found
    budget = checked.budget(found.steps[0].metrics["area"])
    throws = tuple((step.ball, step.share) for step in found.steps)
    return Record(
        code=case.code,
        invented=invented,
        person=case.person,
        own_ball=case.own_ball,
        table=table,
        rests_on=speeds_words(case),
        aim=form.aim,
        lead=checked.lead,
        limits=checked.limits,
        throws=throws,
        repeats=(int(checked.values["repeats"]),) * len(found.steps),
        why=found.why,
        calendar=calendar,
        budget=budget,
        made_on=today,
        mark=_mark(today, case.code, case.person, table, form.aim, calendar, throws),
    )


def _mark(*made_of: object) -> str:
    return hashlib.sha256(repr(made_of).encode("utf-8", "replace")).hexdigest()[:MARK_LETTERS]


def search(
    person: Person,
    table: SpeedTable,
    goal: tuple[Ball, float],
    start: tuple[Ball, float] | float,
    steps: int | None,
    limits: PlanLimits,
    lead: str,
) -> Plan | NoPlan:
    """Find a plan of so many steps, or of a few more than the limits ask for.

    Parameters
    ----------
    person : Person
    table : SpeedTable
    goal, start
        As `find_plan` takes them.
    steps : int or None
        None for the fewest within the limits and `MORE_STEPS`.
    limits : PlanLimits
    lead : str

    Returns
    -------
    Plan or NoPlan
    """

    def of(count: int) -> Plan | NoPlan:
        return find_plan(person, table, table.balls, goal, count, start=start, limits=limits, lead=lead)

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


def ball_value(ball: Ball) -> str:
    """The value of a ball in a choice, as `app.rack.rack_of` has it."""
    return "|".join(texts_of(ball))


def ball_among(picked: object, balls: tuple[Ball, ...]) -> Ball | None:
    """Find a chosen ball among those there are; None if it is none of them."""
    texts = picked_texts(picked)
    return next((ball for ball in balls if texts == texts_of(ball)), None)


def _ball(chosen: str, by_aim: str, case: Case) -> Ball | None:
    """The chosen ball; None for that of the lowest lead readout."""
    wanted = by_aim if chosen in ("", BY_AIM) else chosen
    if wanted == LOWEST:
        return None
    if wanted == "own":
        return case.own_ball
    found = ball_among(wanted, case.rack)
    if found is None:
        raise InputError("Ball", wanted, "a ball of the rack")
    return found
