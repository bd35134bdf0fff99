"""The Map page: a quantity over ball mass and release speed, for one athlete."""

from datetime import date

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.pages.map import ids, parts
from app.pages.map.callbacks import register
from app.show.page_parts import imprint, page_head


def layout() -> Component:
    """Make the page, its fields still empty: they are filled from what the browser kept.

    Returns
    -------
    Component
    """
    memory = (
        ids.MAP_READ,
        ids.MAP_WRITTEN,
        ids.MAP_COMPARE,
        ids.MAP_WRITE,
        ids.MAP_CLICKED,
        ids.MAP_BEFORE,
        ids.MAP_WIDTH,
        ids.MAP_PAPER,
    )
    return html.Div(
        [
            dcc.Store(id=ids.MAP_SAVED, storage_type="session"),
            *(dcc.Store(id=name) for name in memory),
            page_head("Map of ball mass and speed", ids.MAP_INVENTED, ids.MAP_WHO),
            parts.empty(),
            html.Div(
                [
                    parts.asked(),
                    html.Div(id=ids.MAP_NOTES, className="map-notes"),
                    html.Div([parts.picture(), parts.throw()], className="bench"),
                    parts.speeds(),
                ],
                id=ids.MAP_BODY,
                className="map-body",
            ),
            html.Div(id=ids.MAP_BASIS, className="basis"),
            imprint(date.today().isoformat()),
        ],
        className="map",
    )


PAGE = Page(path="/map", title="Map", layout=layout, register=register)
