"""The speed at which a ball reaches a value, for many balls and values at once.

`level.speeds_at` looks for the speed of one value on a curve that may turn anywhere; here a quantity has at most one
turn, and a value beyond the accepted speeds gives their end. Most quantities go one way with speed. The area under the
curve, and for some arms the deceleration torque, fall before they rise: a slow throw lasts so long that the weight of
arm and ball decides.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from model.identity import PathLoads
from model.quantity import READOUTS, Quantity, quantity_at
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

ROOT_TOLERANCE = 1e-12  # of the speed's logarithm
TURN_TOLERANCE = 1e-7  # the same, of the place of a minimum, where the value itself is flat
LOW, HIGH = SPEED_LIMIT.low, SPEED_LIMIT.high
COARSE = 49  # speeds among which the turn is first looked for, in equal ratios
FALLS_BY = 1.02  # a quantity that turns is less at a speed so much above the slowest


def turning_speeds(loads: PathLoads, quantity: Quantity, mass_kg: ArrayLike) -> Array:
    """The speed above which a quantity goes the way that its power says.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    mass_kg : array_like (...)
        Ball mass (kg).

    Returns
    -------
    ndarray (...)
        Speed (m/s) at which the quantity is least; the slowest accepted where it goes one way from there on.
    """
    mass = np.asarray(mass_kg, dtype=float)
    if READOUTS[quantity.readout].power < 0:
        return np.full(mass.shape, LOW)

    def value(log_speed: Array, ball_kg: Array) -> Array:
        return quantity_at(loads, quantity, ball_kg, np.clip(np.exp(log_speed), LOW, HIGH))

    flat = mass.ravel()
    found = np.full(flat.shape, LOW)
    start = np.array([[np.log(LOW)], [np.log(LOW * FALLS_BY)]])
    falls = np.flatnonzero(np.subtract(*value(start, flat[None, :])) > 0.0)
    if falls.size:
        grid = np.linspace(np.log(LOW), np.log(HIGH), COARSE)
        place = np.nanargmin(value(grid[None, :], flat[falls, None]), axis=1).clip(1, COARSE - 2)
        around = tuple(grid[place + step] for step in (-1, 0, 1))
        least = elementwise.find_minimum(
            value, around, args=(flat[falls],), tolerances={"xatol": TURN_TOLERANCE, "xrtol": 0}
        )
        found[falls] = np.exp(least.x)
    return found.reshape(mass.shape)


def limit_speeds(
    loads: PathLoads,
    quantity: Quantity,
    mass_kg: ArrayLike,
    target: ArrayLike,
    *,
    slow: bool = False,
    turn_m_s: ArrayLike | None = None,
) -> Array:
    """Solve for the speed at which a ball reaches a value.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    mass_kg, target : array_like (...)
        Ball mass (kg) and value (in `quantity.unit`), broadcast together.
    slow : bool
        Whether the speed below the quantity's turn is wanted (`turning_speeds`), from which it keeps a ceiling; else
        the one above it, up to which it does.
    turn_m_s : array_like (...), optional
        What `turning_speeds` gives for the masses (m/s), where it is known already.

    Returns
    -------
    ndarray (...)
        Speed (m/s). Where the slowest accepted throw keeps the value, `slow` is that speed; a value never reached
        gives the fastest. Where no speed keeps a ceiling, the slowest, and with `slow` the fastest: an empty range.
    """
    mass, wanted = np.broadcast_arrays(np.asarray(mass_kg, dtype=float), np.asarray(target, dtype=float))
    turn = _turns(loads, quantity, mass) if turn_m_s is None else np.broadcast_to(turn_m_s, mass.shape)
    power = READOUTS[quantity.readout].power
    side = 1.0 if power > 0 else -1.0

    def over(log_speed: Array, ball_kg: Array, value: Array) -> Array:
        return side * (quantity_at(loads, quantity, ball_kg, np.clip(np.exp(log_speed), LOW, HIGH)) - value)

    log_low, log_turn, log_high = (np.broadcast_to(np.log(speed), mass.shape) for speed in (LOW, turn, HIGH))
    at_turn = over(log_turn, mass, wanted)
    if slow:
        at_low = over(log_low, mass, wanted)
        bracket = (at_low > 0.0) & (at_turn <= 0.0)
        found = np.where(at_low <= 0.0, LOW, HIGH)
        ends = (log_low, log_turn)
    else:
        at_high = over(log_high, mass, wanted)
        bracket = (at_turn <= 0.0) & (at_high >= 0.0)
        found = np.where(at_turn <= 0.0, HIGH, LOW)
        ends = _nearer(over, mass, wanted, log_turn, log_high, loads, quantity)
    if bracket.any():
        root = elementwise.find_root(
            over,
            tuple(end[bracket] for end in ends),
            args=(mass[bracket], wanted[bracket]),
            tolerances={"xatol": ROOT_TOLERANCE, "xrtol": 0},
        )
        found = np.array(found)
        found[bracket] = np.exp(root.x)
    return np.clip(found, LOW, HIGH)


def _turns(loads: PathLoads, quantity: Quantity, mass: Array) -> Array:
    """The turn of each ball, found once for balls of one mass."""
    each, place = np.unique(mass, return_inverse=True)
    return np.asarray(turning_speeds(loads, quantity, each)[place]).reshape(mass.shape)


def _nearer(
    over: Callable[[Array, Array, Array], Array],
    mass: Array,
    wanted: Array,
    log_turn: Array,
    log_high: Array,
    loads: PathLoads,
    quantity: Quantity,
) -> tuple[Array, Array]:
    """Ends close to the root, which the first-order law leads to; the whole range where they miss it."""
    power = READOUTS[quantity.readout].power
    start = np.full(mass.shape, 0.7 * float(np.mean(loads.path_speed_m_s)))
    for _ in range(2):
        reached = np.abs(quantity_at(loads, quantity, mass, start))
        with np.errstate(divide="ignore", invalid="ignore"):
            moved = start * (wanted / reached) ** (1.0 / power)
        start = np.clip(np.where(np.isfinite(moved), moved, start), np.exp(log_turn), HIGH)
    low, high = (np.clip(np.log(start * factor), log_turn, log_high) for factor in (0.8, 1.25))
    low = np.where(over(low, mass, wanted) <= 0.0, low, log_turn)
    return low, np.where(over(high, mass, wanted) >= 0.0, high, log_high)
