"""A throw found on another page, put into the list of Compare."""

from dataclasses import dataclass, replace

from app.demo import RackBall
from app.show.checks import check_throw
from app.show.subject import Case
from app.show.throw_form import MOST_THROWS, Form, ThrowForm, add_throw
from app.show.window import Spot
from app.units.conversion import from_si, plain
from app.units.typed import NUMBER
from model.ball import Ball
from model.speed_readings import SAME_BALL_KG

SAME_SPEED_M_S = 0.005


@dataclass(frozen=True)
class Added:
    """The Compare form after a throw was put in, and what is said about it.

    Attributes
    ----------
    form : Form or None
        None if nothing changed.
    notice : str
    """

    form: Form | None
    notice: str


def to_compare(form: Form, spot: Spot, case: Case, diameter_m: float | None = None) -> Added:
    """Put the throw that is looked at at the end of Compare's list.

    Parameters
    ----------
    form : app.show.throw_form.Form
    spot : Spot
    case : Case
        Who throws, and the own ball.
    diameter_m : float, optional
        Of the ball (m); the own ball's unless given, for the map's balls are of that.

    Returns
    -------
    Added
    """
    if spot.mass_kg is None or spot.speed_m_s is None:
        return Added(None, "Nothing added: a ball mass and a speed are needed.")
    mass_g = _as_put(spot.mass_typed, plain(from_si(spot.mass_kg, "g")))
    speed = _as_put(spot.speed_typed, plain(spot.speed_m_s, least=1))
    if diameter_m is None:
        diameter_m = case.own_ball.diameter_m
    name = f"{case.mass(spot.mass_kg)} at {case.system.text(spot.speed_m_s, 'm/s', least=1)}"
    for number, throw in enumerate(form.throws, start=1):
        line = check_throw(throw, case.person, case.profile)
        if throw.thrower or line.ball is None or line.speed_m_s is None:
            continue
        if _same(line.ball, Ball(spot.mass_kg, diameter_m)) and abs(line.speed_m_s - spot.speed_m_s) < SAME_SPEED_M_S:
            return Added(None, f"{name} is already in Compare: throw {number}.")
    blank = next((throw for throw in form.throws if throw.blank and throw.key != form.reference), None)
    if blank is None and len(form.throws) >= MOST_THROWS:
        return Added(None, f"Not added: Compare is full, {MOST_THROWS} throws. Remove one there to add another.")
    diameter_mm = plain(from_si(diameter_m, "mm"))
    if blank is None:
        made = add_throw(form, RackBall("", mass_g, diameter_mm))
        key = made.throws[-1].key
    else:
        made, key = form, blank.key
    thrown = ThrowForm(key, mass_g, diameter_mm, speed)
    made = replace(made, throws=tuple(thrown if throw.key == key else throw for throw in made.throws))
    return Added(made, f"Added to Compare: {name}, throw {made.place(key) + 1} of at most {MOST_THROWS}.")


def _as_put(kept: str, metric: str) -> str:
    """A text with a unit as it was typed, else the number."""
    return kept if kept and not NUMBER.fullmatch(kept) else metric


def _same(ball: Ball, other: Ball) -> bool:
    return abs(ball.mass_kg - other.mass_kg) < SAME_BALL_KG and ball.diameter_m == other.diameter_m
