"""Where to start: the region of ball and share of full speed in which every limit is kept with a stated certainty.

On the path, a ball's peaks and rise rate rise with its speed and its time loaded falls. So each limit is met at one
speed, and for each draw of what is not known (full speed with that ball, reference throw) at one share of full speed. A
limit is kept with certainty c up to the share below which no more than 1 - c of these lie: each limit by itself. Area,
and for some arms the deceleration torque, fall before they rise: such a limit has a second edge, from which on it is
kept. The region of a ball is what lies between the edges of all limits.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.ball import BALL_LIMITS
from model.ceilings import Ceilings
from model.checks import Limit, check_number
from model.interval import LEVEL, check_numbers
from model.limit_draws import Field
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

SLOWEST, FULL = 0.05, 1.0  # shares looked at, as far as the slowest accepted throw allows
CERTAINTY_LIMIT = Limit(0.5, 0.99, "")


@dataclass(frozen=True)
class Region:
    """Where every limit is kept, over balls of one diameter; arrays (M,).

    Attributes
    ----------
    mass_kg : ndarray
        Of each ball (kg).
    alone : dict of str to (ndarray, ndarray)
        Least and greatest share that each limit allows by itself, by its key; 0 and infinity for no edge.
    least, most : ndarray
        Least and greatest share; nothing fits where the least is above the greatest.
    least_by, most_by : tuple of str
        What sets each: a key of `BOUNDS`, 'slowest' (the slowest share looked at) or 'full'.
    full_speed_m_s : ndarray
        Best estimate of full speed with each ball (m/s).
    certainty : float
        With which each limit, by itself, is kept.
    floor : ndarray
        The slowest share looked at.
    """

    mass_kg: Array
    alone: dict[str, tuple[Array, Array]]
    least: Array
    most: Array
    least_by: tuple[str, ...]
    most_by: tuple[str, ...]
    full_speed_m_s: Array
    certainty: float
    floor: Array

    @property
    def fits(self) -> NDArray[np.bool_]:
        """Where there is any share that keeps every limit."""
        return self.least <= self.most

    @property
    def polygons(self) -> tuple[tuple[Array, Array], ...]:
        """Closed outlines, (mass_kg, share), one for each run of balls that fit."""
        runs = np.flatnonzero(np.diff(np.concatenate(([0], self.fits.astype(int), [0]))))
        found = []
        for start, end in zip(runs[::2], runs[1::2], strict=True):
            run = slice(start, end)
            there, low, high = self.mass_kg[run], self.least[run], self.most[run]
            mass = np.concatenate((there, there[::-1], there[:1]))
            found.append((mass, np.concatenate((low, high[::-1], low[:1]))))
        return tuple(found)


def region(
    field: Field, ceilings: Ceilings, mass_kg: ArrayLike, *, diameter_m: float | None = None, certainty: float = LEVEL
) -> Region:
    """Find where every limit is kept.

    Parameters
    ----------
    mass_kg : array_like (M,)
        Ball masses (kg): a grid for drawing, or those of a rack.
    diameter_m : float, optional
        Of all of them (m); the own ball's unless given.
    certainty : float
        With which each limit, by itself, is kept; 0.5 to 0.99.

    Raises
    ------
    InputError
        If a mass or the certainty is not accepted.
    """
    sure = check_number("certainty", certainty, CERTAINTY_LIMIT)
    mass = check_numbers("ball_mass_kg", np.atleast_1d(mass_kg), BALL_LIMITS["mass_kg"])
    diameter = field.thrower.own_ball.diameter_m if diameter_m is None else diameter_m
    alone = {bound.key: field.range_of(bound, amount, mass, diameter, sure) for bound, amount in ceilings.given()}
    full = np.asarray(field.thrower.profile.mean_speed(mass).estimate)
    floor = np.maximum(SLOWEST, SPEED_LIMIT.low / full)
    most, most_by = _tightest({"full": np.full(mass.shape, FULL)} | {key: one[1] for key, one in alone.items()}, -1.0)
    least, least_by = _tightest({"slowest": floor} | {key: one[0] for key, one in alone.items()}, 1.0)
    return Region(mass, alone, least, most, least_by, most_by, full, sure, floor)


def _tightest(edges: dict[str, Array], side: float) -> tuple[Array, tuple[str, ...]]:
    names, stacked = list(edges), np.stack(list(edges.values()))
    which = (side * stacked).argmax(axis=0)
    return np.take_along_axis(stacked, which[None], axis=0)[0], tuple(names[i] for i in which)
