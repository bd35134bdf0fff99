"""The history of an athlete's records: who changed what, when, from what to what; and all of it in words."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select

from app.records.acts import Hand
from app.records.differences import from_text
from app.records.field_list import field_of, from_kept
from app.records.rows import REVISION, Document, Links, all_rows, counted, history_of, link_name, table_of, to_document
from app.records.store import Store
from app.records.tables import KEPT
from app.records.writer import BODIES, Writer, find_owner
from app.units.systems import METRIC, System
from model.checks import InputError

CALLED = {
    "athlete": ("athlete", "athletes"),
    "measures": ("measures", "measures"),
    "ball": ("ball", "balls"),
    "reading": ("reading", "readings"),
    "reference": ("reference throw", "reference throws"),
    "comparison": ("comparison", "comparisons"),
    "throw": ("throw", "throws"),
    "limits": ("limit", "limits"),
    "plan": ("plan", "plans"),
    "session_log": ("session", "sessions"),
    "stop_sign": ("stop sign", "stop signs"),
    "note": ("note", "notes"),
    "setting": ("choice", "choices"),
    "lesson": ("teaching session", "teaching sessions"),
}
"""What a row of each table is called, and several."""

MODES = {"do": "", "undo": "Taken back: ", "redo": "Done again: ", "stay": ""}
MADE_OF = {
    "measures": ("day",),
    "ball": ("name", "mass_kg"),
    "reading": ("speed_m_s", "ball", "day"),
    "reference": ("speed_m_s", "day"),
    "comparison": ("name",),
    "throw": ("mass_kg", "number"),
    "plan": ("name",),
    "session_log": ("day",),
    "stop_sign": ("sign", "since"),
    "note": ("day",),
    "lesson": ("name",),
}
"""By which fields a row is told from others, in words."""


TO_THROWS = ("comparison.reference", "comparison.headline")
"""Fields that hold the uid of a throw."""


@dataclass(frozen=True)
class Line:
    """One change.

    Attributes
    ----------
    version : int
    at : datetime
    by, tab : str
        Initials, if any were given; and the tab.
    mode : str
        do, undo or redo.
    kind : str
        set, add or remove.
    table, field : str
        The column's name, or the path of a setting; empty where rows were added or removed.
    before, after : object
        Value in SI and typed text of a field; None for a body.
    row : mapping or None
        The row, as far as it is still known.
    rows : int
        How many rows were added or removed.
    others : mapping of str to mapping
        The balls, athletes and throws that rows point at, by uid.
    """

    version: int
    at: datetime
    by: str
    tab: str
    mode: str
    kind: str
    table: str
    field: str
    before: tuple[Any, str]
    after: tuple[Any, str]
    row: Mapping[str, Any] | None
    rows: int
    others: Mapping[str, Mapping[str, Any]]


def history(store: Store, owner: str, most: int = 200, until: int | None = None) -> tuple[Line, ...]:
    """What was done, the newest first.

    Parameters
    ----------
    store : Store
    owner : str
        uid of an athlete, or TEAM.
    most : int
        Of so many lines at most.
    until : int, optional
        Only before this version: the next page of the list.

    Returns
    -------
    tuple of Line

    Raises
    ------
    GoneError
        If there is no such athlete.
    """
    of = REVISION
    with store.database.reading() as connection:
        found = find_owner(connection, owner)
        asked = select(of).where(history_of(found.id)).order_by(of.c.version.desc(), of.c.id.desc()).limit(most)
        if until is not None:
            asked = asked.where(of.c.version < until)
        lines = all_rows(connection, asked)
        rows = _rows(connection, lines)
        named = _others(connection, Writer(connection, found, Hand()))
    return tuple(_line(line, rows, named) for line in lines)


def _others(connection: Connection, reader: Writer) -> dict[str, Document]:
    balls, athletes = table_of("ball").c, table_of("athlete").c
    made: dict[str, Document] = {}
    for ball in all_rows(connection, select(balls.uid, balls.name, balls.mass_kg, balls.typed)):
        made[ball["uid"]] = ball | {"table": "ball"}
    for uid, code in connection.execute(select(athletes.uid, athletes.code)):
        made[uid] = {"table": "athlete", "code": code}
    for throw in reader.all_of("throw") if reader.owner.id is not None else ():
        made[throw["uid"]] = throw | {"table": "throw"}
    return made


def _rows(connection: Connection, lines: Sequence[Mapping[str, Any]]) -> dict[str, Document]:
    """The rows that lines speak of: as they are, or as they were when they were removed."""
    made: dict[str, Document] = {}
    for line in reversed(lines):
        for side in ("before", "after"):
            if line["kind"] in ("add", "remove") and isinstance(line[side], list):
                made |= {one["uid"]: one for one in line[side] if "uid" in one}
    links = Links(connection)
    for table in KEPT:
        uids = {line["row"] for line in lines if line["table"] == table and line["row"]}
        if uids and table not in ("setting", "athlete"):
            of = table_of(table)
            found = all_rows(connection, select(of).where(of.c.uid.in_(uids)))
            made |= {row["uid"]: to_document(table, row, links) for row in found}
    return made


def _line(line: Mapping[str, Any], rows: Mapping[str, Document], others: Mapping[str, Document]) -> Line:
    listed = line["after"] if line["kind"] == "add" else line["before"]
    count = listed.get("rows", 1) if isinstance(listed, dict) else len(listed) if isinstance(listed, list) else 0
    one = line["kind"] != "set" and isinstance(listed, list) and listed
    row = listed[0] if one else rows.get(line["row"])
    plain = line["kind"] != "set" or line["field"] in BODIES
    told: dict[str, Any] = {
        name: line[name] for name in ("version", "at", "by", "tab", "mode", "kind", "table", "field")
    }
    sides: dict[str, Any] = {side: (None, "") if plain else from_text(line[side]) for side in ("before", "after")}
    return Line(**told, **sides, row=row, rows=count if line["kind"] != "set" else 1, others=others)


def in_words(line: Line, system: System = METRIC) -> str:
    """Say a change in a sentence, without its time.

    Parameters
    ----------
    line : Line
    system : System

    Returns
    -------
    str
        Such as "Body mass: 84 kg, then 85 kg (measures of 2026-05-12)".
    """
    one, many = CALLED[line.table]
    if line.kind != "set":
        what = _called(line, system) if line.rows == 1 else f"{counted(line.rows, one, many)}"
        said = f"{what} {'added' if line.kind == 'add' else 'removed'}"
    elif line.field in BODIES:
        said = f"{_called(line, system)} changed"
    elif line.field == "archived_at":
        said = f"{_called(line, system)} {'archived' if line.after[0] else 'taken out of the archive'}"
    else:
        label, before, after = _values(line, system)
        of = "" if line.table in ("athlete", "setting") else _called(line, system, but=link_name(line.field))
        of = "" if of == label else of.removeprefix(label.lower()).strip()
        said = f"{label}: {before}, then {after}{f' ({of})' if of else ''}"
    said = MODES[line.mode] + said
    return said[0].upper() + said[1:]


def who_and_when(line: Line, own_tab: str = "") -> str:
    """Say who changed it and when, by the clock of this machine: "2026-05-12 14:05, AB"."""
    who = line.by or _signed(line) or ("you, in this tab" if own_tab and line.tab == own_tab else "no initials given")
    return f"{line.at.astimezone():%Y-%m-%d %H:%M}, {who}"


def _signed(line: Line) -> str:
    """The initials under what was signed: a stop sign, or what was noted of a session."""
    row = line.row or {}
    if line.table == "session_log":
        return str((row.get("body") or {}).get("by") or "")
    return str(row.get(f"{(line.field or 'entered_by').partition('_')[0]}_by") or "")


def _values(line: Line, system: System) -> tuple[str, str, str]:
    name = link_name(line.field)
    path = name if line.table == "setting" else f"{line.table}.{name}"
    try:
        field = field_of(path, line.row)
    except InputError:
        return name.replace("_", " "), str(line.before[0]), str(line.after[0])
    if field.to == "session_log":
        named = ["one of them" if value else "none" for value, _ in (line.before, line.after)]
        return field.label, named[0], named[1]
    if field.kind == "link" or field.path in TO_THROWS:
        return field.label, _other(line.before[0], line, system), _other(line.after[0], line, system)
    usual = field.default if line.table == "setting" else None  # stands where it was never set
    kept = [(usual if value is None else from_kept(field, value), typed) for value, typed in (line.before, line.after)]
    said = [field.told(value, typed, system) for value, typed in kept]
    return field.label, said[0], said[1]


def _other(uid: Any, line: Line, system: System) -> str:
    if not uid:
        return "none"
    found = line.others.get(uid)
    if found is None:
        return "one that is there no longer"
    if found["table"] == "athlete":
        return str(found["code"])
    joined = " at " if found["table"] == "throw" else " "
    return joined.join(_parts(found, MADE_OF[found["table"]], line, system)) or f"a {found['table']}"


def _parts(row: Mapping[str, Any], names: Iterable[str], line: Line, system: System) -> list[str]:
    table, said = str(row.get("table", line.table)), []
    for name in names:
        value = row.get(name)
        if value in (None, ""):
            continue
        if name == "ball":
            said.append(_other(value, line, system))
            continue
        field = field_of(f"{table}.{name}", row)
        typed = row.get("typed", {}).get(name, "")
        said.append(
            value if field.kind == "text" and not field.choices else field.told(from_kept(field, value), typed, system)
        )
    return said


def _called(line: Line, system: System, but: str = "") -> str:
    one, _ = CALLED[line.table]
    if line.row is None or line.table == "athlete":
        return one
    if line.table == "limits":
        return field_of("limits.amount", line.row).label
    names = [name for name in MADE_OF.get(line.table, ()) if name != but]
    return f"{one} {', '.join(_parts(line.row, names, line, system))}".strip()
