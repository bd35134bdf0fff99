"""The callbacks of the plan: what a button does to it, what is shown of it, and what is taken along."""

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import hand_of, visit_again
from app.pages.buildup import acts, ids, log_edits, log_parts, making
from app.pages.buildup.calendar_file import calendar_text
from app.pages.buildup.file import text_of
from app.pages.buildup.found import ASKED_PLAN, Found
from app.pages.buildup.keeping import Kept, keep
from app.pages.buildup.making import Act, Page
from app.pages.buildup.noted import noted_of, to_mend_of
from app.pages.buildup.parts import MAKE
from app.pages.buildup.rows import changed_plan
from app.pages.buildup.showing import figures, picked, seen, view_for
from app.pages.buildup.table_file import file_name, sessions_table
from app.records.faults import RecordsError
from app.records.fields import in_words
from app.show import ids as shared_ids
from model.checks import InputError

DO = {"type": ids.BUILDUP_DO, "name": ALL}
OFFER = {"type": ids.BUILDUP_OFFER, "name": ALL}
HAND = {"type": ids.BUILDUP_HAND, "name": ALL}
TAKE = {"type": ids.BUILDUP_TAKE, "name": ALL}

CHOSEN = {
    "step": ids.BUILDUP_STEP,
    "ball": ids.BUILDUP_STEP_BALL,
    "session": ids.BUILDUP_SESSION,
    "logged": ids.BUILDUP_LOG_SESSION,
}
SAID = {"notice": ids.BUILDUP_NOTICE, "by_hand": ids.BUILDUP_NOTICE_HAND, "log": ids.BUILDUP_NOTICE_LOG}
"""Where it is said what happened: beside the button that was pressed."""
BESIDE = dict.fromkeys(("step", "leave_out", "put_in", "rest", "session"), "by_hand") | dict.fromkeys(
    ("log", "reopen", "again", "sign", "clear_limits"), "log"
)


def register(app: Dash) -> None:
    """Give the callbacks to the app."""
    here, seen_now = State(bound.HERE, "data"), State(bound.VERSION, "data")
    app.callback(
        output={**{place: Output(part, "children") for place, part in SAID.items()}, "upload": _upload()},
        inputs={
            "pressed": [
                Input(ids.BUILDUP_MAKE, "n_clicks"),
                Input(DO, "n_clicks"),
                Input(OFFER, "n_clicks"),
                Input(ids.BUILDUP_UPLOAD, "contents"),
            ],
            "beside": {
                "hand": State(HAND, "value"),
                "hand_ids": State(HAND, "id"),
                "chosen": {name: State(part, "value") for name, part in CHOSEN.items()},
            },
            "here": here,
            "seen_now": seen_now,
        },
        running=[
            (Output(ids.BUILDUP_MAKE, "disabled"), True, False),
            (Output(ids.BUILDUP_MAKE, "children"), "Planning…", MAKE),
        ],
        prevent_initial_call=True,
    )(acted)
    app.callback(
        output={place: Output(part, "children", allow_duplicate=True) for place, part in SAID.items()},
        inputs={"here": Input(bound.HERE, "data"), "anew": State(bound.REFRESH, "data")},
        prevent_initial_call="initial_duplicate",
    )(said_before)
    app.callback(
        output={
            "stairs": Output(ids.BUILDUP_STAIRS, "figure"),
            "stairs_paper": Output(ids.BUILDUP_STAIRS_PAPER, "data"),
            "overlay": Output(ids.BUILDUP_OVERLAY, "figure"),
            "overlay_paper": Output(ids.BUILDUP_OVERLAY_PAPER, "data"),
            "told": Output(ids.BUILDUP_TOLD, "data"),
        },
        inputs={
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "width": Input(ids.BUILDUP_WIDTH, "data"),
            "here": Input(bound.HERE, "data"),
        },
    )(drawn)
    app.callback(
        output={
            "ball": Output(ids.BUILDUP_STEP_BALL, "value"),
            "texts": {
                name: Output({"type": ids.BUILDUP_HAND, "name": name}, "value")
                for name in ("share", "sessions", "day", "throws")
            },
            "step": Output(ids.BUILDUP_STEP, "value"),
            "session": Output(ids.BUILDUP_SESSION, "value"),
        },
        inputs={
            "step": Input(ids.BUILDUP_STEP, "value"),
            "session": Input(ids.BUILDUP_SESSION, "value"),
            "here": State(bound.HERE, "data"),
        },
        prevent_initial_call=True,
    )(lambda step, session, here: picked(Found(visit_again(here)), step, session))
    app.callback(
        Output(ids.BUILDUP_FILE, "data"),
        Input(TAKE, "n_clicks"),
        State(ids.BUILDUP_WITH_CODE, "checked"),
        here,
        seen_now,
        prevent_initial_call=True,
    )(taken)
    app.clientside_callback(ClientsideFunction("buildup", "print"), Input(TAKE, "n_clicks"), prevent_initial_call=True)
    app.clientside_callback(ClientsideFunction("shell", "fill"), Input(ids.BUILDUP_TOLD, "data"))


def _upload() -> Output:
    return Output(ids.BUILDUP_UPLOAD, "contents")


def acted(pressed: Any, beside: dict[str, Any], here: Any, seen_now: Any) -> dict[str, Any]:
    """Do what was pressed: where it changes the records the page is made anew, else it is said what is wrong."""
    del pressed
    source, values = ctx.triggered_id, [one["value"] for one in ctx.triggered]
    if not any(values):
        raise PreventUpdate  # buttons that were just made
    name = source.get("name") if isinstance(source, dict) else None
    found = Found(visit_again(here))
    if found.visit.data is None:
        raise PreventUpdate
    chosen = beside["chosen"]
    at = log_parts.session_of(chosen.get("logged"), found.course)
    parts = [part for part in beside["hand_ids"] if isinstance(part, dict)]
    hand = {str(part.get("name")): value for part, value in zip(parts, beside["hand"], strict=False)}
    page = page_of(found, hand, at or 0, chosen)
    if name == "log" and at is None:
        return _said(name, "Not kept: this session is none of the plan any more. Load the page again.")
    try:
        act = _act(source, name, values[0], page)
        if not changes(act, found):
            return _said(name, act.said)
        kept = keep(found, act, hand_of(here, seen_now, None, found.visit.owner), at if name == "log" else None)
    except InputError as error:
        return _said(name, f"Not changed: {in_words(error)}")
    except RecordsError as error:
        return _said(name, f"Not kept: {error}")
    if kept.acted is not None and kept.acted.stopped:
        return _said(name, next(one.message for one in kept.acted.outcomes if one.message))
    set_props(bound.REFRESH, {"data": anew(found, kept, act, name) | {"step": chosen.get("step")}})
    return dict.fromkeys(SAID, no_update) | {"upload": None}


def page_of(found: Found, hand: Mapping[str, Any], at: int, chosen: Mapping[str, Any]) -> Page:
    """What is on the page when a button is pressed."""
    visit, key, log = found.visit, found.session_key(at), found.record.log if found.record else ()
    noted, mend = noted_of(found.data, key, log, at), to_mend_of(found.data, key)
    return Page(found.wanted, found.athlete, found.record, visit.today, hand, noted, at, chosen, visit.system, mend)


def changes(act: Act, found: Found) -> bool:
    """Whether something is to be kept of what was done."""
    return bool(act.record != found.record or act.signs is not None or act.form)


def anew(found: Found, kept: Kept, act: Act, name: object) -> dict[str, Any]:
    """Why the page is made anew: what is said beside which button, and the address where another plan is shown."""
    asked = found.visit.asked.get(ASKED_PLAN)
    other = bool(asked) and kept.plan not in ("", asked)
    go = found.visit.address(found.visit.path) if other else ""
    told = act.said[0] if len(act.said) == 1 else act.said
    return {"beside": {_place(name): told}, "go": go, "at": datetime.now(UTC).timestamp()}


def drawn(theme: Any, width: Any, here: Any) -> dict[str, Any]:
    """Draw the plan, and put it into words and tables."""
    found = Found(visit_again(here))
    if found.visit.data is None:
        raise PreventUpdate
    return figures(found, theme, width) | {"told": view_for(found)[0].told}


def said_before(here: Any, anew: Any) -> dict[str, Any]:
    """Say beside the button what it did, once the page stands again; what was unfolded and chosen there still is."""
    del here
    beside = anew.get("beside") if isinstance(anew, dict) else None
    if not isinstance(beside, dict):
        raise PreventUpdate
    if "by_hand" in beside:
        set_props(ids.BUILDUP_BY_HAND, {"open": True})
        set_props(ids.BUILDUP_STEP, {"value": anew.get("step")})
    return {place: beside.get(place, "") for place in SAID}


def _act(source: Any, name: Any, value: Any, page: Page) -> Act:
    if source == ids.BUILDUP_MAKE:
        return making.made(page)
    if source == ids.BUILDUP_UPLOAD:
        return acts.opened(page, value)
    kind = source.get("type") if isinstance(source, dict) else None
    if kind == ids.BUILDUP_OFFER:
        return making.offered(page, str(name))
    return acts.done(page, str(name))


def _place(name: object) -> str:
    return BESIDE.get(name, "notice") if isinstance(name, str) else "notice"


def _said(name: object, words: Any) -> dict[str, Any]:
    return dict.fromkeys(SAID, "") | {_place(name): words, "upload": None}


def taken(pressed: list[int | None], with_code: Any, here: Any, seen_now: Any) -> Any:
    """Make the file that was asked for; that a calendar was handed out is kept, and no undo takes it back."""
    source, found = ctx.triggered_id, Found(visit_again(here))
    name = source.get("name") if isinstance(source, dict) else None
    course = seen(found) if any(pressed) and found.visit.data else None
    if course is None or found.shown is None or name in ("print", "log"):
        raise PreventUpdate
    record, visit = course.record, found.visit
    if name == "table":
        made = sessions_table(course), "csv", "text/csv;charset=utf-8"
    elif name == "calendar":
        text = calendar_text(course, datetime.now(UTC), with_code is True, visit.system)
        made = text, "ics", "text/calendar;charset=utf-8"
        after = log_edits.handed_out(record, len(record.log) + len(course.schedule.sessions))
        done = changed_plan(record, after, found.data, found.shown.row, found.plans.signs)
        hand = hand_of(here, seen_now, None, visit.owner)
        visit.store.act(visit.owner, done, hand, visit.system, visit.today, stays=True)
    else:
        made = text_of(record), "json", "application/json;charset=utf-8"
    return {"content": made[0], "filename": file_name(record, visit.today, made[1]), "type": made[2]}
