"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

from typing import Any

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.fields import bound, bound_radios
from app.bind.visit import Visit
from app.pages.map import ids
from app.pages.map.asked import MASS, MASS_ENDS, SHOWN_READINGS, SPEED, SPEED_ENDS
from app.records.field_list import field_of
from app.show.axes import BLANK
from app.show.curves_figure import GRAPH_CONFIG
from app.show.hundred import BASES
from app.show.numbers import READOUT_ORDER
from app.show.quantities import title
from app.units.systems import System
from model.channels import READINGS
from model.quantity import READOUTS

MAP_CONFIG: dict[str, Any] = GRAPH_CONFIG | {"doubleClick": False}
STEPS = {"g": ("5 g", "1 g"), "m/s": ("0.5 m/s", "0.1 m/s"), "oz": ("0.25 oz", "0.05 oz"), "mph": ("1 mph", "0.2 mph")}
"""What an arrow key adds to a field of the throw in a unit, alone and with Shift; `assets/map.js` does it."""


EMPTY = "; empty: full speed with the ball"


def asked(visit: Visit, usual: str) -> Component:
    """Make the choices of what is drawn; `usual` is what 100 % is without choosing."""
    readings = [
        {
            "group": group,
            "items": [
                {"value": key, "label": title(READINGS[key])}
                for key in SHOWN_READINGS
                if READINGS[key].braking is braking
            ],
        }
        for group, braking in (("Before release", False), ("Braking, after release", True))
    ]
    readouts = [{"value": key, "label": READOUTS[key].label} for key in READOUT_ORDER]
    bases = [{"value": key, "label": words} for key, words in BASES.items()]
    choices = [
        bound(visit, "map.reading", data=readings),
        bound(visit, "map.readout", data=readouts),
        bound(visit, "map.of", data=bases, usual=usual, allowDeselect=False),
        bound_radios(visit, "map.axis", "Mass axis", key="x"),
    ]
    return html.Div(choices, className="map-asked")


def ranges(visit: Visit) -> Component:
    """Make the fields of the axes' ends."""
    parts = [
        html.Summary("Ends of the axes"),
        html.P("Left out, they fit the rack and the speeds of this athlete.", className="quiet"),
        html.Div([bound(visit, path) for path in (*MASS_ENDS, *SPEED_ENDS)], className="map-ends"),
        html.P(id=ids.MAP_ENDS_PROBLEM, className="problem", role="status"),
    ]
    return html.Details(parts, className="fold map-ranges")


def picture(visit: Visit) -> Component:
    """Make the place of the figure."""
    graph = dcc.Graph(id=ids.MAP_FIGURE, figure=BLANK, config=MAP_CONFIG, className="graph map-graph")
    figure = html.Figure([html.H2(id=ids.MAP_FIGURE_TITLE), graph, html.Figcaption(id=ids.MAP_FIGURE_NOTE)])
    named = {"aria-labelledby": ids.MAP_FIGURE_TITLE}
    return html.Section([figure, ranges(visit)], className="picture map-picture", **named)


def throw_hint(path: str, system: System) -> str:
    """What stands under a field of the throw."""
    field = field_of(path)
    alone, shifted = STEPS[field.unit_in(system)]
    return f"{field.accepted(system)}; arrow keys {alone}, with Shift {shifted}"


def throw(visit: Visit) -> Component:
    """Make the throw that is looked at: two fields, its readings, and the way to Compare."""
    fields = [
        html.Div(bound(visit, path, said=throw_hint(path, visit.system) + after), **{"data-steps": steps})
        for path, steps, after in ((MASS, "mass", ""), (SPEED, "speed", EMPTY))
    ]
    add = html.Button("Add this throw to Compare", id=ids.MAP_ADD, type="button", n_clicks=0, **{"data-key": "a"})
    parts = [
        html.H2("One throw", id="map-throw-title"),
        html.Div(fields, className="map-fields"),
        html.Div(id=ids.MAP_POINT),
        html.P(id=ids.MAP_POINT_SAID, className="hidden", role="status", **{"aria-live": "polite"}),
        html.Div([add, html.A("See it in Compare", href=visit.address("/compare"))], className="map-add"),
        html.P(id=ids.MAP_NOTICE, className="map-notice", role="status"),
    ]
    return html.Section(parts, className="map-one", **{"aria-labelledby": "map-throw-title"})


def speeds() -> Component:
    """Make the place of the table."""
    parts = [html.H2("Speeds by ball", id="map-speeds-title"), html.Div(id=ids.MAP_TABLE)]
    return html.Section(parts, className="readings-part", **{"aria-labelledby": "map-speeds-title"})
