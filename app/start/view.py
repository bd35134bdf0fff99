"""From the numbers to what is shown: every part that changes, as one value."""

from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.cautions import GROWING, caution_part, is_growing, path_note
from app.compare.checks import CheckedAthlete
from app.page_parts import missing_measures, page_link
from app.start import words
from app.start.answers import StartAnswer
from app.start.form import is_example
from app.start.table import list_table, ranges_table
from app.units import plain
from app.whose import UNREAD, measures_missing, who_words
from model.start_list import AIMS


@dataclass(frozen=True)
class View:
    """All the words that change when a value does."""

    who: str
    example: str
    reference: list[Component]
    empty: list[Component]
    empty_hidden: bool
    body_hidden: bool
    sentence: list[Component]
    figure_title: list[Any]
    figure_note: str
    listed: list[Component]
    ranges: list[Component]
    limits: list[Component]
    notes: list[Component]
    cautions: Component


def view_of(answer: StartAnswer, athlete: CheckedAthlete, unread: bool) -> View:
    """Put the numbers into words.

    Parameters
    ----------
    answer : StartAnswer
    athlete : CheckedAthlete
    unread : bool
        Whether something that the browser kept could not be read.

    Returns
    -------
    View
    """
    there = answer.found is not None
    kept = [html.P(UNREAD)] if unread else []
    return View(
        who=who_words(answer.case),
        example=words.EXAMPLE_NOTE if is_example(answer.form) else "An empty field is no limit.",
        reference=_reference(answer),
        empty=[] if there else _empty(answer, athlete, kept),
        empty_hidden=there,
        body_hidden=not there,
        sentence=_sentence(answer),
        figure_title=_title(answer),
        figure_note=_figure_note(answer),
        listed=list_table(answer),
        ranges=ranges_table(answer),
        limits=_limits(answer),
        notes=[*kept, *(html.P(text) for text in words.notes(answer))] if there else [],
        cautions=caution_part(answer.case.person),
    )


def _reference(answer: StartAnswer) -> list[Component]:
    basis = answer.basis
    if basis is None:
        return []
    link = page_link("Kind, day and speed are set on Compare", "/")
    if basis.hundred.of == "profile":
        link = page_link("It stands on Athlete", "/athlete")
    return [html.Span(["100 % is ", html.Strong(basis.dated), ". ", link, "."])]


def _sentence(answer: StartAnswer) -> list[Component]:
    first, rest = words.sentence(answer)
    if not first:
        return []
    gap = "" if rest.startswith(":") else " "
    made: list[Component] = [html.P([html.Strong(first), gap, rest], className="sentence")]
    note = path_note(answer.case.person)
    if note:
        growing = f" {GROWING[0]}" if is_growing(answer.case.person) else ""
        made.append(html.P(f"{note}{growing}", className="at-number"))
    prior = words.prior_words(answer)
    if prior:
        link = page_link("Enter radar readings on Athlete", "/athlete")
        made.append(html.P([prior, " ", link, ": it also says which ball to throw next."], className="at-number"))
    return made


def _title(answer: StartAnswer) -> list[Any]:
    sure = answer.checked.certainty
    if answer.found is None or sure is None:
        return []
    parts: list[Any] = [f"Balls and speeds that keep every limit, with {plain(100.0 * sure, most=1)} % certainty"]
    told = [f"per cent of {words.dated(answer)}"] + (["path from adult men"] if path_note(answer.case.person) else [])
    return [*parts, *(part for text in told for part in (" ", html.Span(text, className="unit")))]


def _figure_note(answer: StartAnswer) -> str:
    found = answer.found
    if found is None:
        return ""
    diameter = answer.case.system.text(answer.case.own_ball.diameter_m, "mm", most=1)
    shaded = (
        "Nothing is shaded: the edges of how fast and how slowly cross nowhere; the thick lines are the tightest."
        if found.nothing is not None and not found.region.fits.any()
        else "Shaded: every limit is kept. A thick edge carries the name of the limit that sets it."
    )
    return (
        f"{shaded} Dotted: the other limits’ own edges. Upright bars are the balls of the rack, numbers the short "
        f"list. Drawn for balls of {diameter}."
    )


def _limits(answer: StartAnswer) -> list[Component]:
    """The limits, for the sheet: on the screen they stand in their fields."""
    rows = [(label, text) for label, text in words.limits_words(answer)] or [("Limits", "none")]
    sure = answer.checked.certainty
    rows += [("Aim", AIMS[answer.aim])]
    if answer.checked.wanted is not None:
        rows.append(("Wanted peak", words.amount_words("elbow_peak", answer.checked.wanted, answer)))
    if sure is not None:
        rows.append(("Certainty", f"{plain(100.0 * sure, most=1)} %"))
    return [part for label, text in rows for part in (html.Dt(label), html.Dd(text))]


def means_of(answer: StartAnswer, name: str) -> str:
    """Say under a field what its limit comes to, counted the other way.

    Parameters
    ----------
    answer : StartAnswer
    name : str
        Of the limit.

    Returns
    -------
    str
        Nothing where there is no limit or no answer.
    """
    amount = answer.means.get(name)
    if amount is None:
        return ""
    key = "elbow_peak" if name == "wanted_peak" else name
    said = f"= {words.amount_words(key, amount, answer)}"
    given = answer.amounts.get(name)
    spread = words.between_words(key, given) if given else ""
    return f"{said}; {spread} ({words.SPREAD_PERCENT} and more)" if spread else said


def _empty(answer: StartAnswer, athlete: CheckedAthlete, kept: list[Component]) -> list[Component]:
    wanted: list[Component] = []
    measures = measures_missing(answer.case, dict(athlete.problems))
    if measures:
        wanted.append(missing_measures(measures))
    if answer.lacks_date:
        wanted.append(
            html.Li(
                [
                    "Missing: the day of the reference from before the injury. ",
                    page_link("Enter it on Compare", "/"),
                    ".",
                ]
            )
        )
    elif answer.basis is None:
        wanted.append(
            html.Li(
                [
                    "Missing: a full-effort speed of this athlete. ",
                    page_link("Enter the reference throw on Compare", "/"),
                    ", or ",
                    page_link("radar readings on Athlete", "/athlete"),
                    ".",
                ]
            )
        )
    here = words.missing(answer)
    if here:
        wanted.append(html.Li(f"Missing or to be mended above: {', '.join(here)}."))
    if answer.basis is None:
        wanted.append(
            html.Li("To see how it works, choose an invented thrower above: nothing of yours is overwritten.")
        )
    return [
        html.P("No answer yet.", className="sentence invitation"),
        *kept,
        html.Ul(wanted, className="start-missing"),
    ]
