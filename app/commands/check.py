"""`levelpeak check`: hold the model against what laboratories have printed."""

import argparse
import csv
import math
import sys
from collections.abc import Iterator
from dataclasses import fields
from itertools import groupby
from pathlib import Path
from typing import Any

from app.csv_files import check_file_name, written_whole
from model.checks import InputError

DESCRIPTION = """\
Print every comparison of the model with print: groups of throwers, forces, speeds, timing, efforts and balls.

"model" is the throw as computed, "seen" what a laboratory would see of it that filters its markers as most do: compare
"seen" with "printed". "off" is how far it lies from print, in the printed spread (SD), or in per cent where none is
printed. Rows marked * were in view or a target when the motion was made: they say that the fit did its work. Rows
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
        from model.check_table import NOT_IN_THE_MODEL, check_table

        rows = check_table()
        if args.output is not None:
            _write(Path(args.output), rows)
    except (InputError, OSError) as error:
        print(f"levelpeak check: {getattr(error, 'strerror', None) or error}", file=sys.stderr)
        return 2
    for line in lines_of(rows, NOT_IN_THE_MODEL):
        print(line)
    return 0


def lines_of(rows: Any, not_in_the_model: tuple[str, ...]) -> Iterator[str]:
    """Write the table for people.

    Parameters
    ----------
    rows : sequence of model.comparison.Comparison
    not_in_the_model : tuple of str

    Yields
    ------
    str
    """
    names = {row: f"{row.what}, {row.unit}" if row.unit else row.what for row in rows}
    width = max(map(len, names.values()))
    for group, some in groupby(rows, key=lambda row: row.group):
        yield f"{group:{width + 3}s}{'printed':>16s}{'model':>9s}{'seen':>9s}{'off':>10s}"
        for row in some:
            numbers = f"{_printed(row):>16s}{_number(row.raw):>9s}{_number(row.seen):>9s}{_off(row):>10s}"
            yield f"{_mark(row)} {names[row]:{width}s}{numbers}".rstrip()
            yield f"    {row.who}; {row.source_in_short}, {row.status} ({', '.join(row.sources)})"
        yield ""
    outcomes = [row.agrees for row in rows]
    predicted = [row.agrees for row in rows if not row.calibrated]
    yield (
        f"{outcomes.count(True)} of {len(outcomes)} agree, {outcomes.count(False)} do not, "
        f"{outcomes.count(None)} cannot be tested; of {len(predicted)} that were not in view when the motion was made, "
        f"{predicted.count(True)} agree."
    )
    yield ""
    yield "Not in the model:"
    for missing in not_in_the_model:
        yield f"- {missing}"


def _mark(row: Any) -> str:
    return {True: " ", False: "!", None: "?"}[row.agrees] + ("*" if row.calibrated else " ")


def _number(value: float) -> str:
    if math.isnan(value):
        return ""
    size = abs(value)
    return f"{value:.0f}" if size >= 100 else f"{value:.1f}" if size >= 10 else f"{value:.2f}"


def _printed(row: Any) -> str:
    if row.is_direction:
        return f"below {_number(row.high)}" if math.isinf(row.low) else f"above {_number(row.low)}"
    if math.isfinite(row.spread):
        return f"{_number(row.printed)} ± {_number(row.spread)}"
    return f"{_number(row.low)} to {_number(row.high)}" if math.isfinite(row.low) else _number(row.printed)


def _off(row: Any) -> str:
    if math.isfinite(row.spread):
        return f"{row.distance_sd:+.1f} SD"
    ranged = math.isfinite(row.low) or math.isfinite(row.high)
    return "" if ranged else f"{100.0 * (row.seen / row.printed - 1.0):+.0f} %"


def _write(path: Path, rows: Any) -> None:
    names = [field.name for field in fields(rows[0])]
    with written_whole(path) as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow([*names, "distance_sd", "agrees"])
        for row in rows:
            cells = [getattr(row, name) for name in names]
            numbers = [_cell(cell) for cell in [*cells, row.distance_sd]]
            table.writerow([*numbers, {True: "yes", False: "no", None: "cannot be tested"}[row.agrees]])


def _cell(value: Any) -> Any:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(value)
    if isinstance(value, float):
        return "" if math.isnan(value) else f"{value:.6g}"
    return value
