"""What the buttons do to the profile form, and what is said about it. Pure."""

import base64
import binascii
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from app.pages.athlete.paste import PasteError, from_csv, pasted
from app.show.profile_fields import mass_words
from app.show.profile_form import (
    MOST_BALLS,
    MOST_READINGS,
    TEXT_NAMES,
    BallRow,
    Cell,
    ProfileForm,
    add_ball,
    from_json,
    is_key,
    remove_ball,
    without_readings,
)
from app.show.throw_form import LONGEST_KEPT, FormError
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from app.units.typed import read_typed
from model.ball import Ball

CELL_NAMES = ("speed", "date", "effort")
BALL_NAMES = ("mass_g", "diameter_mm")
PLACES = {str(place) for place in range(MOST_READINGS)}


@dataclass(frozen=True)
class Change:
    """A form after a button, and what goes with it.

    Attributes
    ----------
    form : ProfileForm
    notice : str
        What was done or why it was not.
    undo : bool
        Whether the form before is offered to be put back.
    """

    form: ProfileForm
    notice: str = ""
    undo: bool = False


def with_own_ball(form: ProfileForm, own: Ball) -> ProfileForm:
    """Make sure that the own ball has a row; a new one stands first.

    Parameters
    ----------
    form : ProfileForm
    own : Ball

    Returns
    -------
    ProfileForm
    """
    grams = f"{from_si(own.mass_kg, 'g'):.6g}"
    masses = [read_typed(row.mass_g, "g") for row in form.rows]
    known = any(mass is not None and f"{from_si(mass.si, 'g'):.6g}" == grams for mass in masses)
    if known or len(form.rows) >= MOST_BALLS:
        return form
    made = add_ball(form, grams, f"{from_si(own.diameter_m, 'mm'):.6g}")
    return replace(made, rows=(made.rows[-1], *made.rows[:-1]))


def added(form: ProfileForm) -> Change:
    """Add a ball."""
    if len(form.rows) >= MOST_BALLS:
        return Change(form, f"The rack is full: {MOST_BALLS} balls. Remove one to add another.")
    return Change(add_ball(form))


def removed(form: ProfileForm, key: str, system: System = METRIC) -> Change:
    """Take a ball and its readings out."""
    place = form.place(key)
    if place < 0:
        return Change(form)
    row = form.rows[place]
    name = f"{mass_words(row.mass_g, system)} ball".strip()
    return Change(
        remove_ball(form, key), f"The {name} was removed" + ("." if row.empty else " with its readings."), True
    )


def cleared(form: ProfileForm) -> Change:
    """Take all readings out; the balls stay."""
    if form.untouched and not form.own_speed_m_s.strip():
        return Change(form, "There are no readings to clear.")
    return Change(without_readings(form), "All readings were cleared; the balls are still there.", True)


def put_in(form: ProfileForm, text: object, key: object, cell: object = None, system: System = METRIC) -> Change:
    """Put in what was pasted.

    Parameters
    ----------
    form : ProfileForm
    text, key, cell : object
        The text, the key of a ball, and the place of the cell it was pasted into, as the browser sent them.
    system : System
        The units of numbers without one.

    Returns
    -------
    Change
    """
    place = cell if isinstance(cell, int) and not isinstance(cell, bool) and 0 <= cell < MOST_READINGS else None
    try:
        made = pasted(form, text if isinstance(text, str) else "", key if isinstance(key, str) else "", place, system)
    except PasteError as error:
        return Change(form, str(error))
    return Change(made.form, made.notice, True)


def loaded(form: ProfileForm, contents: object) -> Change:
    """Add the readings of an uploaded CSV file.

    Parameters
    ----------
    form : ProfileForm
    contents : object
        A data URL, as `dcc.Upload` sends it.

    Returns
    -------
    Change
    """
    try:
        data = base64.b64decode(str(contents).partition(",")[2], validate=True)
        made = from_csv(form, data)
    except binascii.Error:
        return Change(form, "The file was not read: it did not arrive whole.")
    except PasteError as error:
        return Change(form, str(error))
    return Change(made.form, made.notice, True)


def put_back(form: ProfileForm, before: object) -> Change:
    """Put back the form before the last change."""
    try:
        return Change(from_json(before), "Put back.")
    except FormError:
        return Change(form, "There is nothing to put back.")


def read_page(cells: object, choices: Mapping[str, object]) -> ProfileForm:
    """Read the form from the fields on the page. Whatever the browser sends, the result is a form.

    Parameters
    ----------
    cells : object
        Text of each cell by its place, as `grid.values` gives them.
    choices : mapping of str to object
        Value of each other field, by its name in the form.

    Returns
    -------
    ProfileForm
    """
    balls: dict[str, dict[str, str]] = {}
    readings: dict[str, dict[int, dict[str, str]]] = {}
    for at, value in cells.items() if isinstance(cells, dict) else ():
        key, *parts = str(at).split("/")
        if not is_key(key) or (key not in balls and len(balls) >= MOST_BALLS):
            continue
        ball = balls.setdefault(key, {})
        if len(parts) == 1 and parts[0] in BALL_NAMES:
            ball[parts[0]] = _text(value)
        elif len(parts) == 2 and parts[0] in PLACES and parts[1] in CELL_NAMES:
            readings.setdefault(key, {}).setdefault(int(parts[0]), {})[parts[1]] = _text(value)
    rows = tuple(BallRow(key, **ball, cells=_cells(readings.get(key, {}))) for key, ball in balls.items())
    texts = {name: _text(choices[name]) for name in TEXT_NAMES if name in choices}
    return ProfileForm(rows, **texts)


def _cells(typed: Mapping[int, Mapping[str, str]]) -> tuple[Cell, ...]:
    """Readings in their order; a cell without a speed is empty."""
    made = (Cell(**typed.get(place, {})) for place in range(max(typed, default=-1) + 1))
    return tuple(Cell() if cell.blank else cell for cell in made)


def _text(value: object) -> str:
    if isinstance(value, str):
        return value[:LONGEST_KEPT]
    if isinstance(value, bool):
        return "on" if value else ""
    return str(value)[:LONGEST_KEPT] if isinstance(value, int | float) else ""


def read_choices(pairs: object) -> dict[str, Any]:
    """Read ids and values of the page's other fields, whatever the browser sent."""
    if not isinstance(pairs, list):
        return {}
    found = {}
    for pair in pairs:
        if isinstance(pair, list | tuple) and len(pair) == 2 and isinstance(pair[0], dict):
            found[str(pair[0].get("name"))] = pair[1]
    return found
