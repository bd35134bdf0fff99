"""The pictures of the answer: for each readout the difference in per cent, with its intervals, around nought.

All four share one axis, so that a wide one looks wide.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from dash import html
from dash.development.base_component import Component

from app.show.certainty_words import signed_percent
from model.structural_band import BandDifference

LEAST_SPAN = 0.10  # of the axis: narrower differences do not fill it
MARGIN = 0.06  # of the span, at either end
MOST_TICKS = 6
STEPS = (1.0, 2.0, 5.0)


@dataclass(frozen=True)
class Scale:
    """The axis of all four pictures, as relative differences: its ends, with nought between them, and its ticks."""

    low: float
    high: float
    ticks: tuple[float, ...]

    def percent(self, value: float) -> float:
        """Place of a relative difference in per cent of the axis; what lies beyond an end stands there."""
        inside = min(max(value, self.low), self.high)
        return round(100.0 * (inside - self.low) / (self.high - self.low), 3)


def scale_of(found: Iterable[BandDifference]) -> Scale:
    """Choose the axis that shows nought, all best estimates, and all intervals of which something is claimed."""
    ends = [0.0]
    for one in found:
        shown = (one.best,) if one.no_claim else (one.best, one.low, one.high)
        ends += [value for value in shown if math.isfinite(value)]
    low, high = min(ends), max(ends)
    lacking = max(LEAST_SPAN - (high - low), 0.0)
    low, high = low - 0.5 * lacking, high + 0.5 * lacking
    margin = MARGIN * (high - low)
    low, high = low - margin, high + margin
    return Scale(low, high, _ticks(low, high))


def _ticks(low: float, high: float) -> tuple[float, ...]:
    rough = (high - low) / MOST_TICKS
    decade = 10.0 ** math.floor(math.log10(rough))
    step = next((decade * factor for factor in STEPS if decade * factor >= rough), 10.0 * decade)
    first, last = math.ceil(low / step), math.floor(high / step)
    return tuple(step * i for i in range(first, last + 1))


def picture(one: BandDifference, scale: Scale, heard: str) -> Component:
    """Draw a difference around nought: the interval, paler in it that of the speeds alone, and the best estimate."""
    parts: list[Component] = []
    if not one.no_claim:
        parts.append(_bar("claim-interval", one.low, one.high, scale))
        if one.radar_high > one.radar_low:
            parts.append(_bar("claim-speeds", one.radar_low, one.radar_high, scale))
    parts.append(html.Div(className="claim-nought", style={"left": f"{scale.percent(0.0)}%"}))
    parts.append(html.Div(className="claim-middle", style={"left": f"{scale.percent(one.best)}%"}))
    line = html.Div(parts, className="claim-line", role="img", **{"aria-label": heard})
    ticks = [
        html.Span(_tick(tick), className="claim-tick", style={"left": f"{scale.percent(tick)}%"})
        for tick in scale.ticks
    ]
    return html.Div(
        [line, html.Div(ticks, className="claim-axis", **{"aria-hidden": "true"})], className="claim-picture"
    )


def _bar(name: str, low: float, high: float, scale: Scale) -> Component:
    left, right = scale.percent(low), scale.percent(high)
    return html.Div(className=name, style={"left": f"{left}%", "width": f"{round(right - left, 3)}%"})


def _tick(value: float) -> str:
    return "0 %" if abs(value) < 1e-11 else f"{signed_percent(value)} %"
