"""Readings from elsewhere: pasted from a spreadsheet, or read from a CSV file. Pure: a text in, readings out."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from app.csv_files import TableError, check_columns, parse_table
from app.records.field_list import FIELDS
from app.records.fields import LONGEST_NUMBER, in_words
from app.records.rows import counted
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from app.units.typed import NUMBER, read_typed
from model.checks import InputError

MASS, SPEED = FIELDS["ball.mass_kg"], FIELDS["reading.speed_m_s"]
COLUMNS = {
    "ball_mass_g": MASS,
    "speed_m_s": SPEED,
    "date": FIELDS["reading.day"],
    "asked_effort": FIELDS["reading.asked_effort"],
}
NEEDED = ("ball_mass_g", "speed_m_s")
NAMED_PROBLEMS = 6  # in a notice
MOST_LINES = 2000
MOST_VALUES = 5000

_WITH_BLANK = re.compile(r"([0-9]) +(oz|lb|g|kg|mph|m/s)(?=\s|$)")

SAME_KG = 5e-10  # masses that differ by less are the same one, typed in two units

Rows = list[list[str]]


class PasteError(ValueError):
    """A table that cannot be put in; the text says why."""


@dataclass(frozen=True)
class PastedReading:
    """A reading that was pasted, as it was typed.

    Attributes
    ----------
    ball : str
        uid of its ball; empty for one that is not there yet.
    mass_g : str
        Mass of a ball that is not there yet, as typed: in g unless it says its unit.
    speed : str
        In the reader's units unless it says its unit.
    day, effort : str
        Empty if not given; the effort in %.
    row : str
        uid of the reading in whose place it was pasted; empty for a new one.
    """

    ball: str
    mass_g: str
    speed: str
    day: str = ""
    effort: str = ""
    row: str = ""


@dataclass(frozen=True)
class Pasted:
    """What was pasted, what is said of it, and the units of numbers that name none."""

    readings: tuple[PastedReading, ...]
    notice: str
    system: System


@dataclass(frozen=True)
class Place:
    """Where a table was pasted: the balls from that row of the grid on, and of each the readings in its cells from that
    column on, an empty text for an empty cell.
    """

    balls: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def pasted(
    text: str, masses: Mapping[str, float | None], key: str, place: Place | None = None, system: System = METRIC
) -> Pasted:
    """Read what was copied from a spreadsheet.

    A column, or a line, is readings of one ball. In a table each line is a ball: its mass in g, then its readings; or
    each column is one, with the mass on top. A block without masses fills the grid from the cell it was pasted into.
    What is no number is put in all the same, and named in its cell. In grams a mass is told from a speed by its size,
    in ounces by its unit, which must stand behind it.

    Parameters
    ----------
    text : str
        Values parted by tabs, semicolons or blanks; a comma marks decimals.
    masses : mapping of str to float or None
        The balls of the grid in their order: uid to mass (kg).
    key : str
        uid of the ball that a column belongs to.
    place : Place, optional
        The cell it was pasted into; left out, readings go after those that are there.
    system : System
        The units of numbers without one.

    Returns
    -------
    Pasted

    Raises
    ------
    PasteError
        If there is nothing in it, no ball to put it to, or too much.
    """
    table = _split(text, system)
    heads = [_is_mass(row[0], system) for row in table]
    tops = [_is_mass(value, system) for value in table[0]]
    if len(table) > 1 and len(table[0]) > 1 and all(heads):
        made = _by_mass(masses, [(row[0], row[1:]) for row in table])
    elif len(table) > 1 and all(tops):
        columns = [[row[i] if i < len(row) else "" for row in table[1:]] for i in range(len(table[0]))]
        made = _by_mass(masses, list(zip(table[0], columns, strict=True)))
    elif len(table) == 1 and len(table[0]) > 1 and heads[0]:
        made = _by_mass(masses, [(table[0][0], table[0][1:])])
    elif all(len(row) == 1 for row in table):
        made = _from_cell(masses, [[row[0] for row in table]], key, place)
    elif len(table) == 1 or place is not None:
        made = _from_cell(masses, table, key, place)
    else:
        raise PasteError(f"Not put in: in a table the first column, or the first line, is {_mass_hint(system)}.")
    return Pasted(_not_too_many(made), f"Put in: {counted(len(made), 'reading')}.", system)


def _not_too_many(made: list[PastedReading]) -> tuple[PastedReading, ...]:
    if len(made) > MOST_VALUES:
        raise PasteError(f"Not put in: {len(made)} readings given; accepted: up to {MOST_VALUES} at once.")
    return tuple(made)


def _mass_hint(system: System) -> str:
    """What tells a mass from a speed."""
    if system.converts(MASS.unit):
        return "the ball’s mass with its unit, such as 5 oz"
    return f"the ball’s mass in g (above {SPEED.of.high:g}, so that it is not taken for a speed)"


def _split(text: str, system: System) -> Rows:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(lines) > MOST_LINES:
        raise PasteError(f"Not put in: {len(lines)} lines given; accepted: up to {MOST_LINES}.")
    parting = "\t" if "\t" in text else ";" if ";" in text else None
    if parting is None:
        lines = [_WITH_BLANK.sub(r"\1\2", line) for line in lines]
    rows = [[value.strip()[:LONGEST_NUMBER] for value in line.split(parting)] for line in lines if line.strip()]
    rows = [row for row in rows if any(row)]
    if len(rows) > 1 and not any(_is_number(value) or _is_mass(value, system) for value in rows[0]):
        rows = rows[1:]  # a line of names
    if not rows:
        raise PasteError(f"Nothing to put in: copy a column or a table of speeds ({SPEED.unit_in(system)}) first.")
    return rows


def _number(value: str) -> float | None:
    try:
        return float(value.removesuffix("g").strip().replace(",", "."))
    except ValueError:
        return None


def _is_number(value: str) -> bool:
    return _number(value) is not None


def _is_mass(value: str, system: System) -> bool:
    with_unit = not NUMBER.fullmatch(value) and read_typed(value, MASS.unit) is not None
    number = None if system.converts(MASS.unit) else _number(value)
    return with_unit or (number is not None and number > SPEED.of.high)


def _by_mass(masses: Mapping[str, float | None], balls: Sequence[tuple[str, Sequence[str]]]) -> list[PastedReading]:
    made = []
    for typed, values in balls:
        of = partial(PastedReading, *_ball_of(masses, typed))
        made += [of(value) for value in values if value]
    return made


def _ball_of(masses: Mapping[str, float | None], typed: str) -> tuple[str, str]:
    """The ball of a typed mass, as its uid and the mass: one of the two is empty."""
    text = typed.removesuffix("g").strip() if _is_number(typed) else typed
    read = read_typed(text, MASS.unit)
    if read is None:
        return "", text
    for uid, mass in masses.items():
        if mass is not None and abs(mass - read.si) < SAME_KG:
            return uid, ""
    return "", f"{from_si(read.si, MASS.unit):.6g}" if NUMBER.fullmatch(text) else text


def _from_cell(masses: Mapping[str, float | None], block: Rows, key: str, place: Place | None) -> list[PastedReading]:
    """Fill rows from one on: a line of values for each."""
    if place is None:
        if key not in masses:
            raise PasteError("Not put in: choose the ball that the readings belong to.")
        return [PastedReading(key, "", value) for row in block for value in row if value]
    balls = [ball for ball in place.balls if ball in masses]
    if len(block) > len(balls):
        raise PasteError(f"Not put in: {len(block)} lines given, and the grid has {len(balls)} from here.")
    made = []
    for ball, rows, values in zip(balls, place.rows, block, strict=False):
        there = [*rows, *("" for _ in values)]
        made += [PastedReading(ball, "", value, row=row) for value, row in zip(values, there, strict=False) if value]
    return made


def from_csv(masses: Mapping[str, float | None], data: bytes) -> Pasted:
    """Read the readings of a CSV file, which come to those that are there.

    The first line names the columns, in any order: those of `COLUMNS`, of which `NEEDED` must be there (the asked
    effort in %). A line that cannot be read is left out, and named with what is wrong.

    Parameters
    ----------
    masses : mapping of str to float or None
        As for `pasted`.
    data : bytes

    Returns
    -------
    Pasted

    Raises
    ------
    PasteError
        If the file cannot be used, or holds too much.
    """
    try:
        table = parse_table(data)
        check_columns(table, NEEDED)
    except TableError as error:
        raise PasteError(f"The file was not read: {error}.") from None
    unknown = [name for name in table.columns if name and name not in COLUMNS]
    wrong: list[str] = []
    made: list[PastedReading] = []
    for number, values in enumerate(table.rows):
        cells = dict.fromkeys(COLUMNS, "") | dict(zip(table.columns, (value.strip() for value in values), strict=True))
        reason = table.problems.get(number, "") or _wrong(cells)
        if reason:
            wrong.append(f"row {number + 1}: {reason}")
            continue
        effort = "" if cells["asked_effort"] == "100" else cells["asked_effort"]
        made.append(PastedReading(*_ball_of(masses, cells["ball_mass_g"]), cells["speed_m_s"], cells["date"], effort))
    told = [f"Read from the file: {counted(len(made), 'reading')}."]
    if unknown:
        told.append(f"Columns passed over: {', '.join(unknown)}.")
    if wrong:
        more = f"; and {len(wrong) - NAMED_PROBLEMS} more" if len(wrong) > NAMED_PROBLEMS else ""
        told.append(f"Left out: {'; '.join(wrong[:NAMED_PROBLEMS])}{more}.")
    return Pasted(_not_too_many(made), " ".join(told), METRIC)


def _wrong(cells: Mapping[str, str]) -> str:
    try:
        for name, field in COLUMNS.items():
            if (cells[name] or name in NEEDED) and field.parse(cells[name]).value is None:
                raise InputError(field.label, "", field.accepted())
    except InputError as error:
        return in_words(error).removesuffix(".")
    return ""
