"""Sampled curves, many at once, taken as straight between their samples.

Curves are rows y (R, N) over common, rising places x (N,). Passings of a level, lengths above it and integrals are
exact for the straight pieces; only the highest point is refined, by a parabola.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

SAME_PLACE = 1e-9  # of the whole span: phases are sums of steps, and 0.9999999999999999 is release all the same


def cut(x: Array, low: float, high: float) -> tuple[Array, Callable[[Array], Array]]:
    """Cut curves to a window; where its end falls between two samples, the line between them is cut there.

    Parameters
    ----------
    x : ndarray (N,)
        Rising places.
    low, high : float
        The window, low < high, within x.

    Returns
    -------
    ndarray (M,)
        The places inside the window, its two ends among them.
    function
        Cuts curves (R, N) to (R, M); a view where no line had to be cut.
    """
    slack = SAME_PLACE * (x[-1] - x[0])
    first = int(np.searchsorted(x, low - slack))
    last = int(np.searchsorted(x, high + slack)) - 1

    def between(y: Array, right: int, at: float) -> Array:
        part = (at - x[right - 1]) / (x[right] - x[right - 1])
        return (1.0 - part) * y[:, right - 1 : right] + part * y[:, right : right + 1]

    def cut_rows(y: Array) -> Array:
        pieces = [y[:, first : last + 1]]
        if x[first] - low > slack:
            pieces.insert(0, between(y, first, low))
        if high - x[last] > slack:
            pieces.append(between(y, last + 1, high))
        return pieces[0] if len(pieces) == 1 else np.concatenate(pieces, axis=1)

    return cut_rows(x[None])[0], cut_rows


def highest_point(x: Array, y: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Find the highest point of each row.

    A highest sample with two neighbours is refined by the parabola through the three. With the slopes d1 and d2 of the
    lines on its two sides, h1 and h2 long, the parabola has there the slope d = (d1 h2 + d2 h1) / (h1 + h2) and the
    second derivative 2 k, k = (d2 - d1) / (h1 + h2); its top lies d / (2 |k|) past the sample and d^2 / (4 |k|) above
    it. At a corner, with equal steps, that is more than the curve by an eighth of the larger step down at most.

    Parameters
    ----------
    x : ndarray (N,)
    y : ndarray (R, N)

    Returns
    -------
    height, place : ndarray (R,)
        Of the first one among equals.
    at_edge : ndarray of bool (R,)
        Whether it is the first or the last sample, which is taken as it stands.
    """
    rows = np.arange(len(y))
    top = y.argmax(axis=1)
    height, place = y[rows, top], x[top]
    at_edge = (top == 0) | (top == x.size - 1)
    if x.size > 2:
        i = np.clip(top, 1, x.size - 2)
        h1, h2 = x[i] - x[i - 1], x[i + 1] - x[i]
        d1, d2 = (y[rows, i] - y[rows, i - 1]) / h1, (y[rows, i + 1] - y[rows, i]) / h2
        d, k = (d1 * h2 + d2 * h1) / (h1 + h2), (d2 - d1) / (h1 + h2)
        rounded = ~at_edge & (k < 0.0)
        k = np.where(rounded, k, -1.0)
        height = np.where(rounded, height - d * d / (4.0 * k), height)
        place = np.where(rounded, np.clip(x[i] - d / (2.0 * k), x[i - 1], x[i + 1]), place)
    return height, place, at_edge


@dataclass(frozen=True)
class Crossings:
    """Where rows pass a level, row after row and from left to right.

    Attributes
    ----------
    row, interval : ndarray of int (K,)
        The row of each passing, and the interval (between samples j and j + 1) it falls in.
    fraction, place : ndarray (K,)
        How far along that interval, 0 to 1, and at which x.
    upward : ndarray of bool (K,)
    length_over : ndarray (R,)
        Total length of x over which each row lies above its level.
    """

    row: NDArray[np.intp]
    interval: NDArray[np.intp]
    fraction: Array
    place: Array
    upward: NDArray[np.bool_]
    length_over: Array


def crossings(x: Array, y: Array, levels: Sequence[float | Array]) -> list[Crossings]:
    """Find where rows pass levels; a sample on a level counts as not above it.

    One search finds the intervals in which any of the levels is passed; there are few, and all else is done on those.

    Parameters
    ----------
    x : ndarray (N,)
    y : ndarray (R, N)
    levels : sequence of float or ndarray (R,)
        At most 255 of them; each one for all rows, or one for each row.

    Returns
    -------
    list of Crossings
        For each level.
    """
    overs = [y > (np.reshape(level, (-1, 1)) if np.ndim(level) else level) for level in levels]
    rank = np.zeros(y.shape, dtype=np.uint8)
    for over in overs:
        rank += over.view(np.uint8)
    flat = rank.reshape(-1)
    left = np.flatnonzero(flat[1:] != flat[:-1])
    left = left[left % x.size != x.size - 1]  # not from the end of a row to the start of the next
    return [_passings(x, y, np.asarray(level), over, left) for level, over in zip(levels, overs, strict=True)]


def _passings(x: Array, y: Array, level: Array, over: NDArray[np.bool_], left: NDArray[np.intp]) -> Crossings:
    """Crossings of one level, among intervals given by the flat place of their left sample."""
    flat_over, flat_y = over.reshape(-1), y.reshape(-1)
    left = left[flat_over[left] != flat_over[left + 1]]
    row, j = np.divmod(left, x.size)
    upward, before, after = flat_over[left + 1], flat_y[left], flat_y[left + 1]
    fraction = ((level[row] if level.ndim else level) - before) / (after - before)
    since_start = x[j] - x[0] + fraction * (x[j + 1] - x[j])
    # over from each upward passing to the next downward one, or to the end
    length_over = over[:, -1] * (x[-1] - x[0])
    length_over += np.bincount(row, np.where(upward, -since_start, since_start), minlength=len(y))
    return Crossings(row, j, fraction, x[0] + since_start, upward, length_over)


def rise(low: Crossings, high: Crossings) -> Array:
    """Length of x from the first upward passing of a high level back to the last one of a low level before it.

    Parameters
    ----------
    low, high : Crossings
        Of the same rows.

    Returns
    -------
    ndarray (R,)
        NaN where there is no such pair.
    """
    to = np.full(high.length_over.size, np.inf)
    np.minimum.at(to, high.row[high.upward], high.place[high.upward])
    counts = low.upward & (low.place < to[low.row])
    start = np.full(to.size, np.nan)
    np.fmax.at(start, low.row[counts], low.place[counts])
    return np.where(np.isfinite(to), to, np.nan) - start


def integrals_of_positive(x: Array, y: Array, ground: Crossings, factors: Sequence[Array]) -> list[Array]:
    """Integrals of max(y, 0) max(factor, 0) over x for each row.

    Where y keeps its sign over an interval the integral is linear in y's two ends: one product with weights for all
    rows. The few intervals in which y passes zero are put right one by one.

    Parameters
    ----------
    x : ndarray (N,)
    y : ndarray (R, N)
    ground : Crossings
        Of y with zero.
    factors : sequence of ndarray (N,)
        The other factors, straight between samples too; ones for the plain area.

    Returns
    -------
    list of ndarray (R,)
        For each factor.
    """
    h, positive = np.diff(x), np.maximum(y, 0.0)
    row, j, u = ground.row, ground.interval, ground.fraction
    before, after = y[row, j], y[row, j + 1]
    everywhere = slice(None)
    found = []
    for factor in factors:
        r0, r1 = factor[:-1], factor[1:]
        zero = np.divide(r0, r0 - r1, out=np.zeros_like(h), where=r0 != r1)
        # the part of each interval with a positive factor, as fractions of it; begin = end where there is none
        begin = np.where(r0 < 0.0, np.where(r1 > 0.0, zero, 1.0), 0.0)
        end = np.where(r1 < 0.0, np.where(r0 > 0.0, zero, begin), 1.0)

        left = _product(everywhere, h, r0, r1, 1.0, 0.0, begin, end)
        right = _product(everywhere, h, r0, r1, 0.0, 1.0, begin, end)
        total = positive @ (np.append(left, 0.0) + np.append(0.0, right))

        u0 = np.where(ground.upward, np.maximum(begin[j], u), begin[j])
        u1 = np.maximum(u0, np.where(ground.upward, end[j], np.minimum(end[j], u)))
        counted = positive[row, j] * left[j] + positive[row, j + 1] * right[j]
        total += np.bincount(row, _product(j, h, r0, r1, before, after, u0, u1) - counted, minlength=len(y))
        found.append(np.maximum(total, 0.0))  # a rounding error below nothing is nothing
    return found


def _product(j: Any, h: Array, r0: Array, r1: Array, y0: Any, y1: Any, u0: Any, u1: Any) -> Any:
    """Integral of two lines' product from u0 to u1 of interval j, by Simpson's rule: exact for a parabola."""

    def at(u: Any) -> Any:
        return (y0 + (y1 - y0) * u) * (r0[j] + (r1[j] - r0[j]) * u)

    return h[j] * (u1 - u0) / 6.0 * (at(u0) + 4.0 * at(0.5 * (u0 + u1)) + at(u1))
