"""Columns of a table from elsewhere: what each means and in which unit, guessed from its name or said by a person."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.csv_files import Table, TableError, parse_table
from app.records.field_list import field_of
from app.records.fields import Field
from app.units.conversion import from_si, to_si
from app.units.typed import ADDED, NUMBER, read_typed, with_point
from model.checks import InputError

LONGEST_CELL = 2000
FORMULA = re.compile(r"'(?=[=+\-@\t\r])")
"""Before a text that a spreadsheet would take for a formula, our own tables put an apostrophe."""

UNITS_WRITTEN = {
    "g": "g",
    "kg": "kg",
    "oz": "oz",
    "lb": "lb",
    "mm": "mm",
    "cm": "cm",
    "in": "in",
    "inch": "in",
    "m": "m",
    "ft": "ft",
    "m_s": "m/s",
    "ms": "m/s",
    "mph": "mph",
    "km_h": "km/h",
    "kmh": "km/h",
    "percent": "%",
    "pct": "%",
}
"""Units as they stand at the end of a column's name."""

TYPED_UNITS = frozenset({"g", "kg", "oz", "lb", "mm", "cm", "in", "m", "ft", "m/s", "mph"})
PASSED_OVER = ""


@dataclass(frozen=True)
class Meaning:
    """What a column can mean.

    Attributes
    ----------
    key : str
    label : str
    names : tuple of str
        How such columns are called, in small letters, with low lines and without units.
    path : str
        Of the field that its values are held to.
    units : tuple of str
        Those that it can be in; the first goes without saying.
    """

    key: str
    label: str
    names: tuple[str, ...]
    path: str
    units: tuple[str, ...] = ()

    @property
    def field(self) -> Field:
        """The field that its values are held to."""
        return field_of(self.path)


@dataclass(frozen=True)
class Use:
    """What a column is taken for.

    Attributes
    ----------
    header : str
        As the table has it.
    meaning : str
        Key of a `Meaning`; empty for one that is passed over.
    unit : str
    sure : bool
        Whether the unit stood in the name, or was said; else it is a guess to be looked at.
    """

    header: str
    meaning: str = PASSED_OVER
    unit: str = ""
    sure: bool = True


def read_table(data: bytes) -> Table:
    """Read a table whose values are parted by commas, semicolons or tabs; raises `app.csv_files.TableError`."""
    first = data.removeprefix(b"\xef\xbb\xbf").split(b"\n", 1)[0]
    counts = {mark: first.count(mark.encode()) for mark in (";", "\t", ",")}
    most = max(counts, key=lambda mark: counts[mark])
    return parse_table(data, most if counts[most] else ",")


def uses_of(columns: Sequence[str], meanings: Iterable[Meaning], said: Mapping[str, tuple[str, str]]) -> list[Use]:
    """Say what each column is taken for.

    Parameters
    ----------
    columns : sequence of str
    meanings : iterable of Meaning
    said : mapping of str to (str, str)
        What a person says of a column: the key of its meaning, and its unit.

    Returns
    -------
    list of Use
        Each meaning once: a second column of it is passed over.
    """
    known = {one.key: one for one in meanings}
    made: list[Use] = []
    taken: set[str] = set()
    for header in columns:
        use = Use(header, *said[header]) if header in said else _guessed(header, known.values())
        if use.meaning and (use.meaning in taken or use.meaning not in known):
            use = Use(header)
        taken.add(use.meaning)
        made.append(use)
    return made


def _guessed(header: str, meanings: Iterable[Meaning]) -> Use:
    name = re.sub(r"[^a-z0-9]+", "_", header.lower().replace("%", " percent ")).strip("_")
    for one in meanings:
        if name in one.names:
            return Use(header, one.key, one.units[0] if one.units else "", sure=len(one.units) < 2)
        for known in one.names:
            unit = UNITS_WRITTEN.get(name.removeprefix(f"{known}_")) if name.startswith(f"{known}_") else None
            if unit in one.units:
                return Use(header, one.key, unit or "")
    return Use(header)


class Cells:
    """Reads the cells of rows; the same text in the same column only once.

    Parameters
    ----------
    uses : sequence of Use
    meanings : iterable of Meaning
    """

    def __init__(self, uses: Sequence[Use], meanings: Iterable[Meaning]) -> None:
        known = {one.key: one for one in meanings}
        self._readers = [(place, use, known[use.meaning]) for place, use in enumerate(uses) if use.meaning]
        self._known: dict[tuple[int, str], tuple[Any, str]] = {}

    def read(self, row: Sequence[str]) -> tuple[dict[str, Any], dict[str, str]]:
        """Read a row.

        Parameters
        ----------
        row : sequence of str

        Returns
        -------
        dict of str to object
            Values (SI) by meaning; an empty cell is left out.
        dict of str to str
            Texts that say more than their values, by meaning.

        Raises
        ------
        InputError
            If a value is not accepted; the field is the column's name.
        """
        values: dict[str, Any] = {}
        typed: dict[str, str] = {}
        for place, use, meaning in self._readers:
            text = row[place]
            found = self._known.get((place, text))
            if found is None:
                found = self._known[place, text] = cell(text, use, meaning)
            if found[0] is not None:
                values[meaning.key] = found[0]
                if found[1]:
                    typed[meaning.key] = found[1]
        return values, typed


def cell(text: str, use: Use, meaning: Meaning) -> tuple[Any, str]:
    """Read one cell.

    Parameters
    ----------
    text : str
    use : Use
        Its column.
    meaning : Meaning

    Returns
    -------
    object
        In SI; None for an empty cell.
    str
        The text where it says more than the value.

    Raises
    ------
    InputError
        With the column's name, what was given and what is accepted.
    """
    given = with_point(FORMULA.sub("", text.strip(), count=1))
    if not given:
        return None, ""
    field = meaning.field
    try:
        if len(given) > LONGEST_CELL:
            raise InputError(field.label, given, field.accepted())
        bare = given.removesuffix("%").strip() if use.unit == "%" else given
        if use.unit and use.unit != field.unit and NUMBER.fullmatch(bare):
            number = read_typed(bare, "m")  # any unit: the number is wanted
            value = field.check(to_si(number.number if number else 0.0, use.unit), given=given)
            return value, f"{bare}{ADDED}{use.unit}" if use.unit in TYPED_UNITS else ""
        parsed = field.parse(given)
    except InputError as error:
        raise InputError(use.header, given, error.accepted) from None
    return parsed.value, parsed.typed


def told_rows(numbers: Sequence[int], most: int = 6) -> str:
    """Rows by their numbers: "rows 3, 5 and 12 more"."""
    named = ", ".join(str(one) for one in numbers[:most])
    more = f" and {len(numbers) - most} more" if len(numbers) > most else ""
    return f"{'row' if len(numbers) == 1 else 'rows'} {named}{more}"


def needed(uses: Iterable[Use], keys: Iterable[tuple[str, ...]], meanings: Iterable[Meaning]) -> None:
    """Refuse a table that lacks a column.

    Parameters
    ----------
    uses : iterable of Use
    keys : iterable of tuple of str
        Of each tuple one meaning must be there.
    meanings : iterable of Meaning

    Raises
    ------
    TableError
        It names the columns that were found, and the one that is needed.
    """
    known, found = {one.key: one for one in meanings}, [use.meaning for use in uses]
    for any_of in keys:
        if not set(any_of) & set(found):
            headers = ", ".join(use.header for use in uses)
            wanted = " or ".join(f"{known[key].names[0]}" for key in any_of)
            raise TableError(f"no column for {wanted}; found: {headers}")


def number_text(value: float | None, unit: str) -> str:
    """Write an SI number in a unit, without loss; nothing for None."""
    if value is None:
        return ""
    number = from_si(value, unit)
    short = f"{number:.12g}"
    return short if to_si(float(short), unit) == value else repr(number)


Progress = Callable[[int, int], None]


def no_progress(done: int, of: int) -> None:
    """Tell nobody."""
