"""From the numbers to what is shown: every part that changes, as one value."""

from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.visit import address
from app.pages.claim import words
from app.pages.claim.answers import ClaimAnswer, Settled
from app.pages.claim.picture import Scale, picture, scale_of
from app.show.ball_words import ball_words
from app.show.cautions import path_note
from app.show.certainty_words import ALLOWED_FOR, NO_CLAIM, NOTHING_TO_SPEAK_OF, RULE, verdict
from app.show.glossary import explained
from app.show.kept import to_mend
from app.show.numbers import READOUT_NAMES, capital
from app.show.page_parts import missing_measures, page_link
from app.show.person_words import measures_missing
from app.show.quantities import title
from model.channels import READINGS
from model.structural_band import BandDifference
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


def view_of(answer: ClaimAnswer) -> View:
    """Put the numbers into words and pictures."""
    there = answer.settled is not None
    return View(
        empty=[] if there else _empty(answer),
        empty_hidden=there,
        body_hidden=not there,
        sentence=_sentence(answer),
        readouts=_readouts(answer),
        notes=[html.P(text) for text in _notes(answer)],
    )


def _sentence(answer: ClaimAnswer) -> list[Component]:
    settled = answer.settled
    if settled is None:
        return []
    parts: list[Any] = [f"“{words.claim_words(answer)}”: "]
    for i, (said, names) in enumerate(words.summary(answer)):
        parts += ["; " if i else "", html.Strong(said), f" for {names}"]
    made: list[Component] = [
        html.P(settled.against.sentence(), className="claim-sure"),
        html.P([*parts, "."], className="sentence"),
        html.P(f"{words.throws_words(settled, answer.case.system)} {words.FOUR}", className="claim-four"),
    ]
    note = path_note(answer.case.person)
    return [*made, html.P(note, className="at-number")] if note else made


def _readouts(answer: ClaimAnswer) -> list[Component]:
    settled = answer.settled
    if settled is None:
        return []
    scale = scale_of(settled.found.values())
    rows = [
        html.Li(_row(readout, one, answer, settled, scale), className="claim-row")
        for readout, one in settled.found.items()
    ]
    this, other = (ball_words(ball, answer.case.system) for ball in settled.balls)
    drawn = "Tick: best estimate. Bar: 90 % interval"
    drawn += "." if settled.exact else "; paler in it: what the speeds alone leave open."
    caption = (
        f"Difference in per cent, {this} against {other}: to the right of the upright line more with {this}, to the "
        f"left less. {drawn}"
    )
    return [_title(answer), html.Ol(rows, className="claim-rows"), html.P(caption, className="quiet claim-caption")]


def _title(answer: ClaimAnswer) -> Component:
    notes = ["path from adult men"] if path_note(answer.case.person) else []
    return html.H2(
        [
            *explained(title(READINGS[answer.claim.reading])),
            *(part for note in notes for part in (" ", html.Span(note, className="unit"))),
        ]
    )


def _row(readout: str, one: BandDifference, answer: ClaimAnswer, settled: Settled, scale: Scale) -> list[Component]:
    more, key = answer.claim.more, (answer.claim.reading, readout)
    found = one.answer(more).verdict
    head = html.Div(
        [
            html.H3(
                [
                    *explained(capital(READOUT_NAMES[readout])),
                    html.Span(words.claimed(readout, more), className="unit"),
                ]
            ),
            html.P(verdict(one, more), className=f"claim-verdict is-{found.replace(' ', '-')}"),
        ],
        className="claim-head",
    )
    if one.not_defined:
        return [head, html.P("One of the throws has no such number.", className="claim-numbers quiet")]
    apart, both = words.numbers_words(settled.values[readout], one.best, key)
    if one.no_claim:
        small = [both, f"if {settled.against.where.alike}", NO_CLAIM]
    elif one.none_to_speak_of:
        small = [NOTHING_TO_SPEAK_OF, both]
    else:
        small = [
            both,
            *words.interval_words(one, settled.exact),
            *words.claim_chance_words(readout, one, answer, settled),
        ]
    numbers = html.Div(
        [html.P(html.Strong(apart)), *(html.P(text, className="quiet") for text in small if text)],
        className="claim-numbers",
    )
    return [head, numbers, picture(one, scale, words.heard(readout, one, settled, key))]


def _notes(answer: ClaimAnswer) -> list[str]:
    settled = answer.settled
    if settled is None:
        return []
    braking = f"{capital(BRAKING)}." if READINGS[answer.claim.reading].braking else ""
    beyond = words.beyond_words(settled, answer.case.system)
    return [text for text in (RULE, ALLOWED_FOR, *words.source_words(answer), braking, *beyond) if text]


def _empty(answer: ClaimAnswer) -> list[Component]:
    measures, here = measures_missing(answer.case), to_mend(answer.claim.to_mend)
    wanted = []
    where = address("/athlete", answer.case.code)
    if measures:
        wanted.append(missing_measures(measures, where))
    if answer.needs_speed:
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
        wanted.append(html.Li(here))
    return [html.P("No answer yet.", className="sentence invitation"), html.Ul(wanted, className="claim-missing")]
