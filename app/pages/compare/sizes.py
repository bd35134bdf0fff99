"""The four sizes of a throw beside the reference's: a number, a difference, a bar around zero, and a plain sentence."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from dash import html
from dash.development.base_component import Component

from app.pages.compare.answers import Answer, Comparison
from app.show.against_reference import NO_CLAIM, Against
from app.show.certainty_words import ALLOWED_FOR, LEAST_PERCENT
from app.show.glossary import explained
from app.show.numbers import READOUT_NAMES, capital, number, share_of, whole_percent
from app.units.conversion import from_si
from model.readouts import Readouts

BAR_PERCENT = 50.0
"""Difference at which a bar is at its full length; a greater one is cut off there and marked with an arrow."""


@dataclass(frozen=True)
class Size:
    """One of the four sizes.

    Attributes
    ----------
    key : str
        A readout of `app.show.numbers.READOUT_ORDER`.
    value : callable
        Takes it from `Readouts`, in the unit that is shown.
    unit : str
        What is added to the unit of the curve; ``ms`` stands alone.
    places : int or None
        Decimals; None for as many as a peak has.
    more, less : str
        How a larger and a smaller one is said in a plain sentence, with the per cent for ``{}``.
    """

    key: str
    value: Callable[[Readouts], float]
    unit: str
    places: int | None
    more: str
    less: str

    @property
    def name(self) -> str:
        """As the table calls it."""
        return capital(READOUT_NAMES[self.key])

    def unit_with(self, of_curve: str) -> str:
        """Its unit for a curve in N·m or N."""
        return self.unit if self.unit == "ms" else of_curve + self.unit


SIZES = (
    Size("peak", lambda r: r.peak, "", None, "its highest {noun} is {} higher", "its highest {noun} is {} lower"),
    Size("loaded_s", lambda r: from_si(r.loaded_s, "ms"), "ms", 0, "it acts {} longer", "it acts {} shorter"),
    Size("rise_rate", lambda r: r.rise_rate, "/s", 0, "it builds up {} faster", "it builds up {} more gently"),
    Size("area", lambda r: r.area, "·s", 2, "there is {} more of it in all", "there is {} less of it in all"),
)
"""What the word "more" hides, in the order of the page: how high, how long, how steep, how much in all."""


def sizes(answer: Answer, comparison: Comparison, sure: Against | None = None) -> Component | None:
    """Make the four rows of a throw, and its sentence.

    Parameters
    ----------
    answer : Answer
    comparison : Comparison
    sure : Against, optional
        How sure its differences from the reference are.

    Returns
    -------
    Component or None
        None if the throw has no curve.
    """
    readouts, reference = answer.readouts, comparison.reference
    if answer.curves is None or readouts is None:
        return None
    against = None if reference is None or answer.reference else reference.readouts
    of_curve = comparison.reading.unit
    rows = [row for size in SIZES for row in _rows(size, readouts, against, of_curve, comparison.kind, sure)]
    said = "" if against is None else plain_sentence(readouts, against, of_curve)
    table = html.Table([html.Caption(_caption(answer, comparison), className="hidden"), html.Tbody(rows)])
    return html.Div([table, html.P(said)] if said else [table], className="sizes")


def plain_sentence(readouts: Readouts, against: Readouts, unit: str) -> str:
    """Say in plain words how a throw differs from the reference.

    Parameters
    ----------
    readouts, against : Readouts
        Of the throw and of the reference.
    unit : str
        N·m or N: whether it is a torque or a force.

    Returns
    -------
    str
        One sentence; what is not defined is left out of it.
    """
    noun = "torque" if unit == "N·m" else "force"
    parts: list[str] = []
    same: list[str] = []
    for size in SIZES:
        change = share_of(size.value(readouts), size.value(against)) - 100.0
        if math.isnan(change):
            continue
        if abs(change) < LEAST_PERCENT:
            same.append(size.name.lower())
            continue
        words = size.more if change > 0.0 else size.less
        parts.append(words.format(whole_percent(change), noun=noun))
    if not parts:
        return "As large as the reference in all four." if len(same) == len(SIZES) else ""
    text = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])}, and {parts[-1]}"
    rest = f"; the same {' and '.join(same)}" if same else ""
    return f"Beside the reference, {text}{rest}."


def _caption(answer: Answer, comparison: Comparison) -> str:
    return f"Throw {answer.number}, {answer.name}" + (f": the reference, {comparison.kind}" if answer.reference else "")


def _rows(
    size: Size, readouts: Readouts, against: Readouts | None, of_curve: str, kind: str, sure: Against | None
) -> list[Component]:
    """A size in words, its bar under them, and in how wide an interval the difference lies."""
    value = size.value(readouts)
    places = size.places if size.places is not None else (1 if of_curve == "N·m" else 0)
    written = f"{number(value, places)} {size.unit_with(of_curve)}" if math.isfinite(value) else "not defined"
    cells = [html.Th(explained(size.name, repeated=True), scope="row"), html.Td(written)]
    if against is None:
        return [html.Tr(cells)]
    change = share_of(value, size.value(against)) - 100.0
    between = sure.low_high(size.key) if sure else ""
    told = [html.Tr(html.Td(_interval(between), colSpan=3))] if between else []
    return [html.Tr([*cells, html.Td(_percent(change, kind))]), *_bar(change), *told]


def _interval(between: str) -> Component:
    said = between if between == NO_CLAIM else f"90 %: {between}"
    return html.Span(said, className="interval", title=ALLOWED_FOR)


def _percent(change: float, kind: str) -> str:
    if math.isnan(change):
        return "no per cent"
    sign = "" if whole_percent(change) == whole_percent(0.0) else "+" if change > 0.0 else "\u2212"
    return f"{sign}{whole_percent(change)} of {kind}"


def _bar(change: float) -> list[Component]:
    """A bar from zero in the middle: to the right for more, to the left for less. The number above says the same."""
    if math.isnan(change):
        return []
    half = 50.0 * min(abs(change) / BAR_PERCENT, 1.0)
    beyond = " beyond" if abs(change) > BAR_PERCENT else ""
    side = "plus" if change > 0.0 else "minus"
    style = {"width": f"{half:.1f}%", "left" if change > 0.0 else "right": "50%"}
    bar = html.Div(html.Span(className=f"{side}{beyond}", style=style), className="bar")
    return [html.Tr(html.Td(bar, colSpan=3), **{"aria-hidden": "true"})]
