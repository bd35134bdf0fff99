"""The controls that forms are made of: a field for text, one for a number, a choice."""

from typing import Any

import dash_mantine_components as dmc
from dash.development.base_component import Component

from app.records.fields import LONGEST_NUMBER
from app.show.glossary import field_words

ORDER = ["label", "input", "description", "error"]
CHOICE: dict[str, Any] = {
    "inputWrapperOrder": ORDER,
    "withScrollArea": False,  # the list scrolls by itself, and can be reached to be scrolled
    "attributes": {"options": {"tabIndex": 0}},
    "styles": {"options": {"maxHeight": "min(28rem, 45vh)", "overflowY": "auto"}},
    "className": "field",
    "comboboxProps": {"withinPortal": True, "transitionProps": {"duration": 0}},
    "allowDeselect": False,
    "checkIconPosition": "right",
}


def text_field(
    label: str | Component, description: str = "", numeric: bool = False, longest: int = LONGEST_NUMBER, **props: Any
) -> Component:
    """Make a field for text that is sent when it is left or on Enter, and kept as it was typed.

    Parameters
    ----------
    label : str or Component
        What it is, with its unit.
    description : str
        What is accepted.
    numeric : bool
        Whether a touch screen shows its number keys.
    longest : int
        Characters that can be typed.
    **props
        Further properties of `dmc.TextInput`.

    Returns
    -------
    Component
    """
    described = {"description": description} if description else {}
    return dmc.TextInput(
        **({"className": "field"} | props),
        label=field_words(label),
        debounce=True,
        inputWrapperOrder=ORDER,
        spellCheck=False,
        attributes={"input": {"maxLength": longest} | ({"inputMode": "decimal"} if numeric else {})},
        **described,
    )


def choice(label: str | Component, data: list[Any], value: str, description: str = "", **props: Any) -> Component:
    """Make a choice of one from a list.

    Parameters
    ----------
    label : str or Component
    data : list
        As `dmc.Select` takes it.
    value : str
    description : str
    **props
        Further properties of `dmc.Select`.

    Returns
    -------
    Component
    """
    described = {"description": description} if description else {}
    return dmc.Select(label=field_words(label), data=data, value=value or None, **described, **(CHOICE | props))
