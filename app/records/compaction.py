"""History that takes up little room: old lines are drawn together, one for each field and day.

The last `KEPT_VERSIONS` versions stay as they are and can be taken back. Of what is older, the lines of one field and
one day become one, from the value before the first to the value after the last; who wrote it last stays known. Rows
that were added or removed keep their line; of many rows at once only their number stays.
"""

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, delete, select, update

from app.records.rows import REVISION, all_rows, history_of
from app.records.writer import BODIES, Owner, owner_row

KEPT_VERSIONS = 200
EVERY = 100
"""Versions after which it is looked through again."""


def compact(connection: Connection, owner: Owner, kept: int = KEPT_VERSIONS) -> int:
    """Draw old lines together.

    Parameters
    ----------
    connection : Connection
        Of a transaction that holds the owner.
    owner : Owner
    kept : int
        How many of the last versions stay as they are.

    Returns
    -------
    int
        How many lines were let go of.
    """
    until = owner.version - kept
    if until <= owner.compacted:
        return 0
    of = REVISION
    old = select(of).where(history_of(owner.id), of.c.version <= until).order_by(of.c.version, of.c.id)
    last: dict[tuple[str, str, str], dict[str, Any]] = {}
    first: dict[tuple[str, str, str], Any] = {}
    gone: list[int] = []
    for line in all_rows(connection, old):
        if line["kind"] != "set":
            _shorten(connection, line)
            continue
        key = (line["row"], line["field"], line["at"].date().isoformat())
        if key in last:
            gone.append(last[key]["id"])
        else:
            first[key] = line["before"]
        last[key] = line
    for key, line in last.items():
        made: dict[str, Any] = {"mode": "do", "of": None}
        if line["field"] in BODIES:  # parts of a body cannot be laid on one another: that it changed is all that stays
            made |= {"before": None, "after": None}
        elif line["before"] != first[key]:
            made["before"] = first[key]
        connection.execute(update(of).where(of.c.id == line["id"]).values(made))
    for start in range(0, len(gone), 500):
        connection.execute(delete(of).where(of.c.id.in_(gone[start : start + 500])))
    table, where = owner_row(owner.uid)
    connection.execute(update(table).where(where).values(compacted=until))
    owner.compacted = until
    return len(gone)


def _shorten(connection: Connection, line: Mapping[str, Any]) -> None:
    of = REVISION
    made: dict[str, Any] = {"mode": "do", "of": None}
    for side in ("before", "after"):
        rows = line[side]
        if isinstance(rows, list) and len(rows) > 1:
            made[side] = {"rows": len(rows)}
        elif isinstance(rows, list):
            made[side] = [{key: one for key, one in row.items() if key != "body"} for row in rows]
    if len(made) > 2 or line["mode"] != "do":
        connection.execute(update(of).where(of.c.id == line["id"]).values(made))
