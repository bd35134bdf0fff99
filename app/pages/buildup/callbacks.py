"""The callbacks of the page's form: thin; they read the fields, call a pure function, and set the parts.

The fields are the one truth of what is asked, the store of the plan is that of the plan: nothing typed above changes a
plan before "Make the plan" is pressed. What is done to a plan is in `acting`.
"""

import hashlib
from datetime import date
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, html, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import load_demo
from app.pages.buildup import acting, form_words, ids
from app.pages.buildup.aims import aim_named
from app.pages.buildup.answers import missing_of
from app.pages.buildup.athlete import Athlete, reference_of
from app.pages.buildup.checks import DATES, FIELDS, check_form, default_text
from app.pages.buildup.compare_orders import compare
from app.pages.buildup.form import NAMES, NO_DAYS, OWN, USUAL, PlanForm, from_json, read_form, to_json
from app.pages.buildup.making import Page, missing_parts
from app.pages.buildup.meant import meant, read_written, written
from app.pages.buildup.orders import orders_of
from app.pages.buildup.parts import ASKED_FOR, TEXTS, field_description, field_label, order_choices
from app.show import ids as shared_ids
from app.show.drawn import drawn
from app.show.flat_form import by_name
from app.show.from_start import FromStart
from app.show.from_start import from_json as read_given
from app.show.glossary import explained, field_words
from app.show.invented import is_invented
from app.show.page_parts import names_in
from app.show.rack import boxes_of, left_out, masses_of
from app.show.subject import case_of
from app.show.throw_form import LONGEST_KEPT, FormError
from app.show.whose import UNREAD, who_words, whose
from app.units.systems import System, system_named

TYPED = (*FIELDS, *DATES, *TEXTS)
FIELD = {"type": ids.BUILDUP_FIELD, "name": ALL}

CONTROLS = {
    "who": ids.BUILDUP_ATHLETE,
    "aim": ids.BUILDUP_AIM,
    "lead": ids.BUILDUP_LEAD,
    "holds": ids.BUILDUP_HOLDS,
    "order": ids.BUILDUP_ORDER,
    "between_ball": ids.BUILDUP_BETWEEN,
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
    """Read the form from what the browser sent of the fields, as `fields` has it; and the units that these show."""
    before, system = read_written(given.get("written"))
    typed = by_name(given["typed_ids"], given["typed"])
    texts = {name: typed.get(name) for name in TYPED}
    texts |= given["controls"] | {
        "given": before.given,
        "days": _days(given.get("days")),
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


def athlete_for(form: PlanForm, read: Any, from_start: Any, system: System) -> tuple[Athlete, FromStart | None, bool]:
    """The athlete a form asks about; what came over from Start for another; whether something could not be read."""
    demo, today = load_demo(), date.today()
    arm = whose(form.who, read, demo, current_app.config["LEVELPEAK"].demo)
    case = case_of(arm.compared, arm.profile, today, system)
    given = None
    if from_start is not None:
        try:
            given = read_given(from_start)
        except FormError:
            given = None
    mine = given is not None and (given.who, given.code) == (form.who, case.code)
    reference = reference_of(case, arm.compared, today)
    athlete = Athlete(case, is_invented(arm.compared, demo), reference, given if mine else None)
    return athlete, None if mine else given, arm.unread


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    app.callback(
        output={
            "controls": {name: Output(part, "value") for name, part in CONTROLS.items()},
            "days": Output(ids.BUILDUP_DAYS, "value"),
            "balls": Output(ids.BUILDUP_BALLS, "value"),
            "boxes": Output(ids.BUILDUP_BALLS, "children"),
            "orders": Output(ids.BUILDUP_ORDER, "children"),
            "typed": Output(FIELD, "value"),
            "written": Output(ids.BUILDUP_WRITTEN, "data"),
        },
        inputs={
            "read": Input(ids.BUILDUP_READ, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
            "touched": [Input(ids.BUILDUP_AIM, "value"), Input(ids.BUILDUP_ATHLETE, "value")],
            "changes": Input(ids.BUILDUP_CHANGES, "data"),
            "from_start": Input(ids.BUILDUP_FROM_START, "data"),
            "given": fields(State),
            "saved": State(ids.BUILDUP_SAVED, "data"),
        },
    )(change)
    app.callback(
        output={
            "saved": Output(ids.BUILDUP_SAVED, "data"),
            "who": Output(ids.BUILDUP_WHO, "children"),
            "invented": Output(ids.BUILDUP_INVENTED, "hidden"),
            "grows": Output(ids.BUILDUP_GROWS, "children"),
            "grows_hidden": Output(ids.BUILDUP_GROWS, "hidden"),
            "aim": Output(ids.BUILDUP_AIM_SAID, "children"),
            "leads": Output(ids.BUILDUP_LEAD, "data"),
            "goals": Output(ids.BUILDUP_GOAL_BALL, "data"),
            "goal_hidden": Output(f"{ids.BUILDUP_GOAL_BALL}-part", "hidden"),
            "between": Output(ids.BUILDUP_BETWEEN, "data"),
            "between_hidden": Output(f"{ids.BUILDUP_BETWEEN}-part", "hidden"),
            "compare_hidden": Output(ids.BUILDUP_COMPARE, "hidden"),
            "cleared_hidden": Output(ids.BUILDUP_CLEARED, "hidden"),
            "start": Output(ids.BUILDUP_GIVEN, "children"),
            "start_hidden": Output(f"{ids.BUILDUP_GIVEN}-part", "hidden"),
            "start_fields": Output(f"{ids.BUILDUP_GIVEN}-fields", "hidden"),
            "count_hidden": Output(f"{ids.BUILDUP_HOLDS}-count", "hidden"),
            "missing": Output(ids.BUILDUP_MISSING, "children"),
            "errors": Output(FIELD, "error"),
            "labels": Output(FIELD, "label"),
            "descriptions": Output(FIELD, "description"),
            "hints": Output(FIELD, "placeholder"),
        },
        inputs={
            "given": fields(Input),
            "read": State(ids.BUILDUP_READ, "data"),
            "from_start": Input(ids.BUILDUP_FROM_START, "data"),
        },
    )(tell)
    app.callback(
        output={"orders": Output(ids.BUILDUP_ORDERS, "children"), "of": Output(ids.BUILDUP_COMPARED, "data")},
        inputs={
            "pressed": Input(ids.BUILDUP_COMPARE, "n_clicks"),
            "given": fields(Input),  # another form: what was compared no longer holds
            "read": State(ids.BUILDUP_READ, "data"),
            "from_start": State(ids.BUILDUP_FROM_START, "data"),
            "plan": State(ids.BUILDUP_PLAN, "data"),
            "known": State(ids.BUILDUP_KNOWN, "data"),
            "of": State(ids.BUILDUP_COMPARED, "data"),
        },
        prevent_initial_call=True,
    )(compared)
    app.callback(
        Output(ids.BUILDUP_FROM_START, "data"), Input(ids.BUILDUP_DROP, "n_clicks"), prevent_initial_call=True
    )(lambda pressed: None if pressed else no_update)
    drawn(
        app,
        read=ids.BUILDUP_READ,
        width=ids.BUILDUP_WIDTH,
        papers=[ids.BUILDUP_STAIRS_PAPER, ids.BUILDUP_OVERLAY_PAPER],
    )
    acting.register(app, fields, form_of, athlete_for)


def change(
    read: Any, units: Any, touched: list[Any], changes: Any, from_start: Any, given: dict[str, Any], saved: Any
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
        form = _arrived(form, from_start)
    else:
        form, _ = form_of(given)
        if source == ids.BUILDUP_AIM:
            form = _with(form, {"days": "", "order": ""})
        elif source == ids.BUILDUP_ATHLETE:
            form = _with(form, {"left_out": "", "order": "", "between_ball": USUAL, "goal_ball": OWN})
        elif source == ids.BUILDUP_CHANGES:
            form = _with(form, changes if isinstance(changes, dict) else {})
    athlete, _, _ = athlete_for(form, read, from_start, system)
    case, care = athlete.case, athlete.care(form.aim)
    names = names_in(given["typed_ids"], TYPED)
    controls = {name: getattr(form, name) for name in CONTROLS} | {"order": form.order or care.order}
    return {
        "controls": controls,
        "days": (form.days or care.value("days")).split(),
        "balls": [mass for mass in masses_of(case) if mass not in form.left_out.split()],
        "boxes": boxes_of(case),
        "orders": order_choices(list(orders_of(form, athlete))),
        "typed": [_shown_text(name, form, system) for name in names],
        "written": written(form, system),
    }


def _arrived(form: PlanForm, from_start: Any) -> PlanForm:
    """Choose the athlete for whom something has come over from Start since the page was open last."""
    try:
        given = read_given(from_start)
    except FormError:
        return form
    mark = hashlib.sha256(repr(given).encode()).hexdigest()[:12]
    return form if mark == form.given else _with(form, {"who": given.who, "given": mark, "order": "", "left_out": ""})


def _with(form: PlanForm, changes: dict[str, Any]) -> PlanForm:
    known = {name: text[:LONGEST_KEPT] for name, text in changes.items() if name in NAMES and isinstance(text, str)}
    return read_form({name: getattr(form, name) for name in NAMES} | known)


def _shown_text(name: str, form: PlanForm, system: System) -> str | None:
    text = str(getattr(form, name))
    if name == "cleared_role":
        return text or None  # a list without a choice
    return FIELDS[name].shown(text, system) if name in FIELDS else text


def tell(given: dict[str, Any], read: Any, from_start: Any) -> dict[str, Any]:
    """Keep the form, and say what each field takes, what is wrong and what is missing."""
    if not isinstance(read, dict) or given.get("written") is None:
        raise PreventUpdate  # the page is opening
    form, system = form_of(given)
    athlete, other, unread = athlete_for(form, read, from_start, system)
    case, care, aim = athlete.case, athlete.care(form.aim), aim_named(form.aim)
    checked = check_form(form, date.today(), care, athlete.given is not None, system)
    missing = missing_of(case, checked)
    names = names_in(given["typed_ids"], TYPED)
    said = missing_parts(missing.measures, missing.speed, ()) if missing.measures or missing.speed else []
    between = form_words.between_choices(form, athlete)
    return {
        "saved": to_json(form),
        "who": who_words(case),
        "invented": not athlete.invented,
        "grows": form_words.grows(case.person),
        "grows_hidden": not care.growing,
        "aim": html.P([html.Strong("Improves: "), *explained(aim.improves), " ", aim.ends]),
        "leads": form_words.lead_choices(form.aim),
        "goals": form_words.goal_choices(case),
        "goal_hidden": care.guarded or aim.only_own,
        "between": between,
        "between_hidden": form.order != "between",
        "compare_hidden": aim.only_own,
        "cleared_hidden": not care.injury,
        "start": form_words.given_parts(athlete, other, system),
        "start_hidden": athlete.given is None and other is None,
        "start_fields": athlete.given is None,
        "count_hidden": form.holds not in ("steps", "weeks"),
        "missing": [*([html.P(UNREAD)] if unread else []), *said],
        "errors": [checked.problems.get(name, "") for name in names],
        "labels": [field_words(field_label(name, system)) for name in names],
        "descriptions": [field_words(field_description(name, care, system)) for name in names],
        "hints": [
            (default_text(name, care, system) or (ASKED_FOR if form_words.is_asked(name, care) else ""))
            for name in names
        ],
    }


def compared(
    pressed: Any, given: dict[str, Any], read: Any, from_start: Any, plan: Any, known: Any, of: Any
) -> dict[str, Any]:
    """Work all orders out when asked to; what was worked out goes when the form becomes another."""
    form, system = form_of(given)
    if ctx.triggered_id != ids.BUILDUP_COMPARE or not pressed or not isinstance(read, dict):
        if of is None or of == to_json(form):
            raise PreventUpdate
        return {"orders": [], "of": None}
    athlete = acting.with_known(athlete_for(form, read, from_start, system)[0], known, plan)
    return {"orders": compare(Page(form, athlete, None, date.today(), system=system)), "of": to_json(form)}
