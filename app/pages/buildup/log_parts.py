"""The parts of a session and its log: what comes next, what is noted afterwards, stop signs. They do no work."""

from collections.abc import Mapping
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.groups import boxes, emptied, listed, radios, typed
from app.pages.buildup import ids
from app.pages.buildup.course import Course
from app.pages.buildup.found import Found
from app.pages.buildup.hand import FIELDS as HAND
from app.pages.buildup.hand import INITIALS, buttons, do, hand, options, row
from app.pages.buildup.noted import BEFORE, FIELDS, default_at, draft_of, noted_of, path_of
from app.pages.buildup.rule_words import SITE_WORDS, SORE_WORDS, SOURCES_TOLD
from app.pages.buildup.view import View
from app.pages.buildup.words import day_words
from app.records.plan_fields import LONGEST_WORDS, ROLE_WORDS, SORE_MORE
from app.show.controls import choice
from app.show.numbers import capital
from model.session_rules import STOP_SIGNS, URGENT_SIGNS, WHEN

NOT_ENTERED = {"": "not entered"}
SORE = {"no": "none", "yes": "sore"} | NOT_ENTERED
YES_NO = {"no": "no", "yes": "yes"} | NOT_ENTERED
HELD = {"yes": "yes", "no": "no", "": "not measured"}
THROWN = {"": "as planned", BEFORE: "the session before again, as the muscles were sore in the warm-up"}


def sessions_of(course: Course | None) -> list[dict[str, str]]:
    """The next session and those of the log, to choose one of."""
    if course is None:
        return []
    days = [(one.day, "thrown") for one in course.record.log] + ([(course.next.day, "next")] if course.next else [])
    made = [{"value": str(i), "label": f"{i + 1}: {day_words(day)}, {said}"} for i, (day, said) in enumerate(days)]
    return made[::-1]


def title_of(course: Course | None, at: int) -> str:
    """What stands over the fields."""
    if course is None or at == len(course.record.log):
        return f"After session {at + 1}"
    return f"Session {at + 1}: fill in or change"


def session_of(value: object, course: Course | None) -> int | None:
    """Which session was chosen; None if it is none of the plan."""
    there = [one["value"] for one in sessions_of(course)]
    return int(value) if isinstance(value, str) and value in there else None


def advised(found: Found, at: int) -> dict[str, Any]:
    """Say what may come next by what is entered so far, what may be decided, and what stands under the throws."""
    course = found.course
    noted = noted_of(found.data, found.session_key(at), course.record.log, at) if course else {}
    draft = draft_of(course, at, noted) if course else None
    if draft is None:
        return {"said": [], "decision": {"data": [], "description": ""}, "throws": {"description": "up to the pain"}}
    lines, decisions, past = draft.lines(), draft.decisions(noted.get("role")), at < len(draft.course.record.log) - 1
    why = "decided already" if past else "" if decisions else "nothing can be decided yet"
    said = [
        html.P(html.Strong(lines[0])),
        html.Ul([html.Li(line) for line in lines[1:]]),
        *(html.P(text, className="problem") for text in draft.told()),
    ]
    allowed = why or "only what the rules allow; a licensed clinician may decide otherwise"
    planned = f"planned: {draft.one.planned}; with pain, those up to it"
    return {
        "said": said,
        "decision": {"data": options(decisions), "description": allowed},
        "throws": {"description": planned},
    }


def log(found: Found, view: View) -> Component:
    """Make the fields of what is noted after a session."""
    course, hidden = found.course, view.hidden
    at = default_at(course) if course is not None else 0
    choice_of = choice("Which session", sessions_of(course), str(at), id=ids.BUILDUP_LOG_SESSION, searchable=False)
    title = html.H2(title_of(course, at), id=ids.BUILDUP_LOG_TITLE)
    noted = [
        html.Div(fields(found, at), id=ids.BUILDUP_LOG_FIELDS, className="buildup-log"),
        buttons(do("log", "Keep this session", **{"data-key": "k"})),
    ]
    stopped = [hand("again"), do("again", "Take the plan up again")]
    reopen = html.Div([do("reopen", "Take the last session out of the log")], hidden=hidden["logged"])
    outside = [html.Summary("A stop sign outside of a session"), signing("sign", "sign", "Keep the stop sign"), reopen]
    limits = signing("limits", "clear_limits", "Clear the limits from Start")
    return html.Section(
        [
            html.Div([title, choice_of], className="buildup-log-head"),
            html.Div(noted, id=ids.BUILDUP_LOG, className="buildup-log", hidden=hidden["log"]),
            html.Div(stopped, id=f"{ids.BUILDUP_LOG}-stopped", className="buildup-row", hidden=hidden["stopped"]),
            html.Div(limits, hidden=hidden["clear_limits"]),
            html.Div(id=ids.BUILDUP_NOTICE_LOG, className="buildup-notice", role="status"),
            html.Details(outside, className="fold"),
        ],
        className="buildup-after",
    )


def fields(found: Found, at: int) -> list[Component]:
    """Make the fields of a session: what was typed for it, else what the log has."""
    course, visit = found.course, found.visit
    if course is None:
        return []
    key, told = found.session_key(at), advised(found, at)
    noted = noted_of(found.data, key, course.record.log, at)

    def of(name: str, label: str = "") -> tuple[str, str, str]:
        one, value = FIELDS[name], noted.get(name)
        unit = f", {one.unit_in(visit.system)}" if one.kind == "number" else ""
        return path_of(name, key), (label or one.label) + unit, one.shown(value, "", visit.system)

    def text(name: str, said: str) -> Component:
        path, label, shown = of(name)
        return typed(visit, path, label, said, shown, FIELDS[name].kind in ("number", "whole"))

    def pick(name: str, choices: Mapping[str, str], label: str = "") -> Component:
        path, label, shown = of(name, label)
        return radios(visit, path, label, choices, shown)

    def ticks(name: str, choices: Mapping[str, str], label: str = "") -> Component:
        path, label, shown = of(name, label)
        return boxes(visit, path, label, choices, shown)

    path, label, decided = of("decision")
    more = {"placeholder": "not decided yet"}
    decision = emptied(visit, path, label, told["decision"]["data"], told["decision"]["description"], decided, **more)
    path, label, role = of("role")
    pain = [text(when, "0 to 10") for when in WHEN]
    sore = [pick(f"sore_{when}", SORE, capital(words)) for when, words in SORE_WORDS.items()]
    return [
        row(
            "four",
            text("day", "year-month-day; empty: as planned, or today if that is earlier"),
            text("throws", told["throws"]["description"]),
            text("top_speed", "may stay empty"),
            pick("again", THROWN),
        ),
        _group(
            "Pain at a joint, 0 none to 10 the worst",
            "Empty is not none: what is not known yet can be filled in later, for any session.",
            pick("site", {site: SITE_WORDS[site] for site in ("elbow", "shoulder")}),
            *pain,
        ),
        _group("Muscle soreness", "", *sore, ticks("sore_more", SORE_MORE)),
        row("two", pick("painkiller", YES_NO), pick("held", HELD)),
        row("two", ticks("signs", STOP_SIGNS), ticks("urgent", URGENT_SIGNS, "Urgent signs: urgent care now")),
        html.Div(told["said"], id=ids.BUILDUP_SUGGESTED, role="status", **{"aria-live": "polite"}),
        html.P(SOURCES_TOLD, className="quiet buildup-sources"),
        row(
            "five",
            decision,
            text("days_off", "0 to 60; empty: as the rules ask"),
            text("by", INITIALS),
            listed(visit, path, label, options(ROLE_WORDS), "", role, placeholder="choose"),
            text("note", f"up to {LONGEST_WORDS} characters; may stay empty"),
        ),
    ]


def signs(view: View) -> Component:
    """Make the fields that clear and withdraw stop signs."""
    said = "A licensed clinician clears it, or whoever records whose decision it was; never the athlete."
    withdraw = signing("withdraw", "withdraw", "Withdraw it", view.signs)
    parts = [
        html.P(said, className="quiet"),
        signing("clear", "clear", "Clear the stop signs"),
        html.Details([html.Summary("It was entered by mistake"), withdraw], className="fold"),
    ]
    return html.Section(parts, id=ids.BUILDUP_SIGNS, className="buildup-signs", hidden=view.hidden["signs"])


def signing(name: str, does: str, button: str, what: list[dict[str, str]] | None = None) -> Component:
    """Fields for who decides or records something, with its button."""
    parts = [hand(one, data=what if one == "withdraw_what" else None) for one in HAND if one.startswith(f"{name}_")]
    return html.Div([row("seven", *parts), buttons(do(does, button))])


def _group(head: str, said: str, *parts: Component) -> Component:
    note = [html.P(said, className="quiet")] if said else []
    return html.Fieldset([html.Legend(head), *note, row("five", *parts)], className="buildup-group")
