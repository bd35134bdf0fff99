"""From the typed profile form to balls and radar readings: every value is checked in its own cell, none is lost."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.show import profile_fields as fields
from app.show.checks import EARLIEST_DATE, message, read_number
from app.show.form_fields import LONGEST_TEXT, Field
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.units.systems import METRIC, System
from app.units.typed import NUMBER
from model.ball import Ball
from model.checks import InputError, Limit
from model.flight import ANGLE_LIMIT, Launch
from model.radar import Radar
from model.speed_readings import RadarReading

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(frozen=True)
class Placed:
    """A reading, as the radar showed it, and where it stands: key of its ball, and its place from 0; and whether it is
    the release speed already.
    """

    key: str
    cell: int
    ball: Ball
    reading: RadarReading
    release: bool = False


@dataclass(frozen=True)
class CheckedForm:
    """A profile form, read.

    Attributes
    ----------
    balls : tuple of (str, Ball)
        Key and ball of each row whose ball could be read, in their order.
    readings : tuple of Placed
        All that could be read.
    problems : mapping of str to str
        Messages by field: `at_ball` or `at_cell` for those of the grid, else the name of the form's own.
    own_speed_m_s : float or None
    radar : Radar or None
        None while the correction is off.
    cap_share : float or None
        Share of full speed.
    distance_m : float or None
    launch : Launch or None
    """

    balls: tuple[tuple[str, Ball], ...]
    readings: tuple[Placed, ...]
    problems: Mapping[str, str]
    own_speed_m_s: float | None
    radar: Radar | None
    cap_share: float | None
    distance_m: float | None
    launch: Launch | None

    def ball(self, key: str) -> Ball | None:
        """Find a ball by its key; None if there is none that could be read."""
        return next((ball for found, ball in self.balls if found == key), None)


def at_ball(key: str, name: str) -> str:
    """Name a field of a ball: name "mass_g" or "diameter_mm"."""
    return f"{key}/{name}"


def at_cell(key: str, cell: int, name: str) -> str:
    """Name a field of a reading: name "speed", "date" or "effort"."""
    return f"{key}/{cell}/{name}"


def typed_number(text: str, name: str, limit: Limit) -> float:
    """Read a typed number that stays in the unit it was typed in.

    Parameters
    ----------
    text : str
        As typed, with a point or a comma for the decimals.
    name : str
        What the field is called.
    limit : Limit
        The accepted range, in that unit.

    Returns
    -------
    float

    Raises
    ------
    InputError
        If it is no plain number or outside the range.
    """
    typed = text.strip()
    accepted = str(limit)
    if not typed:
        raise InputError(name, text, accepted)
    if len(typed) > LONGEST_TEXT or not NUMBER.fullmatch(typed):
        raise InputError(name, text, f"{accepted}, as a plain number with a point or a comma for decimals")
    number = float(typed.replace(",", ".").replace("\u2212", "-"))
    if not limit.low <= number <= limit.high:
        raise InputError(name, text, accepted)
    return number


def check_form(form: ProfileForm, today: date, system: System = METRIC) -> CheckedForm:
    """Read a profile form.

    Parameters
    ----------
    form : ProfileForm
        As typed.
    today : date
        No reading was made after it.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedForm
    """
    problems: dict[str, str] = {}
    balls: list[tuple[str, Ball]] = []
    readings: list[Placed] = []
    for row in form.rows:
        ball = _ball(row, problems, system)
        if ball is not None:
            balls.append((row.key, ball))
        for place, cell in enumerate(row.cells):
            reading = _reading(row, place, cell, ball, today, problems, system)
            if reading is not None and ball is not None:
                readings.append(Placed(row.key, place, ball, reading, bool(cell.release)))
    own = _own_speed(form.own_speed_m_s, problems, system)
    return CheckedForm(
        tuple(balls),
        tuple(readings),
        problems,
        own,
        _radar(form, problems, system),
        _percent(form.cap_share, "cap_share", "Share", fields.SHARE, problems),
        _typed(form.throw_distance_m, fields.DISTANCE, fields.DISTANCE.name, problems, system),
        _launch(form, problems, system),
    )


def _ball(row: BallRow, problems: dict[str, str], system: System) -> Ball | None:
    if not row.mass_g.strip() and row.empty:
        return None
    found = {}
    for spec in (fields.MASS, fields.DIAMETER):
        found[spec.model_name] = _typed(getattr(row, spec.name), spec, at_ball(row.key, spec.name), problems, system)
    mass, diameter = found["mass_kg"], found["diameter_m"]
    return None if mass is None or diameter is None else Ball(mass, diameter)


def _typed(text: str, spec: Field, field: str, problems: dict[str, str], system: System) -> float | None:
    try:
        return read_number(text, spec.label, spec.limit, spec.unit, spec.unit_in(system))
    except InputError as error:
        problems[field] = message(error)
        return None


def _reading(
    row: BallRow,
    place: int,
    cell: Cell,
    ball: Ball | None,
    today: date,
    problems: dict[str, str],
    system: System,
) -> RadarReading | None:
    if cell.blank:
        return None
    before = len(problems)
    of = fields.mass_words(row.mass_g, system)

    def name(what: str) -> str:
        return f"{what} {place + 1}" + (f" of {of}" if of else "")

    def tell(what: str, error: InputError) -> None:
        problems[at_cell(row.key, place, what)] = message(error)

    speed, effort, day = 0.0, 1.0, None
    try:
        speed = read_number(cell.speed, name("Reading"), fields.SPEED.limit, fields.SPEED.unit, system.unit("m/s"))
    except InputError as error:
        tell("speed", error)
    try:
        if cell.effort.strip():
            typed = cell.effort.strip().removesuffix("%")
            effort = typed_number(typed, name("Asked effort"), fields.EFFORT) / fields.PERCENT
    except InputError as error:
        tell("effort", error)
    try:
        day = read_day(cell.date, name("Day of reading"), today)
    except InputError as error:
        tell("date", error)
    if ball is None or len(problems) > before:
        return None
    return RadarReading(ball.mass_kg, speed, effort, on=day)


def read_day(text: str, name: str, today: date) -> date | None:
    """Read a typed day; None if it was left out.

    Parameters
    ----------
    text : str
    name : str
        What the field is called.
    today : date
        The last day accepted.

    Returns
    -------
    date or None

    Raises
    ------
    InputError
        If it is no day of the form year-month-day from `EARLIEST_DATE` to today.
    """
    typed = text.strip()
    if not typed:
        return None
    try:
        if not _DATE.fullmatch(typed):
            raise ValueError
        day = date.fromisoformat(typed)
        if not EARLIEST_DATE <= day <= today:
            raise ValueError
    except ValueError:
        raise InputError(name, text, f"year-month-day from {EARLIEST_DATE} to {today}") from None
    return day


def _own_speed(text: str, problems: dict[str, str], system: System) -> float | None:
    return _typed(text, fields.OWN_SPEED, fields.OWN_SPEED.name, problems, system) if text.strip() else None


def _number(text: str, field: str, name: str, limit: Limit, problems: dict[str, str]) -> float | None:
    try:
        return typed_number(text, name, limit)
    except InputError as error:
        problems[field] = message(error)
        return None


def _percent(text: str, field: str, name: str, limit: Limit, problems: dict[str, str]) -> float | None:
    number = _number(text.strip().removesuffix("%"), field, name, limit, problems)
    return None if number is None else number / fields.PERCENT


def _radar(form: ProfileForm, problems: dict[str, str], system: System) -> Radar | None:
    distance = _typed(form.radar_distance_m, fields.RADAR_DISTANCE, fields.RADAR_DISTANCE.name, problems, system)
    angle = _number(form.radar_angle_deg, "radar_angle_deg", "Angle", fields.RADAR_ANGLE, problems)
    if form.radar != "on" or distance is None or angle is None:
        return None
    return Radar(distance_m=distance, angle_rad=math.radians(angle))


def _launch(form: ProfileForm, problems: dict[str, str], system: System) -> Launch | None:
    height = _typed(form.throw_height_m, fields.HEIGHT, fields.HEIGHT.name, problems, system)
    if not form.throw_angle_deg.strip():
        return None if height is None else Launch(height, None)
    angle = _number(form.throw_angle_deg, "throw_angle_deg", "Angle", fields.ANGLE, problems)
    if height is None or angle is None:
        return None
    # 90 degrees typed may come out a rounding error above the limit in radians
    return Launch(height, min(ANGLE_LIMIT.high, max(ANGLE_LIMIT.low, math.radians(angle))))
