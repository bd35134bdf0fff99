"""What a page of the dashboard is."""

from collections.abc import Callable
from dataclasses import dataclass

from dash import Dash
from dash.development.base_component import Component


@dataclass(frozen=True)
class Page:
    """One page: where it is found, what it shows and what it does.

    Parameters
    ----------
    path : str
        Its address, ``/`` for the first one.
    title : str
        What its link and the browser's tab say.
    layout : callable
        Makes what stands in the main part of the screen, afresh for each visit, within the app's context. It holds the
        page's one ``h1``. A control with a ``data-key`` is worked by that key; the list of keys names it by its
        ``aria-label`` or its text.
    register : callable
        Gives the page's callbacks to the app, once.
    """

    path: str
    title: str
    layout: Callable[[], Component]
    register: Callable[[Dash], None]
