"""The Log page: what was thrown, by session and calendar week, sessions of no plan, and the history of the records."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.fields import bound
from app.bind.page import Page
from app.bind.steps import steps
from app.bind.visit import Visit
from app.pages.log import entering, ids
from app.pages.log.callbacks import register
from app.pages.log.past import past
from app.records.reads import person_on
from app.show.axes import BLANK
from app.show.cautions import caution_part
from app.show.curves_figure import GRAPH_CONFIG
from app.show.page_parts import imprint
from app.show.quantities import title
from model.channels import READINGS
from model.tally import TORQUES

BARS = {"area": "summed area", "throws": "throws"}


def layout(visit: Visit) -> Component:
    """Make the page; what follows from the log is filled in when it is drawn."""
    person = person_on(visit.data, visit.today)[0] if visit.data else None
    return html.Div(
        [
            dcc.Store(id=ids.LOG_WIDTH),
            dcc.Store(id=ids.LOG_PAPER),
            _head(visit),
            _asked(visit),
            html.Div(id=ids.LOG_SAID, className="log-said", role="status"),
            _picture(visit),
            entering.enter(visit),
            html.Section(id=ids.LOG_WEEKS, className="log-part"),
            html.Section(id=ids.LOG_SESSIONS, className="log-part"),
            past(visit),
            html.Div(caution_part(person), className="log-cautions"),
            imprint(date.today().isoformat()),
        ],
        className="log",
    )


def _head(visit: Visit) -> Component:
    return html.Div([html.H1(f"Log of {visit.code}"), steps(visit)], className="page-head")


def _asked(visit: Visit) -> Component:
    readings = [{"value": key, "label": title(READINGS[key])} for key in TORQUES]
    bars = [{"value": key, "label": words} for key, words in BARS.items()]
    return html.Div(
        [
            bound(visit, "log.reading", data=readings),
            bound(visit, "log.level_nm"),
            bound(visit, "log.bars", data=bars),
        ],
        className="log-asked",
    )


def _picture(visit: Visit) -> Component:
    """Make the place of the figure; where there may be one its room is kept, so that nothing moves when it comes."""
    graph = dcc.Graph(id=ids.LOG_FIGURE, figure=BLANK, config=GRAPH_CONFIG, className="graph log-graph")
    figure = html.Figure(
        [html.H2(id=ids.LOG_FIGURE_TITLE), html.Div(graph), html.Figcaption(id=ids.LOG_FIGURE_NOTE)],
        **{"aria-labelledby": ids.LOG_FIGURE_TITLE},
    )
    return html.Section(
        figure, id=ids.LOG_PICTURE, className="log-part", hidden=not (visit.data and visit.data.sessions)
    )


PAGE = Page(
    path="/log",
    title="Log",
    layout=layout,
    register=register,
    doers={
        ids.KEEP: entering.keep,
        ids.CHANGE: entering.change,
        ids.LEAVE: entering.leave,
        ids.REMOVE: entering.remove,
    },
)
