"""Undo and redo of an athlete's records or the team's, and what was done in words."""

from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, html, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids
from app.bind.visit import Visit, hand_of, visit_again
from app.records.acts import TEAM
from app.records.faults import RecordsError
from app.records.history import history, in_words
from app.records.store import Steps

MOST_LINES = 40


def steps(visit: Visit, of: str = "") -> Component:
    """Make the two buttons that take an act back and do it again; what they would do is said on them.

    Parameters
    ----------
    visit : Visit
    of : str
        Whose acts, where they are not those of the page's athlete: `TEAM`.

    Returns
    -------
    Component
    """
    owner = of or visit.owner
    ready = visit.store.steps(owner)
    return html.Div(
        [
            _step(ids.UNDO, "Undo", _words(ready, True, visit, owner), "z", disabled=ready.back is None),
            _step(ids.REDO, "Redo", _words(ready, False, visit, owner), "y", disabled=ready.again is None),
            html.Span(id=ids.STEP_NOTICE, role="status", className="quiet"),
        ],
        id=ids.STEPS,
        className="steps",
        **{"data-of": owner},
    )


def _step(part: str, name: str, title: str, key: str, *, disabled: bool) -> Component:
    return html.Button(name, id=part, type="button", n_clicks=0, disabled=disabled, title=title, **{"data-key": key})


def _words(ready: Steps, back: bool, visit: Visit, owner: str) -> str:
    """What a step would take back or do again, in words; nothing where it lies further back than is looked at."""
    ahead = ready.back if back else ready.again
    if ahead is None:
        return ""
    lines = history(visit.store, owner, most=MOST_LINES)
    return " ".join(in_words(line, visit.system) for line in lines if line.version == ahead.version)


def _told(_: Any, here: Any, of: Any) -> tuple[bool, bool, str, str]:
    """Say what can be taken back and done again now."""
    visit = visit_again(here)
    owner = _owner(visit, of)
    ready = visit.store.steps(owner)
    back, again = (_words(ready, way, visit, owner) for way in (True, False))
    return ready.back is None, ready.again is None, back, again


def _owner(visit: Visit, of: object) -> str:
    """Whose acts the buttons are for: the team's, or those of the page's athlete."""
    if of != TEAM and visit.owner == TEAM:
        raise PreventUpdate  # the athlete is gone
    return TEAM if of == TEAM else visit.owner


def _stepped(back: bool) -> Any:
    def step(pressed: Any, here: Any, seen: Any, of: Any) -> str:
        if not pressed:
            raise PreventUpdate
        visit = visit_again(here)
        owner = _owner(visit, of)
        try:
            visit.store.step(owner, hand_of(here, seen, None, owner), back)
        except RecordsError as error:
            return str(error)
        set_props(ids.REFRESH, {"data": {"focus": ids.UNDO if back else ids.REDO}})
        return ""

    return step


def register(app: Dash) -> None:
    """Give the callbacks of undo and redo to the app."""
    here, seen, of = State(ids.HERE, "data"), State(ids.VERSION, "data"), State(ids.STEPS, "data-of")
    app.callback(
        Output(ids.UNDO, "disabled"),
        Output(ids.REDO, "disabled"),
        Output(ids.UNDO, "title"),
        Output(ids.REDO, "title"),
        Input(ids.CALM, "data"),
        here,
        of,
        prevent_initial_call=True,
    )(_told)
    app.clientside_callback(  # what is drawn comes first
        ClientsideFunction("bind", "calm"),
        Output(ids.CALM, "data"),
        Input(ids.VERSION, "data"),
        prevent_initial_call=True,
    )
    for part, back in ((ids.UNDO, True), (ids.REDO, False)):
        app.callback(
            Output(ids.STEP_NOTICE, "children", allow_duplicate=True),
            Input(part, "n_clicks"),
            here,
            seen,
            of,
            prevent_initial_call=True,
        )(_stepped(back))
