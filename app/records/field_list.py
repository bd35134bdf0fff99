"""Every field of the records, by its path; and the fields that change with their row."""

import math
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from app.records.fields import LATEST_DAY, Field
from app.records.plan_fields import NOTED, OF_SESSION, PLAN_SETTINGS, ROLE_WORDS, base_path, choice, text, words
from app.records.tables import (
    LONGEST_CODE,
    LONGEST_INITIALS,
    LONGEST_NAME,
    LONGEST_NOTE,
    LONGEST_UID,
    LONGEST_WORD,
)
from model import flight, radar
from model.ball import BALL_LIMITS
from model.ceilings import BOUNDS, DOUBT_LIMIT, KINDS, SHARE_LIMIT
from model.channels import READINGS
from model.checks import InputError, Limit
from model.hold import CLOCK_LIMIT, PROFILE_SHARE_LIMIT
from model.level import SHARE_LIMIT as CAP_SHARE_LIMIT
from model.person import HANDS, PERSON_LIMITS, SEXES
from model.quantity import READOUTS
from model.readouts import QUANTITIES
from model.session_log import THROWN_LIMIT
from model.session_rules import ALL_SIGNS
from model.speed_readings import BASES, EFFORT_LIMIT
from model.start import CERTAINTY_LIMIT
from model.start_list import AIMS
from model.tally import LEVEL_LIMIT, TORQUES
from model.throw import SPEED_LIMIT

SPEED_IS = {"radar": "as the radar showed it", "release": "release speed"}
HOLDS = {"speed": "release speed", "clock": "same clock", "profile": "share of full speed"}
COUNTED = {"share": "% of the reference throw’s", "absolute": "in its own unit"}
ALIGNED = {"release": "release", "rotation": "maximum external rotation", "contact": "foot contact"}
SCALES = {"plain": "plain units", "reference": "% of reference peak", "bwh": "%BW·H"}
JOINTS = {"varus": "elbow", "internal_rotation": "shoulder"}
AMOUNT_UNITS = {"N·m": "N·m", "N·m/s": "N·m/s", "N·m·s": "N·m·s", "s": "ms", "m/s": "m/s"}
"""The unit people type, for that of a limit in the model."""
LIMIT_LABELS = {
    "elbow_peak": "Elbow, peak at most",
    "shoulder_peak": "Shoulder, peak at most",
    "rise_rate": "Elbow, rise rate at most",
    "area": "Elbow, area at most",
    "braking": "Braking at most",
    "least_loaded": "Time loaded at least",
    "most_loaded": "Time loaded at most",
    "speed": "Release speed at most",
}
COUNTED_AT_FIRST = {"speed": "absolute"}
"""How a limit is counted before anybody says; the others as a share."""
ABOVE_LIMITS = {"N·m": Limit(0.1, 2000.0, "N·m"), "N": Limit(1.0, 20000.0, "N")}
MOST_POSITION = Limit(0, 100_000, "")


def _labels(found: Mapping[str, Any]) -> dict[str, str]:
    return {key: one.label for key, one in found.items()}


def _of_share(limit: Limit) -> Limit:
    return replace(limit, unit="")


def _in_degrees(limit: Limit) -> Limit:
    return Limit(round(math.degrees(limit.low), 6), round(math.degrees(limit.high), 6), "°")


def _number(path: str, label: str, unit: str, limit: Limit, **more: Any) -> Field:
    return Field(path, label, "number", unit, _of_share(limit) if unit == "%" else limit, **more)


def _day(path: str, label: str, **more: Any) -> Field:
    return Field(path, label, "day", **more)


def _ball(path: str, label: str = "Ball") -> Field:
    return Field(path, label, "link", to="ball", longest=LONGEST_UID)


def _measure(name: str, label: str, unit: str, hint: str = "") -> Field:
    return _number(f"measures.{name}", label, unit, PERSON_LIMITS[name], stature=name == "stature_m", hint=hint)


_MASS, _DIAMETER = BALL_LIMITS["mass_kg"], BALL_LIMITS["diameter_m"]

FIELDS = {
    one.path: one
    for one in (
        text("athlete.code", "Code", LONGEST_CODE, needed=True),
        choice("athlete.sex", "Sex", words(SEXES)),
        choice("athlete.handedness", "Throwing hand", words(HANDS)),
        Field("athlete.still_growing", "Still growing", "flag"),
        _day("measures.day", "Day of the measures", needed=True),
        _measure("age_years", "Age", "years"),
        _measure("stature_m", "Stature", "cm"),
        _measure("body_mass_kg", "Body mass", "kg"),
        _measure("upper_arm_length_m", "Upper arm", "cm", "shoulder joint to elbow joint"),
        _measure("forearm_length_m", "Forearm", "cm", "elbow joint to wrist joint"),
        _measure("hand_length_m", "Hand", "cm", "wrist centre to third knuckle, not to the fingertip"),
        text("ball.name", "Name of the ball", LONGEST_NAME),
        _number("ball.mass_kg", "Ball mass", "g", _MASS),
        _number("ball.diameter_m", "Ball diameter", "mm", _DIAMETER),
        Field("ball.position", "Place in the list", "whole", "", MOST_POSITION),
        _ball("reading.ball"),
        _day("reading.day", "Day of the reading", needed=True),
        _number("reading.speed_m_s", "Reading", "m/s", SPEED_LIMIT),
        choice("reading.speed_is", "The number is", SPEED_IS, needed=True),
        _number("reading.asked_effort", "Asked effort", "%", EFFORT_LIMIT, hint="empty for full effort"),
        _number("reading.distance_m", "Asked distance", "m", flight.DISTANCE_LIMIT),
        _ball("reference.ball"),
        _day("reference.day", "Day of the reference"),
        choice("reference.kind", "The reference is", KINDS, needed=True),
        _number("reference.speed_m_s", "Speed of the reference throw", "m/s", SPEED_LIMIT),
        _number("reference.relative_sd", "Doubt of the reference speed (±)", "%", DOUBT_LIMIT),
        text("comparison.name", "Name of the comparison", LONGEST_NAME),
        text("comparison.reference", "Reference throw", LONGEST_UID),
        text("comparison.headline", "Throw of the first sentence", LONGEST_UID),
        choice("comparison.kind", "The reference is", KINDS, needed=True),
        _day("comparison.day", "Day of the reference"),
        choice("comparison.quantity", "Quantity", words(QUANTITIES), needed=True),
        choice("comparison.align", "Laid over one another at", ALIGNED, needed=True),
        choice("comparison.scale", "Measured in", SCALES, needed=True),
        Field("throw.thrower", "Thrower", "link", to="athlete", longest=LONGEST_UID),
        Field("throw.position", "Place in the list", "whole", "", MOST_POSITION),
        _number("throw.mass_kg", "Ball mass", "g", _MASS),
        _number("throw.diameter_m", "Ball diameter", "mm", _DIAMETER),
        choice("throw.hold", "Held at", HOLDS, needed=True),
        choice("limits.key", "Limit", LIMIT_LABELS, needed=True),
        choice("limits.counted", "Counted", COUNTED, needed=True),
        text("plan.name", "Name of the plan", LONGEST_NAME),
        _day("plan.start", "First day", ahead=True),
        Field("plan.body", "Plan", "body"),
        Field("session_log.position", "Place in the plan", "whole", "", MOST_POSITION),
        _day("session_log.day", "Day of the session", needed=True),
        Field("session_log.body", "Session", "body"),
        text("stop_sign.sign", "Stop sign", LONGEST_WORD, needed=True, choices=MappingProxyType(ALL_SIGNS)),
        _day("stop_sign.since", "Since", needed=True),
        text("stop_sign.session", "Session", LONGEST_UID),
        *(
            one
            for act in ("entered", "cleared", "withdrawn")
            for one in (
                text(f"stop_sign.{act}_by", f"{act.capitalize()} by", LONGEST_INITIALS, needed=act == "entered"),
                choice(f"stop_sign.{act}_role", "Role", ROLE_WORDS, needed=act == "entered"),
                _day(f"stop_sign.{act}_on", f"{act.capitalize()} on", needed=act == "entered"),
                Field(f"stop_sign.{act}_words", "In words", "note", longest=LONGEST_NOTE),
            )
        ),
        _day("note.day", "Day of the note", needed=True),
        Field("note.text", "Note", "note", longest=LONGEST_NOTE),
        text("lesson.name", "Name of the session", LONGEST_NAME),
        Field("lesson.body", "Session", "body"),
    )
}
"""The fields of the tables."""

SETTINGS = {
    one.path: one
    for one in (
        _number("profile.own_speed_m_s", "Own-ball full speed", "m/s", SPEED_LIMIT),
        choice("profile.basis", "The profile works from", words(BASES), default="all"),
        _day("profile.since", "Use readings since"),
        Field("profile.radar", "Radar correction", "flag", default=False),
        _number("profile.radar_distance_m", "Distance of the radar", "m", radar.DISTANCE_LIMIT, default=2.0),
        _number("profile.radar_angle_deg", "Angle of the radar", "°", _in_degrees(radar.ANGLE_LIMIT), default=0.0),
        choice("profile.joint", "Level points of", JOINTS, default="varus"),
        choice("profile.cap_joint", "Speed caps hold level: joint", JOINTS, default="varus"),
        choice("profile.cap_readout", "Speed caps hold level: readout", _labels(READOUTS), default="peak"),
        _number("profile.cap_share", "Share of full speed", "%", CAP_SHARE_LIMIT, default=0.8),
        choice("profile.cap_of", "Of which full speed", words(("profile", "reference")), default="profile"),
        _ball("profile.throw_ball", "Ball of the prescribed throw"),
        _number("profile.throw_distance_m", "Distance", "m", flight.DISTANCE_LIMIT, default=40.0),
        _number("profile.throw_height_m", "Height", "m", flight.HEIGHT_LIMIT, default=1.8),
        _number("profile.throw_angle_deg", "Angle", "°", _in_degrees(flight.ANGLE_LIMIT), default=25.0),
        Field("profile.throw_farthest", "At the angle that carries farthest", "flag", default=False),
        choice("start.base", "100 % is", words(("reference", "profile"))),
        _number("start.certainty", "Certainty", "%", CERTAINTY_LIMIT, default=0.9),
        choice("start.aim", "What matters most", words(AIMS)),
        choice("start.wanted_peak_counted", "Wanted peak: counted", COUNTED, default="share"),
        text("start.left_out", "Balls left out", 200, unit="g", default=""),
        choice("start.axis", "Upright axis", words(("share", "speed")), default="share"),
        _number("plan.given_mass_kg", "Ball of the first throw", "g", _MASS),
        _number("plan.given_diameter_m", "Its diameter", "mm", _DIAMETER),
        _number("plan.given_speed_m_s", "Speed of the first throw", "m/s", SPEED_LIMIT),
        _day("plan.given_on", "Taken over from Start on"),
        *PLAN_SETTINGS,
        choice("map.reading", "Quantity", _labels(READINGS), default="varus"),
        choice("map.readout", "Readout", _labels(READOUTS), default="peak"),
        choice("map.of", "100 % is", words(("reference", "profile"))),
        choice("map.axis", "Mass axis", {"log": "even ratios", "linear": "even masses"}, default="log"),
        _number("map.mass_from_kg", "Lightest ball", "g", _MASS),
        _number("map.mass_to_kg", "Heaviest ball", "g", _MASS),
        _number("map.speed_from_m_s", "Slowest throw", "m/s", SPEED_LIMIT),
        _number("map.speed_to_m_s", "Fastest throw", "m/s", SPEED_LIMIT),
        _number("map.ball_mass_kg", "Ball mass", "g", _MASS),
        _number("map.ball_speed_m_s", "Release speed", "m/s", SPEED_LIMIT),
        choice("claim.reading", "Quantity", _labels(READINGS), default="varus"),
        choice("claim.way", "More or less", words(("more", "less")), default="more"),
        choice("claim.thrown", "Thrown", words(("profile", "same", "typed")), default="profile"),
        *(
            one
            for which in ("first", "second")
            for one in (
                _number(f"claim.{which}_mass_kg", f"Mass of the {which} ball", "g", _MASS),
                _number(f"claim.{which}_diameter_m", f"Diameter of the {which} ball", "mm", _DIAMETER),
                _number(f"claim.{which}_speed_m_s", f"Speed of the {which} ball", "m/s", SPEED_LIMIT),
            )
        ),
        _number(
            "claim.same_speed_m_s", "Speed of both", "m/s", SPEED_LIMIT, hint="empty: full speed with the own ball"
        ),
        choice("log.reading", "Quantity", _labels({key: READINGS[key] for key in TORQUES}), default="varus"),
        _number("log.level_nm", "Level", "N·m", LEVEL_LIMIT, hint="empty for none"),
        choice("log.bars", "Bars show", words(("area", "throws")), default="area"),
        _day("log.day", "Day of the session"),
        _ball("log.ball", "Ball thrown"),
        Field("log.throws", "Throws thrown", "whole", "throws", replace(THROWN_LIMIT, low=1)),
        _number("log.top_speed_m_s", "Highest speed read", "m/s", SPEED_LIMIT),
        Field("log.note", "Note on the session", "note", longest=LONGEST_NOTE, default=""),
        Field("log.changed", "Session that is being changed", "link", to="session_log", longest=LONGEST_UID),
    )
}
"""Fields of an athlete that stand once and are no column of a table: rows of `setting`. A new one needs a line here."""

OF_SESSIONS = {one.path: one for one in NOTED}
"""Settings that stand once for each session: behind their path is which one, see `plan_fields.OF_SESSION`."""

DEPENDENT = {
    "throw.hold": "throw.number",
    "limits.counted": "limits.amount",
    "start.wanted_peak_counted": "start.wanted_peak",
    "comparison.quantity": "comparison.above",
}
"""A field, and the one whose unit changes with it: a number in the old unit means nothing in the new one."""


def _bound(key: str, counted: str, path: str, label: str) -> Field:
    bound = BOUNDS.get(key)
    label = label or LIMIT_LABELS.get(key, key)
    if counted == "absolute" and bound is not None and bound.accepted.unit in AMOUNT_UNITS:
        return _number(path, label, AMOUNT_UNITS[bound.accepted.unit], bound.accepted)
    return _number(path, label, "%", SHARE_LIMIT)


def field_of(path: str, row: Mapping[str, Any] | None = None) -> Field:
    """Find a field.

    Parameters
    ----------
    path : str
    row : mapping of str to object, optional
        The row's other values, for a field whose unit depends on them: a throw's number on how it is held, a limit's
        amount on what it limits and how it is counted, the level of "time above" on the quantity. For the wanted peak
        the athlete's settings.

    Returns
    -------
    Field

    Raises
    ------
    InputError
        If there is no such field.
    """
    found = FIELDS.get(path) or SETTINGS.get(path) or (OF_SESSIONS.get(base_path(path)) if OF_SESSION in path else None)
    if found is not None:
        return found
    row = row or {}
    if path == "throw.number":
        hold = row.get("hold") or "speed"
        if hold == "clock":
            return _number(path, "Joint speeds", "%", CLOCK_LIMIT)
        if hold == "profile":
            return _number(path, "Share of full speed", "%", PROFILE_SHARE_LIMIT)
        return _number(path, "Release speed", "m/s", SPEED_LIMIT)
    if path == "limits.amount":
        return _bound(str(row.get("key")), str(row.get("counted")), path, "")
    if path == "start.wanted_peak":
        counted = str(row.get("start.wanted_peak_counted") or "share")
        return replace(_bound("elbow_peak", counted, path, "Wanted peak at the elbow"), default=None)
    if path == "comparison.above":
        reading = QUANTITIES.get(str(row.get("quantity")))
        unit = reading.unit if reading is not None and reading.unit in ABOVE_LIMITS else "N·m"
        return _number(path, "Level", unit, ABOVE_LIMITS[unit])
    raise InputError("field", path, "a field of the records")


def settings_of(kept: Mapping[str, Any]) -> dict[str, Any]:
    """Give every setting its value: what is kept, or its default.

    Parameters
    ----------
    kept : mapping of str to object
        Values by path.

    Returns
    -------
    dict of str to object
    """
    made = {path: one.default for path, one in SETTINGS.items()} | {"start.wanted_peak": None}
    return made | {path: value for path, value in kept.items() if path in made}


def is_setting(path: str) -> bool:
    """Whether a path is a setting of the athlete, and no column of a table."""
    return path in SETTINGS or path == "start.wanted_peak" or of_session(path)


def of_session(path: str) -> bool:
    """Whether a path is a setting of one session: emptied it still says so, and is another thing than never set."""
    return OF_SESSION in path and base_path(path) in OF_SESSIONS


def as_kept(field: Field, value: Any) -> Any:
    """A value as JSON keeps it: a day as its text."""
    return value.isoformat() if field.kind == "day" and value is not None else value


def from_kept(field: Field, value: Any) -> Any:
    """The value of what JSON kept."""
    if field.kind == "day" and isinstance(value, str):
        return type(LATEST_DAY).fromisoformat(value)
    return value
