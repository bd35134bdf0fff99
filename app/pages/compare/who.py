"""Who throws, in a line each, with the way to where the measures are entered."""

from dash import html
from dash.development.base_component import Component

from app.bind.fields import act_button
from app.bind.visit import address
from app.pages.compare import ids
from app.pages.compare.answers import Thrower
from app.pages.compare.current import Current
from app.pages.compare.words import described

MEASURES = "/athlete"
"""Where the measures of an athlete are entered."""


def who(current: Current) -> Component:
    """Make the strip of who throws."""
    away = act_button(current.visit, "Remove the second", ids.ALONE)
    lines = [_line(current, thrower, *([away] if by else [])) for by, thrower in current.throwers.items()]
    title = html.H2("Who is throwing", id="who-title", className="eyebrow")
    return html.Section([title, *lines], className="who", **{"aria-labelledby": "who-title"})


def _line(current: Current, thrower: Thrower, *more: Component) -> Component:
    said = described(thrower, current.visit.system)
    lacks = [f" · Missing or to be mended: {', '.join(thrower.missing).lower()}"] if thrower.missing else []
    link = html.A("Measures", href=address(MEASURES, thrower.code), **{"aria-label": f"Measures of {thrower.code}"})
    return html.P([said, *lacks, " ", link, *(part for one in more for part in (" ", one))])
