"""The Start page: which ball to begin with, and up to which speed, under stated limits."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.head import athlete_head
from app.bind.page import Page
from app.bind.visit import Visit, nobody
from app.pages.start import acts, ids, parts
from app.pages.start.callbacks import register
from app.pages.start.view import growing_part
from app.show.cautions import caution_part
from app.show.from_records import case_of
from app.show.hundred import usual_base
from app.show.page_parts import imprint


def layout(visit: Visit) -> Component:
    """Make the page of the visit's athlete; what is computed is put in by the callbacks."""
    data = visit.data
    if data is None:
        return nobody(visit)
    case = case_of(data, visit.today, visit.system)
    return html.Div(
        [
            *(dcc.Store(id=name) for name in (ids.START_WIDTH, ids.START_PAPER)),
            athlete_head(visit, "Where to start", case),
            html.Div(growing_part(case.person), className="start-growing"),
            parts.asked(visit, data, case, usual_base(case)),
            html.P("Working it out …", id=ids.START_BUSY, className="start-busy", hidden=True),
            html.Div(id=ids.START_EMPTY, role="status", hidden=True),
            parts.answer(visit),
            html.Div(caution_part(case.person), className="start-cautions"),
            parts.by_hand(),
            imprint(visit.today.isoformat()),
        ],
        className="start",
    )


DOERS = {
    ids.ADD: acts.add,
    ids.PLAN: acts.plan,
    ids.COUNT: acts.count,
    ids.CLEAR: acts.clear,
    ids.EXAMPLE: acts.example,
}
PAGE = Page(path="/start", title="Start", layout=layout, register=register, doers=DOERS)
