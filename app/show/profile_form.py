"""The speed profile's form as it was typed: the athlete's balls, radar readings and choices, nothing worked out.

It is what the browser keeps and sends, so it is read with distrust and changed only by pure functions. The readings
belong to an athlete's code; `kept` holds the forms of several.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, fields, replace

from app.demo import DemoReading, RackBall
from app.show.throw_form import DEFAULT_DIAMETER, LONGEST_KEPT, FormError

VERSION = 1
MOST_BALLS = 16
MOST_READINGS = 40  # of one ball

_KEY = re.compile(r"b[1-9][0-9]{0,4}")


@dataclass(frozen=True)
class Cell:
    """One radar reading, as typed: speed (m/s), day and asked effort (%); the last two may be left out. Of one that is
    kept, the uid of its row; and "yes" if the number is the release speed already, and no radar's.

    Without a speed there is no reading: an emptied cell takes its day and effort with it.
    """

    speed: str = ""
    date: str = ""
    effort: str = ""
    row: str = ""
    release: str = ""

    @property
    def blank(self) -> bool:
        """Whether there is no reading."""
        return not self.speed.strip()


@dataclass(frozen=True)
class BallRow:
    """One ball and its readings, as typed."""

    key: str
    mass_g: str = ""
    diameter_mm: str = DEFAULT_DIAMETER
    cells: tuple[Cell, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether it has no reading."""
        return all(cell.blank for cell in self.cells)


@dataclass(frozen=True)
class ProfileForm:
    """All that belongs to an athlete's speed profile.

    Attributes
    ----------
    rows : tuple of BallRow
        The athlete's balls.
    own_speed_m_s : str
        Typed full speed with the own ball; empty for the reference throw's.
    basis : str
        What the profile works from: a key of `model.speed_readings.BASES`.
    radar, radar_distance_m, radar_angle_deg : str
        "on" for the radar correction, and where the radar stands.
    joint : str
        Whose level points are shown: "varus" or "internal_rotation".
    cap_joint, cap_readout, cap_share, cap_of : str
        What the speed caps hold level, the share of full speed (%), and of which full speed: "profile" or "reference".
    throw_ball, throw_distance_m, throw_height_m, throw_angle_deg : str
        A throw prescribed as a distance: key of its ball (empty for the own one), and how it is thrown.
    """

    rows: tuple[BallRow, ...] = ()
    own_speed_m_s: str = ""
    basis: str = "all"
    radar: str = ""
    radar_distance_m: str = "2"
    radar_angle_deg: str = "0"
    joint: str = "varus"
    cap_joint: str = "varus"
    cap_readout: str = "peak"
    cap_share: str = "80"
    cap_of: str = "profile"
    throw_ball: str = ""
    throw_distance_m: str = "40"
    throw_height_m: str = "1.8"
    throw_angle_deg: str = "25"

    @property
    def untouched(self) -> bool:
        """Whether there is no reading."""
        return all(row.empty for row in self.rows)

    def place(self, key: str) -> int:
        """Find a ball's place among the rows; -1 if it is not there."""
        return next((i for i, row in enumerate(self.rows) if row.key == key), -1)


TEXT_NAMES = tuple(field.name for field in fields(ProfileForm) if field.name != "rows")


def to_json(form: ProfileForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; empty cells after the last reading are left out.

    Parameters
    ----------
    form : ProfileForm

    Returns
    -------
    dict
    """
    rows = [asdict(row) | {"cells": [asdict(cell) for cell in trimmed(row.cells)]} for row in form.rows]
    return {"version": VERSION, "rows": rows} | {name: getattr(form, name) for name in TEXT_NAMES}


def from_json(kept: object) -> ProfileForm:
    """Read a form that the browser kept.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    ProfileForm

    Raises
    ------
    FormError
        If it is anything but what `to_json` writes.
    """
    data = _record(kept, {"version", "rows", *TEXT_NAMES})
    if data["version"] != VERSION:
        raise FormError("another version")
    given = data["rows"]
    if not isinstance(given, list) or len(given) > MOST_BALLS:
        raise FormError("rows")
    rows = tuple(_row(row) for row in given)
    keys = [row.key for row in rows]
    if len(set(keys)) < len(keys) or not all(is_key(key) for key in keys):
        raise FormError("keys")
    return ProfileForm(rows, **_texts({name: data[name] for name in TEXT_NAMES}))


def _row(given: object) -> BallRow:
    data = _record(given, {field.name for field in fields(BallRow)})
    cells = data.pop("cells")
    if not isinstance(cells, list) or len(cells) > MOST_READINGS:
        raise FormError("cells")
    names = {field.name for field in fields(Cell)}
    return BallRow(**_texts(data), cells=tuple(Cell(**_texts(_record(cell, names))) for cell in cells))


def _record(given: object, names: set[str]) -> dict[str, object]:
    if not isinstance(given, dict) or set(given) != names:
        raise FormError("unknown shape")
    return dict(given)


def _texts(data: Mapping[str, object]) -> dict[str, str]:
    texts = {}
    for name, text in data.items():
        if not isinstance(text, str) or len(text) > LONGEST_KEPT:
            raise FormError(name)
        texts[name] = text
    return texts


def is_key(key: object) -> bool:
    """Whether this can be the key of a ball."""
    return isinstance(key, str) and _KEY.fullmatch(key) is not None


def trimmed(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """Leave out the empty cells after the last that holds anything.

    Parameters
    ----------
    cells : tuple of Cell

    Returns
    -------
    tuple of Cell
    """
    last = max((i for i, cell in enumerate(cells) if not cell.blank), default=-1)
    return cells[: last + 1]


def rack_form(rack: Iterable[RackBall]) -> ProfileForm:
    """Make a form without readings for a rack of balls.

    Parameters
    ----------
    rack : iterable of RackBall

    Returns
    -------
    ProfileForm
        A row for each mass, light to heavy.
    """
    balls = {ball.mass_g: ball.diameter_mm for ball in rack}
    masses = sorted(balls, key=float)
    return ProfileForm(tuple(BallRow(f"b{i}", mass, balls[mass]) for i, mass in enumerate(masses, start=1)))


def with_readings(form: ProfileForm, readings: Iterable[DemoReading]) -> ProfileForm:
    """Fill in the readings of a demo thrower.

    Parameters
    ----------
    form : ProfileForm
    readings : iterable of DemoReading
        Of one thrower.

    Returns
    -------
    ProfileForm
        Readings of a ball that has no row are left out.
    """
    cells: dict[str, list[Cell]] = {}
    for reading in readings:
        effort = "" if reading.asked_effort == "100" else reading.asked_effort
        cells.setdefault(reading.ball_mass_g, []).append(Cell(reading.speed_m_s, reading.date, effort))
    rows = tuple(replace(row, cells=tuple(cells.get(row.mass_g, row.cells))) for row in form.rows)
    return replace(form, rows=rows)


def add_ball(form: ProfileForm, mass_g: str = "", diameter_mm: str = DEFAULT_DIAMETER) -> ProfileForm:
    """Put a ball at the end.

    Parameters
    ----------
    form : ProfileForm
    mass_g, diameter_mm : str
        As typed.

    Returns
    -------
    ProfileForm
        The same form if there are as many as can be.
    """
    if len(form.rows) >= MOST_BALLS:
        return form
    key = f"b{1 + max((int(row.key[1:]) for row in form.rows), default=0)}"
    return replace(form, rows=(*form.rows, BallRow(key, mass_g, diameter_mm)))


def remove_ball(form: ProfileForm, key: str) -> ProfileForm:
    """Take a ball and its readings out.

    Parameters
    ----------
    form : ProfileForm
    key : str

    Returns
    -------
    ProfileForm
    """
    rows = tuple(row for row in form.rows if row.key != key)
    return replace(form, rows=rows, throw_ball="" if form.throw_ball == key else form.throw_ball)


def without_readings(form: ProfileForm) -> ProfileForm:
    """Keep the balls and choices, and no reading."""
    return replace(form, rows=tuple(replace(row, cells=()) for row in form.rows), own_speed_m_s="")
