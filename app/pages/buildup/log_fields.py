"""The callbacks of the fields after a session: filled for the session that is chosen, kept as typed, and advised on."""

from dataclasses import replace
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, html, no_update
from dash.exceptions import PreventUpdate

from app.pages.buildup import ids
from app.pages.buildup.before import read_plan
from app.pages.buildup.checks import DAY_NAMES
from app.pages.buildup.course import course_of
from app.pages.buildup.log_form import (
    LABELS,
    NAMES,
    TOP_SPEED,
    LogForm,
    default_at,
    draft_of,
    form_of,
    key_of,
    read_kept,
    read_values,
    values_of,
)
from app.pages.buildup.record import Record
from app.pages.buildup.rule_words import advice_lines
from app.show import ids as shared_ids
from app.show.flat_form import by_name
from app.show.page_parts import names_in
from app.units.systems import system_named
from model.session_rules import Notes

NOTHING_YET = "Enter how it went: what may come next, and by which rules, then stands here."
LOG_FIELD = {"type": ids.BUILDUP_LOG_FIELD, "name": ALL}


def register(app: Dash) -> None:
    """Give the callbacks to the app."""
    app.callback(
        Output(ids.BUILDUP_LOG_SESSION, "data"),
        Output(ids.BUILDUP_LOG_SESSION, "value"),
        Input(ids.BUILDUP_PLAN, "data"),
    )(choose)
    app.callback(
        output={
            "values": Output(LOG_FIELD, "value"),
            "labels": Output({"type": ids.BUILDUP_LOG_FIELD, "name": "top_speed"}, "label"),
            "of": Output(ids.BUILDUP_LOG_OF, "data"),
            "title": Output(ids.BUILDUP_LOG_TITLE, "children"),
        },
        inputs={
            "session": Input(ids.BUILDUP_LOG_SESSION, "value"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
            "plan": State(ids.BUILDUP_PLAN, "data"),
            "kept": State(ids.BUILDUP_LOG_TYPED, "data"),
            "of": State(ids.BUILDUP_LOG_OF, "data"),
            "values": State(LOG_FIELD, "value"),
            "parts": State(LOG_FIELD, "id"),
        },
    )(fill)
    app.clientside_callback(
        ClientsideFunction("buildup", "typed"),
        Output(ids.BUILDUP_LOG_TYPED, "data"),
        Input(LOG_FIELD, "value"),
        State(LOG_FIELD, "id"),
        State(ids.BUILDUP_LOG_OF, "data"),
        State(ids.BUILDUP_LOG_TYPED, "data"),
        prevent_initial_call=True,
    )
    app.callback(
        output={
            "said": Output(ids.BUILDUP_SUGGESTED, "children"),
            "errors": Output(LOG_FIELD, "error"),
            "decisions": Output({"type": ids.BUILDUP_LOG_FIELD, "name": "decision"}, "data"),
            "decision_said": Output({"type": ids.BUILDUP_LOG_FIELD, "name": "decision"}, "description"),
            "throws": Output({"type": ids.BUILDUP_LOG_FIELD, "name": "throws"}, "description"),
        },
        inputs={
            "values": Input(LOG_FIELD, "value"),
            "parts": State(LOG_FIELD, "id"),
            "of": Input(ids.BUILDUP_LOG_OF, "data"),
            "plan": Input(ids.BUILDUP_PLAN, "data"),
            "offered": State({"type": ids.BUILDUP_LOG_FIELD, "name": "decision"}, "data"),
        },
    )(advise)


def choose(plan: Any) -> tuple[list[dict[str, str]], str | None]:
    """Offer the next session and those of the log; the one of which something is to be entered is chosen."""
    record = read_plan(plan)
    if record is None:
        return [], None
    course, done = course_of(record), len(record.log)
    made = [{"value": str(i), "label": f"{i + 1}: {_day(one.day)}, thrown"} for i, one in enumerate(record.log)]
    if course.next is not None:
        made.append({"value": str(done), "label": f"{done + 1}: {_day(course.next.day)}, next"})
    return made[::-1], str(default_at(course))


def _day(day: Any) -> str:
    return f"{DAY_NAMES[day.weekday()]} {day}"


def fill(
    session: Any, units: Any, plan: Any, kept: Any, of: Any, values: list[Any], parts: list[Any]
) -> dict[str, Any]:
    """Fill the fields for the session that is chosen, where they are of another, or show their speed in other units."""
    record, system = read_plan(plan), system_named(units)
    if record is None or not isinstance(session, str) or not session.isdecimal():
        raise PreventUpdate
    at, stands = int(session[:4]), of if isinstance(of, dict) else {}
    key = key_of(record, at)
    shown = read_values(by_name(parts, values), str(stands.get("units", "metric")))
    if stands.get("key") == key:
        if stands.get("units") == system.key:
            raise PreventUpdate  # what is being typed stays
        form = shown
    else:
        form = read_kept(kept, key) or _fresh(record, at, shown, stands, system)
    then = system_named(form.units)
    speed = TOP_SPEED.shown(TOP_SPEED.kept(form.top_speed, "", then), system)
    texts = values_of(replace(form, top_speed=speed, units=system.key))
    return {
        "values": [texts[name] for name in names_in(parts, texts)],
        "labels": f"{LABELS['top_speed']}, {TOP_SPEED.unit_in(system)}",
        "of": {"key": key, "units": system.key},
        "title": f"After session {at + 1}" if at == len(record.log) else f"Session {at + 1}: fill in or change",
    }


def _fresh(record: Record, at: int, shown: LogForm, stands: dict[str, Any], system: Any) -> LogForm:
    """The fields of a session of which nothing was typed: as the log has it, or empty but for who enters it."""
    if at < len(record.log):
        return form_of(record.log[at], system)
    same = str(stands.get("key", "")).startswith(f"{record.mark}/")
    return LogForm(by=shown.by, role=shown.role) if same else LogForm()


def advise(values: list[Any], parts: list[Any], of: Any, plan: Any, offered: Any = None) -> dict[str, Any]:
    """Say what may come next by what is entered so far, what may be decided, and what cannot be read."""
    record, stands = read_plan(plan), of if isinstance(of, dict) else {}
    names = names_in(parts, NAMES)
    nothing = {"said": [], "errors": [""] * len(names), "decisions": [], "decision_said": "", "throws": ""}
    key = str(stands.get("key", ""))
    if record is None or not key.startswith(f"{record.mark}/"):
        return nothing
    form, at = read_values(by_name(parts, values), str(stands.get("units", "metric"))), int(key.rpartition("/")[2])
    course = course_of(record)
    draft = draft_of(course, at, form, system_named(form.units))
    if draft is None:
        return nothing
    past = at < len(record.log) - 1
    decisions = {} if past else draft.decisions(course, form.role)
    why = "decided already" if past else "" if decisions else "nothing can be decided yet"
    options = [{"value": name, "label": words} for name, words in decisions.items()]
    lines = advice_lines(draft.advice, draft.facts) if draft.one.notes != Notes() else [NOTHING_YET]
    return {
        "said": [html.P(html.Strong(lines[0])), html.Ul([html.Li(line) for line in lines[1:]])],
        "errors": [draft.problems.get(name, "") for name in names],
        "decisions": no_update if options == offered else options,  # a list that is open stays as it is
        "decision_said": why or "only what the rules allow; a licensed clinician may decide otherwise",
        "throws": f"planned: {draft.one.planned}; with pain, those up to it",
    }
