"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.bind.fields import act_button, bound, bound_radios
from app.bind.ids import PICK, act_id
from app.bind.visit import Visit
from app.pages.start import ids
from app.pages.start.limits import ABSOLUTE, AIMS, EXAMPLE_PEAK, SHARE, WANTED, bound_of, counted_in, limit_row
from app.pages.start.words import EXAMPLE_NOTE, INITIALS
from app.records.field_list import AMOUNT_UNITS, LIMIT_LABELS, field_of
from app.records.reads import AthleteData
from app.show.axes import BLANK
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.hundred import BASES
from app.show.rack import balls_in, boxes_of, texts_of
from app.show.subject import Case

HINTS = {
    "elbow_peak": "varus torque",
    "shoulder_peak": "internal-rotation torque",
    "rise_rate": "varus torque",
    "area": "under the varus torque of one throw; a very slow throw has more of it",
    "braking": "after release, horizontal-abduction torque; a lighter, faster ball raises it",
    "least_loaded": "elbow, varus torque",
    "most_loaded": "elbow, varus torque",
    "speed": "of every ball",
}
"""What stands beneath each limit, after what is accepted."""

DOUBT_HINT = "one standard deviation; empty: 10 for an estimated one, else 0"


def _limit(visit: Visit, data: AthleteData, name: str, label: str, typed: Component) -> Component:
    """A field, how it is counted, and what that comes to."""
    own = visit.system.unit(AMOUNT_UNITS[bound_of(name).accepted.unit])
    switch = dmc.SegmentedControl(
        id=act_id(visit.owner, ids.COUNT, name, PICK),
        data=[{"value": SHARE, "label": "%"}, {"value": ABSOLUTE, "label": own}],
        value=counted_in(data, name),
        size="xs",
        className="start-in",
        **{"aria-label": f"{label}: counted in"},
    )
    means = html.P(id={"type": ids.START_MEANS, "name": name}, className="start-means")
    return html.Div([typed, switch, means], className="start-limit")


def _limits(visit: Visit, data: AthleteData) -> list[Component]:
    made = []
    for name, label in LIMIT_LABELS.items():
        row = limit_row(data, name)
        said = f"{field_of('limits.amount', row.__dict__).accepted(visit.system)}; {HINTS[name]}"
        made.append(_limit(visit, data, name, label, bound(visit, "limits.amount", row, said=said)))
    return made


def _wanted(visit: Visit, data: AthleteData) -> Component:
    shown = f"{100.0 * EXAMPLE_PEAK:g}" if counted_in(data, WANTED) == SHARE else ""
    label = field_of("start.wanted_peak", data.settings).label
    return _limit(visit, data, WANTED, label, bound(visit, "start.wanted_peak", placeholder=shown))


def asked(visit: Visit, data: AthleteData, case: Case, usual: str) -> Component:
    """Make the form; `usual` is what 100 % is without choosing, a key of `app.show.hundred.BASES`."""
    bases, aims = ([{"value": key, "label": words} for key, words in of.items()] for of in (BASES, AIMS))
    base = bound(visit, "start.base", data=bases, usual=usual, allowDeselect=False)
    known, doubt = data.reference, f"{field_of('reference.relative_sd').accepted(visit.system)}; {DOUBT_HINT}"
    first = [
        html.Div([base, html.P(id=ids.START_REFERENCE, className="start-reference")]),
        *([bound(visit, "reference.relative_sd", known, said=doubt)] if known else []),
        bound(visit, "start.certainty"),
    ]
    buttons = [act_button(visit, "Empty all limits", ids.CLEAR), act_button(visit, "Example limits", ids.EXAMPLE)]
    heading = [
        html.H2("Limits", id="start-limits-title"),
        html.P(EXAMPLE_NOTE, id=ids.START_EXAMPLE_NOTE, className="quiet"),
        html.Div(buttons, className="whole"),
    ]
    # an aim is emptied with the pointer; by keyboard, what is chosen is chosen once more
    aim = bound(visit, "start.aim", data=aims, placeholder="choose", clearable=True)
    wanted = html.Div(_wanted(visit, data), id=ids.START_WANTED, hidden=True)
    parts = [
        html.Div(first, className="start-asked"),
        html.Div(heading, className="page-head"),
        html.Div(_limits(visit, data), className="start-limits"),
        html.Div([_balls(data, case), html.Div([aim, wanted], className="start-aim")], className="start-choice"),
    ]
    return html.Section(parts, className="start-form", **{"aria-labelledby": "start-limits-title"})


def _balls(data: AthleteData, case: Case) -> Component:
    own, left_out = texts_of(case.own_ball)[0], data.settings["start.left_out"]
    return dmc.CheckboxGroup(
        html.Div(boxes_of(case, own_stays=True), className="start-boxes"),
        id=ids.START_BALLS,
        label="Balls on the rack; the own ball is always looked at",
        value=sorted({own, *(texts_of(ball)[0] for ball in balls_in(case, left_out))}, key=float),
        className="start-balls",
    )


def answer(visit: Visit) -> Component:
    """Make the places of the sentence, the figure, the order and the table."""
    config = GRAPH_CONFIG | {"doubleClick": False}
    figure = dcc.Graph(id=ids.START_FIGURE, figure=BLANK, config=config, className="graph start-graph")
    words = explained("Upright axis: share of full speed, or release speed")
    axis = html.Div(bound_radios(visit, "start.axis", html.Span(words), key="x", heard="Upright axis"))
    add = act_button(visit, "Add the first to Compare", ids.ADD, **{"data-key": "a"})
    sheet = html.Button("Print the sheet", id=ids.START_PRINT, type="button", n_clicks=0, **{"data-key": "p"})
    added = html.Div([add, html.A("See it in Compare", href=visit.address("/compare"))], id=ids.START_ADD_PART)
    drawn = html.Figure([html.H2(id=ids.START_FIGURE_TITLE), figure, html.Figcaption(id=ids.START_FIGURE_NOTE)])
    picture = [drawn, html.Div(axis, className="start-axis")]
    named = {"aria-labelledby": ids.START_FIGURE_TITLE}
    bench = [html.Section(picture, className="start-picture", **named), html.Div(id=ids.START_ORDER)]
    every = [html.H2("Ball by ball", id="start-table-title"), html.Div(id=ids.START_TABLE)]
    parts = [
        html.Div(id=ids.START_SENTENCE, role="status", **{"aria-live": "polite"}),
        html.Div([sheet, added, html.Span(id=ids.START_NOTICE, role="status")], className="start-tools"),
        html.Dl(id=ids.START_LIMITS, className="paper-only start-sheet-limits"),
        html.Div(bench, className="start-bench"),
        html.Section(every, className="start-every", **{"aria-labelledby": "start-table-title"}),
        html.Div(id=ids.START_NOTES, className="start-notes"),
    ]
    return html.Div(parts, id=ids.START_BODY, className="start-body")


def by_hand() -> Component:
    """Make the places of the sheet that are filled in by hand."""
    places = [part for label in INITIALS for part in (html.Dt(label), html.Dd(""))]
    return html.Dl(places, className="paper-only start-by-hand")
