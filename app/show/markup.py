"""Components as HTML text, for the parts of the page that only say something.

The browser's side of Dash asks every component on the page whether it changed, some twenty times for each answer: with
the thousand pieces of this page's tables that took longer than all the mechanics. So the parts that nothing listens to
are sent as text, and `assets/shell.js` puts them in their places.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from typing import Any

from dash.development.base_component import Component

HTML = "dash_html_components"
VOID = {"br", "hr"}


@dataclass(frozen=True)
class Field:
    """A field to type into, ``<input>``, which `dash.html` lacks.

    Parameters
    ----------
    attributes : mapping of str to str or int
        By their names in HTML.
    """

    attributes: Mapping[str, str | int]


NAMES = {"className": "class", "tabIndex": "tabindex", "htmlFor": "for", "colSpan": "colspan"}
LEFT_OUT = {"children", "n_clicks"}


def to_html(part: Any) -> str:
    """Write components as HTML.

    Parameters
    ----------
    part : Component, Field, str, int, float, None, or a list of these
        Components of `dash.html` only, with texts, numbers, true and false as properties, and a ``style``.

    Returns
    -------
    str
        Every text and value escaped.

    Raises
    ------
    TypeError
        If it is anything else.
    """
    if part is None:
        return ""
    if isinstance(part, list | tuple):
        return "".join(map(to_html, part))
    if isinstance(part, str | int | float):
        return escape(str(part))
    if isinstance(part, Field):
        return f"<input{''.join(_attribute(name, value) for name, value in part.attributes.items())}>"
    if not isinstance(part, Component) or part._namespace != HTML:
        raise TypeError(f"{type(part).__name__} cannot be written as HTML")
    tag = part._type.lower()
    props: dict[str, Any] = part.to_plotly_json()["props"]
    opening = f"<{tag}{''.join(_attribute(name, value) for name, value in props.items())}>"
    return opening if tag in VOID else f"{opening}{to_html(props.get('children'))}</{tag}>"


def _attribute(name: str, value: Any) -> str:
    if name in LEFT_OUT or value is None or value is False:
        return ""
    written = NAMES.get(name, name)
    if value is True:
        return f" {written}"
    if name == "style" and isinstance(value, Mapping):
        value = ";".join(f"{_kebab(key)}:{text}" for key, text in value.items())
    if not isinstance(value, str | int | float):
        raise TypeError(f"{name} cannot be written as HTML: {type(value).__name__}")
    return f' {written}="{escape(str(value))}"'


def _kebab(name: str) -> str:
    return re.sub(r"[A-Z]", lambda letter: "-" + letter[0].lower(), name)
