"""Checks of what is put in: a value outside its accepted range is refused by name, never repaired in silence."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np


class InputError(ValueError):
    """A value that cannot be used, with all a person needs to mend it.

    Attributes
    ----------
    field : str
        Name of the value, with its unit where it has one (``stature_m``).
    given : object
        What was given, as it was given.
    accepted : str
        What would have been accepted, in words.
    """

    def __init__(self, field: str, given: object, accepted: str) -> None:
        self.field = field
        self.given = given
        self.accepted = accepted
        shown = repr(given)
        if len(shown) > 60:
            shown = shown[:57] + "..."
        super().__init__(f"{field}: {shown} given; accepted: {accepted}")


@dataclass(frozen=True)
class Limit:
    """The accepted range of a number, both ends included, in the SI unit named."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g} {self.unit}".rstrip()


def check_number(field: str, given: object, limit: Limit) -> float:
    """Return a number that lies inside its limit.

    Parameters
    ----------
    field : str
        Name used in the message.
    given : object
        The value to check; a bool, a text, NaN or an infinity is no number here.
    limit : Limit
        The accepted range, in the unit of ``given``.

    Returns
    -------
    float
        The same number.

    Raises
    ------
    InputError
        If it is not a finite number inside the limit.
    """
    if isinstance(given, bool | np.bool_ | str | bytes | bytearray):
        raise InputError(field, given, f"a number from {limit}")
    try:
        number = float(given)  # type: ignore[arg-type]
    except (TypeError, ValueError, OverflowError):
        raise InputError(field, given, f"a number from {limit}") from None
    if not math.isfinite(number) or not limit.low <= number <= limit.high:
        raise InputError(field, given, f"a number from {limit}")
    return number


def check_choice(field: str, given: object, choices: Iterable[str]) -> str:
    """Return a word that is one of the choices.

    Parameters
    ----------
    field : str
        Name used in the message.
    given : object
        The word to check.
    choices : iterable of str
        The accepted words.

    Returns
    -------
    str
        The same word.

    Raises
    ------
    InputError
        If it is none of the choices.
    """
    words = tuple(choices)
    if not isinstance(given, str) or given not in words:
        raise InputError(field, given, " or ".join(words))
    return given
