"""The Claim page: what becomes of "this ball loads the arm more than that one", for one athlete."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.demo import load_demo
from app.pages.claim import ids, parts
from app.pages.claim.callbacks import register
from app.show.page_parts import imprint, page_head


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept.

    Returns
    -------
    Component
    """
    return html.Div(
        [
            dcc.Store(id=ids.CLAIM_SAVED, storage_type="session"),
            dcc.Store(id=ids.CLAIM_READ),
            dcc.Store(id=ids.CLAIM_WRITTEN),
            page_head("Check a claim", ids.CLAIM_INVENTED, ids.CLAIM_WHO),
            parts.asked(load_demo()),
            parts.empty(),
            parts.answer(),
            html.Div(id=ids.CLAIM_BASIS, className="basis"),
            imprint(date.today().isoformat()),
        ],
        className="claim",
    )


PAGE = Page(path="/claim", title="Claim", layout=layout, register=register)
