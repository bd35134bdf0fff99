"""The parts of the page: headings, fields, choices. Functions that make components and do no work."""

import json
from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.fields import act_button
from app.bind.fields import bound as bound_field
from app.bind.steps import steps
from app.pages.compare import ids
from app.pages.compare.current import Current
from app.pages.compare.ready import READY
from app.pages.compare.rows import rows
from app.pages.compare.words import invented_words
from app.records import tables
from app.show.controls import choice
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.listed_throw import HOLDS, MOST_THROWS
from app.show.quantities import choices, reading_named
from app.units.systems import System
from app.version import VERSION

NO_MESSAGE = ""

HELD_MEANS = {
    "speed": "The release speed stays as typed or measured, whatever else changes.",
    "clock": "The joint speeds stay, in per cent of the reference motion's: a longer arm releases faster.",
    "profile": "A share of this athlete's full speed with that ball, from the readings on the Athlete page.",
}


def header(current: Current, *tools: Component) -> Component:
    """Make the heading, which says so while an invented athlete is shown; on paper with date and version."""
    whole = current.visit.store.invented  # then the shell says so
    invented = "" if whole else invented_words(current.compared(), current.invented)
    children: list[Component] = [html.H1("Compare throws")]
    children += [html.P(invented, className="quiet")] if invented else []
    children += [html.Div(steps(current.visit), className="whole"), *tools, saved(current)]
    children.append(html.P(id=ids.COMPARE_SUMMARY, className="summary paper-only"))
    printed = f"Levelpeak {VERSION} · printed {current.visit.today.isoformat()}"
    children.append(html.P(printed, className="imprint paper-only quiet"))
    return html.Div(children, className="page-head")


def saved(current: Current) -> Component:
    """Make the choice of the athlete's comparisons, the name of this one, and what is done to it."""
    visit = current.visit
    part = bound.act_id(visit.owner, ids.OPEN, kind=bound.PICK)
    return html.Div(
        [
            choice("Comparison", names(current.data.comparisons), current.row.uid, id=part, searchable=False),
            bound_field(visit, "comparison.name", current.row, label="Its name", said=NO_MESSAGE),
            act_button(visit, "New comparison", ids.NEW),
            act_button(visit, "Copy it", ids.COPY_ALL),
            act_button(visit, "Remove it", ids.REMOVE_ALL),
        ],
        className="saved",
    )


def names(comparisons: tuple[tables.Comparison, ...]) -> list[dict[str, str]]:
    """What the comparisons are called; one without a name by its place."""
    return [
        {"value": one.uid, "label": one.name or f"Comparison {place}"} for place, one in enumerate(comparisons, start=1)
    ]


def answer(current: Current) -> Component:
    """Make the place of the sentence, and the choices of what it is about."""

    def chosen(path: str, **more: Any) -> Component:
        return bound_field(current.visit, path, current.row, said=NO_MESSAGE, **more)

    headline = bound.field_id(current.visit.owner, "comparison.headline", current.row.uid, current.visit.system.key)
    return html.Section(
        [
            html.H2("What differs", id="answer-title", className="hidden"),
            html.Div(
                [
                    chosen("comparison.quantity", data=choices()),
                    choice("First sentence about", [], current.row.headline or "", id=headline, searchable=False),
                    chosen("comparison.align"),
                    chosen("comparison.scale"),
                ],
                className="asked",
            ),
            html.Div(id=ids.COMPARE_SENTENCE, role="status", **{"aria-live": "polite"}),
            html.Div(id=ids.COMPARE_OTHERS),
            html.Div(id=ids.COMPARE_WARNINGS, role="status"),
        ],
        className="answer",
        **{"aria-labelledby": "answer-title"},
    )


def picture(chains: dict[str, Any]) -> Component:
    """Make the place of the figure, and beside it that of the instant under the cursor, and whose arm."""
    graph = dcc.Graph(id=ids.COMPARE_FIGURE, config=GRAPH_CONFIG, className="graph")
    return html.Section(
        [
            html.Figure([html.H2(id=ids.COMPARE_FIGURE_TITLE), graph, html.Figcaption(id=ids.COMPARE_FIGURE_NOTE)]),
            html.Div(id=ids.COMPARE_INSTANT, className="instant", **{"data-chains": json.dumps(chains)}),
        ],
        className="picture",
        **{"aria-labelledby": ids.COMPARE_FIGURE_TITLE},
    )


def every_quantity() -> Component:
    """Make the fold with a small figure for every quantity; it is drawn while it is unfolded."""
    graph = dcc.Graph(id=ids.COMPARE_MULTIPLES, config=GRAPH_CONFIG, className="multiples")
    said = "Every torque and force of every throw, in plain units; those marked “after release” are the braking group."
    return html.Details(
        [html.Summary("Every quantity"), html.P(said, className="quiet"), graph],
        id=ids.COMPARE_EVERY,
        className="fold every",
    )


def throws(current: Current) -> Component:
    """Make the list of throws and what is done to it."""
    visit = current.visit
    add = act_button(visit, "Add a throw", ids.ADD, **{"data-key": "a"})
    ball = _acting(current, ids.BALL, "Add one of the balls", balls(current))
    prepared = _acting(current, ids.READY, "Ready comparison", [{"value": k, "label": w} for k, w in READY.items()])
    part = bound.field_id(visit.owner, "comparison.reference", current.row.uid, visit.system.key)
    return html.Section(
        [
            html.Div(
                [html.H2("Throws", id="throws-title"), html.P(f"up to {_count(MOST_THROWS)}")], className="title-line"
            ),
            dmc.RadioGroup(
                html.Ol(rows(current), className="rows"),
                id=part,
                value=current.row.reference or "",
                label="Reference throw",
                className="reference-group",
            ),
            html.Div([add, html.Div(ball, className="rack"), html.Div(prepared, className="rack")], className="more"),
            html.Div(
                [
                    bound_field(visit, "comparison.kind", current.row, label="Reference is", said=NO_MESSAGE),
                    bound_field(visit, "comparison.day", current.row, label="Measured on", said="year-month-day"),
                    html.P(id=ids.COMPARE_DAY_SAID, role="status"),
                ],
                className="known",
            ),
            html.Details(
                [
                    html.Summary("How a throw is held"),
                    html.Dl(
                        [
                            part
                            for hold in HOLDS
                            for part in (html.Dt(explained(HOLDS[hold])), html.Dd(HELD_MEANS[hold]))
                        ]
                    ),
                    html.P(
                        "At a fixed release speed the length of a uniformly scaled arm cancels out of the torque; "
                        "at the same joint speeds it does not. So it matters which of them stays when a body measure "
                        "changes."
                    ),
                ],
                id=ids.COMPARE_HOLDS,
                className="fold",
            ),
        ],
        className="throws",
        **{"aria-labelledby": "throws-title"},
    )


def _acting(current: Current, do: str, label: str, data: list[dict[str, str]]) -> Component:
    """A choice that is done at once, and shows nothing chosen afterwards."""
    part = bound.act_id(current.visit.owner, do, kind=bound.PICK)
    return choice(label, data, "", id=part, placeholder="choose", searchable=False)


def balls(current: Current) -> list[dict[str, str]]:
    """List the balls that a throw can be added with: the team's and the athlete's own."""
    data, system = current.visit.data, current.visit.system
    if data is None:
        return []
    kept = [one for one in data.balls.values() if one.archived_at is None and one.mass_kg is not None]
    in_order = sorted(kept, key=lambda one: (one.mass_kg, one.id))
    return [{"value": one.uid, "label": _ball_words(one, data.own_ball, system)} for one in in_order]


def _ball_words(ball: tables.Ball, own: tables.Ball | None, system: System) -> str:
    """Mass, diameter, and the name as far as it says more."""
    sizes = ((ball.mass_kg, "g"), (ball.diameter_m, "mm"))
    said = ", ".join(system.text(size, unit) for size, unit in sizes if size is not None)
    name = "own ball" if own is not None and ball.id == own.id else ball.name
    return f"{said} ({name})" if name else said


def readings(current: Current) -> Component:
    """Make the place of the table, and the level of "time above"."""
    level = bound_field(current.visit, "comparison.above", current.row, label=level_label(current), said=NO_MESSAGE)
    return html.Section(
        [
            html.Div([html.H2("Readings", id="readings-title"), level], className="title-line"),
            html.Div(id=ids.COMPARE_TABLE),
        ],
        className="readings-part",
        **{"aria-labelledby": "readings-title"},
    )


def level_label(current: Current) -> str:
    """What the level of "time above" is called, with the unit of the chosen quantity."""
    return f"Time above, {reading_named(current.row.quantity).unit}"


def _count(number: int) -> str:
    return {8: "eight"}.get(number, str(number))
