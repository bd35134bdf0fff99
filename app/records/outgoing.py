"""The records as one document: everything, or one athlete."""

import json
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, select

from app.records.document import CHILDREN, KIND, LISTS, VERSION
from app.records.faults import GoneError
from app.records.rows import (
    REVISION,
    TEAM,
    Document,
    Links,
    all_rows,
    history_of,
    of_owner,
    plain,
    table_of,
    to_document,
)
from app.records.store import Store
from app.records.tables import TEAM_ID
from app.version import VERSION as MADE_WITH

INDENTED = 3
"""Levels of a document that stand on lines of their own: each row is one line."""


def export(
    store: Store, code: str | None = None, *, history: bool = True, progress: Callable[[int, int], None] | None = None
) -> Iterator[str]:
    """Write the records as a document, part after part.

    Parameters
    ----------
    store : Store
    code : str, optional
        One athlete's; without, everything.
    history : bool
        Whether the history goes along.
    progress : callable, optional
        Is told how many athletes of how many are written.

    Yields
    ------
    str
        JSON.

    Raises
    ------
    GoneError
        If there is no athlete of that code.
    """
    with store.database.reading() as connection:
        athlete = table_of("athlete")
        found = select(athlete).order_by(athlete.c.id)
        rows = all_rows(connection, found if code is None else found.where(athlete.c.code == code))
        if code is not None and not rows:
            raise GoneError(f"There is no athlete with the code “{code}” here.")
        links = Links(connection)
        for table in ("ball", "athlete"):
            links.learn_all(table)
        alone = code is not None
        documents = [_athlete(connection, row, links, history, alone) for row in rows[:1]]
        only = _uids_in(documents[0]) if alone else None
        head = {"kind": KIND, "version": VERSION, "made_with": MADE_WITH, "whole": not alone}
        head["team"] = _team(connection, links, history, only)
        yield f'{_pretty(head)[:-2]},\n "athletes": ['
        for place, row in enumerate(rows):
            document = documents[place] if place < len(documents) else _athlete(connection, row, links, history, alone)
            yield f"{',' if place else ''}\n{_pretty(document, 1, INDENTED)}"
            if progress is not None:
                progress(place + 1, len(rows))
        yield "\n ]\n}\n"


def _athlete(connection: Connection, row: Mapping[str, Any], links: Links, history: bool, alone: bool) -> Document:
    """An athlete's; alone, without the throws of others in comparisons: they are theirs."""
    number = row["id"]
    made = _bare("athlete", row, links)
    own, others = _rows(connection, "ball", number, links), set[str]()
    if own:
        made["own_ball"] = own[0][1]
    for name, table in LISTS.items():
        rows = _rows(connection, table, number, links)
        if table == "session_log":
            rows = [one for one in rows if one[0]["plan_id"] is None]
        documents = [document for _, document in rows]
        if table in CHILDREN:
            below, child = CHILDREN[table]
            parents = {source["id"]: document for source, document in rows}
            for source, document in _rows(connection, child, number, links):
                if alone and source.get("thrower_id") not in (None, number):
                    others.add(document["uid"])
                    continue
                parent = source[f"{table}_id"]
                if parent in parents:
                    document.pop(table, None)
                    parents[parent].setdefault(below, []).append(document)
        if documents:
            made[name] = documents
    if history:
        _with_history(made, connection, number, others if alone else None)
    return made


def _rows(
    connection: Connection, table: str, number: int | None, links: Links
) -> list[tuple[Mapping[str, Any], Document]]:
    of = table_of(table)
    rows = all_rows(connection, select(of).where(of_owner(of, number)).order_by(of.c.id))
    return [(row, _bare(table, row, links)) for row in rows]


def _bare(table: str, row: Mapping[str, Any], links: Links) -> Document:
    if table in ("throw", "session_log"):  # stands in the list of its parent
        row = {**row, "comparison_id": None, "plan_id": None}
    made = to_document(table, row, links)
    made.pop("table")
    return made


def _with_history(made: Document, connection: Connection, number: int | None, others: set[str] | None = None) -> None:
    """Put the history in; with `others` without their throws, also those taken out since."""
    of = REVISION
    lines = all_rows(connection, select(of).where(history_of(number)).order_by(of.c.version, of.c.id))
    if others is not None:
        thrown = [one for line in lines for side in ("before", "after") for one in _listed(line[side])]
        theirs = others | {one["uid"] for one in thrown if one.get("thrower")}
        lines = [line for line in lines if line["row"] not in theirs and not _uids_in(_listed_sides(line)) & theirs]
    told = [_line(line) for line in lines]
    if told:
        made["history"] = told


def _listed(kept: Any) -> list[dict[str, Any]]:
    return [one for one in kept if isinstance(one, dict)] if isinstance(kept, list) else []


def _listed_sides(line: Mapping[str, Any]) -> list[Any]:
    return [_listed(line[side]) for side in ("before", "after")] if line["table"] in ("throw", "comparison") else []


def _line(line: Mapping[str, Any]) -> Document:
    made: Document = {}
    for name, one in line.items():
        if name in ("id", "athlete_id") or one is None or (one == "" and name not in ("before", "after")):
            continue
        made[name] = _without_numbers(one) if isinstance(one, list) else plain(one)
    return made


def _without_numbers(rows: list[Any]) -> list[Any]:
    """Rows without the numbers that they had in this database."""
    return [{key: one for key, one in row.items() if key != "id"} if isinstance(row, dict) else row for row in rows]


def _team(connection: Connection, links: Links, history: bool, only: set[str] | None) -> Document:
    """The team's; for one athlete no more of it than the balls that were thrown."""
    balls = [one for _, one in _rows(connection, "ball", None, links)]
    if only is not None:
        return {"balls": [one for one in balls if one["uid"] in only]}
    lesson = table_of("lesson")
    (row,) = all_rows(connection, select(TEAM).where(TEAM.c.id == TEAM_ID))
    made: Document = {"version": row["version"], "compacted": row["compacted"], "balls": balls, "lessons": []}
    for one in all_rows(connection, select(lesson).order_by(lesson.c.id)):
        whose = {} if one["athlete_id"] is None else {"athlete": links.uid("athlete", one["athlete_id"])}
        made["lessons"].append(_bare("lesson", one, links) | whose)
    if history:
        _with_history(made, connection, None)
    return made


def _uids_in(document: Any) -> set[str]:
    """Every text that stands in a document: what is a row's uid is found among them."""
    found: set[str] = set()

    def look(value: Any) -> None:
        if isinstance(value, dict):
            for one in value.values():
                look(one)
        elif isinstance(value, list):
            for one in value:
                look(one)
        elif isinstance(value, str):
            found.add(value)

    look(document)
    return found


def _pretty(value: Any, depth: int = 0, levels: int = INDENTED) -> str:
    """JSON with a line for each row."""
    if depth >= levels or not isinstance(value, dict | list) or not value:
        return json.dumps(value, ensure_ascii=False)
    inside = " " * (depth + 1)
    if isinstance(value, list):
        rows = ",\n".join(f"{inside}{_pretty(one, depth + 1, levels)}" for one in value)
        return f"[\n{rows}\n{' ' * depth}]"
    parts = ",\n".join(f"{inside}{json.dumps(name)}: {_pretty(one, depth + 1, levels)}" for name, one in value.items())
    return f"{{\n{parts}\n{' ' * depth}}}"
