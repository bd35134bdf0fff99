"""The page's callbacks: thin; they read the fields, call a pure function, and set the parts.

The fields on the page are the one truth, but for whose arm it is and how a limit is counted: these take effect when
`change` has written the fields that go with them. `change` runs when the page opens, its address asks for another
athlete or a choice rewrites fields; `draw` when any value changed. The Compare form and the readings belong to their
own pages' stores: this page reads them from where the browser keeps them, and adds a throw there when told to.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import Demo, load_demo
from app.pages.start import ids
from app.pages.start.address import arm_of, code_in, compare_code, query_of, unknown_code, who_of
from app.pages.start.answers import field_for, start_of
from app.pages.start.checks import TYPED, fields_of
from app.pages.start.figure import paper_figure, start_figure
from app.pages.start.form import COUNTED, StartForm, from_json, read_form, to_json, with_example, without_limits
from app.pages.start.meant import counted, meant, read_written, written
from app.pages.start.parts import field_description, field_label, ways
from app.pages.start.rounded import chosen
from app.pages.start.to_plan import from_start
from app.pages.start.view import means_of, nobody, view_of
from app.show import ids as shared_ids
from app.show.added_throw import to_compare
from app.show.axes import width_px
from app.show.checks import check_athlete
from app.show.drawn import drawn
from app.show.flat_form import by_name
from app.show.from_start import to_json as plan_json
from app.show.glossary import field_words
from app.show.hundred import usual_base
from app.show.invented import is_invented
from app.show.page_parts import names_in
from app.show.palette import theme_named
from app.show.rack import boxes_of, masses_of, texts_of
from app.show.subject import case_of
from app.show.throw_form import FormError
from app.show.throw_form import to_json as compare_json
from app.show.whose import OF_COMPARE, Whose, kept_athlete
from app.show.window import Spot
from app.units.conversion import rounded_down
from app.units.systems import System, system_named

FIELD = {"type": ids.START_FIELD, "name": ALL}
COUNTS = {"type": ids.START_IN, "name": ALL}
MEANS = {"type": ids.START_MEANS, "name": ALL}
PLAN = {"type": ids.START_PLAN, "ball": ALL}
KEPT_PLACES = 2  # of a speed in m/s as Compare keeps it
BOXES = f"{ids.START_BALLS}-boxes"

CONTROLS = {"base": ids.START_BASE, "aim": ids.START_AIM, "axis": ids.START_AXIS}

VIEW_OUTPUTS = {
    "who": Output(ids.START_WHO, "children"),
    "growing": Output(ids.START_GROWING, "children"),
    "example": Output(ids.START_EXAMPLE_NOTE, "children"),
    "reference": Output(ids.START_REFERENCE, "children"),
    "empty": Output(ids.START_EMPTY, "children"),
    "empty_hidden": Output(ids.START_EMPTY, "hidden"),
    "body_hidden": Output(ids.START_BODY, "hidden"),
    "sentence": Output(ids.START_SENTENCE, "children"),
    "figure_title": Output(ids.START_FIGURE_TITLE, "children"),
    "figure_note": Output(ids.START_FIGURE_NOTE, "children"),
    "order": Output(ids.START_ORDER, "children"),
    "table": Output(ids.START_TABLE, "children"),
    "limits": Output(ids.START_LIMITS, "children"),
    "notes": Output(ids.START_NOTES, "children"),
    "cautions": Output(ids.START_CAUTIONS, "children"),
}
"""The parts that `View` fills one to one."""


def _fields(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the form, as inputs or as states."""
    return {
        "controls": {name: kind(part, "value") for name, part in CONTROLS.items()},
        "typed": kind(FIELD, "value"),
        "typed_ids": State(FIELD, "id"),
        "ticked": kind(ids.START_BALLS, "value"),
        "written": kind(ids.START_WRITTEN, "data"),
    }


def _form(fields: dict[str, Any]) -> StartForm:
    page = read_form(fields["controls"] | by_name(fields["typed_ids"], fields["typed"]))
    return meant(page, fields.get("written"), fields.get("ticked"))


def _whose(form: StartForm, read: Any) -> Whose:
    return arm_of(form.who, read, *_demo())


def _demo() -> tuple[Demo, bool]:
    return load_demo(), current_app.config["LEVELPEAK"].demo


def _asked_for(form: StartForm, read: Any, query: Any) -> StartForm:
    """The form about the athlete of the address, if it asks for one."""
    code = code_in(query)
    who = who_of(code, read, *_demo()) if code else form.who
    return form if who == form.who else replace(form, who=who, base="", left_out="")


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "who": Output(ids.START_ATHLETE, "value"),
            "controls": {name: Output(part, "value") for name, part in CONTROLS.items()},
            "typed": Output(FIELD, "value"),
            "labels": Output(FIELD, "label"),
            "descriptions": Output(FIELD, "description"),
            "counts": Output(COUNTS, "value"),
            "ways": Output(COUNTS, "data"),
            "boxes": Output(BOXES, "children"),
            "ticked": Output(ids.START_BALLS, "value"),
            "written": Output(ids.START_WRITTEN, "data"),
            "address": Output(ids.START_ADDRESS, "data"),
        },
        inputs={
            "read": Input(ids.START_READ, "data"),
            "who": Input(ids.START_ATHLETE, "value"),
            "counts": Input(COUNTS, "value"),
            "buttons": [Input(ids.START_EXAMPLE, "n_clicks"), Input(ids.START_CLEAR, "n_clicks")],
            "units": Input(shared_ids.SHELL_UNITS, "data"),
            "query": Input(shared_ids.SHELL_URL, "search"),
            "fields": _fields(State),
            "count_ids": State(COUNTS, "id"),
            "saved": State(ids.START_SAVED, "data"),
        },
    )(change)
    app.callback(
        output={
            "saved": Output(ids.START_SAVED, "data"),
            "figure": Output(ids.START_FIGURE, "figure"),
            "paper": Output(ids.START_PAPER, "data"),
            "view": VIEW_OUTPUTS,
            "means": Output(MEANS, "children"),
            "errors": Output(FIELD, "error"),
            "invented": Output(ids.START_INVENTED, "hidden"),
            "wanted_hidden": Output(ids.START_WANTED, "hidden"),
            "add_hidden": Output(ids.START_ADD_PART, "hidden"),
        },
        inputs={
            "fields": _fields(Input),
            "read": State(ids.START_READ, "data"),
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "width": Input(ids.START_WIDTH, "data"),
            "means_ids": State(MEANS, "id"),
        },
        running=[(Output(ids.START_BUSY, "hidden"), False, True)],
    )(draw)
    app.callback(
        output={"write": Output(ids.START_WRITE, "data"), "notice": Output(ids.START_NOTICE, "children")},
        inputs={
            "pressed": Input(ids.START_ADD, "n_clicks"),
            "fields": _fields(State),
            "read": State(ids.START_READ, "data"),
            "now": State(ids.START_WRITE, "data"),
        },
    )(add)
    app.callback(
        Output(ids.START_TO_PLAN, "data"),
        Input(PLAN, "n_clicks"),
        State(PLAN, "id"),
        _fields(State),
        State(ids.START_READ, "data"),
        prevent_initial_call=True,
    )(plan)
    app.clientside_callback(ClientsideFunction("start", "plan"), Input(ids.START_TO_PLAN, "data"))
    app.clientside_callback(ClientsideFunction("start", "address"), Input(ids.START_ADDRESS, "data"))
    drawn(
        app,
        read=ids.START_READ,
        width=ids.START_WIDTH,
        papers=[ids.START_PAPER],
        write=ids.START_WRITE,
        printing=Input(ids.START_PRINT, "n_clicks"),
    )


def change(
    read: Any,
    who: Any,
    counts: Sequence[Any],
    buttons: Sequence[Any],
    units: Any,
    query: Any,
    fields: dict[str, Any],
    count_ids: Sequence[Any],
    saved: Any,
) -> dict[str, Any]:
    """Open the page, show it in other units, ask about another arm, count limits in another way, or empty them."""
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening, and the browser was not asked yet what it keeps
    source, system = ctx.triggered_id, system_named(units)
    if source in (None, ids.START_READ) or fields.get("written") is None:
        try:
            form = from_json(saved)
        except FormError:
            form = StartForm()
        return _set(_asked_for(form, read, query), read, fields["typed_ids"], count_ids, system)
    form = _form(fields)
    if source == shared_ids.SHELL_URL:
        asked = _asked_for(form, read, query)
        if asked == form:
            raise PreventUpdate
        return _set(asked, read, fields["typed_ids"], count_ids, system)
    if source == shared_ids.SHELL_UNITS:
        return _set(form, read, fields["typed_ids"], count_ids, system)
    if source == ids.START_ATHLETE:
        if who == form.who or not isinstance(who, str):
            raise PreventUpdate
        form = replace(form, who=who, base="", left_out="")
        code = compare_code(read, *_demo()) if who == OF_COMPARE else who
        return _set(form, read, fields["typed_ids"], count_ids, system) | {"address": query_of(code)}
    if source in (ids.START_EXAMPLE, ids.START_CLEAR):
        if not any(buttons):
            raise PreventUpdate  # a button that was just made, not one that was pressed
        form = with_example(form) if source == ids.START_EXAMPLE else without_limits(form)
    else:
        changed = counted(form, by_name(count_ids, counts), field_for(form, _whose(form, read), date.today()))
        if changed == form:
            raise PreventUpdate
        form = changed
    made = _set(form, read, fields["typed_ids"], count_ids, system)
    typed = [no_update if now == text else text for text, now in zip(made["typed"], fields["typed"], strict=False)]
    # what the limits do not touch is left alone: it may have been changed since this was asked
    still: dict[str, Any] = dict.fromkeys(("who", "boxes", "ticked"), no_update)
    still["controls"] = dict.fromkeys(CONTROLS, no_update)
    return made | still | {"typed": typed}


def _set(
    form: StartForm, read: Any, typed_ids: Sequence[Any], count_ids: Sequence[Any], system: System
) -> dict[str, Any]:
    """All controls of a form."""
    arm = _whose(form, read)
    case = case_of(arm.compared, arm.profile, date.today(), system)
    nobody_there = bool(unknown_code(form.who))
    form = replace(form, base=form.base or usual_base(case, arm.compared.kind))
    names, counted_names = names_in(typed_ids, TYPED), names_in(count_ids, COUNTED)
    specs, masses = fields_of(form), [] if nobody_there else masses_of(case)
    out = [mass for mass in form.left_out.split() if mass != texts_of(case.own_ball)[0]]
    return {
        "who": None if nobody_there else form.who,
        "controls": {name: getattr(form, name) or None for name in CONTROLS},
        "typed": [specs[name].shown(getattr(form, name), system) for name in names],
        "labels": [field_words(field_label(form, name, system)) for name in names],
        "descriptions": [field_description(form, name, system) for name in names],
        "counts": [getattr(form, f"{name}_in") for name in counted_names],
        "ways": [ways(name, system) for name in counted_names],
        "boxes": [] if nobody_there else boxes_of(case, own_stays=True),
        "ticked": [mass for mass in masses if mass not in out],
        "written": written(form, system, masses),
        "address": no_update,
    }


def draw(fields: dict[str, Any], read: Any, theme: Any, width: Any, means_ids: Sequence[Any]) -> dict[str, Any]:
    """Find what every ball allows, and put it into words and pictures; keep the form."""
    if not isinstance(read, dict) or fields.get("written") is None:
        raise PreventUpdate  # the page is opening
    form, today = _form(fields), date.today()
    arm, system = _whose(form, read), read_written(fields["written"])[1]
    answer = start_of(form, arm, today, system)
    unknown = nobody(form.who, compare_code(read, *_demo()), load_demo())
    view = view_of(answer, check_athlete(arm.compared.athlete, system), arm.unread, unknown)
    usual = usual_base(answer.case, arm.compared.kind)
    return {
        "saved": no_update if unknown else to_json(replace(form, base="" if form.base == usual else form.base)),
        "figure": start_figure(answer, theme_named(theme), width_px(width)),
        "paper": paper_figure(answer),
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "means": [means_of(answer, name) for name in names_in(means_ids, COUNTED)],
        "errors": [answer.checked.problems.get(name, "") for name in names_in(fields["typed_ids"], TYPED)],
        "invented": not is_invented(arm.compared, load_demo()),
        "wanted_hidden": answer.aim != "nearest_peak",
        "add_hidden": form.who != OF_COMPARE or answer.first is None,
    }


def add(pressed: Any, fields: dict[str, Any], read: Any, now: Any) -> dict[str, Any]:
    """Add the throw of the headline to Compare's list."""
    form = _form(fields)
    if not pressed or form.who != OF_COMPARE:
        raise PreventUpdate
    arm = kept_athlete(read, load_demo(), current_app.config["LEVELPEAK"].demo, now)
    system = read_written(fields["written"])[1]
    answer = start_of(form, arm, date.today(), system)
    if answer.first is None:
        return {"write": no_update, "notice": "Nothing added: no ball stands first."}
    choice = answer.first.choice
    speed = rounded_down(chosen(choice, system).speed_m_s, KEPT_PLACES)
    ball = choice.range.ball
    added = to_compare(arm.compared, Spot(ball.mass_kg, speed), answer.case, ball.diameter_m)
    return {"write": no_update if added.form is None else compare_json(added.form), "notice": added.notice}


def plan(pressed: Sequence[Any], parts: Sequence[Any], fields: dict[str, Any], read: Any) -> dict[str, object]:
    """Write down the throw that was pressed, for Build up."""
    source = ctx.triggered_id
    ball = source.get("ball") if isinstance(source, dict) else None
    counts = {part.get("ball"): count for part, count in zip(parts, pressed, strict=False) if isinstance(part, dict)}
    if not counts.get(ball):
        raise PreventUpdate  # a button that was just made, not one that was pressed
    form = _form(fields)
    answer = start_of(form, _whose(form, read), date.today(), read_written(fields["written"])[1])
    over = from_start(answer, ball)
    if over is None:
        raise PreventUpdate
    return plan_json(over)
