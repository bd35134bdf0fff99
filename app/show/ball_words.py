"""Balls, throws, speeds and values in words."""

import math

import numpy as np

from app.show.numbers import number
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.interval import Interval
from model.throw import Throw

NOT_DEFINED = "not defined"


def value_words(value: float, unit: str) -> str:
    """Write a value with its unit, in as many figures as can be told apart; a time in ms.

    Parameters
    ----------
    value : float
    unit : str
        As `Quantity.unit` has it.

    Returns
    -------
    str
        For example "66.5 N·m" or "118 ms".
    """
    if not math.isfinite(value):
        return NOT_DEFINED
    if unit == "s":
        value, unit = from_si(value, "ms"), "ms"
    size = abs(value)
    places = 0 if size >= 100.0 else 1 if size >= 10.0 else 2 if size >= 1.0 else 3
    return f"{number(value, places)} {unit}"


def throw_words(throw: Throw, system: System = METRIC) -> str:
    """Name a throw by ball and speed."""
    return f"{ball_words(throw.ball, system)} at {system.text(throw.speed_m_s, 'm/s', least=1, most=1)}"


def ball_words(ball: Ball, system: System = METRIC) -> str:
    """Name a ball by its mass, and by its diameter where that is not the usual one."""
    size = "" if ball.diameter_m == DEFAULT_DIAMETER_M else f" ({system.text(ball.diameter_m, 'mm')})"
    return f"{system.text(ball.mass_kg, 'g')}{size}"


def interval_words(speed: Interval, system: System = METRIC) -> str:
    """Write a speed with its interval, for example "28.4 m/s (27.9 to 28.9)"."""
    values = (float(np.squeeze(value)) for value in (speed.estimate, speed.low, speed.high))
    middle, low, high = (system.number(value, "m/s", least=1, most=1) for value in values)
    return f"{middle} {system.unit('m/s')} ({low} to {high})"
