"""Who throws, in a line each, with the way to where the measures are entered."""

from dash import html
from dash.development.base_component import Component

from app.bind.fields import act_button
from app.bind.visit import address
from app.pages.compare import ids
from app.pages.compare.checks import check_throwers
from app.pages.compare.current import Current
from app.pages.compare.words import described
from app.show.checks import CheckedAthlete
from app.show.form_fields import MEASURE_NAMES
from app.show.throw_form import OTHER

MEASURES = "/athlete"
"""Where the measures of an athlete are entered."""


def who(current: Current) -> Component:
    """Make the strip of who throws."""
    throwers = check_throwers(current.form, current.visit.system)
    lines = [_line(current, throwers[""], current.data.athlete.code)]
    if current.other is not None:
        away = act_button(current.visit, "Remove the second", ids.ALONE)
        lines.append(_line(current, throwers[OTHER], current.other.athlete.code, away))
    title = html.H2("Who is throwing", id="who-title", className="eyebrow")
    return html.Section([title, *lines], className="who", **{"aria-labelledby": "who-title"})


def _line(current: Current, thrower: CheckedAthlete, code: str, *more: Component) -> Component:
    missing = [name for key, name in MEASURE_NAMES.items() if key in thrower.problems]
    said = described(thrower, current.visit.system)
    lacks = [f" · Missing or to be mended: {', '.join(missing)}"] if missing else []
    link = html.A("Measures", href=address(MEASURES, code), **{"aria-label": f"Measures of {code}"})
    return html.P([said, *lacks, " ", link, *(part for one in more for part in (" ", one))])
