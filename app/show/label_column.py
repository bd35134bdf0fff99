"""Where the labels of the curves stand: in one column beside the peaks, apart from one another and clear of the curves.

All in pixels of the plotting area, x to the right and y down.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

CLEAR_PX = 16.0  # between a peak and the nearest end of a label
BESIDE_PX = 8.0  # a curve nearer than this to the end of a label, half its own width counted, seems to touch it
STEP_PX = 12.0  # between the columns that are tried
FAR_COST = 0.02  # how many covered pixels of curve one pixel of distance is worth
DENSE_PX = 2.0  # between the points of a curve that are counted


@dataclass(frozen=True)
class Column:
    """Where the labels stand.

    Attributes
    ----------
    x : float
        The end of the labels that faces the peaks (px).
    right : bool
        Whether the column is to the right of the peaks.
    y : tuple of float
        The middle of each label (px), in the order of the anchors.
    """

    x: float
    right: bool
    y: tuple[float, ...]


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> tuple[float, ...]:
    """Move positions apart as little as it takes, keeping their order.

    Neighbours that are too near form a group that is laid out evenly around the mean of its wanted places; groups that
    touch are joined.

    Parameters
    ----------
    wanted : sequence of float
        Where each would like to be.
    gap : float
        Least distance between two, above 0.
    low, high : float
        Bounds. If all do not fit between them, the gap is made smaller.

    Returns
    -------
    tuple of float
        A position for each, in the order given.
    """
    if not wanted:
        return ()
    if len(wanted) > 1:
        gap = min(gap, (high - low) / (len(wanted) - 1))
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    groups: list[tuple[float, int]] = []  # first position and number of members
    for i in order:
        first, count = min(max(wanted[i], low), high), 1
        while groups and groups[-1][0] + gap * groups[-1][1] > first:
            before, members = groups.pop()
            total = members * before + count * (first - gap * members)
            count += members
            first = min(max(total / count, low), high - gap * (count - 1))
        groups.append((first, count))
    places = [first + gap * member for first, count in groups for member in range(count)]
    result = [0.0] * len(wanted)
    for i, place in zip(order, places, strict=True):
        result[i] = place
    return tuple(result)


def find_column(
    anchors: Sequence[tuple[float, float]],
    paths: Sequence[Array],
    label_width: float,
    label_height: float,
    area: tuple[float, float],
) -> Column:
    """Find the column whose labels cover the least of the curves and are not far from the peaks.

    Parameters
    ----------
    anchors : sequence of (float, float)
        The point each label belongs to, at least one (px).
    paths : sequence of ndarray (N, 2)
        The curves, as points (px).
    label_width, label_height : float
        Size of the longest label (px).
    area : (float, float)
        Width and height of the plotting area (px).

    Returns
    -------
    Column
    """
    width, height = area
    y = spread([anchor[1] for anchor in anchors], label_height, label_height / 2, height - label_height / 2)
    left_of = min(anchor[0] for anchor in anchors) - CLEAR_PX
    right_of = max(anchor[0] for anchor in anchors) + CLEAR_PX
    columns = [Column(x, True, y) for x in np.arange(right_of, width - label_width, STEP_PX)]
    columns += [Column(x, False, y) for x in np.arange(left_of, label_width, -STEP_PX)]
    if not columns:
        # Nowhere is there room for a whole label: the wider side, and the label runs over the edge.
        return Column(right_of, True, y) if width - right_of >= left_of else Column(left_of, False, y)
    points = np.concatenate([_dense(path) for path in paths])
    heights = np.asarray(y)

    def far(column: Column) -> float:
        return FAR_COST * (column.x - right_of if column.right else left_of - column.x)

    def covered(column: Column) -> float:
        start = column.x if column.right else column.x - label_width
        beside = (points[:, 0] >= start - BESIDE_PX) & (points[:, 0] <= start + label_width + BESIDE_PX)
        return float((np.abs(points[beside, 1][:, None] - heights) <= label_height / 2).sum())

    best, least = columns[0], np.inf
    for column in sorted(columns, key=far):
        if far(column) >= least:
            break  # all that follow are farther still
        cost = covered(column) + far(column)
        if cost < least:
            best, least = column, cost
    return best


def _dense(path: Array) -> Array:
    """Fill a line with points evenly apart, so that steep parts weigh as much as flat ones."""
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    steps = np.arange(0.0, length[-1], DENSE_PX)
    return np.column_stack([np.interp(steps, length, path[:, 0]), np.interp(steps, length, path[:, 1])])
