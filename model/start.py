"""Where to start: the region of ball and share of full speed in which every limit is kept with a stated certainty.

On the path, a ball's peaks and rise rate rise with its speed and its time loaded falls. So each limit is met at one
speed, and for each draw of what is not known (full speed with that ball, reference throw) at one share of full speed. A
limit is kept with certainty c up to the share below which no more than 1 - c of these lie: each limit by itself. Area,
and for some arms the deceleration torque, fall before they rise: such a limit has a second edge, from which on it is
kept. The region of a ball is what lies between the edges of all limits.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import BarycentricInterpolator, CubicSpline

from model.ball import BALL_LIMITS, Ball
from model.ceilings import Amount, Bound, Ceilings, Thrower
from model.checks import Limit, check_number
from model.identity import PathLoads
from model.interval import LEVEL, check_numbers
from model.limit_speed import limit_speeds
from model.quantity import quantity_at
from model.speed_draws import draws_of
from model.throw import SPEED_LIMIT, path_loads

Array = NDArray[np.float64]

SLOWEST, FULL = 0.05, 1.0  # shares looked at, as far as the slowest accepted throw allows
DRAWS_LOG2 = 12  # 4 096 draws: an edge's certainty to a thousandth or so; the edge itself is that of one draw, exact
NODES = 9  # Chebyshev points over the draws' speeds, in logarithms: there all is nearly straight
STRAIGHT = 41  # equal steps with straight lines between them, where a limit has a bend
DENSE = 65  # equal steps where the speeds may spread over a factor of several, or bend
NO_RANGE = 1e-12  # of ln speed
ROUNDING = 1e-9
LOG_ENDS = (float(np.log(SPEED_LIMIT.low)), float(np.log(SPEED_LIMIT.high)))
CERTAINTY_LIMIT = Limit(0.5, 0.99, "")


@dataclass(frozen=True)
class Field:
    """All that is drawn of a thrower, and how limits are put to it.

    Attributes
    ----------
    thrower : Thrower
    log_own, p, log_reference : ndarray (N,)
        Draws of own-ball speed (ln m/s), exponent, and the reference throw's speed (ln m/s).
    """

    thrower: Thrower
    log_own: Array
    p: Array
    log_reference: Array

    @property
    def middle_reference(self) -> Array:
        """Ln of the middle of what the reference throw's speed (m/s) may be, as one draw (1,)."""
        return np.array([np.median(self.log_reference)])

    def log_full(self, mass_kg: float) -> Array:
        """Draws of ln of full speed with a ball.

        Parameters
        ----------
        mass_kg : float

        Returns
        -------
        ndarray (N,)
        """
        return np.asarray(self.log_own - self.p * self.thrower.profile.x(mass_kg))

    def limits_at(self, bound: Bound, amount: Amount, log_reference: Array) -> Array:
        """A limit in the quantity's own unit, for reference throws of given speeds.

        Parameters
        ----------
        bound : Bound
        amount : Amount
        log_reference : ndarray (K,)
            ln of the speed (m/s).

        Returns
        -------
        ndarray (K,)
        """
        if amount.absolute:
            return np.full(log_reference.shape, amount.value)
        if bound.quantity is None:
            return amount.value * np.exp(log_reference)
        own = self.thrower.own_ball
        loads = path_loads(self.thrower.person, own.diameter_m)
        speed = np.clip(np.exp(log_reference), SPEED_LIMIT.low, SPEED_LIMIT.high)
        return amount.value * quantity_at(loads, bound.quantity, own.mass_kg, speed)

    def recounted(self, bound: Bound, amount: Amount) -> Amount:
        """Count a limit the other way: a share of the reference throw's as an absolute amount, or back.

        Parameters
        ----------
        bound : Bound
        amount : Amount

        Returns
        -------
        Amount
            At the middle of what the reference throw's speed may be.
        """
        whole = float(self.limits_at(bound, Amount(1.0), self.middle_reference)[0])
        return Amount(amount.value / whole) if amount.absolute else Amount(amount.value * whole, absolute=True)

    def log_limit_speed(
        self, bound: Bound, amount: Amount, loads: PathLoads, mass_kg: Array, log_reference: Array, slow: bool = False
    ) -> Array:
        """Find ln of the speed at which balls meet a limit.

        Parameters
        ----------
        bound : Bound
        amount : Amount
        loads : PathLoads
        mass_kg : ndarray (M,)
        log_reference : ndarray (K,) or (M, K)
            ln of the reference throw's speed (m/s).
        slow : bool
            Whether the edge is wanted from which a limit that turns is kept.

        Returns
        -------
        ndarray (M, K)
        """
        limit = self.limits_at(bound, amount, log_reference)
        limit = np.broadcast_to(limit, (mass_kg.size, limit.shape[-1]))
        if bound.quantity is None:
            return np.log(limit)
        return np.log(limit_speeds(loads, bound.quantity, mass_kg[:, None], limit, slow=slow))

    def range_of(
        self, bound: Bound, amount: Amount, mass_kg: Array, diameter_m: float, certainty: float
    ) -> tuple[Array, Array]:
        """The shares of full speed between which one limit by itself is kept with a certainty.

        Parameters
        ----------
        bound : Bound
        amount : Amount
        mass_kg : ndarray (M,)
            Ball mass (kg).
        diameter_m : float
        certainty : float

        Returns
        -------
        least, most : ndarray (M,)
            0 and infinity where the limit sets no such edge. A limit that no share keeps has a least above its most.
        """
        loads = path_loads(self.thrower.person, diameter_m)
        full = np.stack([self.log_full(mass) for mass in mass_kg])

        def edge(slow: bool, chosen: NDArray[np.int_]) -> Array:
            # the draw that the edge belongs to is solved once more, not read off the curve through the nodes
            reference = self.log_reference[chosen][:, None]
            exact = self.log_limit_speed(bound, amount, loads, mass_kg, reference, slow)[:, 0]
            return np.exp(exact - full[np.arange(mass_kg.size), chosen])

        if bound.turns:
            slow, fast = (self._log_speeds(bound, amount, loads, mass_kg, slow) - full for slow in (True, False))
            picked = [_kept_run(low, high, certainty) for low, high in zip(slow, fast, strict=True)]
            low, high = (np.array(part) for part in zip(*picked, strict=True))
            least = edge(True, low)
            # in the slowest accepted throw it is kept: no edge
            at_the_end = np.log(least) + full[np.arange(mass_kg.size), low] <= LOG_ENDS[0] + NO_RANGE
            return np.where(at_the_end, 0.0, least), edge(False, high)
        log_share = self._log_speeds(bound, amount, loads, mass_kg) - full
        rank = quantile_rank(1.0 - certainty if bound.upper_edge else certainty, self.p.size, bound.upper_edge)
        found = edge(False, np.argpartition(log_share, rank, axis=1)[:, rank])
        if bound.upper_edge:
            return np.zeros(mass_kg.shape), found
        return found, np.full(mass_kg.shape, np.inf)

    def _log_speeds(self, bound: Bound, amount: Amount, loads: PathLoads, mass_kg: Array, slow: bool = False) -> Array:
        """Ln of the speed at a limit's edge in every draw (M, N): solved at some reference speeds."""
        nodes = _nodes(self.log_reference) if not amount.absolute else self.log_reference[:1]
        at_nodes = self.log_limit_speed(bound, amount, loads, mass_kg, nodes, slow)
        if nodes.size == 1:
            return np.repeat(at_nodes, self.p.size, axis=1)
        if bound.turns or _at_an_end(at_nodes):
            nodes = np.linspace(nodes[0], nodes[-1], STRAIGHT)
            at_nodes = self.log_limit_speed(bound, amount, loads, mass_kg, nodes, slow)
            return np.stack([np.interp(self.log_reference, nodes, row) for row in at_nodes])
        return np.asarray(BarycentricInterpolator(nodes, at_nodes, axis=1)(self.log_reference))

    def held(self, bound: Bound, amount: Amount, ball: Ball, share: float) -> Array:
        """What a throw comes to, as `amount` counts it, draw by draw.

        Parameters
        ----------
        bound : Bound
        amount : Amount
            Only whether it is absolute matters.
        ball : Ball
        share : float
            Of full speed with the ball.

        Returns
        -------
        ndarray (N,)
            In the quantity's unit, or as a share of the reference throw's.
        """
        logs = self.log_full(ball.mass_kg) + np.log(share)
        quantity, one = bound.quantity, replace(amount, value=1.0)

        def log_value(log_speed: Array) -> Array:
            return np.log(quantity_at(loads, quantity, ball.mass_kg, np.exp(log_speed))) if quantity else log_speed

        def log_reference_value(log_speed: Array) -> Array:
            return np.log(self.limits_at(bound, one, log_speed))

        loads = path_loads(self.thrower.person, ball.diameter_m)
        if quantity is not None:
            logs = _splined(log_value, logs)
        return np.exp(logs if amount.absolute else logs - _splined(log_reference_value, self.log_reference))


def field_of(thrower: Thrower) -> Field:
    """Draw what is not known of a thrower.

    Parameters
    ----------
    thrower : Thrower

    Returns
    -------
    Field

    Raises
    ------
    InputError
        If the profile knows no speed.
    """
    drawn = draws_of(thrower.profile, DRAWS_LOG2)
    reference = thrower.reference
    centre = drawn.log_own if reference.speed_m_s is None else np.full(drawn.p.size, np.log(reference.speed_m_s))
    return Field(thrower, drawn.log_own, drawn.p, centre + reference.doubt * drawn.deviate)


def quantile_rank(probability: float, count: int, below: bool) -> int:
    """Place, among sorted draws, of an edge that no more than a share of them lies beyond.

    Parameters
    ----------
    probability : float
        Share of draws below the edge.
    count : int
        Number of draws.
    below : bool
        Whether no more than `probability` may lie strictly below it (an upper edge); else no less at or below it.

    Returns
    -------
    int
    """
    place = int(probability * count + ROUNDING) if below else int(np.ceil(probability * count - ROUNDING)) - 1
    return min(max(place, 0), count - 1)


def _kept_run(low: Array, high: Array, certainty: float) -> tuple[int, int]:
    """The draws whose edges bound the fastest run of shares in which enough draws keep a limit.

    Parameters
    ----------
    low, high : ndarray (N,)
        Ends of the range that keeps it in each draw (ln share); the low one is above the high where none does.
    certainty : float

    Returns
    -------
    int, int
        The draw whose low end is the run's least share, and that whose high end is its most. Where no share is kept in
        enough draws: the highest low end and the lowest high end.
    """
    there = np.flatnonzero(low <= high)
    needed = int(np.ceil(certainty * low.size - ROUNDING))
    if there.size >= needed:
        # at a share kept: the draws that have begun less those that have ended; at one share all begin first
        at = np.concatenate((low[there], high[there]))
        step = np.concatenate((np.ones(there.size, int), -np.ones(there.size, int)))
        order = np.lexsort((-step, at))
        kept = np.cumsum(step[order])
        enough = np.flatnonzero(kept >= needed)
        if enough.size:
            end = int(enough[-1]) + 1
            before = np.flatnonzero(kept[:end] < needed)
            begin = int(before[-1]) + 1 if before.size else 0
            return int(there[order[begin] % there.size]), int(there[order[end] % there.size])
    return int(np.argmax(low)), int(np.argmin(high))


def _nodes(values: Array) -> Array:
    """Chebyshev points over a range, its ends among them; one if there is no range."""
    low, high = float(values.min()), float(values.max())
    if high - low < NO_RANGE:
        return values[:1]
    return 0.5 * (low + high) - 0.5 * (high - low) * np.cos(np.pi * np.arange(NODES) / (NODES - 1))


def _at_an_end(log_speed: Array) -> bool:
    """Whether some speed stands at an end of what is accepted: a bend that no polynomial follows."""
    return bool(np.isin(log_speed, LOG_ENDS).any())


def _splined(exact: Callable[[Array], Array], log_speed: Array) -> Array:
    """A function of ln speed for many speeds, through some; one outside what is accepted counts as its end."""
    inside = np.clip(log_speed, *LOG_ENDS)
    nodes = np.linspace(inside.min(), inside.max(), DENSE)
    if nodes[-1] - nodes[0] < NO_RANGE:
        return np.full(log_speed.shape, exact(nodes[:1])[0])
    # the ends come back from their logarithms a rounding error outside the accepted range
    speeds = np.log(np.clip(np.exp(nodes), SPEED_LIMIT.low * (1.0 + 1e-12), SPEED_LIMIT.high * (1.0 - 1e-12)))
    return np.asarray(CubicSpline(nodes, exact(speeds))(inside))


@dataclass(frozen=True)
class Region:
    """Where every limit is kept, over balls of one diameter; arrays (M,).

    Attributes
    ----------
    mass_kg : ndarray
    alone : dict of str to (ndarray, ndarray)
        Least and greatest share that each limit allows by itself, by its key; 0 and infinity for no edge.
    least, most : ndarray
        Least and greatest share; nothing fits where the least is above the greatest.
    least_by, most_by : tuple of str
        What sets each: a key of `BOUNDS`, 'slowest' (the slowest share looked at) or 'full'.
    full_speed_m_s : ndarray
        Best estimate of full speed with each ball (m/s).
    certainty : float
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
    field : Field
    ceilings : Ceilings
    mass_kg : array_like (M,)
        Ball masses (kg): a grid for drawing, or those of a rack.
    diameter_m : float, optional
        Of all of them (m); the own ball's unless given.
    certainty : float
        With which each limit, by itself, is kept; 0.5 to 0.99.

    Returns
    -------
    Region

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
