"""A document on its way in: what would come of it. Nothing is changed here."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from sqlalchemy import Connection, select

from app.records.document import AthleteIn, Document, LineIn
from app.records.field_list import field_of
from app.records.history import CALLED
from app.records.merging import (
    Difference,
    Merge,
    ball_map,
    compare,
    flat,
    free_uids,
    own_fields,
    renamed,
    rows_here,
)
from app.records.rows import Document as RowDocument
from app.records.rows import counted, first_row, table_of
from app.records.store import Store
from app.records.tables import new_uid
from model.checks import InputError

NO_NAMES: Mapping[str, str] = MappingProxyType({})
ALREADY = (
    "the code {code} is another athlete’s here: take this one in under another code, or say that both are the same"
)


@dataclass(frozen=True)
class Choices:
    """What a person has said of a document that comes in.

    Attributes
    ----------
    codes : mapping of str to str
        Codes in the file → those to be used here.
    same : frozenset of str
        Codes of athletes who were entered here and there by themselves, and are the same.
    take_file : bool
        Whether a field that differs is to be as the file has it; else it stays as it is here.
    """

    codes: Mapping[str, str] = field(default_factory=lambda: NO_NAMES)
    same: frozenset[str] = frozenset()
    take_file: bool = False


@dataclass(frozen=True)
class Coming:
    """What would come of a document.

    Attributes
    ----------
    document : Document
    choices : Choices
    athletes : tuple of Merge
    balls : tuple of dict
        Balls that the team here lacks.
    lessons : tuple of dict
        Teaching sessions that it lacks.
    by_code : bool
        Whether the file knows athletes by their codes alone, as older ones do.
    """

    document: Document
    choices: Choices
    athletes: tuple[Merge, ...]
    balls: tuple[RowDocument, ...]
    lessons: tuple[RowDocument, ...]
    by_code: bool = False

    @property
    def refused(self) -> tuple[str, ...]:
        """Who is not taken, and why."""
        return tuple(f"{one.document.code}: {one.refused}." for one in self.athletes if one.refused)

    @property
    def adds(self) -> int:
        """How many rows would be added, athletes among them."""
        taken = [one for one in self.athletes if not one.refused]
        rows = sum(len(one.adds) + one.new for one in taken)
        return rows + len(self.balls) + len(self.lessons)

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in sentences."""
        said = [_told(one, self.choices.take_file) for one in self.athletes]
        if self.balls:
            said.append(f"{counted(len(self.balls), 'ball')} of the team added.")
        if self.lessons:
            said.append(f"{counted(len(self.lessons), 'teaching session')} added.")
        return tuple(said) or ("There is nothing in it.",)


def _told(one: Merge, take_file: bool) -> str:
    mark = " (invented)" if one.document.invented else ""
    if one.refused:
        return f"{one.document.code}{mark}: not taken, {one.refused}."
    said = [f"{one.code}{mark}: {'a new athlete' if one.new else 'is here already'}"]
    said.append(f"added: {one.counts}" if one.adds else "nothing to be added")
    if one.differs:
        kept = "as the file has it" if take_file else "kept as it is here"
        named = ", ".join(dict.fromkeys(_field_called(each) for each in one.differs[:6]))
        said.append(f"{counted(len(one.differs), 'field')} differing ({named}), {kept}")
    return "; ".join([*said, *one.notes]) + "."


def _field_called(one: Difference) -> str:
    if one.table == "setting":
        return "a choice"
    try:
        return field_of(f"{one.table}.{one.column}").label.lower()
    except InputError:
        return CALLED[one.table][0]


def look_through(store: Store, document: Document, choices: Choices | None = None, by_code: bool = False) -> Coming:
    """See what would come of a document; nothing is changed.

    Parameters
    ----------
    store : Store
    document : Document
    choices : Choices, optional
    by_code : bool
        Whether athletes are known by their codes alone.

    Returns
    -------
    Coming
    """
    with store.database.reading() as connection:
        return coming_of(connection, store, document, choices or Choices(), by_code)


def coming_of(connection: Connection, store: Store, document: Document, choices: Choices, by_code: bool) -> Coming:
    """The same inside of a transaction."""
    lacking: dict[str, RowDocument] = {}
    _, balls, _ = ball_map(connection, document.team.balls if document.whole else (), None, None)
    lacking |= {one["uid"]: one for one in balls}
    found = [_who(connection, store, one, choices, by_code) for one in document.athletes]
    people = {merge.document.uid: merge.uid for merge, _ in found if not merge.refused}
    for merge, number in found:
        if not merge.refused:
            merge.coming = frozenset(people.values())
            more = _rows(connection, merge, number, document, people, by_code)
            lacking |= {ball["uid"]: ball for ball in more if ball["uid"] not in lacking}
    lessons = [renamed(one, people) for one in _lessons(connection, document)]
    return Coming(document, choices, tuple(one for one, _ in found), tuple(lacking.values()), tuple(lessons), by_code)


def _lessons(connection: Connection, document: Document) -> list[RowDocument]:
    of = table_of("lesson").c
    known = {uid: (name, body) for uid, name, body in connection.execute(select(of.uid, of.name, of.body))}
    there = [one for one in document.team.lessons if one.uid not in known]
    there = [one for one in there if (one.name, one.body) not in list(known.values())]
    return [one.model_dump(mode="json", exclude_none=True) | {"table": "lesson"} for one in there]


def _who(
    connection: Connection, store: Store, one: AthleteIn, choices: Choices, by_code: bool
) -> tuple[Merge, int | None]:
    """Who an athlete of the file is here, with the number; none for a new one."""
    of = table_of("athlete")
    code = choices.codes.get(one.code, one.code)
    merge = Merge(code, one.uid, True, one)
    by_uid = first_row(connection, select(of).where(of.c.uid == one.uid))
    named = first_row(connection, select(of).where(of.c.code == code))
    here = by_uid if code == one.code or (by_uid and by_uid["code"] == code) else None
    said = one.code in choices.same or code in choices.same
    if named is not None and (here is None or said):
        if not (by_code or said):
            merge.refused = ALREADY.format(code=code)
            return merge, None
        here = named
    try:
        field_of("athlete.code").check(code)
    except InputError as error:
        merge.refused = str(error)
        return merge, None
    merge.refused = _never_mixed(store, one, here)
    if here is not None and not merge.refused:
        merge.uid, merge.new, merge.code = here["uid"], False, here["code"]
        own_fields(merge, here)
    elif by_uid is not None:
        merge.uid = new_uid()  # a copy of an athlete who is here under another code
    return merge, None if here is None else here["id"]


def _rows(
    connection: Connection,
    merge: Merge,
    number: int | None,
    document: Document,
    people: Mapping[str, str],
    by_code: bool,
) -> list[RowDocument]:
    """Find what is to be added and what differs; returned are the balls that the team lacks for it."""
    one = merge.document
    names, balls, own = ball_map(connection, document.team.balls, one.own_ball, number)
    needed = {names.get(uid) for uid in _uids(one)}
    balls = [ball for ball in balls if document.whole or ball["uid"] in needed]
    rows = _known_throwers(connection, merge, renamed(flat(one), names | dict(people)))
    if own is not None:
        merge.adds.append(own)
    if number is None:
        merge.adds += _free(connection, rows)
        return balls
    there = rows_here(connection, number)
    kept = {row["table"] for row in there} if by_code else set()  # an old file's measures are no news
    rows = [row for row in rows if not (row["table"] in kept and row["table"] in ("measures", "reference"))]
    compare(merge, there, rows)
    merge.adds = _free(connection, merge.adds)
    return balls


def _never_mixed(store: Store, one: AthleteIn, here: Mapping[str, Any] | None) -> str:
    if here is not None and here["invented"] != one.invented:
        return "one of the two is invented and the other is not: take it in under another code"
    if store.invented and not one.invented:
        return "these are the records of the demo, in which no real athlete is kept"
    return ""


def _uids(one: AthleteIn) -> set[str]:
    found = {row.ball for row in one.readings if row.ball} | {row.ball for row in one.references if row.ball}
    found |= {str(row.value) for row in one.settings if row.key.endswith("_ball")}
    return found | ({one.own_ball.uid} if one.own_ball else set()) | _in_history(one.history)


def _in_history(lines: list[LineIn]) -> set[str]:
    found: set[str] = set()
    for line in lines:
        for side in (line.before, line.after):
            if isinstance(side, list):
                found |= {str(row["ball"]) for row in side if isinstance(row, dict) and row.get("ball")}
            elif line.field == "ball_id" and isinstance(side, str):
                found.add(side)
    return found


def _known_throwers(connection: Connection, merge: Merge, rows: list[RowDocument]) -> list[RowDocument]:
    """Leave out throws of somebody who is neither in the file nor here."""
    wanted = {row["thrower"] for row in rows if row.get("thrower")}
    if not wanted:
        return rows
    of = table_of("athlete").c
    known = set(connection.execute(select(of.uid).where(of.uid.in_(wanted))).scalars()) | merge.coming
    unknown = sum(bool(row.get("thrower")) and row["thrower"] not in known for row in rows)
    if unknown:
        merge.notes.append(f"{counted(unknown, 'throw')} of another athlete left out")
    return [row for row in rows if not row.get("thrower") or row["thrower"] in known]


def _free(connection: Connection, rows: list[RowDocument]) -> list[RowDocument]:
    """Give rows other uids where a row here has theirs, and all that speaks of them too."""
    names: dict[str, str] = {}
    for table in dict.fromkeys(row["table"] for row in rows):
        found = free_uids(connection, table, [row["uid"] for row in rows if row["table"] == table])
        names |= {old: new for old, new in found.items() if old != new}
    return [renamed(row, names) for row in rows] if names else rows
