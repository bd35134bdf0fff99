"""Bringing the tables to a version, step by step, in one transaction."""

import threading
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, inspect, text

from app.records.engine import BUSY_S, Database
from app.records.faults import NewerError, RecordsError
from app.records.migrations import SCRIPTS, VERSION_TABLE
from app.records.place import Place
from app.records.tables import Base

MIGRATION_LOCK = 0x6C76706B
"""Of PostgreSQL: one program at a time changes the tables."""

_ONE_IN_THIS_PROGRAM = threading.Lock()  # Alembic's context is one for all threads


def version_of(connection: Connection) -> str | None:
    """Which step the tables are at; None where there are none."""
    if not inspect(connection).has_table(VERSION_TABLE):
        return None
    found: str | None = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar()  # noqa: S608
    return found


def head_of(scripts: Path) -> str:
    """The last of the steps."""
    return str(_scripts(scripts).get_current_head())


def _scripts(scripts: Path) -> ScriptDirectory:
    return ScriptDirectory.from_config(_config(scripts))


def _config(scripts: Path) -> Config:
    config = Config()
    config.set_main_option("script_location", str(scripts).replace("%", "%%"))
    config.set_main_option("path_separator", "newline")
    return config


def check_known(there: str, scripts: Path, place: Place) -> None:
    """Raise `NewerError` if a step is none of those that this version knows."""
    if there not in {one.revision for one in _scripts(scripts).walk_revisions()}:
        raise NewerError(
            f"{place.words} was made by a newer version of Levelpeak. Install that version, or choose another place "
            "with --data-dir. Nothing was changed."
        )


def migrate(place: Place, busy_s: float = BUSY_S, scripts: Path = SCRIPTS, target: str = "head") -> None:
    """Bring the tables to a version, in one transaction: wholly or not at all.

    Parameters
    ----------
    place : Place
    busy_s : float
    scripts : Path
    target : str
        The step to go to.

    Raises
    ------
    RecordsError
        If the database did not take it.
    """
    # SQLite makes a table anew to change it; with foreign keys on, its rows' children would go with the old one
    database = Database(place, busy_s, foreign_keys=False)
    try:
        with database.writing() as connection:
            if place.on_server:
                hold_tables(connection)
            _upgrade(connection, scripts, target)
            if not place.on_server and connection.exec_driver_sql("PRAGMA foreign_key_check").first():
                raise RecordsError(f"{place.words} could not be brought to this version. Nothing was changed.")
    finally:
        database.close()


def hold_tables(connection: Connection) -> None:
    """Let no other program change the tables of a server until the transaction ends."""
    connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": MIGRATION_LOCK})


def _upgrade(connection: Connection, scripts: Path, target: str) -> None:
    config = _config(scripts)
    config.attributes["connection"] = connection
    with _ONE_IN_THIS_PROGRAM:
        command.upgrade(config, target)


def remake(connection: Connection, version: str, scripts: Path = SCRIPTS) -> None:
    """Make all tables anew and empty, as a step left them; what was in them is gone.

    Parameters
    ----------
    connection : Connection
        Of a transaction, of a server.
    version : str
        The step.
    scripts : Path
    """
    hold_tables(connection)
    there = set(inspect(connection).get_table_names())
    for table in [*(one.name for one in Base.metadata.sorted_tables), VERSION_TABLE]:
        if table in there:
            connection.execute(text(f'DROP TABLE "{table}" CASCADE'))
    _upgrade(connection, scripts, version)
