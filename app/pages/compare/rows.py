"""The lines of the list of throws."""

from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.fields import act_button
from app.bind.fields import bound as bound_field
from app.pages.compare import ids
from app.pages.compare.answers import Answer
from app.pages.compare.current import Current
from app.pages.compare.doers import field_of_throw
from app.records import tables
from app.records.field_list import field_of
from app.show.controls import choice
from app.show.glossary import explained
from app.show.listed_throw import HOLDS, MOST_THROWS
from app.show.page_parts import dom_id
from app.show.palette import Theme, line_color, line_width

SLIDES = {
    "m/s": ("5", "50", "0.1"),
    "mph": ("11", "112", "0.1"),
    "clock": ("10", "150", "0.1"),
    "profile": ("30", "120", "0.5"),
}
"""Ends and step of a throw's slider, by the unit of its speed or by how it is held: most throws; the field takes the
rest."""

THROW_PATHS = ("throw.mass_kg", "throw.diameter_m", "throw.number")

MOVES = {
    "copy": ("Copy", "Copy throw {}"),
    "up": ("Up", "Move throw {} up"),
    "down": ("Down", "Move throw {} down"),
    "remove": ("Remove", "Remove throw {}"),
}
"""What each button of a throw says, to the eye and to the ear."""


def rows(current: Current) -> list[Component]:
    """Make the lines of the list, each a card: the ball, how it is thrown, and a place for what comes of it."""
    return [_row(current, throw, number) for number, throw in enumerate(current.rows, start=1)]


def _row(current: Current, throw: tables.Throw, number: int) -> Component:
    part = {"type": ids.COMPARE_SAMPLE, "throw": throw.uid}
    sample = html.Span(id=part, className="sample", **{"aria-hidden": "true"})
    named = html.Span([html.Span(f"Throw {number} is the ", className="hidden"), "reference"])
    chosen = dmc.Radio(value=throw.uid, label=named, className="is-reference")
    said = html.P(id={"type": ids.COMPARE_HELD, "throw": throw.uid}, className="held")
    return html.Li(
        [
            html.Div([html.Span(str(number), className="number"), sample, chosen], className="card-head"),
            html.Div([_field(current, path, throw, number) for path in THROW_PATHS], className="card-fields"),
            _slide(current, throw, number),
            html.Div([*_thrower(current, throw, number), _hold(current, throw, number), said], className="under"),
            html.Div(id=dom_id(sizes_id(throw.uid)), className="sizes-place"),
            html.Div([_move(current, move, throw, number) for move in MOVES], className="moves"),
        ],
        className="throw",
    )


def _slide(current: Current, throw: tables.Throw, number: int) -> Component:
    """The place of the slider: the browser makes it, because it moves the curve while it is dragged."""
    field = field_of("throw.number", throw.__dict__)
    unit = field.unit_in(current.visit.system)
    low, high, step = SLIDES[throw.hold if throw.hold in SLIDES else unit]
    return html.Div(
        className="slide",
        **{
            "data-throw": throw.uid,
            "data-field": field_of_throw(current, "throw.number", throw.uid),
            "data-low": low,
            "data-high": high,
            "data-step": step,
            "data-label": f"Slider, throw {number}: {field.label.lower()}, {unit}",
        },
    )


def _pick(current: Current, do: str, throw: tables.Throw, label: str, offered: dict[str, str], now: str) -> Component:
    data = [{"value": key, "label": words} for key, words in offered.items()]
    part = bound.act_id(current.visit.owner, do, throw.uid, bound.PICK)
    return choice(label, data, now, id=part, className="hold", searchable=False)


def _hold(current: Current, throw: tables.Throw, number: int) -> Component:
    """The choice of how the throw is held."""
    return _pick(current, ids.HOLD, throw, f"Throw {number} is held at", HOLDS, throw.hold)


def _thrower(current: Current, throw: tables.Throw, number: int) -> list[Component]:
    """The choice of who throws it: once another athlete is chosen, one of those two."""
    visit, own = current.visit, current.data.athlete.code
    if current.other is not None:
        others = [current.other.athlete.code]
    else:
        others = sorted(code for code in visit.store.codes() if code != own)
    if not others:
        return []
    now = own if throw.thrower_id is None else current.data.codes.get(throw.thrower_id, own)
    codes = dict.fromkeys([own, *others, now])
    return [_pick(current, ids.THROWER, throw, f"Throw {number} is by", {code: code for code in codes}, now)]


def _field(current: Current, path: str, throw: tables.Throw, number: int) -> Component:
    visit, field = current.visit, field_of(path, throw.__dict__)
    unit = field.unit_in(visit.system)
    named = [*explained(field.label, repeated=True), html.Span(f" of throw {number}", className="hidden"), f", {unit}"]
    said = field.accepted(visit.system).removesuffix(unit).strip()
    return bound_field(visit, path, throw, label=html.Span(named), said=said)


def _move(current: Current, move: str, throw: tables.Throw, number: int) -> Component:
    last = len(current.rows)
    stuck = (move == "up" and number == 1) or (move == "down" and number == last)
    full = move == "copy" and last >= MOST_THROWS
    seen, heard = MOVES[move]
    more = {"aria-label": heard.format(number)}
    return act_button(current.visit, seen, ids.MOVES[move], throw.uid, disabled=stuck or full, **more)


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
    if answer.curves is None or answer.throw.ball is None:
        return {}
    mass_kg = answer.throw.ball.mass_kg
    kind, color = "dashed" if answer.reference else "solid", line_color(mass_kg, theme)
    style = {"borderTop": f"{line_width(mass_kg, theme)}px {kind} {color}"}
    return style | {"--ring": color} if answer.thrower else style
