"""The parts of a session and its log: what comes next, what is noted afterwards, stop signs. They do no work."""

from collections.abc import Mapping
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.groups import boxes, emptied, listed, radios, typed
from app.pages.buildup import ids
from app.pages.buildup.found import Found
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.log_advice import advised, sessions_of, title_of
from app.pages.buildup.log_form import BEFORE, LABELS, TOP_SPEED, LogForm, default_at, form_of, path_of
from app.pages.buildup.plan_parts import do, hand
from app.pages.buildup.rule_words import CLEARING, SITE_WORDS, SORE_WORDS, SOURCES_TOLD
from app.pages.buildup.view import View
from app.records.plan_fields import ROLE_WORDS, SORE_MORE
from app.records.tables import LONGEST_INITIALS
from app.show.controls import choice
from app.show.numbers import capital
from model.session_rules import STOP_SIGNS, URGENT_SIGNS, WHEN

NOT_ENTERED = {"": "not entered"}
SORE = {"no": "none", "yes": "sore"} | NOT_ENTERED
YES_NO = {"no": "no", "yes": "yes"} | NOT_ENTERED
HELD = {"yes": "yes", "no": "no", "": "not measured"}
THROWN = {"": "as planned", BEFORE: "the session before again, as the muscles were sore in the warm-up"}
INITIALS = f"up to {LONGEST_INITIALS} characters, no names"


def log(found: Found, view: View) -> Component:
    """Make the fields of what is noted after a session."""
    course, hidden = found.course, view.hidden
    at = default_at(course) if course is not None else 0
    choice_of = choice("Which session", sessions_of(course), str(at), id=ids.BUILDUP_LOG_SESSION, searchable=False)
    return html.Section(
        [
            html.Div(
                [html.H2(title_of(course, at), id=ids.BUILDUP_LOG_TITLE), choice_of],
                className="buildup-log-head",
            ),
            html.Div(
                [
                    html.Div(fields(found, at), id=ids.BUILDUP_LOG_FIELDS, className="buildup-log"),
                    html.Div([do("log", "Keep this session", **{"data-key": "k"})], className="buildup-buttons"),
                ],
                id=ids.BUILDUP_LOG,
                className="buildup-log",
                hidden=hidden["log"],
            ),
            html.Div(
                [hand("again", "Go on from", "year-month-day"), do("again", "Take the plan up again")],
                id=f"{ids.BUILDUP_LOG}-stopped",
                className="buildup-row",
                hidden=hidden["stopped"],
            ),
            _limits(hidden["clear_limits"]),
            html.Div(id=ids.BUILDUP_NOTICE_LOG, className="buildup-notice", role="status"),
            html.Details(
                [
                    html.Summary("A stop sign outside of a session"),
                    _signing(
                        "sign",
                        "sign",
                        "Keep the stop sign",
                        ROLE_WORDS,
                        "What was seen, by whom",
                        {**URGENT_SIGNS, **STOP_SIGNS},
                    ),
                    html.Div([do("reopen", "Take the last session out of the log")], hidden=hidden["logged"]),
                ],
                className="fold",
            ),
        ],
        className="buildup-after",
    )


def fields(found: Found, at: int) -> list[Component]:
    """Make the fields of a session: what was typed for it, else what the log has."""
    course, visit = found.course, found.visit
    if course is None:
        return []
    key, log = found.session_key(at), course.record.log
    noted = form_of(log[at], visit.system) if at < len(log) else LogForm()
    draft = advised(found, at)

    def text(name: str, said: str, numeric: bool = False, **props: Any) -> Component:
        path, label = path_of(name, key), LABELS[name]
        if name == "top_speed":
            label = f"{label}, {TOP_SPEED.unit_in(visit.system)}"
        return typed(visit, path, label, said, getattr(noted, name), numeric, **props)

    def number(name: str, said: str) -> Component:
        return text(name, said, True)

    def pick(name: str, label: str, choices: Mapping[str, str]) -> Component:
        return radios(visit, path_of(name, key), label, choices, getattr(noted, name))

    def ticks(name: str, label: str, choices: Mapping[str, str]) -> Component:
        return boxes(visit, path_of(name, key), label, choices, getattr(noted, name))

    roles = [{"value": role, "label": words} for role, words in ROLE_WORDS.items()]
    return [
        _row(
            "four",
            text("day", "year-month-day; empty: as planned, or today if that is earlier"),
            number("throws", draft.throws),
            number("top_speed", "may stay empty"),
            pick("again", LABELS["again"], THROWN),
        ),
        _group(
            "Pain at a joint, 0 none to 10 the worst",
            "Empty is not none: what is not known yet can be filled in later, for any session.",
            pick("site", LABELS["site"], {site: SITE_WORDS[site] for site in ("elbow", "shoulder")}),
            *(number(when, "0 to 10") for when in WHEN),
            columns="five",
        ),
        _group(
            "Muscle soreness",
            "",
            *(pick(f"sore_{when}", capital(words), SORE) for when, words in SORE_WORDS.items()),
            ticks("sore_more", "Sore", SORE_MORE),
            columns="five",
        ),
        _row(
            "two",
            pick("painkiller", "Painkiller taken before", YES_NO),
            pick("held", "Speed of the step held to the end", HELD),
        ),
        _row(
            "two",
            ticks("signs", "Stop signs", STOP_SIGNS),
            ticks("urgent", "Urgent signs: urgent care now", URGENT_SIGNS),
        ),
        html.Div(draft.said, id=ids.BUILDUP_SUGGESTED, role="status", **{"aria-live": "polite"}),
        html.P(SOURCES_TOLD, className="quiet buildup-sources"),
        _row(
            "five",
            emptied(
                visit,
                path_of("decision", key),
                LABELS["decision"],
                draft.decisions,
                draft.decision_said,
                noted.decision,
                placeholder="not decided yet",
            ),
            number("days_off", "0 to 60; empty: as the rules ask"),
            text("by", INITIALS),
            listed(visit, path_of("role", key), LABELS["role"], roles, "", noted.role, placeholder="choose"),
            text("note", f"up to {LONGEST_NOTE} characters; may stay empty"),
        ),
    ]


def signs(view: View) -> Component:
    """Make the fields that clear and withdraw stop signs."""
    return html.Section(
        [
            html.P(
                "A licensed clinician clears it, or whoever records whose decision it was; never the athlete.",
                className="quiet",
            ),
            _signing("clear", "clear", "Clear the stop signs", CLEARING, "Whose decision it was, if not yours", {}),
            html.Details(
                [
                    html.Summary("It was entered by mistake"),
                    _signing("withdraw", "withdraw", "Withdraw it", ROLE_WORDS, "Why it is withdrawn", {}, view.signs),
                ],
                className="fold",
            ),
        ],
        id=ids.BUILDUP_SIGNS,
        className="buildup-signs",
        hidden=view.hidden["signs"],
    )


def _limits(hidden: bool) -> Component:
    part = _signing("limits", "clear_limits", "Clear the limits from Start", CLEARING, "What was decided", {})
    return html.Div(part, hidden=hidden)


def _signing(
    name: str,
    does: str,
    button: str,
    roles: Mapping[str, str],
    words: str,
    what: Mapping[str, str],
    listed_signs: list[dict[str, str]] | None = None,
) -> Component:
    """Fields for who decides or records something, with its button."""
    parts: list[Component] = []
    if what or listed_signs is not None:
        data = _options(what) if listed_signs is None else listed_signs
        parts.append(_pick(f"{name}_what", "Stop sign", data))
    if what:
        parts.append(hand(f"{name}_since", "Since", "year-month-day; empty: today"))
    if name == "clear":
        parts.append(hand("clear_on", "Day", "year-month-day; empty: today"))
    parts += [
        hand(f"{name}_by", "Initials", INITIALS),
        _pick(f"{name}_role", "Role", _options(roles)),
        hand(f"{name}_words", words, "in words", longest=LONGEST_NOTE),
    ]
    return html.Div(
        [html.Div(parts, className="buildup-row seven"), html.Div(do(does, button), className="buildup-buttons")]
    )


def _options(data: Mapping[str, str]) -> list[dict[str, str]]:
    return [{"value": key, "label": words} for key, words in data.items()]


def _pick(name: str, label: str, options: list[dict[str, str]]) -> Component:
    part = {"type": ids.BUILDUP_HAND, "name": name}
    return choice(label, options, "", id=part, searchable=False, placeholder="choose")


def _row(columns: str, *parts: Component) -> Component:
    return html.Div(list(parts), className=f"buildup-row {columns}")


def _group(head: str, said: str, *parts: Component, columns: str) -> Component:
    note = [html.P(said, className="quiet")] if said else []
    return html.Fieldset([html.Legend(head), *note, _row(columns, *parts)], className="buildup-group")
