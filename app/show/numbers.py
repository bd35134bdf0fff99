"""Numbers as they are shown, and how one stands to another."""

import math

from app.units.conversion import plain

READOUT_NAMES = {"peak": "peak", "loaded_s": "time loaded", "rise_rate": "rise rate", "area": "area"}
"""The readouts in words, as the pages order them: height, length, steepness, total."""

READOUT_ORDER = tuple(READOUT_NAMES)


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


def whole_percent(change: float) -> str:
    """Write per cents as the nearest whole, halves away from zero, without a sign: "9 %"."""
    return f"{math.floor(abs(change) + 0.5)} %"


def share_words(value: float, reference: float, kind: str) -> str:
    """Write a value in per cent of the reference's, with how that is known: "91 % of measured"."""
    share = share_of(value, reference)
    return f"{math.floor(share + 0.5)} % of {kind}" if math.isfinite(share) else "no per cent"


def capital(text: str) -> str:
    """Begin a text with a capital."""
    return text[:1].upper() + text[1:]
