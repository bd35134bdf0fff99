"""The callbacks of the page's form: thin; they read the fields, call a pure function, and set the parts.

The fields are the one truth of what is asked, the store of the plan is that of the plan: nothing typed above changes a
plan before "Make the plan" is pressed. What is done to a plan is in `acting`.
"""

from datetime import date
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, html
from dash.exceptions import PreventUpdate
from flask import current_app

from app import ids
from app.athlete.answers import Case, case_of
from app.buildup import acting
from app.buildup.acts import missing_parts
from app.buildup.aims import aim_named
from app.buildup.answers import missing_of
from app.buildup.checks import DATES, FIELDS, check_form, default_text
from app.buildup.form import BY_AIM, NAMES, NO_DAYS, PlanForm, from_json, read_form, to_json
from app.buildup.meant import meant, read_written, written
from app.buildup.parts import ball_choices, field_description, field_label
from app.compare.form import LONGEST_KEPT, FormError
from app.compare.throwers import is_invented
from app.demo import load_demo
from app.drawn import drawn
from app.flat_form import by_name
from app.glossary import explained, field_words
from app.page_parts import names_in
from app.rack import boxes_of, left_out, masses_of, name_of, rack_of
from app.systems import System, system_named
from app.whose import UNREAD, who_words, whose
from model.build_up import METRICS

NUMBERS_AND_DAYS = (*FIELDS, *DATES)
FIELD = {"type": ids.BUILDUP_FIELD, "name": ALL}

CONTROLS = {
    "who": ids.BUILDUP_ATHLETE,
    "aim": ids.BUILDUP_AIM,
    "lead": ids.BUILDUP_LEAD,
    "start_ball": ids.BUILDUP_START_BALL,
    "goal_ball": ids.BUILDUP_GOAL_BALL,
}


def fields(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the form, as inputs or as states."""
    return {
        "controls": {name: kind(part, "value") for name, part in CONTROLS.items()},
        "days": kind(ids.BUILDUP_DAYS, "value"),
        "balls": kind(ids.BUILDUP_BALLS, "value"),
        "boxes": State(ids.BUILDUP_BALLS, "children"),
        "typed": kind(FIELD, "value"),
        "typed_ids": State(FIELD, "id"),
        "written": State(ids.BUILDUP_WRITTEN, "data"),
    }


def form_of(given: dict[str, Any]) -> tuple[PlanForm, System]:
    """Read the form from what the browser sent of the fields.

    Parameters
    ----------
    given : dict
        As `fields` has it.

    Returns
    -------
    PlanForm
    System
        The units the fields show.
    """
    before, system = read_written(given.get("written"))
    typed = by_name(given["typed_ids"], given["typed"])
    days = given.get("days")
    texts = {name: typed.get(name) for name in NUMBERS_AND_DAYS}
    texts |= given["controls"] | {
        "days": _days(days),
        "left_out": left_out(_shown(given.get("boxes")), given.get("balls")),
    }
    return meant(read_form(texts), before, system), system


def _days(ticked: object) -> str:
    days = [day for day in ticked if isinstance(day, str)] if isinstance(ticked, list) else []
    return " ".join(days)[:LONGEST_KEPT] or NO_DAYS


def _shown(boxes: object) -> list[str]:
    """The masses of the boxes on the page, as the browser sends their components."""
    found = []
    for box in boxes if isinstance(boxes, list) else []:
        props = box.get("props") if isinstance(box, dict) else None
        value = props.get("value") if isinstance(props, dict) else None
        if isinstance(value, str):
            found.append(value)
    return found


def case_for(form: PlanForm, read: Any, system: System) -> tuple[Case, bool, bool]:
    """The athlete a form asks about, whether he is invented, and whether something kept could not be read."""
    arm = whose(form.who, read, load_demo(), current_app.config["LEVELPEAK"].demo)
    case = case_of(arm.compared, arm.profile, date.today(), system)
    return case, is_invented(arm.compared, load_demo()), arm.unread


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "controls": {name: Output(part, "value") for name, part in CONTROLS.items()},
            "days": Output(ids.BUILDUP_DAYS, "value"),
            "balls": Output(ids.BUILDUP_BALLS, "value"),
            "boxes": Output(ids.BUILDUP_BALLS, "children"),
            "typed": Output(FIELD, "value"),
            "written": Output(ids.BUILDUP_WRITTEN, "data"),
        },
        inputs={
            "read": Input(ids.BUILDUP_READ, "data"),
            "units": Input(ids.SHELL_UNITS, "data"),
            "touched": [Input(ids.BUILDUP_AIM, "value"), Input(ids.BUILDUP_ATHLETE, "value")],
            "changes": Input(ids.BUILDUP_CHANGES, "data"),
            "given": fields(State),
            "saved": State(ids.BUILDUP_SAVED, "data"),
        },
    )(change)
    app.callback(
        output={
            "saved": Output(ids.BUILDUP_SAVED, "data"),
            "who": Output(ids.BUILDUP_WHO, "children"),
            "invented": Output(ids.BUILDUP_INVENTED, "hidden"),
            "aim": Output(ids.BUILDUP_AIM_SAID, "children"),
            "leads": Output(ids.BUILDUP_LEAD, "data"),
            "starts": Output(ids.BUILDUP_START_BALL, "data"),
            "goals": Output(ids.BUILDUP_GOAL_BALL, "data"),
            "missing": Output(ids.BUILDUP_MISSING, "children"),
            "errors": Output(FIELD, "error"),
            "labels": Output(FIELD, "label"),
            "descriptions": Output(FIELD, "description"),
            "hints": Output(FIELD, "placeholder"),
        },
        inputs={"given": fields(Input), "read": State(ids.BUILDUP_READ, "data")},
    )(tell)
    drawn(
        app,
        read=ids.BUILDUP_READ,
        width=ids.BUILDUP_WIDTH,
        papers=[ids.BUILDUP_STAIRS_PAPER, ids.BUILDUP_OVERLAY_PAPER],
        printing=Input({"type": ids.BUILDUP_TAKE, "name": "print"}, "n_clicks"),
    )
    acting.register(app, fields, form_of, case_for)


def change(
    read: Any, units: Any, touched: list[Any], changes: Any, given: dict[str, Any], saved: Any
) -> dict[str, Any]:
    """Open the page, show it in other units, go to another aim or athlete, or take what a button sets."""
    del touched  # their values are among the fields
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening, and the browser was not asked yet what it keeps
    source, system = ctx.triggered_id, system_named(units)
    if source in (None, ids.BUILDUP_READ) or given.get("written") is None:
        try:
            form = from_json(saved)
        except FormError:
            form = PlanForm()
    else:
        form, _ = form_of(given)
        if source == ids.BUILDUP_AIM:
            form = _with(form, {"days": ""})
        elif source == ids.BUILDUP_ATHLETE:
            form = _with(form, {"left_out": "", "start_ball": BY_AIM, "goal_ball": BY_AIM})
        elif source == ids.BUILDUP_CHANGES:
            form = _with(form, changes if isinstance(changes, dict) else {})
    case, _, _ = case_for(form, read, system)
    names = names_in(given["typed_ids"], NUMBERS_AND_DAYS)
    return {
        "controls": {name: getattr(form, name) for name in CONTROLS},
        "days": (form.days or aim_named(form.aim).days).split(),
        "balls": [mass for mass in masses_of(case) if mass not in form.left_out.split()],
        "boxes": boxes_of(case),
        "typed": [_shown_text(name, form, system) for name in names],
        "written": written(form, system),
    }


def _with(form: PlanForm, changes: dict[str, Any]) -> PlanForm:
    known = {name: text[:LONGEST_KEPT] for name, text in changes.items() if name in NAMES and isinstance(text, str)}
    return read_form({name: getattr(form, name) for name in NAMES} | known)


def _shown_text(name: str, form: PlanForm, system: System) -> str:
    text = str(getattr(form, name))
    return FIELDS[name].shown(text, system) if name in FIELDS else text


def tell(given: dict[str, Any], read: Any) -> dict[str, Any]:
    """Keep the form, and say what each field takes, what is wrong and what is missing."""
    if not isinstance(read, dict) or given.get("written") is None:
        raise PreventUpdate  # the page is opening
    form, system = form_of(given)
    case, invented, unread = case_for(form, read, system)
    checked = check_form(form, date.today(), system)
    aim = aim_named(form.aim)
    lead, own = METRICS[checked.lead][0], name_of(case.own_ball, case)
    first = own if aim.start_own else "lowest lead readout"
    missing = missing_of(case, checked)
    names = names_in(given["typed_ids"], NUMBERS_AND_DAYS)
    leads = [{"value": key, "label": label} for key, (label, _) in METRICS.items()]
    said = missing_parts(missing.measures, missing.speed, ()) if missing.measures or missing.speed else []
    return {
        "saved": to_json(form),
        "who": who_words(case),
        "invented": not invented,
        "aim": html.P([html.Strong("Improves: "), *explained(aim.improves), " ", aim.ends]),
        "leads": [{"value": BY_AIM, "label": f"by the aim: {METRICS[aim.lead][0]}"}, *leads],
        "starts": ball_choices(rack_of(case), first, lead),
        "goals": ball_choices(rack_of(case), own, ""),
        "missing": [*([html.P(UNREAD)] if unread else []), *said],
        "errors": [checked.problems.get(name, "") for name in names],
        "labels": [field_words(field_label(name, system)) for name in names],
        "descriptions": [field_words(field_description(name, form.aim, system)) for name in names],
        "hints": [default_text(name, form.aim, system) if name in FIELDS else "" for name in names],
    }
