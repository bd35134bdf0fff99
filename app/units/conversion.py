"""The one place where what people read and write (g, mm, cm, ms; oz, in, mph, lb) becomes SI and back."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import constants

from model.checks import Limit


@dataclass(frozen=True)
class Unit:
    """A unit people read.

    Attributes
    ----------
    symbol : str
        As it is printed.
    si : float
        How many of the SI unit one of it is.
    si_symbol : str
        The SI unit it stands for.
    """

    symbol: str
    si: float
    si_symbol: str


UNITS = {
    unit.symbol: unit
    for unit in (
        Unit("g", constants.gram, "kg"),
        Unit("kg", 1.0, "kg"),
        Unit("mm", constants.milli, "m"),
        Unit("cm", constants.centi, "m"),
        Unit("m", 1.0, "m"),
        Unit("ms", constants.milli, "s"),
        Unit("s", 1.0, "s"),
        Unit("m/s", 1.0, "m/s"),
        Unit("years", 1.0, "years"),
        Unit("N·m", 1.0, "N·m"),
        Unit("N·m/s", 1.0, "N·m/s"),
        Unit("N", 1.0, "N"),
        Unit("N·m·s", 1.0, "N·m·s"),
        *(Unit(counted, 1.0, counted) for counted in ("steps", "sessions", "throws", "weeks", "days")),
        Unit("%", 0.01, ""),
        Unit("°", 1.0, "°"),
        Unit("", 1.0, ""),  # a plain count
        Unit("oz", constants.oz, "kg"),
        Unit("lb", constants.lb, "kg"),
        Unit("in", constants.inch, "m"),
        Unit("ft", constants.foot, "m"),
        Unit("ft in", constants.foot, "m"),  # whole feet and the inches left over
        Unit("mph", constants.mph, "m/s"),
        Unit("km/h", constants.kmh, "m/s"),
    )
}

FEET = "ft in"
"""The unit that is written as two numbers, such as 6 ft 2 in."""

INCHES_PER_FOOT = 12

PLACES = {"oz": 2, "lb": 1, "in": 2, "ft": 1, FEET: 1, "mph": 1, "g": 1, "kg": 1, "mm": 1, "cm": 1, "m": 2, "m/s": 2}
"""Most decimals of a converted number; of feet and inches, those of the inches."""

LEAST_PLACES = {"mph": 1}
"""Fewest decimals of a converted number in a field: speeds stand below one another."""

RANGE_DIGITS = 3  # significant digits of the ends of a converted range


def _whole(factor: float) -> int:
    """How many of a unit make one of SI, where that is a whole number; else 0."""
    count = round(1.0 / factor)
    return count if factor < 1.0 and math.isclose(count * factor, 1.0, rel_tol=1e-12) else 0


def to_si(value: float, symbol: str) -> float:
    """Turn a number in a unit people read into SI.

    The number is divided by a whole number where the unit is a decimal part (145 g -> 0.145 kg exactly as Python
    writes 0.145), so that a typed value and the same value in the code are one and the same.

    Parameters
    ----------
    value : float
        A number in the unit ``symbol``.
    symbol : str
        A key of `UNITS`.

    Returns
    -------
    float
        The number in the unit's SI unit.

    Raises
    ------
    KeyError
        If the unit is none of `UNITS`.
    """
    factor = UNITS[symbol].si
    whole = _whole(factor)
    return value / whole if whole else value * factor


def from_si(value: float, symbol: str) -> float:
    """Turn an SI number into a unit people read.

    Parameters
    ----------
    value : float
        A number in SI.
    symbol : str
        A key of `UNITS`.

    Returns
    -------
    float
        The number in the unit ``symbol``.

    Raises
    ------
    KeyError
        If the unit is none of `UNITS`.
    """
    factor = UNITS[symbol].si
    whole = _whole(factor)
    return value * whole if whole else value / factor


def array_from_si(values: ArrayLike, symbol: str) -> NDArray[np.float64]:
    """Turn SI numbers into a unit people read.

    Parameters
    ----------
    values : array_like
        Numbers in SI, any shape.
    symbol : str
        A key of `UNITS`.

    Returns
    -------
    ndarray
        The numbers in the unit ``symbol``, same shape.

    Raises
    ------
    KeyError
        If the unit is none of `UNITS`.
    """
    return np.asarray(values, dtype=np.float64) / UNITS[symbol].si


def limit_in(limit: Limit, symbol: str) -> Limit:
    """Give an accepted range in a unit people read.

    Parameters
    ----------
    limit : Limit
        The range in SI.
    symbol : str
        A key of `UNITS` of the same SI unit.

    Returns
    -------
    Limit
        The same range in the unit ``symbol``.

    Raises
    ------
    ValueError
        If the unit does not stand for the range's SI unit.
    """
    if UNITS[symbol].si_symbol != limit.unit:
        raise ValueError(f"{symbol} stands for {UNITS[symbol].si_symbol}, not for {limit.unit}")
    return Limit(from_si(limit.low, symbol), from_si(limit.high, symbol), symbol)


def plain(number: float, least: int = 0, most: int = 2) -> str:
    """Write a number without needless decimals.

    Parameters
    ----------
    number : float
    least, most : int
        Fewest and most decimals.

    Returns
    -------
    str
        For example "275", "142.5", "28.5".
    """
    text = f"{number:.{most}f}"
    whole, _, decimals = text.partition(".")
    decimals = decimals.rstrip("0").ljust(least, "0")
    return f"{whole}.{decimals}" if decimals else whole


def feet_and_inches(length_m: float) -> str:
    """Write a length as whole feet and the inches left over.

    Parameters
    ----------
    length_m : float
        Not negative (m).

    Returns
    -------
    str
        For example "6 ft 2 in" for 1.88 m.
    """
    inches = round(from_si(length_m, "in"), PLACES[FEET])
    feet, left = divmod(inches, INCHES_PER_FOOT)
    return f"{feet:.0f} ft {plain(left, most=PLACES[FEET])} in"


def range_in(limit: Limit, symbol: str) -> str:
    """Write an accepted range in a unit people read.

    Parameters
    ----------
    limit : Limit
        The range in SI.
    symbol : str
        A key of `UNITS` of the same SI unit.

    Returns
    -------
    str
        With its unit: "1 to 3000 g", "2 ft 11.5 in to 7 ft 6.5 in". Ends that are no round numbers are rounded
        inwards, so that an end that is typed is accepted.

    Raises
    ------
    ValueError
        If the unit does not stand for the range's SI unit.
    """
    shown = limit_in(limit, symbol)
    if symbol == FEET:
        step = 10.0 ** PLACES[FEET]
        low = math.ceil(from_si(limit.low, "in") * step) / step
        high = math.floor(from_si(limit.high, "in") * step) / step
        return f"{feet_and_inches(to_si(low, 'in'))} to {feet_and_inches(to_si(high, 'in'))}"
    if _whole(UNITS[symbol].si) or UNITS[symbol].si == 1.0:
        return str(shown)
    return str(Limit(_inwards(shown.low, math.ceil), _inwards(shown.high, math.floor), symbol))


def rounded_up(value: float, symbol: str) -> float:
    """Round a least value up: to a whole one in a metric unit, else to three figures."""
    if _whole(UNITS[symbol].si) or UNITS[symbol].si == 1.0:
        return float(math.ceil(round(value, 6)))
    return _inwards(value, math.ceil)


def rounded_down(value: float, places: int = 0) -> float:
    """Round down to so many decimals; a rounding error above a step counts as the step."""
    step = 10.0**places
    return math.floor(value * step + 1e-6) / step


def rounded_up_to(value: float, places: int = 0) -> float:
    """Round up to so many decimals; a rounding error below a step counts as the step."""
    return -rounded_down(-value, places)


def _inwards(end: float, rounded: Callable[[float], int]) -> float:
    if end == 0.0:
        return 0.0
    places = RANGE_DIGITS - 1 - math.floor(math.log10(abs(end)))
    return rounded(end * 10.0**places) / 10.0**places


def percent_bwh(torque_nm: float, body_mass_kg: float, stature_m: float) -> float:
    """Give a torque in per cent of body weight times height: 100 T / (m g H).

    Parameters
    ----------
    torque_nm : float
        Torque (N m).
    body_mass_kg, stature_m : float
        Body mass (kg) and standing height (m) of the same person.

    Returns
    -------
    float
        Per cent of body weight times height (%BW·H), with g = 9.80665 m/s² (standard gravity, CGPM 1901).
    """
    return 100.0 * torque_nm / (body_mass_kg * constants.g * stature_m)
