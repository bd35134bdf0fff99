"""The Map page: a quantity over ball mass and release speed, for one athlete."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.head import athlete_head
from app.bind.page import Page
from app.bind.visit import Visit
from app.pages.map import ids, parts
from app.pages.map.callbacks import register
from app.show.basis import basis_of
from app.show.from_records import case_of
from app.show.hundred import usual_base
from app.show.page_parts import imprint


def layout(visit: Visit) -> Component:
    """Make the page of the visit's athlete; what is computed is put in by the callbacks."""
    case = case_of(visit.data, visit.today, visit.system)
    return html.Div(
        [
            *(dcc.Store(id=name) for name in (ids.MAP_CLICKED, ids.MAP_WIDTH, ids.MAP_PAPER)),
            athlete_head(visit, "Map of ball mass and speed", case),
            html.Div(id=ids.MAP_EMPTY, role="status", hidden=True),
            html.Div(
                [
                    parts.asked(visit, usual_base(case)),
                    html.Div(id=ids.MAP_NOTES, className="map-notes"),
                    html.Div([parts.picture(visit), parts.throw(visit)], className="bench"),
                    parts.speeds(),
                ],
                id=ids.MAP_BODY,
                className="map-body",
            ),
            html.Div(basis_of(case.person), className="basis"),
            imprint(visit.today.isoformat()),
        ],
        className="map",
    )


PAGE = Page(path="/map", title="Map", layout=layout, register=register)
