"""The words on the figure: at the events, on the level's line, and the trace that holds them all."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.show.curve_labels import LETTER, Line, Window, words_box
from app.show.palette import Theme, figure_px

GAP = "\u00a0"  # between words and what they stand at
DOT_PX = 4.0  # where a label's hair meets its curve
LEAST_APART = 9.5  # sizes of the type between foot contact and maximum external rotation, for both to have words
EMPTY_HAND = ("after release:", "the hand is empty")


@dataclass(frozen=True)
class Level:
    """The level of "time above": a height in the quantity's unit, its words, and those for where there is less room."""

    value: float
    words: str
    short: str


@dataclass(frozen=True)
class Text:
    """Words on the figure: where (ms, value), on which side of that place, and how large (px)."""

    text: str
    x: float
    y: float
    side: str
    size: float


def event_words(
    uprights: tuple[float, float, float], layout: dict[str, Any], unit: str, theme: Theme, across_px: float
) -> list[Text]:
    """Name the unit and the events over the figure, in as many words as there is room for.

    Parameters
    ----------
    uprights : (float, float, float)
        Foot contact, maximum external rotation and release (ms).
    layout : dict
        With the ranges of both axes.
    unit : str
    theme : Theme
    across_px : float
        Width of the plotting area.

    Returns
    -------
    list of Text
    """
    contact, rotation, release = uprights
    (start, end), (bottom, top) = (inside(layout[axis]["range"]) for axis in ("xaxis", "yaxis"))
    size, scale = figure_px(theme, "xs"), across_px / (end - start)
    room = (end - release) * scale > len(EMPTY_HAND[1]) * LETTER * size
    words = [
        Text(unit, start, top, "top left", size),
        Text("foot contact", contact, top, "top right", size),
        Text("maximum external<br>rotation", rotation, top, "top left", size),
        Text("release" if room else "release,<br>no ball", release, top, "top right", size),
    ]
    if (rotation - contact) * scale < LEAST_APART * size:
        del words[1]  # a very slow throw beside a usual one: its own foot contact is far to the left of both
    return [*words, Text("<br>".join(EMPTY_HAND), end, bottom, "top left", size)] if room else words


def level_words(level: Level, lines: Sequence[Line], view: Window, theme: Theme) -> str:
    """Choose the longest words that stand on the level's line, at its left end, clear of every curve.

    Parameters
    ----------
    level : Level
    lines : sequence of Line
    view : Window
    theme : Theme

    Returns
    -------
    str
        Empty where there is no room for any.
    """
    size = figure_px(theme, "xs")
    return next((words for words in (level.words, level.short) if _clear(words, level.value, lines, view, size)), "")


def _clear(words: str, value: float, lines: Sequence[Line], view: Window, size: float) -> bool:
    over = words_box(value, words, view, size)[:-1]  # without the line itself
    right, top, foot = over[:, 0].max(), over[:, 1].min(), over[:, 1].max()
    paths = (view.to_px(line.time_ms, line.value).T for line in lines)
    return not any(np.any((across < right) & (down > top) & (down < foot)) for across, down in paths)


def texts_trace(texts: Sequence[Text], points: Sequence[tuple[float, float]], theme: Theme) -> dict[str, Any]:
    """Make the trace of all words; and, without words, a dot at each point that a label leads to.

    Parameters
    ----------
    texts : sequence of Text
    points : sequence of (float, float)
        Time (ms) and value.
    theme : Theme

    Returns
    -------
    dict
        A trace for Plotly.
    """
    dots = len(points)
    return {
        "type": "scatter",
        "mode": "markers+text",
        "x": [one.x for one in texts] + [x for x, _ in points],
        "y": [one.y for one in texts] + [y for _, y in points],
        "text": [_spaced(one.text) for one in texts] + [""] * dots,
        "textposition": [one.side for one in texts] + ["middle right"] * dots,
        "textfont": {"size": [one.size for one in texts] + [figure_px(theme, "xs")] * dots},
        "marker": {"size": [0.0] * len(texts) + [DOT_PX] * dots, "color": theme.edge, "opacity": 1},
        "hoverinfo": "skip",
        "cliponaxis": False,
    }


def _spaced(text: str) -> str:
    return "<br>".join(f"{GAP}{line}{GAP}" for line in text.split("<br>"))


def inside(limits: Sequence[float]) -> tuple[float, float]:
    """Just inside a range: what lies beyond by a rounding is not drawn."""
    hair = 1e-4 * (limits[1] - limits[0])
    return limits[0] + hair, limits[1] - hair
