"""Sessions that were thrown as a table (CSV): out, and in with a look at what would come of each row.

What a session holds beside its day is the matter of the plan's page. The table has a column for each of `KNOWN`, in the
units of their names, and, for all else that a session holds, a column `body.…` with its value as JSON: so whatever was
written comes in again unchanged.
"""

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Any

from sqlalchemy import Connection, select

from app.csv_files import csv_line
from app.records.acts import Hand
from app.records.csv_columns import (
    FORMULA,
    Meaning,
    Progress,
    Use,
    cell,
    needed,
    no_progress,
    number_text,
    read_table,
    uses_of,
)
from app.records.csv_owners import INVENTED, Owners
from app.records.csv_verdicts import LINE_END, Looked, owner_and_day, read_rows, verdicts_of
from app.records.rows import Document, table_of
from app.records.store import Store
from app.units.conversion import to_si
from model.checks import InputError

BODY, WHOLE = "body.", "body"
Path = tuple[str, ...]

MEANINGS = (
    Meaning("athlete", "Athlete", ("athlete", "code"), "athlete.code"),
    Meaning("plan", "Plan", ("plan",), "plan.name"),
    Meaning("position", "Place in the plan", ("position",), "session_log.position"),
    Meaning("day", "Day", ("day", "date"), "session_log.day"),
    Meaning("data", "Data", ("data",), "note.text"),
)


@dataclass(frozen=True)
class Known:
    """A column of what a session holds.

    Attributes
    ----------
    column : str
    path : tuple of str
        Where it stands in the session.
    unit : str
        Of a number; empty for a text.
    whole : bool
    """

    column: str
    path: Path
    unit: str = ""
    whole: bool = False


KNOWN = (
    Known("throws", ("throws",), "throws", whole=True),
    Known("planned", ("planned",), "throws", whole=True),
    Known("ball_mass_g", ("ball", "mass_kg"), "g"),
    Known("ball_diameter_mm", ("ball", "diameter_m"), "mm"),
    Known("speed_m_s", ("speed_m_s",), "m/s"),
    Known("top_speed_m_s", ("top_speed_m_s",), "m/s"),
    Known("decision", ("decision",)),
    Known("by", ("by",)),
    Known("role", ("role",)),
    Known("note", ("note",)),
)
LARGEST = 1e6
"""Of any number; a plan's page says what it accepts of a session."""


@dataclass(frozen=True)
class SessionRow:
    """A row that was read."""

    row: int
    code: str
    plan: str
    position: int
    day: date
    body: Mapping[str, Any]
    data: str | None


@dataclass(frozen=True)
class SessionPreview(Looked):
    """What would come of a table of sessions; `rows` are those that could be read."""

    rows: tuple[SessionRow, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in sentences."""
        return tuple(self.told("session"))


def preview_sessions(
    store: Store,
    data: bytes,
    *,
    said: Mapping[str, tuple[str, str]] = MappingProxyType({}),
    code: str = "",
    progress: Progress = no_progress,
) -> SessionPreview:
    """See what would come of a table of sessions; nothing is changed. See `csv_readings.preview_readings`."""
    table = read_table(data)
    known = {one.column: one for one in KNOWN}
    uses = uses_of(table.columns, MEANINGS, said)
    uses = [
        Use(use.header, use.header)
        if not use.meaning and (use.header in (*known, WHOLE) or use.header.startswith(BODY))
        else use
        for use in uses
    ]
    needed(uses, [("day",), *([] if code else [("athlete",)])], MEANINGS)
    read, refused = read_rows(table, lambda row, cells: _read(row, cells, uses, code), progress)
    with store.database.reading() as connection:
        owners = Owners(connection, store)
        taken, documents, more = _sort(connection, owners, read)
    refused |= more
    verdicts = verdicts_of(len(table.rows), taken, refused)
    kept = tuple(one for one in read if one.row not in refused)
    new = tuple(code for code in owners.new if documents.get(code))
    return SessionPreview(tuple(uses), verdicts, new, kept)


def _read(row: int, cells: list[str], uses: list[Use], code: str) -> SessionRow:
    meanings, known = {one.key: one for one in MEANINGS}, {one.column: one for one in KNOWN}
    values: dict[str, Any] = {}
    body: dict[str, Any] = {}
    for text, use in zip(cells, uses, strict=True):
        if use.meaning in meanings:
            values[use.meaning] = cell(text, use, meanings[use.meaning])[0]
        elif use.meaning in known and text.strip():
            _put(body, known[use.meaning].path, _value(text, known[use.meaning]))
        elif use.meaning == WHOLE and text.strip():
            body |= _json(text, use.header)
        elif use.meaning.startswith(BODY) and text.strip():
            _put(body, tuple(use.meaning.removeprefix(BODY).split(".")), _json(text, use.header))
    whose, day = owner_and_day(values, code)
    position = values.get("position")
    return SessionRow(row, whose, values.get("plan") or "", int(position or 0), day, body, values.get("data"))


def _value(text: str, known: Known) -> Any:
    given = FORMULA.sub("", text.strip(), count=1)
    if not known.unit:
        return given
    number = given.replace(",", ".")
    try:
        value = to_si(float(number), known.unit)
    except ValueError:
        raise InputError(known.column, given, "a number") from None
    if not 0.0 <= value <= LARGEST or (known.whole and value != int(value)):
        raise InputError(known.column, given, "a whole number" if known.whole else "a number that is not negative")
    return int(value) if known.whole else value


def _json(text: str, header: str) -> Any:
    try:
        return json.loads(FORMULA.sub("", text.strip(), count=1))
    except ValueError:
        raise InputError(header, text, "a value as JSON writes it") from None


def _put(body: dict[str, Any], path: Path, value: Any) -> None:
    for key in path[:-1]:
        inner = body.setdefault(key, {})
        if not isinstance(inner, dict):
            raise InputError(".".join(path), value, "a column that does not contradict another")
        body = inner
    body[path[-1]] = value


def _sort(
    connection: Connection, owners: Owners, rows: list[SessionRow]
) -> tuple[set[int], dict[str, list[Document]], dict[int, str]]:
    """Numbers of the rows that are new here, their documents by code, and why others are refused."""
    taken: set[int] = set()
    refused: dict[int, str] = {}
    documents: dict[str, list[Document]] = {}
    here: dict[str, Counter[str]] = {}
    plans: dict[str, dict[str, str]] = {}
    for one in rows:
        trouble = owners.trouble(one.code, one.data)
        if trouble:
            refused[one.row] = trouble
            continue
        if one.code not in here:
            here[one.code], plans[one.code] = _known(connection, owners.numbers.get(one.code))
        plan = plans[one.code].get(one.plan) if one.plan else None
        if one.plan and plan is None:
            refused[one.row] = f"Plan: “{one.plan}” given; accepted: the name of a plan of this athlete."
            continue
        key = _key(plan, one.day, one.body)
        if here[one.code][key] > 0:
            here[one.code][key] -= 1
            continue
        taken.add(one.row)
        made: Document = {"table": "session_log", "position": one.position, "day": one.day.isoformat()}
        made |= {"body": dict(one.body)} | ({"plan": plan} if plan else {})
        documents.setdefault(one.code, []).append(made)
    return taken, documents, refused


def _known(connection: Connection, athlete: int | None) -> tuple[Counter[str], dict[str, str]]:
    if athlete is None:
        return Counter(), {}
    log, plan = table_of("session_log").c, table_of("plan").c
    rows = connection.execute(select(plan.id, plan.name, plan.uid).where(plan.athlete_id == athlete)).all()
    uids = {row.id: row.uid for row in rows}
    found = connection.execute(select(log.plan_id, log.day, log.body).where(log.athlete_id == athlete))
    kept = Counter(_key(uids.get(number), day, body) for number, day, body in found)
    return kept, {row.name: row.uid for row in rows}


def _key(plan: str | None, day: date, body: Mapping[str, Any]) -> str:
    return json.dumps([plan, day.isoformat(), _alike(body)], sort_keys=True)


def _alike(value: Any) -> Any:
    """The same for 33 and 33.0."""
    if isinstance(value, dict):
        return {key: _alike(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_alike(one) for one in value]
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value


def take_sessions(store: Store, preview: SessionPreview, hand: Hand, progress: Progress = no_progress) -> int:
    """Keep the sessions of a table, all of them in one transaction, or none; see `csv_readings.take_readings`."""
    with store.database.writing() as connection:
        owners = Owners(connection, store)
        _, documents, _ = _sort(connection, owners, list(preview.rows))
        if not documents:
            return 0
        writers = owners.hold(documents, hand)
        for done, (code, made) in enumerate(documents.items(), start=1):
            writers[code].add(made)
            progress(done, len(documents))
    return sum(map(len, documents.values()))


def sessions_table(store: Store, code: str | None = None) -> Iterator[str]:
    """Write the sessions that were thrown as a table.

    Parameters
    ----------
    store : Store
    code : str, optional
        Of one athlete; without, of all.

    Yields
    ------
    str
        The line of names, then one for each session: UTF-8 as RFC 4180 has it.
    """
    log, plan, athlete = (table_of(name) for name in ("session_log", "plan", "athlete"))
    joined = log.join(athlete, athlete.c.id == log.c.athlete_id).outerjoin(plan, plan.c.id == log.c.plan_id)
    found = select(athlete.c.code, athlete.c.invented, plan.c.name, log.c.position, log.c.day, log.c.body)
    found = found.select_from(joined).order_by(athlete.c.id, log.c.day, log.c.id)
    if code is not None:
        found = found.where(athlete.c.code == code)
    with store.database.reading() as connection:
        rows = connection.execute(found).all()
    flat = [dict(_flat(row.body)) for row in rows]
    columns = [one.column for one in KNOWN]
    columns += [name for name in dict.fromkeys(name for one in flat for name in one) if name not in columns]
    yield csv_line(["athlete", "plan", "position", "day", *columns, "data"]) + LINE_END
    for row, texts in zip(rows, flat, strict=True):
        head = [row.code, row.name or "", str(row.position), row.day.isoformat()]
        mark = INVENTED if row.invented else ""
        yield csv_line([*head, *(texts.get(name, "") for name in columns), mark]) + LINE_END


def _flat(body: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Columns and texts of a session; where a name has a point in it, all of it stands in one column."""
    if not body or any("." in key for key in body):
        yield WHOLE, json.dumps(body, ensure_ascii=False)
        return
    for key, value in body.items():
        yield from _leaves((key,), value)


def _leaves(path: Path, value: Any) -> Iterator[tuple[str, str]]:
    known = next((one for one in KNOWN if one.path == path), None)
    if known is not None and _fits(value, known):
        yield known.column, _told(value, known)
    elif isinstance(value, dict) and value and all("." not in key for key in value):
        for key, one in value.items():
            yield from _leaves((*path, key), one)
    else:
        yield BODY + ".".join(path), json.dumps(value, ensure_ascii=False)


def _fits(value: Any, known: Known) -> bool:
    if not known.unit:
        return isinstance(value, str) and bool(value) and value == value.strip()
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return 0 <= value <= LARGEST and (isinstance(value, int) or not known.whole)


def _told(value: Any, known: Known) -> str:
    if not known.unit:
        return f"'{value}" if FORMULA.match(value) else str(value)  # one apostrophe is taken off again
    return str(value) if known.whole else number_text(value, known.unit)
