"""The page's callbacks: thin; they read the fields, call a pure function, and set the parts.

The fields on the page are the one truth. `change` runs when the page opens, the map is clicked or a button is pressed;
`draw` runs when any value changed. The Compare form and the readings belong to their own pages' stores: this page reads
them from where the browser keeps them when it opens, and writes an added throw back there.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import load_demo
from app.pages.map import ids
from app.pages.map.answers import map_of
from app.pages.map.changes import clicked, first_spot, taken_back
from app.pages.map.checks import ENDS, MASS, SPEED, check_spot
from app.pages.map.figure import map_figure, paper_figure
from app.pages.map.form import RANGES, MapForm, from_json, read_form, to_json
from app.pages.map.meant import meant, read_written, shown, written
from app.pages.map.parts import field_label, throw_hint
from app.pages.map.view import view_of
from app.show import ids as shared_ids
from app.show.added_throw import to_compare
from app.show.axes import width_px
from app.show.basis import basis_of
from app.show.checks import check_athlete
from app.show.drawn import drawn
from app.show.flat_form import by_name
from app.show.glossary import field_words
from app.show.hundred import usual_base
from app.show.invented import is_invented
from app.show.page_parts import names_in
from app.show.palette import theme_named
from app.show.subject import case_of
from app.show.throw_form import FormError
from app.show.throw_form import to_json as compare_json
from app.show.whose import Whose, kept_athlete
from app.units.systems import System, system_named

RANGE = {"type": ids.MAP_RANGE, "name": ALL}

CONTROLS = {
    "reading": ids.MAP_READING,
    "readout": ids.MAP_READOUT,
    "of": ids.MAP_OF,
    "axis": ids.MAP_AXIS,
    "ball_mass_g": ids.MAP_MASS,
    "speed_m_s": ids.MAP_SPEED,
}

VIEW_OUTPUTS = {
    "who": Output(ids.MAP_WHO, "children"),
    "empty": Output(ids.MAP_EMPTY, "children"),
    "empty_hidden": Output(ids.MAP_EMPTY, "hidden"),
    "body_hidden": Output(ids.MAP_BODY, "hidden"),
    "notes": Output(ids.MAP_NOTES, "children"),
    "figure_title": Output(ids.MAP_FIGURE_TITLE, "children"),
    "figure_note": Output(ids.MAP_FIGURE_NOTE, "children"),
    "looked": Output(ids.MAP_POINT, "children"),
    "said": Output(ids.MAP_POINT_SAID, "children"),
    "table": Output(ids.MAP_TABLE, "children"),
    "mass_problem": Output(ids.MAP_MASS, "error"),
    "speed_problem": Output(ids.MAP_SPEED, "error"),
}
"""The parts that `View` fills one to one."""


NAMED_OUTPUTS = {
    "mass": [Output(ids.MAP_MASS, "label"), Output(ids.MAP_MASS, "description")],
    "speed": [Output(ids.MAP_SPEED, "label"), Output(ids.MAP_SPEED, "description")],
    "ends": [Output(RANGE, "label"), Output(RANGE, "description")],
}
"""What says a unit over and under the fields."""


def _fields(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the map's form, as inputs or as states."""
    return {
        "controls": {name: kind(part, "value") for name, part in CONTROLS.items()},
        "ends": kind(RANGE, "value"),
        "end_ids": State(RANGE, "id"),
        "written": State(ids.MAP_WRITTEN, "data"),
    }


def _form(fields: dict[str, Any]) -> MapForm:
    ends = by_name(fields["end_ids"], fields["ends"])
    page = read_form(fields["controls"] | {name: ends.get(name) for name in RANGES})
    return meant(page, *read_written(fields.get("written")))


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "controls": {name: Output(part, "value") for name, part in CONTROLS.items()},
            "ends": Output(RANGE, "value"),
            "compare": Output(ids.MAP_COMPARE, "data"),
            "write": Output(ids.MAP_WRITE, "data"),
            "before": Output(ids.MAP_BEFORE, "data"),
            "notice": Output(ids.MAP_NOTICE, "children"),
            "back_hidden": Output(ids.MAP_TAKE_BACK, "hidden"),
            "written": Output(ids.MAP_WRITTEN, "data"),
            "labels": NAMED_OUTPUTS,
        },
        inputs={
            "read": Input(ids.MAP_READ, "data"),
            "where": Input(ids.MAP_CLICKED, "data"),
            "buttons": [Input(ids.MAP_ADD, "n_clicks"), Input(ids.MAP_TAKE_BACK, "n_clicks")],
            "fields": _fields(State),
            "saved": State(ids.MAP_SAVED, "data"),
            "compare": State(ids.MAP_COMPARE, "data"),
            "before": State(ids.MAP_BEFORE, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
        },
    )(change)
    app.callback(
        output={
            "figure": Output(ids.MAP_FIGURE, "figure"),
            "paper": Output(ids.MAP_PAPER, "data"),
            "saved": Output(ids.MAP_SAVED, "data"),
            "view": VIEW_OUTPUTS,
            "invented": Output(ids.MAP_INVENTED, "hidden"),
            "end_errors": Output(RANGE, "error"),
            "end_hints": Output(RANGE, "placeholder"),
            "basis": Output(ids.MAP_BASIS, "children"),
        },
        inputs={
            "fields": _fields(Input),
            "compare": Input(ids.MAP_COMPARE, "data"),
            "read": State(ids.MAP_READ, "data"),
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "width": Input(ids.MAP_WIDTH, "data"),
        },
    )(draw)
    drawn(app, read=ids.MAP_READ, width=ids.MAP_WIDTH, papers=[ids.MAP_PAPER], write=ids.MAP_WRITE)


def _kept(read: Any, now: Any = None) -> Whose:
    return kept_athlete(read, load_demo(), current_app.config["LEVELPEAK"].demo, now)


def change(
    read: Any,
    where: Any,
    buttons: Sequence[Any],
    fields: dict[str, Any],
    saved: Any,
    compare: Any,
    before: Any,
    units: Any = None,
) -> dict[str, Any]:
    """Open the page, look at the throw that was clicked and add it to Compare, or do what a button says."""
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening, and the browser was not asked yet what it keeps
    source = ctx.triggered_id
    arm, system = _kept(read, compare), system_named(units)
    if source in (None, ids.MAP_READ) or compare is None:
        return _opened(saved, arm, fields["end_ids"], system)
    still = {
        "written": no_update,
        "labels": {
            "mass": [no_update] * 2,
            "speed": [no_update] * 2,
            "ends": [[no_update] * len(fields["end_ids"])] * 2,
        },
        "controls": dict.fromkeys(CONTROLS, no_update),
        "ends": [no_update] * len(fields["end_ids"]),
        "compare": no_update,
        "write": no_update,
        "before": no_update,
    }
    if source == ids.MAP_TAKE_BACK:
        back = taken_back(before)
        form = no_update if back.form is None else compare_json(back.form)
        return still | {"compare": form, "write": form, "before": None, "notice": back.notice, "back_hidden": True}
    typed = _form(fields)
    if source == shared_ids.SHELL_UNITS:
        kept = dict.fromkeys(("compare", "write", "before", "notice", "back_hidden"), no_update)
        return _shown(typed, fields["end_ids"], system) | kept
    if source == ids.MAP_CLICKED:
        place = clicked(where, system)
        if place is None:
            raise PreventUpdate
        typed = replace(typed, ball_mass_g=place[0], speed_m_s=place[1])
        put = {name: shown(typed, name, system) for name in ("ball_mass_g", "speed_m_s")}
        still |= {"controls": dict.fromkeys(CONTROLS, no_update) | put, "written": written(typed, system)}
    elif not any(buttons):
        raise PreventUpdate  # a button that was just made, not one that was pressed
    case = case_of(arm.compared, arm.profile, date.today(), system)
    added = to_compare(arm.compared, check_spot(typed), case)
    if added.form is None:
        return still | {"notice": added.notice, "back_hidden": True}
    made = compare_json(added.form)
    changed = {"compare": made, "write": made, "before": compare_json(arm.compared)}
    return still | changed | {"notice": added.notice, "back_hidden": False}


def _opened(saved: Any, arm: Whose, end_ids: Sequence[Any], system: System) -> dict[str, Any]:
    try:
        form = from_json(saved)
    except FormError:
        form = MapForm()
    case = case_of(arm.compared, arm.profile, date.today())
    if form.pointless:
        mass, speed = first_spot(case)
        form = replace(form, ball_mass_g=mass, speed_m_s=speed)
    made = _shown(replace(form, of=form.of or usual_base(case, arm.compared.kind)), end_ids, system)
    return made | {
        "compare": compare_json(arm.compared),
        "write": None,
        "before": None,
        "notice": "",
        "back_hidden": True,
    }


def _shown(form: MapForm, end_ids: Sequence[Any], system: System) -> dict[str, Any]:
    """All controls of a form, and what says their units."""
    ends = [ENDS[name] for name in names_in(end_ids, ENDS)]
    return {
        "controls": {name: shown(form, name, system) for name in CONTROLS},
        "ends": [shown(form, spec.name, system) for spec in ends],
        "written": written(form, system),
        "labels": {
            "mass": [field_words(field_label(MASS, system)), throw_hint(MASS, system)],
            "speed": [field_words(field_label(SPEED, system)), throw_hint(SPEED, system)],
            "ends": [[field_label(spec, system) for spec in ends], [spec.described(system) for spec in ends]],
        },
    }


def draw(fields: dict[str, Any], compare: Any, read: Any, theme: Any, width: Any) -> dict[str, Any]:
    """Draw the map and put it into words; keep the map's form."""
    if not isinstance(read, dict) or compare is None:
        raise PreventUpdate  # the page is opening
    arm = _kept(read, compare)
    form, today = _form(fields), date.today()
    system = read_written(fields.get("written"))[1]
    answer = map_of(form, arm.compared, arm.profile, today, system)
    usual = usual_base(answer.case, arm.compared.kind)
    view = view_of(answer, check_athlete(arm.compared.athlete, system), arm.unread)
    hints, ends = _hints(answer.window, system), names_in(fields["end_ids"], ENDS)
    return {
        "figure": map_figure(answer, form.axis, theme_named(theme), width_px(width)),
        "paper": paper_figure(answer, form.axis),
        "saved": to_json(replace(form, of="" if form.of == usual else form.of)),
        "invented": not is_invented(arm.compared, load_demo()),
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "end_errors": [answer.range_problems.get(name, "") for name in ends],
        "end_hints": [hints.get(name, "") for name in ends],
        "basis": basis_of(answer.case.person),
    }


def _hints(window: Any, system: System) -> dict[str, str]:
    """The ends that are drawn, to stand in empty fields."""
    if window is None:
        return {}
    ends = (window.mass_low_kg, window.mass_high_kg)
    masses = [system.number(mass, "g", most=0) for mass in ends]
    speeds = [system.number(speed, "m/s", most=0) for speed in (window.speed_low_m_s, window.speed_high_m_s)]
    return dict(zip(RANGES, [*masses, *speeds], strict=True))
