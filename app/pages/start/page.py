"""The Start page: which ball to begin with, and up to which speed, under stated limits."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.demo import load_demo
from app.pages.start import ids, parts
from app.pages.start.callbacks import register
from app.show.page_parts import imprint, page_head


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept.

    Returns
    -------
    Component
    """
    memory = (
        ids.START_READ,
        ids.START_WRITTEN,
        ids.START_WRITE,
        ids.START_WIDTH,
        ids.START_PAPER,
        ids.START_TO_PLAN,
        ids.START_ADDRESS,
    )
    return html.Div(
        [
            dcc.Store(id=ids.START_SAVED, storage_type="session"),
            *(dcc.Store(id=name) for name in memory),
            page_head("Where to start", ids.START_INVENTED, ids.START_WHO),
            html.Div(id=ids.START_GROWING, className="start-growing"),
            parts.asked(load_demo()),
            parts.busy(),
            parts.empty(),
            parts.answer(),
            html.Div(id=ids.START_CAUTIONS, className="start-cautions"),
            parts.by_hand(),
            imprint(date.today().isoformat()),
        ],
        className="start",
    )


PAGE = Page(path="/start", title="Start", layout=layout, register=register)
