"""The parts around a plan: what is read before it, figures, tables, changes by hand, what is taken along."""

from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.bind.fields import act_button
from app.pages.buildup import ids
from app.pages.buildup.file import LARGEST_BYTES
from app.pages.buildup.found import Found
from app.pages.buildup.hand import buttons, do, hand, row
from app.pages.buildup.plans import plans_list
from app.pages.buildup.view import View
from app.show.cautions import GROWING
from app.show.controls import choice
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.page_parts import file_field

STAIRS = (
    "Each mark is a session: larger and darker is a heavier ball; hollow marks were thrown. Dashed: the own ball at "
    "full speed. Shaded: easier weeks. Dotted upright: the target day. The same numbers stand in the tables."
)
OVERLAY = "Thicker and darker is heavier; dashed is the own ball at full speed."
TAKEN = (
    "The sheet has what was done and what is to come; the log has all that was noted, for a chart. The file of the "
    "plan holds the code, the body measures, the full speeds, the log and the stop signs, and opens again on another "
    "machine."
)


def growing(view: View) -> Component:
    """Make what is read, and confirmed, before a plan for a thrower who is still growing is shown."""
    parts = [
        html.H2("Read this before the plan is shown"),
        html.P(GROWING[0], className="buildup-growing-text"),
        html.P(GROWING[1], className="source"),
        row("", hand("read_by"), do("read", "I have read this: show the plan")),
    ]
    return html.Section(parts, id=ids.BUILDUP_GROWING, hidden=view.hidden["growing"])


def figures() -> Component:
    """Make the places of the staircase and the overlay."""
    stairs = explained("Peak, rise rate and time loaded over the days", most=3)
    curves = explained("Varus torque: first, middle and last step")
    made = [_figure(stairs, ids.BUILDUP_STAIRS, STAIRS), _figure(curves, ids.BUILDUP_OVERLAY, OVERLAY)]
    return html.Div(made, className="buildup-figures")


def _figure(head: Any, part: str, said: str) -> Component:
    graph = dcc.Graph(id=part, config=GRAPH_CONFIG, className="graph")
    return html.Figure([html.H2(head), graph, html.Figcaption(said)])


def tables(view: View) -> Component:
    """Make the places of the tables."""
    log = {"id": f"{ids.BUILDUP_LOG_TABLE}-part", "hidden": view.hidden["log_table"]}
    sections = [
        html.Section([html.H2("Steps"), html.Div(id=ids.BUILDUP_STEPS)]),
        html.Section([html.H2("Sessions"), html.Div(id=ids.BUILDUP_SESSIONS)], className="buildup-sessions"),
        html.Section([html.H2("Log"), html.Div(id=ids.BUILDUP_LOG_TABLE)], **log),
    ]
    return html.Div(sections, className="buildup-tables")


def numbers(view: View) -> Component:
    """Make the place where new measures or readings are held against the plan."""
    parts = [
        html.H2("Measures or readings have changed since"),
        html.P(id=ids.BUILDUP_NUMBERS_SAID),
        html.Div(id=ids.BUILDUP_NUMBERS),
        buttons(do("take_numbers", "Take the new numbers"), do("keep_numbers", "Keep the old")),
    ]
    return html.Section(parts, className="buildup-recheck", hidden=view.hidden["numbers"])


def by_hand(view: View, now: dict[str, Any]) -> Component:
    """Make the fields that change a step or a session.

    Parameters
    ----------
    view : View
    now : dict
        What they show first, as `showing.picked` has it.
    """
    texts = now["texts"]
    step = choice("Step", view.steps, now["step"], id=ids.BUILDUP_STEP, searchable=False)
    ball = choice("Ball", view.balls, now["ball"], id=ids.BUILDUP_STEP_BALL, searchable=False)
    session = choice("Session", view.sessions, now["session"], id=ids.BUILDUP_SESSION, searchable=False)
    change, leave = do("step", "Change this step"), do("leave_out", "Leave this step out")
    said = "What breaks a limit is not refused; it is named at its step or session."
    parts = [
        html.Summary("Change steps and sessions by hand"),
        html.P(said, className="quiet"),
        row("four", step, ball, hand("share", texts["share"]), hand("sessions", texts["sessions"])),
        buttons(change, leave, do("put_in", "Put a copy after it")),
        row("", hand("rest"), do("rest", "Plan the rest again from this step")),
        row("", session, hand("day", texts["day"]), hand("throws", texts["throws"])),
        buttons(do("session", "Set this session")),
        html.Div(id=ids.BUILDUP_NOTICE_HAND, className="buildup-notice", role="status"),
    ]
    return html.Details(parts, id=ids.BUILDUP_BY_HAND, className="fold buildup-hand", hidden=view.hidden["hand"])


def take() -> Component:
    """Make the buttons that print and save a plan."""

    def button(name: str, words: str, **props: Any) -> Component:
        return html.Button(words, id={"type": ids.BUILDUP_TAKE, "name": name}, type="button", n_clicks=0, **props)

    code = dmc.Checkbox(id=ids.BUILDUP_WITH_CODE, label="with the athlete’s code in its events", checked=False)
    made = buttons(
        button("print", "Print the sheet", **{"data-key": "p"}),
        button("log", "Print the log"),
        button("table", "Save the table (CSV)"),
        button("calendar", "Save the calendar (iCalendar)"),
        code,
        button("file", "Save the plan as a file"),
    )
    return html.Section([html.H2("Take along"), made, html.P(TAKEN, className="quiet")], className="buildup-take")


def whole(found: Found) -> Component:
    """Make what stands while there is a plan and while there is none: the list of plans, and a file to open."""
    upload = file_field("Open a plan file", ids.BUILDUP_UPLOAD, ".json", LARGEST_BYTES)
    row = found.shown.row.uid if found.shown else ""
    shown = (
        [act_button(found.visit, "Put this plan away", "buildup/this_away", row)] if found.course is not None else []
    )
    return html.Div([plans_list(found), html.Div([upload, *shown], className="buildup-buttons buildup-whole")])
