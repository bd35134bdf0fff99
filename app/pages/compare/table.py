"""The readings as a table: a line for each throw; in every cell its number, and how it stands to the reference."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dash import html
from dash.development.base_component import Component

from app.pages.compare.answers import Answer, Comparison, bwh_of
from app.pages.compare.words import path_of
from app.show import glossary
from app.show.listed_throw import HOLDS
from app.show.numbers import difference, number, share_of
from app.show.quantities import title
from app.units.conversion import from_si, plain
from model.readouts import Readouts

NOT_DEFINED = "not defined"
BROAD_TOP = (
    "The top of the curve is broad: the time of the peak is known to some ±7 ms at full speed, less in a slower throw."
)
ADULT_MEN = "The path comes from adult men."


@dataclass(frozen=True)
class Column:
    """A reading as a column.

    Attributes
    ----------
    head, unit, note : str
        Its name, its unit, and what it is in a few words.
    value : callable
        Takes the reading, in the unit, from `Readouts`.
    places : int
        Decimals.
    share : bool
        Whether a per cent of the reference makes sense.
    body_scaled : bool
        Whether the value is divided by the thrower's own body weight times height.
    """

    head: str
    unit: str
    note: str
    value: Callable[[Readouts], float]
    places: int
    share: bool = True
    body_scaled: bool = False

    def of(self, answer: Answer | None) -> float:
        """The reading of a throw; NaN where there is none."""
        if answer is None or answer.readouts is None:
            return math.nan
        value = self.value(answer.readouts)
        if not self.body_scaled:
            return value
        return math.nan if answer.person is None else bwh_of(value, answer.person)


def columns(comparison: Comparison) -> list[Column]:
    """Choose the columns: work only where it is defined.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    list of Column
    """
    unit = comparison.reading.unit
    per_second, total = f"{unit}/s", f"{unit}·s"
    level = "a fixed level" if comparison.level is None else f"{plain(comparison.level, most=1)} {unit}"
    chosen = [
        Column("Peak", unit, "largest value", lambda r: r.peak, 1 if unit == "N·m" else 0),
        *([BODY_SCALED] if unit == "N·m" else []),
        Column("When", "ms before release", "±7 ms at full speed", _before_release_ms, 0, share=False),
        Column("Time loaded", "ms", "above 10 % of own peak", lambda r: from_si(r.loaded_s, "ms"), 0),
        Column("Time above", "ms", f"above {level}", lambda r: from_si(r.above_s, "ms"), 0),
        Column("Half-height width", "ms", "above half of own peak", lambda r: from_si(r.half_height_s, "ms"), 0),
        Column("Area", total, "angular impulse, not work" if unit == "N·m" else "impulse", lambda r: r.area, 2),
        Column("Rise rate", per_second, "from 10 % to 90 % of peak", lambda r: r.rise_rate, 0),
        Column("Work given out", "J", "by the rotation", lambda r: r.work_out_j, 1),
        Column("Work taken in", "J", "by the rotation", lambda r: r.work_in_j, 1),
    ]
    drawn = comparison.drawn
    return [column for column in chosen if column.unit != "J" or any(math.isfinite(column.of(one)) for one in drawn)]


BODY_SCALED = Column("Peak", "%BW·H", "of body weight × height", lambda r: r.peak, 1, share=False, body_scaled=True)


def _before_release_ms(readouts: Readouts) -> float:
    return from_si(readouts.peak_before_release_s, "ms")


def table(comparison: Comparison) -> Component | None:
    """Make the table of readings.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    Component or None
        None if no throw has a curve.
    """
    if not comparison.drawn:
        return None
    chosen = columns(comparison)
    head = html.Tr([html.Th("Throw", scope="col"), *(_head(column) for column in chosen)])
    body = [_row(answer, comparison, chosen) for answer in comparison.answers if answer.curves is not None]
    return html.Div(
        [
            html.Table([html.Caption(_caption(comparison)), html.Thead(head), html.Tbody(body)], className="readings"),
            html.P(explained(chosen), className="paper-only explained"),
        ],
        className="scrolls",
        tabIndex=0,
        role="region",
        **{"aria-label": "Readings, scrolls sideways"},
    )


def explained(chosen: Sequence[Column]) -> str:
    """Say in a line what each column is; on paper it stands under the table, where the heads have no room for it.

    Parameters
    ----------
    chosen : sequence of Column

    Returns
    -------
    str
    """
    heads = [column.head for column in chosen]
    units = [f", {column.unit}" if heads.count(column.head) > 1 else "" for column in chosen]
    said = [f"{column.head}{unit}: {column.note}" for column, unit in zip(chosen, units, strict=True)]
    return f"{' · '.join(said)}."


def _caption(comparison: Comparison) -> list[Component | str]:
    reading, reference = comparison.reading, comparison.reference
    until = "release" if reading.end_phase <= 1.0 else "the end of the follow-through"
    words = f"{title(reading)}, read from foot contact to {until}."
    if reference is None:
        percent = " No per cent: the reference throw has no curve."
    else:
        percent = f" Difference to, and per cent of, the reference: {reference.name}, {comparison.known}."
    adult = f" {ADULT_MEN}" if path_of(comparison) else ""
    return [html.Span(words + percent + adult, className="caption")]


def _head(column: Column) -> Component:
    small = [html.Span(column.unit, className="unit"), html.Span(column.note, className="note")]
    return html.Th([*glossary.explained(column.head), *small], scope="col")


def _row(answer: Answer, comparison: Comparison, chosen: Sequence[Column]) -> Component:
    name = f"{answer.name}\nreference, {comparison.kind}" if answer.reference else answer.name
    percent = answer.throw.percent
    if percent is not None:
        name += f"\n{HOLDS[answer.throw.hold]}, {plain(percent)} %"
    cells = [html.Td(_cell(answer, column, comparison)) for column in chosen]
    return html.Tr([html.Th(name, scope="row"), *cells])


def _cell(answer: Answer, column: Column, comparison: Comparison) -> str:
    """The text of a cell: the number, and below it, in small print, how it stands to the reference."""
    readouts, reference = answer.readouts, comparison.reference
    value = column.of(answer)
    if not math.isfinite(value):
        return f"\n{NOT_DEFINED}"
    after = column.head == "When" and value < 0.0
    lines = [f"{number(-value, 0)} after" if after else number(value, column.places)]
    if column.share and reference is not None and reference.readouts is not None and not answer.reference:
        of_reference = column.of(reference)
        share = share_of(value, of_reference)
        percent = f"{math.floor(share + 0.5)} % of {comparison.kind}" if math.isfinite(share) else "no per cent"
        compared = [difference(value - of_reference, column.places)] if math.isfinite(of_reference) else []
        lines += [*compared, percent]
    if column.share and column.head == "Peak" and readouts is not None and readouts.peak_at_edge:
        lines.append("at the edge of what is read")
    return "\n".join(lines)
