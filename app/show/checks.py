"""From typed texts to a person, a ball, a throw and the day of a reference, with a message for each text refused.

A point and a comma both mark the decimals (28.5 and 28,5 are the same); there are no thousands separators, so that no
typed number can be read in two ways. A unit may stand behind the number, see `app.units.typed`; messages are in the
units of the reader.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from app.show.form_fields import (
    BALL_FIELDS,
    CHOICES,
    HOLD_FIELDS,
    HOLDS,
    LENGTHS,
    LONGEST_CODE,
    LONGEST_TEXT,
    MARK,
    MARKED,
    MARKS,
    MEASURE_NAMES,
    MEASURES,
    Field,
)
from app.show.throw_form import KINDS, Form, ThrowForm
from app.units.conversion import from_si, range_in
from app.units.systems import METRIC, System
from app.units.typed import as_typed, read_typed
from model.ball import Ball
from model.checks import InputError, Limit
from model.hold import AtClock, AtSpeed, Hold, OnProfile, held
from model.interval import Interval
from model.person import Person
from model.speed import SpeedProfile
from model.throw import SPEED_LIMIT

EARLIEST_DATE = date(1990, 1, 1)
SHOWN_CHARACTERS = 24  # of a wrong value, in its message
NO_PROBLEMS: Mapping[str, str] = MappingProxyType({})
REFERENCE_HELD = {"clock": "clock-held", "profile": "profile"}
"""The word beside every per cent where the reference is not held at a release speed."""
NO_PROFILE = (
    "Share of full speed: there is no speed profile yet; enter radar readings on the Athlete page, "
    "or hold the reference throw at a release speed."
)


def read_number(text: str, name: str, limit: Limit, unit: str, shown: str = "") -> float:
    """Read a typed number.

    Parameters
    ----------
    text : str
        As kept: with a point or a comma for the decimals, and a unit of the field's kind or none.
    name : str
        What the field is called.
    limit : Limit
        The accepted range, in SI.
    unit : str
        The unit of a number without one.
    shown : str
        The unit that the range is told in, where that is another one.

    Returns
    -------
    float
        The number in SI.

    Raises
    ------
    InputError
        If it is no plain number or lies outside the range; its text says what was given and what is accepted.
    """
    accepted = range_in(limit, shown or unit)
    given = as_typed(text)
    if not given.strip():
        raise InputError(name, given, accepted)
    typed = read_typed(text, unit) if len(given.strip()) <= LONGEST_TEXT else None
    if typed is None:
        raise InputError(name, given, f"{accepted}, as a plain number with a point or a comma for decimals")
    if not limit.low <= typed.si <= limit.high:
        raise InputError(name, given, accepted)
    return typed.si


def message(error: InputError) -> str:
    """Say what is wrong with a typed value.

    Parameters
    ----------
    error : InputError
        With the field's printed name, the typed text and what is accepted.

    Returns
    -------
    str
        Field, value given, what is accepted.
    """
    given = str(error.given).strip()
    if not given:
        return f"{error.field}: nothing given; accepted: {error.accepted}."
    shown = given if len(given) <= SHOWN_CHARACTERS else given[: SHOWN_CHARACTERS - 1] + "…"
    return f"{error.field}: “{shown}” given; accepted: {error.accepted}."


def read_field(text: str, spec: Field, problems: dict[str, str], system: System) -> float | None:
    """Read a field, or note what is wrong with it.

    Parameters
    ----------
    text : str
        As kept.
    spec : Field
    problems : dict of str to str
        Gets a message under the field's name if it cannot be read.
    system : System
        The units of the message.

    Returns
    -------
    float or None
        The number in SI; None if it is wrong, or left out where that may be.
    """
    if not text.strip() and not spec.needed:
        return None
    try:
        return read_number(text, spec.label, spec.limit, spec.unit, spec.unit_in(system))
    except InputError as error:
        problems[spec.name] = message(error)
        return None


@dataclass(frozen=True)
class CheckedAthlete:
    """The athlete's fields, read: a person if all could be, and a message for each field that could not."""

    person: Person | None
    code: str
    problems: Mapping[str, str] = field(default_factory=lambda: NO_PROBLEMS)


@dataclass(frozen=True)
class CheckedThrow:
    """A line of the list, read: ball and speed if all could be, and a message for each field that could not.

    The speed is the release speed (m/s), however the throw is held; on the speed profile it comes with its interval.
    The value is the number that goes with the hold, in its field's own unit (m/s or %).
    """

    form: ThrowForm
    ball: Ball | None = None
    speed_m_s: float | None = None
    problems: Mapping[str, str] = field(default_factory=lambda: NO_PROBLEMS)
    full_speed_m_s: Interval | None = None
    value: float | None = None


def check_athlete(athlete: Mapping[str, str], system: System = METRIC) -> CheckedAthlete:
    """Read the athlete's fields.

    A code that is too long is told, but stops nothing: no number depends on it. Fields are called missing only when
    another one was filled in, so that an empty form does not scold.

    Parameters
    ----------
    athlete : mapping of str to str
        As typed.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedAthlete
    """
    code = athlete["code"].strip()
    if not any(text.strip() for text in athlete.values()):
        return CheckedAthlete(None, code)
    problems: dict[str, str] = {}
    measures: dict[str, float] = {}
    for name, words in CHOICES.items():
        if athlete[name] not in words:
            problems[name] = message(InputError(MEASURE_NAMES[name].capitalize(), athlete[name], " or ".join(words)))
    if athlete[MARK] not in ("", MARKED):
        accepted = " or ".join(MARKS.values())
        problems[MARK] = message(InputError(MEASURE_NAMES[MARK].capitalize(), athlete[MARK], accepted))
    for spec in MEASURES + LENGTHS:
        _read_into(measures, problems, spec, athlete[spec.name], system)
    hand, marked = athlete["handedness"], athlete[MARK] == MARKED
    person = None if problems else Person(athlete["sex"], handedness=hand, still_growing=marked, **measures)
    if len(code) > LONGEST_CODE or not code.isprintable():
        problems["code"] = message(InputError("Code", code, f"up to {LONGEST_CODE} printable characters"))
    return CheckedAthlete(person, code[:LONGEST_CODE] if code.isprintable() else "", problems)


def check_throw(
    throw: ThrowForm, person: Person | None = None, profile: SpeedProfile | None = None, system: System = METRIC
) -> CheckedThrow:
    """Read a line of the list; a blank one is neither right nor wrong.

    Parameters
    ----------
    throw : ThrowForm
    person : Person, optional
        Who throws. Without, a throw that is not held at a release speed has none.
    profile : SpeedProfile, optional
        The person's.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedThrow
    """
    if throw.blank:
        return CheckedThrow(throw)
    problems: dict[str, str] = {}
    values: dict[str, float] = {}
    spec = HOLD_FIELDS[throw.held]
    for one in (*BALL_FIELDS, spec):
        _read_into(values, problems, one, getattr(throw, one.name), system)
    if problems:
        return CheckedThrow(throw, problems=problems)
    ball, value = Ball(values["mass_kg"], values["diameter_m"]), values[spec.model_name]
    if throw.held == "speed":
        return CheckedThrow(throw, ball, value, value=value)
    if person is None:
        return CheckedThrow(throw, ball, value=from_si(value, spec.unit))
    if throw.held == "profile" and (profile is None or profile.posterior.own is None):
        return CheckedThrow(throw, ball, problems={spec.name: NO_PROFILE})
    try:
        speed = held(person, ball, _hold(throw.held, value, profile)).speed_m_s
    except InputError:
        accepted = f"what gives a release speed of {range_in(SPEED_LIMIT, system.unit('m/s'))}"
        return CheckedThrow(
            throw, ball, problems={spec.name: message(InputError(spec.label, as_typed(throw.typed), accepted))}
        )
    full = profile.mean_speed(ball.mass_kg) if throw.held == "profile" and profile is not None else None
    return CheckedThrow(throw, ball, speed, full_speed_m_s=full, value=from_si(value, spec.unit))


def check_ball(throw: ThrowForm) -> Ball | None:
    """Read the ball of a throw, whose speed may be missing; None where it cannot be read."""
    values: dict[str, float] = {}
    for one in BALL_FIELDS:
        _read_into(values, {}, one, getattr(throw, one.name), METRIC)
    return Ball(**values) if len(values) == len(BALL_FIELDS) else None


def _hold(held: str, value: float, profile: SpeedProfile | None) -> Hold:
    if held == "profile" and profile is not None:
        return OnProfile(profile, value)
    return AtClock(value) if held == "clock" else AtSpeed(value)


def _read_into(
    values: dict[str, float], problems: dict[str, str], spec: Field, text: str, system: System = METRIC
) -> None:
    value = read_field(text, spec, problems, system)
    if value is not None:
        values[spec.model_name] = value


def check_reference(form: Form, today: date) -> tuple[str, str, str]:
    """Put the reference's kind into words.

    Parameters
    ----------
    form : Form
    today : date
        No reference was measured after it.

    Returns
    -------
    str
        The word that stands beside every per cent: ``measured``, ``pre-injury`` or ``estimated``; where the reference
        is not held at a release speed, what it is held at.
    str
        The same in full, with the date where there is one: ``from before an injury, 2025-09-02``.
    str
        What is wrong with the date, or nothing.
    """
    kind = form.kind if form.kind in KINDS else "estimated"
    place = form.place(form.reference)
    hold = form.throws[place].held if place >= 0 else "speed"
    if hold != "speed":  # what follows from a clock or a profile was not measured
        return REFERENCE_HELD[hold], f"held at the {HOLDS[hold]}", ""
    if kind == "estimated":
        return kind, kind, ""
    day, problem = _read_date(form.date, today, needed=kind == "before")
    if kind == "before":
        return "pre-injury", f"{KINDS[kind]}, {day.isoformat() if day else 'date not given'}", problem
    return kind, f"{kind} {day.isoformat()}" if day else kind, problem


def _read_date(text: str, today: date, needed: bool) -> tuple[date | None, str]:
    typed = text.strip()
    if not typed and not needed:
        return None, ""
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", typed):
            raise ValueError
        day = date.fromisoformat(typed)
        if not EARLIEST_DATE <= day <= today:
            raise ValueError
    except ValueError:
        accepted = f"year-month-day from {EARLIEST_DATE} to {today}"
        return None, message(InputError("Date of the reference", text, accepted))
    return day, ""
