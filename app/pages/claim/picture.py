"""The pictures of the answer: for each readout the difference in per cent, its distribution and interval around nought.

All four share one axis, so that a wide one looks wide. The darker part of a shape is the part for which the claim is
true: its share of the whole is the probability.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from dash import html
from dash.development.base_component import Component

from app.show.numbers import difference
from model.claim import Difference

BINS = 60  # of a shape
REACH = (0.0005, 0.9995)  # the share of the draws between which a shape is drawn
LEAST_SPAN = 0.10  # of the axis: narrower differences do not fill it
MARGIN = 0.06  # of the span, at either end
MOST_TICKS = 6
STEPS = (1.0, 2.0, 5.0)


@dataclass(frozen=True)
class Scale:
    """The axis of all four pictures, as relative differences.

    Attributes
    ----------
    low, high : float
        Its ends, with nought between them.
    ticks : tuple of float
    """

    low: float
    high: float
    ticks: tuple[float, ...]

    def percent(self, value: float) -> float:
        """Place of a relative difference in per cent of the axis; what lies beyond an end stands there."""
        inside = min(max(value, self.low), self.high)
        return round(100.0 * (inside - self.low) / (self.high - self.low), 3)


def scale_of(found: Mapping[str, Difference]) -> Scale:
    """Choose the axis that shows all differences and nought.

    Parameters
    ----------
    found : mapping of str to Difference

    Returns
    -------
    Scale
    """
    ends = [0.0]
    for one in found.values():
        if one.draws.size:
            ends += np.quantile(one.draws, REACH).tolist()
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


def outline(one: Difference, side: str = "") -> list[tuple[float, float]]:
    """The shape of a distribution.

    Parameters
    ----------
    one : Difference
    side : str
        'more' or 'less' for the part on that side of nought; empty for the whole.

    Returns
    -------
    list of (float, float)
        Relative differences and the density there, the highest of the whole shape 1; nothing where there is none.
    """
    if not one.draws.size:
        return []
    low, high = np.quantile(one.draws, REACH).tolist()
    if high - low < 1e-9:
        return []
    counts, edges = np.histogram(one.draws, np.linspace(low, high, BINS + 1))
    place, height = 0.5 * (edges[1:] + edges[:-1]), counts / counts.max()
    if side:
        at_nought = float(np.interp(0.0, place, height, left=0.0, right=0.0))
        kept = place > 0.0 if side == "more" else place < 0.0
        if not kept.any():
            return []
        place, height = place[kept], height[kept]
        if at_nought:
            at = 0 if side == "more" else place.size
            place, height = np.insert(place, at, 0.0), np.insert(height, at, at_nought)
    return list(zip(place.tolist(), height.tolist(), strict=True))


def picture(one: Difference, scale: Scale, exact: bool, more: bool, heard: str) -> Component:
    """Draw a difference around nought.

    Parameters
    ----------
    one : Difference
    scale : Scale
    exact : bool
        Whether there is a number only, and no distribution.
    more : bool
        Whether more is claimed of the first throw.
    heard : str
        What is drawn, in words.

    Returns
    -------
    Component
    """
    nought = scale.percent(0.0)
    parts: list[Component] = []
    if not exact:
        for name, side in (("claim-shape", ""), ("claim-shape claimed", "more" if more else "less")):
            shape = outline(one, side)
            if len(shape) > 1:
                parts.append(html.Div(className=name, style={"clipPath": _polygon(shape, scale)}))
    parts.append(html.Div(className="claim-nought", style={"left": f"{nought}%"}))
    relative = one.relative
    if math.isfinite(relative.estimate):
        ends = sorted((nought, scale.percent(relative.estimate)))
        if not exact:
            ends = [scale.percent(relative.low), scale.percent(relative.high)]
        width = round(ends[1] - ends[0], 3)
        parts.append(html.Div(className="claim-interval", style={"left": f"{ends[0]}%", "width": f"{width}%"}))
        parts.append(html.Div(className="claim-middle", style={"left": f"{scale.percent(relative.estimate)}%"}))
    line = html.Div(parts, className="claim-line", role="img", **{"aria-label": heard})
    ticks = [
        html.Span(_tick(tick), className="claim-tick", style={"left": f"{scale.percent(tick)}%"})
        for tick in scale.ticks
    ]
    return html.Div(
        [line, html.Div(ticks, className="claim-axis", **{"aria-hidden": "true"})], className="claim-picture"
    )


def _tick(value: float) -> str:
    percent = 100.0 * value
    return "0 %" if abs(percent) < 1e-9 else difference(percent, 0 if abs(percent) >= 1.0 else 1)


def _polygon(shape: list[tuple[float, float]], scale: Scale) -> str:
    first, last = (scale.percent(shape[i][0]) for i in (0, -1))
    top = [f"{scale.percent(x):.2f}% {100.0 * (1.0 - y):.1f}%" for x, y in shape]
    return f"polygon({first:.2f}% 100%, {', '.join(top)}, {last:.2f}% 100%)"
