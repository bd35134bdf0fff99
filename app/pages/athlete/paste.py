"""Readings from elsewhere: pasted from a spreadsheet, or read from a CSV file. Pure: a form in, a form out."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.csv_files import TableError, check_columns, number_in, parse_table
from app.show.profile_checks import at_cell
from app.show.profile_fields import EFFORT, MASS, SPEED, mass_words
from app.show.profile_form import MOST_BALLS, MOST_READINGS, Cell, ProfileForm, add_ball, trimmed
from app.show.throw_form import LONGEST_KEPT
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from app.units.typed import NUMBER, read_typed
from model.checks import InputError

NEEDED = ("ball_mass_g", "speed_m_s")
OPTIONAL = ("date", "asked_effort")
NAMED_PROBLEMS = 6  # in a notice
MOST_LINES = 2000

_WITH_BLANK = re.compile(r"([0-9]) +(oz|lb|g|kg|mph|m/s)(?=\s|$)")

Rows = list[list[str]]


class PasteError(ValueError):
    """A table that cannot be put in; the text says why."""


@dataclass(frozen=True)
class Added:
    """A form with what was added, and what is said of it."""

    form: ProfileForm
    notice: str


def pasted(form: ProfileForm, text: str, key: str, cell: int | None = None, system: System = METRIC) -> Added:
    """Put in what was copied from a spreadsheet.

    A column, or a line, is readings of one ball. In a table each line is a ball: its mass in g, then its readings; or
    each column is one, with the mass on top. A block without masses fills the grid from the cell it was pasted into.
    What is no number is put into its cell all the same and named there. In grams a mass is told from a speed by its
    size, in ounces by its unit, which must stand behind it.

    Parameters
    ----------
    form : ProfileForm
    text : str
        Values parted by tabs, semicolons or blanks; a comma marks decimals.
    key : str
        Ball that a column belongs to.
    cell : int, optional
        Place from 0 of the cell it was pasted into; left out, readings go after those that are there.
    system : System
        The units of numbers without one.

    Returns
    -------
    Added

    Raises
    ------
    PasteError
        If there is nothing in it, no ball to put it to, or too much.
    """
    table = _split(text, system)
    heads = [_is_mass(row[0], system) for row in table]
    tops = [_is_mass(value, system) for value in table[0]]
    if len(table) > 1 and len(table[0]) > 1 and all(heads):
        made = _by_mass(form, [(row[0], row[1:]) for row in table], system)
    elif len(table) > 1 and all(tops):
        columns = [[row[i] if i < len(row) else "" for row in table[1:]] for i in range(len(table[0]))]
        made = _by_mass(form, list(zip(table[0], columns, strict=True)), system)
    elif len(table) == 1 and len(table[0]) > 1 and heads[0]:
        made = _by_mass(form, [(table[0][0], table[0][1:])], system)
    elif all(len(row) == 1 for row in table):
        made = _from_cell(form, [[row[0] for row in table]], key, cell, system)
    elif len(table) == 1 or cell is not None:
        made = _from_cell(form, table, key, cell, system)
    else:
        raise PasteError(f"Not put in: in a table the first column, or the first line, is {_mass_hint(system)}.")
    return Added(made, f"Put in: {_count(form, made)}.")


def _mass_hint(system: System) -> str:
    """What tells a mass from a speed."""
    if system.converts(MASS.unit):
        return "the ball’s mass with its unit, such as 5 oz"
    return f"the ball’s mass in g (above {SPEED.limit.high:g}, so that it is not taken for a speed)"


def _split(text: str, system: System) -> Rows:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(lines) > MOST_LINES:
        raise PasteError(f"Not put in: {len(lines)} lines given; accepted: up to {MOST_LINES}.")
    parting = "\t" if "\t" in text else ";" if ";" in text else None
    if parting is None:
        lines = [_WITH_BLANK.sub(r"\1\2", line) for line in lines]
    rows = [[value.strip()[:LONGEST_KEPT] for value in line.split(parting)] for line in lines if line.strip()]
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
    return with_unit or (number is not None and number > SPEED.limit.high)


def _speed(value: str, system: System) -> Cell:
    return Cell(SPEED.kept(value, "", system)[:LONGEST_KEPT])


def _by_mass(form: ProfileForm, balls: Sequence[tuple[str, Sequence[str]]], system: System) -> ProfileForm:
    for mass, values in balls:
        form, key = _row_of(form, mass.removesuffix("g").strip() if _is_number(mass) else mass)
        form = _append(form, key, [_speed(value, system) for value in values if value], system)
    return form


def _grams(mass: str) -> float | None:
    typed = read_typed(mass, MASS.unit)
    return None if typed is None else round(from_si(typed.si, MASS.unit), 6)


def _row_of(form: ProfileForm, mass_g: str) -> tuple[ProfileForm, str]:
    """The row of a mass; a new one if there is none."""
    wanted = _grams(mass_g)
    for row in form.rows:
        if wanted is not None and _grams(row.mass_g) == wanted:
            return form, row.key
    if len(form.rows) >= MOST_BALLS:
        raise PasteError(f"Not put in: more than {MOST_BALLS} balls. Remove one first.")
    made = add_ball(form, mass_g)
    return made, made.rows[-1].key


def _append(form: ProfileForm, key: str, cells: Sequence[Cell], system: System = METRIC) -> ProfileForm:
    return _put(form, key, len(trimmed(form.rows[form.place(key)].cells)), cells, system)


def _put(form: ProfileForm, key: str, start: int, cells: Sequence[Cell], system: System) -> ProfileForm:
    place = form.place(key)
    if place < 0:
        raise PasteError("Not put in: choose the ball that the readings belong to.")
    row = form.rows[place]
    if start + len(cells) > MOST_READINGS:
        name = f"{mass_words(row.mass_g, system)} ball".strip()
        raise PasteError(f"Not put in: more than {MOST_READINGS} readings of the {name}.")
    old = (*row.cells, *(Cell() for _ in range(start - len(row.cells))))
    new = (*old[:start], *cells, *old[start + len(cells) :])
    rows = (*form.rows[:place], replace(row, cells=new), *form.rows[place + 1 :])
    return replace(form, rows=rows)


def _from_cell(form: ProfileForm, block: Rows, key: str, cell: int | None, system: System) -> ProfileForm:
    """Fill rows from one on: a line of values for each."""
    place = form.place(key)
    if place < 0:
        raise PasteError("Not put in: choose the ball that the readings belong to.")
    if place + len(block) > len(form.rows):
        raise PasteError(f"Not put in: {len(block)} lines given, and the grid has {len(form.rows) - place} from here.")
    for row, values in zip(form.rows[place:], block, strict=False):
        cells = [_speed(value, system) for value in values]
        form = _append(form, row.key, cells, system) if cell is None else _put(form, row.key, cell, cells, system)
    return form


def _count(before: ProfileForm, after: ProfileForm) -> str:
    def filled(form: ProfileForm) -> dict[str, str]:
        return {at_cell(r.key, i, "speed"): c.speed for r in form.rows for i, c in enumerate(r.cells) if c.speed}

    old = filled(before)
    count = sum(old.get(at) != speed for at, speed in filled(after).items())
    return f"{count} reading" if count == 1 else f"{count} readings"


def from_csv(form: ProfileForm, data: bytes) -> Added:
    """Add the readings of a CSV file to those that are there.

    The first line names the columns, in any order: `NEEDED`, and `OPTIONAL` where known (the asked effort in %).

    Parameters
    ----------
    form : ProfileForm
    data : bytes

    Returns
    -------
    Added
        A line that cannot be read is left out, and named with what is wrong.

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
    unknown = [name for name in table.columns if name and name not in (*NEEDED, *OPTIONAL)]
    wrong: list[str] = []
    made = form
    for number, values in enumerate(table.rows):
        cells = dict(zip(table.columns, (value.strip() for value in values), strict=True))
        reason = table.problems.get(number, "") or _wrong(cells)
        if reason:
            wrong.append(f"row {number + 1}: {reason}")
            continue
        made, key = _row_of(made, f"{from_si(number_in(cells['ball_mass_g'], '', MASS.limit, 'g'), 'g'):.6g}")
        effort = "" if cells.get("asked_effort", "") in ("", "100") else cells["asked_effort"]
        made = _append(made, key, [Cell(cells["speed_m_s"], cells.get("date", "")[:LONGEST_KEPT], effort)])
    told = [f"Read from the file: {_count(form, made)}."]
    if unknown:
        told.append(f"Columns passed over: {', '.join(unknown)}.")
    if wrong:
        more = f"; and {len(wrong) - NAMED_PROBLEMS} more" if len(wrong) > NAMED_PROBLEMS else ""
        told.append(f"Left out: {'; '.join(wrong[:NAMED_PROBLEMS])}{more}.")
    return Added(made, " ".join(told))


def _wrong(cells: dict[str, str]) -> str:
    try:
        number_in(cells["ball_mass_g"], "ball_mass_g", MASS.limit, MASS.unit)
        number_in(cells["speed_m_s"], "speed_m_s", SPEED.limit, SPEED.unit)
        effort = cells.get("asked_effort", "")
        if effort and not (_number(effort) is not None and EFFORT.low <= float(effort) <= EFFORT.high):
            raise InputError("asked_effort", effort, str(EFFORT))
    except (InputError, ValueError) as error:
        return str(error)
    return ""
