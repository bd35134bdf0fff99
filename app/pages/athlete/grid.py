"""The grid of readings: a row for each ball, a cell for each reading; and each reading's day and asked effort.

The cells are plain fields, sent as text (`markup`): what stands in them is gathered by `assets/athlete.js`, by their
``data-at``, into one store. A page with a hundred fields that Dash listens to takes the browser a second for each
change, and a grid that Dash makes anew while it grows loses what is typed meanwhile.
"""

from dash import html
from dash.development.base_component import Component

from app.show.form_fields import LONGEST_TEXT
from app.show.glossary import explained
from app.show.markup import Field
from app.show.profile_checks import at_ball, at_cell
from app.show.profile_fields import DIAMETER, EFFORT, MASS, SPEED, mass_words
from app.show.profile_form import MOST_READINGS, BallRow, ProfileForm
from app.units.systems import METRIC, System

MOST_DETAILS = 80  # readings whose day and effort stand on the page at once


def rows(form: ProfileForm, system: System = METRIC) -> list[Component]:
    """Make the rows; the style sheet hides the cells that are not needed yet, the browser names them by their ball.

    Parameters
    ----------
    form : ProfileForm
    system : System
        The units the fields are shown in.

    Returns
    -------
    list of Component
    """
    if not form.rows:
        return [html.P("No ball yet: add one, or paste a table.", className="quiet")]
    return [_row(row, system) for row in form.rows]


def _row(row: BallRow, system: System) -> Component:
    heard = f"Ball mass, {MASS.unit_in(system)}, {MASS.accepted_in(system)}"
    head = html.Div(
        [
            _field(at_ball(row.key, "mass_g"), MASS.shown(row.mass_g, system), heard),
            html.Span(MASS.unit_in(system), className="ball-unit"),
            html.Span("own ball", className="own-mark", hidden=True),
            html.Button("Remove", type="button", **{"data-remove": row.key}),
        ],
        className="ball-head",
    )
    speeds = [SPEED.shown(cell.speed, system) for cell in row.cells]
    cells = [
        _field(at_cell(row.key, place, "speed"), speeds[place] if place < len(speeds) else "", "", placeholder=" ")
        for place in range(MOST_READINGS)
    ]
    problems = html.Div(className="cell-problems", role="status", **{"data-ball": row.key})
    return html.Div([head, html.Div(cells, className="ball-cells"), problems], className="ball-row", role="group")


def _field(at: str, value: str, heard: str, placeholder: str = "", keys: str = "decimal") -> Field:
    return Field(
        {
            "class": "cell-input",
            "type": "text",
            "inputmode": keys,
            "enterkeyhint": "next",
            "autocomplete": "off",
            "spellcheck": "false",
            "maxlength": LONGEST_TEXT,
            "data-at": at,
            "aria-label": heard,
            "placeholder": placeholder,
            "value": value,
        }
    )


def details(form: ProfileForm, system: System = METRIC) -> list[Component]:
    """Make the fields of day and asked effort of every reading, and of the balls' diameters.

    Parameters
    ----------
    form : ProfileForm
    system : System
        The units they are shown in.

    Returns
    -------
    list of Component
    """
    if not form.rows:
        return []
    made: list[Component] = [
        html.P(
            "Day and effort may be left out. A reading asked at less than full effort "
            f"({EFFORT}; empty is full) stays out of the fit and teaches this athlete’s own shares further down.",
            className="quiet",
        )
    ]
    found = [(row, i) for row in form.rows for i, cell in enumerate(row.cells) if not cell.blank]
    body = [_detail_row(row, place, system) for row, place in found[:MOST_DETAILS]]
    head = html.Tr(
        [
            html.Th(explained(name), scope="col")
            for name in ("Ball", f"Speed, {SPEED.unit_in(system)}", "Day", "Asked effort, %")
        ]
    )
    if body:
        made.append(html.Table([html.Caption("Each reading", className="hidden"), html.Thead(head), html.Tbody(body)]))
    else:
        made.append(html.P("No readings yet.", className="quiet"))
    unit = DIAMETER.unit_in(system)
    names = [mass_words(row.mass_g, system) for row in form.rows]
    named = [
        (row, name, f"Diameter of the {name or 'new'} ball, {unit}") for row, name in zip(form.rows, names, strict=True)
    ]
    diameters = [
        html.Div(
            [
                html.Span(f"{name or 'new ball'}: {unit}", **{"aria-hidden": "true"}),
                _field(at_ball(row.key, "diameter_mm"), DIAMETER.shown(row.diameter_mm, system), heard),
            ],
            className="diameter",
        )
        for row, name, heard in named
    ]
    return [*made, html.P("Ball diameters", className="quiet"), html.Div(diameters, className="diameters")]


def _detail_row(row: BallRow, place: int, system: System) -> Component:
    cell, mass = row.cells[place], mass_words(row.mass_g, system)
    which = f"of reading {place + 1} with {mass}"
    day = _field(at_cell(row.key, place, "date"), cell.date, f"Day {which}, year-month-day", "not given", keys="text")
    effort = _field(at_cell(row.key, place, "effort"), cell.effort, f"Asked effort {which}, %", "full")
    shown = html.Td(SPEED.shown(cell.speed, system), className="number")
    return html.Tr([html.Th(mass, scope="row"), shown, html.Td(day), html.Td(effort)])


def values(form: ProfileForm, system: System = METRIC) -> dict[str, str]:
    """All that stands in the cells of a form, by its place.

    Parameters
    ----------
    form : ProfileForm
    system : System
        The units the fields are shown in.

    Returns
    -------
    dict of str to str
    """
    found: dict[str, str] = {}
    for row in form.rows:
        found[at_ball(row.key, "mass_g")] = MASS.shown(row.mass_g, system)
        found[at_ball(row.key, "diameter_mm")] = DIAMETER.shown(row.diameter_mm, system)
        for place, cell in enumerate(row.cells):
            if not cell.blank:
                shown = {"speed": SPEED.shown(cell.speed, system), "date": cell.date, "effort": cell.effort}
                found |= {at_cell(row.key, place, name): text for name, text in shown.items()}
    return found


def speed_hint(system: System = METRIC) -> str:
    """What a cell of the grid takes."""
    return f"Speed in {SPEED.unit_in(system)}, {SPEED.described(system)}. "
