"""The page's callbacks: thin; they read the records, call a pure function, and set the parts.

`select` puts the throw that was clicked into the records and into Compare's list; `draw` is an answer to the version.
"""

from typing import Any

from dash import Dash, Input, Output, State, ctx, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.edit import tell_version
from app.bind.visit import Visit, hand_of, visit_again
from app.pages.map import ids
from app.pages.map.answers import MapAnswer, map_of
from app.pages.map.asked import MASS, MASS_ENDS, SPEED, SPEED_ENDS, asked_of, clicked
from app.pages.map.figure import map_figure
from app.pages.map.view import PARTS, view_of
from app.records.acts import Act, Edit
from app.records.faults import RecordsError
from app.records.field_list import field_of
from app.show import ids as shared_ids
from app.show.added_throw import to_compare
from app.show.axes import width_px
from app.show.drawn import drawn
from app.show.from_records import case_of
from app.show.palette import THEMES, theme_named
from app.show.window import Spot


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    app.callback(
        Output(ids.MAP_NOTICE, "children"),
        Input(ids.MAP_CLICKED, "data"),
        Input(ids.MAP_ADD, "n_clicks"),
        State(bound.HERE, "data"),
        State(bound.VERSION, "data"),
        prevent_initial_call=True,
    )(select)
    app.callback(
        output={
            "figure": Output(ids.MAP_FIGURE, "figure"),
            "paper": Output(ids.MAP_PAPER, "data"),
            "view": {part: Output(part, "children") for part in PARTS},
            "empty_hidden": Output(ids.MAP_EMPTY, "hidden"),
            "body_hidden": Output(ids.MAP_BODY, "hidden"),
        },
        inputs=[
            Input(bound.VERSION, "data"),
            Input(shared_ids.SHELL_THEME, "data"),
            Input(ids.MAP_WIDTH, "data"),
            State(bound.HERE, "data"),
        ],
    )(draw)
    drawn(app, width=ids.MAP_WIDTH, papers=[ids.MAP_PAPER])


def select(where: Any, pressed: Any, here: Any, seen: Any) -> Any:
    """Look at the throw that was clicked and add it to Compare; or add the one that is looked at."""
    visit = visit_again(here)
    data = visit.data
    if data is None or not (where or pressed):
        raise PreventUpdate
    case = case_of(data, visit.today, visit.system)
    spot, typed = asked_of(data, case).spot, dict[str, str]()
    if ctx.triggered_id == ids.MAP_CLICKED:
        place = clicked(where, visit.system)
        if place is None:
            raise PreventUpdate
        typed = dict(zip((MASS, SPEED), place, strict=True))
        mass, speed = (field_of(path).parse(text, visit.system) for path, text in typed.items())
        spot = Spot(mass.value, speed.value, mass.typed, speed.typed)
    added = to_compare(data, spot, case)
    acts: list[Act] = [*(Edit(path, text, mine=True) for path, text in typed.items()), *added.acts]
    if not acts:
        return added.notice
    hand = hand_of(here, seen, None, visit.owner)
    try:
        acted = visit.store.act(visit.owner, acts, hand, visit.system)
    except RecordsError as error:
        return f"Not kept: {error}"
    for path, text in typed.items():
        set_props(_field_id(visit, path), {"value": text})
    tell_version(acted, visit.owner, seen, hand.tab)
    return added.notice


def draw(_: Any, theme: Any, width: Any, here: Any) -> dict[str, Any]:
    """Draw the map and put it into words."""
    visit = visit_again(here)
    data = visit.data
    if data is None:
        raise PreventUpdate
    answer = map_of(data, visit.today, visit.system)
    there = answer.hundred is not None
    for path, text in _hints(answer).items():
        set_props(_field_id(visit, path), {"placeholder": text})
    return {
        "figure": map_figure(answer, theme_named(theme), width_px(width)),
        "paper": map_figure(answer, THEMES["print"], None),
        "view": view_of(answer),
        "empty_hidden": there,
        "body_hidden": not there,
    }


def _field_id(visit: Visit, path: str) -> dict[str, str]:
    return bound.field_id(visit.owner, path, "", visit.system.key)


def _hints(answer: MapAnswer) -> dict[str, str]:
    """What stands in empty fields: the ends that are drawn, and the throw that is looked at where nothing is typed."""
    window, system = answer.window, answer.case.system
    hints = {}
    if window is not None:
        ends = (window.mass_low_kg, window.mass_high_kg, window.speed_low_m_s, window.speed_high_m_s)
        for path, end in zip((*MASS_ENDS, *SPEED_ENDS), ends, strict=True):
            hints[path] = system.number(end, field_of(path).unit, most=0)
    for path, value in zip((MASS, SPEED), answer.asked.usual, strict=True):
        hints[path] = field_of(path).shown(value, "", system)
    return hints
