"""The Athlete page: who throws, radar readings, and what they say of every ball this athlete throws."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.bind.visit import Visit, nobody
from app.pages.athlete import grid, ids, parts, person
from app.pages.athlete.acts import DOERS
from app.pages.athlete.callbacks import register
from app.show.counted import readings_since
from app.show.page_parts import imprint


def layout(visit: Visit) -> Component:
    """Make the page of the visit's athlete."""
    data = visit.data
    if data is None:
        return nobody(visit)
    cells = {ids.ATHLETE_GRID: grid.grid_html(visit, data, readings_since(data, visit.today))}
    if not data.measures:
        cells[person.FIRST_MEASURES] = person.first_measures_html(visit)
    return html.Div(
        [
            dcc.Store(id=ids.ATHLETE_CELLS, data=cells),
            *(dcc.Store(id=name) for name in (ids.ATHLETE_NARROW, ids.ATHLETE_LISTED)),
            *(dcc.Store(id=name) for name in (ids.ATHLETE_DRAWN, ids.ATHLETE_TOLD)),
            parts.header(visit),
            person.measures(visit, data),
            person.own_ball(visit, data),
            parts.readings(visit, data),
            parts.over_time(),
            parts.fit(visit),
            parts.exponent(),
            parts.caps(visit),
            html.Div(
                [
                    parts.place("next", "Next reading", ids.ATHLETE_NEXT),
                    parts.place("effort", "Asked effort is not speed", ids.ATHLETE_EFFORT),
                    parts.flight(visit, data),
                    parts.correction(visit),
                ],
                className="pairs",
            ),
            parts.notes(visit, data),
            html.Div(id=ids.ATHLETE_BASIS, className="basis"),
            parts.away(),
            imprint(visit.today.isoformat()),
        ],
        className="athlete",
    )


PAGE = Page(path="/athlete", title="Athlete", layout=layout, register=register, doers=DOERS)
