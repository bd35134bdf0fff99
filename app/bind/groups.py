"""Bound fields in other shapes: choices as radio buttons or boxes, lists that change with the page, texts that stand
for something else until they are typed over.
"""

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.bind import ids
from app.bind.visit import Visit
from app.records.field_list import field_of
from app.records.reads import in_field
from app.show.controls import CHOICE, choice, text_field

BETWEEN = " "
"""What stands between the keys of several boxes that are ticked, in the text that is kept."""


def standing(visit: Visit, path: str, otherwise: str = "") -> tuple[str, str]:
    """What stands in the field of a setting, and what is wrong with it.

    Parameters
    ----------
    visit : Visit
    path : str
    otherwise : str
        What stands there while it was never set.

    Returns
    -------
    str
    str
    """
    data = visit.data
    row = data.setting_rows.get(path) if data else None
    if data is None or row is None:
        return otherwise or field_of(path).shown(field_of(path).default, "", visit.system), ""
    return in_field(path, row, visit.system, data.settings, visit.today)


def _bound(visit: Visit, path: str, problem: str) -> dict[str, Any]:
    return {"id": ids.field_id(visit.owner, path, "", visit.system.key), "error": problem or None}


def typed(
    visit: Visit, path: str, label: Any, said: str = "", otherwise: str = "", numeric: bool = False, **props: Any
) -> Component:
    """Make a field for a text or a number of a setting."""
    text, problem = standing(visit, path, otherwise)
    longest = {} if numeric else {"longest": field_of(path).longest}
    return text_field(label, said, numeric, value=text, **(_bound(visit, path, problem) | longest | props))


def listed(
    visit: Visit, path: str, label: Any, data: list[dict[str, str]], said: str = "", otherwise: str = "", **props: Any
) -> Component:
    """Make a list to choose one of."""
    text, problem = standing(visit, path, otherwise)
    return choice(label, data, text, said, **({"searchable": False} | _bound(visit, path, problem) | props))


def emptied(
    visit: Visit, path: str, label: str, data: list[dict[str, str]], said: str = "", otherwise: str = "", **props: Any
) -> Component:
    """Make a list to choose one of, or none."""
    more = CHOICE | {"allowDeselect": True, "clearable": True}
    return listed(visit, path, label, data, said, otherwise, **(more | props))


def radios(
    visit: Visit, path: str, label: str, choices: Mapping[str, str], otherwise: str = "", **props: Any
) -> Component:
    """Make radio buttons to choose one by."""
    text, problem = standing(visit, path, otherwise)
    buttons = html.Div([dmc.Radio(value=key, label=words) for key, words in choices.items()], className="boxes")
    shown = {"children": buttons, "className": "field", "label": label, "value": text}
    return dmc.RadioGroup(**(shown | _bound(visit, path, problem) | props))


def boxes(
    visit: Visit, path: str, label: str, choices: Mapping[str, str], otherwise: str = "", **props: Any
) -> Component:
    """Make boxes of which several can be ticked."""
    text, problem = standing(visit, path, otherwise)
    ticks = html.Div([dmc.Checkbox(value=key, label=words) for key, words in choices.items()], className="boxes")
    shown = {"children": ticks, "className": "field", "label": label, "value": text.split(BETWEEN) if text else []}
    return dmc.CheckboxGroup(**(shown | _bound(visit, path, problem) | props))
