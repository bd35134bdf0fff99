"""What becomes of the rows of a table, each with its reason, and all of it in sentences."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar

from app.csv_files import Table
from app.records.csv_columns import Progress, Use, told_rows
from app.records.fields import in_words
from app.records.rows import counted
from model.checks import InputError

TAKEN, THERE, REFUSED = "taken", "there", "refused"
LINE_END = "\r\n"
EVERY = 2000
"""Rows after which the progress is told."""

Row = TypeVar("Row")


@dataclass(frozen=True)
class Verdict:
    """What becomes of a row.

    Attributes
    ----------
    row : int
        From 1, without the line of names.
    state : str
        TAKEN, THERE or REFUSED.
    reason : str
        Of a refused one.
    """

    row: int
    state: str
    reason: str = ""


@dataclass(frozen=True)
class Looked:
    """What would come of a table.

    Attributes
    ----------
    uses : tuple of Use
        What each column is taken for.
    verdicts : tuple of Verdict
        Of each row.
    athletes : tuple of str
        Codes that are new here.
    """

    uses: tuple[Use, ...]
    verdicts: tuple[Verdict, ...]
    athletes: tuple[str, ...]

    def count(self, state: str) -> int:
        """How many rows have a state."""
        return sum(one.state == state for one in self.verdicts)

    def told(self, what: str) -> Iterator[str]:
        """All of it in sentences; the rows that are added are called by a word."""
        yield f"{counted(self.count(TAKEN), what)} to be added."
        if self.count(THERE):
            yield f"{counted(self.count(THERE), 'row')} here already."
        if self.athletes:
            yield f"New athletes: {', '.join(self.athletes)}."
        yield from (f"Column {use.header}: {use.unit} assumed." for use in self.uses if use.meaning and not use.sure)
        over = [use.header for use in self.uses if not use.meaning]
        if over:
            yield f"Columns passed over: {', '.join(over)}."
        by_reason: dict[str, list[int]] = {}
        for one in self.verdicts:
            if one.state == REFUSED:
                by_reason.setdefault(one.reason, []).append(one.row)
        yield from (f"Refused, {told_rows(rows)}: {reason}" for reason, rows in by_reason.items())


def read_rows(
    table: Table, read: Callable[[int, list[str]], Row], progress: Progress
) -> tuple[list[Row], dict[int, str]]:
    """Read the rows of a table; those that could be read, and by their numbers why others could not."""
    found: list[Row] = []
    refused: dict[int, str] = {}
    for number, cells in enumerate(table.rows):
        if number % EVERY == 0:
            progress(number, len(table.rows))
        try:
            if number in table.problems:
                raise InputError("Row", "", table.problems[number])
            found.append(read(number + 1, cells))
        except InputError as error:
            refused[number + 1] = in_words(error)
    progress(len(table.rows), len(table.rows))
    return found, refused


def owner_and_day(values: Mapping[str, Any], code: str, day: date | None = None) -> tuple[str, date]:
    """Whose a row is and of which day, as it says, or as a person says of rows that do not."""
    whose, when = values.get("athlete") or code, values.get("day") or day
    if not whose:
        raise InputError("Athlete", "", "a code")
    if when is None:
        raise InputError("Day", "", "year-month-day")
    return whose, when


def verdicts_of(rows: int, taken: set[int], refused: Mapping[int, str]) -> tuple[Verdict, ...]:
    """The verdict on each of so many rows."""
    return tuple(
        Verdict(number, REFUSED, refused[number])
        if number in refused
        else Verdict(number, TAKEN if number in taken else THERE)
        for number in range(1, rows + 1)
    )
