"""The parts of the page that stay: headings, fields, choices. Functions that make components and do no work."""

from collections.abc import Mapping

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.demo import Demo, RackBall
from app.pages.compare import ids
from app.pages.compare.ready import READY
from app.show.controls import choice, text_field
from app.show.curves_figure import GRAPH_CONFIG
from app.show.form_fields import HELD_MEANS, HOLDS
from app.show.glossary import explained
from app.show.invented import INVENTED
from app.show.quantities import choices
from app.show.throw_form import ALIGNED, KINDS, MOST_THROWS, SCALES
from app.units.conversion import to_si
from app.units.systems import METRIC, System
from app.version import VERSION


def header(today: str, *tools: Component) -> Component:
    """Make the heading, which says so while an invented athlete is shown; on paper with date and version."""
    invented = html.P(INVENTED, id=ids.COMPARE_INVENTED, className="quiet", hidden=True)
    children: list[Component] = [html.H1("Compare throws"), invented]
    children.append(
        html.Div(
            [
                _step("Undo", ids.COMPARE_UNDO, "b"),
                _step("Redo", ids.COMPARE_REDO, "y"),
                html.Button("Start empty", id=ids.COMPARE_CLEAR, type="button", n_clicks=0),
                html.Button("See an invented example", id=ids.COMPARE_EXAMPLE, type="button", n_clicks=0),
            ],
            className="whole",
        )
    )
    children += tools
    children.append(html.P(id=ids.COMPARE_SUMMARY, className="summary paper-only"))
    children.append(html.P(f"Levelpeak {VERSION} · printed {today}", className="imprint paper-only quiet"))
    return html.Div(children, className="page-head")


def _step(name: str, part: str, key: str) -> Component:
    """A button that goes back or forward; the browser counts the steps, and says when there are none."""
    return html.Button(name, id=part, type="button", n_clicks=0, disabled=True, **{"data-key": key})


def answer() -> Component:
    """Make the place of the sentence, and the choices of what it is about."""
    return html.Section(
        [
            html.H2("What differs", id="answer-title", className="hidden"),
            html.Div(
                [
                    choice("Quantity", choices(), "varus", id=ids.COMPARE_QUANTITY, searchable=False),
                    choice("First sentence about", [], "", id=ids.COMPARE_HEADLINE, searchable=False),
                    _choice_of("Laid over one another at", ALIGNED, ids.COMPARE_ALIGN),
                    _choice_of("Measured in", SCALES, ids.COMPARE_SCALE),
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


def _choice_of(label: str, words: Mapping[str, str], part: str) -> Component:
    data = [{"value": key, "label": word} for key, word in words.items()]
    return choice(label, data, next(iter(words)), id=part, searchable=False)


def picture() -> Component:
    """Make the place of the figure, and beside it that of the instant under the cursor."""
    graph = dcc.Graph(id=ids.COMPARE_FIGURE, config=GRAPH_CONFIG, className="graph")
    return html.Section(
        [
            html.Figure([html.H2(id=ids.COMPARE_FIGURE_TITLE), graph, html.Figcaption(id=ids.COMPARE_FIGURE_NOTE)]),
            html.Div(id=ids.COMPARE_INSTANT, className="instant"),
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


def throws(demo: Demo, on_demo: bool) -> Component:
    """Make the list of throws and what is done to it; its lines come from `rows.rows`."""
    add = html.Button("Add a throw", id=ids.COMPARE_ADD, type="button", n_clicks=0, **{"data-key": "a"})
    rack = choice(
        "Add a ball from the rack",
        rack_choices(demo),
        "",
        id=ids.COMPARE_RACK,
        placeholder="Add from the rack",
        searchable=False,
    )
    kinds = [{"value": key, "label": words} for key, words in KINDS.items()]
    made = [{"value": key, "label": words} for key, words in READY.items()]
    prepared = choice("Ready comparison", made, "", id=ids.COMPARE_READY, placeholder="choose", searchable=False)
    return html.Section(
        [
            html.Div(
                [html.H2("Throws", id="throws-title"), html.P(f"up to {_count(MOST_THROWS)}")], className="title-line"
            ),
            dmc.RadioGroup(
                html.Ol(id=ids.COMPARE_ROWS, className="rows"),
                id=ids.COMPARE_REFERENCE,
                value="",
                label="Reference throw",
                className="reference-group",
            ),
            html.Div(
                [add, html.Div(rack, className="rack", hidden=not on_demo), html.Div(prepared, className="rack")],
                className="more",
            ),
            html.Div(
                [
                    choice("Reference is", kinds, "measured", id=ids.COMPARE_KIND, searchable=False),
                    text_field("Measured on", "year-month-day", value="", id=ids.COMPARE_DATE),
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
                        "A changed body measure keeps the clock: at a fixed release speed the length of a uniformly "
                        "scaled arm cancels out of the torque, at the same joint speeds it does not."
                    ),
                ],
                className="fold",
            ),
        ],
        className="throws",
        **{"aria-labelledby": "throws-title"},
    )


def rack_choices(demo: Demo, system: System = METRIC) -> list[dict[str, str]]:
    """List the balls of the rack, by their place.

    Parameters
    ----------
    demo : Demo
    system : System
        The units of mass and diameter.

    Returns
    -------
    list of dict
        As `dmc.Select` takes it.
    """

    def words(ball: RackBall) -> str:
        mass, diameter = to_si(float(ball.mass_g), "g"), to_si(float(ball.diameter_mm), "mm")
        return f"{ball.ball.replace(f'{ball.mass_g} g', system.text(mass, 'g'))}, {system.text(diameter, 'mm')}"

    return [{"value": str(i), "label": words(ball)} for i, ball in enumerate(demo.rack)]


def readings() -> Component:
    """Make the place of the table, and the level of "time above"."""
    level = text_field("Time above", "", value="", id=ids.COMPARE_ABOVE, numeric=True)
    return html.Section(
        [
            html.Div([html.H2("Readings", id="readings-title"), level], className="title-line"),
            html.Div(id=ids.COMPARE_TABLE),
        ],
        className="readings-part",
        **{"aria-labelledby": "readings-title"},
    )


def basis() -> Component:
    """Make the place of what the page rests on, and of the cautions."""
    return html.Div(id=ids.COMPARE_BASIS, className="basis")


def notice() -> Component:
    """Make the place where it is said what was replaced or removed, and where it can be put back."""
    back = html.Button("Put back", id=ids.COMPARE_PUT_BACK, type="button", n_clicks=0, hidden=True, **{"data-key": "z"})
    speeds = html.Button("Keep the release speeds", id=ids.COMPARE_KEEP_SPEEDS, type="button", n_clicks=0, hidden=True)
    away = html.Button("Dismiss", id=ids.COMPARE_DISMISS, type="button", n_clicks=0)
    return html.Div(
        [html.Span(id=ids.COMPARE_NOTICE), " ", back, " ", speeds, " ", away], className="notice", role="status"
    )


def _count(number: int) -> str:
    return {8: "eight"}.get(number, str(number))
