"""What number a throw is held by when it is held otherwise and keeps its speed. Pure.

A form in which there is nothing to do comes back as it was given.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace

from app.pages.compare.checks import check_throwers
from app.show.checks import check_throw
from app.show.form_fields import HOLD_FIELDS
from app.show.throw_form import Form, ThrowForm
from app.units.conversion import from_si, plain
from model.ball import Ball
from model.person import Person
from model.speed import SpeedProfile
from model.throw import path_loads

FULL = "100"  # per cent of full speed, where nothing is known to convert from


def settled(form: Form, profiles: Mapping[str, SpeedProfile]) -> Form:
    """Give each throw whose way of being held was just chosen the number that leaves its speed as it was.

    Parameters
    ----------
    form : Form
        Such a throw has still the number of how it was held before.
    profiles : mapping of str to SpeedProfile
        By thrower, as far as there are.

    Returns
    -------
    Form
    """
    people = check_throwers(form)
    return _each(form, lambda one: _settled(one, people[one.thrower].person, profiles.get(one.thrower)))


def _each(form: Form, change: Callable[[ThrowForm], ThrowForm]) -> Form:
    throws = tuple(change(throw) for throw in form.throws)
    return form if throws == form.throws else replace(form, throws=throws)


def _settled(throw: ThrowForm, person: Person | None, profile: SpeedProfile | None) -> ThrowForm:
    was = next((hold for hold, field in HOLD_FIELDS.items() if getattr(throw, field.name).strip()), "")
    if was == throw.held or (not was and throw.held != "profile"):
        return throw
    line = check_throw(replace(throw, hold=was or "speed"), person, profile)
    text = ""
    if line.ball is not None and line.speed_m_s is not None:
        text = _number_for(throw.held, line.ball, line.speed_m_s, person, profile)
    return throw.holding(throw.held, text or (FULL if throw.held == "profile" else ""))


def _number_for(hold: str, ball: Ball, speed_m_s: float, person: Person | None, profile: SpeedProfile | None) -> str:
    """The number that goes with a hold at a speed; nothing where it is not known."""
    if hold == "speed":
        return plain(speed_m_s, least=1)
    if hold == "clock":
        return "" if person is None else _percent(speed_m_s / _path_speed_m_s(person, ball))
    if profile is None or profile.posterior.own is None:
        return ""
    return _percent(speed_m_s / float(profile.mean_speed(ball.mass_kg).estimate))


def _path_speed_m_s(person: Person, ball: Ball) -> float:
    """Release speed of an arm at the reference motion's own clock (m/s)."""
    return float(path_loads(person, ball.diameter_m).path_speed_m_s)


def _percent(ratio: float) -> str:
    return plain(from_si(ratio, "%"))
