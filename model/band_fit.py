"""From the solves to the band: how far a readout's ratio between two throws of an athlete may lie from the clock law.

For each readout of each reading, over the sensible solves of the reference thrower by the recipe up to 470 g and
|y| < 0.5, least squares give

    D = x (a0 + a1 alpha) + y (b0 + b1 (1 - beta)) - g tau y

g is d ln / d ln T at fixed speed, from the solves with other durations (duration goes as v^-(1 + tau)). Of a person it
is not known what is tolerated or how much of the adaptation to a ball's mass is made. What is taken (judgement, but for
beta, which the effort studies tell, so that all of that adaptation counts as made):

    share ~ U(0, 1) of the part in x,   alpha ~ N(0.8, 0.45),   1 - beta ~ N(0.1, 0.2),   tau ~ N(0, 0.4)

The band widens and does not shift: the law's mean is taken off, and its size counts as spread. So the motion's part of
S is root mean square about zero,

    Sx2 = E[share2] E[(a0 + a1 alpha)2] + rest_x2,    Sy2 = E[(b0 + b1 (1 - beta))2] + g2 E[tau2] + rest_y2

where rest is how far the twelve other recipes' and the two other bodies' slopes at the mean tolerances lie from these,
root mean square. Those who adapt fully are the hardest to cover: Sx is no less than it takes for a normal band of 90 %
to hold 85 % of them. What S has beyond the factors' own variance and the rest goes along the mean adaptation, with the
sign it has for each readout, so that peak and width go apart where the mechanics say so.
"""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from model.band_table import (
    ALPHA_MEAN,
    ALPHA_SD,
    KEYS,
    LACK_MEAN,
    LACK_SD,
    SHARE_SQUARE,
    SOLVED_MASS_KG,
    SOLVED_Y,
    TAU_SD,
    Key,
    Spread,
)
from model.grid_table import Row, differences
from model.motion_grid import PREDICTED, recipes

Array = NDArray[np.float64]

FULLY_ADAPTED = 0.85  # of those who adapt fully, the least that the band of 90 % holds
NINETY = 1.6448536269514722  # half width of a normal band of 90 %
SOLVED_ENOUGH = 0.9  # a readout that fewer sensible solves have is not fitted
ROUND = 1e-6  # masses and durations that differ by less are one


def in_reach(row: Row) -> bool:
    """Whether a solve is sensible and lies where D is close to linear."""
    low, high = SOLVED_MASS_KG
    return row.sensible and low - ROUND <= row.task.mass_kg <= high + ROUND and abs(row.task.y) <= SOLVED_Y


def fit_band(rows: Iterable[Row]) -> dict[Key, Spread]:
    """Fit the band to a grid; rows that are held out are not looked at.

    Returns
    -------
    dict of (str, str) to Spread
        For each of `grid_table.KEYS`.
    """
    found = [(row, d) for row, d in differences(rows) if not row.task.held_out and in_reach(row)]
    plain = [(row, d) for row, d in found if abs(row.task.duration - 1.0) < ROUND]

    def of(body: str, recipe: str) -> list[tuple[Row, Array]]:
        return [(row, d) for row, d in plain if (row.task.body, row.task.recipe) == (body, recipe)]

    slopes, misfit, enough = _law(of("man", "recipe"))
    means = [_at_means(_law(of("man", name))[0]) for name in list(recipes())[1:]]
    bodies = [_at_means(_law(of(body, "recipe"))[0]) for body in ("woman", "boy")]
    at_mean = _at_means(slopes)
    rest = np.sqrt(sum(_mean_square(np.array(some) - at_mean) for some in (means, bodies)))  # (2, K)
    by_duration = _by_duration(found)
    size_x = _size_x(at_mean[0], slopes[1] * ALPHA_SD, rest[0])
    size_y = np.sqrt(at_mean[1] ** 2 + (slopes[3] * LACK_SD) ** 2 + (by_duration * TAU_SD) ** 2 + rest[1] ** 2)
    columns = np.array([*slopes, by_duration, *rest, size_x, size_y, misfit])
    columns[:, ~(enough & np.isfinite(columns).all(axis=0))] = np.nan
    solves = len(of("man", "recipe"))
    made = {}
    for k, key in enumerate(KEYS):
        a0, a1, b0, b1, g, rest_x, rest_y, x, y, apart = columns[:, k].tolist()
        made[key] = Spread(a0, a1, b0, b1, g, rest_x, rest_y, x, y, apart, 0 if np.isnan(x) else solves)
    return made


def _law(rows: Sequence[tuple[Row, Array]]) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Least squares of D (slopes (4, K)), its misfit, and whether enough solves have the readout."""
    tasks = [row.task for row, _ in rows]
    design = np.array([(t.x, t.x * t.alpha, t.y, t.y * (1.0 - t.beta)) for t in tasks])
    d = np.array([d for _, d in rows])
    there = np.isfinite(d)
    enough = there.mean(axis=0) >= SOLVED_ENOUGH
    slopes, misfit = np.full((4, d.shape[1]), np.nan), np.full(d.shape[1], np.nan)
    for k in np.flatnonzero(enough):
        kept = there[:, k]
        slopes[:, k] = np.linalg.lstsq(design[kept], d[kept, k], rcond=None)[0]
        misfit[k] = np.sqrt(np.mean((d[kept, k] - design[kept] @ slopes[:, k]) ** 2))
    return slopes, misfit, enough


def _at_means(slopes: Array) -> Array:
    """Slopes in x and y at the mean tolerances (2, K)."""
    a0, a1, b0, b1 = slopes
    return np.stack((a0 + a1 * ALPHA_MEAN, b0 + b1 * LACK_MEAN))


def _mean_square(apart: Array) -> Array:
    """Mean square over the first axis of those that are numbers."""
    there = np.isfinite(apart)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(np.square(np.where(there, apart, 0.0)).sum(axis=0) / there.sum(axis=0))


def _by_duration(found: Sequence[tuple[Row, Array]]) -> Array:
    """What ln of each readout gains with ln T at fixed speed (K,): mean over solves that differ in duration alone."""
    usual = {
        _speed_and_ball(row): d
        for row, d in found
        if abs(row.task.duration - 1.0) < ROUND
        and (row.task.alpha, row.task.beta) == PREDICTED
        and (row.task.body, row.task.recipe) == ("man", "recipe")
    }
    nothing = np.zeros(len(KEYS))  # the own throw is what D is told from
    slopes = [
        (d - usual.get(_speed_and_ball(row), nothing)) / np.log(row.task.duration)
        for row, d in found
        if abs(row.task.duration - 1.0) >= ROUND
    ]
    return np.asarray(np.mean(slopes, axis=0))


def _speed_and_ball(row: Row) -> tuple[float, float]:
    return round(row.task.mass_kg, 5), round(row.task.speed_m_s, 4)


def _size_x(mean: Array, sd: Array, rest: Array) -> Array:
    """S in x: the root mean square with the share drawn, and no less than those who adapt fully need."""
    drawn = np.sqrt(SHARE_SQUARE * (mean**2 + sd**2) + rest**2)
    wide = np.hypot(sd, rest)
    low, high = np.zeros_like(mean), np.abs(mean) + 10.0 * wide
    for _ in range(60):  # the half width that holds the share of |N(mean, wide)|, halving
        middle = 0.5 * (low + high)
        with np.errstate(divide="ignore", invalid="ignore"):
            inside = ndtr((middle - mean) / wide) - ndtr((-middle - mean) / wide)
        low, high = np.where(inside < FULLY_ADAPTED, middle, low), np.where(inside < FULLY_ADAPTED, high, middle)
    return np.maximum(drawn, 0.5 * (low + high) / NINETY)
