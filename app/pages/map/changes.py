"""What a click or a button does: a throw of the map goes to Compare, and can be taken back. Pure."""

import math

from app.pages.map.checks import MASS, SPEED
from app.show.added_throw import Added
from app.show.subject import Case
from app.show.throw_form import FormError, from_json
from app.units.conversion import from_si, plain, to_si
from app.units.systems import METRIC, System

HEAVIER = 2.0  # times the own ball: the first throw looked at is with the ball of the rack that is nearest to it


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
