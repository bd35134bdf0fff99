"""The options that say where the records lie; they import nothing that takes time."""

import argparse

from app.records import ACCEPTED, VARIABLE


def add_place(parser: argparse.ArgumentParser, default: object = argparse.SUPPRESS) -> None:
    """Add the options that say where the records lie.

    Parameters
    ----------
    parser : argparse.ArgumentParser
    default : object
        Of both; a command leaves what was said before its name.
    """
    folder = "folder of the records (the user's data folder)"
    parser.add_argument("--data-dir", metavar="FOLDER", default=default, help=folder)
    server = f"records on a PostgreSQL server, {ACCEPTED}; with a password only in {VARIABLE}"
    parser.add_argument("--database", metavar="URL", default=default, help=server)
