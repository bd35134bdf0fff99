"""The short list and what each ball allows, as tables: also for those who do not see the figure."""

import math
from collections.abc import Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.compare.answers import share_of
from app.glossary import explained
from app.map.words import ball_words, value_words
from app.start import rounded, words
from app.start.answers import Listed, StartAnswer
from app.units import plain, rounded_down
from model.ceilings import BOUNDS
from model.quantity import Quantity
from model.readouts import Readouts
from model.start_list import BallRange, Margin

READOUT_ROWS = (
    ("Elbow, peak", "varus", "peak"),
    ("Elbow, time loaded", "varus", "loaded_s"),
    ("Elbow, rise rate", "varus", "rise_rate"),
    ("Shoulder, peak", "internal_rotation", "peak"),
    ("Braking after release, peak", "horizontal_abduction", "peak"),
)


def list_table(answer: StartAnswer) -> list[Component]:
    """Show the short list, a column for each throw.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of Component
        Nothing where there is no answer.
    """
    found, basis = answer.found, answer.basis
    if found is None or basis is None:
        return []
    if not found.listed:
        return [html.P("No ball of the rack keeps every limit at any share looked at.", className="quiet")]
    case = answer.case
    head = [html.Td("")]
    for place, listed in enumerate(found.listed, start=1):
        name = ball_words(listed.choice.range.ball, case.system)
        head.append(html.Th([html.Span(f"{place}", className="start-place"), f" {name}"], scope="col"))
    up_to = "" if answer.aim == "nearest_peak" else ", up to"
    kind = f"per cent of {basis.dated}"
    shown = [rounded.chosen(one.choice, case.system) for one in found.listed]
    full = [case.system.text(one.choice.range.full_speed_m_s, "m/s", least=1, most=1) for one in found.listed]
    rows = [
        _row(
            "Share of full speed",
            f"with this ball{up_to}",
            [
                [html.Strong(one.share_text), html.Span(f"of {speed}", className="note")]
                for one, speed in zip(shown, full, strict=True)
            ],
        ),
        _row("Release speed", "by the best estimate of full speed", [html.Strong(one.speed_text) for one in shown]),
    ]
    if case.found.checked.radar is not None:
        rows.append(
            _row("Radar shows", "of this speed", [case.system.cap(one.radar_m_s, "m/s") for one in found.listed])
        )
    rows += [
        _row("Asked effort", "that brings this speed", [words.effort_text(one, answer) for one in found.listed]),
        _row("Distance", "of a throw this fast", [words.distance_text(one, answer) for one in found.listed]),
    ]
    for label, reading, readout in READOUT_ROWS:
        unit = Quantity(reading, readout).unit
        cells = []
        for listed in found.listed:
            value = float(getattr(_readouts(listed, reading), readout))
            share = share_of(value, float(getattr(basis.readouts[reading], readout)))
            percent = f"{share:.0f} %" if math.isfinite(share) else "–"
            cells.append([value_words(value, unit), html.Span(percent, className="note")])
        rows.append(_row(label, kind, cells))
    body = [html.Tbody(rows, className="start-read")]
    limits = [_limit(margin, answer) for margin in found.listed[0].choice.margins]
    if limits:
        sure = plain(100.0 * (answer.checked.certainty or 0.0), most=1)
        title = html.Th(f"Each limit, with {sure} % certainty", colSpan=1 + len(found.listed), scope="rowgroup")
        together = [f"{rounded_down(100.0 * one.choice.together):.0f} %" for one in found.listed]
        last = _row("All limits at once", "probability", together)
        body.append(html.Tbody([html.Tr(title), *limits, last], className="start-kept"))
    table = html.Table([html.Thead(html.Tr(head)), *body], className="start-list")
    return [
        html.Div(
            table, className="scrolls", tabIndex=0, role="region", **{"aria-label": "Short list, scrolls sideways"}
        ),
        html.Ol(
            [html.Li(f"{one.choice.reason[0].upper()}{one.choice.reason[1:]}.") for one in found.listed],
            className="start-reasons",
        ),
    ]


def _row(label: str, note: str, cells: Sequence[Any]) -> Component:
    head = html.Th([*explained(label), html.Span(note, className="note")], scope="row")
    return html.Tr([head, *(html.Td(cell) for cell in cells)])


def _readouts(listed: Listed, reading: str) -> Readouts:
    choice = listed.choice
    return {
        "varus": choice.elbow,
        "internal_rotation": choice.shoulder,
        "horizontal_abduction": choice.braking,
    }[reading]


def _limit(margin: Margin, answer: StartAnswer) -> Component:
    """A row for one limit: what each throw stays within, and the room that is left."""
    bound, found = BOUNDS[margin.key], answer.found
    way = "at most" if bound.at_most else "at least"
    cells = []
    for listed in found.listed if found else ():
        one = next(part for part in listed.choice.margins if part.key == margin.key)
        held = words.held_words(one, answer)
        room = max(0.0, rounded_down(100.0 * one.room))
        cells.append([held, html.Span(f"room {room:.0f} %", className="note")])
    label = words.EDGES[margin.key]
    return _row(label[0].upper() + label[1:], f"{way} {words.amount_words(margin.key, margin.amount, answer)}", cells)


def ranges_table(answer: StartAnswer) -> list[Component]:
    """Show what every ball of the rack may be thrown at.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of Component
        Nothing where there is no answer.
    """
    found = answer.found
    if found is None:
        return []
    head = html.Tr(
        [
            html.Th("Ball", scope="col"),
            html.Th(explained("Share of full speed"), scope="col"),
            html.Th([*explained("Release speed"), html.Span(answer.case.speed_unit, className="note")], scope="col"),
            html.Th("Up to there by", scope="col"),
            html.Th("From there by", scope="col"),
        ]
    )
    rows = [_ball(one, answer) for one in found.ranges]
    caption = "What each ball allows: the region, ball by ball."
    table = html.Table(
        [html.Caption(caption), html.Thead(head), html.Tbody(rows)], className="plain-table start-ranges"
    )
    return [
        html.Div(
            table, className="scrolls", tabIndex=0, role="region", **{"aria-label": "Ball by ball, scrolls sideways"}
        )
    ]


def _ball(one: BallRange, answer: StartAnswer) -> Component:
    name = html.Th(ball_words(one.ball, answer.case.system), scope="row")
    if not one.fits:
        return html.Tr([name, html.Td(words.range_words(one), colSpan=4, className="start-none")], className="quiet")
    system = answer.case.system
    low, high = rounded.least(one, system), rounded.most(one, system)
    share = f"{low.share_text.removesuffix(' %')} to {high.share_text}"
    speed = f"{low.speed_number} to {high.speed_number}"
    return html.Tr(
        [name, html.Td(share), html.Td(speed), html.Td(words.EDGES[one.most_by]), html.Td(words.EDGES[one.least_by])]
    )
