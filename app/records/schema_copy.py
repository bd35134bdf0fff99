"""Dated copies of a server's tables: each a schema in the same database, so that nothing leaves the server.

A failed change can be taken back with one; against the loss of the server its own backups help.
"""

import re
from pathlib import Path

from sqlalchemy import Connection, Table, inspect, text

from app.records.backup import Copy
from app.records.engine import Database
from app.records.faults import RecordsError, UnreachableError
from app.records.migrating import hold_tables, remake
from app.records.migrations import SCRIPTS, VERSION_TABLE
from app.records.tables import Base

SCHEMA = re.compile(r"levelpeak_copy_(\d{8})_(\d{6})_(\w+)")


def schema_copies(database: Database) -> list[Copy]:
    """The dated copies there are, the newest first."""
    with database.reading() as connection:
        names = inspect(connection).get_schema_names()
    found = [(name, SCHEMA.fullmatch(name)) for name in names]
    made = [
        Copy(name, f"{day[:4]}-{day[4:6]}-{day[6:]} {hour[:2]}:{hour[2:4]}", version)
        for name, match in found
        if match
        for day, hour, version in (match.groups(),)
    ]
    return sorted(made, key=lambda one: one.name, reverse=True)


def copy_schema(database: Database, name: str) -> None:
    """Copy all tables into a new schema.

    Parameters
    ----------
    database : Database
    name : str
        Of the schema, as `SCHEMA` has it.

    Raises
    ------
    RecordsError
        If the server does not take it.
    """
    if not SCHEMA.fullmatch(name):
        raise RecordsError(f"{name}: no name of a copy.")
    with database.writing() as connection:
        hold_tables(connection)
        if inspect(connection).has_schema(name):  # another program has just made it
            return
        connection.execute(text(f'CREATE SCHEMA "{name}"'))
        for table in sorted(inspect(connection).get_table_names()):
            if table in Base.metadata.tables or table == VERSION_TABLE:
                connection.execute(text(f'CREATE TABLE "{name}"."{table}" AS TABLE "{table}"'))


def drop_schema(database: Database, name: str) -> None:
    """Let a dated copy go."""
    if SCHEMA.fullmatch(name):
        with database.writing() as connection:
            connection.execute(text(f'DROP SCHEMA "{name}" CASCADE'))


def restore_schema(database: Database, name: str, scripts: Path = SCRIPTS) -> None:
    """Put a dated copy in the place of a server's tables, in one transaction.

    Parameters
    ----------
    database : Database
    name : str
        Of a copy, as `schema_copies` lists it.
    scripts : Path
        Where the steps lie.

    Raises
    ------
    RecordsError
        If there is no such copy, or the server does not take it; then nothing was changed.
    """
    if name not in {one.name for one in schema_copies(database)}:
        raise UnreachableError(f"{name}: there is no such copy. Accepted: a name of the list.")
    with database.writing() as connection:
        version = connection.execute(text(f'SELECT version_num FROM "{name}".{VERSION_TABLE}')).scalar()  # noqa: S608
        remake(connection, str(version), scripts)
        columns = inspect(connection)
        for table in [one for one in Base.metadata.sorted_tables if columns.has_table(one.name, schema=name)]:
            _fill(connection, table, name, [one["name"] for one in columns.get_columns(table.name, schema=name)])


def _fill(connection: Connection, table: Table, schema: str, columns: list[str]) -> None:
    named, place = ", ".join(f'"{one}"' for one in columns), f'"{table.name}"'
    connection.execute(text(f"DELETE FROM {place}"))  # noqa: S608
    connection.execute(text(f'INSERT INTO {place} ({named}) SELECT {named} FROM "{schema}".{place}'))  # noqa: S608
    asked = text("SELECT pg_get_serial_sequence(:table, 'id')")
    sequence = connection.execute(asked, {"table": place}).scalar() if "id" in table.columns else None
    if sequence:
        last = f"SELECT setval(:sequence, coalesce((SELECT max(id) FROM {place}), 0) + 1, false)"  # noqa: S608
        connection.execute(text(last), {"sequence": sequence})
