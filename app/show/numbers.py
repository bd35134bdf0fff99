"""Numbers as they are shown, and how one stands to another."""

import math

from app.units.conversion import plain

READOUT_ORDER = ("peak", "loaded_s", "rise_rate", "area")
"""The readouts as the page orders them: height, length, steepness, total."""


def difference(value: float, places: int) -> str:
    """Write a difference: always with its sign, and zero as what rounds to it, with neither.

    Parameters
    ----------
    value : float
    places : int
        Decimals.

    Returns
    -------
    str
        For example "+4.9", "\u22124.9" or "0.0".
    """
    text = number(value, places)
    if float(f"{value:.{places}f}") == 0.0:
        return number(0.0, places)
    return text if value < 0.0 else f"+{text}"


def number(value: float, places: int) -> str:
    """Write a number with a thin space between thousands and a real minus.

    Parameters
    ----------
    value : float
    places : int
        Decimals.

    Returns
    -------
    str
    """
    return f"{value:,.{places}f}".replace(",", "\u202f").replace("-", "\u2212")


def percent(share: float, most: int = 0) -> str:
    """Write a share in per cent with at most so many decimals, and no needless ones: "96.9 %"."""
    return f"{plain(100.0 * share, most=most)} %"


def share_of(value: float, reference: float) -> float:
    """A reading in per cent of the reference's; NaN where either is not defined or the reference's is zero.

    Parameters
    ----------
    value, reference : float
        The same reading of two throws.

    Returns
    -------
    float
        Per cent.
    """
    if not (math.isfinite(value) and math.isfinite(reference)) or reference == 0.0:
        return math.nan
    return 100.0 * value / reference


def chance_words(chance: float) -> str:
    """Write a probability: whole per cent, and never quite none or all."""
    if chance < 0.005:
        return "under 1 %"
    return "over 99 %" if chance > 0.995 else f"{100.0 * chance:.0f} %"


def capital(text: str) -> str:
    """Begin a text with a capital."""
    return text[:1].upper() + text[1:]
