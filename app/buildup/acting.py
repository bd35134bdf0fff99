"""The callbacks of the plan: what a button does to it, what is shown of it, and what is taken along."""

from collections.abc import Callable
from datetime import UTC, date, datetime
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate

from app import ids
from app.buildup import acts, log_fields
from app.buildup.answers import ball_value
from app.buildup.before import changed_fields, fields_back, read_plan, readable, remembered
from app.buildup.calendar_file import calendar_text
from app.buildup.file import text_of, to_json
from app.buildup.form import PlanForm
from app.buildup.log_fields import PAIN
from app.buildup.log_form import key_of, taken_out
from app.buildup.offers import offers_of
from app.buildup.overlay import overlay, paper_overlay
from app.buildup.parts import MAKE
from app.buildup.recheck import recheck
from app.buildup.record import Record, course_of
from app.buildup.stairs import paper_stairs, stairs
from app.buildup.table_file import file_name, sessions_table
from app.buildup.view import PARTS, offer_buttons, view_of
from app.cautions import is_growing
from app.compare.checks import message
from app.flat_form import by_name
from app.map.axes import BLANK, width_px
from app.palette import theme_named
from app.systems import system_named
from app.units import plain
from model.checks import InputError

DO = {"type": ids.BUILDUP_DO, "name": ALL}
OFFER = {"type": ids.BUILDUP_OFFER, "name": ALL}
HAND = {"type": ids.BUILDUP_HAND, "name": ALL}
TAKE = {"type": ids.BUILDUP_TAKE, "name": ALL}

CHOSEN = {
    "step": ids.BUILDUP_STEP,
    "ball": ids.BUILDUP_STEP_BALL,
    "session": ids.BUILDUP_SESSION,
    "held": ids.BUILDUP_HELD,
    "signs": ids.BUILDUP_SIGNS,
    "decision": ids.BUILDUP_DECISION,
}
SAID = {"notice": ids.BUILDUP_NOTICE, "by_hand": ids.BUILDUP_NOTICE_HAND, "log": ids.BUILDUP_NOTICE_LOG}
"""Where it is said what happened: beside the button that was pressed."""
BESIDE = dict.fromkeys(("step", "leave_out", "put_in", "rest", "session"), "by_hand") | dict.fromkeys(
    ("log", "reopen", "again"), "log"
)
UNREAD = "The plan that this browser keeps could not be read, and is not shown. It stays until a plan takes its place."
PART_IDS = {
    "growing": ids.BUILDUP_GROWING,
    "body": ids.BUILDUP_BODY,
    "numbers": f"{ids.BUILDUP_NUMBERS}-part",
    "log": ids.BUILDUP_LOG,
    "logged": ids.BUILDUP_LOGGED,
    "stopped": f"{ids.BUILDUP_LOG}-stopped",
}


def hand_id(name: str) -> dict[str, str]:
    """Id of a field beside the plan."""
    return {"type": ids.BUILDUP_HAND, "name": name}


def do_id(name: str) -> dict[str, str]:
    """Id of a button that does something to the plan."""
    return {"type": ids.BUILDUP_DO, "name": name}


def register(app: Dash, fields: Callable[..., Any], form_of: Callable[..., Any], case_for: Callable[..., Any]) -> None:
    """Give the callbacks to the app.

    Parameters
    ----------
    app : Dash
    fields, form_of, case_for : callable
        How the form is read, see `callbacks`.
    """

    def act(pressed: Any, given: dict[str, Any], beside: dict[str, Any], **kept: Any) -> dict[str, Any]:
        del pressed
        return acted(form_of(given), case_for, beside, kept)

    def draw(kept: Any, read: Any, who: Any, given: dict[str, Any], **look: Any) -> dict[str, Any]:
        del who
        if not isinstance(read, dict):
            raise PreventUpdate  # the page is opening
        return drawn(kept, case_for(form_of(given)[0], read, system_named(look["units"]))[0], look)

    app.callback(
        output={
            "plan": Output(ids.BUILDUP_PLAN, "data"),
            "before": Output(ids.BUILDUP_BEFORE, "data"),
            **{place: Output(part, "children") for place, part in SAID.items()},
            "changes": Output(ids.BUILDUP_CHANGES, "data"),
            "upload": Output(ids.BUILDUP_UPLOAD, "contents"),
            "opened": Output(ids.BUILDUP_LOG_OPENED, "data"),
        },
        inputs={
            "pressed": [
                Input(ids.BUILDUP_MAKE, "n_clicks"),
                Input(DO, "n_clicks"),
                Input(OFFER, "n_clicks"),
                Input(ids.BUILDUP_UPLOAD, "contents"),
            ],
            "given": fields(State),
            "beside": {
                "hand": State(HAND, "value"),
                "hand_ids": State(HAND, "id"),
                "pains": State(PAIN, "value"),
                "pain_ids": State(PAIN, "id"),
                "chosen": {name: State(part, "value") for name, part in CHOSEN.items()},
            },
            "plan": State(ids.BUILDUP_PLAN, "data"),
            "before": State(ids.BUILDUP_BEFORE, "data"),
            "read": State(ids.BUILDUP_READ, "data"),
            "log_of": State(ids.BUILDUP_LOG_OF, "data"),
        },
        running=[
            (Output(ids.BUILDUP_MAKE, "disabled"), True, False),
            (Output(ids.BUILDUP_MAKE, "children"), "Planning…", MAKE),
        ],
        prevent_initial_call=True,
    )(act)
    app.callback(
        output={
            "told": Output(ids.BUILDUP_TOLD, "data"),
            "hidden": {name: Output(part, "hidden") for name, part in PART_IDS.items()},
            "steps": Output(ids.BUILDUP_STEP, "data"),
            "balls": Output(ids.BUILDUP_STEP_BALL, "data"),
            "sessions": Output(ids.BUILDUP_SESSION, "data"),
            "offers": Output(ids.BUILDUP_OFFERS, "children"),
            "away": Output(do_id("away"), "hidden"),
            "open": Output(ids.BUILDUP_ASKED, "open"),
            "stairs": Output(ids.BUILDUP_STAIRS, "figure"),
            "stairs_paper": Output(ids.BUILDUP_STAIRS_PAPER, "data"),
            "overlay": Output(ids.BUILDUP_OVERLAY, "figure"),
            "overlay_paper": Output(ids.BUILDUP_OVERLAY_PAPER, "data"),
        },
        inputs={
            "kept": Input(ids.BUILDUP_PLAN, "data"),
            "read": Input(ids.BUILDUP_READ, "data"),
            "who": Input(ids.BUILDUP_ATHLETE, "value"),
            "theme": Input(ids.SHELL_THEME, "data"),
            "units": Input(ids.SHELL_UNITS, "data"),
            "width": Input(ids.BUILDUP_WIDTH, "data"),
            "given": fields(State),
        },
    )(draw)
    app.callback(
        output={
            "ball": Output(ids.BUILDUP_STEP_BALL, "value"),
            "texts": {name: Output(hand_id(name), "value") for name in ("share", "sessions", "day", "throws")},
            "step": Output(ids.BUILDUP_STEP, "value"),
            "session": Output(ids.BUILDUP_SESSION, "value"),
        },
        inputs={
            "step": Input(ids.BUILDUP_STEP, "value"),
            "session": Input(ids.BUILDUP_SESSION, "value"),
            "kept": Input(ids.BUILDUP_PLAN, "data"),
        },
    )(picked)
    log_fields.register(app)
    app.callback(
        Output(ids.BUILDUP_FILE, "data"),
        Input(TAKE, "n_clicks"),
        State(ids.BUILDUP_PLAN, "data"),
        State(ids.BUILDUP_WITH_CODE, "checked"),
        State(ids.SHELL_UNITS, "data"),
        prevent_initial_call=True,
    )(taken)
    app.callback(
        Output(do_id("undo"), "disabled"),
        Input(ids.BUILDUP_BEFORE, "data"),
    )(lambda before: not before)
    app.clientside_callback(ClientsideFunction("shell", "fill"), Input(ids.BUILDUP_TOLD, "data"))


def acted(
    given: tuple[Any, Any], case_for: Callable[..., Any], beside: dict[str, Any], kept: dict[str, Any]
) -> dict[str, Any]:
    """Do what was pressed."""
    source, pressed = ctx.triggered_id, [one["value"] for one in ctx.triggered]
    if not any(pressed):
        raise PreventUpdate  # buttons that were just made
    form, system = given
    name = source.get("name") if isinstance(source, dict) else None
    if name == "undo":
        return undone(kept["before"], form, kept["plan"])
    case, invented, _ = case_for(form, kept["read"], system)
    record = read_plan(kept["plan"])
    if name == "log" and record is not None and kept["log_of"] != key_of(record):
        return _nothing() | _said(name, "Not kept: the fields are being made ready for another session.")
    page = acts.Page(
        form,
        case,
        invented,
        record,
        date.today(),
        by_name(beside["hand_ids"], beside["hand"]),
        by_name(beside["pain_ids"], beside["pains"]),
        beside["chosen"],
        system,
    )
    try:
        act = _act(source, name, pressed[0], page)
    except InputError as error:
        return _nothing() | _said(name, f"Not changed: {message(error)}") | {"upload": None}
    return changed(act, page, kept["plan"], kept["before"], name)


def changed(act: acts.Act, page: acts.Page, plan: Any, before: Any, name: object = None) -> dict[str, Any]:
    """Say what an act changes on the page, and keep what was before it.

    Parameters
    ----------
    act : Act
    page : Page
        As it was.
    plan, before : object
        The plan, and what was before the last changes, as the browser kept them.
    name : object
        Of the button: what happened is said beside it.

    Returns
    -------
    dict
    """
    made = _nothing() | _said(name, act.said) | {"upload": None}
    fields = changed_fields(page.form, act.form)
    if fields:
        made["changes"] = act.form
    if act.record != page.record:
        made |= {"plan": None if act.record is None else to_json(act.record)} | _opened(page.record, act.record)
    if fields or act.record != page.record:
        made["before"] = remembered([*_listed(before), {"plan": plan, "form": fields}])
    return made


def _act(source: Any, name: Any, value: Any, page: acts.Page) -> acts.Act:
    if source == ids.BUILDUP_MAKE:
        return acts.made(page)
    if source == ids.BUILDUP_UPLOAD:
        return acts.opened(page, value)
    kind = source.get("type") if isinstance(source, dict) else None
    if kind == ids.BUILDUP_OFFER:
        return acts.offered(page, str(name))
    return acts.done(page, str(name))


def undone(before: Any, form: PlanForm, plan: Any) -> dict[str, Any]:
    """Go back to what was before the last change: the plan, the fields that a button set, the session that was typed.

    Parameters
    ----------
    before, plan : object
        As `changed` takes them.
    form : PlanForm
        As it stands.

    Returns
    -------
    dict

    Raises
    ------
    PreventUpdate
        If there is nothing to go back to.
    """
    left = readable(_listed(before))
    if not left:
        raise PreventUpdate
    last = left[-1]
    made = _nothing() | _said(None, "The last change was undone.") | {"plan": last["plan"], "before": left[:-1]}
    fields = fields_back(form, last["form"])
    return made | ({"changes": fields} if fields else {}) | _opened(read_plan(plan), read_plan(last["plan"]))


def _listed(before: Any) -> list[Any]:
    return before if isinstance(before, list) else []


def _opened(before: Record | None, now: Record | None) -> dict[str, Any]:
    opened = taken_out(before, now)
    return {} if opened is None else {"opened": opened}


def _said(name: object, words: Any) -> dict[str, Any]:
    place = BESIDE.get(name, "notice") if isinstance(name, str) else "notice"
    return dict.fromkeys(SAID, "") | {place: words}


def _nothing() -> dict[str, Any]:
    return dict.fromkeys((*SAID, "plan", "before", "changes", "upload", "opened"), no_update)


def drawn(kept: Any, case: Any, look: dict[str, Any]) -> dict[str, Any]:
    """Show the plan."""
    system, theme, width = system_named(look["units"]), theme_named(look["theme"]), width_px(look["width"])
    record, today = read_plan(kept), date.today()
    unread = kept is not None and record is None
    course = None if record is None else course_of(record)
    shown = course is not None and not (is_growing(course.record.person) and course.record.read is None)
    found = None if record is None else recheck(record, case)
    days, offers = offers_of(course, today) if course is not None and shown else ("", ())
    view = view_of(course, found, UNREAD if unread else _other(record, case), days, system)
    drawing = course if shown else None
    return {
        "told": view.told,
        "hidden": {name: view.hidden[name] for name in PARTS},
        "steps": view.steps,
        "balls": view.balls,
        "sessions": view.sessions,
        "offers": offer_buttons(offers),
        "away": record is None,
        "open": record is None,
        "stairs": BLANK if drawing is None else stairs(drawing, theme, system, width),
        "stairs_paper": {} if drawing is None else paper_stairs(drawing, system),
        "overlay": BLANK if drawing is None else overlay(drawing, theme, system, width),
        "overlay_paper": {} if drawing is None else paper_overlay(drawing, system),
    }


def _other(record: Record | None, case: Any) -> str:
    """What is to be said of the athlete of the other pages, where it is not the plan's."""
    if record is None or not case.code or case.code == record.code:
        return ""
    return (
        f"This plan is of {record.code or 'an athlete without a code'}; above stands {case.code}. It stays as it is, "
        "and is not held against the readings of another."
    )


def picked(step: Any, session: Any, kept: Any) -> dict[str, Any]:
    """Fill the fields of changes by hand with what the chosen step and session have now."""
    record = read_plan(kept)
    texts = dict.fromkeys(("share", "sessions", "day", "throws"), "")
    if record is None:
        return {"ball": None, "texts": texts, "step": None, "session": None}
    first, last = min(record.place, len(record.throws) - 1), len(record.throws) - 1
    place = int(step[:4]) if isinstance(step, str) and step.isdecimal() else first
    place = place if first <= place <= last else first
    ball, share = record.throws[place]
    at = record.at if record.at is not None else len(record.order)
    index = int(session[:6]) if isinstance(session, str) and session.isdecimal() else at
    index = index if at <= index < len(record.order) else at
    by_hand = record.by_hand.get(index)
    texts |= {"share": plain(100.0 * share, most=1), "sessions": str(record.repeats[place])}
    if by_hand is not None:
        texts["day"] = by_hand.day.isoformat() if by_hand.day else ""
        texts["throws"] = str(by_hand.throws) if by_hand.throws else ""
    return {
        "ball": ball_value(ball),
        "texts": texts,
        "step": str(place),
        "session": str(index) if index < len(record.order) else None,
    }


def taken(pressed: list[int | None], kept: Any, with_code: Any, units: Any) -> Any:
    """Make the file that was asked for."""
    source, record = ctx.triggered_id, read_plan(kept)
    name = source.get("name") if isinstance(source, dict) else None
    if not any(pressed) or record is None or name == "print" or (is_growing(record.person) and record.read is None):
        raise PreventUpdate
    course, today = course_of(record), date.today()
    if name == "table":
        made = sessions_table(course), "csv", "text/csv;charset=utf-8"
    elif name == "calendar":
        text = calendar_text(course, datetime.now(UTC), with_code is True, system_named(units))
        made = text, "ics", "text/calendar;charset=utf-8"
    else:
        made = text_of(record), "json", "application/json;charset=utf-8"
    return {"content": made[0], "filename": file_name(record, today, made[1]), "type": made[2]}
