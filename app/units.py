"""The one place where what people read and write (g, mm, cm, ms) becomes SI and back."""

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
        Unit("N", 1.0, "N"),
        Unit("%", 0.01, ""),
    )
}


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
    return value / round(1.0 / factor) if factor < 1.0 else value * factor


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
    return value * round(1.0 / factor) if factor < 1.0 else value / factor


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
