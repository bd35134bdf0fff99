"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.demo import Demo
from app.pages.start import ids
from app.pages.start.checks import CERTAINTY, DOUBT, SHOWN_IN, bound_of, fields_of
from app.pages.start.form import ABSOLUTE, AIMS, AXES, EXAMPLE, LIMITS, SHARE, StartForm
from app.pages.start.words import EXAMPLE_NOTE, INITIALS
from app.show.axes import BLANK
from app.show.controls import choice, number_field
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.hundred import BASES
from app.show.whose import OF_COMPARE, people
from app.units.systems import METRIC, System


def field_label(form: StartForm, name: str, system: System = METRIC) -> str:
    """What stands over a field, with the unit that was chosen."""
    field = fields_of(form)[name]
    return f"{field.label}, {field.unit_in(system)}"


def field_description(form: StartForm, name: str, system: System = METRIC) -> str:
    """What stands under it."""
    field = fields_of(form)[name]
    return f"{field.described(system)}; {field.hint}" if field.hint else field.described(system)


def ways(name: str, system: System = METRIC) -> list[dict[str, str]]:
    """How a limit can be counted, as its control takes it.

    Parameters
    ----------
    name : str
        Of the limit.
    system : System

    Returns
    -------
    list of dict
    """
    own = system.unit(SHOWN_IN[bound_of(name).accepted.unit])
    return [{"value": SHARE, "label": "%"}, {"value": ABSOLUTE, "label": own}]


def _typed(name: str) -> Component:
    field = fields_of(EXAMPLE)[name]
    return number_field(field, "", field_label(EXAMPLE, name), id={"type": ids.START_FIELD, "name": name})


def _limit(name: str) -> Component:
    """A field, how it is counted, and what that comes to."""
    field = fields_of(EXAMPLE)[name]
    count = dmc.SegmentedControl(
        id={"type": ids.START_IN, "name": name},
        data=ways(name),
        value=getattr(EXAMPLE, f"{name}_in"),
        size="xs",
        className="start-in",
        **{"aria-label": f"{field.label}: counted in"},
    )
    means = html.P(id={"type": ids.START_MEANS, "name": name}, className="start-means")
    return html.Div([_typed(name), count, means], className="start-limit")


def asked(demo: Demo) -> Component:
    """Make the form: whose arm, what 100 % is, the limits, the balls, what matters most."""
    bases = [{"value": key, "label": words} for key, words in BASES.items()]
    aim = choice(
        "What matters most",
        [{"value": key, "label": words} for key, words in AIMS.items()],
        "",
        id=ids.START_AIM,
        searchable=False,
        placeholder="choose",
        clearable=True,  # with the pointer; by keyboard, what is chosen is chosen once more
        allowDeselect=True,
    )
    reference = html.P(id=ids.START_REFERENCE, className="start-reference")
    return html.Section(
        [
            html.Div(
                [
                    choice(
                        "Whose arm",
                        people(demo),
                        OF_COMPARE,
                        id=ids.START_ATHLETE,
                        searchable=False,
                        placeholder="choose",
                    ),
                    html.Div([choice("100 % is", bases, "reference", id=ids.START_BASE, searchable=False), reference]),
                    _typed(DOUBT.name),
                    _typed(CERTAINTY.name),
                ],
                className="start-asked",
            ),
            html.Div(
                [
                    html.H2("Limits", id="start-limits-title"),
                    html.P(EXAMPLE_NOTE, id=ids.START_EXAMPLE_NOTE, className="quiet"),
                    html.Div(
                        [
                            html.Button("Empty all limits", id=ids.START_CLEAR, type="button", n_clicks=0),
                            html.Button("Example limits", id=ids.START_EXAMPLE, type="button", n_clicks=0),
                        ],
                        className="whole",
                    ),
                ],
                className="page-head",
            ),
            html.Div([_limit(name) for name in LIMITS], className="start-limits"),
            html.Div(
                [
                    dmc.CheckboxGroup(
                        html.Div(id=f"{ids.START_BALLS}-boxes", className="start-boxes"),
                        id=ids.START_BALLS,
                        label="Balls on the rack; the own ball is always looked at",
                        value=[],
                        className="start-balls",
                    ),
                    html.Div(
                        [
                            aim,
                            html.Div(_limit("wanted_peak"), id=ids.START_WANTED, hidden=True),
                        ],
                        className="start-aim",
                    ),
                ],
                className="start-choice",
            ),
        ],
        className="start-form",
        **{"aria-labelledby": "start-limits-title"},
    )


def empty() -> Component:
    """Make the place where it is said what an answer needs."""
    return html.Div(id=ids.START_EMPTY, role="status", hidden=True)


def answer() -> Component:
    """Make the places of the sentence, the figure, the order and the table."""
    figure = dcc.Graph(
        id=ids.START_FIGURE,
        figure=BLANK,
        config=GRAPH_CONFIG | {"doubleClick": False},
        className="graph start-graph",
    )
    axis = dmc.SegmentedControl(
        id=ids.START_AXIS,
        data=[{"value": key, "label": words} for key, words in AXES.items()],
        value=EXAMPLE.axis,
        size="xs",
        **{"aria-label": "Upright axis", "data-key": "x"},
    )
    add = html.Button("Add the first to Compare", id=ids.START_ADD, type="button", n_clicks=0, **{"data-key": "a"})
    sheet = html.Button("Print the sheet", id=ids.START_PRINT, type="button", n_clicks=0, **{"data-key": "p"})
    added = html.Div(
        [add, dmc.Anchor("See it in Compare", href="/"), html.Span(id=ids.START_NOTICE, role="status")],
        id=ids.START_ADD_PART,
    )
    return html.Div(
        [
            html.Div(id=ids.START_SENTENCE, role="status", **{"aria-live": "polite"}),
            html.Div([sheet, added], className="start-tools"),
            html.Dl(id=ids.START_LIMITS, className="paper-only start-sheet-limits"),
            html.Div(
                [
                    html.Section(
                        [
                            html.Figure(
                                [
                                    html.H2(id=ids.START_FIGURE_TITLE),
                                    figure,
                                    html.Figcaption(id=ids.START_FIGURE_NOTE),
                                ]
                            ),
                            html.Div(
                                [
                                    html.Span(
                                        explained("Upright axis: share of full speed, or release speed"),
                                        className="mantine-InputWrapper-label",
                                    ),
                                    axis,
                                ],
                                className="start-axis",
                            ),
                        ],
                        className="start-picture",
                        **{"aria-labelledby": ids.START_FIGURE_TITLE},
                    ),
                    html.Div(id=ids.START_ORDER),
                ],
                className="start-bench",
            ),
            html.Section(
                [html.H2("Ball by ball", id="start-table-title"), html.Div(id=ids.START_TABLE)],
                className="start-every",
                **{"aria-labelledby": "start-table-title"},
            ),
            html.Div(id=ids.START_NOTES, className="start-notes"),
        ],
        id=ids.START_BODY,
        className="start-body",
    )


def busy() -> Component:
    """Make what says that an answer is being worked out."""
    return html.P("Working it out …", id=ids.START_BUSY, className="start-busy", hidden=True)


def by_hand() -> Component:
    """Make the places of the sheet that are filled in by hand."""
    return html.Dl(
        [part for label in INITIALS for part in (html.Dt(label), html.Dd(""))], className="paper-only start-by-hand"
    )
