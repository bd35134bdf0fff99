"""The build-up page: from a start, a goal and a calendar to steps, days and throws, with a log of what was thrown."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.head import athlete_head
from app.bind.page import Page
from app.bind.visit import Visit
from app.pages.buildup import ids, log_parts, parts, plan_parts
from app.pages.buildup.callbacks import DOERS, register
from app.pages.buildup.found import Found
from app.pages.buildup.hand import offer_buttons
from app.pages.buildup.parts import Asked
from app.pages.buildup.showing import form_is_open, picked, view_for
from app.show.page_parts import imprint

STORES = (ids.BUILDUP_WIDTH, ids.BUILDUP_STAIRS_PAPER, ids.BUILDUP_OVERLAY_PAPER, ids.BUILDUP_TOLD)
"""Of what is worked out."""


def layout(visit: Visit) -> Component:
    """Make the page."""
    found = Found(visit)
    view, offers = view_for(found)
    return html.Div(
        [
            *(dcc.Store(id=name) for name in STORES),
            dcc.Download(id=ids.BUILDUP_FILE),
            athlete_head(visit, "Build up", found.athlete.case),
            Asked(found).whole(form_is_open(found)),
            plan_parts.whole(found),
            parts.missing(offer_buttons(offers)),
            html.Div(id=ids.BUILDUP_FLAG, role="status"),
            log_parts.signs(view),
            html.Div(id=ids.BUILDUP_SENTENCE, role="status", **{"aria-live": "polite"}),
            plan_parts.growing(view),
            html.Div(
                [
                    html.Section(id=ids.BUILDUP_NEXT, className="buildup-next"),
                    log_parts.log(found, view),
                    plan_parts.numbers(view),
                    html.Section(id=ids.BUILDUP_ABOUT, className="buildup-about"),
                    plan_parts.figures(),
                    plan_parts.tables(view),
                    plan_parts.by_hand(view, picked(found, None, None)),
                    plan_parts.take(),
                    html.Div(id=ids.BUILDUP_BASIS, className="basis"),
                ],
                id=ids.BUILDUP_BODY,
                className="buildup-body",
                hidden=view.hidden["body"],
            ),
            imprint(visit.today.isoformat()),
        ],
        className="buildup",
    )


PAGE = Page(path="/build-up", title="Build up", layout=layout, register=register, doers=DOERS)
