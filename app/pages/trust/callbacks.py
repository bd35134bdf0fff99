"""The page's callbacks: what takes a second to compute comes after the page stands."""

from typing import Any

from dash import Dash, Input, Output, State
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.trust import ids
from app.pages.trust.answers import compared, of_band
from app.pages.trust.view import band_part, headline, table_part


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    app.callback(
        Output(ids.TRUST_HEADLINE, "children"),
        Output(ids.TRUST_TABLE, "children"),
        Input(ids.TRUST_TABLE, "id"),
        State(bound.HERE, "data"),
    )(fill_table)
    app.callback(
        Output(ids.TRUST_BAND, "children"),
        Input(ids.TRUST_BAND, "id"),
        State(bound.HERE, "data"),
    )(fill_band)


def fill_table(_: Any, here: Any) -> tuple[Component, Component]:
    """Hold the model against print, in the reader's units."""
    rows = compared()
    return headline(rows), table_part(rows, visit_again(here).system)


def fill_band(_: Any, here: Any) -> Component:
    """Tell what the band says of itself, in the reader's units."""
    return band_part(of_band(), visit_again(here).system)
