"""The build-up page: from a start, a goal and a calendar to steps, days and throws, with a log of what was thrown."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.demo import load_demo
from app.pages.buildup import ids, log_parts, parts, plan_parts
from app.pages.buildup.callbacks import register
from app.show.page_parts import imprint, page_head


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept."""
    memory = (
        ids.BUILDUP_READ,
        ids.BUILDUP_WRITTEN,
        ids.BUILDUP_WIDTH,
        ids.BUILDUP_STAIRS_PAPER,
        ids.BUILDUP_OVERLAY_PAPER,
        ids.BUILDUP_TOLD,
        ids.BUILDUP_CHANGES,
        ids.BUILDUP_LOG_OF,
        ids.BUILDUP_COMPARED,
    )
    return html.Div(
        [
            dcc.Store(id=ids.BUILDUP_SAVED, storage_type="session"),
            dcc.Store(id=ids.BUILDUP_LOG_TYPED, storage_type="session"),
            dcc.Store(id=ids.BUILDUP_PLAN, storage_type="local"),  # outlives the tab: a plan runs for weeks
            dcc.Store(id=ids.BUILDUP_BEFORE, storage_type="session"),
            dcc.Store(id=ids.BUILDUP_KNOWN, storage_type="local"),  # no stop sign is lost with a plan
            dcc.Store(id=ids.BUILDUP_FROM_START, storage_type="session"),
            *(dcc.Store(id=name) for name in memory),
            dcc.Download(id=ids.BUILDUP_FILE),
            page_head("Build up", ids.BUILDUP_INVENTED, ids.BUILDUP_WHO),
            parts.asked(load_demo()),
            plan_parts.whole(),
            parts.missing(),
            html.Div(id=ids.BUILDUP_FLAG, role="status"),
            log_parts.signs(),
            html.Div(id=ids.BUILDUP_SENTENCE, role="status", **{"aria-live": "polite"}),
            plan_parts.growing(),
            html.Div(
                [
                    html.Section(id=ids.BUILDUP_NEXT, className="buildup-next"),
                    log_parts.log(),
                    plan_parts.numbers(),
                    html.Section(id=ids.BUILDUP_ABOUT, className="buildup-about"),
                    plan_parts.figures(),
                    plan_parts.tables(),
                    plan_parts.by_hand(),
                    plan_parts.take(),
                    html.Div(id=ids.BUILDUP_BASIS, className="basis"),
                ],
                id=ids.BUILDUP_BODY,
                className="buildup-body",
                hidden=True,
            ),
            imprint(date.today().isoformat()),
        ],
        className="buildup",
    )


PAGE = Page(path="/build-up", title="Build up", layout=layout, register=register)
