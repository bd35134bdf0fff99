"""``levelpeak export``: the records as one document, for another machine or for safe keeping."""

import argparse
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from app.commands.place_options import add_place
from app.commands.records_options import open_records, refused
from app.csv_files import check_file_name, standard_output, written_whole
from app.progress import Progress
from app.records.csv_readings import readings_table
from app.records.csv_sessions import sessions_table
from app.records.demo import demo_store
from app.records.faults import RecordsError
from app.records.outgoing import export
from app.records.place import OWNER_ONLY
from app.records.store import Store
from model.checks import InputError

DESCRIPTION = """\
Write the records as one document (JSON): everything, or one athlete with --athlete. `levelpeak import` reads it again,
here or on another machine, and nothing is lost on the way. With --readings or --sessions a table (CSV) is written
instead. The file holds personal data: it can be read by whoever gets it.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "export",
        help="write the records, or one athlete's, as one document",
        description=DESCRIPTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--athlete", metavar="CODE", help="this athlete alone (everybody)")
    parser.add_argument("--demo", dest="demo_records", action="store_true", help="the demo, made anew, instead")
    table = parser.add_mutually_exclusive_group()
    table.add_argument("--readings", action="store_true", help="the readings as a table (CSV)")
    table.add_argument("--sessions", action="store_true", help="the sessions that were thrown as a table (CSV)")
    parser.add_argument("--without-history", dest="history", action="store_false", help="without who changed what when")
    parser.add_argument("-o", "--output", metavar="FILE", default="-", help="where to write (standard output)")
    add_place(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the records.

    Parameters
    ----------
    args : argparse.Namespace

    Returns
    -------
    int
        Exit status: 0, or 2 if they cannot be read or the file not be written.
    """
    try:
        check_file_name("--output", args.output, "standard output")
        with _records(args) as store:
            _write(args, store)
    except (RecordsError, InputError) as error:
        return refused("export", error)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # the reader has gone: let the rest fall
        return 1
    except OSError as error:
        return refused("export", RecordsError(f"{args.output}: cannot be written: {error.strerror or error}"))
    return 0


@contextmanager
def _records(args: argparse.Namespace) -> Iterator[Store]:
    if args.demo_records or args.demo:
        with demo_store() as store:
            yield store
        return
    store = open_records(args)
    try:
        yield store
    finally:
        store.close()


def _write(args: argparse.Namespace, store: Store) -> None:
    progress = Progress("Writing athletes", 1)
    if args.readings:
        parts = readings_table(store, args.athlete)
    elif args.sessions:
        parts = sessions_table(store, args.athlete)
    else:
        parts = export(store, args.athlete, history=args.history, progress=progress.show_of)
    first = next(parts)  # what cannot be written is told before a file is begun
    if args.output == "-":
        with standard_output("utf-8") as file:
            file.writelines((first, *parts))
        return
    fresh = not Path(args.output).exists()
    with written_whole(Path(args.output)) as file:
        if fresh:
            for_the_owner(file.fileno())
        file.write(first)
        file.writelines(parts)
    progress.clear()
    print(f"Written: {args.output}", file=sys.stderr)


def for_the_owner(number: int) -> None:
    """Let only the owner read an open file, where the system knows such rights."""
    if hasattr(os, "fchmod"):
        os.fchmod(number, OWNER_ONLY)
