"""Where the labels of the map's lines stand: on their line, clear of one another and of what is marked on the map.

All in pixels of the plotting area, x to the right and y down.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

STEP_PX = 6.0  # between the places on a line that are tried
AIR_PX = 5.0  # between two labels
COVERED_COST = 3.0  # how many pixels off the wanted column one covered point of what is marked is worth
COVERED_LINE_COST = 0.6  # the same for a point of another line
DENSE_PX = 4.0  # between the points of a line that are counted


@dataclass(frozen=True)
class OnLine:
    """A line and the size of its label (px); `path` is (N, 2), without NaN."""

    path: Array
    width: float
    height: float


def place_labels(
    lines: Sequence[OnLine], marked: Sequence[Array], area: tuple[float, float], wanted_x: float
) -> list[tuple[float, float] | None]:
    """Find a place on each line for its label.

    Parameters
    ----------
    lines : sequence of OnLine
        The most important first: it chooses first.
    marked : sequence of ndarray (N, 2)
        Lines and points that labels shall not cover.
    area : (float, float)
        Width and height of the plotting area (px).
    wanted_x : float
        Where labels would like to stand (px).

    Returns
    -------
    list of (float, float) or None
        Middle of each label; None where there is no room on the line.
    """
    dense = [_dense(line.path) for line in lines]
    obstacles = np.concatenate([np.empty((0, 2)), *(_dense(points) for points in marked)])
    placed: list[tuple[float, float, float, float]] = []
    found: list[tuple[float, float] | None] = []
    for i, line in enumerate(lines):
        others = np.concatenate([np.empty((0, 2)), *(path for j, path in enumerate(dense) if j != i)])
        best, least = None, np.inf
        for x, y in _places(dense[i]):
            box = (x, y, line.width / 2.0, line.height / 2.0)
            if not _inside(box, area) or any(_touch(box, other) for other in placed):
                continue
            cost = abs(x - wanted_x) + COVERED_COST * _covered(box, obstacles) * DENSE_PX
            cost += COVERED_LINE_COST * _covered(box, others) * DENSE_PX
            if cost < least:
                best, least = (x, y), cost
        found.append(best)
        if best is not None:
            placed.append((*best, line.width / 2.0, line.height / 2.0))
    return found


def _places(path: Array) -> list[tuple[float, float]]:
    every = max(1, round(STEP_PX / DENSE_PX))
    return [(float(x), float(y)) for x, y in path[::every]]


def _inside(box: tuple[float, float, float, float], area: tuple[float, float]) -> bool:
    x, y, half_width, half_height = box
    return half_width <= x <= area[0] - half_width and half_height <= y <= area[1] - half_height


def _touch(box: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    apart_x, apart_y = abs(box[0] - other[0]), abs(box[1] - other[1])
    return apart_x < box[2] + other[2] + AIR_PX and apart_y < box[3] + other[3] + AIR_PX


def _covered(box: tuple[float, float, float, float], points: Array) -> int:
    x, y, half_width, half_height = box
    return int(((np.abs(points[:, 0] - x) <= half_width) & (np.abs(points[:, 1] - y) <= half_height)).sum())


def _dense(path: Array) -> Array:
    """Fill a line with points evenly apart; a single point stays."""
    if len(path) < 2:
        return path
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    steps = np.arange(0.0, length[-1], DENSE_PX)
    return np.column_stack([np.interp(steps, length, path[:, 0]), np.interp(steps, length, path[:, 1])])
