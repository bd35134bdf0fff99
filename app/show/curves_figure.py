"""The figure: curves over one time axis, aligned at release, labelled on the line. A plain dict, as Plotly takes it."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.records.field_list import ALIGNED
from app.show.curve_labels import LETTER, Label, Line, Window, end_labels, name_lines, peak_labels
from app.show.curves_figure_words import Level, Text, event_words, inside, level_words, texts_trace
from app.show.palette import THEMES, Theme, figure_px, line_color, line_width, template

GRAPH_CONFIG: dict[str, Any] = {
    "showSendToCloud": False,
    "plotlyServerURL": "",
    "displayModeBar": False,
    "displaylogo": False,
    "responsive": True,
}
"""For every graph: nothing can be sent away."""

REFERENCE_DASH = "9px,6px"
UNIT_LETTERS = 3  # the longest unit that the left margin holds: N·m
RINGS = 9  # on a line
RING_PX = 5.0  # a ring is wider than its line by this
DRAWN_EVERY = 3  # points of the model's time grid; about a millisecond, four pixels of a smooth curve
PAPER_PX = (690.0, 268.0)  # width and height of the printed figure; a little lower for more than four throws,
LOWER_PX = 15.0  # by this for each, so that their table finds room on the same page

WIDE_PX, NARROW_PX = 700.0, 300.0  # a usual width of the plotting area, for the labels, where the page told none


@dataclass(frozen=True)
class Shown:
    """What a figure shows.

    Attributes
    ----------
    lines : tuple of Line
        At least one.
    unit : str
        Unit of the values.
    level : Level or None
        The level that "time above" is read at.
    at_ends : bool
        Whether the labels may stand at the ends of the lines: where the quantity is read to the end.
    align : str
        The instant that is 0 for all: a key of `ALIGNED`.
    """

    lines: tuple[Line, ...]
    unit: str
    level: Level | None = None
    at_ends: bool = False
    align: str = "release"


def empty_figure(theme: Theme, narrow: bool) -> dict[str, Any]:
    """Make the figure of no throws: the time axis and nothing on it.

    Parameters
    ----------
    theme : Theme
    narrow : bool

    Returns
    -------
    dict
    """
    layout = _layout(theme, narrow, (-150.0, 40.0), (0.0, 1.0))
    layout["yaxis"] |= {"showticklabels": False}
    uprights = (-145.0, -26.0, 0.0)
    layout["shapes"] = _shapes(uprights, [], [], layout)
    words = event_words(uprights, layout, "", theme, _view(layout, narrow, None).size[0])
    return {"data": [texts_trace(words, [], theme)], "layout": layout}


def figure(shown: Shown, theme: Theme, narrow: bool, revision: str, width_px: float | None = None) -> dict[str, Any]:
    """Lay the curves over one another.

    Parameters
    ----------
    shown : Shown
    theme : Theme
    narrow : bool
        Whether the window is narrow: smaller figure, smaller type.
    revision : str
        As long as it stays the same, a chosen zoom is kept.
    width_px : float, optional
        Of the whole figure; a usual one unless given.

    Returns
    -------
    dict
        ``data``, the curves and then the words, and ``layout``. The words are points of a trace and no annotations,
        because Plotly draws these far more slowly.
    """
    texts, layout = _around(shown, theme, narrow, width_px=width_px)
    layout["uirevision"] = revision
    return {"data": [*(_trace(line, shown.unit, theme) for line in drawing_order(shown)), texts], "layout": layout}


def for_paper(shown: Shown) -> dict[str, Any]:
    """What a printed figure differs in from that on the screen.

    Parameters
    ----------
    shown : Shown

    Returns
    -------
    dict
        ``layout``; ``colors`` and ``widths`` of the curves in the order of `figure`; ``texts``, the trace after them.
    """
    paper, drawn = THEMES["print"], drawing_order(shown)
    size = {"width": PAPER_PX[0], "height": PAPER_PX[1] - LOWER_PX * max(0, len(drawn) - 4)}
    texts, layout = _around(shown, paper, False, size)
    return {
        "layout": layout | {"autosize": False},
        "texts": texts,
        "colors": [line_color(line.mass_kg, paper) for line in drawn],
        "widths": [line_width(line.mass_kg, paper) for line in drawn],
    }


def drawing_order(shown: Shown) -> list[Line]:
    """Heavier first, so that thin lines lie on thick ones; the reference on top."""
    return sorted(shown.lines, key=lambda line: (line.reference, -line.mass_kg))


def _around(
    shown: Shown,
    theme: Theme,
    narrow: bool,
    size: dict[str, float] | None = None,
    width_px: float | None = None,
) -> tuple[dict[str, Any], dict[str, Any]]:
    """The trace of words and the layout around the curves."""
    lines, level = shown.lines, shown.level
    marked = next((line for line in lines if line.reference), lines[0])
    low = min(0.0, *(float(line.value.min()) for line in lines))
    high = max(0.0, *(float(line.value.max()) for line in lines))
    room = 0.07 * (high - low or 1.0)
    start = min(float(line.time_ms[0]) for line in lines) - 2.0
    end = max(float(line.time_ms[-1]) for line in lines) + 2.0
    layout = _layout(theme, narrow, (start, end), (low - room if low < 0.0 else 0.0, high + room), shown.align)
    layout |= size or {}
    layout["margin"]["l"] += max(0, len(shown.unit) - UNIT_LETTERS) * LETTER * figure_px(theme, "xs")
    view = _view(layout, narrow, width_px)
    said = "" if narrow or level is None else level_words(level, lines, view, theme)
    labels, end = _labels(shown, said, view, theme, narrow)
    layout["xaxis"]["range"] = [start, end]
    contact, rotation, release = float(marked.time_ms[0]), marked.max_external_rotation_ms, marked.release_ms
    ticked = (line.release_ms if shown.align == "rotation" else line.max_external_rotation_ms for line in lines)
    ticks = sorted({round(tick, 1) for tick in ticked})
    hairs = _path([(label.x, label.y, *label.point) for label in labels], layer="above")
    uprights = (contact, rotation, release)
    layout["shapes"] = [*_shapes(uprights, [level.value] if level else [], ticks, layout), hairs]
    texts = event_words(uprights, layout, shown.unit, theme, view.size[0])
    letters = _label_size(theme, narrow)
    texts += [
        Text(escape(one.text, quote=False), one.x, one.y, "middle right" if one.right else "middle left", letters)
        for one in labels
    ]
    if level and said:
        texts.append(Text(said, inside((start, end))[0], level.value, "top right", figure_px(theme, "xs")))
    return texts_trace(texts, [label.point for label in labels], theme), layout


def _label_size(theme: Theme, narrow: bool) -> float:
    return figure_px(theme, "xs" if narrow else "s")


def _view(layout: dict[str, Any], narrow: bool, width_px: float | None) -> Window:
    """The plotting area, as wide as the figure on the page or on paper leaves it."""
    margin, width = layout["margin"], layout.get("width", width_px)
    across = (NARROW_PX if narrow else WIDE_PX) if width is None else width - margin["l"] - margin["r"]
    plotted = layout["height"] - margin["t"] - margin["b"]
    return Window(layout["xaxis"]["range"], layout["yaxis"]["range"], (across, plotted))


def _labels(shown: Shown, said: str, view: Window, theme: Theme, narrow: bool) -> tuple[list[Label], float]:
    """The labels of the curves, and where the time axis ends to hold them."""
    end = view.x[1]
    named, size = name_lines(shown.lines), _label_size(theme, narrow)
    labels: list[Label] = []
    if shown.at_ends and not narrow:
        labels, end = end_labels(named, shown.lines, view, size)
    if not labels:
        levels = [(shown.level.value, said)] if shown.level else []
        labels = peak_labels(named, shown.lines, levels, view, size)
    return labels, end


def drawn_points(count: int) -> NDArray[np.intp]:
    """Choose the points of a curve that are drawn.

    Parameters
    ----------
    count : int
        Points of the model's curve.

    Returns
    -------
    ndarray (N,)
        Their places: every third, and the last.
    """
    return np.append(np.arange(0, count - 1, DRAWN_EVERY), count - 1)


def _trace(line: Line, unit: str, theme: Theme) -> dict[str, Any]:
    keep = drawn_points(line.time_ms.size)
    places = {"N": 1, "%BW·H": 3}.get(unit, 2)
    color, width = line_color(line.mass_kg, theme), line_width(line.mass_kg, theme)
    return {
        "type": "scatter",
        "mode": "lines+markers" if line.other else "lines",
        "name": escape(line.label, quote=False),
        "meta": line.key,
        "x": np.round(line.time_ms[keep], 2).tolist(),
        "y": np.round(line.value[keep], places).tolist(),
        "line": {
            "color": color,
            "width": width,
            "dash": REFERENCE_DASH if line.reference else "solid",
            "simplify": False,  # Plotly's thinning of points shows as corners in thick lines
        },
        "hovertemplate": f"%{{y:.{places - 1}f}} {unit}",
    } | (rings(color, width, theme) if line.other else {})


def rings(color: str, width: float, theme: Theme) -> dict[str, Any]:
    """What marks a line as the second thrower's, whatever its width and darkness: a few rings on it.

    Parameters
    ----------
    color : str
    width : float
        Of the line (px).
    theme : Theme

    Returns
    -------
    dict
        A trace's ``marker``.
    """
    ring = {"color": color, "width": max(1.5, 0.6 * width)}
    return {"marker": {"size": width + RING_PX, "maxdisplayed": RINGS, "color": theme.paper, "line": ring}}


def _layout(
    theme: Theme, narrow: bool, x_range: tuple[float, float], y_range: tuple[float, float], align: str = "release"
) -> dict[str, Any]:
    size = figure_px(theme, "xs")
    scale = theme.root_px / THEMES["light"].root_px
    margin = {"l": 44 * scale, "r": 8, "t": 44 * scale, "b": 46 * scale}
    return {
        "template": template(theme),
        "height": round((380 if narrow else 470) * scale),
        "margin": margin,
        "dragmode": False if narrow else "zoom",  # a finger that scrolls the page shall not zoom the figure
        "xaxis": {
            "range": list(x_range),
            "title": {"text": f"ms before (−) and after {ALIGNED[align]}", "standoff": 8},
            "dtick": tick_step(x_range[1] - x_range[0], narrow),
            "tick0": 0,
            "showgrid": False,
            "ticks": "outside",
            "hoverformat": ".0f",
            "ticksuffix": "",
            "unifiedhovertitle": {"text": "%{x:.0f} ms"},
        },
        "yaxis": {
            "range": list(y_range),
            "fixedrange": True,  # the words on top stand at values; zooming is for time
            "nticks": 7,
            "zeroline": True,
            "zerolinewidth": 1,
            "zerolinecolor": theme.edge,
        },
        "font": {"size": size if narrow else figure_px(theme, "s")},
    }


def tick_step(span_ms: float, narrow: bool) -> float:
    """Choose the step of the time axis: 50 ms for a usual throw, more for one that takes seconds.

    Parameters
    ----------
    span_ms : float
        Length of the axis (ms).
    narrow : bool
        Whether there is room for few ticks only.

    Returns
    -------
    float
        Of 50, 100, 200, 500, ... the least that gives no more ticks than there is room for.
    """
    step = 50.0
    for factor in itertools.cycle((2.0, 2.0, 2.5)):
        if span_ms / step <= (7 if narrow else 11):
            break
        step *= factor
    return step


def _shapes(
    uprights: Sequence[float], levels: Sequence[float], ticks: Sequence[float], layout: dict[str, Any]
) -> list[dict[str, Any]]:
    """The shade after release (the last upright), the lines of events and levels, and the ticks at the foot."""
    (start, end), (bottom, top) = layout["xaxis"]["range"], layout["yaxis"]["range"]
    foot = bottom + 0.03 * (top - bottom)
    across = [(x, bottom, x, top) for x in uprights] + [(start, y, end, y) for y in levels]
    return [
        {
            "type": "rect",
            "layer": "below",
            "line": {"width": 0},
            "x0": uprights[-1],
            "x1": end,
            "y0": bottom,
            "y1": top,
        },
        _path(across, layer="below"),
        _path([(x, bottom, x, foot) for x in ticks], layer="above") | {"line": {"width": 2}},
    ]


def _path(segments: Sequence[tuple[float, float, float, float]], layer: str) -> dict[str, Any]:
    """Straight lines from (x0, y0) to (x1, y1), all in one shape."""
    path = "".join(f"M{x0:.7g},{y0:.7g}L{x1:.7g},{y1:.7g}" for x0, y0, x1, y1 in segments)
    return {"type": "path", "layer": layer, "path": path or "M0,0", "fillcolor": "rgba(0,0,0,0)"}
