"""The lines of the list of throws."""

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.pages.compare import ids
from app.pages.compare.answers import NAMELESS, Answer
from app.show.controls import choice, number_field
from app.show.form_fields import BALL_FIELDS, HOLD_FIELDS, HOLDS, Field
from app.show.glossary import explained
from app.show.page_parts import dom_id
from app.show.palette import Theme, line_color, line_width
from app.show.throw_form import MOST_THROWS, OTHER, Form, ThrowForm
from app.units.systems import METRIC, System

SLIDES = {
    "m/s": ("5", "50", "0.1"),
    "mph": ("11", "112", "0.1"),
    "clock": ("10", "150", "0.1"),
    "profile": ("30", "120", "0.5"),
}
"""Ends and step of a throw's slider, by the unit of its speed or by how it is held: most throws; the field takes the
rest."""

FIRST = "first"
"""What the choice of who throws calls the first thrower: nothing chosen would be nothing."""

MOVES = {
    "copy": ("Copy", "Copy throw {}"),
    "up": ("Up", "Move throw {} up"),
    "down": ("Down", "Move throw {} down"),
    "remove": ("Remove", "Remove throw {}"),
}
"""What each button of a throw says, to the eye and to the ear."""


def rows(form: Form, system: System = METRIC) -> list[Component]:
    """Make the lines of the list, each a card: the ball, how it is thrown, and a place for what comes of it.

    Parameters
    ----------
    form : Form
    system : System
        The units the fields are shown in.

    Returns
    -------
    list of Component
        Empty for an empty list.
    """
    called = {by: form.measures(by)["code"].strip() or NAMELESS[by] for by in ("", OTHER)} if form.two else {}
    last = len(form.throws)
    return [_row(throw, number, last, called, system) for number, throw in enumerate(form.throws, start=1)]


def _row(throw: ThrowForm, number: int, last: int, called: Mapping[str, str], system: System) -> Component:
    sample = html.Span(
        id={"type": ids.COMPARE_SAMPLE, "throw": throw.key}, className="sample", **{"aria-hidden": "true"}
    )
    named = html.Span([html.Span(f"Throw {number} is the ", className="hidden"), "reference"])
    chosen = dmc.Radio(value=throw.key, label=named, className="is-reference")
    fields = [_field(field, throw, number, system) for field in (*BALL_FIELDS, HOLD_FIELDS[throw.held])]
    said = html.P(id={"type": ids.COMPARE_HELD, "throw": throw.key}, className="held")
    moves = [_move(move, throw, number, last) for move in MOVES]
    return html.Li(
        [
            html.Div([html.Span(str(number), className="number"), sample, chosen], className="card-head"),
            html.Div(fields, className="card-fields"),
            _slide(throw, number, system),
            html.Div([*_thrower(throw, number, called), _hold(throw, number), said], className="under"),
            html.Div(id=dom_id(sizes_id(throw.key)), className="sizes-place"),
            html.Div(moves, className="moves"),
        ],
        className="throw",
    )


def _slide(throw: ThrowForm, number: int, system: System) -> Component:
    """The place of the slider: the browser makes it, because it moves the curve while it is dragged."""
    field = HOLD_FIELDS[throw.held]
    unit = field.unit_in(system)
    low, high, step = SLIDES[unit if throw.held == "speed" else throw.held]
    return html.Div(
        className="slide",
        **{
            "data-throw": throw.key,
            "data-name": field.name,
            "data-low": low,
            "data-high": high,
            "data-step": step,
            "data-label": f"Slider, throw {number}: {field.label.lower()}, {unit}",
        },
    )


def _hold(throw: ThrowForm, number: int) -> Component:
    """The choice of how the throw is held."""
    data = [{"value": hold, "label": words} for hold, words in HOLDS.items()]
    label = f"Throw {number} is held at"
    return choice(label, data, throw.held, id=field_id(throw.key, "hold"), className="hold", searchable=False)


def _thrower(throw: ThrowForm, number: int, called: Mapping[str, str]) -> list[Component]:
    """The choice of who throws it, where there are two."""
    if not called:
        return []
    data = [{"value": by or FIRST, "label": words} for by, words in called.items()]
    part = field_id(throw.key, "by")
    return [choice(f"Throw {number} is by", data, throw.thrower or FIRST, id=part, className="hold", searchable=False)]


def _field(field: Field, throw: ThrowForm, number: int, system: System) -> Component:
    unit = field.unit_in(system)
    label = html.Span(
        [*explained(field.label, repeated=True), html.Span(f" of throw {number}", className="hidden"), f", {unit}"]
    )
    part, kept = field_id(throw.key, field.name), getattr(throw, field.name)
    return number_field(field, kept, label, system, id=part, className="field")


def _move(move: str, throw: ThrowForm, number: int, last: int) -> Component:
    stuck = (move == "up" and number == 1) or (move == "down" and number == last)
    full = move == "copy" and last >= MOST_THROWS
    seen, heard = MOVES[move]
    return html.Button(
        seen,
        id=move_id(throw.key, move),
        type="button",
        n_clicks=0,
        disabled=stuck or full,
        **{"aria-label": heard.format(number)},
    )


def field_id(key: str, name: str) -> dict[str, str]:
    """The id of a field of a throw."""
    return {"type": ids.COMPARE_THROW, "throw": key, "name": name}


def move_id(key: str, move: str) -> dict[str, str]:
    """The id of a button of a throw."""
    return {"type": ids.COMPARE_MOVE, "throw": key, "move": move}


def sizes_id(key: str) -> dict[str, str]:
    """The id of the place of a throw's four sizes."""
    return {"type": ids.COMPARE_SIZES, "throw": key}


def sample_style(answer: Answer, theme: Theme) -> dict[str, Any]:
    """A piece of the throw's line, as the figure draws it; nothing where it draws none.

    Parameters
    ----------
    answer : Answer
    theme : Theme

    Returns
    -------
    dict
        CSS.
    """
    if answer.curves is None or answer.checked.ball is None:
        return {}
    mass_kg = answer.checked.ball.mass_kg
    kind, color = "dashed" if answer.reference else "solid", line_color(mass_kg, theme)
    style = {"borderTop": f"{line_width(mass_kg, theme)}px {kind} {color}"}
    return style | {"--ring": color} if answer.thrower else style
