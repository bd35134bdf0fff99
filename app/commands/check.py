"""`levelpeak check`: hold the model against what laboratories have printed."""

import argparse
import csv
import math
import sys
from collections.abc import Iterator, Sequence
from dataclasses import fields
from itertools import groupby
from pathlib import Path
from typing import Any

from app.csv_files import check_file_name, written_whole
from app.show.check_words import (
    NOT_IN_THE_MODEL,
    agreement_words,
    cut_off_words,
    distance_words,
    people_words,
    printed_words,
    reference_words,
    source_words,
    spread_words,
    thrower_words,
    value_words,
    what_words,
)
from model.checks import InputError
from model.comparison import Comparison, Thrower

THROWN = ("sex", "age_years", "stature_m", "body_mass_kg", "ball_mass_kg", "speed_m_s")

DESCRIPTION = """\
Print every comparison of the model with print: groups of throwers, forces, speeds, timing, efforts and balls.

"model" is the throw as computed, "seen" what a laboratory would see of it that filters its markers as most do: compare
"seen" with "printed". "off" is how far it lies from print, in the printed spread (SD), or in per cent where none is
printed. Rows marked * were in view or a target when the motion or the band was made: they prove nothing. Rows
marked ! lie more than two spreads off, outside the printed range, or the wrong way round. Rows marked ? cannot be
tested: what is seen there hangs on what lies beyond the record.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "check",
        help="hold the model against what laboratories have printed",
        description=DESCRIPTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("-o", "--output", metavar="OUT.csv", help="also write the table as data")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Compute and print.

    Parameters
    ----------
    args : argparse.Namespace
        With `output`, a file's name or None.

    Returns
    -------
    int
        Exit status: 0, or 2 if the file cannot be written. A failed comparison is a finding, not an error.
    """
    try:
        if args.output is not None:
            check_file_name("--output", args.output)
        from model.check_table import check_table

        rows = check_table()
        if args.output is not None:
            _write(Path(args.output), rows)
    except (InputError, OSError) as error:
        print(f"levelpeak check: {getattr(error, 'strerror', None) or error}", file=sys.stderr)
        return 2
    for line in lines_of(rows):
        print(line)
    return 0


def lines_of(rows: Sequence[Comparison]) -> Iterator[str]:
    """Write the table for people.

    Parameters
    ----------
    rows : sequence of model.comparison.Comparison

    Yields
    ------
    str
    """
    names = {row: what_words(row) + (f", {row.unit}" if row.unit else "") for row in rows}
    width = max(map(len, names.values()))
    for group, some in groupby(rows, key=lambda row: row.group):
        yield f"{group:{width + 3}s}{'printed':>16s}{'model':>9s}{'seen':>9s}{'off':>10s}"
        for row in some:
            numbers = f"{value_words(row.raw):>9s}{value_words(row.seen):>9s}{distance_words(row):>10s}"
            yield f"{_mark(row)} {names[row]:{width}s}{printed_words(row):>16s}{numbers}".rstrip()
            yield f"    {source_words(row)} ({', '.join(row.sources)}): {people_words(row)}"
            yield f"    model: {thrower_words(row)}; filter {cut_off_words(row)}"
        yield ""
    yield reference_words()
    yield spread_words(rows)
    yield agreement_words(rows)
    yield ""
    yield "Not in the model:"
    for missing in NOT_IN_THE_MODEL:
        yield f"- {missing}"


def _mark(row: Comparison) -> str:
    return {True: " ", False: "!", None: "?"}[row.agrees] + ("*" if row.calibrated or row.in_band else " ")


def _write(path: Path, rows: Sequence[Comparison]) -> None:
    names = [field.name for field in fields(rows[0]) if field.name != "throws"]
    sides = [f"{of}{name}" for of in ("", "against_") for name in THROWN]
    with written_whole(path) as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow([*names, *sides, "distance_sd", "standing", "agrees"])
        for row in rows:
            throws = [_throw_cells(throw) for throw in row.throws]
            thrown = [*throws[0], *(throws[1] if len(throws) > 1 else [""] * len(THROWN))]
            numbers = [_cell(cell) for cell in [*(getattr(row, name) for name in names), *thrown, row.distance_sd]]
            agrees = {True: "yes", False: "no", None: "cannot be tested"}[row.agrees]
            table.writerow([*numbers, row.standing, agrees])


def _throw_cells(throw: Thrower) -> list[str | float]:
    person, ball, speed_m_s = throw
    return [person.sex, person.age_years, person.stature_m, person.body_mass_kg, ball.mass_kg, speed_m_s]


def _cell(value: object) -> object:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(value)
    if isinstance(value, float):
        return "" if math.isnan(value) else f"{value:.6g}"
    return value
