"""What goes out and comes in as a file, by addresses of its own: a file may be larger than a page's questions."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from flask import Flask, Response, abort, request
from werkzeug.exceptions import RequestEntityTooLarge

from app.bind.visit import ATHLETE, hand_of, the_store
from app.csv_files import LARGEST_BYTES, TableError, read_stream
from app.pages.keeping.desk import Brought, Desk
from app.pages.keeping.preview import KNOWN, can_take, preview_html, uses_in
from app.records.acts import TEAM
from app.records.arriving import Said, look_at, take
from app.records.csv_readings import readings_table
from app.records.csv_sessions import sessions_table
from app.records.document import ExchangeError
from app.records.faults import RecordsError
from app.records.field_list import field_of
from app.records.fields import in_words
from app.records.looking import Choices
from app.records.outgoing import export
from app.records.store import Store
from model.checks import InputError

TOKEN = re.compile(r"[0-9a-f-]{8,40}")
AROUND_BYTES = 64 * 1024  # what a form needs beside the file
OUT, IN = "/records/out", "/records/in"
Writer = Callable[[Store, str | None], Iterator[str]]

OUTGOING: Mapping[str, tuple[str, Writer]] = {
    "records.json": ("application/json", export),
    "readings.csv": ("text/csv; charset=utf-8", readings_table),
    "sessions.csv": ("text/csv; charset=utf-8", sessions_table),
}


def register(server: Flask) -> None:
    """Give the addresses to the server."""
    desk = Desk()
    server.add_url_rule(f"{OUT}/<name>", "records_out", send)
    for name, does in (("bring", _bring), ("look", _look), ("take", _take), ("leave", _leave)):
        server.add_url_rule(f"{IN}/{name}", f"records_{name}", _on(desk, does), methods=["POST"])
    server.add_url_rule(f"{IN}/progress", "records_progress", lambda: {"words": desk.progress(_token(request.args))})


def send(name: str) -> Response:
    """Write the records, or those of one athlete, as a file to be kept."""
    if name not in OUTGOING:
        abort(404, "There is no such file.")
    kind, write = OUTGOING[name]
    store, code = the_store(), request.args.get(ATHLETE) or None
    if code is not None and store.find(code) is None:
        abort(404, "There is no athlete of that code.")
    stem, ending = name.split(".")
    whose = f"_{re.sub(r'[^A-Za-z0-9_-]', '-', code)}" if code else ""
    called = f"levelpeak_{stem}{whose}_{date.today()}.{ending}"
    told = {"Content-Disposition": f'attachment; filename="{called}"', "Cache-Control": "no-store"}
    return Response(_bytes(write(store, code)), headers={"Content-Type": kind, **told})


def _bytes(parts: Iterable[str]) -> Iterator[bytes]:
    return (part.encode() for part in parts)


Does = Callable[[Desk, str], dict[str, Any]]


def _on(desk: Desk, does: Does) -> Callable[[], dict[str, Any]]:
    def answer() -> dict[str, Any]:
        request.max_content_length = LARGEST_BYTES + AROUND_BYTES
        try:
            return does(desk, _token(request.form))
        except RequestEntityTooLarge:
            abort(413, f"The file is too large; accepted: up to {LARGEST_BYTES // 2**20} MB, in several files.")

    return answer


def _token(given: Mapping[str, str]) -> str:
    token = given.get("token", "")
    if not TOKEN.fullmatch(token):
        abort(400, "This request has another shape than a page's own.")
    return token


def _bring(desk: Desk, token: str) -> dict[str, Any]:
    """Lay a file on the desk and look at it; it is held in a temporary file while it comes."""
    file = request.files.get("file")
    if file is None:
        abort(400, "No file was sent.")
    try:
        data = read_stream(file.stream)
    except TableError as error:
        abort(413, f"{error}.")
    finally:
        file.close()
    brought = Brought((file.filename or "file")[:100], data)
    desk.put(token, brought)
    return _looked(desk, token, brought)


def _look(desk: Desk, token: str) -> dict[str, Any]:
    """Look again, with what somebody has said of the file."""
    brought = _found(desk, token)
    trouble = ""
    try:
        brought.said = said_in(request.form, brought)
    except InputError as error:
        trouble = in_words(error)
    return _looked(desk, token, brought, trouble)


def _looked(desk: Desk, token: str, brought: Brought, trouble: str = "") -> dict[str, Any]:
    def progress(done: int, of: int) -> None:
        desk.tell(token, f"Reading rows: {done} of {of}")

    try:
        brought.found = look_at(the_store(), brought.data, brought.said, date.today(), progress)
    except (ExchangeError, TableError) as error:
        brought.found, trouble = None, trouble or str(error)
    except RecordsError as error:
        abort(503, str(error))
    finally:
        desk.tell(token, "")
    return {"html": preview_html(brought, trouble.rstrip(".")), "can_take": can_take(brought)}


def _take(desk: Desk, token: str) -> dict[str, Any]:
    """Keep what the file brings."""
    brought = _found(desk, token)
    if brought.found is None:
        abort(409, "There is nothing in it that could be kept.")

    def progress(done: int, of: int) -> None:
        desk.tell(token, f"Keeping: {done} of {of}")

    try:
        added = take(
            the_store(), brought.found, hand_of({"tab": request.form.get("tab", "")}, None, None, TEAM), progress
        )
    except RecordsError as error:
        abort(503, str(error))
    finally:
        desk.tell(token, "")
    desk.drop(token)
    return {"said": f"{brought.name}: {added} {'entry' if added == 1 else 'entries'} added."}


def _leave(desk: Desk, token: str) -> dict[str, Any]:
    """Put the file away: nothing of it is kept."""
    desk.drop(token)
    return {"said": "Nothing was kept of the file."}


def _found(desk: Desk, token: str) -> Brought:
    brought = desk.find(token)
    if brought is None:
        abort(410, "The file lies here no longer: choose it again.")
    return brought


def said_in(form: Mapping[str, str], brought: Brought) -> Said:
    """What a form says of a file.

    Parameters
    ----------
    form : mapping of str to str
        By the names that `preview_html` gives to the fields.
    brought : Brought

    Returns
    -------
    Said

    Raises
    ------
    InputError
        If a code or a day is not accepted.
    """
    code, day = form.get("athlete", "").strip(), form.get("day", "").strip()
    if code:
        code = field_of("athlete.code").parse(code).value
    columns = dict(brought.said.columns)
    for place, use in enumerate(uses_in(brought)):
        meaning = form.get(f"meaning:{place}", use.meaning)
        unit = form.get(f"unit:{place}", use.unit)
        if (meaning, unit) != (use.meaning, use.unit) and (meaning in KNOWN or not meaning):
            units = KNOWN[meaning].units if meaning else ()
            columns[use.header] = meaning, unit if unit in units else next(iter(units), "")
    codes = {name[3:]: text.strip() for name, text in form.items() if name.startswith("as:") and text.strip()}
    same = frozenset(name[5:] for name in form if name.startswith("same:"))
    choices = Choices(codes, same, form.get("take_file") == "yes")
    read = field_of("reading.day").parse(day).value if day else None
    return replace(brought.said, code=code, day=read, columns=columns, choices=choices)
