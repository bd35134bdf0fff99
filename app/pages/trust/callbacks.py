"""The page's callbacks: what takes a second to compute comes after the page stands."""

from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.trust import ids
from app.pages.trust.answers import compared, of_band
from app.pages.trust.view import band_part, headline, table_part
from app.show.markup import to_html


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    for told, place, fill in (
        (ids.TRUST_TABLE_TOLD, ids.TRUST_TABLE, tell_table),
        (ids.TRUST_BAND_TOLD, ids.TRUST_BAND, tell_band),
    ):
        app.callback(Output(told, "data"), Input(place, "id"), State(bound.HERE, "data"))(fill)
        app.clientside_callback(ClientsideFunction("shell", "fill"), Input(told, "data"))


def tell_table(place: Any, here: Any) -> dict[str, str]:
    """The headline and the table as HTML: as components they would take the browser two seconds."""
    first, table = fill_table(place, here)
    return {ids.TRUST_HEADLINE: to_html(first), ids.TRUST_TABLE: to_html(table)}


def tell_band(place: Any, here: Any) -> dict[str, str]:
    """What the band says of itself, as HTML."""
    return {ids.TRUST_BAND: to_html(fill_band(place, here))}


def fill_table(_: Any, here: Any) -> tuple[Component, Component]:
    """Hold the model against print, in the reader's units."""
    rows = compared()
    return headline(rows), table_part(rows, visit_again(here).system)


def fill_band(_: Any, here: Any) -> Component:
    """Tell what the band says of itself, in the reader's units."""
    return band_part(of_band(), visit_again(here).system)
