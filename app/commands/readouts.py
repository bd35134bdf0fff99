"""``levelpeak readouts``: a table of throws -> the same table with the readouts of each throw.

Input columns, in any order: athlete, sex, age_years, stature_cm, body_mass_kg, ball_mass_g, ball_diameter_mm (may be
empty: 73 mm), speed_m_s; optional, and empty where not measured: forearm_length_cm, upper_arm_length_cm, hand_length_cm
(wrist centre to third knuckle), handedness. Other columns are carried through. Result columns: see `readout_columns`.
"""

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from app.commands import readout_columns
from app.commands.band_columns import interval_columns, interval_names
from app.commands.readout_columns import ERROR, Column, columns_of, quantities_in_words, result_names
from app.csv_files import (
    Table,
    TableError,
    check_columns,
    check_file_name,
    csv_line,
    is_number,
    number_in,
    parse_table,
    read_bytes,
    read_stream,
    standard_output,
    written_whole,
)
from app.main import INTERRUPTED
from app.progress import Progress
from app.throw_cells import NEEDED_COLUMNS, OPTIONAL_COLUMNS, ThrowError, ThrowReader
from model.batch import read_throws
from model.checks import InputError, Limit
from model.readouts import Readouts
from model.throw import Throw

ABOVE_LIMIT = Limit(0.1, 2000.0, "N·m")  # wide, to catch a slip of the keyboard only
SHARE_LIMIT = Limit(1.0, 95.0, "%")
LINES_AT_ONCE = 2000

DESCRIPTION = """\
Read peak, durations, rise rate, area and work of each throw in a table.

THROWS.csv is comma-separated UTF-8 with decimal points. Its first line names the columns, in any order:
  {needed}
and, if wanted:
  {optional}
ball_diameter_mm may be empty (73 mm), and so may the optional ones. hand_length_cm is wrist centre to third knuckle,
about 9 cm, not to the fingertip; forearm and upper arm run between joint centres. Other columns are carried through
unchanged; result columns of an earlier run are replaced.

Every row comes out again, in order, with its results; a row that cannot be computed has its reason in the column
"error" and no results. A text that a spreadsheet would take for a formula (it begins with = + - @ and is no plain
number) comes out with an apostrophe before it.

Exit status: 0 all rows computed, 1 a row failed, 2 the file or an option cannot be used, 130 stopped by Ctrl-C. OUT.csv
appears when it is whole, or not at all.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "readouts",
        help="read peak, durations, rise rate, area and work of each throw in a CSV file",
        description=DESCRIPTION.format(needed=",".join(NEEDED_COLUMNS), optional=",".join(OPTIONAL_COLUMNS)),
        epilog=f"{readout_columns.__doc__}\nQuantities:\n{quantities_in_words()}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("throws", metavar="THROWS.csv", help="the table of throws; - for standard input")
    parser.add_argument("-o", "--output", metavar="OUT.csv", default="-", help="where to write (standard output)")
    parser.add_argument(
        "--all", dest="every", action="store_true", help="results of every quantity, not of the main ones"
    )
    parser.add_argument(
        "--share-percent", metavar="P", default="10", help="time loaded is above this share of the peak (%(default)s)"
    )
    parser.add_argument(
        "--band",
        action="store_true",
        help="also the 90 %% interval of each readout, with low and high before its unit (some 10 ms a row)",
    )
    parser.add_argument("--above-nm", metavar="T", help="also give the time above this torque, the same for all throws")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Read the table, compute, write.

    Parameters
    ----------
    args : argparse.Namespace
        With throws, output, every, band, share_percent and above_nm, as typed.

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
        print("\nlevelpeak readouts: stopped; no file written", file=sys.stderr)
        return INTERRUPTED
    print(f"levelpeak readouts: {problem}", file=sys.stderr)
    return 2


def _run(args: argparse.Namespace) -> int:
    share = _share(args.share_percent)
    above_nm = None if args.above_nm is None else number_in(args.above_nm, "--above-nm", ABOVE_LIMIT, "N·m")
    check_file_name("THROWS.csv", args.throws, "standard input")
    check_file_name("--output", args.output, "standard output")
    if args.throws != "-" and args.output != "-" and same_file(args.throws, args.output):
        raise InputError("--output", args.output, "another file than the table of throws")
    table = parse_table(read_stream(sys.stdin.buffer) if args.throws == "-" else read_bytes(Path(args.throws)))
    check_columns(table, NEEDED_COLUMNS)
    _tell_columns(table)
    encoding = "utf-8-sig" if table.marked else "utf-8"
    with standard_output(encoding) if args.output == "-" else written_whole(Path(args.output), encoding) as file:
        throws, errors = throws_of(table)
        first, others = columns_of(above=above_nm is not None, every=args.every)
        good = [throw for throw in throws if throw is not None]
        progress = Progress("reading throws", len(good))
        readouts = read_throws(
            good,
            list(dict.fromkeys(column.key for column in first + others)),
            share=share,
            above_nm=above_nm,
            progress=progress.show,
        )
        if args.band:
            bands = Progress("their intervals", len(good))
            others = (*others, *interval_columns(good, every=args.every, progress=bands.show))
            bands.clear()
        for lines in lines_of(table, throws, errors, first, others, readouts):
            file.write(lines)
        progress.clear()
    failed = sum(throw is None for throw in throws)
    if failed:
        print(f"levelpeak readouts: {failed} of {len(throws)} rows failed; see the column error", file=sys.stderr)
    return 1 if failed else 0


def _share(text: str) -> float:
    if not is_number(text) or not SHARE_LIMIT.low <= float(text) <= SHARE_LIMIT.high:
        raise InputError("--share-percent", text, str(SHARE_LIMIT))
    return float(text) / 100.0


def same_file(one: str, other: str) -> bool:
    """Whether two names are of one file that is there."""
    return os.path.exists(one) and os.path.exists(other) and os.path.samefile(one, other)


def _tell_columns(table: Table) -> None:
    """Say on the error stream which columns were not read, so that a misspelt optional one is noticed."""
    known, results = {*NEEDED_COLUMNS, *OPTIONAL_COLUMNS}, result_names() | interval_names()
    replaced = [name for name in table.columns if name in results]
    carried = [name for name in table.columns if name not in known and name not in replaced]
    if carried:
        names = ", ".join(name or "(one without a name)" for name in carried)
        print(f"levelpeak readouts: carried through unread: {names}", file=sys.stderr)
    if replaced:
        print(f"levelpeak readouts: results of an earlier run replaced: {', '.join(replaced)}", file=sys.stderr)
    if not table.rows:
        print("levelpeak readouts: the table has no rows", file=sys.stderr)


def throws_of(table: Table) -> tuple[list[Throw | None], list[str]]:
    """Make the throws of a table.

    Parameters
    ----------
    table : Table

    Returns
    -------
    list of Throw or None
        For each row; None if it failed.
    list of str
        For each row the reason why, or nothing.
    """
    reader = ThrowReader(table.columns)
    throws: list[Throw | None] = []
    errors = [table.problems.get(i, "") for i in range(len(table.rows))]
    for i, row in enumerate(table.rows):
        try:
            throws.append(None if i in table.problems else reader.throw(row))
        except ThrowError as error:
            errors[i] = str(error)
            throws.append(None)
    return throws, errors


def lines_of(
    table: Table,
    throws: Sequence[Throw | None],
    errors: Sequence[str],
    first: Sequence[Column],
    others: Sequence[Column],
    readouts: dict[str, Readouts],
) -> Iterator[str]:
    """Write the result's lines, some thousand at once.

    Parameters
    ----------
    table : Table
    throws, errors : sequences
        As `throws_of` gives them.
    first, others : sequences of Column
        Result columns before and after the column of errors.
    readouts : dict of str to Readouts
        Arrays over the throws that are not None.

    Yields
    ------
    str
        Whole lines.
    """
    results = result_names() | interval_names()
    kept = [i for i, name in enumerate(table.columns) if name not in results]
    names = [*(table.columns[i] for i in kept), *(c.name for c in first), ERROR, *(c.name for c in others)]
    yield csv_line(names) + "\n"

    good = [throw for throw in throws if throw is not None]
    size = np.array([throw.person.body_mass_kg for throw in good]), np.array([throw.person.stature_m for throw in good])
    numbers = [column.values(readouts[column.key], size) for column in (*first, *others)]
    pattern = ",".join(["%.6g"] * len(first)) + "," + "".join([",%.6g"] * len(others))
    nothing = "," * (len(first) - 1), "," * len(others)
    done = 0
    for start in range(0, len(throws), LINES_AT_ONCE):
        part = slice(start, start + LINES_AT_ONCE)
        count = sum(throw is not None for throw in throws[part])
        block = iter(np.stack([column[done : done + count] for column in numbers], axis=1).tolist())
        done += count
        lines = []
        for row, throw, error in zip(table.rows[part], throws[part], errors[part], strict=True):
            cells = csv_line([row[i] for i in kept])
            if throw is None:
                lines.append(f"{cells},{nothing[0]},{csv_line([error])}{nothing[1]}\n")
            else:
                lines.append(f"{cells},{(pattern % tuple(next(block))).replace('nan', '')}\n")
        yield "".join(lines)
