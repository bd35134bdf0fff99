"""The page's callbacks: thin; they read the records, call a pure function, and set the parts."""

from collections.abc import Sequence
from typing import Any

from dash import ALL, Dash, Input, Output, State
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.edit import tell_version
from app.bind.visit import hand_of, visit_again
from app.pages.start import ids
from app.pages.start.answers import start_of
from app.pages.start.figure import start_figure
from app.pages.start.limits import COUNTED
from app.pages.start.view import PARTS, means_of, view_of
from app.records.acts import Edit
from app.records.faults import RecordsError
from app.show import ids as shared_ids
from app.show.axes import width_px
from app.show.drawn import drawn
from app.show.from_records import case_of
from app.show.page_parts import names_in
from app.show.palette import THEMES, theme_named
from app.show.rack import left_out, masses_of

MEANS = {"type": ids.START_MEANS, "name": ALL}
MAY_HIDE = (ids.START_EMPTY, ids.START_BODY, ids.START_WANTED, ids.START_ADD_PART)


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    app.callback(
        output={
            "figure": Output(ids.START_FIGURE, "figure"),
            "paper": Output(ids.START_PAPER, "data"),
            "view": {part: Output(part, "children") for part in PARTS},
            "means": Output(MEANS, "children"),
            "hidden": {part: Output(part, "hidden") for part in MAY_HIDE},
        },
        inputs=[
            Input(bound.VERSION, "data"),
            Input(shared_ids.SHELL_THEME, "data"),
            Input(ids.START_WIDTH, "data"),
            State(bound.HERE, "data"),
            State(MEANS, "id"),
        ],
        running=[(Output(ids.START_BUSY, "hidden"), False, True)],
    )(draw)
    app.callback(
        Output(ids.START_NOTICE, "children"),
        Input(ids.START_BALLS, "value"),
        State(bound.HERE, "data"),
        State(bound.VERSION, "data"),
        prevent_initial_call=True,
    )(tick)
    drawn(app, width=ids.START_WIDTH, papers=[ids.START_PAPER], printing=Input(ids.START_PRINT, "n_clicks"))


def draw(_: Any, theme: Any, width: Any, here: Any, means_ids: Sequence[Any]) -> dict[str, Any]:
    """Find what every ball allows, and put it into words and pictures."""
    visit = visit_again(here)
    if visit.data is None:
        raise PreventUpdate
    answer = start_of(visit.data, visit.today, visit.system)
    there = answer.found is not None
    return {
        "figure": start_figure(answer, theme_named(theme), width_px(width)),
        "paper": start_figure(answer, THEMES["print"], None),
        "view": view_of(answer),
        "means": [means_of(answer, name) for name in names_in(means_ids, COUNTED)],
        "hidden": dict(
            zip(MAY_HIDE, (there, not there, answer.asked.aim != "nearest_peak", answer.first is None), strict=True)
        ),
    }


def tick(ticked: Any, here: Any, seen: Any) -> str:
    """Keep which balls of the rack are looked at; a ball that joins it later is."""
    visit = visit_again(here)
    if visit.data is None or not isinstance(ticked, list):
        raise PreventUpdate
    text = left_out(masses_of(case_of(visit.data, visit.today)), ticked)
    if text == visit.data.settings["start.left_out"]:
        raise PreventUpdate
    hand = hand_of(here, seen, None, visit.owner)
    try:
        acted = visit.store.act(visit.owner, Edit("start.left_out", text, mine=True), hand, visit.system)
    except RecordsError as error:
        return f"Not kept: {error}"
    tell_version(acted, visit.owner, seen, hand.tab)
    return ""
