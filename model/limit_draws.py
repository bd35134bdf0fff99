"""What is not known of a thrower, as draws; and the shares of full speed at which a limit is kept in enough of them."""

from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import field as attribute

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import BarycentricInterpolator, CubicSpline

from model.ball import Ball
from model.ceilings import Amount, Bound, Thrower
from model.identity import PathLoads
from model.limit_speed import limit_speeds, turning_speeds
from model.quantity import quantity_at
from model.speed_draws import draws_of
from model.throw import SPEED_LIMIT, path_loads

Array = NDArray[np.float64]

DRAWS_LOG2 = 12  # 4 096 draws: an edge's certainty to a thousandth or so; the edge itself is that of one draw, exact
NODES = 9  # Chebyshev points over the draws' speeds, in logarithms: there all is nearly straight
STRAIGHT = 41  # equal steps with straight lines between them, where a limit has a bend
DENSE = 65  # equal steps where the speeds may spread over a factor of several, or bend
MOST_KEPT = 64  # ranges of single limits that a thrower's draws remember
NO_RANGE = 1e-12  # of ln speed
ROUNDING = 1e-9
LOG_ENDS = (float(np.log(SPEED_LIMIT.low)), float(np.log(SPEED_LIMIT.high)))


@dataclass(frozen=True)
class Field:
    """All that is drawn of a thrower, and how limits are put to it.

    Attributes
    ----------
    log_own, p, log_reference : ndarray (N,)
        Draws of own-ball speed (ln m/s), exponent, and the reference throw's speed (ln m/s).
    """

    thrower: Thrower
    log_own: Array
    p: Array
    log_reference: Array
    _edges: dict[tuple[object, ...], tuple[Array, Array]] = attribute(default_factory=dict, repr=False, compare=False)
    """Ranges found before: of many limits one is changed at a time."""
    _references: dict[str, Array] = attribute(default_factory=dict, repr=False, compare=False)

    @property
    def middle_reference(self) -> Array:
        """Ln of the middle of what the reference throw's speed (m/s) may be, as one draw (1,)."""
        return np.array([np.median(self.log_reference)])

    def log_full(self, mass_kg: float) -> Array:
        """Draws of ln of full speed with a ball.

        Parameters
        ----------
        mass_kg : float
            Of the ball (kg).

        Returns
        -------
        ndarray (N,)
        """
        return np.asarray(self.log_own - self.p * self.thrower.profile.x(mass_kg))

    def limits_at(self, bound: Bound, amount: Amount, log_reference: Array) -> Array:
        """A limit in the quantity's own unit, for reference throws of given speeds.

        Parameters
        ----------
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

        Returns
        -------
        Amount
            At the middle of what the reference throw's speed may be.
        """
        whole = float(self.limits_at(bound, Amount(1.0), self.middle_reference)[0])
        return Amount(amount.value / whole) if amount.absolute else Amount(amount.value * whole, absolute=True)

    def log_limit_speed(
        self,
        bound: Bound,
        amount: Amount,
        loads: PathLoads,
        mass_kg: Array,
        log_reference: Array,
        *,
        slow: bool = False,
        turn_m_s: Array | None = None,
    ) -> Array:
        """Find ln of the speed at which balls meet a limit.

        Parameters
        ----------
        mass_kg : ndarray (M,)
        log_reference : ndarray (K,) or (M, K)
            ln of the reference throw's speed (m/s).
        slow : bool
            Whether the edge is wanted from which a limit that turns is kept.
        turn_m_s : ndarray (M, 1), optional
            As `limit_speed.limit_speeds` takes it.

        Returns
        -------
        ndarray (M, K)
        """
        limit = self.limits_at(bound, amount, log_reference)
        limit = np.broadcast_to(limit, (mass_kg.size, limit.shape[-1]))
        if bound.quantity is None:
            return np.log(limit)
        return np.log(limit_speeds(loads, bound.quantity, mass_kg[:, None], limit, slow=slow, turn_m_s=turn_m_s))

    def range_of(
        self, bound: Bound, amount: Amount, mass_kg: Array, diameter_m: float, certainty: float
    ) -> tuple[Array, Array]:
        """The shares of full speed between which one limit by itself is kept with a certainty.

        Parameters
        ----------
        mass_kg : ndarray (M,)
            Ball mass (kg).
        diameter_m : float
            Of the ball (m).
        certainty : float
            Share of the draws in which it is kept.

        Returns
        -------
        least, most : ndarray (M,)
            0 and infinity where the limit sets no such edge. A limit that no share keeps has a least above its most.
        """
        asked = (bound.key, amount, mass_kg.tobytes(), diameter_m, certainty)
        if asked not in self._edges:
            if len(self._edges) >= MOST_KEPT:
                self._edges.clear()
            self._edges[asked] = self._range_of(bound, amount, mass_kg, diameter_m, certainty)
        return self._edges[asked]

    def _range_of(
        self, bound: Bound, amount: Amount, mass_kg: Array, diameter_m: float, certainty: float
    ) -> tuple[Array, Array]:
        loads = path_loads(self.thrower.person, diameter_m)
        full = np.stack([self.log_full(mass) for mass in mass_kg])
        turn = turning_speeds(loads, bound.quantity, mass_kg)[:, None] if bound.quantity and bound.turns else None

        def edge(slow: bool, chosen: NDArray[np.int_]) -> Array:
            # the draw that the edge belongs to is solved once more, not read off the curve through the nodes
            reference = self.log_reference[chosen][:, None]
            exact = self.log_limit_speed(bound, amount, loads, mass_kg, reference, slow=slow, turn_m_s=turn)[:, 0]
            return np.exp(exact - full[np.arange(mass_kg.size), chosen])

        if bound.turns:
            slow, fast = (self._log_speeds(bound, amount, loads, mass_kg, slow, turn) - full for slow in (True, False))
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

    def _log_speeds(
        self,
        bound: Bound,
        amount: Amount,
        loads: PathLoads,
        mass_kg: Array,
        slow: bool = False,
        turn_m_s: Array | None = None,
    ) -> Array:
        """Ln of the speed at a limit's edge in every draw (M, N): solved at some reference speeds."""
        nodes = _nodes(self.log_reference) if not amount.absolute else self.log_reference[:1]
        at_nodes = self.log_limit_speed(bound, amount, loads, mass_kg, nodes, slow=slow, turn_m_s=turn_m_s)
        # an edge goes one way with the limit: where the ends of the nodes are alike, all are
        if nodes.size == 1 or np.ptp(at_nodes, axis=1).max() == 0.0:
            return np.repeat(at_nodes[:, :1], self.p.size, axis=1)
        if bound.turns or _at_an_end(at_nodes):
            nodes = np.linspace(nodes[0], nodes[-1], STRAIGHT)
            at_nodes = self.log_limit_speed(bound, amount, loads, mass_kg, nodes, slow=slow, turn_m_s=turn_m_s)
            return np.stack([np.interp(self.log_reference, nodes, row) for row in at_nodes])
        return np.asarray(BarycentricInterpolator(nodes, at_nodes, axis=1)(self.log_reference))

    def held(self, bound: Bound, amount: Amount, ball: Ball, share: float) -> Array:
        """What a throw comes to, as `amount` counts it, draw by draw.

        Parameters
        ----------
        amount : Amount
            Only whether it is absolute matters.
        share : float
            Of full speed with the ball.

        Returns
        -------
        ndarray (N,)
            In the quantity's unit, or as a share of the reference throw's.
        """
        logs = self.log_full(ball.mass_kg) + np.log(share)
        quantity = bound.quantity

        def log_value(log_speed: Array) -> Array:
            return np.log(quantity_at(loads, quantity, ball.mass_kg, np.exp(log_speed))) if quantity else log_speed

        loads = path_loads(self.thrower.person, ball.diameter_m)
        if quantity is not None:
            logs = _splined(log_value, logs)
        return np.exp(logs if amount.absolute else logs - self._log_reference_values(bound))

    def _log_reference_values(self, bound: Bound) -> Array:
        """Ln of what the reference throw comes to in every draw (N,), the same for every ball."""

        def log_value(log_speed: Array) -> Array:
            return np.log(self.limits_at(bound, Amount(1.0), log_speed))

        if bound.key not in self._references:
            self._references[bound.key] = _splined(log_value, self.log_reference)
        return self._references[bound.key]


def field_of(thrower: Thrower) -> Field:
    """Draw what is not known of a thrower.

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
        Share of the draws in which it is kept.

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
