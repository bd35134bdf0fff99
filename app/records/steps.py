"""Undo and redo of an athlete's records, from their history: act by act, over days, whoever acted.

A step takes back exactly what one version changed. It is refused where a value has changed since, which can only be
where somebody acted in the meantime. Stop signs are never taken back.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, delete, select
from sqlalchemy.exc import IntegrityError

from app.records.differences import from_text, holds
from app.records.faults import GoneError, RecordsError
from app.records.field_list import DEPENDENT, field_of
from app.records.rows import REVISION, Document, all_rows, history_of, table_of, to_document
from app.records.tables import LINKS, Revision
from app.records.writer import BODIES, MOMENTS, Owner, Writer
from model.checks import InputError

LASTING = ("stop_sign",)
"""Tables whose lines of history are passed over."""

MADE = (Revision.table == "athlete") & (Revision.kind == "add")
"""That an athlete was made: archiving or erasing is another thing than taking that back."""

MOST_STEPS = 2000


class StepError(RecordsError):
    """A step that cannot be taken; the text says why."""


@dataclass(frozen=True)
class Ahead:
    """What a step would do.

    Attributes
    ----------
    version : int
        The version that is taken back, or done again.
    lines : tuple of mapping
        Its lines of history.
    taken : tuple of mapping
        The lines that are turned round: to do again is to take back the undoing.
    """

    version: int
    lines: tuple[Mapping[str, Any], ...]
    taken: tuple[Mapping[str, Any], ...]


def stacks(connection: Connection, owner: Owner) -> tuple[list[int], list[tuple[int, int]]]:
    """Which versions can be taken back, and which done again; the next one last.

    Parameters
    ----------
    connection : Connection
    owner : Owner

    Returns
    -------
    list of int
    list of (int, int)
        The version, and the one that took it back.
    """
    of = REVISION.c
    found = (
        select(of.version, of.mode, of.of)
        .where(history_of(owner.id), of.version > owner.compacted, of.table.not_in(LASTING), ~MADE)
        .distinct()
        .order_by(of.version.desc())
        .limit(MOST_STEPS)
    )
    back: list[int] = []
    again: list[tuple[int, int]] = []
    for version, mode, step in reversed(connection.execute(found).all()):
        if mode == "do":
            back.append(version)
            again.clear()
        elif mode == "undo" and step in back:
            back.remove(step)
            again.append((step, version))
        elif mode == "redo":
            again = [pair for pair in again if pair[0] != step]
            back.append(step)
    return back, again


def lines_of(connection: Connection, owner: Owner, version: int) -> list[Mapping[str, Any]]:
    """The lines of history of a version, in order, but for those that are never taken back."""
    of = REVISION.c
    found = select(REVISION).where(history_of(owner.id), of.version == version, of.table.not_in(LASTING))
    return list(all_rows(connection, found.order_by(of.id)))


def ahead(connection: Connection, owner: Owner, back: bool) -> Ahead | None:
    """What the next step would do; None if there is none."""
    undo, redo = stacks(connection, owner)
    if not (undo if back else redo):
        return None
    version, turned = (undo[-1], undo[-1]) if back else redo[-1]
    lines = tuple(lines_of(connection, owner, version))
    return Ahead(version, lines, lines if back else tuple(lines_of(connection, owner, turned)))


def take(writer: Writer, lines: Iterable[Mapping[str, Any]]) -> None:
    """Turn lines of history round.

    Parameters
    ----------
    writer : Writer
    lines : iterable of mapping
        Of a version, in order.

    Raises
    ------
    StepError
        If a value has changed since, or something that it needs is there no longer.
    """
    try:
        for line in reversed(list(lines)):
            if line["kind"] == "set":
                _set(writer, line, line["after"], line["before"])
            elif line["kind"] == "add":
                _take_out(writer, line["after"] or [])
            else:
                _put_in(writer, line["before"] or [])
    except (InputError, KeyError) as error:
        raise StepError(f"This cannot be taken back: {error}") from error
    except GoneError as error:
        raise StepError(f"This cannot be taken back any more: {error}") from error
    except IntegrityError as error:
        raise StepError(
            "This cannot be taken back any more: something that was entered since depends on it."
        ) from error


def _set(writer: Writer, line: Mapping[str, Any], old: Any, new: Any) -> None:
    if line["table"] == "setting":
        row = writer.setting(line["field"])
        now = None if row is None else row["value"]
        if now != from_text(old)[0]:
            raise StepError(CHANGED)
        writer.set_setting(line["field"], *from_text(new), forget=True)
        return
    row = writer.find(line["table"], line["row"])
    column = line["field"]
    if column in BODIES:
        if not holds(old, row[column]):
            raise StepError(CHANGED)
    elif row[column] != writer.restored(line["table"], row, column, old)[0]:
        raise StepError(CHANGED)
    value, typed = writer.restored(line["table"], row, column, new)
    if line["table"] == "athlete" and column == "code":
        of = table_of("athlete").c
        taken = select(of.id).where(of.code == value, of.id != writer.owner.id)
        if writer.connection.execute(taken).first() is not None:
            raise StepError(f"This cannot be taken back: the code {value} is another athlete’s now.")
    path = f"{line['table']}.{column.removesuffix('_id') if column in LINKS else column}"
    if column not in (*BODIES, *MOMENTS, *LINKS) and path not in DEPENDENT.values():  # those wait for what they hang on
        field_of(path, row).check(value)
    writer.set_value(line["table"], row, column, value, typed)


CHANGED = "This cannot be taken back any more: the value has changed since."


def _take_out(writer: Writer, documents: list[Document]) -> None:
    """Take out rows that were added, as they are now; those that hold others come last."""
    _no_signed_row(documents)
    gone: list[Document] = []
    for start in range(len(documents), 0, -500):
        part = documents[max(0, start - 500) : start]
        for table in reversed(list(dict.fromkeys(one["table"] for one in part))):
            uids = [one["uid"] for one in part if one["table"] == table]
            of = table_of(table)
            own = of.c.uid.in_(uids) & writer.own(of)
            rows = all_rows(writer.connection, select(of).where(own).order_by(of.c.id))
            gone = [{"id": row["id"]} | to_document(table, row, writer.links) for row in rows] + gone
            writer.connection.execute(delete(of).where(own))
    if gone:
        row = gone[0]["uid"] if len(gone) == 1 else ""
        writer.write("remove", gone[0]["table"], row, "", gone, None)


def _put_in(writer: Writer, documents: list[Document]) -> None:
    """Put rows in again that were taken out, under their old uids."""
    _no_signed_row(documents)
    if documents:
        writer.add(documents)


def _no_signed_row(documents: list[Document]) -> None:
    """Refuse what no undo of this program comes to: an athlete, or a stop sign, in a history that came in a file."""
    if any(one["table"] in (*LASTING, "athlete") for one in documents):
        raise StepError(CHANGED)
