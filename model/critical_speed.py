"""The speed at which a ball reaches a value, for many balls and values at once.

`level.speeds_at` looks for the speed of one value on a curve that may turn; here the quantity goes one way with speed,
and a value beyond the accepted speeds gives their end.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from model.identity import PathLoads
from model.quantity import READOUTS, Quantity, quantity_at
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

ROOT_TOLERANCE = 1e-12  # of the speed's logarithm


def critical_speeds(loads: PathLoads, quantity: Quantity, mass_kg: ArrayLike, target: ArrayLike) -> Array:
    """Solve for the speed at which a ball reaches a value.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    quantity : Quantity
    mass_kg, target : array_like (...)
        Ball mass (kg) and value (in `quantity.unit`), broadcast together.

    Returns
    -------
    ndarray (...)
        Speed (m/s); an end of `SPEED_LIMIT` where the value lies beyond it, so that a ceiling already passed, or not
        there to be kept, at the slowest throw gives the slowest, and one never reached the fastest.
    """
    low, high = SPEED_LIMIT.low, SPEED_LIMIT.high
    mass, wanted = np.broadcast_arrays(np.asarray(mass_kg, dtype=float), np.asarray(target, dtype=float))
    power = READOUTS[quantity.readout].power
    side = 1.0 if power > 0 else -1.0

    def over(log_speed: Array, ball_kg: Array, value: Array) -> Array:
        return side * (quantity_at(loads, quantity, ball_kg, np.clip(np.exp(log_speed), low, high)) - value)

    # the first-order law leads near the root: twice as far either way is tried first, then the whole range
    start = np.full(mass.shape, 0.7 * float(np.mean(loads.path_speed_m_s)))
    for _ in range(2):
        reached = np.abs(quantity_at(loads, quantity, mass, start))
        with np.errstate(divide="ignore", invalid="ignore"):
            moved = start * (wanted / reached) ** (1.0 / power)
        start = np.clip(np.where(np.isfinite(moved), moved, start), low, high)
    ends = [np.log(np.clip(start * factor, low, high)) for factor in (0.8, 1.25)]
    at_ends = [over(end, mass, wanted) for end in ends]
    ends[0] = np.where(at_ends[0] <= 0.0, ends[0], np.log(low))
    ends[1] = np.where(at_ends[1] >= 0.0, ends[1], np.log(high))
    slow, fast = (over(end, mass, wanted) for end in ends)
    root = elementwise.find_root(
        over, tuple(ends), args=(mass, wanted), tolerances={"xatol": ROOT_TOLERANCE, "xrtol": 0}
    )
    found = np.where((slow <= 0.0) & (fast >= 0.0), np.exp(root.x), np.where(fast < 0.0, high, low))
    return np.clip(found, low, high)
