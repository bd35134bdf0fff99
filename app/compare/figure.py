"""The figure: curves over one time axis, aligned at release, labelled on the line. A plain dict, as Plotly takes it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.compare.line_labels import Line, Window, end_labels, name_lines, peak_labels
from app.palette import THEMES, Theme, figure_px, line_color, line_width, template

GRAPH_CONFIG: dict[str, Any] = {
    "showSendToCloud": False,
    "plotlyServerURL": "",
    "displayModeBar": False,
    "displaylogo": False,
    "responsive": True,
}
"""For every graph: nothing can be sent away."""

REFERENCE_DASH = "9px,6px"
DRAWN_EVERY = 2  # points of the model's time grid; a third of a millisecond is finer than a pixel
PAPER_PX = (690.0, 295.0)  # width and height of the printed figure; a little lower for more than four throws,
LOWER_PX = 15.0  # by this for each, so that their table finds room on the same page

WIDE_PX, NARROW_PX = 700.0, 300.0  # a usual width of the plotting area, for the labels


@dataclass(frozen=True)
class Level:
    """The level of "time above": a height in the quantity's unit, and its words."""

    value: float
    words: str


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
    """

    lines: tuple[Line, ...]
    unit: str
    level: Level | None = None
    at_ends: bool = False


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
    layout["annotations"] = _words(-145.0, -26.0, 40.0, "", theme, narrow)
    layout["shapes"] = _event_lines(-145.0, -26.0, 40.0)
    return {"data": [], "layout": layout}


def figure(shown: Shown, theme: Theme, narrow: bool, revision: str) -> dict[str, Any]:
    """Lay the curves over one another.

    Parameters
    ----------
    shown : Shown
    theme : Theme
    narrow : bool
        Whether the window is narrow: smaller figure, smaller type.
    revision : str
        As long as it stays the same, a chosen zoom is kept.

    Returns
    -------
    dict
        ``data`` and ``layout``.
    """
    layout = _full_layout(shown, theme, narrow)
    layout["uirevision"] = revision
    return {"data": [_trace(line, shown.unit, theme) for line in _drawing_order(shown)], "layout": layout}


def for_paper(shown: Shown) -> dict[str, Any]:
    """What a printed figure differs in from that on the screen.

    Parameters
    ----------
    shown : Shown

    Returns
    -------
    dict
        ``layout``, and ``colors`` and ``widths`` of the traces in the order of `figure`.
    """
    paper, drawn = THEMES["print"], _drawing_order(shown)
    width, height = PAPER_PX[0], PAPER_PX[1] - LOWER_PX * max(0, len(drawn) - 4)
    return {
        "layout": _full_layout(shown, paper, False, height) | {"width": width, "autosize": False},
        "colors": [line_color(line.mass_kg, paper) for line in drawn],
        "widths": [line_width(line.mass_kg, paper) for line in drawn],
    }


def _drawing_order(shown: Shown) -> list[Line]:
    """Heavier first, so that thin lines lie on thick ones; the reference on top."""
    return sorted(shown.lines, key=lambda line: (line.reference, -line.mass_kg))


def _full_layout(shown: Shown, theme: Theme, narrow: bool, height: float | None = None) -> dict[str, Any]:
    lines, level = shown.lines, shown.level
    marked = next((line for line in lines if line.reference), lines[0])
    low = min(0.0, *(float(line.value.min()) for line in lines))
    high = max(0.0, *(float(line.value.max()) for line in lines))
    room = 0.07 * (high - low or 1.0)
    start = min(float(line.time_ms[0]) for line in lines) - 2.0
    end = max(float(line.time_ms[-1]) for line in lines) + 2.0
    layout = _layout(theme, narrow, (start, end), (low - room if low < 0.0 else 0.0, high + room))
    if height is not None:
        layout["height"] = height
    margin = layout["margin"]
    view = Window(
        layout["xaxis"]["range"],
        layout["yaxis"]["range"],
        (NARROW_PX if narrow else WIDE_PX, layout["height"] - margin["t"] - margin["b"]),
    )
    size = figure_px(theme, "xs" if narrow else "s")
    named = name_lines(lines)
    labels, end = end_labels(named, lines, view, size) if shown.at_ends and not narrow else ([], end)
    if not labels:
        said = [(level.value, "" if narrow else level.words)] if level else []
        labels = peak_labels(named, lines, said, view, size)
    layout["xaxis"]["range"] = [start, end]
    contact, rotation = float(marked.time_ms[0]), marked.max_external_rotation_ms
    layout["shapes"] = _event_lines(contact, rotation, end) + _ticks(lines)
    layout["annotations"] = _words(contact, rotation, end, shown.unit, theme, narrow) + labels
    if level:
        layout["shapes"] += [_level_line(level)]
        layout["annotations"] += [] if narrow else [_level_words(level, theme, start)]
    return layout


def _trace(line: Line, unit: str, theme: Theme) -> dict[str, Any]:
    keep = np.unique(np.append(np.arange(0, line.time_ms.size, DRAWN_EVERY), line.time_ms.size - 1))
    places = 1 if unit == "N" else 2
    return {
        "type": "scatter",
        "mode": "lines",
        "name": line.label,
        "x": np.round(line.time_ms[keep], 2).tolist(),
        "y": np.round(line.value[keep], places).tolist(),
        "line": {
            "color": line_color(line.mass_kg, theme),
            "width": line_width(line.mass_kg, theme),
            "dash": REFERENCE_DASH if line.reference else "solid",
            "simplify": False,  # Plotly's thinning of points shows as corners in thick lines
        },
        "hovertemplate": f"%{{y:.{places - 1}f}} {unit}",
    }


def _layout(theme: Theme, narrow: bool, x_range: tuple[float, float], y_range: tuple[float, float]) -> dict[str, Any]:
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
            "title": {"text": "ms before (−) and after release", "standoff": 8},
            "dtick": 50,
            "tick0": 0,
            "showgrid": False,
            "ticks": "outside",
            "hoverformat": ".0f",
            "ticksuffix": "",
            "unifiedhovertitle": {"text": "%{x:.0f} ms"},
        },
        "yaxis": {
            "range": list(y_range),
            "nticks": 7,
            "zeroline": True,
            "zerolinewidth": 1,
            "zerolinecolor": theme.edge,
        },
        "font": {"size": size if narrow else figure_px(theme, "s")},
    }


def _event_lines(contact: float, rotation: float, end: float) -> list[dict[str, Any]]:
    upright = {"type": "line", "yref": "paper", "y0": 0, "y1": 1, "layer": "below"}
    after = {"type": "rect", "yref": "paper", "y0": 0, "y1": 1, "layer": "below", "line": {"width": 0}}
    return [after | {"x0": 0, "x1": end}] + [upright | {"x0": x, "x1": x} for x in (contact, rotation, 0.0)]


def _ticks(lines: Sequence[Line]) -> list[dict[str, Any]]:
    at_foot = {"type": "line", "yref": "paper", "y0": 0, "y1": 0.03, "line": {"width": 2}}
    times = {round(line.max_external_rotation_ms, 1) for line in lines}
    return [at_foot | {"x0": time, "x1": time} for time in sorted(times)]


def _words(contact: float, rotation: float, end: float, unit: str, theme: Theme, narrow: bool) -> list[dict[str, Any]]:
    on_top = {"yref": "paper", "y": 1, "yanchor": "bottom", "font": {"size": figure_px(theme, "xs")}}
    inside = on_top | {"y": 0, "yanchor": "bottom", "xanchor": "right", "align": "right"}
    beside = {"xref": "paper", "x": 0, "xanchor": "right", "xshift": -6}
    return [
        on_top | beside | {"text": unit},
        on_top | {"x": contact, "xanchor": "left", "text": "foot contact", "align": "left"},
        on_top | {"x": rotation, "xanchor": "right", "text": "maximum external<br>rotation", "align": "right"},
        on_top
        | {"x": 0, "xanchor": "left", "text": "release,<br>then no ball" if narrow else "release", "align": "left"},
        *([] if narrow else [inside | {"x": end, "text": "after release:<br>the hand is empty"}]),
    ]


def _level_line(level: Level) -> dict[str, Any]:
    across = {"type": "line", "xref": "paper", "x0": 0, "x1": 1, "layer": "below"}
    return across | {"y0": level.value, "y1": level.value}


def _level_words(level: Level, theme: Theme, start: float) -> dict[str, Any]:
    place = {"x": start, "xanchor": "left", "xshift": 6, "y": level.value, "yanchor": "bottom"}
    return place | {"text": level.words, "font": {"size": figure_px(theme, "xs")}}
