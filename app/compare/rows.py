"""The lines of the list of throws."""

import json
from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app import ids
from app.compare.answers import Answer
from app.compare.fields import BALL_FIELDS, HOLD_FIELDS, HOLDS, Field
from app.compare.form import MOST_THROWS, Form, ThrowForm
from app.compare.parts import choice, number_field
from app.palette import Theme, line_color, line_width

MOVES = {
    "copy": ("Copy", "Copy throw {}"),
    "up": ("Up", "Move throw {} up"),
    "down": ("Down", "Move throw {} down"),
    "remove": ("Remove", "Remove throw {}"),
}
"""What each button of a throw says, to the eye and to the ear."""


def rows(form: Form) -> list[Component]:
    """Make the lines of the list, with a head that names the columns.

    Parameters
    ----------
    form : Form

    Returns
    -------
    list of Component
        Empty for an empty list.
    """
    if not form.throws:
        return []
    last = len(form.throws)
    return [_head(form), *(_row(throw, number, last) for number, throw in enumerate(form.throws, start=1))]


def _head(form: Form) -> Component:
    names = [
        html.Span([f"{field.label}, {field.unit}", html.Small(_range(field))], className="head-cell")
        for field in (*BALL_FIELDS, HOLD_FIELDS["speed"])
    ]
    if any(throw.held != "speed" for throw in form.throws):
        names[-1] = html.Span(["Speed", html.Small("m/s or %, as held")], className="head-cell")
    return html.Li(
        [html.Span(), *names, html.Span("Reference", className="head-cell")],
        className="head",
        **{"aria-hidden": "true"},
    )


def _range(field: Field) -> str:
    return field.accepted.removesuffix(field.unit).strip()


def _row(throw: ThrowForm, number: int, last: int) -> Component:
    fields = [_field(field, throw, number) for field in (*BALL_FIELDS, HOLD_FIELDS[throw.held])]
    chosen = dmc.Radio(value=throw.key, label=f"Throw {number} is the reference", className="is-reference")
    moves = [_move(move, throw, number, last) for move in MOVES]
    sample = html.Span(
        id={"type": ids.COMPARE_SAMPLE, "throw": throw.key}, className="sample", **{"aria-hidden": "true"}
    )
    said = html.P(id={"type": ids.COMPARE_HELD, "throw": throw.key}, className="held")
    under = html.Div([_hold(throw, number), html.Div(moves, className="moves")], className="under")
    return html.Li([sample, *fields, chosen, said, under], className="throw")


def _hold(throw: ThrowForm, number: int) -> Component:
    """The choice of how the throw is held."""
    data = [{"value": hold, "label": words} for hold, words in HOLDS.items()]
    label = f"Throw {number} is held at"
    return choice(label, data, throw.held, id=field_id(throw.key, "hold"), className="hold", searchable=False)


def _field(field: Field, throw: ThrowForm, number: int) -> Component:
    label = f"{field.label} of throw {number}, {field.unit}"
    unit = {"rightSection": "%", "rightSectionWidth": 22} if field.unit == "%" else {}
    return number_field(
        field, getattr(throw, field.name), label, id=field_id(throw.key, field.name), className="cell", **unit
    )


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


def dom_id(part: str | dict[str, str]) -> str:
    """The id as the browser has it."""
    return part if isinstance(part, str) else json.dumps(part, sort_keys=True, separators=(",", ":"))


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
    kind = "dashed" if answer.reference else "solid"
    return {"borderTop": f"{line_width(mass_kg, theme)}px {kind} {line_color(mass_kg, theme)}"}
