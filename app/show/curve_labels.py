"""The labels of the curves, on the curves: at their ends where these stand apart, else in a column beside the peaks."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.show.label_column import find_column, spread

Array = NDArray[np.float64]

LETTER = 0.5  # mean width of a letter, in sizes of the type: of digits, units and the spaces around a label
LINE_HEIGHT = 1.35  # of a label, in sizes of the type
NEAR_PX = 5.0  # a hair this near to a curve seems to belong to it
WORDS_WEIGHT = 4  # words on words cannot be read, words on a curve can
MOST_MOVED = 1.2  # labels at the ends may be moved by this many heights; beyond, the ends stand too close


@dataclass(frozen=True)
class Line:
    """One curve of the figure.

    Attributes
    ----------
    label : str
        What stands on the line.
    mass_kg : float
        Ball mass (kg): width and depth of the line.
    reference : bool
        Whether this is the reference, the one dashed line.
    time_ms, value : ndarray (N,)
        Time before (negative) and after the instant that all throws share (ms), and the quantity in its unit.
    peak : (float, float) or None
        Time (ms) and value of the peak; None where there is none.
    max_external_rotation_ms : float
        Time (ms) of maximum external rotation.
    release_ms : float
        Time (ms) of release: 0 where the curves are laid over one another at release.
    key : str
        The throw's key in the form.
    other : bool
        Whether it is the second thrower's: such a line has rings on it.
    """

    label: str
    mass_kg: float
    reference: bool
    time_ms: Array
    value: Array
    peak: tuple[float, float] | None
    max_external_rotation_ms: float
    release_ms: float = 0.0
    key: str = ""
    other: bool = False


@dataclass(frozen=True)
class Window:
    """The plotting area: its ranges of time (ms) and value, and its width and height in pixels."""

    x: Sequence[float]
    y: Sequence[float]
    size: tuple[float, float]

    def to_px(self, x: Array, y: Array) -> Array:
        """Turn times and values into pixels, x to the right and y down; shape (N, 2)."""
        across = (x - self.x[0]) / (self.x[1] - self.x[0]) * self.size[0]
        down = (self.y[1] - y) / (self.y[1] - self.y[0]) * self.size[1]
        return np.column_stack([across, down])

    def to_ms(self, across: float) -> float:
        """Turn pixels from the left into time (ms)."""
        return self.x[0] + across / self.size[0] * (self.x[1] - self.x[0])

    def to_value(self, down: float) -> float:
        """Turn pixels from the top into a value."""
        return self.y[1] - down / self.size[1] * (self.y[1] - self.y[0])


@dataclass(frozen=True)
class Label:
    """A label and its place.

    Attributes
    ----------
    text : str
    x, y : float
        Time (ms) and value where the end that faces the curve stands, in the middle of its height.
    right : bool
        Whether the text runs to the right from there.
    point : (float, float)
        Time (ms) and value of the point of the curve that a hair leads to.
    """

    text: str
    x: float
    y: float
    right: bool
    point: tuple[float, float]


def name_lines(lines: Sequence[Line]) -> list[tuple[str, Line]]:
    """Give each curve its label; throws with the same label share one, on the first of them.

    Parameters
    ----------
    lines : sequence of Line

    Returns
    -------
    list of (str, Line)
    """
    first: dict[str, Line] = {}
    counts: dict[str, int] = {}
    for line in lines:
        first.setdefault(line.label, line)
        counts[line.label] = counts.get(line.label, 0) + 1
    return [(f"{counts[label]} × {label}" if counts[label] > 1 else label, line) for label, line in first.items()]


def end_labels(
    named: Sequence[tuple[str, Line]], lines: Sequence[Line], view: Window, size: float
) -> tuple[list[Label], float]:
    """Put each label after the end of its curve, and make the time axis longer to hold them.

    Parameters
    ----------
    named : sequence of (str, Line)
    lines : sequence of Line
        The curves that no hair may cross.
    view : Window
    size : float
        Of the type (px).

    Returns
    -------
    list of Label
        None if the ends stand too close or a hair would cross another curve.
    float
        Where the time axis ends then (ms).
    """
    ends = [(float(line.time_ms[-1]), float(line.value[-1])) for _, line in named]
    height = LINE_HEIGHT * size
    wanted = [float(y) for y in view.to_px(*np.array(ends).T)[:, 1]]
    places = spread(wanted, height, height / 2, view.size[1] - height / 2)
    if max(abs(place - y) for place, y in zip(places, wanted, strict=True)) > MOST_MOVED * height:
        return [], view.x[1]
    hairs = [
        (line, np.array([[x, y], [view.size[0], place]]))
        for (_, line), (x, y), place in zip(named, view.to_px(*np.array(ends).T), places, strict=True)
    ]
    if any(_crosses(hair, line, lines, view) for line, hair in hairs):
        return [], view.x[1]
    room = (_longest(named, size) + size) / view.size[0]
    last = view.x[0] + (view.x[1] - view.x[0]) / (1.0 - room)
    return [
        Label(text, view.x[1], view.to_value(place), True, end)
        for (text, _), end, place in zip(named, ends, places, strict=True)
    ], last


def peak_labels(
    named: Sequence[tuple[str, Line]],
    lines: Sequence[Line],
    levels: Sequence[tuple[float, str]],
    view: Window,
    size: float,
) -> list[Label]:
    """Put the labels in a column beside the peaks, each with a hair to its own.

    Parameters
    ----------
    named : sequence of (str, Line)
    lines : sequence of Line
        The curves to keep clear of.
    levels : sequence of (float, str)
        Level lines to keep clear of, and the words at their left end.
    view : Window
    size : float
        Of the type (px).

    Returns
    -------
    list of Label
        None for a curve without a peak.
    """
    peaks = [(text, line.peak) for text, line in named if line.peak is not None]
    if not peaks:
        return []
    anchors = [(float(x), float(y)) for x, y in view.to_px(*np.array([peak for _, peak in peaks]).T)]
    paths = [view.to_px(line.time_ms, line.value) for line in lines]
    released = next((line.release_ms for line in lines if line.reference), lines[0].release_ms)
    paths.append(view.to_px(np.full(2, released), np.asarray(view.y)))  # the line of release is to be left free as well
    paths += [words_box(level, words, view, size) for level, words in levels] * WORDS_WEIGHT
    column = find_column(anchors, paths, _longest(named, size), LINE_HEIGHT * size, view.size)
    at_ms = view.to_ms(column.x)
    return [
        Label(text, at_ms, view.to_value(y), column.right, peak)
        for (text, peak), y in zip(peaks, column.y, strict=True)
    ]


def words_box(level: float, words: str, view: Window, size: float) -> Array:
    """A path over a level line and to and fro over the words on it."""
    left, line = view.to_px(np.array([view.x[0]]), np.array([level]))[0]
    across = np.arange(left, left + len(words) * LETTER * size, 4.0)
    up = np.where(np.arange(across.size) % 2, line - LINE_HEIGHT * size, line)
    return np.vstack([np.column_stack([across, up]), [[view.size[0], line]]])


def _crosses(hair: Array, own: Line, lines: Sequence[Line], view: Window) -> bool:
    """Whether a hair from the end of a curve comes near a curve with another label."""
    across = np.arange(hair[0, 0], hair[1, 0], 2.0)
    down = np.interp(across, hair[:, 0], hair[:, 1])
    for line in lines:
        if line.label == own.label:
            continue
        x, y = view.to_px(line.time_ms, line.value).T
        beside = across <= x[-1]
        above = np.interp(across[beside], x, y) - down[beside]
        if np.any(np.abs(above) < NEAR_PX) or np.any(np.diff(np.sign(above))):
            return True
    return False


def _longest(named: Sequence[tuple[str, Line]], size: float) -> float:
    return max(len(text) for text, _ in named) * LETTER * size
