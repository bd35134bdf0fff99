"""How an edit gets from a field to the records: one callback for every field; and what is said where it is not kept."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dash import ALL, MATCH, Dash, Input, Output, State, ctx, html, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids
from app.bind.fields import is_path
from app.bind.visit import Visit, hand_of, the_store, visit_again
from app.records.acts import CONFLICT, GONE, REFUSED, TEAM, Act, Acted, Edit, Hand, Outcome
from app.records.faults import RecordsError
from app.records.field_list import DEPENDENT
from app.units.systems import system_named

NEWEST = ("measures.day", "reference.day")  # the newest row of these is the one that counts
RESHAPING = frozenset({*DEPENDENT, *NEWEST, "athlete.code", "lesson.name"})
"""Fields that change what other fields of the page are: after them the page is made anew."""


@dataclass(frozen=True)
class Doing:
    """What a button does: acts that are kept as one, where the focus goes then (the id in the browser, or from what
    came of the acts), what is said about it, whose they are if not the page's athlete's, and the address to go on to.
    """

    acts: Sequence[Act] = ()
    focus: str | Callable[[Acted], str] = ""
    said: str = ""
    owner: str = ""
    go: str = ""


Doer = Callable[[Visit, str, Any], Doing]
"""From a visit, the row of the button and, of a choice, the chosen value, to what is to be done."""


@dataclass(frozen=True)
class Kept:
    """What came of an act: what is said beside the field, and whether the page is to be made anew."""

    error: Component | str | None
    acted: Acted | None = None
    anew: bool = False


def keep_edit(part: Mapping[str, str], text: str, hand: Hand, mine: bool = False) -> Kept:
    """Keep what was typed into a field.

    Parameters
    ----------
    part : mapping of str to str
        The field's id.
    text : str
    hand : Hand
    mine : bool
        Whether it shall stand whatever somebody else has written.

    Returns
    -------
    Kept
    """
    if not is_path(part.get("path")) or not all(isinstance(part.get(name), str) for name in ("of", "row", "units")):
        raise PreventUpdate
    edit = Edit(part["path"], text, part["row"], mine)
    try:
        acted = the_store().act(part["of"], edit, hand, system_named(part["units"]))
    except RecordsError as error:
        return Kept(f"Not kept: {error}")
    (outcome,) = acted.outcomes
    if outcome.state == CONFLICT:
        return Kept(conflict(part, outcome))
    own_ball = part["path"] == "ball.mass_kg" and part["of"] != TEAM  # the grid's rows are called by it
    return Kept(outcome.message or None, acted, (own_ball or part["path"] in RESHAPING) and acted.done)


def conflict(part: Mapping[str, str], outcome: Outcome) -> Component:
    """Say who has written what in a field in the meantime, and ask which shall stand."""
    return html.Span(
        [
            outcome.message,
            " ",
            html.Button("Keep mine", id={**part, "type": ids.MINE[part["type"]]}, type="button", n_clicks=0),
            " ",
            html.Button("Take the newer", id={**part, "type": ids.NEWER}, type="button", n_clicks=0),
        ],
        className="conflict",
    )


def tell_version(acted: Acted | None, owner: str, seen: Any, tab: str, anew: bool = False, **more: Any) -> None:
    """Raise the page's version after an act; where others have acted too, or the page's shape changes, make it anew."""
    if acted is None:
        return
    known = seen if isinstance(seen, dict) else {}
    before = known.get(owner)
    others = isinstance(before, int) and the_store().others_since(owner, before, tab)
    if acted.done or acted.noted or others:
        now = {**known, owner: acted.version}
        if anew or others:
            set_props(ids.REFRESH, {"data": {"version": now, **more}})
            return
        set_props(ids.VERSION, {"data": now})


def _edited(text: Any, here: Any, seen: Any, sent: Any) -> Component | str | None:
    part = ctx.triggered_id
    if not isinstance(part, dict):
        raise PreventUpdate
    hand = hand_of(here, seen, sent, part["of"])
    kept = keep_edit(part, as_text(text), hand)
    renamed = kept.anew and part["path"] == "athlete.code"
    more = {"go": visit_again(here).address(here["path"])} if renamed else {}
    tell_version(kept.acted, part["of"], seen, hand.tab, kept.anew, **more)
    return kept.error


def as_text(value: Any) -> str:
    """What a control sends, as the text of its field: a tick is yes or no, nothing chosen is empty, several with blanks
    between.
    """
    if isinstance(value, list):
        return " ".join(one for one in value if isinstance(one, str))[:4000]
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)[:4000]


def _mine(pressed: Any, text: Any, here: Any, seen: Any) -> Component | str | None:
    part = ctx.triggered_id
    if not pressed or not isinstance(part, dict):
        raise PreventUpdate
    hand = hand_of(here, seen, None, part["of"])
    kept = keep_edit({**part, "type": ids.FIELD}, as_text(text), hand, mine=True)
    tell_version(kept.acted, part["of"], seen, hand.tab, kept.anew)
    return kept.error


def dom_id(part: Mapping[str, str]) -> str:
    """An id as the browser has it."""
    return json.dumps(part, sort_keys=True, separators=(",", ":"))


def _newer(pressed: Any) -> dict[str, int]:
    if not pressed:
        raise PreventUpdate
    return {"at": 0}


def _pressed(doers: Mapping[str, Doer], _: Any, __: Any, here: Any, seen: Any) -> None:
    """A button, or a choice that is one, changes the records."""
    part = ctx.triggered_id
    value = ctx.triggered[0]["value"]
    if (
        not isinstance(part, dict)
        or not isinstance(value, str | int | float)
        or not value
        or part.get("do") not in doers
    ):
        raise PreventUpdate
    visit = visit_again(here)
    if part.get("of") not in (TEAM, visit.owner) or not isinstance(part.get("row"), str):
        raise PreventUpdate  # no button of this page
    doing = doers[part["do"]](visit, part["row"], value)
    owner = doing.owner or part["of"]
    hand = hand_of(here, seen, None, owner)
    acted = visit.store.act(owner, list(doing.acts), hand, visit.system) if doing.acts else None
    said = doing.said
    if acted is not None and not acted.done:
        said = next((one.message for one in acted.outcomes if one.message), said)
    if acted is not None and acted.stopped:
        said = next((one.message for one in acted.outcomes if one.state in (CONFLICT, GONE)), said)
    focus = doing.focus if isinstance(doing.focus, str) else doing.focus(acted) if acted and acted.done else ""
    refused = acted is not None and (acted.stopped or any(one.state == REFUSED for one in acted.outcomes))
    go = "" if refused else doing.go
    set_props(ids.REFRESH, {"data": {"focus": focus or dom_id(part), "said": said, "go": go}})


def register(app: Dash, doers: Mapping[str, Doer]) -> None:
    """Give the callbacks of every bound field and button to the app, once.

    Parameters
    ----------
    app : Dash
    doers : mapping of str to Doer
        What each button does, by the `do` of its id.
    """
    here, seen = State(ids.HERE, "data"), State(ids.VERSION, "data")
    for kind, value in ((ids.FIELD, "value"), (ids.FLAG, "checked")):
        part = {"type": kind, "of": MATCH, "path": MATCH, "row": MATCH, "units": MATCH}
        app.callback(
            Output(part, "error"),
            Input(part, value),
            here,
            seen,
            State(ids.CLOCK, "data"),
            prevent_initial_call=True,
        )(_edited)
        app.callback(
            Output(part, "error", allow_duplicate=True),
            Input({**part, "type": ids.MINE[kind]}, "n_clicks"),
            State(part, value),
            here,
            seen,
            prevent_initial_call=True,
        )(_mine)
    app.callback(
        Output(ids.REFRESH, "data", allow_duplicate=True),
        Input({"type": ids.NEWER, "of": ALL, "path": ALL, "row": ALL, "units": ALL}, "n_clicks"),
        prevent_initial_call=True,
    )(lambda pressed: _newer(any(pressed)))
    act = {"type": ids.ACT, "of": ALL, "do": ALL, "row": ALL}

    def pressed(clicks: Any, values: Any, here: Any, seen: Any) -> None:
        _pressed(doers, clicks, values, here, seen)

    app.callback(
        Input(act, "n_clicks"),
        Input({**act, "type": ids.PICK}, "value"),
        here,
        seen,
        prevent_initial_call=True,
    )(pressed)
