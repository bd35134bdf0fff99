"""``levelpeak import``: a document, a table, or a file of the version before is taken into the records."""

import argparse
import sys
from datetime import date
from pathlib import Path
from typing import Any

from app.commands.place_options import add_place
from app.commands.records_options import open_records, refused
from app.csv_files import TableError, read_bytes
from app.progress import Progress
from app.records.acts import Hand
from app.records.arriving import Said, document_of, is_json, is_whole, look_at, take
from app.records.document import ExchangeError
from app.records.faults import RecordsError
from app.records.field_list import field_of
from app.records.looking import Choices
from model.checks import InputError

DESCRIPTION = """\
Take a file into the records: a document of `levelpeak export`, a plan or a teaching session saved by an older version,
or a table (CSV) of readings or of sessions. What is there already is not added again, and nothing here is overwritten.

First is told what would come of it. Where somebody sits at the terminal, nothing is kept before they agree; elsewhere
the command is taken for the agreement. --look tells, and keeps nothing.
"""
HAND = Hand("levelpeak import")


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "import",
        help="take a document, a table or an older file into the records",
        description=DESCRIPTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("file", metavar="FILE")
    parser.add_argument(
        "--athlete", metavar="CODE", default="", help="the athlete of rows, or of a file, without a code"
    )
    parser.add_argument("--as", dest="code", metavar="CODE", help="another code for the one athlete of a document")
    parser.add_argument(
        "--same", metavar="CODE", action="append", default=[], help="this code is the same athlete here"
    )
    parser.add_argument("--take-file", action="store_true", help="where a field differs, take what the file has")
    parser.add_argument("--day", metavar="YEAR-MONTH-DAY", help="the day of rows that have none")
    parser.add_argument("--look", action="store_true", help="only tell what would come of it")
    parser.add_argument("--yes", action="store_true", help="do not ask")
    add_place(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Take the file in.

    Parameters
    ----------
    args : argparse.Namespace

    Returns
    -------
    int
        Exit status: 0; 1 if a part of it was refused or nobody agreed; 2 if it cannot be read or kept.
    """
    try:
        data = read_bytes(Path(args.file))
        day = None if args.day is None else field_of("reading.day").parse(args.day).value
        store = open_records(args)
    except (TableError, InputError, RecordsError) as error:
        return refused("import", error if isinstance(error, RecordsError) else ValueError(f"{args.file}: {error}"))
    try:
        bar = Progress("Reading", 1)
        found = look_at(store, data, _said(args, data, day), date.today(), bar.show_of)
        bar.clear()
        for line in found.lines:
            print(line)
        if args.look:
            return 0 if is_whole(found) else 1
        if not args.yes and sys.stdin.isatty() and not _agreed():
            print("Nothing was changed.")
            return 1
        keeping = Progress("Keeping", 1)
        added = take(store, found, HAND, keeping.show_of)
        keeping.clear()
        print(f"Added: {added}.")
    except (RecordsError, ExchangeError, TableError, InputError) as error:
        return refused("import", error if isinstance(error, RecordsError) else ValueError(f"{args.file}: {error}"))
    finally:
        store.close()
    return 0 if is_whole(found) else 1


def _agreed() -> bool:
    try:
        return input("Keep this? [y/N] ").strip().lower() in ("y", "yes")
    except EOFError:
        return False


def _said(args: argparse.Namespace, data: bytes, day: date | None) -> Said:
    """What the options say of the file."""
    codes = {}
    if args.code is not None and is_json(data):
        document, _ = document_of(data, args.athlete, day or date.today())
        if len(document.athletes) != 1:
            raise InputError("--as", args.code, f"a file of one athlete; this one has {len(document.athletes)}")
        codes = {document.athletes[0].code: args.code}
    return Said(args.athlete, day, choices=Choices(codes, frozenset(args.same), args.take_file))
