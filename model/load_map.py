"""The mass-speed map: a quantity over ball mass and release speed, from the identity, with its contour lines."""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import RectBivariateSpline

from model.ball import BALL_LIMITS
from model.checks import InputError
from model.identity import PathLoads
from model.interval import check_numbers
from model.level import speeds_at
from model.quantity import READOUTS, Quantity, curve_parts, quantity_at
from model.sampled import cut, highest_point
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

BLOCK = 4000  # throws whose peaks are found at once
NODES = (25, 9)  # masses and clocks at which a smooth readout is computed; the rest of the map is drawn through them
SMOOTH_ENOUGH = 1e-3  # of the value: what half-way checks may differ before the whole map is computed point by point


def load_map(loads: PathLoads, quantity: Quantity, mass_kg: ArrayLike, speed_m_s: ArrayLike) -> Array:
    """Compute a quantity over a grid of ball masses and speeds.

    The peak is exact. Divided by its power of the clock any other readout is almost flat, and a spline through a coarse
    mesh draws it; where checks half-way between the nodes differ by more than 0.1 %, or a value does not exist, the
    whole grid is computed instead (about a second for 200 x 200).

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    mass_kg, speed_m_s : array_like (M,), (V,)
        Rising ball masses (kg) and release speeds (m/s).

    Returns
    -------
    ndarray (M, V)
        In `quantity.unit`.

    Raises
    ------
    InputError
        If masses or speeds are not accepted or do not rise.
    """
    mass = _rising("ball_mass_kg", check_numbers("ball_mass_kg", mass_kg, BALL_LIMITS["mass_kg"]))
    speed = _rising("speed_m_s", check_numbers("speed_m_s", speed_m_s, SPEED_LIMIT))
    if quantity.readout == "peak":
        return _peaks(loads, quantity, mass, speed)
    smooth = _drawn(loads, quantity, mass, speed)
    return quantity_at(loads, quantity, mass[:, None], speed) if smooth is None else smooth


def _rising(field: str, values: Array) -> Array:
    if values.ndim != 1 or values.size < 2 or not (np.diff(values) > 0.0).all():
        raise InputError(field, f"an array of shape {values.shape}", "two or more numbers, each above the last")
    return values


def _peaks(loads: PathLoads, quantity: Quantity, mass: Array, speed: Array) -> Array:
    """Peaks, exact, looked for only where one can lie.

    At a phase the curve is bilinear in (s2, m), and so is the difference of two phases: over the map it is smallest at
    a corner. So a phase that lies below another one at all four corners lies below it everywhere and is never the peak.
    The stretch that spans all other phases is searched, a sample wider on both sides for the parabola through the top.
    """
    squares = loads.clock(speed) ** 2
    x, cut_rows = cut(loads.phase, quantity.source.start_phase, quantity.source.end_phase)
    inertial, weight = (cut_rows(part) for part in curve_parts(loads, quantity.source, mass))
    corners = np.stack([squares[j] * inertial[i] + weight[i] for i in (0, -1) for j in (0, -1)])
    rivals = corners[:, corners.argmax(axis=1)]
    beaten = np.any(np.all(corners[:, :, None] < rivals[:, None, :], axis=0), axis=1)
    possible = np.flatnonzero(~beaten)
    band = slice(max(possible[0] - 1, 0), possible[-1] + 2)
    steady, moving = weight[:, None, band], inertial[:, None, band]
    found = np.empty((mass.size, speed.size))
    block = max(1, BLOCK // speed.size)
    for start in range(0, mass.size, block):
        rows = slice(start, start + block)
        curves = squares[:, None] * moving[rows]
        curves += steady[rows]
        heights, *_ = highest_point(x[band], curves.reshape(-1, curves.shape[-1]))
        found[rows] = heights.reshape(curves.shape[:-1])
    return np.maximum(found, 0.0)


def _drawn(loads: PathLoads, quantity: Quantity, mass: Array, speed: Array) -> Array | None:
    """A readout through a coarse mesh over ln m and 1 / s2, or None where that is not close enough."""
    power = READOUTS[quantity.readout].power
    slowness = (loads.path_speed_m_s / speed) ** 2

    def flattened(logs: Array, slow: Array) -> Array:
        clock = 1.0 / np.sqrt(slow)
        exact = quantity_at(loads, quantity, inside(np.exp(logs), mass)[:, None], inside(clock * pace, speed))
        return exact / clock**power

    def inside(values: Array, ends: Array) -> Array:
        return np.clip(values, ends[0], ends[-1])  # a rounding error may carry an end node past the accepted range

    pace = loads.path_speed_m_s
    logs = np.linspace(np.log(mass[0]), np.log(mass[-1]), NODES[0])
    slow = np.linspace(slowness[-1], slowness[0], NODES[1])
    nodes = flattened(logs, slow)
    if not np.isfinite(nodes).all():
        return None
    spline = RectBivariateSpline(logs, slow, nodes)
    between = 0.5 * (logs[1:] + logs[:-1]), 0.5 * (slow[1:] + slow[:-1])
    checks = flattened(*between)
    if not (np.abs(spline(*between) - checks) <= SMOOTH_ENOUGH * np.abs(checks)).all():
        return None
    return np.asarray(spline(np.log(mass), slowness[::-1]))[:, ::-1] / slowness ** (0.5 * power)


def contour(loads: PathLoads, quantity: Quantity, value: float, mass_kg: ArrayLike) -> Array:
    """One contour line: the speed at which each ball reaches a value.

    Parameters
    ----------
    value : float
        In `quantity.unit`.
    mass_kg : array_like (M,)

    Returns
    -------
    ndarray (M,)
        Speeds (m/s); NaN where no accepted speed reaches it.
    """
    return speeds_at(loads, quantity, value, mass_kg)
