"""Plain cells, for tables with too many fields to be components: an `input` with its path and row in its attributes.

The browser sends every text that it does not yet know to be kept, so that none is lost between two answers; what was
kept already is the same once more, and changes nothing. So that a row, too, is made only once, its uid follows from the
line of its cells.
"""

import hashlib
from collections.abc import Mapping
from html import escape
from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State
from dash.exceptions import PreventUpdate

from app.bind import ids
from app.bind.edit import RESHAPING, tell_version
from app.bind.fields import is_path
from app.bind.visit import hand_of, the_store
from app.records.acts import GONE, Acted, Add, Edit, Hand, Outcome, Remove
from app.records.faults import RecordsError
from app.units.systems import system_named
from model.checks import InputError

MOST_AT_ONCE = 400
LONGEST_CELL = 40
MADE_BY_CELLS = ("reading", "measures", "ball")
"""Tables whose rows the first text of a line makes."""


def cell_html(
    path: str, text: str, label: str, *, of: str, row: str, line: str, units: str, new: str = "", more: str = ""
) -> str:
    """Write a cell.

    Parameters
    ----------
    path : str
        Of its field.
    text : str
        What it shows.
    label : str
        What it is called for those who hear it.
    of : str
        uid of the owner.
    row : str
        uid of its row; empty while there is none: then the first text makes one.
    line : str
        The same for all cells of one row, also while it is none; where it is none, that of no other page or visit.
    units : str
        Those that it shows.
    new : str
        JSON with further texts of the row that is made: ``{"ball": uid}``.
    more : str
        Further attributes, written out.

    Returns
    -------
    str
        HTML, everything in it escaped.
    """
    parts = {"data-path": path, "data-of": of, "data-row": row, "data-line": line, "data-units": units, "data-new": new}
    said = "".join(f' {name}="{escape(value)}"' for name, value in parts.items() if value or name == "data-row")
    return (
        f'<input type="text" class="cell-input" autocomplete="off" spellcheck="false" maxlength="{LONGEST_CELL}" '
        f'value="{escape(text)}" aria-label="{escape(label)}"{said} {more}>'
    )


def keep_cells(sent: Any, here: Any, seen: Any) -> dict[str, Any]:
    """Keep what was typed into cells, and say of each what became of it."""
    edits = sent.get("edits") if isinstance(sent, dict) else None
    if not isinstance(edits, list) or not edits:
        raise PreventUpdate
    told: list[dict[str, Any]] = []
    lines: dict[str, str] = {}
    acted: Acted | None = None
    anew, owner, hand = False, "", hand_of(here, seen, None, "")
    for one in edits[:MOST_AT_ONCE]:
        if not isinstance(one, dict) or not is_path(one.get("path")):
            continue
        owner = str(one.get("of", ""))
        hand = hand_of(here, seen, one.get("sent"), owner)
        line = str(one.get("line", ""))
        try:
            done = _keep(owner, one, lines.get(line, ""), hand)
        except (RecordsError, InputError, ValueError) as error:
            told.append({"n": one.get("n"), "line": line, "path": one["path"], "message": f"Not kept: {error}"})
            continue
        (outcome,) = done.outcomes
        acted = done if done.done or acted is None else acted
        anew = anew or (one["path"] in RESHAPING and done.done)
        if outcome.row:
            lines[line] = outcome.row
        told.append({"n": one.get("n"), "line": line, "path": one["path"], **_said(outcome, one)})
    tell_version(acted, owner, seen, hand.tab, anew)
    return {"told": told}


def _keep(owner: str, one: Mapping[str, Any], made: str, hand: Hand) -> Acted:
    """Keep the text of a cell; where its row is not known to the browser yet, it is there already or is made."""
    path, text = str(one["path"]), str(one.get("text", ""))[:LONGEST_CELL]
    table, _, column = path.partition(".")
    known = str(one.get("row") or made)
    row = known or row_of(owner, str(one.get("line", "")))
    emptied = one.get("emptied") == "remove" and not text.strip()
    act: Edit | Remove | Add = Remove(table, row) if emptied else Edit(path, text, row)
    system = system_named(one.get("units"))
    acted = the_store().act(owner, act, hand, system)
    if known or emptied or not acted.stopped or acted.outcomes[0].state != GONE:
        return acted
    if table not in MADE_BY_CELLS:
        return acted
    new = one.get("new")
    texts = {str(key): str(value) for key, value in new.items()} if isinstance(new, dict) else {}
    return the_store().act(owner, Add(table, texts | {column: text}, uid=row), hand, system)


def row_of(owner: str, line: str) -> str:
    """The uid of the row that the first text of a line makes: the same however often it is sent."""
    return "c" + hashlib.sha1(f"{owner}/{line}".encode(), usedforsecurity=False).hexdigest()[:22]


def _said(outcome: Outcome, one: Mapping[str, Any]) -> dict[str, Any]:
    if outcome.state == GONE and one.get("emptied") == "remove" and not str(one.get("text", "")).strip():
        return {"row": "", "state": outcome.state, "message": ""}  # there was none, or there is none any more
    column = str(one["path"]).partition(".")[2]
    message = outcome.problems.get(column, outcome.message if not outcome.problems else "")
    return {"row": outcome.row, "state": outcome.state, "message": message}


def register(app: Dash) -> None:
    """Give the callbacks of plain cells to the app."""
    app.callback(
        Output(ids.TOLD, "data"),
        Input(ids.TYPED, "data"),
        State(ids.HERE, "data"),
        State(ids.VERSION, "data"),
        prevent_initial_call=True,
    )(keep_cells)
    app.clientside_callback(ClientsideFunction("bind", "told"), Input(ids.TOLD, "data"), prevent_initial_call=True)
