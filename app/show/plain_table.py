"""A table of a page: caption, heads with their units, and rows that begin with what they are about."""

from collections.abc import Iterable, Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.show.glossary import explained


def with_unit(words: str, unit: str = "") -> list[Any]:
    """The head of a column: its words, which can be asked for, and its unit."""
    return [*explained(words), *([html.Span(unit, className="unit")] if unit else [])]


def plain_table(caption: str, heads: Iterable[Any], rows: Iterable[Sequence[Any]], kind: str = "") -> Component:
    """Make a table.

    Parameters
    ----------
    caption : str
    heads : iterable
        What stands in the head of each column, see `with_unit`.
    rows : iterable of sequence
        What stands in the cells of each row; the first one names the row.
    kind : str
        A class of the table, for its looks.

    Returns
    -------
    Component
    """
    head = html.Tr([html.Th(words, scope="col") for words in heads])
    body = [html.Tr([html.Th(first, scope="row"), *(html.Td(cell) for cell in rest)]) for first, *rest in rows]
    name = f"plain-table {kind}".strip()
    return html.Table([html.Caption(caption), html.Thead(head), html.Tbody(body)], className=name)
