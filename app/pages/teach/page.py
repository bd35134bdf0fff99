"""The Teach page: a story of the curve in steps, for a room or for an athlete across the table."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.bind.visit import Visit, nobody
from app.pages.teach import ids, parts
from app.pages.teach.answers import lesson_of
from app.pages.teach.callbacks import register
from app.pages.teach.lessons import DOERS, lesson_shown, session_in
from app.pages.teach.view import view_of
from app.show.from_records import case_of

UNREAD = "This session could not be read: the usual one is shown. A change writes it anew."


def layout(visit: Visit) -> Component:
    """Make the page; the browser fills its stage from the story."""
    row = lesson_shown(visit)
    session, readable = session_in(row)
    case = case_of(visit.data, visit.today, visit.system)
    invented = visit.data is not None and visit.data.athlete.invented
    lesson = lesson_of(session, case)
    view = view_of(session, case, lesson, invented, visit.today)
    body = html.Div([parts.stage(view), parts.below()], id=ids.TEACH_BODY, hidden=lesson is None)
    empty = [nobody(visit)] if visit.data is None else view.empty
    return html.Div(
        [
            dcc.Store(id=ids.TEACH_STORY, data=view.story),
            dcc.Download(id=ids.TEACH_FILE),
            parts.header(visit, invented),
            parts.setup(visit, row, session, case),
            html.P("" if readable else UNREAD, id=ids.TEACH_SAID, role="status", className="teach-said"),
            html.Div(empty, id=ids.TEACH_EMPTY, role="status", hidden=lesson is not None),
            body,
            html.Div(id=ids.TEACH_HANDOUT, className="handout paper-only"),
        ],
        className="teach",
    )


PAGE = Page(path="/teach", title="Teach", layout=layout, register=register, of_athlete=False, doers=DOERS)
