"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.bind.fields import act_button, bound, bound_radios
from app.bind.ids import PICK, act_id
from app.bind.visit import Visit
from app.pages.start import ids
from app.pages.start.checks import DOUBT, HINTS, LABELS, SHOWN_IN, bound_of, fields_of
from app.pages.start.form import ABSOLUTE, AIMS, EXAMPLE, LIMITS, SHARE, StartForm, form_of, limit_row
from app.pages.start.words import EXAMPLE_NOTE, INITIALS
from app.records.reads import AthleteData
from app.show.axes import BLANK
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.hundred import BASES
from app.show.rack import balls_in, boxes_of, texts_of
from app.show.subject import Case
from app.units.systems import METRIC, System


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


def _limit(visit: Visit, form: StartForm, name: str, typed: Component) -> Component:
    """A field, how it is counted, and what that comes to."""
    switch = dmc.SegmentedControl(
        id=act_id(visit.owner, ids.COUNT, name, PICK),
        data=ways(name, visit.system),
        value=getattr(form, f"{name}_in"),
        size="xs",
        className="start-in",
        **{"aria-label": f"{LABELS[name]}: counted in"},
    )
    means = html.P(id={"type": ids.START_MEANS, "name": name}, className="start-means")
    return html.Div([typed, switch, means], className="start-limit")


def _limits(visit: Visit, data: AthleteData, form: StartForm) -> list[Component]:
    fields, system = fields_of(form), visit.system
    made = []
    for name in LIMITS:
        label = f"{LABELS[name]}, {fields[name].unit_in(system)}"
        said = f"{fields[name].described(system)}; {HINTS[name]}"
        typed = bound(visit, "limits.amount", limit_row(data, name), label=label, said=said)
        made.append(_limit(visit, form, name, typed))
    return made


def _wanted(visit: Visit, form: StartForm) -> Component:
    shown = EXAMPLE.wanted_peak if form.wanted_peak_in == SHARE else ""
    return _limit(visit, form, "wanted_peak", bound(visit, "start.wanted_peak", placeholder=shown))


def asked(visit: Visit, data: AthleteData, case: Case, usual: str) -> Component:
    """Make the form: what 100 % is, the limits, the balls, what matters most.

    Parameters
    ----------
    visit : Visit
    data : AthleteData
    case : Case
    usual : str
        What 100 % is without choosing: a key of `app.show.hundred.BASES`.

    Returns
    -------
    Component
    """
    form = form_of(data)
    bases = [{"value": key, "label": words} for key, words in BASES.items()]
    aims = [{"value": key, "label": words} for key, words in AIMS.items()]
    reference = html.P(id=ids.START_REFERENCE, className="start-reference")
    doubt = f"{DOUBT.described(visit.system)}; {DOUBT.hint}"
    known = data.reference
    return html.Section(
        [
            html.Div(
                [
                    html.Div([bound(visit, "start.base", data=bases, usual=usual, allowDeselect=False), reference]),
                    *([bound(visit, "reference.relative_sd", known, said=doubt)] if known else []),
                    bound(visit, "start.certainty"),
                ],
                className="start-asked",
            ),
            html.Div(
                [
                    html.H2("Limits", id="start-limits-title"),
                    html.P(EXAMPLE_NOTE, id=ids.START_EXAMPLE_NOTE, className="quiet"),
                    html.Div(
                        [
                            act_button(visit, "Empty all limits", ids.CLEAR),
                            act_button(visit, "Example limits", ids.EXAMPLE),
                        ],
                        className="whole",
                    ),
                ],
                className="page-head",
            ),
            html.Div(_limits(visit, data, form), className="start-limits"),
            html.Div(
                [
                    _balls(form, case),
                    html.Div(
                        [
                            # emptied with the pointer; by keyboard, what is chosen is chosen once more
                            bound(visit, "start.aim", data=aims, placeholder="choose", clearable=True),
                            html.Div(_wanted(visit, form), id=ids.START_WANTED, hidden=True),
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


def _balls(form: StartForm, case: Case) -> Component:
    own, _ = texts_of(case.own_ball)
    return dmc.CheckboxGroup(
        html.Div(boxes_of(case, own_stays=True), className="start-boxes"),
        id=ids.START_BALLS,
        label="Balls on the rack; the own ball is always looked at",
        value=sorted({own, *(texts_of(ball)[0] for ball in balls_in(case, form.left_out))}, key=float),
        className="start-balls",
    )


def empty() -> Component:
    """Make the place where it is said what an answer needs."""
    return html.Div(id=ids.START_EMPTY, role="status", hidden=True)


def answer(visit: Visit) -> Component:
    """Make the places of the sentence, the figure, the order and the table."""
    figure = dcc.Graph(
        id=ids.START_FIGURE,
        figure=BLANK,
        config=GRAPH_CONFIG | {"doubleClick": False},
        className="graph start-graph",
    )
    words = explained("Upright axis: share of full speed, or release speed")
    axis = html.Div(bound_radios(visit, "start.axis", html.Span(words), key="x", heard="Upright axis"))
    add = act_button(visit, "Add the first to Compare", ids.ADD, **{"data-key": "a"})
    sheet = html.Button("Print the sheet", id=ids.START_PRINT, type="button", n_clicks=0, **{"data-key": "p"})
    added = html.Div([add, dmc.Anchor("See it in Compare", href=visit.address("/compare"))], id=ids.START_ADD_PART)
    return html.Div(
        [
            html.Div(id=ids.START_SENTENCE, role="status", **{"aria-live": "polite"}),
            html.Div([sheet, added, html.Span(id=ids.START_NOTICE, role="status")], className="start-tools"),
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
                            html.Div(axis, className="start-axis"),
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
