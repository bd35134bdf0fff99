"""From the numbers to the words around the map: every part that changes, as one value."""

from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.visit import address
from app.pages.map import ids
from app.pages.map.answers import MapAnswer
from app.pages.map.table import looked_table, speeds_table
from app.pages.map.words import CLICK, base_words, figure_note, looked_words, notes, quantity_words
from app.show.cautions import path_note
from app.show.glossary import explained
from app.show.page_parts import missing_measures, page_link
from app.show.person_words import measures_missing

PARTS = (
    *(ids.MAP_EMPTY, ids.MAP_NOTES, ids.MAP_FIGURE_TITLE, ids.MAP_FIGURE_NOTE),
    *(ids.MAP_POINT, ids.MAP_POINT_SAID, ids.MAP_TABLE, ids.MAP_ENDS_PROBLEM),
)
"""The parts of the page whose words change when a value does."""


def view_of(answer: MapAnswer) -> dict[str, Any]:
    """Put the numbers into words: what stands in each of `PARTS`."""
    there = answer.hundred is not None
    return {
        ids.MAP_EMPTY: [] if there else _empty(answer),
        ids.MAP_NOTES: [html.P(text) for text in notes(answer)],
        ids.MAP_FIGURE_TITLE: _title(answer),
        ids.MAP_FIGURE_NOTE: [figure_note(answer), " ", html.Span(CLICK, className="map-press")] if there else [],
        ids.MAP_POINT: looked_table(answer),
        ids.MAP_POINT_SAID: looked_words(answer),
        ids.MAP_TABLE: speeds_table(answer) or html.P("No lines, so no speeds.", className="quiet"),
        ids.MAP_ENDS_PROBLEM: " ".join(answer.ends_problems),
    }


def _title(answer: MapAnswer) -> list[Any]:
    notes = [f"% of {base_words(answer.hundred)} ({answer.hundred.kind})"] if answer.hundred else []
    notes += ["path from adult men"] if path_note(answer.case.person) else []
    return [*explained(quantity_words(answer.quantity)), *(part for note in notes for part in (" ", _quiet(note)))]


def _quiet(text: str) -> Component:
    return html.Span(text, className="unit")


def _empty(answer: MapAnswer) -> list[Component]:
    made: list[Component] = [html.P("No map yet.", className="sentence invitation")]
    wanted, where = [], address("/athlete", answer.case.code)
    if measures := measures_missing(answer.case):
        wanted.append(missing_measures(measures, where))
    if answer.case.reference.speed_m_s is None:
        said = "Missing: the reference throw: ball and release speed, or radar readings. "
        wanted.append(html.Li([said, page_link("Enter it on Athlete", where), "."]))
    return [*made, html.Ul(wanted, className="map-missing")]
