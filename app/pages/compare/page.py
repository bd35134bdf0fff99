"""The Compare page: one thrower, up to eight throws, and what differs between them."""

from datetime import date

from dash import Dash, dcc, html
from dash.development.base_component import Component
from flask import current_app

from app.bind.page import Page
from app.demo import load_demo
from app.pages.compare import ids, parts
from app.pages.compare.along import callbacks as along_callbacks
from app.pages.compare.along.parts import tools
from app.pages.compare.register import register as register_compare
from app.pages.compare.who import who


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept.

    Returns
    -------
    Component
    """
    on_demo: bool = current_app.config["LEVELPEAK"].demo
    demo = load_demo()
    return html.Div(
        [
            dcc.Store(id=ids.COMPARE_SAVED, storage_type="session"),  # gone with the tab: measures are personal
            dcc.Store(id=ids.COMPARE_BEFORE),
            dcc.Store(id=ids.COMPARE_WRITTEN),
            dcc.Store(id=ids.COMPARE_WIDTH),
            dcc.Store(id=ids.COMPARE_PAPER),
            dcc.Store(id=ids.COMPARE_FOCUS),
            dcc.Store(id=ids.COMPARE_TOLD),
            dcc.Store(id=ids.COMPARE_CHAIN),
            dcc.Store(id=ids.COMPARE_EVERY_OPEN),
            dcc.Store(id=ids.COMPARE_RESTORE),
            dcc.Store(id=ids.COMPARE_IDENTITY),
            dcc.Store(id=ids.COMPARE_PROFILES),
            parts.header(date.today().isoformat(), *tools()),
            who(demo, on_demo),
            parts.answer(),
            parts.picture(),
            parts.every_quantity(),
            parts.throws(demo, on_demo),
            parts.readings(),
            parts.basis(),
            parts.notice(),
        ],
        className="compare",
    )


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    register_compare(app)
    along_callbacks.register(app)


PAGE = Page(path="/compare", title="Compare", layout=layout, register=register)
