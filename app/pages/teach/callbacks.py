"""The page's two callbacks beside what is bound: a session is saved as a file, and opened from one."""

import base64
import binascii
from datetime import date
from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import hand_of, visit_again
from app.pages.teach import ids
from app.pages.teach.lessons import LESSON, added, lesson_shown, name_of, session_in
from app.pages.teach.parts import LARGEST_FILE_BYTES
from app.pages.teach.session import Opened, from_file, to_file
from app.records.acts import TEAM
from app.records.document import ExchangeError
from app.records.faults import RecordsError
from app.show import ids as shared_ids


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    here = State(bound.HERE, "data")
    app.callback(Output(ids.TEACH_FILE, "data"), Input(ids.TEACH_SAVE, "n_clicks"), here, prevent_initial_call=True)(
        save
    )
    app.callback(
        Output(ids.TEACH_SAID, "children"),
        Output(ids.TEACH_OPEN, "contents"),
        Input(ids.TEACH_OPEN, "contents"),
        here,
        State(bound.VERSION, "data"),
        prevent_initial_call=True,
    )(open_file)
    # A callback with an output is also asked when its store comes with the page; one without is not.
    told = Output(ids.TEACH_STORY, "modified_timestamp")
    app.clientside_callback(ClientsideFunction("teach", "story"), told, Input(ids.TEACH_STORY, "data"))


def save(clicks: Any, here: Any) -> dict[str, str]:
    """Write the session that is shown as a file."""
    if not clicks:
        raise PreventUpdate  # a button that was just made
    row = lesson_shown(visit_again(here))
    text = to_file(name_of(row), session_in(row)[0])
    return {"content": text, "filename": f"session_{date.today().isoformat()}.json", "type": "application/json"}


def open_file(contents: Any, here: Any, seen: Any) -> tuple[str, None]:
    """Keep the session of a file, and show it."""
    if contents is None:
        raise PreventUpdate
    visit = visit_again(here)
    try:
        opened = read_file(contents, visit.today)
        new = added(opened.session, opened.name)
        visit.store.act(TEAM, new, hand_of(here, seen, None, TEAM))
    except (ExchangeError, RecordsError) as error:
        return f"The file was not opened: {str(error).removesuffix('.')}.", None
    address = visit.address("", **{LESSON: new.uid})
    set_props(shared_ids.SHELL_URL, {"search": address})
    set_props(bound.REFRESH, {"data": {"focus": ids.TEACH_PRESENT, "said": said_of(opened)}})
    return "", None


def said_of(opened: Opened) -> str:
    """Say what a file held."""
    said = f"“{opened.name}” was opened, for the athlete who is chosen here."
    if not opened.codes:
        return said
    codes = " and ".join(opened.codes)
    return (
        f"{said} The file also holds {codes}: the Records page, or “levelpeak import”, takes measures and readings in."
    )


def read_file(contents: Any, today: date) -> Opened:
    """Read a file that was chosen.

    Parameters
    ----------
    contents : object
        A data URL, as `dcc.Upload` sends it.
    today : date

    Returns
    -------
    Opened

    Raises
    ------
    ExchangeError
    """
    try:
        data = base64.b64decode(str(contents).partition(",")[2], validate=True)
    except (binascii.Error, ValueError):
        raise ExchangeError("it did not arrive whole") from None
    if len(data) > LARGEST_FILE_BYTES:
        accepted = f"accepted: up to {LARGEST_FILE_BYTES // 1000} kB"
        raise ExchangeError(f"{len(data) // 1000} kB given; {accepted}")
    return from_file(data, today)
