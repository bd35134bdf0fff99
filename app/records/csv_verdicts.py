"""What becomes of the rows of a table, each with its reason, and all of it in sentences."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.records.csv_columns import Use, told_rows
from app.records.rows import counted

TAKEN, THERE, REFUSED = "taken", "there", "refused"
LINE_END = "\r\n"


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


def verdicts_of(rows: int, taken: set[int], refused: Mapping[int, str]) -> tuple[Verdict, ...]:
    """The verdict on each of so many rows."""
    return tuple(
        Verdict(number, REFUSED, refused[number])
        if number in refused
        else Verdict(number, TAKEN if number in taken else THERE)
        for number in range(1, rows + 1)
    )
