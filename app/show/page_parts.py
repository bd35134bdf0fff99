"""The pieces that pages are made of alike: heading, links, the names of fields, the last line on paper."""

import json
from collections.abc import Callable, Collection, Sequence
from typing import Any

from dash import dcc, html, no_update
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.version import VERSION


def page_link(text: str, path: str) -> Component:
    """Make a link to another page."""
    return html.A(text, href=path)


def file_field(said: str, part: str, ending: str, most_bytes: int) -> Component:
    """Make a field for a file; one that is too large is refused by `assets/files.js` before it is sent.

    Parameters
    ----------
    said : str
        What is opened.
    part : str
        Id of the upload.
    ending : str
        Of the file's name, with its dot.
    most_bytes : int
        The largest file that is accepted.

    Returns
    -------
    Component
    """
    chosen = dcc.Upload("choose a file", id=part, accept=ending, className="file")
    return html.Label([f"{said} ", chosen], className="file-label", **{"data-most-bytes": str(most_bytes)})


def missing_measures(names: str, path: str = "/athlete") -> Component:
    """Say in a list which measures are missing, and where they are entered.

    Parameters
    ----------
    names : str
        As `app.show.person_words.measures_missing` has them.
    path : str
        Where they are entered.

    Returns
    -------
    Component
    """
    return html.Li([f"Missing or to be mended: {names}. ", page_link("Enter it on Athlete", path), "."])


def names_in(parts: object, known: Collection[str]) -> list[str]:
    """Read the names of pattern-matched controls out of their ids.

    Parameters
    ----------
    parts : object
        Their ids, as the browser sent them.
    known : collection of str
        The names that the page has.

    Returns
    -------
    list of str
        In the same order.

    Raises
    ------
    PreventUpdate
        If they are no ids of the page: then there is nothing on it that could be filled.
    """
    found = [part.get("name") if isinstance(part, dict) else None for part in parts] if isinstance(parts, list) else []
    names = [name for name in found if isinstance(name, str) and name in known]
    if not isinstance(parts, list) or len(names) < len(found):
        raise PreventUpdate
    return names


def changed_only(shown: Sequence[Any], wanted: Callable[[dict[str, str]], Any]) -> list[Any]:
    """Say what pattern-matched controls shall show; one that stays the same is left alone.

    Parameters
    ----------
    shown : sequence of two
        Their ids and what they show now, as the browser sent them.
    wanted : callable
        Takes an id whose names and values are texts.

    Returns
    -------
    list
        In the same order.

    Raises
    ------
    PreventUpdate
        If they are no such ids.
    """
    parts, now = shown
    if not isinstance(parts, list) or not isinstance(now, list) or len(parts) != len(now) or not all(map(is_id, parts)):
        raise PreventUpdate
    return [no_update if wanted(part) == then else wanted(part) for part, then in zip(parts, now, strict=True)]


def is_id(part: object) -> bool:
    """Whether this is an id of pattern-matched controls, whose values are all texts."""
    return isinstance(part, dict) and all(isinstance(word, str) for word in part.values())


def imprint(today: str) -> Component:
    """Make the last line of the printed page: date and version."""
    return html.P(f"Levelpeak {VERSION} · printed {today}", className="paper-only quiet")


def dom_id(part: str | dict[str, str]) -> str:
    """The id as the browser has it."""
    return part if isinstance(part, str) else json.dumps(part, sort_keys=True, separators=(",", ":"))
