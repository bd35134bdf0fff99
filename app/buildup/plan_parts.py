"""The parts around a plan: what is read before it, figures, tables, changes by hand, the log, what is taken along."""

from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app import ids
from app.buildup.aims import MORE_STEPS
from app.buildup.edits import LONGEST_INITIALS, LONGEST_NOTE
from app.buildup.file import LARGEST_BYTES
from app.cautions import GROWING
from app.claim.words import capital
from app.compare.figure import GRAPH_CONFIG
from app.compare.parts import choice, text_field
from app.glossary import explained
from app.page_parts import file_field
from model.course import DECISIONS
from model.soreness import ENDS_SESSION, STOP_SIGNS

HELD = {"yes": "yes", "no": "no", "": "not measured"}
PAINS = {
    "before": "Pain before",
    "after": "Pain after",
    "morning": "Pain on the next morning",
}
PAIN_SAID = "0 none to 10 the worst"


def do(name: str, words: str, **props: Any) -> Component:
    """Make a button that does something to the plan, by name."""
    return html.Button(words, id={"type": ids.BUILDUP_DO, "name": name}, type="button", n_clicks=0, **props)


def hand(name: str, label: str, description: str = "", numeric: bool = False, **props: Any) -> Component:
    """Make a field beside the plan, by name."""
    return text_field(label, description, numeric, value="", id={"type": ids.BUILDUP_HAND, "name": name}, **props)


def growing() -> Component:
    """Make what is read, and confirmed, before a plan for a thrower who is still growing is shown."""
    return html.Section(
        [
            html.H2("Read this before the plan is shown"),
            html.P(GROWING[0], className="buildup-growing-text"),
            html.P(GROWING[1], className="source"),
            html.Div(
                [
                    hand("read_by", "Initials of who has read it", f"up to {LONGEST_INITIALS} characters, no names"),
                    do("read", "I have read this: show the plan"),
                ],
                className="buildup-row",
            ),
        ],
        id=ids.BUILDUP_GROWING,
        hidden=True,
    )


def figures() -> Component:
    """Make the places of the staircase and the overlay."""
    return html.Div(
        [
            html.Figure(
                [
                    html.H2(explained("Peak, rise rate and time loaded over the days", most=3)),
                    dcc.Graph(id=ids.BUILDUP_STAIRS, config=GRAPH_CONFIG, className="graph"),
                    html.Figcaption(
                        "Each mark is a session: larger and darker is a heavier ball; hollow marks were thrown. "
                        "Dashed: the own ball at full speed. Shaded: easier weeks. Dotted upright: the target day. "
                        "The same numbers stand in the tables."
                    ),
                ]
            ),
            html.Figure(
                [
                    html.H2(explained("Varus torque: first, middle and last step")),
                    dcc.Graph(id=ids.BUILDUP_OVERLAY, config=GRAPH_CONFIG, className="graph"),
                    html.Figcaption("Thicker and darker is heavier; dashed is the own ball at full speed."),
                ]
            ),
        ],
        className="buildup-figures",
    )


def tables() -> Component:
    """Make the places of the two tables."""
    return html.Div(
        [
            html.Section([html.H2("Steps"), html.Div(id=ids.BUILDUP_STEPS)]),
            html.Section([html.H2("Sessions"), html.Div(id=ids.BUILDUP_SESSIONS)], className="buildup-sessions"),
        ],
        className="buildup-tables",
    )


def numbers() -> Component:
    """Make the place where new measures or readings are held against the plan."""
    return html.Section(
        [
            html.H2("Measures or readings have changed since"),
            html.P(id=ids.BUILDUP_NUMBERS_SAID),
            html.Div(id=ids.BUILDUP_NUMBERS),
            html.Div(
                [do("take_numbers", "Take the new numbers"), do("keep_numbers", "Keep the old")],
                className="buildup-buttons",
            ),
        ],
        id=f"{ids.BUILDUP_NUMBERS}-part",
        className="buildup-recheck",
        hidden=True,
    )


def by_hand() -> Component:
    """Make the fields that change a step or a session."""
    step = html.Div(
        [
            choice("Step", [], "", id=ids.BUILDUP_STEP, searchable=False),
            choice("Ball", [], "", id=ids.BUILDUP_STEP_BALL, searchable=False),
            hand("share", "Of full speed with it, %", "20 to 100", True),
            hand("sessions", "Sessions at this step", "1 to 30", True),
        ],
        className="buildup-row four",
    )
    session = html.Div(
        [
            choice("Session", [], "", id=ids.BUILDUP_SESSION, searchable=False),
            hand("day", "Day", "year-month-day; empty: by the calendar"),
            hand("throws", "Throws", "1 to 500; empty: by the budget", True),
        ],
        className="buildup-row",
    )
    return html.Details(
        [
            html.Summary("Change steps and sessions by hand"),
            html.P("What breaks a limit is not refused; it is named at its step or session.", className="quiet"),
            step,
            html.Div(
                [
                    do("step", "Change this step"),
                    do("leave_out", "Leave this step out"),
                    do("put_in", "Put a copy after it"),
                ],
                className="buildup-buttons",
            ),
            html.Div(
                [
                    hand(
                        "rest",
                        "Steps from this one on",
                        f"empty: the fewest within the limits, and {MORE_STEPS} more",
                        True,
                    ),
                    do("rest", "Plan the rest again from this step"),
                ],
                className="buildup-row",
            ),
            session,
            html.Div([do("session", "Set this session")], className="buildup-buttons"),
            html.Div(id=ids.BUILDUP_NOTICE_HAND, className="buildup-notice", role="status"),
        ],
        className="fold buildup-hand",
    )


def log() -> Component:
    """Make the fields of what is said after a session."""
    pains = [
        text_field(
            label,
            PAIN_SAID + ("; empty while not known" if name == "morning" else ""),
            True,
            value="",
            id={"type": ids.BUILDUP_PAIN, "name": name},
        )
        for name, label in PAINS.items()
    ]
    held = dmc.RadioGroup(
        html.Div([dmc.Radio(value=key, label=label) for key, label in HELD.items()], className="boxes"),
        id=ids.BUILDUP_HELD,
        value="",
        label="Speed of the step held to the end",
        className="field",
    )
    signs = dmc.CheckboxGroup(
        html.Div([dmc.Checkbox(value=sign, label=sign) for sign in STOP_SIGNS], className="boxes"),
        id=ids.BUILDUP_SIGNS,
        value=[],
        label="Signs that end a session",
        className="field",
    )
    decisions = [{"value": key, "label": words} for key, words in DECISIONS.items()]
    return html.Section(
        [
            html.H2("After a session", id=ids.BUILDUP_LOG_TITLE),
            html.P(f"{capital(ENDS_SESSION)}.", className="quiet"),
            html.Div(
                [
                    html.Div(
                        [hand("log_day", "Day", "year-month-day; empty: as planned"), *pains],
                        className="buildup-row four",
                    ),
                    html.Div([held, signs], className="buildup-row"),
                    html.Div(id=ids.BUILDUP_SUGGESTED, role="status", **{"aria-live": "polite"}),
                    html.Div(
                        [
                            choice(
                                "What is decided",
                                decisions,
                                "",
                                id=ids.BUILDUP_DECISION,
                                placeholder="choose",
                                searchable=False,
                            ),
                            hand("days_off", "Days off first", "0 to 60; empty: as suggested", True),
                            hand("by", "Initials of who decides", f"up to {LONGEST_INITIALS} characters, no names"),
                            hand(
                                "note",
                                "Note",
                                f"up to {LONGEST_NOTE} characters; may stay empty",
                                longest=LONGEST_NOTE,
                            ),
                        ],
                        className="buildup-row four",
                    ),
                    html.Div([do("log", "Keep this session", **{"data-key": "k"})], className="buildup-buttons"),
                ],
                id=ids.BUILDUP_LOG,
                className="buildup-log",
            ),
            html.Div([do("reopen", "Open the last session again")], id=ids.BUILDUP_LOGGED, hidden=True),
            html.Div(
                [
                    hand("again", "Go on from", "year-month-day"),
                    do("again", "Take the plan up again"),
                ],
                id=f"{ids.BUILDUP_LOG}-stopped",
                className="buildup-row",
                hidden=True,
            ),
            html.Div(id=ids.BUILDUP_NOTICE_LOG, className="buildup-notice", role="status"),
        ],
        className="buildup-after",
    )


def take() -> Component:
    """Make the buttons that print, save and open a plan, and those that undo and put it away."""

    def button(name: str, words: str, **props: Any) -> Component:
        return html.Button(words, id={"type": ids.BUILDUP_TAKE, "name": name}, type="button", n_clicks=0, **props)

    return html.Section(
        [
            html.H2("Take along"),
            html.Div(
                [
                    button("print", "Print the sheet", **{"data-key": "p"}),
                    button("table", "Save the table (CSV)"),
                    button("calendar", "Save the calendar (iCalendar)"),
                    dmc.Checkbox(
                        id=ids.BUILDUP_WITH_CODE, label="with the athlete’s code in its events", checked=False
                    ),
                    button("file", "Save the plan as a file"),
                ],
                className="buildup-buttons",
            ),
            html.P(
                "The plan is kept in this browser until it is put away. Its file holds the code, the body measures, "
                "the full speeds and the log, and opens again on another machine.",
                className="quiet",
            ),
        ],
        className="buildup-take",
    )


def whole() -> Component:
    """Make the buttons of the plan as a whole, which stand while there is one and while there is none."""
    upload = file_field("Open a plan file", ids.BUILDUP_UPLOAD, ".json", LARGEST_BYTES)
    return html.Div(
        [upload, do("undo", "Undo", disabled=True, **{"data-key": "b"}), do("away", "Put this plan away", hidden=True)],
        className="buildup-buttons buildup-whole",
    )
