"""Which part of the mass-speed plane is drawn, and which lines: fitted to the athlete's balls, speeds and values."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from app.show.checked_range import CHECKED_BALL_KG, CHECKED_SPEED_M_S
from app.show.window import Window
from model.ball import BALL_LIMITS, Ball
from model.interval import Interval
from model.speed import SpeedProfile
from model.speed_readings import RadarReading
from model.throw import SPEED_LIMIT, Throw

BESIDE_RACK = 1.15  # the mass axis reaches this much beyond the lightest and the heaviest ball
LEAST_SPAN = 4.0  # heaviest over lightest ball of the axis, at least
BELOW, ABOVE = 0.6, 1.15  # the speed axis reaches from here to here, in shares of the reference speed, at least
BESIDE_SPEEDS = 0.95  # and this far beyond readings and the profile
STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)  # per cent from line to line
MOST_LINES = 10


def fitting_window(
    reference: Throw,
    rack: Sequence[Ball],
    readings: Sequence[RadarReading],
    profile: SpeedProfile | None,
    thrown: Sequence[tuple[Ball, float]] = (),
) -> Window:
    """Choose the ends of the axes: the rack, and the speeds that this athlete reaches, with a margin.

    Parameters
    ----------
    reference : Throw
    rack : sequence of Ball
        At least one.
    readings : sequence of RadarReading
    profile : SpeedProfile or None
    thrown : sequence of (Ball, float)
        Other throws to be seen, with their speeds (m/s); those beyond the checked range are left out.

    Returns
    -------
    Window
        Masses in whole steps of 5 g, speeds in whole m/s.
    """
    shown = [(ball.mass_kg, speed) for ball, speed in thrown if _checked(ball.mass_kg, speed)]
    masses = [reference.ball.mass_kg, *(ball.mass_kg for ball in rack), *(mass for mass, _ in shown)]
    low, high = min(masses) / BESIDE_RACK, max(masses) * BESIDE_RACK
    widen = math.sqrt(max(1.0, LEAST_SPAN / (high / low)))
    limit = BALL_LIMITS["mass_kg"]
    low = max(limit.low, math.floor(200.0 * low / widen) / 200.0)
    high = min(limit.high, math.ceil(200.0 * high * widen) / 200.0)
    slow, fast = BELOW * reference.speed_m_s, ABOVE * reference.speed_m_s
    speeds = [reading.speed_m_s for reading in readings] + [speed for _, speed in shown]
    full = _full_speeds(profile, (low, high))
    if full is not None:
        speeds += [*full.estimate.tolist(), *(full.high[:1].tolist())]
    if speeds:
        slow, fast = min(slow, BESIDE_SPEEDS * min(speeds)), max(fast, max(speeds) / BESIDE_SPEEDS)
    slow, fast = max(SPEED_LIMIT.low, math.floor(slow)), min(SPEED_LIMIT.high, math.ceil(fast))
    return Window(low, high, float(slow), float(fast))


def _checked(mass_kg: float, speed_m_s: float) -> bool:
    in_mass = CHECKED_BALL_KG[0] <= mass_kg <= CHECKED_BALL_KG[1]
    return in_mass and CHECKED_SPEED_M_S[0] <= speed_m_s <= CHECKED_SPEED_M_S[1]


def _full_speeds(profile: SpeedProfile | None, mass_kg: tuple[float, float]) -> Interval | None:
    if profile is None or profile.posterior.own is None:
        return None
    return profile.mean_speed(np.array(mass_kg))


def levels_between(percent: NDArray[np.float64]) -> tuple[int, ...]:
    """Choose the per cents of the lines: in even steps from 100, in the narrowest step that gives few enough.

    Parameters
    ----------
    percent : ndarray (M, V)
        The map, in per cent of the reference throw; NaN where it does not exist.

    Returns
    -------
    tuple of int
        Rising, all above 0 and reached somewhere in the map; empty where nothing is.
    """
    reached = percent[np.isfinite(percent)]
    if not reached.size:
        return ()
    low, high = float(reached.min()), float(reached.max())
    for step in STEPS:
        first, last = math.ceil((low - 100.0) / step), math.floor((high - 100.0) / step)
        levels = [100 + step * i for i in range(first, last + 1) if 100 + step * i > 0]
        if len(levels) <= MOST_LINES:
            return tuple(levels)
    return (100,) if low <= 100.0 <= high else ()
