"""Opening the records: the file or the database is found, made where there is none, and brought to this version."""

import tempfile
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Connection, inspect

from app.records.copies import back_up
from app.records.engine import BUSY_S, Database
from app.records.erase import finish
from app.records.faults import DamagedError
from app.records.migrating import check_known, head_of, migrate, version_of
from app.records.migrations import HEAD, SCRIPTS
from app.records.place import Place, make_file, make_folder
from app.records.store import Store
from app.records.tables import KEPT


def open_store(
    place: Place, *, busy_s: float = BUSY_S, scripts: Path = SCRIPTS, tell: Callable[[str], None] = lambda _: None
) -> Store:
    """Open the records.

    Parameters
    ----------
    place : Place
    busy_s : float
        How long to wait for others who write (s).
    scripts : Path
        Where the steps lie that bring an older database to this version.
    tell : callable
        Is told what is done, where it takes a while: a dated copy before the tables are changed.

    Returns
    -------
    Store

    Raises
    ------
    RecordsError
        In words: if there is no way to it, it is damaged, was made by a newer version, or is another program's.
    """
    if not place.on_server:
        make_folder(place.folder)
        make_file(place.file)
    database = Database(place, busy_s)
    try:
        head = HEAD if scripts == SCRIPTS else head_of(scripts)
        with database.reading() as connection:
            there = version_of(connection)
            empty = there is None and not _tables(connection)
        if there is None and not empty:
            raise DamagedError(
                f"{place.words} holds tables of another program. Choose another place with --data-dir or --database."
            )
        if there != head:
            if there is not None:
                check_known(there, scripts, place)
                copy = back_up(database, there)
                tell(f"The tables of the records are brought to this version; a dated copy is kept: {copy}.")
            migrate(place, busy_s, scripts)
        finish(database, tell)
        return Store(database)
    except BaseException:
        database.close()
        raise


def _tables(connection: Connection) -> set[str]:
    return set(inspect(connection).get_table_names()) & set(KEPT)


def temporary_place() -> Place:
    """A new folder that is nobody else's, for records that are not kept."""
    return Place(Path(tempfile.mkdtemp(prefix="levelpeak-")))
