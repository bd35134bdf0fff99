"""The Claim page: what becomes of "this ball loads the arm more than that one", for one athlete."""

from dash import html
from dash.development.base_component import Component

from app.bind.head import athlete_head
from app.bind.page import Page
from app.bind.visit import Visit
from app.pages.claim import acts, parts
from app.pages.claim.callbacks import register
from app.show.basis import basis_of
from app.show.from_records import case_of
from app.show.page_parts import imprint


def layout(visit: Visit) -> Component:
    """Make the page of the visit's athlete; what is computed is put in by the callbacks."""
    case = case_of(visit.data, visit.today, visit.system)
    return html.Div(
        [
            athlete_head(visit, "Check a claim", case),
            parts.asked(visit, case),
            parts.empty(),
            parts.answer(),
            html.Div(basis_of(case.person), className="basis"),
            imprint(visit.today.isoformat()),
        ],
        className="claim",
    )


DOERS = {acts.SWAP: acts.swap, acts.BALL: acts.take_ball}
PAGE = Page(path="/claim", title="Claim", layout=layout, register=register, doers=DOERS)
