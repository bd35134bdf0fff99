"""Taking a document in, once a person has said so: all of it in one transaction."""

from collections.abc import Callable, Mapping

from sqlalchemy import Connection, insert, select, update

from app.records.acts import TEAM, Hand
from app.records.differences import difference
from app.records.document import Document, LineIn
from app.records.looking import Coming, coming_of
from app.records.merging import Difference, Merge, ball_map, renamed
from app.records.rows import TEAM as TEAM_TABLE
from app.records.rows import Document as RowDocument
from app.records.rows import table_of
from app.records.store import Store
from app.records.tables import LINKS, TEAM_ID, Revision
from app.records.writer import BODIES, Writer, lock_owner


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
        now = coming_of(connection, store, coming.document, coming.choices, coming.by_code)
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
    values = {"version": version - (not changed)}
    if fresh and document.whole:
        values = {"version": document.team.version, "compacted": document.team.compacted}
        _lines(connection, None, document.team.history, {})
    connection.execute(update(TEAM_TABLE).where(TEAM_TABLE.c.id == TEAM_ID).values(values))


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
    column = f"{one.column}_id" if f"{one.column}_id" in LINKS else one.column
    if column in BODIES:
        if difference(row[column], one.there) != ([], []):
            writer.set_value(one.table, row, column, one.there)
        return
    value, _ = writer.restored(one.table, row, column, one.there)
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
