"""A document on its way in: first what would come of it; then, once a person has said so, all of it at once."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from sqlalchemy import Connection, insert, select, update

from app.records.acts import TEAM, Hand
from app.records.differences import difference
from app.records.document import AthleteIn, Document, LineIn
from app.records.field_list import field_of, from_kept
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
from app.records.rows import counted, table_of
from app.records.store import Store
from app.records.tables import TEAM_ID, Revision, Team, new_uid
from app.records.writer import BODIES, Writer, lock_owner
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
        return _coming(connection, store, document, choices or Choices(), by_code)


def _coming(connection: Connection, store: Store, document: Document, choices: Choices, by_code: bool) -> Coming:
    lacking: dict[str, RowDocument] = {}
    _, balls, _ = ball_map(connection, document.team.balls if document.whole else (), None, None)
    lacking |= {one["uid"]: one for one in balls}
    made = []
    for one in document.athletes:
        merge, more = _merge(connection, store, one, document, choices, by_code)
        made.append(merge)
        if not merge.refused:
            lacking |= {ball["uid"]: ball for ball in more if ball["uid"] not in lacking}
    lessons = _lessons(connection, document)
    return Coming(document, choices, tuple(made), tuple(lacking.values()), tuple(lessons), by_code)


def _lessons(connection: Connection, document: Document) -> list[RowDocument]:
    of = table_of("lesson").c
    known = {uid: (name, body) for uid, name, body in connection.execute(select(of.uid, of.name, of.body))}
    there = [one for one in document.team.lessons if one.uid not in known]
    there = [one for one in there if (one.name, one.body) not in list(known.values())]
    return [one.model_dump(mode="json", exclude_none=True) | {"table": "lesson"} for one in there]


def _merge(
    connection: Connection, store: Store, one: AthleteIn, document: Document, choices: Choices, by_code: bool
) -> tuple[Merge, list[RowDocument]]:
    of = table_of("athlete")
    code = choices.codes.get(one.code, one.code)
    merge = Merge(code, one.uid, True, one)
    by_uid = connection.execute(select(of).where(of.c.uid == one.uid)).mappings().first()
    named = connection.execute(select(of).where(of.c.code == code)).mappings().first()
    here = by_uid if code == one.code or (by_uid and by_uid["code"] == code) else None
    said = one.code in choices.same or code in choices.same
    if named is not None and (here is None or said):
        if not (by_code or said):
            merge.refused = ALREADY.format(code=code)
            return merge, []
        here = named
    try:
        field_of("athlete.code").check(code)
    except InputError as error:
        merge.refused = str(error)
        return merge, []
    merge.refused = _never_mixed(store, one, here)
    if merge.refused:
        return merge, []
    number = None if here is None else here["id"]
    names, balls, own = ball_map(connection, document.team.balls, one.own_ball, number)
    needed = _uids(one)
    balls = [
        ball for ball in balls if document.whole or any(uid in needed for uid, to in names.items() if to == ball["uid"])
    ]
    if here is not None:
        merge.uid, merge.new, merge.code = here["uid"], False, here["code"]
        own_fields(merge, here)
    elif by_uid is not None:
        merge.uid = new_uid()  # a copy of an athlete who is here under another code
    rows = renamed(_known_throwers(connection, merge, flat(one), document), names)
    if own is not None:
        merge.adds.append(own)
    if here is None:
        merge.adds += _free(connection, rows)
    else:
        rows = [row for row in rows if not (by_code and row["table"] in ("measures", "reference"))]
        compare(merge, rows_here(connection, here["id"]), rows)
        merge.adds = _free(connection, merge.adds)
    return merge, balls


def _never_mixed(store: Store, one: AthleteIn, here: Mapping[str, Any] | None) -> str:
    if here is not None and here["invented"] != one.invented:
        return "one of the two is invented and the other is not: take it in under another code"
    if store.invented and not one.invented:
        return "these are the records of the demo, in which no real athlete is kept"
    return ""


def _uids(one: AthleteIn) -> set[str]:
    rows = [*one.readings, *one.references]
    found = {row.ball for row in rows if row.ball} | {
        str(row.value) for row in one.settings if row.key.endswith("_ball")
    }
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


def _known_throwers(
    connection: Connection, merge: Merge, rows: list[RowDocument], document: Document
) -> list[RowDocument]:
    """Leave out throws of somebody who is neither in the file nor here."""
    wanted = {row["thrower"] for row in rows if row.get("thrower")}
    of = table_of("athlete").c
    known = set(connection.execute(select(of.uid).where(of.uid.in_(wanted))).scalars()) if wanted else set()
    known |= {one.uid for one in document.athletes}
    unknown = [row for row in rows if row.get("thrower") and row["thrower"] not in known]
    if unknown:
        merge.notes.append(f"{counted(len(unknown), 'throw')} of another athlete left out")
    return [row for row in rows if not row.get("thrower") or row["thrower"] in known]


def _free(connection: Connection, rows: list[RowDocument]) -> list[RowDocument]:
    """Give rows other uids where a row here has theirs, and all that speaks of them too."""
    names: dict[str, str] = {}
    for table in dict.fromkeys(row["table"] for row in rows):
        found = free_uids(connection, table, [row["uid"] for row in rows if row["table"] == table])
        names |= {old: new for old, new in found.items() if old != new}
    return [renamed(row, names) for row in rows] if names else rows


def take_in(store: Store, coming: Coming, hand: Hand, progress: Callable[[int, int], None] | None = None) -> Coming:
    """Take a document in: all of it in one transaction, or nothing.

    Parameters
    ----------
    store : Store
    coming : Coming
        As `look_through` found it; it is looked through again, for others may have written in the meantime.
    hand : Hand
    progress : callable, optional
        Is told how many athletes of how many are done.

    Returns
    -------
    Coming
        What came of it.

    Raises
    ------
    RecordsError
        If the database did not take it; then nothing was changed.
    """
    with store.database.writing() as connection:
        team = lock_owner(connection, TEAM)
        now = _coming(connection, store, coming.document, coming.choices, coming.by_code)
        document, fresh = now.document, team.version == 1
        taken = [one for one in now.athletes if not one.refused]
        writer = Writer(connection, team, hand)
        if now.balls:
            _team_rows(writer, list(now.balls), document, fresh)
        for one in taken:
            if one.new:
                _new_athlete(connection, one)
        for place, one in enumerate(taken):
            _fill(connection, one, document, hand, coming.choices.take_file)
            if progress is not None:
                progress(place + 1, len(taken))
        if now.lessons:
            _team_rows(writer, list(now.lessons), document, fresh)
        _team_version(connection, team.version, document, fresh, writer.changed)
    return now


def _team_rows(writer: Writer, rows: list[RowDocument], document: Document, fresh: bool) -> None:
    whose = {one["uid"]: one.pop("athlete", None) for one in rows}
    if fresh and document.whole:
        writer.insert(rows)
    else:
        writer.add(rows)
    of, athletes = table_of("lesson"), table_of("athlete").c
    for uid, athlete in whose.items():
        if athlete:
            number = select(athletes.id).where(athletes.uid == athlete).scalar_subquery()
            writer.connection.execute(update(of).where(of.c.uid == uid).values(athlete_id=number))


def _team_version(connection: Connection, version: int, document: Document, fresh: bool, changed: bool) -> None:
    """Where nothing was here before, the team's history comes along; where nothing was changed, its version stays."""
    team, values = Team.__table__, {"version": version - (not changed)}
    if fresh and document.whole:
        values = {"version": document.team.version, "compacted": document.team.compacted}
        _lines(connection, None, document.team.history, {})
    connection.execute(update(team).where(team.c.id == TEAM_ID).values(values))


def _new_athlete(connection: Connection, merge: Merge) -> None:
    one = merge.document
    names = ("sex", "handedness", "still_growing", "invented", "archived_at", "opened_at", "created", "typed", "draft")
    values = {name: getattr(one, name) for name in names}
    made = values | {"uid": merge.uid, "code": merge.code, "version": one.version, "compacted": one.compacted}
    connection.execute(insert(table_of("athlete")), [made])


def _fill(connection: Connection, merge: Merge, document: Document, hand: Hand, take_file: bool) -> None:
    one = merge.document
    if merge.new:
        owner = lock_owner(connection, merge.uid)
        writer = Writer(connection, owner, hand)
        writer.insert(merge.adds)
        names, _, _ = ball_map(connection, document.team.balls, one.own_ball, owner.id)
        copied = merge.uid != one.uid or merge.code != one.code
        if not copied:
            _lines(connection, owner.id, one.history, names)
        version = one.version if one.history and not copied else max(1, one.version)
        of = table_of("athlete")
        connection.execute(update(of).where(of.c.id == owner.id).values(version=version))
        return
    differs = (
        merge.differs
        if take_file
        else [each for each in merge.differs if each.here is None and each.table == "athlete"]
    )
    if not merge.adds and not differs:
        return
    writer = Writer(connection, lock_owner(connection, merge.uid), hand)
    if merge.adds:
        writer.add(merge.adds)
    for each in differs:
        _take(writer, each)


def _take(writer: Writer, one: Difference) -> None:
    """Put the file's value in the place of the one here."""
    if one.table == "stop_sign":
        return  # signed here: what is said elsewhere does not change it
    if one.table == "setting":
        row = writer.find("setting", one.row)
        if one.column == "value":
            writer.set_setting(row["key"], one.there)
        return
    row = writer.find(one.table, one.row)
    column = f"{one.column}_id" if one.column in ("ball", "thrower", "plan", "comparison") else one.column
    if column in BODIES and difference(row[column], one.there) == ([], []):
        return
    if column.endswith("_id"):
        value = (
            writer.links.number("athlete" if one.column == "thrower" else one.column, one.there) if one.there else None
        )
    elif column == "archived_at":
        value = writer.restored(one.table, row, column, one.there)[0]
    else:
        field = field_of(f"{one.table}.{one.column}", row)
        value = from_kept(field, one.there)
        if value is None and not table_of(one.table).c[column].nullable:
            value = ""
    writer.set_value(one.table, row, column, value)


def _lines(connection: Connection, athlete: int | None, lines: list[LineIn], names: Mapping[str, str]) -> None:
    made = []
    for line in lines:
        values = line.model_dump() | {"athlete_id": athlete}
        values |= {side: renamed(values[side], names) for side in ("before", "after")}
        made.append(values)
    for start in range(0, len(made), 500):
        connection.execute(insert(Revision), made[start : start + 500])
