"""The smaller parts of a kept plan as plain data, and back: read with distrust."""

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import asdict
from datetime import date
from typing import Any, TypeVar

from app.records.tables import LONGEST_INITIALS
from model.ball import Ball
from model.checks import InputError
from model.ladder import HELD_DOWN, Most
from model.stop_signs import Signed, StopSign

LONGEST_NOTE = 200
LONGEST_WORDS = 500
MOST_LOGGED = 400
FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 12, 31)  # days are counted one by one
MARK = re.compile(r"[0-9a-f]{0,64}")
NO_LETTERS = ("Cc", "Cs")  # control characters, and halves of a character that no encoding takes
LARGEST = 1e9

Made = TypeVar("Made")


def number(given: object) -> float:
    """Read a number."""
    if isinstance(given, bool) or not isinstance(given, int | float) or not abs(given) <= LARGEST:
        raise TypeError("number")
    return float(given)


def whole(given: object) -> int:
    """Read a whole number."""
    found = number(given)
    if found != int(found):
        raise ValueError("whole number")
    return int(found)


def place(given: object) -> int:
    """Read a place in a list."""
    found = whole(given)
    if not 0 <= found <= 10_000:
        raise ValueError("place")
    return found


def truth(given: object) -> bool:
    """Read yes or no."""
    if not isinstance(given, bool):
        raise TypeError("yes or no")
    return given


def text(given: object, longest: int) -> str:
    """Read a text of printable characters."""
    if not isinstance(given, str) or len(given) > longest:
        raise TypeError("text")
    if any(unicodedata.category(letter) in NO_LETTERS for letter in given):
        raise InputError("text", ascii(given)[:40], "printable characters")
    return given


def mark(given: object) -> str:
    """Read what tells a plan from others."""
    if not isinstance(given, str) or not MARK.fullmatch(given):
        raise TypeError("mark")
    return given


def listed(given: object, most: int) -> list[Any]:
    """Read a list that is not too long."""
    if not isinstance(given, list) or len(given) > most:
        raise TypeError("list")
    return given


def day(given: object) -> date:
    """Read a day."""
    found = date.fromisoformat(text(given, 10))
    if not FIRST_DAY <= found <= LAST_DAY:
        raise InputError("day", str(found), f"{FIRST_DAY} to {LAST_DAY}")
    return found


def maybe(given: Any, read: Callable[[Any], Made]) -> Made | None:
    """Read what may be missing."""
    return None if given is None else read(given)


def numbers(kept: dict[str, Any], but: Iterable[str] = ()) -> dict[str, Any]:
    """Read numbers by name, some of which may be missing or are none."""
    return {name: one if name in but or one is None else number(one) for name, one in kept.items()}


def ball(kept: dict[str, Any]) -> Ball:
    """Read a ball."""
    return Ball(number(kept["mass_kg"]), number(kept["diameter_m"]))


def plain(given: object) -> object:
    """What JSON has no word for, as text."""
    if isinstance(given, date):
        return given.isoformat()
    raise TypeError(type(given).__name__)


def read_signed(kept: dict[str, Any]) -> Signed:
    """Read who decided or recorded something."""
    return Signed(text(kept["by"], LONGEST_INITIALS), kept["role"], day(kept["on"]), text(kept["words"], LONGEST_WORDS))


def _signed_json(one: Signed | None) -> dict[str, str] | None:
    return None if one is None else {"by": one.by, "role": one.role, "on": one.on.isoformat(), "words": one.words}


def sign_json(one: StopSign) -> dict[str, Any]:
    """Write a stop sign."""
    return {
        "sign": one.sign,
        "since": one.since.isoformat(),
        "session": one.session,
        "plan": one.plan,
        "entered": _signed_json(one.entered),
        "cleared": _signed_json(one.cleared),
        "withdrawn": _signed_json(one.withdrawn),
    }


def read_sign(kept: dict[str, Any]) -> StopSign:
    """Read a stop sign."""
    return StopSign(
        kept["sign"],
        day(kept["since"]),
        maybe(kept["session"], place),
        read_signed(kept["entered"]),
        maybe(kept["cleared"], read_signed),
        maybe(kept["withdrawn"], read_signed),
        mark(kept["plan"]),
    )


def most_json(one: Most | None) -> dict[str, Any] | None:
    """Write what a session is no more than."""
    return None if one is None else asdict(one) | {"metrics": dict(one.metrics)}


def read_most(kept: Any) -> Most | None:
    """Read what a session is no more than."""
    if kept is None:
        return None
    metrics = {key: number(kept["metrics"][key]) for key in HELD_DOWN}
    return Most(max(1, whole(kept["throws"])), number(kept["area_nms"]), metrics)
