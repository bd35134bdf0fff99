"""``levelpeak import``: a document, a table, or a file of the version before is taken into the records."""

import argparse
import json
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from app.commands.place_options import add_place
from app.commands.records_options import open_records, refused
from app.csv_files import TableError, read_bytes
from app.progress import Progress
from app.records.acts import Hand
from app.records.csv_columns import read_table
from app.records.csv_readings import preview_readings, take_readings
from app.records.csv_sessions import preview_sessions, take_sessions
from app.records.csv_verdicts import REFUSED, TAKEN
from app.records.document import KIND, Document, ExchangeError, read_document
from app.records.faults import RecordsError
from app.records.field_list import field_of
from app.records.incoming import take_in
from app.records.looking import Choices, look_through
from app.records.old_files import SESSION_KIND, session_document
from app.records.old_plans import PLAN_KIND, plan_document
from app.records.store import Store
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
        lines, complete, take = _look(args, store, data, day)
        for line in lines:
            print(line)
        if args.look:
            return 0 if complete else 1
        if not args.yes and sys.stdin.isatty() and not _agreed():
            print("Nothing was changed.")
            return 1
        print(take())
    except (RecordsError, ExchangeError, TableError, InputError) as error:
        return refused("import", error if isinstance(error, RecordsError) else ValueError(f"{args.file}: {error}"))
    finally:
        store.close()
    return 0 if complete else 1


Look = tuple[tuple[str, ...], bool, Callable[[], str]]


def _agreed() -> bool:
    try:
        return input("Keep this? [y/N] ").strip().lower() in ("y", "yes")
    except EOFError:
        return False


def _look(args: argparse.Namespace, store: Store, data: bytes, day: date | None) -> Look:
    """What would come of the file, whether all of it, and how to keep it."""
    if data.removeprefix(b"\xef\xbb\xbf").lstrip()[:1] in (b"{", b"["):
        document, by_code = _document(data, args.athlete, day or date.today())
        return _document_look(args, store, document, by_code)
    columns = {name.lower() for name in read_table(data).columns}
    if columns & {"throws", "decision", "body", "plan"} or any(name.startswith("body.") for name in columns):
        sessions = preview_sessions(store, data, code=args.athlete)
        complete = not sessions.count(REFUSED)
        return sessions.lines, complete, lambda: f"Added: {take_sessions(store, sessions, HAND)}."
    bar = Progress("Reading rows", 1)
    readings = preview_readings(store, data, code=args.athlete, day=day, progress=bar.show_of)
    bar.clear()
    complete = not readings.count(REFUSED)
    keeping = Progress("Keeping readings", readings.count(TAKEN))

    def take() -> str:
        added = take_readings(store, readings, HAND, keeping.show_of)
        keeping.clear()
        return f"Added: {added}."

    return readings.lines, complete, take


def _document_look(args: argparse.Namespace, store: Store, document: Document, by_code: bool) -> Look:
    codes = {}
    if args.code is not None:
        if len(document.athletes) != 1:
            raise InputError("--as", args.code, f"a file of one athlete; this one has {len(document.athletes)}")
        codes = {document.athletes[0].code: args.code}
    choices = Choices(codes, frozenset(args.same), args.take_file)
    coming = look_through(store, document, choices, by_code)
    bar = Progress("Taking athletes in", len(document.athletes))

    def take() -> str:
        came = take_in(store, coming, HAND, bar.show_of)
        bar.clear()
        return f"Added: {came.adds}."

    return coming.lines, not coming.refused, take


def _document(data: bytes, code: str, today: date) -> tuple[Document, bool]:
    """Read JSON: a document, or an older file, which knows an athlete by the code alone."""
    try:
        kept = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, ValueError, RecursionError):
        raise ExchangeError("it is no JSON text in UTF-8; accepted: what “levelpeak export” writes") from None
    kind = kept.get("kind") if isinstance(kept, dict) else None
    if kind == KIND:
        return read_document(data), False
    if kind == PLAN_KIND:
        return plan_document(kept, code), True
    if kind == SESSION_KIND:
        return session_document(kept, today), True
    accepted = "a document of the records, a build-up plan or a teaching session"
    raise ExchangeError(f"it is none of the files that can be taken in; accepted: {accepted}, or a table (CSV)")
