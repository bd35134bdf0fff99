"""From the numbers to what is shown: every part that changes, as one value."""

from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.visit import address
from app.pages.claim import words
from app.pages.claim.answers import ClaimAnswer
from app.pages.claim.picture import Scale, picture, scale_of
from app.show.ball_words import ball_words
from app.show.cautions import path_note
from app.show.checks import CheckedAthlete
from app.show.glossary import explained
from app.show.numbers import capital
from app.show.page_parts import missing_measures, page_link
from app.show.quantities import title
from model.channels import READINGS
from model.claim import Difference
from model.zones import BRAKING


@dataclass(frozen=True)
class View:
    """All the words and pictures that change when a value does."""

    empty: list[Component]
    empty_hidden: bool
    body_hidden: bool
    sentence: list[Component]
    readouts: list[Component]
    notes: list[Component]


def view_of(answer: ClaimAnswer, athlete: CheckedAthlete) -> View:
    """Put the numbers into words and pictures."""
    there = answer.settled is not None
    return View(
        empty=[] if there else _empty(answer, athlete),
        empty_hidden=there,
        body_hidden=not there,
        sentence=_sentence(answer),
        readouts=_readouts(answer),
        notes=[html.P(text) for text in _notes(answer)] if there else [],
    )


def _sentence(answer: ClaimAnswer) -> list[Component]:
    said = words.summary(answer)
    if not said:
        return []
    parts: list[Any] = [f"“{words.claim_words(answer)}”: "]
    for i, (verdict, names) in enumerate(said):
        parts += ["; " if i else "", html.Strong(verdict), f" for {names}"]
    made: list[Component] = [
        html.P([*parts, "."], className="sentence"),
        html.P(f"{words.throws_words(answer)} {words.FOUR}", className="claim-four"),
    ]
    note = path_note(answer.case.person)
    return [*made, html.P(note, className="at-number")] if note else made


def _readouts(answer: ClaimAnswer) -> list[Component]:
    settled = answer.settled
    if settled is None:
        return []
    scale = scale_of(settled.found)
    made: list[Component] = [_title(answer)]
    rows = [html.Li(_row(one, answer, scale), className="claim-row") for one in settled.found.values()]
    made.append(html.Ol(rows, className="claim-rows"))
    first, second = answer.checked.first, answer.checked.second
    if first is None or second is None:
        return made
    this, other = (ball_words(ball, answer.case.system) for ball in (first, second))
    known = "published groups leave open" if answer.on_prior else "the readings leave open"
    drawn = (
        "The bar is the number."
        if settled.exact
        else f"Shape: all that {known}, dark where the claim is true. Bar: 90 %, tick: best estimate."
    )
    caption = (
        f"Difference in per cent, {this} against {other}: to the right of the upright line more with {this}, to the "
        f"left less. {drawn}"
    )
    return [*made, html.P(caption, className="quiet claim-caption")]


def _title(answer: ClaimAnswer) -> Component:
    notes = ["path from adult men"] if path_note(answer.case.person) else []
    return html.H2(
        [
            *explained(title(READINGS[answer.reading])),
            *(part for note in notes for part in (" ", html.Span(note, className="unit"))),
        ]
    )


def _row(one: Difference, answer: ClaimAnswer, scale: Scale) -> list[Component]:
    exact = answer.settled is not None and answer.settled.exact
    key = one.verdict(answer.more)
    claimed = words.CLAIMED[one.readout][0 if answer.more else 1]
    head = html.Div(
        [
            html.H3([*explained(capital(words.NAMES[one.readout])), html.Span(claimed, className="unit")]),
            html.P(words.VERDICTS[key], className=f"claim-verdict is-{key}"),
        ],
        className="claim-head",
    )
    if key == "undefined":
        return [head, html.P("One of the throws has no such number.", className="claim-numbers quiet")]
    lines: list[Any] = [html.Strong(words.difference_words(one, answer.reading))]
    small = [words.values_words(one, answer.reading)]
    if one.none_to_speak_of:
        small.insert(0, words.NOTHING_TO_SPEAK_OF)
    if not exact:
        small += [words.interval_words(one, answer.reading), words.probability_words(one, answer.more)]
    numbers = html.Div(
        [html.P(lines), *(html.P(text, className="quiet") for text in small)],
        className="claim-numbers",
    )
    return [head, numbers, picture(one, scale, exact, answer.more, words.heard(one, answer))]


def _notes(answer: ClaimAnswer) -> list[str]:
    braking = f"{capital(BRAKING)}." if READINGS[answer.reading].braking else ""
    said = [*words.source_words(answer), words.borders_words(answer), braking, words.beyond_words(answer)]
    return [text for text in said if text]


def _empty(answer: ClaimAnswer, athlete: CheckedAthlete) -> list[Component]:
    measures, speed, here = words.missing(answer, dict(athlete.problems))
    wanted = []
    where = address("/athlete", answer.case.code)
    if measures:
        wanted.append(missing_measures(measures, where))
    if speed:
        wanted.append(
            html.Li(
                [
                    "Missing: a full-effort speed of this athlete. ",
                    page_link("Enter radar readings or the reference throw on Athlete", where),
                    "; or type the speeds here.",
                ]
            )
        )
    if here:
        wanted.append(html.Li(f"Missing or to be mended above: {here}."))
    return [html.P("No answer yet.", className="sentence invitation"), html.Ul(wanted, className="claim-missing")]
