"""From the numbers to the words around the map: every part that changes, as one value."""

from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.visit import address
from app.pages.map.answers import MapAnswer
from app.pages.map.table import looked_table, speeds_table
from app.pages.map.words import CLICK, base_words, figure_note, looked_words, notes, quantity_words
from app.show.cautions import path_note
from app.show.glossary import explained
from app.show.page_parts import missing_measures, page_link
from app.show.person_words import measures_missing


@dataclass(frozen=True)
class View:
    """All the words that change when a value does."""

    empty: list[Component]
    empty_hidden: bool
    body_hidden: bool
    notes: list[Component]
    figure_title: list[Any]
    figure_note: list[Any]
    looked: list[Component]
    said: str
    table: Component


def view_of(answer: MapAnswer) -> View:
    """Put the numbers into words."""
    there = answer.hundred is not None
    return View(
        empty=[] if there else _empty(answer),
        empty_hidden=there,
        body_hidden=not there,
        notes=[html.P(text) for text in notes(answer)],
        figure_title=_title(answer),
        figure_note=[figure_note(answer), " ", html.Span(CLICK, className="map-press")] if there else [],
        looked=looked_table(answer),
        said=looked_words(answer),
        table=speeds_table(answer) or html.P("No lines, so no speeds.", className="quiet"),
    )


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
