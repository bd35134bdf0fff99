"""A best estimate with its interval."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.checks import InputError, Limit, check_number

LEVEL = 0.90  # of an interval, unless another is asked for
LEVEL_LIMIT = Limit(0.01, 0.999, "")


@dataclass(frozen=True)
class Interval:
    """A best estimate (median) with an equal-tailed interval of a given probability; floats, or arrays alike."""

    estimate: Any
    low: Any
    high: Any
    level: float


def tails_of(level: float) -> list[float]:
    """Find the tails of an interval.

    Parameters
    ----------
    level : float
        Probability of the interval.

    Returns
    -------
    list of float
        Probabilities of its lower end, the median and its upper end.

    Raises
    ------
    InputError
        If the level is outside `LEVEL_LIMIT`.
    """
    tail = (1.0 - check_number("level", level, LEVEL_LIMIT)) / 2.0
    return [tail, 0.5, 1.0 - tail]


def check_numbers(field: str, values: ArrayLike, limit: Limit) -> NDArray[np.float64]:
    """Return numbers that all lie inside a limit.

    Parameters
    ----------
    field : str
        Name used in the message.
    values : array_like (...)

    Returns
    -------
    ndarray (...)

    Raises
    ------
    InputError
        If one is no finite number inside the limit.
    """
    try:
        numbers = np.asarray(values, dtype=float)
    except (TypeError, ValueError):
        raise InputError(field, values, f"numbers from {limit}") from None
    wrong = ~((numbers >= limit.low) & (numbers <= limit.high))
    if wrong.any():
        raise InputError(field, float(numbers[wrong].flat[0]), f"a number from {limit}")
    return numbers
