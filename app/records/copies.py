"""Dated copies, wherever the records lie: made, listed, and not too many of them."""

from datetime import datetime

from app.records.backup import Copy, copies_of, copy_file
from app.records.engine import Database
from app.records.place import make_folder
from app.records.schema_copy import copy_schema, drop_schema, schema_copies
from app.records.tables import now

MOST_KEPT = 10
"""Dated copies; the oldest go."""


def back_up(database: Database, version: str, moment: datetime | None = None) -> str:
    """Make a dated copy, and let the oldest go.

    Parameters
    ----------
    database : Database
    version : str
        The step that its tables are at.
    moment : datetime, optional

    Returns
    -------
    str
        Its name.

    Raises
    ------
    RecordsError
        If it cannot be made.
    """
    moment = moment or now()
    if database.place.on_server:
        name = f"levelpeak_copy_{moment:%Y%m%d_%H%M%S}_{version}"
        copy_schema(database, name)
    else:
        name = f"records_{moment:%Y-%m-%d_%H-%M-%S}_{version}.sqlite3"
        make_folder(database.place.backups)
        copy_file(database.place.file, database.place.backups / name)
    for old in copies(database)[MOST_KEPT:]:
        drop(database, old.name)
    return name


def copies(database: Database) -> list[Copy]:
    """The dated copies there are, the newest first."""
    return schema_copies(database) if database.place.on_server else copies_of(database.place)


def drop(database: Database, name: str) -> None:
    """Let a dated copy go."""
    if database.place.on_server:
        drop_schema(database, name)
    else:
        (database.place.backups / name).unlink(missing_ok=True)
