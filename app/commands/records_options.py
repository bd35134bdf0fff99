"""What the commands that need the records share: how they are opened, and how a refusal is told."""

import argparse
import sys

from app.records.faults import RecordsError
from app.records.opening import open_store
from app.records.place import find_place
from app.records.store import Store


def open_records(args: argparse.Namespace) -> Store:
    """Open the records that the options speak of.

    Parameters
    ----------
    args : argparse.Namespace

    Returns
    -------
    Store

    Raises
    ------
    RecordsError
        In words.
    """
    place = find_place(getattr(args, "data_dir", None), getattr(args, "database", None))
    return open_store(place, tell=lambda words: print(words, file=sys.stderr))


def refused(command: str, error: RecordsError | ValueError) -> int:
    """Tell why a command could not do its work; the exit status."""
    print(f"levelpeak {command}: {error}", file=sys.stderr)
    return 2
