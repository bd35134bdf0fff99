"""The Teach page: a story of the curve in steps, for a room or for an athlete across the table."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.pages.teach import ids, parts
from app.pages.teach.callbacks import register


def layout() -> Component:
    """Make the page, its stage still empty: it is filled from what the browser kept.

    Returns
    -------
    Component
    """
    body = html.Div([parts.stage(), parts.below()], id=ids.TEACH_BODY, hidden=True)
    return html.Div(
        [
            dcc.Store(id=ids.TEACH_SAVED, storage_type="session"),
            dcc.Store(id=ids.TEACH_READ),
            dcc.Store(id=ids.TEACH_STORY),
            dcc.Store(id=ids.TEACH_FOCUS),
            dcc.Download(id=ids.TEACH_FILE),
            parts.header(),
            parts.setup(),
            parts.said(),
            html.Div(id=ids.TEACH_EMPTY, role="status", hidden=True),
            body,
            html.Div(id=ids.TEACH_HANDOUT, className="handout paper-only"),
        ],
        className="teach",
    )


PAGE = Page(path="/teach", title="Teach", layout=layout, register=register)
