"""Taking a document in: what it has more than the records is added, and what differs is told; twice adds nothing.

A row is known again by its uid, or, where it was entered anew, by all its values. Nothing here is overwritten unless a
person says that the file's values are to be taken.
"""

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, select

from app.records.document import CHILDREN, LISTS, AthleteIn, BallIn
from app.records.history import CALLED
from app.records.rows import Document as RowDocument
from app.records.rows import Links, all_rows, counted, first_row, table_of, to_document
from app.records.tables import new_uid

BESIDE_VALUES = ("uid", "table", "typed", "draft", "position")
COUNTED = {"measures": ("row of measures", "rows of measures")}
OWN_FIELDS = ("sex", "handedness", "still_growing")
SAME_BALL_KG, SAME_BALL_M = 5e-5, 5e-4
"""Balls that differ by less are one."""


@dataclass(frozen=True)
class Difference:
    """A field that the file has otherwise.

    Attributes
    ----------
    table, row, column : str
    here, there : object
        As JSON has them: in the records, and in the file.
    """

    table: str
    row: str
    column: str
    here: Any
    there: Any


@dataclass
class Merge:
    """What taking an athlete in comes to.

    Attributes
    ----------
    code : str
        As it will be here.
    uid : str
        Of the athlete here, or to be.
    new : bool
    document : AthleteIn
    adds : list of dict
        Rows to be added, parents first.
    differs : list of Difference
    same : int
        Rows that are there already.
    refused : str
        Why the athlete is not taken; empty if they are.
    notes : list of str
        What else is to be said.
    coming : frozenset of str
        uids here of all athletes that come in with the same file.
    """

    code: str
    uid: str
    new: bool
    document: AthleteIn
    adds: list[RowDocument] = field(default_factory=list)
    differs: list[Difference] = field(default_factory=list)
    same: int = 0
    refused: str = ""
    notes: list[str] = field(default_factory=list)
    coming: frozenset[str] = frozenset()

    @property
    def counts(self) -> str:
        """What will be added, in words."""
        found = Counter(one["table"] for one in self.adds)
        return ", ".join(counted(number, *COUNTED.get(table, CALLED[table])) for table, number in found.items())


def ball_map(
    connection: Connection, balls: Iterable[BallIn], own: BallIn | None, athlete: int | None
) -> tuple[dict[str, str], list[RowDocument], RowDocument | None]:
    """Find the balls of a file here.

    Parameters
    ----------
    connection : Connection
    balls : iterable of BallIn
        The team's in the file.
    own : BallIn or None
        The athlete's in the file.
    athlete : int or None
        Number of the athlete here; None for a new one.

    Returns
    -------
    dict of str to str
        uids in the file → here.
    list of dict
        Balls that the team here lacks.
    dict or None
        The own ball, where the athlete here has none.
    """
    of = table_of("ball")
    here = all_rows(connection, select(of).where(of.c.athlete_id.is_(None)).order_by(of.c.id))
    found: dict[str, str] = {}
    lacking: list[RowDocument] = []
    links = Links(connection)

    def place(ball: BallIn) -> None:
        known = next((one for one in here if one["uid"] == ball.uid), None) or next(
            (one for one in here if _same_ball(one, ball)), None
        )
        if known is not None:
            found[ball.uid] = known["uid"]
            return
        document = ball.model_dump(mode="json", exclude_none=True) | {"table": "ball"}
        document["uid"] = free_uids(connection, "ball", [ball.uid])[ball.uid]
        found[ball.uid] = document["uid"]
        lacking.append(document)
        here.append(dict.fromkeys(of.c.keys()) | document)

    for ball in balls:
        place(ball)
    if own is None:
        return found, lacking, None
    mine = None
    if athlete is not None:
        mine = first_row(connection, select(of).where(of.c.athlete_id == athlete))
    if mine is None:
        document = own.model_dump(mode="json", exclude_none=True) | {"table": "ball"}
        document["uid"] = free_uids(connection, "ball", [own.uid])[own.uid]
        found[own.uid] = document["uid"]
        return found, lacking, document
    if mine["uid"] == own.uid or _same_ball(mine, own):
        found[own.uid] = mine["uid"]
        links.learn("ball", mine["id"], mine["uid"])
    else:
        place(own)  # readings with it keep their mass
    return found, lacking, None


def _same_ball(here: Mapping[str, Any], there: BallIn) -> bool:
    if here["mass_kg"] is None or there.mass_kg is None:
        return False
    diameters = [one for one in (here["diameter_m"], there.diameter_m) if one is not None]
    alike = len(diameters) < 2 or abs(diameters[0] - diameters[1]) < SAME_BALL_M
    return alike and abs(here["mass_kg"] - there.mass_kg) < SAME_BALL_KG


def free_uids(connection: Connection, table: str, uids: Sequence[str]) -> dict[str, str]:
    """Give each uid itself, or a new one where a row here has it."""
    of, taken = table_of(table).c, set[str]()
    for start in range(0, len(uids), 500):
        part = uids[start : start + 500]
        taken |= set(connection.execute(select(of.uid).where(of.uid.in_(part))).scalars())
    return {uid: new_uid() if uid in taken else uid for uid in uids}


def renamed(value: Any, names: Mapping[str, str]) -> Any:
    """Put other uids in the place of some, wherever they stand."""
    if isinstance(value, dict):
        return {key: renamed(one, names) for key, one in value.items()}
    if isinstance(value, list):
        return [renamed(one, names) for one in value]
    return names.get(value, value) if isinstance(value, str) else value


def flat(document: AthleteIn) -> list[RowDocument]:
    """The rows of an athlete's document, parents first; children say whose they are."""
    made: list[RowDocument] = []
    for name, table in LISTS.items():
        for row in getattr(document, name):
            parent: RowDocument = row.model_dump(mode="json", exclude_none=True) | {"table": table}
            if table not in CHILDREN:
                made.append(parent)
                continue
            below, child = CHILDREN[table]
            children = parent.pop(below, [])
            made.append(parent)
            made += [one | {"table": child, table: parent["uid"]} for one in children]
    return made


def rows_here(connection: Connection, athlete: int) -> list[RowDocument]:
    """An athlete's rows as they are here, in the shape of `flat`."""
    links = Links(connection)
    for table in ("ball", "athlete"):
        links.learn_all(table)
    made: list[RowDocument] = []
    for table in ("measures", "reading", "reference", "comparison", "throw", "limits", "plan", "session_log"):
        made += _documents(connection, table, athlete, links)
    for table in ("stop_sign", "note", "setting"):
        made += _documents(connection, table, athlete, links)
    return made


def _documents(connection: Connection, table: str, athlete: int, links: Links) -> list[RowDocument]:
    of = table_of(table)
    rows = all_rows(connection, select(of).where(of.c.athlete_id == athlete).order_by(of.c.id))
    for row in rows:
        links.learn(table, row["id"], row["uid"])
    return [to_document(table, row, links) for row in rows]


def signature(row: Mapping[str, Any]) -> str:
    """What tells a row from others, where its uid does not: its values."""
    return json.dumps({key: one for key, one in row.items() if key not in BESIDE_VALUES}, sort_keys=True)


def compare(merge: Merge, here: Sequence[RowDocument], there: Sequence[RowDocument]) -> None:
    """Find what the file's rows are to the rows here.

    Parameters
    ----------
    merge : Merge
        Gets rows to add, differences, and the number of rows that are there already.
    here, there : sequence of dict
        As `rows_here` and `flat` have them, with the balls' uids of here.
    """
    by_uid = {row["uid"]: row for row in here}
    by_key = {(row["table"], row["key"]): row for row in here if "key" in row}
    parents = [row for row in there if row["table"] in CHILDREN]
    names: dict[str, str] = {}
    named = {row["uid"] for row in there}
    spare = Counter((row["table"], signature(_whole(row, here))) for row in here if row["uid"] not in named)
    for row in parents:  # a comparison or a plan that was entered anew is known by all that is in it
        if row["uid"] not in by_uid:
            whole = signature(_whole(row, there))
            twin = next(
                (one for one in here if one["table"] == row["table"] and signature(_whole(one, here)) == whole), None
            )
            if twin is not None:
                names[row["uid"]] = twin["uid"]
    for row in there:
        known = by_uid.get(row["uid"]) or by_key.get((row["table"], row.get("key")))
        if known is not None and known["table"] == row["table"]:
            _differences(merge, known, row)
        elif row["uid"] in names or any(row.get(parent) in names for parent in CHILDREN):
            merge.same += 1
        elif spare[row["table"], signature(_whole(row, there))] > 0:
            spare[row["table"], signature(_whole(row, there))] -= 1
            merge.same += 1
        else:
            merge.adds.append(row)


def _whole(row: RowDocument, rows: Sequence[RowDocument]) -> RowDocument:
    """A row with its children's values in the place of its own links to them."""
    if row["table"] not in CHILDREN:
        return row
    _, child = CHILDREN[row["table"]]
    children = [one for one in rows if one["table"] == child and one.get(row["table"]) == row["uid"]]
    inside = [{key: one for key, one in each.items() if key not in (*BESIDE_VALUES, row["table"])} for each in children]
    places = {each["uid"]: place for place, each in enumerate(children)}
    own = {key: places.get(one, one) if key in ("reference", "headline") else one for key, one in row.items()}
    return own | {"children": inside}


def _differences(merge: Merge, here: RowDocument, there: RowDocument) -> None:
    merge.same += 1
    for column in {**here, **there}:
        if column in ("uid", "table", "typed", "draft") or column in CHILDREN:
            continue
        if here.get(column) != there.get(column):
            found = Difference(here["table"], here["uid"], column, here.get(column), there.get(column))
            merge.differs.append(found)


def own_fields(merge: Merge, here: Mapping[str, Any]) -> None:
    """Compare what an athlete is: what is empty here is filled from the file."""
    for column in OWN_FIELDS:
        there = getattr(merge.document, column)
        if there is not None and there != here[column]:
            merge.differs.append(Difference("athlete", merge.uid, column, here[column], there))
