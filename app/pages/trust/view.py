"""From what was computed to the page: headline, table and the band's own story."""

from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from dash import html
from dash.development.base_component import Component

from app.pages.trust import words
from app.pages.trust.answers import BandAnswer
from app.show.check_words import (
    STATUS,
    agreement_words,
    cut_off_words,
    distance_words,
    no_proof_words,
    people_words,
    printed_words,
    reference_words,
    source_words,
    spread_words,
    standing_words,
    thrower_words,
    value_words,
    what_words,
)
from app.show.numbers import capital
from app.units.systems import System
from model.band_checks import BandCheck
from model.band_coverage import HELD, Coverage, GridStory
from model.comparison import Comparison
from model.published import values

COUNTED = (
    ("within 1 SD", ("within 1 SD",)),
    ("1 to 2 SD", ("within 2 SD",)),
    ("beyond 2 SD", ("beyond 2 SD",)),
    ("no spread in print: agree", ("inside", "near")),
    ("no spread in print: do not agree", ("outside", "far")),
    ("cannot be tested", ("cannot be tested",)),
)


def headline(rows: Sequence[Comparison]) -> Component:
    """Say first how the rows stand, and count them apart by whether they prove anything."""
    free = [row for row in rows if not no_proof_words(row)]
    tuned = [row for row in rows if no_proof_words(row)]
    counts = [("Tuned to published values", tuned), ("Not tuned", free), ("All", rows)]
    columns = zip(*(_counts(some) for _, some in counts), strict=True)
    table = _table(
        ["", *(name for name, _ in counts)],
        [[label, *column] for label, column in zip([label for label, _ in COUNTED] + ["in all"], columns, strict=True)],
        "How the values in print stand to what a laboratory would see of the model",
        "trust-counts",
    )
    return html.Div([html.P(spread_words(rows), className="sentence"), html.P(agreement_words(rows)), table])


def _counts(rows: Sequence[Comparison]) -> list[str]:
    counted = Counter(row.standing for row in rows)
    return [*(str(sum(counted[name] for name in names)) for _, names in COUNTED), str(len(rows))]


def table_part(compared: Sequence[Comparison], system: System) -> Component:
    """Make the table, group after group."""
    parts = [html.P(text) for text in (words.AGREES, words.LABORATORY, reference_words(system))]
    for group, rows in groupby(compared, key=lambda row: row.group):
        heading, caption = words.GROUPS[group]
        parts += [html.H3(heading), _rows_table(caption, list(rows), system)]
    return html.Div(parts)


HEADS = ("What", "In print", "Model", "As a laboratory would see it", "How far off")


def _rows_table(caption: str, rows: Sequence[Comparison], system: System) -> Component:
    body = []
    for row in rows:
        proof = no_proof_words(row)
        cells = [
            _cell(HEADS[1], f"{printed_words(row)} {row.unit}".strip(), source_words(row), people_words(row)),
            _cell(HEADS[2], value_words(row.raw)),
            _cell(HEADS[3], value_words(row.seen), cut_off_words(row)),
            _cell(HEADS[4], distance_words(row) or "–", standing_words(row), *([proof] if proof else [])),
        ]
        name = [capital(what_words(row, system)), html.Span(thrower_words(row, system), className="unit")]
        body.append(html.Tr([html.Th(name, scope="row"), *cells], className="" if row.agrees else "trust-apart"))
    heads = html.Thead(html.Tr([html.Th(head, scope="col") for head in HEADS]))
    return html.Table([html.Caption(caption), heads, html.Tbody(body)], className="trust-rows")


def _cell(head: str, value: str, *notes: str) -> Component:
    """A cell, with its column's name for narrow screens."""
    small = [html.Span(note, className="unit") for note in notes]
    return html.Td([html.Span(head, className="trust-head", **{"aria-hidden": "true"}), html.Span(value), *small])


def _table(heads: Sequence[str], lines: Sequence[Sequence[str]], caption: str, name: str) -> Component:
    body = [
        html.Tr([html.Th(line[0], scope="row"), *(_cell(*pair) for pair in zip(heads[1:], line[1:], strict=True))])
        for line in lines
    ]
    first = html.Th(heads[0], scope="col") if heads[0] else html.Td()
    top = html.Thead(html.Tr([first, *(html.Th(head, scope="col") for head in heads[1:])]))
    return html.Table([html.Caption(caption), top, html.Tbody(body)], className=name)


def band_part(answer: BandAnswer, system: System) -> Component:
    """Tell what print says of differences, how the band was made, and how well it holds what it never saw."""
    return html.Div([*_checks_part(answer.checks, system), *_story_part(answer.story, system)])


def _checks_part(checks: Sequence[BandCheck], system: System) -> list[Component]:
    lines = []
    for check in checks:
        source = _sources(check)
        used = "used in making the band, so no proof" if check.used else "not used"
        lines.append(
            [
                words.checked_words(check, system),
                f"{words.printed_of(check)} ({source})",
                words.found_of(check),
                f"{'agrees' if check.agrees else 'does not agree'}; {used}",
            ]
        )
    heads = ("Peak varus torque", "In print", "Here, with the band of 90 %", "So")
    caption = "How much higher or lower one throw’s peak is than another’s, in print and here"
    return [html.H3("Differences in print"), _table(heads, lines, caption, "trust-rows")]


def _sources(check: BandCheck) -> str:
    if not check.sources:
        return "the studies together"
    found = values()[check.sources[0]]
    author, year = found.citation.split()[0], next(part for part in found.citation.split() if part[:4].isdigit())
    return f"{author} {year[:4]}, {STATUS[found.status]}"


def _story_part(story: GridStory, system: System) -> list[Component]:
    heads = ("Of 100 solved throws, held by the band", *(words.HELD_NAMES[key] for key in HELD), "throws")
    return [
        html.H3("How the band was made, and how well it holds"),
        html.P(words.made_words(story)),
        html.P(words.holds_words(story)),
        _table(
            heads,
            [_coverage_line(coverage) for coverage in story.coverage],
            words.HELD_CAPTION,
            "trust-rows trust-held",
        ),
        html.P(words.outside_words(system)),
    ]


def _coverage_line(coverage: Coverage) -> list[str]:
    held = [f"{100 * coverage.held[key]:.0f}" for key in HELD]
    return [words.SOLVES[coverage.solves], *held, str(coverage.count)]
