"""From the numbers to what is shown: every part that changes, as one value."""

from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.visit import address
from app.pages.start import headline, ids, words
from app.pages.start.answers import StartAnswer
from app.pages.start.limits import AIMS, LEAST_ABOVE_MOST, bound_of
from app.pages.start.rounded import most
from app.pages.start.table import FIRST, order_list, plan_button, tables
from app.show.cautions import GROWING, is_growing, path_note
from app.show.kept import to_mend
from app.show.page_parts import missing_measures, page_link
from app.show.person_words import measures_missing
from model.person import Person

PARTS = (
    *(ids.START_EXAMPLE_NOTE, ids.START_REFERENCE, ids.START_EMPTY, ids.START_SENTENCE, ids.START_FIGURE_TITLE),
    *(ids.START_FIGURE_NOTE, ids.START_ORDER, ids.START_TABLE, ids.START_LIMITS, ids.START_NOTES),
)
"""The parts of the page whose words change when a value does."""


def view_of(answer: StartAnswer) -> dict[str, Any]:
    """Put the numbers into words: what stands in each of `PARTS`."""
    there = answer.found is not None
    return {
        ids.START_EXAMPLE_NOTE: words.EXAMPLE_NOTE if answer.asked.is_example else "An empty field is no limit.",
        ids.START_REFERENCE: _reference(answer),
        ids.START_EMPTY: [] if there else _empty(answer),
        ids.START_SENTENCE: _sentence(answer),
        ids.START_FIGURE_TITLE: _title(answer),
        ids.START_FIGURE_NOTE: _figure_note(answer),
        ids.START_ORDER: order_list(answer),
        ids.START_TABLE: tables(answer),
        ids.START_LIMITS: _limits(answer),
        ids.START_NOTES: [html.P(text) for text in words.notes(answer)],
    }


def growing_part(person: Person | None) -> list[Component]:
    """The caution that goes before any number."""
    if not is_growing(person):
        return []
    note = path_note(person)
    return [html.P(f"{GROWING[0]} {note}".strip(), className="at-number")]


def _reference(answer: StartAnswer) -> list[Component]:
    basis = answer.basis
    if basis is None:
        return []
    said = "Full speed and readings stand" if basis.hundred.of == "profile" else "Kind, day and speed are set"
    link = page_link(f"{said} on Athlete", _athlete_page(answer))
    return [html.Span(["100 % is ", html.Strong(basis.dated), ". ", link, "."])]


def _sentence(answer: StartAnswer) -> list[Component]:
    first, rest = headline.sentence(answer)
    if not first:
        return []
    gap = "" if rest[0] in ":.," else " "
    button = [plan_button(answer, answer.first, FIRST)] if answer.first else []
    made: list[Component] = [html.P([html.Strong(first), gap, rest], className="sentence"), *button]
    closed = headline.closed_words(answer)
    if closed:
        made.append(html.Ul([html.Li(text) for text in closed], className="start-closed"))
    if answer.careful and not answer.asked.aim:
        made.append(html.P(headline.why_own(answer), className="at-number"))
    note = path_note(answer.case.person)
    if note and not is_growing(answer.case.person):
        made.append(html.P(note, className="at-number"))
    prior = words.prior_words(answer)
    if prior:
        link = page_link("Enter radar readings on Athlete", _athlete_page(answer))
        where = html.Span([" ", link, ": it also says which ball to throw next."], className="screen-only")
        made.append(html.P([prior, where], className="at-number"))
    return made


def _title(answer: StartAnswer) -> list[Any]:
    if answer.found is None or answer.asked.certainty is None:
        return []
    parts: list[Any] = [f"Balls and speeds that keep every limit, with {words.certainty_words(answer)} certainty"]
    if path_note(answer.case.person):
        parts += [" ", html.Span("path from adult men", className="unit")]
    return parts


def _figure_note(answer: StartAnswer) -> str:
    found = answer.found
    if found is None:
        return ""
    diameter = answer.case.system.text(answer.case.own_ball.diameter_m, "mm", most=1)
    shaded = (
        "Shaded: every limit is kept. A thick edge carries the name of the limit that sets it."
        if found.region.fits.any()
        else "Nothing is shaded: no ball keeps every limit; the thick lines are the tightest."
    )
    at = "is its place in the order" if answer.asked.aim else "stands where it is thrown fastest"
    marks = f"the {'number' if answer.asked.aim else 'mark'} on each {at}"
    return (
        f"{shaded} Dotted: the other limits’ own edges. Upright bars are the balls of the rack; {marks}. Drawn for "
        f"balls of {diameter}."
    )


def _limits(answer: StartAnswer) -> list[Component]:
    """The limits and what they are of, for the sheet: on the screen these stand in their fields."""
    system = answer.case.system
    rows = words.limits_words(answer) or [("Limits", "none")]
    rows.append(("100 % is", "" if answer.basis is None else answer.basis.dated))
    rows.append(("What matters most", AIMS.get(answer.asked.aim, "not chosen")))
    if answer.asked.wanted is not None:
        rows.append(("Wanted peak", words.bare_words("elbow_peak", answer.asked.wanted, answer)))
    rows.append(("Certainty", words.certainty_words(answer)))
    own = answer.own_range
    if own is not None:
        shown = most(own, system) if own.fits else None
        said = f"up to {shown.share_text} of full speed, {shown.speed_text}" if shown else "fits at no speed"
        rows.append(("Own ball", f"{answer.case.mass(own.ball.mass_kg)}, {said}"))
    return [part for label, text in rows for part in (html.Dt(label), html.Dd(text))]


def means_of(answer: StartAnswer, name: str) -> str:
    """Say under a field what its limit comes to, counted the other way; or that it contradicts another one."""
    crossed = words.crossed_words(answer) if name == LEAST_ABOVE_MOST else ""
    if crossed or name not in answer.means:
        return crossed
    key = bound_of(name).key
    said = f"= {words.amount_words(key, answer.means[name], answer)}"
    spread = words.between_words(key, answer.asked.amounts[name])
    return f"{said}; {spread} ({words.SPREAD_PERCENT} and more)" if spread else said


def _empty(answer: StartAnswer) -> list[Component]:
    wanted: list[Component] = []
    measures = measures_missing(answer.case)
    if measures:
        wanted.append(missing_measures(measures, _athlete_page(answer)))
    if answer.lacks_date:
        said, there = "the day of the reference from before the injury", "Enter it on Athlete"
    elif answer.basis is None:
        said, there = "a full-effort speed of this athlete", "Enter the reference throw or radar readings on Athlete"
    else:
        said, there = "", ""
    if said:
        wanted.append(html.Li([f"Missing: {said}. ", page_link(there, _athlete_page(answer)), "."]))
    if answer.asked.to_mend:
        wanted.append(html.Li(to_mend(answer.asked.to_mend)))
    return [html.P("No answer yet.", className="sentence invitation"), html.Ul(wanted, className="start-missing")]


def _athlete_page(answer: StartAnswer) -> str:
    return address("/athlete", answer.case.code)
