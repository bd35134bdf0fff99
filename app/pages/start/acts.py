"""What the page's buttons and switches do to the records."""

from typing import Any

from app.bind.edit import Doing
from app.bind.visit import Visit
from app.pages.start.answers import StartAnswer, start_of
from app.pages.start.found import Listed
from app.pages.start.limits import ABSOLUTE, COUNTED, EXAMPLE, SHARE, WANTED, counted_in, limit_row
from app.pages.start.rounded import chosen
from app.pages.start.table import FIRST, ball_key
from app.records.acts import Edit, Remove
from app.records.field_list import field_of
from app.show.added_throw import to_compare
from app.show.kept import edit_of, with_unit
from app.show.window import Spot
from app.units.conversion import from_si, plain, rounded_down
from model.ceilings import BOUNDS

KEPT_PLACES = 2  # of a speed in m/s as Compare keeps it
FIGURES = 3  # of a limit that is counted in another way


def add(visit: Visit, _: str, __: Any) -> Doing:
    """Add the throw of the headline to Compare's list."""
    if visit.data is None:
        return Doing()
    answer = start_of(visit.data, visit.today, visit.system)
    if answer.first is None:
        return Doing(said="Nothing added: no ball stands first.")
    choice = answer.first.choice
    speed = rounded_down(chosen(choice, visit.system).speed_m_s, KEPT_PLACES)
    ball = choice.range.ball
    added = to_compare(visit.data, Spot(ball.mass_kg, speed), answer.case, ball.diameter_m)
    return Doing(added.acts, said=added.notice)


def pressed_throw(answer: StartAnswer, ball: object) -> Listed | None:
    """The throw that a button stands for, by what its id says of the ball; None if there is none, or no longer."""
    if ball == FIRST:
        return answer.first
    listed = answer.found.listed if answer.found else ()
    return next((one for one in listed if ball_key(one) == ball), None)


def plan(visit: Visit, ball: str, _: Any) -> Doing:
    """Take a throw over to Build up; limits of the example that it was found under are the athlete's own from now."""
    if visit.data is None:
        return Doing()
    throw = pressed_throw(start_of(visit.data, visit.today, visit.system), ball)
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
    example = {name: f"{100.0 * share:g}" for name, share in EXAMPLE.items() if name not in visit.data.limits}
    limits = [Edit("limits.amount", text, name) for name, text in example.items()]
    return Doing([*over, *limits], go=visit.address("/build-up"))


def count(visit: Visit, name: str, way: Any) -> Doing:
    """Count a limit, or the wanted peak, in another way: the same as another number.

    Without a reference throw the field is emptied, for its number would mean something else.
    """
    data = visit.data
    if data is None or name not in COUNTED or way not in (SHARE, ABSOLUTE) or way == counted_in(data, name):
        return Doing()
    amount = start_of(data, visit.today, visit.system).means.get(name)
    path = "start.wanted_peak" if name == WANTED else "limits.amount"
    field = field_of(path, {"key": name, "counted": way, "start.wanted_peak_counted": way})
    text = ""
    if amount is not None:
        shown = from_si(amount.value, field.unit)
        text = with_unit(plain(shown, most=max(0, FIGURES - len(str(int(abs(shown)))))), field.unit)
    if name == WANTED:
        return Doing([Edit("start.wanted_peak_counted", way), Edit(path, text)])
    row = limit_row(data, name).uid
    return Doing([Edit("limits.counted", way, row), Edit(path, text, row)])


def clear(visit: Visit, _: str, __: Any) -> Doing:
    """Empty all limits; how they are counted stays."""
    data = visit.data
    return Doing([Edit("limits.amount", "", limit_row(data, name).uid) for name in BOUNDS] if data else [])


def example(visit: Visit, _: str, __: Any) -> Doing:
    """Put the limits of the example in the place of what stands there."""
    return Doing([Remove("limits", row.uid) for row in visit.data.limits.values()] if visit.data else [])
