"""What a click or a button does: a throw of the map goes to Compare, and can be taken back. Pure."""

import math
from dataclasses import dataclass, replace

from app.compare.answers import plain
from app.compare.checks import check_throw
from app.demo import RackBall
from app.map.checks import MASS, SPEED, Spot
from app.show.subject import Case
from app.show.throw_form import MOST_THROWS, Form, FormError, ThrowForm, add_throw, from_json
from app.units.conversion import from_si, to_si
from app.units.systems import METRIC, System
from app.units.typed import NUMBER
from model.ball import Ball
from model.speed_readings import SAME_BALL_KG

SAME_SPEED_M_S = 0.005
HEAVIER = 2.0  # times the own ball: the first throw looked at is with the ball of the rack that is nearest to it


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


def clicked(where: object, system: System = METRIC) -> tuple[str, str] | None:
    """Read where the map was clicked.

    Parameters
    ----------
    where : object
        What the browser sent: mass (g) and speed (m/s).
    system : System
        The reader's units.

    Returns
    -------
    (str, str) or None
        Mass in whole grams and speed to 0.1 m/s, or both to a tenth of the reader's units, as they would be kept had
        they been typed; None if it is no place on a map.
    """
    if not isinstance(where, dict):
        return None
    typed = []
    for spec, name, places in ((MASS, "mass_g", 0), (SPEED, "speed_m_s", 1)):
        value = where.get(name)
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            return None
        unit = spec.unit_in(system)
        low, high = from_si(spec.limit.low, unit), from_si(spec.limit.high, unit)
        shown = from_si(to_si(float(value), spec.unit), unit)
        text = plain(min(max(shown, low), high), most=1 if system.converts(spec.unit) else places)
        typed.append(spec.kept(text, "", system))
    return typed[0], typed[1]


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


def taken_back(before: object) -> Added:
    """Put Compare's list back as it was before the last throw was added from here.

    Parameters
    ----------
    before : object
        What the browser kept of it.

    Returns
    -------
    Added
    """
    try:
        return Added(from_json(before), "Taken back from Compare.")
    except FormError:
        return Added(None, "There is nothing to take back.")


def first_spot(case: Case) -> tuple[str, str]:
    """Choose the throw that is looked at first: a heavier ball of the rack at this athlete's full speed with it.

    Parameters
    ----------
    case : Case

    Returns
    -------
    (str, str)
        Mass (g) and speed (m/s) as they would be typed; empty while nothing is known of the speed.
    """
    profile = case.profile
    if profile is None or profile.posterior.own is None:
        return "", ""
    wanted = HEAVIER * case.own_ball.mass_kg
    others = [ball for ball in case.rack if ball != case.own_ball]
    ball = min(others, key=lambda one: abs(one.mass_kg - wanted), default=None)
    mass_kg = to_si(round(from_si(wanted, "g")), "g") if ball is None else ball.mass_kg
    return plain(from_si(mass_kg, "g")), plain(float(profile.mean_speed(mass_kg).estimate), least=1, most=1)


def _as_put(kept: str, metric: str) -> str:
    """A text with a unit as it was typed, else the number."""
    return kept if kept and not NUMBER.fullmatch(kept) else metric


def _same(ball: Ball, other: Ball) -> bool:
    return abs(ball.mass_kg - other.mass_kg) < SAME_BALL_KG and ball.diameter_m == other.diameter_m
