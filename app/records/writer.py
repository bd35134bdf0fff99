"""One transaction on one athlete's records, or the team's: each change of a row with its line of history."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, delete, false, func, insert, select, true, update

from app.records.acts import TEAM, Hand
from app.records.differences import difference, from_text, patched, with_text
from app.records.faults import GoneError
from app.records.field_list import field_of, from_kept, of_session
from app.records.rows import TEAM as TEAM_TABLE
from app.records.rows import Document, Links, all_rows, first_row, of_owner, plain, table_of, to_document, to_row
from app.records.tables import LINKS, TEAM_ID, Revision, new_uid, now

CHILDREN = {"comparison": ("throw", "comparison_id"), "plan": ("session_log", "plan_id")}
"""What goes with a row: table and column that points at it."""

BODIES = ("body",)
MOMENTS = ("archived_at", "opened_at", "created")
UNTYPED = ("athlete.invented",)
MOST_ROWS = 500
"""Rows that stand in one line of history."""


@dataclass
class Owner:
    """Whose records they are: an athlete or the team.

    Attributes
    ----------
    uid : str
        TEAM for the team.
    id : int or None
        None for the team.
    version, compacted : int
        The last version; and that up to which the history was compacted.
    """

    uid: str
    id: int | None
    version: int
    compacted: int


def owner_row(uid: str) -> tuple[Any, Any]:
    """The table that counts an owner's versions, and the condition that finds its row."""
    if uid == TEAM:
        return TEAM_TABLE, TEAM_TABLE.c.id == TEAM_ID
    athlete = table_of("athlete")
    return athlete, athlete.c.uid == uid


def find_owner(connection: Connection, uid: str) -> Owner:
    """Find whose records they are; nobody has to wait.

    Parameters
    ----------
    connection : Connection
    uid : str

    Returns
    -------
    Owner

    Raises
    ------
    GoneError
        If there is no such athlete.
    """
    table, found = owner_row(uid)
    row = connection.execute(select(table.c.id, table.c.version, table.c.compacted).where(found)).first()
    return _owner(uid, row)


def lock_owner(connection: Connection, uid: str) -> Owner:
    """Begin a version: nobody else changes the same athlete until the transaction ends.

    Parameters
    ----------
    connection : Connection
    uid : str

    Returns
    -------
    Owner
        With the new version.

    Raises
    ------
    GoneError
        If there is no such athlete.
    """
    table, found = owner_row(uid)
    grown = update(table).where(found).values(version=table.c.version + 1)
    row = connection.execute(grown.returning(table.c.id, table.c.version, table.c.compacted)).first()
    return _owner(uid, row)


def _owner(uid: str, row: Row[Any] | None) -> Owner:
    if row is None:
        raise GoneError("This athlete was erased.")
    return Owner(uid, None if uid == TEAM else row.id, row.version, row.compacted)


def same_version(connection: Connection, owner: Owner) -> None:
    """Take the new version of `lock_owner` back, where nothing came of it."""
    table, found = owner_row(owner.uid)
    owner.version -= 1
    connection.execute(update(table).where(found).values(version=owner.version))


class Writer:
    """Changes rows of one owner and writes down each change.

    Attributes
    ----------
    connection : Connection
    owner : Owner
    links : Links
    changed : bool
        Whether anything was changed that is a version of its own.
    noted : bool
        Whether a refused text was kept, or let go of.
    """

    def __init__(
        self,
        connection: Connection,
        owner: Owner,
        hand: Hand,
        *,
        mode: str = "do",
        of: int | None = None,
        at: datetime | None = None,
        links: Links | None = None,
    ) -> None:
        self.connection = connection
        self.owner = owner
        self.links = links or Links(connection)
        self.changed = False
        self.noted = False
        self._line = {
            "athlete_id": owner.id,
            "version": owner.version,
            "at": at or now(),
            "tab": hand.tab,
            "by": hand.by,
            "sent": hand.sent,
            "mode": mode,
            "of": of,
        }

    def find(self, table: str, uid: str) -> Mapping[str, Any]:
        """A row of the owner.

        Parameters
        ----------
        table : str
        uid : str
            Empty, or the owner's, for the athlete's own row. A limit may be called by its key.

        Returns
        -------
        mapping of str to object

        Raises
        ------
        GoneError
            If there is none.
        """
        of = table_of(table)
        if table == "athlete":
            found = of.c.id == self.owner.id
        else:
            called = (of.c.uid == uid) | (of.c.key == uid) if table == "limits" else of.c.uid == uid
            found = called & self.own(of)
        row = first_row(self.connection, select(of).where(found))
        if row is None:
            raise GoneError(f"This {table.replace('_', ' ')} was removed in the meantime.")
        return row

    def all_of(self, table: str) -> list[dict[str, Any]]:
        """All rows of the owner in a table, in the order they were made."""
        of = table_of(table)
        return all_rows(self.connection, select(of).where(self.own(of)).order_by(of.c.id))

    def own(self, table: Any) -> Any:
        """The condition that a row is the owner's."""
        if table.name == "lesson":  # the team's, whichever athlete it leads to
            return true() if self.owner.id is None else false()
        return of_owner(table, self.owner.id)

    def setting(self, key: str) -> Mapping[str, Any] | None:
        """The row of a setting; None if it was never set."""
        of = table_of("setting")
        found = select(of).where(self.own(of), of.c.key == key)
        return first_row(self.connection, found)

    def settings(self) -> dict[str, Any]:
        """Values of the settings that were set, by path."""
        of = table_of("setting")
        return {row.key: row.value for row in self.connection.execute(select(of.c.key, of.c.value).where(self.own(of)))}

    def write(self, kind: str, table: str, row: str, field: str, before: Any, after: Any) -> None:
        """Write a line of history."""
        line = {"kind": kind, "table": table, "row": row, "field": field, "before": before, "after": after}
        self.connection.execute(insert(Revision), [self._line | line])
        self.changed = True

    def set_value(self, table: str, row: Mapping[str, Any], column: str, value: Any, typed: str = "") -> None:
        """Give a column another value, with the text it was typed as; a refused text is let go of.

        Parameters
        ----------
        table : str
        row : mapping of str to object
            As `find` found it.
        column : str
        value : object
            Of a link, the number of the row it points at.
        typed : str
        """
        texts, draft = dict(row["typed"]), dict(row["draft"])
        old, was = row[column], texts.pop(column, "")
        if typed:
            texts[column] = typed
        draft.pop(column, None)
        of = table_of(table)
        new = {column: value, "typed": texts, "draft": draft}
        self.connection.execute(update(of).where(of.c.id == row["id"]).values(new))
        if column in BODIES:
            there, back = difference(old, value)
            self.write("set", table, row["uid"], column, back, there)
        else:
            self.write("set", table, row["uid"], column, self._told(column, old, was), self._told(column, value, typed))

    def _told(self, column: str, value: Any, typed: str) -> Any:
        if column in LINKS and value is not None:
            value = self.links.uid(LINKS[column], value)
        return with_text(plain(value), typed)

    def note_texts(self, table: str, row: Mapping[str, Any], typed: dict[str, str], draft: dict[str, str]) -> None:
        """Keep how a value was typed, and what was refused: neither is a version."""
        if (typed, draft) == (row["typed"], row["draft"]):
            return
        of = table_of(table)
        self.connection.execute(update(of).where(of.c.id == row["id"]).values(typed=typed, draft=draft))
        self.noted = True

    def set_setting(self, path: str, value: Any, typed: str = "", draft: str = "", *, forget: bool = False) -> None:
        """Give a setting a value; with a draft only the refused text is kept.

        Parameters
        ----------
        path : str
        value : object
            As JSON keeps it.
        typed, draft : str
        forget : bool
            Whether one of a session that is emptied counts as never set.
        """
        of, row = table_of("setting"), self.setting(path)
        if draft:
            self._keep_draft(path, row, draft)
            return
        made = {"value": value, "typed": {"value": typed} if typed else {}, "draft": {}}
        stays = of_session(path) and not forget
        if value is None and row is not None and not stays:  # as if it had never been set
            self.connection.execute(delete(of).where(of.c.id == row["id"]))
        elif row is not None:
            self.connection.execute(update(of).where(of.c.id == row["id"]).values(made))
        elif value is not None or stays:
            self._new_setting(path, made)
        before = with_text(row["value"], row["typed"].get("value", "")) if row is not None else None
        self.write("set", "setting", self.owner.uid, path, before, with_text(value, typed))

    def _keep_draft(self, path: str, row: Mapping[str, Any] | None, draft: str) -> None:
        of, kept = table_of("setting"), {"value": draft}
        if row is None:
            self._new_setting(path, {"value": None, "typed": {}, "draft": kept})
        else:
            self.connection.execute(update(of).where(of.c.id == row["id"]).values(draft=kept))
        self.noted = True

    def _new_setting(self, path: str, values: Mapping[str, Any]) -> None:
        made = {**values, "athlete_id": self.owner.id, "key": path, "uid": new_uid()}
        self.connection.execute(insert(table_of("setting")).values(made))

    def add(self, documents: Iterable[Document]) -> list[str]:
        """Add rows, parents first.

        Parameters
        ----------
        documents : iterable of dict
            As `rows.to_document` writes them; those without a uid are given one.

        Returns
        -------
        list of str
            Their uids.
        """
        made = [{"uid": new_uid()} | document for document in documents]
        for start in range(0, len(made), MOST_ROWS):
            part = made[start : start + MOST_ROWS]
            self.insert(part)
            row = part[0]["uid"] if len(part) == 1 else ""
            self.write("add", part[0]["table"], row, "", None, part)
        return [document["uid"] for document in made]

    def insert(self, documents: list[Document]) -> None:
        """Put rows into their tables, without a line of history."""
        start = 0
        while start < len(documents):
            table = str(documents[start]["table"])
            end = start
            while end < len(documents) and documents[end]["table"] == table:
                end += 1
            whose = {"athlete_id": self.owner.id}
            rows = [to_row(document, self.links) | whose for document in documents[start:end]]
            alike: dict[frozenset[str], list[dict[str, Any]]] = {}
            for row in rows:
                alike.setdefault(frozenset(row), []).append(row)
            for group in alike.values():
                self._leads_to_own(group)
                self.connection.execute(insert(table_of(table)), group)
            start = end

    def _leads_to_own(self, rows: list[dict[str, Any]]) -> None:
        """Refuse rows that lead to what is another athlete's."""
        for column in ("ball_id", "comparison_id", "plan_id"):
            wanted = {row[column] for row in rows if row.get(column) is not None}
            of = table_of(LINKS[column])
            mine = self.own(of) | of.c.athlete_id.is_(None) if column == "ball_id" else self.own(of)
            if wanted - set(self.connection.scalars(select(of.c.id).where(of.c.id.in_(wanted), mine))):
                raise GoneError(f"A row leads to a {LINKS[column]} of somebody else.")

    def remove(self, table: str, uid: str) -> None:
        """Take a row out, with all that belongs to it.

        Parameters
        ----------
        table : str
        uid : str

        Raises
        ------
        GoneError
            If it is not there.
        """
        of, row = table_of(table), self.find(table, uid)
        documents = [{"id": row["id"]} | to_document(table, row, self.links)]
        if table in CHILDREN:
            child, column = CHILDREN[table]
            below = table_of(child)
            found = select(below).where(below.c[column] == row["id"]).order_by(below.c.position, below.c.id)
            children = all_rows(self.connection, found)
            documents += [{"id": one["id"]} | to_document(child, one, self.links) for one in children]
        self.connection.execute(delete(of).where(of.c.id == row["id"]))
        self.write("remove", table, row["uid"], "", documents, None)

    def next_position(self, table: str, column: str = "", parent: int | None = None) -> int:
        """The place after the last of a list."""
        of = table_of(table)
        found = select(func.max(of.c.position)).where(self.own(of))
        if column:
            found = found.where(of.c[column] == parent)
        last = self.connection.execute(found).scalar()
        return 0 if last is None else int(last) + 1

    def restored(self, table: str, row: Mapping[str, Any], column: str, kept: Any) -> tuple[Any, str]:
        """The value and typed text of what a line of history kept of a field.

        Parameters
        ----------
        table : str
        row : mapping of str to object
            As it is now.
        column : str
        kept : object

        Returns
        -------
        object
        str
        """
        if column in BODIES:
            return patched(row[column], kept), ""
        value, typed = from_text(kept)
        if column in LINKS:
            return (None if value is None else self.links.number(LINKS[column], value)), typed
        if column in MOMENTS:
            return (None if value is None else datetime.fromisoformat(value)), typed
        path = f"{table}.{column}"
        if path in UNTYPED:
            return value, typed
        field = field_of(path, row)
        return (value := from_kept(field, value)), typed if field.says(typed, value) else ""
