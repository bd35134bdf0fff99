"""Any file that is brought: looked at, told what would come of it, and taken in once a person has said so."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any

from app.records.acts import Hand
from app.records.csv_columns import Progress, no_progress, read_table
from app.records.csv_readings import Preview, preview_readings, take_readings
from app.records.csv_sessions import SessionPreview, preview_sessions, take_sessions
from app.records.csv_verdicts import REFUSED
from app.records.document import KIND, Document, ExchangeError, read_document
from app.records.incoming import take_in
from app.records.looking import Choices, Coming, look_through
from app.records.old_files import SESSION_KIND, session_document
from app.records.old_plans import PLAN_KIND, plan_document
from app.records.store import Store

SESSION_COLUMNS = frozenset({"throws", "decision", "body", "plan"})
NOTHING_SAID: Mapping[str, tuple[str, str]] = MappingProxyType({})
Found = Coming | Preview | SessionPreview


@dataclass(frozen=True)
class Said:
    """What a person says of a file.

    Attributes
    ----------
    code : str
        The athlete of rows, or of a plan, that name none.
    day : date or None
        The day of rows that have none.
    columns : mapping of str to (str, str)
        Of a table's columns: key of the meaning, and the unit.
    choices : Choices
        Of a document.
    """

    code: str = ""
    day: date | None = None
    columns: Mapping[str, tuple[str, str]] = field(default_factory=lambda: NOTHING_SAID)
    choices: Choices = field(default_factory=Choices)


def look_at(store: Store, data: bytes, said: Said, today: date, progress: Progress = no_progress) -> Found:
    """See what would come of a file; nothing is changed.

    Parameters
    ----------
    store : Store
    data : bytes
        A document of the records, an older plan or session (JSON), or a table of readings or sessions (CSV).
    said : Said
    today : date
        The day of an older session's readings that have none.
    progress : callable
        Is told how many rows of how many are read.

    Returns
    -------
    Coming, Preview or SessionPreview

    Raises
    ------
    ExchangeError, app.csv_files.TableError
        If it is none of these; the text says why.
    """
    if is_json(data):
        document, by_code = document_of(data, said.code, said.day or today)
        return look_through(store, document, said.choices, by_code)
    columns = {name.lower() for name in read_table(data).columns}
    if columns & SESSION_COLUMNS or any(name.startswith("body.") for name in columns):
        return preview_sessions(store, data, said=said.columns, code=said.code, progress=progress)
    return preview_readings(store, data, said=said.columns, code=said.code, day=said.day, progress=progress)


def is_json(data: bytes) -> bool:
    """Whether a file is a document and no table."""
    return data.removeprefix(b"\xef\xbb\xbf").lstrip()[:1] in (b"{", b"[")


def take(store: Store, found: Found, hand: Hand, progress: Progress = no_progress) -> int:
    """Keep what a file brings, all of it or nothing.

    Parameters
    ----------
    store : Store
    found : Coming, Preview or SessionPreview
    hand : Hand
    progress : callable
        Is told how many of how many are kept.

    Returns
    -------
    int
        How many rows were added.

    Raises
    ------
    RecordsError
        If the database did not take it; then nothing was changed.
    """
    if isinstance(found, Coming):
        return take_in(store, found, hand, progress).adds
    if isinstance(found, SessionPreview):
        return take_sessions(store, found, hand, progress)
    return take_readings(store, found, hand, progress)


def is_whole(found: Found) -> bool:
    """Whether nothing of the file was refused."""
    return not found.refused if isinstance(found, Coming) else not found.count(REFUSED)


def document_of(data: bytes, code: str, today: date) -> tuple[Document, bool]:
    """Read JSON: a document, or an older file, which knows an athlete by the code alone.

    Parameters
    ----------
    data : bytes
    code : str
        Of the athlete of a plan that names none.
    today : date
        The day of readings that have none.

    Returns
    -------
    Document
    bool
        Whether it knows athletes by their codes alone.

    Raises
    ------
    ExchangeError
        If it is none of them.
    """
    try:
        kept: Any = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, ValueError, RecursionError):
        raise ExchangeError("it is no JSON text in UTF-8; accepted: what “levelpeak export” writes") from None
    kind = kept.get("kind") if isinstance(kept, dict) else None
    if kind == KIND:
        return read_document(data), False
    if kind == PLAN_KIND:
        return plan_document(kept, code), True
    if kind == SESSION_KIND:
        return session_document(kept, today), True
    accepted = "a document of the records, a build-up plan or a teaching session"
    raise ExchangeError(f"it is none of the files that can be taken in; accepted: {accepted}, or a table (CSV)")
