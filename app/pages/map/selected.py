"""The throw that is looked at: where the map was clicked, and which one it is while nothing was typed. Pure."""

import math
from dataclasses import replace

from app.pages.map.checks import MASS, SPEED
from app.pages.map.form import MapForm
from app.show.subject import Case
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
        Mass in whole grams and speed to 0.1 m/s, or both to a tenth of the reader's units, as they would be typed;
        None if it is no place on a map.
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
        typed.append(plain(min(max(shown, low), high), most=1 if system.converts(spec.unit) else places))
    return typed[0], typed[1]


def usual_throw(form: MapForm, case: Case) -> tuple[str, str]:
    """The throw of fields left empty: a heavier ball of the rack, and this athlete's full speed with the ball.

    Parameters
    ----------
    form : MapForm
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
    usual_kg = to_si(round(from_si(wanted, "g")), "g") if ball is None else ball.mass_kg
    mass_kg = MASS.read(form.ball_mass_g) if form.ball_mass_g.strip() else usual_kg
    speed = "" if mass_kg is None else plain(float(profile.mean_speed(mass_kg).estimate), least=1, most=1)
    return plain(from_si(usual_kg, "g")), speed


def with_usual_throw(form: MapForm, case: Case) -> MapForm:
    """The form with the usual throw where a field of the throw was left empty."""
    mass, speed = usual_throw(form, case)
    return replace(
        form,
        ball_mass_g=form.ball_mass_g if form.ball_mass_g.strip() else mass,
        speed_m_s=form.speed_m_s if form.speed_m_s.strip() else speed,
    )
