"""What the page's buttons and switches do to the records."""

from typing import Any

from app.bind.edit import Doing
from app.bind.visit import Visit
from app.pages.start.answers import StartAnswer, field_for, start_of
from app.pages.start.checks import fields_of
from app.pages.start.counted import counted
from app.pages.start.form import ABSOLUTE, COUNTED, LIMITS, SHARE, form_of
from app.pages.start.found import Listed
from app.pages.start.rounded import chosen
from app.pages.start.table import FIRST, ball_key
from app.records.acts import Edit, Remove
from app.records.field_list import field_of
from app.records.reads import AthleteData
from app.show.added_throw import to_compare
from app.show.from_records import edit_of, subject_of, with_unit
from app.show.window import Spot
from app.units.conversion import rounded_down

KEPT_PLACES = 2  # of a speed in m/s as Compare keeps it


def _answer(visit: Visit, data: AthleteData) -> StartAnswer:
    return start_of(form_of(data), subject_of(data, visit.today), visit.today, visit.system)


def add(visit: Visit, _: str, __: Any) -> Doing:
    """Add the throw of the headline to Compare's list."""
    if visit.data is None:
        return Doing()
    answer = _answer(visit, visit.data)
    if answer.first is None:
        return Doing(said="Nothing added: no ball stands first.")
    choice = answer.first.choice
    speed = rounded_down(chosen(choice, visit.system).speed_m_s, KEPT_PLACES)
    ball = choice.range.ball
    added = to_compare(visit.data, Spot(ball.mass_kg, speed), answer.case, ball.diameter_m)
    return Doing(added.acts, said=added.notice)


def pressed_throw(answer: StartAnswer, ball: object) -> Listed | None:
    """Find the throw that a button stands for.

    Parameters
    ----------
    answer : StartAnswer
    ball : object
        What its id says of the ball, as the browser sent it.

    Returns
    -------
    Listed or None
        None if there is no such throw, or no longer.
    """
    if ball == FIRST:
        return answer.first
    listed = answer.found.listed if answer.found else ()
    return next((one for one in listed if ball_key(one) == ball), None)


def plan(visit: Visit, ball: str, _: Any) -> Doing:
    """Take a throw over to Build up; limits of the example that it was found under are the athlete's own from now."""
    if visit.data is None:
        return Doing()
    answer = _answer(visit, visit.data)
    throw = pressed_throw(answer, ball)
    if throw is None:
        return Doing(said="Nothing taken over: this ball has no speed any more.")
    given = throw.choice.range.ball
    values = {
        "mass_kg": given.mass_kg,
        "diameter_m": given.diameter_m,
        "speed_m_s": chosen(throw.choice, visit.system).speed_m_s,
        "on": visit.today,
    }
    paths = {f"plan.given_{name}": value for name, value in values.items()}
    over = [edit_of(path, field_of(path).kept(value)) for path, value in paths.items()]
    example = [name for name in LIMITS if name not in visit.data.limits and getattr(answer.form, name)]
    limits = [Edit("limits.amount", getattr(answer.form, name), name) for name in example]
    return Doing([*over, *limits], go=visit.address("/build-up"))


def count(visit: Visit, name: str, way: Any) -> Doing:
    """Count a limit, or the wanted peak, in another way: the same as another number."""
    data = visit.data
    if data is None or name not in COUNTED or way not in (SHARE, ABSOLUTE):
        return Doing()
    form = form_of(data)
    made = counted(form, {name: way}, field_for(form, subject_of(data, visit.today), visit.today))
    text = with_unit(getattr(made, name), fields_of(made)[name].unit)
    if name == "wanted_peak":
        return Doing([Edit("start.wanted_peak_counted", way), Edit("start.wanted_peak", text)])
    row = data.limits[name].uid if name in data.limits else name
    return Doing([Edit("limits.counted", way, row), Edit("limits.amount", text, row)])


def clear(visit: Visit, _: str, __: Any) -> Doing:
    """Empty all limits; how they are counted stays."""
    there = visit.data.limits if visit.data else {}
    return Doing([Edit("limits.amount", "", there[name].uid if name in there else name) for name in LIMITS])


def example(visit: Visit, _: str, __: Any) -> Doing:
    """Put the limits of the example in the place of what stands there."""
    return Doing([Remove("limits", row.uid) for row in visit.data.limits.values()] if visit.data else [])
