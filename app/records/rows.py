"""Rows as plain data and back: without the numbers of one database, the uid of a row in the place of a link to it."""

from collections.abc import Mapping
from datetime import date, datetime
from functools import cache
from typing import Any

from sqlalchemy import Column, ColumnElement, Connection, Date, Executable, Table, select

from app.records.faults import GoneError
from app.records.tables import KEPT, LINKS, OWN_COLUMNS, Base, Moment

REVISION = Base.metadata.tables["revision"]
TEAM = Base.metadata.tables["team"]
MARK = Base.metadata.tables["mark"]
"""The tables that people do not fill."""


def history_of(number: int | None) -> ColumnElement[bool]:
    """The condition that a line of history is of an athlete's, or of the team's."""
    return of_owner(REVISION, number)


def of_owner(table: Table, number: int | None) -> ColumnElement[bool]:
    """The condition that a row is an athlete's, or the team's: of None."""
    return table.c.athlete_id.is_(None) if number is None else table.c.athlete_id == number


Document = dict[str, Any]
"""A row: its table under ``table``, and the values of its columns that are not empty."""


def all_rows(connection: Connection, statement: Executable) -> list[dict[str, Any]]:
    """The rows that a statement finds, by column."""
    return [row._asdict() for row in connection.execute(statement)]


def first_row(connection: Connection, statement: Executable) -> dict[str, Any] | None:
    """The first row that a statement finds, by column; None if there is none."""
    row = connection.execute(statement).first()
    return None if row is None else row._asdict()


@cache
def table_of(name: str) -> Table:
    """The table of a name; KeyError if there is none."""
    if name not in KEPT:
        raise KeyError(name)
    return Base.metadata.tables[name]


@cache
def columns_of(name: str) -> dict[str, Column[Any]]:
    """The columns of a table that mean something outside of its database, by name."""
    return {column.name: column for column in table_of(name).columns if column.name not in OWN_COLUMNS}


def link_name(column: str) -> str:
    """What a link is called outside of the database: ``ball`` for ``ball_id``."""
    return column.removesuffix("_id") if column in LINKS else column


class Links:
    """Which row has which uid; asked of the database once for each."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._uids: dict[tuple[str, int], str] = {}
        self._ids: dict[tuple[str, str], int] = {}

    def uid(self, table: str, number: int) -> str:
        """The uid of a row."""
        if (table, number) not in self._uids:
            of = table_of(table).c
            uid = self._connection.execute(select(of.uid).where(of.id == number)).scalar_one()
            self.learn(table, number, uid)
        return self._uids[table, number]

    def number(self, table: str, uid: str) -> int:
        """The number of a row; `GoneError` if there is none."""
        if (table, uid) not in self._ids:
            of = table_of(table).c
            number = self._connection.execute(select(of.id).where(of.uid == uid)).scalar()
            if number is None:
                raise GoneError(f"The {table.replace('_', ' ')} that belongs to it is there no longer.")
            self.learn(table, number, uid)
        return self._ids[table, uid]

    def learn(self, table: str, number: int, uid: str) -> None:
        """Know a pair without asking."""
        self._uids[table, number] = uid
        self._ids[table, uid] = number

    def learn_all(self, table: str) -> None:
        """Know all of a small table."""
        of = table_of(table).c
        for number, uid in self._connection.execute(select(of.id, of.uid)):
            self.learn(table, number, uid)


def plain(value: Any) -> Any:
    """A value as JSON has it."""
    return value.isoformat() if isinstance(value, date) else value


def to_document(table: str, row: Mapping[str, Any], links: Links) -> Document:
    """Write a row as plain data.

    Parameters
    ----------
    table : str
    row : mapping of str to object
        By column.
    links : Links

    Returns
    -------
    dict
        What is empty is left out.
    """
    made: Document = {"table": table}
    for name in columns_of(table):
        value = row[name]
        if value is None or (name in ("typed", "draft") and not value):
            continue
        made[link_name(name)] = links.uid(LINKS[name], value) if name in LINKS else plain(value)
    return made


def to_row(document: Mapping[str, Any], links: Links) -> dict[str, Any]:
    """Read a row from plain data.

    Parameters
    ----------
    document : mapping of str to object
        As `to_document` writes it; with an ``id`` it is to have its old number, and its old place in lists, again.
    links : Links

    Returns
    -------
    dict of str to object
        By column; a column that was left out is empty, or has its default.

    Raises
    ------
    GoneError
        If a row that it points at is not there.
    """
    row: dict[str, Any] = {"id": document["id"]} if "id" in document else {}
    for name, column in columns_of(str(document["table"])).items():
        value = document.get(link_name(name))
        if value is None:
            if name in ("typed", "draft"):
                row[name] = {}
            elif column.nullable:
                row[name] = None
            continue
        row[name] = links.number(LINKS[name], value) if name in LINKS else valued(column, value)
    return row


def valued(column: Column[Any], value: Any) -> Any:
    """The value of a column from what JSON has."""
    if isinstance(value, str):
        if isinstance(column.type, Moment):
            return datetime.fromisoformat(value)
        if isinstance(column.type, Date):
            return date.fromisoformat(value)
    return value


def counted(number: int, one: str, many: str = "") -> str:
    """So many of a thing, in words."""
    return f"{number} {one if number == 1 else many or one + 's'}"
