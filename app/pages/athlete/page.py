"""The Athlete page: radar readings, and what they say of every ball this athlete throws."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.pages.athlete import ids, parts
from app.pages.athlete.callbacks import register


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept.

    Returns
    -------
    Component
    """
    memory = (
        ids.ATHLETE_READ,
        ids.ATHLETE_WRITTEN,
        ids.ATHLETE_COMPARE,
        ids.ATHLETE_CODE,
        ids.ATHLETE_BEFORE,
        ids.ATHLETE_NARROW,
        ids.ATHLETE_DROPPED,
        ids.ATHLETE_REMOVED,
        ids.ATHLETE_ROWS,
        ids.ATHLETE_CELLS,
        ids.ATHLETE_PROBLEMS,
        ids.ATHLETE_DETAILED,
        ids.ATHLETE_DRAWN,
        ids.ATHLETE_TOLD,
    )
    return html.Div(
        [
            dcc.Store(id=ids.ATHLETE_SAVED, storage_type="session"),  # gone with the tab: measures are personal
            *(dcc.Store(id=name) for name in memory),
            parts.header(),
            parts.measures(),
            parts.readings(),
            parts.fit(),
            parts.exponent(),
            parts.caps(),
            html.Div([parts.next_reading(), parts.effort(), parts.flight(), parts.correction()], className="pairs"),
            html.Div(id=ids.ATHLETE_BASIS, className="basis"),
            parts.notice(),
            parts.imprint(date.today().isoformat()),
        ],
        className="athlete",
    )


PAGE = Page(path="/athlete", title="Athlete", layout=layout, register=register)
