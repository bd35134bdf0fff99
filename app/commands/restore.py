"""``levelpeak restore``: the dated copies of the records, and one of them put back."""

import argparse
import sys
from typing import Any

from app.commands.place_options import add_place
from app.commands.records_options import refused
from app.records.backup import Copy, copies_of, restore
from app.records.engine import Database
from app.records.faults import RecordsError
from app.records.place import Place, find_place
from app.records.schema_copy import restore_schema, schema_copies

DESCRIPTION = """\
Without a name: list the dated copies of the records, the newest first. With one: put it in the place of the records.
What stands there now is kept beside the copies. End the dashboard first.
"""


def add_parser(subparsers: "argparse._SubParsersAction[Any]") -> None:
    """Add the command's arguments.

    Parameters
    ----------
    subparsers : argparse subparsers action
    """
    parser = subparsers.add_parser(
        "restore",
        help="list the dated copies of the records, or put one back",
        description=DESCRIPTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("name", metavar="NAME", nargs="?", help="of a copy, as the list has it")
    add_place(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """List the copies, or put one back.

    Parameters
    ----------
    args : argparse.Namespace

    Returns
    -------
    int
        Exit status: 0, or 2 if it cannot be done.
    """
    try:
        place = find_place(getattr(args, "data_dir", None), getattr(args, "database", None))
        if args.name is None:
            _list(place)
        elif place.on_server:
            database = Database(place)
            try:
                restore_schema(database, args.name)
            finally:
                database.close()
            print(f"{args.name} is in the place of the records.")
        else:
            aside = restore(place, args.name)
            print(f"{args.name} is in the place of the records.")
            if aside:
                print(f"What stood there is kept: {place.backups / aside}")
    except RecordsError as error:
        return refused("restore", error)
    return 0


def _list(place: Place) -> None:
    if place.on_server:
        database = Database(place)
        try:
            found = schema_copies(database)
        finally:
            database.close()
    else:
        found = copies_of(place)
    if not found:
        print(f"There is no dated copy of {place.words}: one is made before the tables are changed.", file=sys.stderr)
    for copy in found:
        print(_told(copy))


def _told(copy: Copy) -> str:
    return f"{copy.name}  (made {copy.made}, universal time)"
