"""The callbacks of the plan: what a button does to it, what is shown of it, and what is taken along."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate

from app.pages.buildup import acts, ids, log_edits, log_fields, making
from app.pages.buildup.athlete import Athlete
from app.pages.buildup.before import changed_fields, fields_back, read_plan, readable, remembered
from app.pages.buildup.calendar_file import calendar_text
from app.pages.buildup.course import course_of
from app.pages.buildup.file import text_of, to_json
from app.pages.buildup.form import PlanForm
from app.pages.buildup.log_fields import LOG_FIELD
from app.pages.buildup.log_form import key_of, read_values
from app.pages.buildup.making import Act, Page
from app.pages.buildup.parts import MAKE
from app.pages.buildup.record import Record
from app.pages.buildup.showing import drawn, picked
from app.pages.buildup.signs import before_making, joined, kept_signs, noted
from app.pages.buildup.table_file import file_name, sessions_table
from app.show import ids as shared_ids
from app.show.cautions import is_growing
from app.show.checks import message
from app.show.flat_form import by_name
from app.units.systems import system_named
from model.checks import InputError
from model.stop_signs import together

DO = {"type": ids.BUILDUP_DO, "name": ALL}
OFFER = {"type": ids.BUILDUP_OFFER, "name": ALL}
HAND = {"type": ids.BUILDUP_HAND, "name": ALL}
TAKE = {"type": ids.BUILDUP_TAKE, "name": ALL}

CHOSEN = {
    "step": ids.BUILDUP_STEP,
    "ball": ids.BUILDUP_STEP_BALL,
    "session": ids.BUILDUP_SESSION,
}
SAID = {"notice": ids.BUILDUP_NOTICE, "by_hand": ids.BUILDUP_NOTICE_HAND, "log": ids.BUILDUP_NOTICE_LOG}
"""Where it is said what happened: beside the button that was pressed."""
BESIDE = dict.fromkeys(("step", "leave_out", "put_in", "rest", "session"), "by_hand") | dict.fromkeys(
    ("log", "reopen", "again", "sign", "clear_limits"), "log"
)
PART_IDS = {
    "growing": ids.BUILDUP_GROWING,
    "body": ids.BUILDUP_BODY,
    "numbers": f"{ids.BUILDUP_NUMBERS}-part",
    "log": ids.BUILDUP_LOG,
    "logged": ids.BUILDUP_LOGGED,
    "stopped": f"{ids.BUILDUP_LOG}-stopped",
    "signs": ids.BUILDUP_SIGNS,
    "clear_limits": f"{ids.BUILDUP_GIVEN}-clear",
    "log_table": f"{ids.BUILDUP_LOG_TABLE}-part",
    "hand": f"{ids.BUILDUP_STEP}-part",
}


def hand_id(name: str) -> dict[str, str]:
    """Id of a field beside the plan."""
    return {"type": ids.BUILDUP_HAND, "name": name}


def do_id(name: str) -> dict[str, str]:
    """Id of a button that does something to the plan."""
    return {"type": ids.BUILDUP_DO, "name": name}


def with_known(athlete: Athlete, known: Any, plan: Any) -> Athlete:
    """The athlete with the stop signs so far, by what the browser keeps and the plan on the page."""
    case = athlete.case
    return replace(athlete, known=before_making(known, read_plan(plan), case.code, athlete.invented))


def register(
    app: Dash, fields: Callable[..., Any], form_of: Callable[..., Any], athlete_for: Callable[..., Any]
) -> None:
    """Give the callbacks to the app; the other three tell how the form is read, see `callbacks`."""

    def act(pressed: Any, given: dict[str, Any], beside: dict[str, Any], **kept: Any) -> dict[str, Any]:
        del pressed
        return acted(form_of(given), athlete_for, beside, kept)

    def draw(
        kept: Any, read: Any, who: Any, known: Any, from_start: Any, given: dict[str, Any], **look: Any
    ) -> dict[str, Any]:
        del who
        if not isinstance(read, dict):
            raise PreventUpdate  # the page is opening
        athlete = athlete_for(form_of(given)[0], read, from_start, system_named(look["units"]))[0]
        return drawn(kept, with_known(athlete, known, None), look)

    app.callback(
        output={
            "plan": Output(ids.BUILDUP_PLAN, "data"),
            "before": Output(ids.BUILDUP_BEFORE, "data"),
            **{place: Output(part, "children") for place, part in SAID.items()},
            "changes": Output(ids.BUILDUP_CHANGES, "data"),
            "upload": Output(ids.BUILDUP_UPLOAD, "contents"),
            "known": Output(ids.BUILDUP_KNOWN, "data"),
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
                "log": State(LOG_FIELD, "value"),
                "log_ids": State(LOG_FIELD, "id"),
                "chosen": {name: State(part, "value") for name, part in CHOSEN.items()},
            },
            "plan": State(ids.BUILDUP_PLAN, "data"),
            "before": State(ids.BUILDUP_BEFORE, "data"),
            "read": State(ids.BUILDUP_READ, "data"),
            "log_of": State(ids.BUILDUP_LOG_OF, "data"),
            "from_start": State(ids.BUILDUP_FROM_START, "data"),
            "known": State(ids.BUILDUP_KNOWN, "data"),
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
            "signs": Output(hand_id("withdraw_what"), "data"),
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
            "known": Input(ids.BUILDUP_KNOWN, "data"),
            "from_start": Input(ids.BUILDUP_FROM_START, "data"),
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
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
        Output(ids.BUILDUP_PLAN, "data", allow_duplicate=True),
        Input(TAKE, "n_clicks"),
        State(ids.BUILDUP_PLAN, "data"),
        State(ids.BUILDUP_WITH_CODE, "checked"),
        State(shared_ids.SHELL_UNITS, "data"),
        prevent_initial_call=True,
    )(taken)
    app.clientside_callback(ClientsideFunction("buildup", "print"), Input(TAKE, "n_clicks"), prevent_initial_call=True)
    app.callback(
        Output(do_id("undo"), "disabled"),
        Input(ids.BUILDUP_BEFORE, "data"),
    )(lambda before: not before)
    app.clientside_callback(ClientsideFunction("shell", "fill"), Input(ids.BUILDUP_TOLD, "data"))


def acted(
    given: tuple[Any, Any], athlete_for: Callable[..., Any], beside: dict[str, Any], kept: dict[str, Any]
) -> dict[str, Any]:
    """Do what was pressed."""
    source, pressed = ctx.triggered_id, [one["value"] for one in ctx.triggered]
    if not any(pressed):
        raise PreventUpdate  # buttons that were just made
    form, system = given
    name = source.get("name") if isinstance(source, dict) else None
    if name == "undo":
        return undone(kept["before"], form, kept["plan"], kept["known"])
    athlete = with_known(athlete_for(form, kept["read"], kept["from_start"], system)[0], kept["known"], kept["plan"])
    record = read_plan(kept["plan"])
    of, units = _log_of(kept["log_of"])
    log, at = read_values(by_name(beside["log_ids"], beside["log"]), units), _session_of(of, record)
    if name == "log" and record is not None and at is None:
        return _nothing() | _said(name, "Not kept: the fields are being made ready for another session.")
    hand = by_name(beside["hand_ids"], beside["hand"])
    page = Page(form, athlete, record, date.today(), hand, log, at or 0, beside["chosen"], system)
    try:
        act = _act(source, name, pressed[0], page)
    except InputError as error:
        return _nothing() | _said(name, f"Not changed: {message(error)}") | {"upload": None}
    return changed(act, page, kept, name)


def _log_of(of: Any) -> tuple[str, str]:
    """Which session the fields are of, and the units they show."""
    known = of if isinstance(of, dict) else {}
    key, units = known.get("key"), known.get("units")
    return key if isinstance(key, str) else "", units if isinstance(units, str) else "metric"


def _session_of(key: str, record: Record | None) -> int | None:
    """Which session of a plan a key names; None if it is of another."""
    if record is None:
        return None
    return next((at for at in range(len(record.log) + 1) if key_of(record, at) == key), None)


def changed(act: Act, page: Page, kept: dict[str, Any], name: object = None) -> dict[str, Any]:
    """Say what an act changes on the page, and keep what was before it.

    Parameters
    ----------
    page : Page
        As it was.
    kept : dict
        ``plan``, ``before`` and ``known``, as the browser kept them.
    name : object
        Of the button: what happened is said beside it.
    """
    made = _nothing() | _said(name, act.said) | {"upload": None}
    fields = changed_fields(page.form, act.form)
    if fields:
        made["changes"] = act.form
    record, known = act.record, kept["known"]
    if page.record is not None:
        known = noted(known, page.record)
    if record is not None:
        record = joined(record, known)
        known = noted(known, record)
    if act.signs is not None:
        known = kept_signs(known, page.athlete.case.code, page.athlete.invented, act.signs)
    if known != kept["known"]:
        made["known"] = known
    if record != page.record:
        made["plan"] = None if record is None else to_json(record)
    if fields or record != page.record:
        made["before"] = remembered([*_listed(kept["before"]), {"plan": kept["plan"], "form": fields}])
    return made


def _act(source: Any, name: Any, value: Any, page: Page) -> Act:
    if source == ids.BUILDUP_MAKE:
        return making.made(page)
    if source == ids.BUILDUP_UPLOAD:
        return acts.opened(page, value)
    kind = source.get("type") if isinstance(source, dict) else None
    if kind == ids.BUILDUP_OFFER:
        return making.offered(page, str(name))
    return acts.done(page, str(name))


def undone(before: Any, form: PlanForm, plan: Any, known: Any) -> dict[str, Any]:
    """Go back to what was before the last change: the plan, and the fields that a button set. No stop sign is lost.

    Parameters
    ----------
    before : object
        What the browser kept of the changes.
    form : PlanForm
        As it stands.
    plan, known : object
        The plan on the page and the stop signs of all athletes, as the browser kept them.

    Raises
    ------
    PreventUpdate
        If there is nothing to go back to.
    """
    left = readable(_listed(before))
    if not left:
        raise PreventUpdate
    now, then = read_plan(plan), read_plan(left[-1]["plan"])
    known = noted(known, now) if now is not None else known
    kept = None if then is None else back_to(then, now, known)
    made = _nothing() | _said(None, "The last change was undone.") | {"before": left[:-1], "known": known}
    made["plan"] = None if kept is None else to_json(kept)
    fields = fields_back(form, left[-1]["form"])
    return made | ({"changes": fields} if fields else {})


def back_to(then: Record, now: Record | None, known: Any) -> Record:
    """A plan as it was, with every stop sign since, and all sessions that were handed out since."""
    if now is None or now.mark != then.mark:
        return joined(then, known)
    signs = together(then.signs, now.signs)
    out = now.handed_out if now.calendars >= then.calendars else then.handed_out
    calendars = max(now.calendars, then.calendars)
    return joined(replace(then, signs=signs, handed_out=out, calendars=calendars), known)


def _listed(before: Any) -> list[Any]:
    return before if isinstance(before, list) else []


def _said(name: object, words: Any) -> dict[str, Any]:
    place = BESIDE.get(name, "notice") if isinstance(name, str) else "notice"
    return dict.fromkeys(SAID, "") | {place: words}


def _nothing() -> dict[str, Any]:
    return dict.fromkeys((*SAID, "plan", "before", "changes", "upload", "known"), no_update)


def taken(pressed: list[int | None], kept: Any, with_code: Any, units: Any) -> tuple[Any, Any]:
    """Make the file that was asked for; that a calendar was handed out is kept with the plan."""
    source, record = ctx.triggered_id, read_plan(kept)
    name = source.get("name") if isinstance(source, dict) else None
    unseen = record is not None and is_growing(record.person) and record.read is None
    if not any(pressed) or record is None or name in ("print", "log") or unseen:
        raise PreventUpdate
    after: Any = no_update
    course, today = course_of(record), date.today()
    if name == "table":
        made = sessions_table(course), "csv", "text/csv;charset=utf-8"
    elif name == "calendar":
        text = calendar_text(course, datetime.now(UTC), with_code is True, system_named(units))
        made = text, "ics", "text/calendar;charset=utf-8"
        after = to_json(log_edits.handed_out(record, len(record.log) + len(course.schedule.sessions)))
    else:
        made = text_of(record), "json", "application/json;charset=utf-8"
    return {"content": made[0], "filename": file_name(record, today, made[1]), "type": made[2]}, after
