"""Erasing an athlete for good: out of the tables, the history, the free pages of the file, and every dated copy.

What is deleted from a database stays in its files for a while: in free pages, in the log of the last writes. So after
deleting the log is emptied into the file, the file is written anew, and the log emptied again; each is checked, and
what could not be done (a reader holds the log open) is tried again at the next start.
"""

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Connection, insert, inspect, text

from app.records.backup import SET_ASIDE, copies_of
from app.records.engine import BUSY_S, Database
from app.records.faults import GoneError, LockedError, RecordsError, telling
from app.records.history import CALLED
from app.records.place import Place
from app.records.rows import counted
from app.records.schema_copy import schema_copies
from app.records.store import Store
from app.records.tables import Base, Chore

ERASED = "erased"
"""The chore of sweeping up; its detail is the athlete's uid."""

MINE = ("athlete_id", "thrower_id")
TYPED = ("note", "comparison", "plan", "session_log", "lesson", "ball", "stop_sign", "setting", "revision")
"""Tables in which somebody may have typed a code."""

LEFT_BY_FILE = (
    "Files that were exported, printed sheets and calendars are not reached from here.",
    "Copies that this machine makes of its disk may still hold it, and so may freed blocks of the disk, until they are "
    "overwritten.",
)
LEFT_BY_SERVER = (
    "Files that were exported, printed sheets and calendars are not reached from here.",
    "The server may still hold it in its write-ahead log and the archive of that, in replicas, in dumps and backups, "
    "and in its log of statements, until they are overwritten or deleted: ask whoever runs it.",
)


@dataclass(frozen=True)
class Erased:
    """What was erased.

    Attributes
    ----------
    code : str
        As it was.
    rows : int
        How many rows went.
    copies : int
        How many dated copies it was taken out of.
    swept : bool
        Whether the files hold nothing of it any more; else the next start tries again.
    left : tuple of str
        In sentences: what may still be somewhere, and what a person can do about it.
    """

    code: str
    rows: int
    copies: int
    swept: bool
    left: tuple[str, ...]


def erase(store: Store, athlete: str) -> Erased:
    """Erase an athlete for good. This cannot be taken back.

    Parameters
    ----------
    store : Store
    athlete : str
        uid.

    Returns
    -------
    Erased

    Raises
    ------
    GoneError
        If there is no such athlete.
    RecordsError
        If the database did not take it; then nothing was erased.
    """
    database = store.database
    with database.writing() as connection:
        code = connection.execute(text("SELECT code FROM athlete WHERE uid = :uid"), {"uid": athlete}).scalar()
        if code is None:
            raise GoneError("This athlete was erased.")
        rows = _delete(connection, athlete)
        connection.execute(insert(Chore), [{"what": ERASED, "detail": athlete}])
        left = [*(LEFT_BY_SERVER if database.place.on_server else LEFT_BY_FILE), *_typed_elsewhere(connection, code)]
    copies, troubles = _sweep(database, athlete)
    return Erased(code, rows, copies, not troubles, (*troubles, *left))


def finish(database: Database, tell: Callable[[str], None]) -> None:
    """Do again what an erasure could not finish.

    Parameters
    ----------
    database : Database
    tell : callable
        Is told what still could not be done.
    """
    with database.reading() as connection:
        found = connection.execute(text("SELECT detail FROM chore WHERE what = :what"), {"what": ERASED})
        athletes = list(dict.fromkeys(found.scalars()))
    for athlete in athletes:
        for trouble in _sweep(database, athlete)[1]:
            tell(trouble)


def _delete(connection: Connection, athlete: str, schema: str | None = None) -> int:
    """Delete an athlete's rows, and the lines of others' history that hold something of them; how many rows."""
    look, prefix = inspect(connection), f'"{schema}".' if schema else ""
    known = {"athlete": athlete}
    number = connection.execute(text(f"SELECT id FROM {prefix}athlete WHERE uid = :athlete"), known).scalar()  # noqa: S608
    if number is None:
        return 0
    _delete_lines(connection, athlete, number, prefix)
    gone = 0
    for table in reversed(Base.metadata.sorted_tables):
        if not look.has_table(table.name, schema=schema):
            continue
        columns = {one["name"] for one in look.get_columns(table.name, schema=schema)}
        mine = [f"{name} = :number" for name in MINE if name in columns]
        if table.name == "lesson" or not mine:
            continue
        where = f'{prefix}"{table.name}" WHERE {" OR ".join(mine)}'
        gone += connection.execute(text(f"DELETE FROM {where}"), {"number": number}).rowcount  # noqa: S608
    connection.execute(text(f"UPDATE {prefix}lesson SET athlete_id = NULL WHERE athlete_id = :n"), {"n": number})  # noqa: S608
    connection.execute(text(f"DELETE FROM {prefix}athlete WHERE uid = :athlete"), known)  # noqa: S608
    return gone + 1


def _delete_lines(connection: Connection, athlete: str, number: int, prefix: str) -> None:
    """Delete lines of other athletes' history that hold throws of this one, and let them know by a new version."""
    whose = f"SELECT uid FROM {prefix}throw WHERE thrower_id = :number AND athlete_id <> :number"  # noqa: S608
    throws = set(connection.execute(text(whose), {"number": number}).scalars())
    asked = (
        f'SELECT id, athlete_id, "row", before, after FROM {prefix}revision '  # noqa: S608
        "WHERE athlete_id <> :number AND \"table\" IN ('throw', 'comparison')"
    )
    lines = [row._asdict() for row in connection.execute(text(asked), {"number": number})]
    for line in lines:
        listed = [one for side in ("before", "after") for one in _documents(line[side])]
        throws |= {str(one["uid"]) for one in listed if one.get("thrower") == athlete}
        if athlete in (_plain(line["before"]), _plain(line["after"])):
            throws.add(line["row"])
    for line in lines:
        listed = [one for side in ("before", "after") for one in _documents(line[side])]
        if line["row"] in throws or any(one.get("uid") in throws for one in listed):
            connection.execute(text(f"DELETE FROM {prefix}revision WHERE id = :id"), {"id": line["id"]})  # noqa: S608
    if throws:
        grown = f"UPDATE {prefix}athlete SET version = version + 1 WHERE id = :id"  # noqa: S608
        for other in {line["athlete_id"] for line in lines if line["row"] in throws}:
            connection.execute(text(grown), {"id": other})


def _plain(kept: Any) -> Any:
    """What a column of JSON holds, however the database hands it over."""
    try:
        return json.loads(kept) if isinstance(kept, str) else kept
    except ValueError:  # a text that was handed over already read
        return kept


def _documents(kept: Any) -> Iterator[Mapping[str, Any]]:
    kept = _plain(kept)
    if isinstance(kept, list):
        yield from (one for one in kept if isinstance(one, dict))


def _typed_elsewhere(connection: Connection, code: str) -> list[str]:
    """Where somebody typed the code by hand: that is not found by whose row it is."""
    if len(code) < 2:  # would be found everywhere
        return []
    escaped = {one.replace("!", "!!").replace("%", "!%").replace("_", "!_") for one in (code, json.dumps(code)[1:-1])}
    found = []
    for name in TYPED:
        table = Base.metadata.tables[name]
        texts = [one.name for one in table.columns if str(one.type).split("(")[0] in ("TEXT", "VARCHAR", "JSON")]
        like = [f"CAST(\"{one}\" AS TEXT) LIKE :code{i} ESCAPE '!'" for one in texts for i in range(len(escaped))]
        asked = text(f'SELECT count(*) FROM "{name}" WHERE {" OR ".join(like)}')  # noqa: S608
        count = connection.execute(asked, {f"code{i}": f"%{one}%" for i, one in enumerate(escaped)}).scalar()
        if count:
            found.append(counted(count, *CALLED.get(name, ("line of history", "lines of history"))))
    if not found:
        return []
    return [f"The code {code} still stands in {', '.join(found)} of others or of the team, as somebody typed it there."]


def _sweep(database: Database, athlete: str) -> tuple[int, list[str]]:
    """Write the files anew, and erase an athlete from every copy; of how many, and what could not be done."""
    troubles: list[str] = []
    copies = 0
    try:
        write_anew(database)
    except RecordsError as error:
        troubles.append(f"The file could not be written anew yet: {error} The next start tries again.")
    try:
        copies = _erase_from_schemas(database, athlete) if database.place.on_server else 0
    except RecordsError as error:
        troubles.append(f"The dated copies on the server could not be changed yet: {error} The next start tries again.")
    if not database.place.on_server:
        for place in copies_beside(database.place):
            try:
                copies += _erase_from_copy(place, athlete)
            except RecordsError as error:
                troubles.append(f"The dated copy {place.file} could not be changed: {error} If need be, delete it.")
    if not troubles:
        with database.writing() as connection:
            done = text("DELETE FROM chore WHERE what = :what AND detail = :athlete")
            connection.execute(done, {"what": ERASED, "athlete": athlete})
    return copies, troubles


def copies_beside(place: Place) -> list[Place]:
    """The dated copies of a file, and what was set aside when one was put back, each as a place of its own."""
    names = [one.name for one in copies_of(place)]
    if place.backups.is_dir():
        names += sorted(one.name for one in place.backups.glob(f"{SET_ASIDE}*.sqlite3"))
    return [replace(place, folder=place.backups, name=name) for name in names]


def _erase_from_copy(place: Place, athlete: str) -> bool:
    database = Database(place, BUSY_S)
    try:
        with database.writing() as connection:
            gone = _delete(connection, athlete)
        write_anew(database)
    finally:
        database.close()
    return gone > 0


def _erase_from_schemas(database: Database, athlete: str) -> int:
    changed = 0
    for copy in schema_copies(database):
        with database.writing() as connection:
            changed += _delete(connection, athlete, copy.name) > 0
        write_anew(database, copy.name)
    return changed


def write_anew(database: Database, schema: str = "public") -> None:
    """Write all tables anew, so that nothing deleted stays in their free room, and empty the log of the last writes.

    Parameters
    ----------
    database : Database
    schema : str
        Of a server.

    Raises
    ------
    RecordsError
        If somebody holds them open.
    """
    with database.plainly() as connection:
        if database.place.on_server:
            there = set(inspect(connection).get_table_names(schema=schema)) & set(Base.metadata.tables)
            for name in sorted(there):
                connection.execute(text(f'VACUUM (FULL, ANALYZE) "{schema}"."{name}"'))
            return
        connection.exec_driver_sql("PRAGMA temp_store = MEMORY")  # no copy of it in a temporary file
        _empty_log(database, connection)
        with telling(database.place.words):
            connection.exec_driver_sql("VACUUM")
        _empty_log(database, connection)


def _empty_log(database: Database, connection: Connection) -> None:
    busy, _, _ = connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)").one()
    if busy:
        raise LockedError(f"{database.place.words} is being read by another program.")
