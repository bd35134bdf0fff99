"""``levelpeak compare``: a table of throws -> how each differs from its athlete's reference throw, and how surely.

Input columns: as of `levelpeak readouts`; optional besides: reference (1 or yes at one row of each athlete; else the
first row is the reference) and speed_sd_m_s (standard deviation of that throw's speed; empty: taken as exact).
"""

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from app.commands.band_columns import BandReadout, band_readouts
from app.commands.readouts import same_file, throws_of
from app.csv_files import (
    Table,
    TableError,
    check_columns,
    check_file_name,
    csv_line,
    number_in,
    parse_table,
    read_bytes,
    read_stream,
    standard_output,
    written_whole,
)
from app.main import INTERRUPTED
from app.progress import Progress
from app.throw_cells import NEEDED_COLUMNS, OPTIONAL_COLUMNS
from model.checks import InputError, Limit
from model.drawn_throws import Subject, Thrown, with_scatter
from model.structural_band import BandDifference, differences
from model.throw import Throw

REFERENCE, SPEED_SD, ERROR, OUTSIDE = "reference", "speed_sd_m_s", "error", "outside_what_was_solved"
SD_LIMIT = Limit(0.0, 5.0, "m/s")
YES, NO = ("1", "yes", "true", "x"), ("", "0", "no", "false")
PARTS = ("difference_percent", "low_percent", "high_percent", "probability_more")

DESCRIPTION = """\
Hold each throw of a table against its athlete's reference throw.

THROWS.csv is a table as levelpeak readouts takes it, with the columns
  {needed}
and, if wanted:
  {optional},{reference},{speed_sd}
The reference throw is each athlete's first row, or the one marked 1 or yes in the column "{reference}"; it is taken as
the athlete's own ball at full effort. {speed_sd} is the standard deviation of a throw's speed; left empty the
speed is taken as exact.

For each readout come out, in per cent of the reference throw:
  peak_varus_difference_percent     best estimate: as if the athlete moved the same with every ball and speed
  peak_varus_low_percent, _high_    90 %% interval with all that is not known: movement, arm, ball, speeds
  peak_varus_probability_more       probability that it is larger than in the reference throw
and the same with _radar at the end: from the speeds alone. Empty: nothing should be said, or there is no such readout.
{outside} is 1 where a throw lies beyond the balls and speeds that the movement was solved for.

Every row comes out again, in order; a row that cannot be computed has its reason in the column "{error}".
Exit status: 0 all rows computed, 1 a row failed, 2 the file or an option cannot be used, 130 stopped by Ctrl-C.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "compare",
        help="how each throw in a CSV file differs from its athlete's reference throw, and how sure that is",
        description=DESCRIPTION.format(
            needed=",".join(NEEDED_COLUMNS),
            optional=",".join(OPTIONAL_COLUMNS),
            reference=REFERENCE,
            speed_sd=SPEED_SD,
            outside=OUTSIDE,
            error=ERROR,
        ).replace("%%", "%"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("throws", metavar="THROWS.csv", help="the table of throws; - for standard input")
    parser.add_argument("-o", "--output", metavar="OUT.csv", default="-", help="where to write (standard output)")
    parser.add_argument(
        "--all", dest="every", action="store_true", help="every readout of every quantity, not the main ones"
    )
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Read the table, compare, write.

    Parameters
    ----------
    args : argparse.Namespace
        With throws, output and every, as typed.

    Returns
    -------
    int
        Exit status, as the help describes.
    """
    try:
        return _run(args)
    except InputError as error:
        problem = str(error)
    except TableError as error:
        problem = f"{args.throws}: {error}"
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # the reader has gone: let the rest fall
        return 1
    except OSError as error:
        problem = f"{args.output}: cannot be written: {error.strerror or error}"
    except KeyboardInterrupt:
        print("\nlevelpeak compare: stopped; no file written", file=sys.stderr)
        return INTERRUPTED
    print(f"levelpeak compare: {problem}", file=sys.stderr)
    return 2


def _run(args: argparse.Namespace) -> int:
    check_file_name("THROWS.csv", args.throws, "standard input")
    check_file_name("--output", args.output, "standard output")
    if args.throws != "-" and args.output != "-" and same_file(args.throws, args.output):
        raise InputError("--output", args.output, "another file than the table of throws")
    table = parse_table(read_stream(sys.stdin.buffer) if args.throws == "-" else read_bytes(Path(args.throws)))
    check_columns(table, NEEDED_COLUMNS)
    readouts = band_readouts(every=args.every)
    encoding = "utf-8-sig" if table.marked else "utf-8"
    with standard_output(encoding) if args.output == "-" else written_whole(Path(args.output), encoding) as file:
        rows = rows_of(table)
        progress = Progress("comparing throws", len(rows))
        for i, line in enumerate(lines_of(table, rows, readouts)):
            file.write(line)
            progress.show(i)
        progress.clear()
    failed = sum(bool(row.error) for row in rows)
    if failed:
        print(f"levelpeak compare: {failed} of {len(rows)} rows failed; see the column {ERROR}", file=sys.stderr)
    return 1 if failed else 0


@dataclass(frozen=True)
class Row:
    """A row of the table: whose it is, its throw or why there is none, its speed's SD, and its reference's place."""

    athlete: str
    throw: Throw | None
    speed_sd_m_s: float
    reference: int
    error: str


def rows_of(table: Table) -> list[Row]:
    """Make the rows of a table, each with its reference.

    Parameters
    ----------
    table : Table

    Returns
    -------
    list of Row
    """
    throws, errors = throws_of(table)
    place = table.columns.index("athlete")
    mine: dict[str, list[int]] = {}
    marked: dict[str, list[int]] = {}
    spreads = [0.0] * len(table.rows)
    for i, row in enumerate(table.rows):
        cells = dict(zip(table.columns, row, strict=True))
        athlete = row[place].strip()
        mine.setdefault(athlete, []).append(i)
        try:
            if _yes(cells.get(REFERENCE, "")):
                marked.setdefault(athlete, []).append(i)
            if cells.get(SPEED_SD, "").strip():
                spreads[i] = number_in(cells[SPEED_SD], SPEED_SD, SD_LIMIT, "m/s")
        except InputError as problem:
            errors[i] = " | ".join(filter(None, (errors[i], str(problem))))
    found = []
    for i, row in enumerate(table.rows):
        athlete = row[place].strip()
        references = marked.get(athlete) or mine[athlete][:1]
        problem_here = errors[i] or _reference_problem(i, references, throws, errors, athlete)
        found.append(Row(athlete, throws[i], spreads[i], references[0], problem_here))
    return found


def _yes(cell: str) -> bool:
    word = cell.strip().lower()
    if word not in (*YES, *NO):
        raise InputError(REFERENCE, cell, "1 or yes at the reference throw, nothing elsewhere")
    return word in YES


def _reference_problem(
    i: int, references: Sequence[int], throws: Sequence[Throw | None], errors: Sequence[str], athlete: str
) -> str:
    """Why a row cannot be held against its reference, or nothing."""
    if len(references) > 1:
        return str(InputError(REFERENCE, f"{len(references)} rows of {athlete}", "one row of each athlete"))
    here, there = throws[i], throws[references[0]]
    if errors[references[0]] or here is None or there is None:
        return f"{REFERENCE}: the reference throw of {athlete} cannot be computed"
    if here.person != there.person:
        return f"athlete: other measures than at the reference throw of {athlete}; accepted: the same in all rows"
    return ""


def lines_of(table: Table, rows: Sequence[Row], readouts: Sequence[BandReadout]) -> Iterator[str]:
    """Write the result's lines.

    Parameters
    ----------
    table : Table
    rows : sequence of Row
    readouts : sequence of BandReadout

    Yields
    ------
    str
        A whole line.
    """
    names = [f"{one.stem}_{part}{end}" for one in readouts for end in ("", "_radar") for part in PARTS]
    results = {*names, ERROR, OUTSIDE}
    kept = [i for i, name in enumerate(table.columns) if name not in results]
    yield csv_line([*(table.columns[i] for i in kept), *names, OUTSIDE, ERROR]) + "\n"
    for place, (cells, row) in enumerate(zip(table.rows, rows, strict=True)):
        own = csv_line([cells[i] for i in kept])
        if row.error or row.throw is None:
            yield f"{own}{',' * (len(names) + 1)},{csv_line([row.error])}\n"
            continue
        found = _compared(rows, place, readouts)
        numbers = [number for one in readouts for number in _numbers(found[one.key])]
        outside = int(any(one.outside for one in found.values()))
        yield f"{own},{','.join(numbers)},{outside},\n"


def _compared(rows: Sequence[Row], place: int, readouts: Sequence[BandReadout]) -> dict[Any, BandDifference]:
    row, reference = rows[place], rows[rows[place].reference]
    if row.throw is None or reference.throw is None:
        raise ValueError("a row without a throw")
    subject = Subject(row.throw.person, reference.throw.ball, reference.throw.speed_m_s)
    throws = [_thrown(one, at) for one, at in ((row, place), (reference, row.reference))]
    return differences(subject, throws[:1], throws[1], [one.key for one in readouts])[0]


def _thrown(row: Row, place: int) -> Thrown:
    throw = row.throw
    if throw is None:
        raise ValueError("a row without a throw")
    thrown = Thrown(throw.ball, throw.speed_m_s)
    if row.speed_sd_m_s == 0.0:
        return thrown
    return with_scatter(thrown, row.speed_sd_m_s / throw.speed_m_s, f"row {place}")


def _numbers(found: BandDifference) -> Iterator[str]:
    silent = found.no_claim or found.not_defined
    known = replace(found, low=np.nan, high=np.nan, probability_more=np.nan) if silent else found
    for low, high, more in (
        (known.low, known.high, known.probability_more),
        (found.radar_low, found.radar_high, found.radar_probability_more),
    ):
        for value in (100.0 * found.best, 100.0 * low, 100.0 * high, more):
            yield "" if np.isnan(value) else f"{value:.6g}"
