"""The parts of a session and its log: what comes next, what is noted afterwards, stop signs. They do no work."""

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.pages.buildup import ids
from app.pages.buildup.checks import LONGEST_INITIALS
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.log_form import BEFORE, LABELS, SORE_MORE
from app.pages.buildup.plan_parts import do, hand
from app.pages.buildup.rule_words import CLEARING, ROLE_WORDS, SITE_WORDS, SORE_WORDS, SOURCES_TOLD
from app.show.controls import CHOICE, choice, text_field
from app.show.numbers import capital
from model.session_rules import STOP_SIGNS, URGENT_SIGNS, WHEN

NOT_ENTERED = {"": "not entered"}
SORE = {"no": "none", "yes": "sore"} | NOT_ENTERED
YES_NO = {"no": "no", "yes": "yes"} | NOT_ENTERED
HELD = {"yes": "yes", "no": "no", "": "not measured"}
THROWN = {"": "as planned", BEFORE: "the session before again, as the muscles were sore in the warm-up"}
INITIALS = f"up to {LONGEST_INITIALS} characters, no names"


def log() -> Component:
    """Make the fields of what is noted after a session."""
    return html.Section(
        [
            html.Div(
                [
                    html.H2("After a session", id=ids.BUILDUP_LOG_TITLE),
                    choice("Which session", [], "", id=ids.BUILDUP_LOG_SESSION, searchable=False),
                ],
                className="buildup-log-head",
            ),
            html.Div(
                [
                    _row(
                        "four",
                        _text("day", "year-month-day; empty: as planned, or today if that is earlier"),
                        _number("throws", "up to the pain"),
                        _number("top_speed", "may stay empty"),
                        _radios("again", LABELS["again"], THROWN),
                    ),
                    _group(
                        "Pain at a joint, 0 none to 10 the worst",
                        "Empty is not none: what is not known yet can be filled in later, for any session.",
                        _radios("site", LABELS["site"], {site: SITE_WORDS[site] for site in ("elbow", "shoulder")}),
                        *(_number(when, "0 to 10") for when in WHEN),
                        columns="five",
                    ),
                    _group(
                        "Muscle soreness",
                        "",
                        *(_radios(f"sore_{when}", capital(words), SORE) for when, words in SORE_WORDS.items()),
                        _boxes("sore_more", "Sore", SORE_MORE),
                        columns="five",
                    ),
                    _row(
                        "two",
                        _radios("painkiller", "Painkiller taken before", YES_NO),
                        _radios("held", "Speed of the step held to the end", HELD),
                    ),
                    _row(
                        "two",
                        _boxes("signs", "Stop signs", STOP_SIGNS),
                        _boxes("urgent", "Urgent signs: urgent care now", URGENT_SIGNS),
                    ),
                    html.Div(id=ids.BUILDUP_SUGGESTED, role="status", **{"aria-live": "polite"}),
                    html.P(SOURCES_TOLD, className="quiet buildup-sources"),
                    _row(
                        "five",
                        _decision(),
                        _number("days_off", "0 to 60; empty: as the rules ask"),
                        _text("by", INITIALS),
                        _role(),
                        _text("note", f"up to {LONGEST_NOTE} characters; may stay empty", longest=LONGEST_NOTE),
                    ),
                    html.Div([do("log", "Keep this session", **{"data-key": "k"})], className="buildup-buttons"),
                ],
                id=ids.BUILDUP_LOG,
                className="buildup-log",
            ),
            html.Div(
                [hand("again", "Go on from", "year-month-day"), do("again", "Take the plan up again")],
                id=f"{ids.BUILDUP_LOG}-stopped",
                className="buildup-row",
                hidden=True,
            ),
            _limits(),
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
                    html.Div(
                        [do("reopen", "Take the last session out of the log")], id=ids.BUILDUP_LOGGED, hidden=True
                    ),
                ],
                className="fold",
            ),
        ],
        className="buildup-after",
    )


def signs() -> Component:
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
                    _signing("withdraw", "withdraw", "Withdraw it", ROLE_WORDS, "Why it is withdrawn", {}, pick=True),
                ],
                className="fold",
            ),
        ],
        id=ids.BUILDUP_SIGNS,
        className="buildup-signs",
        hidden=True,
    )


def _limits() -> Component:
    part = _signing("limits", "clear_limits", "Clear the limits from Start", CLEARING, "What was decided", {})
    return html.Div(part, id=f"{ids.BUILDUP_GIVEN}-clear", hidden=True)


def _signing(
    name: str, does: str, button: str, roles: Mapping[str, str], words: str, what: Mapping[str, str], pick: bool = False
) -> Component:
    """Fields for who decides or records something, with its button."""
    fields: list[Component] = []
    if what or pick:
        fields.append(_pick(f"{name}_what", "Stop sign", what))
    if what:
        fields.append(hand(f"{name}_since", "Since", "year-month-day; empty: today"))
    if name == "clear":
        fields.append(hand("clear_on", "Day", "year-month-day; empty: today"))
    fields += [
        hand(f"{name}_by", "Initials", INITIALS),
        _pick(f"{name}_role", "Role", roles),
        hand(f"{name}_words", words, "in words", longest=LONGEST_NOTE),
    ]
    return html.Div(
        [html.Div(fields, className="buildup-row seven"), html.Div(do(does, button), className="buildup-buttons")]
    )


def _pick(name: str, label: str, data: Mapping[str, str]) -> Component:
    part = {"type": ids.BUILDUP_HAND, "name": name}
    options = [{"value": key, "label": words} for key, words in data.items()]
    return choice(label, options, "", id=part, searchable=False, placeholder="choose")


def _id(name: str) -> dict[str, str]:
    return {"type": ids.BUILDUP_LOG_FIELD, "name": name}


def _text(name: str, said: str, **props: Any) -> Component:
    return text_field(LABELS[name], said, value="", id=_id(name), **props)


def _number(name: str, said: str) -> Component:
    return text_field(LABELS[name], said, True, value="", id=_id(name))


def _radios(name: str, label: str, data: Mapping[str, str]) -> Component:
    boxes = html.Div([dmc.Radio(value=key, label=words) for key, words in data.items()], className="boxes")
    return dmc.RadioGroup(boxes, id=_id(name), value="", label=label, className="field")


def _boxes(name: str, label: str, data: Mapping[str, str]) -> Component:
    boxes = html.Div([dmc.Checkbox(value=key, label=words) for key, words in data.items()], className="boxes")
    return dmc.CheckboxGroup(boxes, id=_id(name), value=[], label=label, className="field")


def _decision() -> Component:
    props = CHOICE | {"allowDeselect": True}
    return dmc.Select(
        label=LABELS["decision"],
        data=[],
        value=None,
        id=_id("decision"),
        searchable=False,
        placeholder="not decided yet",
        clearable=True,
        **props,
    )


def _role() -> Component:
    data = [{"value": key, "label": words} for key, words in ROLE_WORDS.items()]
    return choice(LABELS["role"], data, "", id=_id("role"), searchable=False, placeholder="choose")


def _row(columns: str, *parts: Component) -> Component:
    return html.Div(list(parts), className=f"buildup-row {columns}")


def _group(head: str, said: str, *parts: Component, columns: str) -> Component:
    note = [html.P(said, className="quiet")] if said else []
    return html.Fieldset([html.Legend(head), *note, _row(columns, *parts)], className="buildup-group")
