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
from app.pages.map.answers import map_of
from app.pages.map.checks import ENDS, MASS, SPEED, check_spot
from app.pages.map.figure import map_figure, paper_figure
from app.pages.map.form import PATHS, RANGES, MapForm, form_of
from app.pages.map.selected import clicked, usual_throw, with_usual_throw
from app.pages.map.view import view_of
from app.records.acts import Act, Edit
from app.records.faults import RecordsError
from app.show import ids as shared_ids
from app.show.added_throw import thrown, to_compare
from app.show.axes import width_px
from app.show.checks import check_athlete
from app.show.drawn import drawn
from app.show.from_records import subject_of
from app.show.palette import theme_named
from app.show.subject import Case
from app.show.window import Window
from app.units.systems import System

VIEW_OUTPUTS = {
    "empty": Output(ids.MAP_EMPTY, "children"),
    "empty_hidden": Output(ids.MAP_EMPTY, "hidden"),
    "body_hidden": Output(ids.MAP_BODY, "hidden"),
    "notes": Output(ids.MAP_NOTES, "children"),
    "figure_title": Output(ids.MAP_FIGURE_TITLE, "children"),
    "figure_note": Output(ids.MAP_FIGURE_NOTE, "children"),
    "looked": Output(ids.MAP_POINT, "children"),
    "said": Output(ids.MAP_POINT_SAID, "children"),
    "table": Output(ids.MAP_TABLE, "children"),
}
"""The parts that `View` fills one to one."""


def field_id(visit: Visit, name: str) -> dict[str, str]:
    """The id of a field of the form."""
    return bound.field_id(visit.owner, PATHS[name], "", visit.system.key)


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
            "view": VIEW_OUTPUTS,
            "ends_problem": Output(ids.MAP_ENDS_PROBLEM, "children"),
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
    case = subject_of(data, visit.today).case(visit.today, visit.system)
    form = form_of(data)
    acts: list[Act] = []
    typed: dict[str, str] = {}
    if ctx.triggered_id == ids.MAP_CLICKED:
        place = clicked(where, visit.system)
        if place is None:
            raise PreventUpdate
        typed = dict(zip((MASS.name, SPEED.name), place, strict=True))
        acts = [Edit(PATHS[name], text, mine=True) for name, text in typed.items()]
        kept = {spec.name: spec.kept(typed[spec.name], "", visit.system) for spec in (MASS, SPEED)}
        form = MapForm(**kept)
    added = to_compare(data, check_spot(with_usual_throw(form, case)), case)
    acts = [*acts, *added.acts]
    if not acts:
        return added.notice
    hand = hand_of(here, seen, None, visit.owner)
    try:
        acted = visit.store.act(visit.owner, acts, hand, visit.system)
    except RecordsError as error:
        return f"Not kept: {error}"
    for name, text in typed.items():
        set_props(field_id(visit, name), {"value": text})
    tell_version(acted, visit.owner, seen, hand.tab)
    return added.notice


def draw(_: Any, theme: Any, width: Any, here: Any) -> dict[str, Any]:
    """Draw the map and put it into words."""
    visit = visit_again(here)
    data = visit.data
    if data is None:
        raise PreventUpdate
    subject, asked = subject_of(data, visit.today), form_of(data)
    case = subject.case(visit.today, visit.system)
    form = with_usual_throw(asked, case)
    answer = map_of(form, case, thrown(data, case))
    view = view_of(answer, check_athlete(subject.compared.athlete, visit.system))
    crossed = [text for name, text in answer.range_problems.items() if ENDS[name].read(getattr(form, name)) is not None]
    for name, text in (_hints(answer.window, visit.system) | _throw_hints(asked, case)).items():
        set_props(field_id(visit, name), {"placeholder": text})
    return {
        "figure": map_figure(answer, form.axis, theme_named(theme), width_px(width)),
        "paper": paper_figure(answer, form.axis),
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "ends_problem": " ".join(crossed),
    }


def _hints(window: Window | None, system: System) -> dict[str, str]:
    """The ends that are drawn, to stand in empty fields."""
    if window is None:
        return {}
    ends = (window.mass_low_kg, window.mass_high_kg)
    masses = [system.number(mass, "g", most=0) for mass in ends]
    speeds = [system.number(speed, "m/s", most=0) for speed in (window.speed_low_m_s, window.speed_high_m_s)]
    return dict(zip(RANGES, [*masses, *speeds], strict=True))


def _throw_hints(form: MapForm, case: Case) -> dict[str, str]:
    """The throw that is looked at where nothing was typed."""
    usual = zip((MASS, SPEED), usual_throw(form, case), strict=True)
    return {spec.name: spec.shown(text, case.system) for spec, text in usual}
