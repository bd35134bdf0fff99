"""What a page of the dashboard is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from dash import Dash
from dash.development.base_component import Component

from app.bind.edit import Doer
from app.bind.visit import Visit


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
    of_athlete : bool
        Whether it is a page of an athlete: where there is none, it says so instead.
    doers : mapping of str to Doer
        What its buttons do to the records, by the ``do`` of their ids; the names begin with the page's.
    """

    path: str
    title: str
    layout: Callable[[Visit], Component]
    register: Callable[[Dash], None]
    of_athlete: bool = True
    doers: Mapping[str, Doer] = field(default_factory=lambda: MappingProxyType({}))
