"""Typed numbers and their units: what was typed is kept as it is, whatever unit it is shown in.

A kept text without a unit is in its field's metric unit. One that was typed in another unit carries that: typed with
the number ("5 oz"), or, where the reader's unit stood beside the field, set behind it with a no-break space. So what
was typed by hand can be told from what was added, and stands again as it was.
"""

import re
from dataclasses import dataclass

from app.units.conversion import (
    FEET,
    INCHES_PER_FOOT,
    LEAST_PLACES,
    PLACES,
    UNITS,
    feet_and_inches,
    from_si,
    plain,
    to_si,
)

ADDED = "\u00a0"
"""Stands before a unit that was not typed."""

NUMBER = re.compile(r"[+\-\u2212]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)")

_CUSTOMARY = {"oz": "oz", "lb": "lb", "lbs": "lb", "in": "in", '"': "in", "\u2033": "in", "ft": "ft", "'": "ft"}
_SYMBOLS = {"g": "g", "kg": "kg", "mm": "mm", "cm": "cm", "m": "m", "m/s": "m/s", "mph": "mph", "\u2032": "ft"}
_WRITTEN = _CUSTOMARY | _SYMBOLS
_NOT_METRIC = frozenset({"oz", "lb", "in", "ft", FEET, "mph"})
_WITH_UNIT = re.compile(rf"({NUMBER.pattern})\s*([^\s0-9.,]+)")
_FEET = re.compile(r"([0-9]{1,2})\s*(?:ft|'|\u2032)\s*([0-9]+(?:[.,][0-9]*)?)\s*(?:in|\"|\u2033|'')?")


@dataclass(frozen=True)
class Typed:
    """A number as it was typed, and its unit: a key of `UNITS`; feet and inches as a number of feet."""

    number: float
    unit: str

    @property
    def si(self) -> float:
        """The number in SI."""
        return to_si(self.number, self.unit)


def read_typed(text: str, metric: str) -> Typed | None:
    """Read a kept text.

    Parameters
    ----------
    text : str
        A number with a point or a comma for the decimals, and a unit or none.
    metric : str
        The unit of its field.

    Returns
    -------
    Typed or None
        None if it is no such text, or its unit is of another kind than the field's.
    """
    typed = text.strip()
    kind = UNITS[metric].si_symbol
    if NUMBER.fullmatch(typed):
        return Typed(_number(typed), metric)
    feet = _FEET.fullmatch(typed)
    if feet:
        inches = _number(feet[2])
        return (
            Typed(int(feet[1]) + inches / INCHES_PER_FOOT, FEET) if kind == "m" and inches < INCHES_PER_FOOT else None
        )
    parts = _WITH_UNIT.fullmatch(typed)
    unit = _WRITTEN.get(parts[2].lower(), "") if parts else ""
    if not parts or not unit or UNITS[unit].si_symbol != kind or kind not in ("kg", "m", "m/s"):
        return None
    return Typed(_number(parts[1]), unit)


def as_typed(kept: str) -> str:
    """The text as it was typed: without the unit that was added."""
    typed, mark, unit = kept.rpartition(ADDED)
    return typed if mark and unit in UNITS else kept


def shown_text(kept: str, metric: str, shown: str) -> str:
    """What a field shows of a kept text.

    Parameters
    ----------
    kept : str
    metric : str
        The unit of the field's name, in which a text without a unit is.
    shown : str
        The unit that stands beside the field.

    Returns
    -------
    str
        As it was typed, if in a unit of the same system as the shown one, or if it is no number; else converted.
    """
    typed = read_typed(kept, metric)
    if typed is None:
        return as_typed(kept)
    if (typed.unit in _NOT_METRIC) == (shown in _NOT_METRIC):
        return as_typed(kept)
    if shown == FEET and typed.si >= 0.0:
        return feet_and_inches(typed.si)
    return plain(from_si(typed.si, shown), LEAST_PLACES.get(shown, 0), PLACES[shown])


def with_point(text: str) -> str:
    """A number, with its unit or none, with a point for the decimals, as it stands in sentences; others as they are."""
    is_number = any(one.fullmatch(text.strip()) for one in (NUMBER, _WITH_UNIT, _FEET))
    return text.replace(",", ".") if is_number else text


def kept_text(text: str, before: str, metric: str, shown: str) -> str:
    """What is kept of a field's text.

    Parameters
    ----------
    text : str
        As it stands on the page.
    before : str
        The kept text that the field was last made from.
    metric, shown : str
        As for `shown_text`.

    Returns
    -------
    str
        The text of before, if the field still shows it; else the new text, with its unit where that is not the
        metric one and was not typed.
    """
    if text == shown_text(before, metric, shown):
        return before
    bare = "in" if shown == FEET else shown  # feet are always typed with their unit
    number = read_typed(text, metric)
    with_unit = number is not None and not NUMBER.fullmatch(text.strip())
    return text if shown == metric or with_unit or not text.strip() else f"{text}{ADDED}{bare}"


def _number(text: str) -> float:
    return float(text.replace(",", ".").replace("\u2212", "-"))
