"""A field of the records: what it is called, what is accepted, how a typed text is read, and how a value is shown.

This is the one place for all of it. A number is typed with a point or a comma for the decimals, and with a unit of its
kind behind it or none (`app.units.typed`); there are no thousands separators, so no text can be read in two ways.
"""

import math
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from types import MappingProxyType
from typing import Any

from app.units.conversion import from_si, range_in, to_si
from app.units.systems import METRIC, System
from app.units.typed import as_typed, kept_text, read_typed, shown_text, with_point
from model.checks import InputError, Limit

EARLIEST_DAY = date(1990, 1, 1)
LATEST_DAY = date(2100, 12, 31)
AHEAD = timedelta(days=1)  # a day that has begun elsewhere on earth is no mistake
LONGEST_NUMBER = 40  # characters
SHOWN_CHARACTERS = 24  # of a wrong text, in its message

FLAGS = {"yes": True, "no": False}
NO_CHOICES: Mapping[str, str] = MappingProxyType({})

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NOT_IN_NOTES = frozenset({"Cc", "Cs", "Co", "Cn"})


@dataclass(frozen=True)
class Parsed:
    """A text that was read: its value (SI), and the text itself where that says more than the value does."""

    value: Any
    typed: str = ""


@dataclass(frozen=True)
class Field:
    """A field.

    Attributes
    ----------
    path : str
        Table and column, or group and name of a setting, with a point between.
    label : str
        As it is printed.
    kind : str
        number, whole, choice, flag, day, text, note, link or body.
    unit : str
        Of a number, as it is typed where no other unit is: a key of `app.units.conversion.UNITS`. Of a text, that of
        the ball masses it is made of.
    limit : Limit or None
        What is accepted of a number, in SI.
    choices : mapping of str to str
        Accepted words, and what they are called; of a text that is made of several, what each of them is called.
    needed : bool
        Whether it cannot be emptied.
    longest : int
        Characters of a text.
    default : object
        What stands for a setting that was never set.
    ahead : bool
        Whether a day may be in the future.
    stature : bool
        Whether it is a person's height, which some read in feet and inches.
    to : str
        Table that a link leads to.
    hint : str
        What it is, where the label does not say it.
    """

    path: str
    label: str
    kind: str = "number"
    unit: str = ""
    limit: Limit | None = None
    choices: Mapping[str, str] = field(default_factory=lambda: NO_CHOICES, hash=False)
    needed: bool = False
    longest: int = LONGEST_NUMBER
    default: Any = None
    ahead: bool = False
    stature: bool = False
    to: str = ""
    hint: str = ""

    @property
    def group(self) -> str:
        """The table, or the group of settings."""
        return self.path.partition(".")[0]

    @property
    def name(self) -> str:
        """The column, or the setting's name in its group."""
        return self.path.partition(".")[2]

    @property
    def of(self) -> Limit:
        """The accepted range of a number."""
        if self.limit is None:
            raise TypeError(f"{self.path} is no number")
        return self.limit

    def unit_in(self, system: System) -> str:
        """The unit that stands beside the field."""
        return system.stature if self.stature else system.unit(self.unit)

    def accepted(self, system: System = METRIC, today: date | None = None) -> str:
        """Say what is accepted, in the reader's units."""
        if self.kind in ("number", "whole"):
            whole = "a whole number, " if self.kind == "whole" else ""
            return whole + range_in(self.of, self.unit_in(system))
        if self.kind == "choice":
            return " or ".join(self.choices.values())
        if self.kind == "flag":
            return " or ".join(FLAGS)
        if self.kind == "day":
            return f"year-month-day from {EARLIEST_DAY} to {self._last_day(today)}"
        if self.kind == "link":
            return f"one of the {self.to}s"
        return f"{'1' if self.needed else '0'} to {self.longest} printable characters"

    def parse(self, text: str, system: System = METRIC, before: str = "", today: date | None = None) -> Parsed:
        """Read what was typed or chosen.

        Parameters
        ----------
        text : str
            As it stands on the page.
        system : System
            The units that the field shows.
        before : str
            What is kept of the field now, see `kept`: a field that still shows it was not typed into.
        today : date, optional
            The last day that is accepted of a day.

        Returns
        -------
        Parsed

        Raises
        ------
        InputError
            With the label, what was given, and what is accepted in the reader's units.
        """
        if not text.strip():
            if self.needed:
                raise InputError(self.label, "", self.accepted(system, today))
            return Parsed("" if self.kind in ("text", "note") else None)
        if self.kind in ("number", "whole"):
            return self._number(text, system, before)
        value: Any = text.strip()
        if self.kind == "day":
            value = self._day(value, today)
        elif self.kind == "flag":
            value = FLAGS.get(value, value)
        elif self.kind in ("text", "note"):
            value = unicodedata.normalize("NFC", value)
        return Parsed(self.check(value, system, today))

    def _number(self, text: str, system: System, before: str) -> Parsed:
        bare = text.strip()
        if len(bare) > LONGEST_NUMBER:
            raise self._refused(text, system)
        if self.unit not in ("", "m", "g", "kg", "mm", "cm", "m/s"):  # those can be typed as `read_typed` knows them
            bare = bare.removesuffix(self.unit).strip()
        kept = kept_text(bare, before, self.unit, self.unit_in(system))
        typed = read_typed(kept, self.unit)
        if typed is None:
            raise self._refused(text, system, ", as a plain number with a point or a comma for decimals")
        value = self.check(typed.si, system, given=as_typed(text))
        return Parsed(value, "" if kept == self.kept(value) else kept)

    def _refused(self, given: object, system: System, hint: str = "", today: date | None = None) -> InputError:
        return InputError(self.label, given, self.accepted(system, today) + hint)

    def _day(self, text: str, today: date | None) -> date:
        try:
            if not _DAY.fullmatch(text):
                raise ValueError
            return date.fromisoformat(text)
        except ValueError:
            raise self._refused(text, METRIC, today=today) from None

    def _last_day(self, today: date | None) -> date:
        return LATEST_DAY if self.ahead else (today or date.today() + AHEAD)

    def check(self, value: Any, system: System = METRIC, today: date | None = None, given: object = None) -> Any:
        """Return a value (SI) that is accepted.

        Parameters
        ----------
        value : object
            None stands for nothing.
        system : System
            The units of the message.
        today : date, optional
            The last day that is accepted of a day.
        given : object
            What was typed, for the message.

        Returns
        -------
        object

        Raises
        ------
        InputError
            If it is of another kind, outside the range, or no choice.
        """
        if value is None:
            if self.needed:
                raise self._refused("", system, today=today)
            return None
        if not self._right(value, today):
            raise self._refused(value if given is None else given, system, today=today)
        return float(value) if self.kind == "number" else value

    def _right(self, value: Any, today: date | None) -> bool:
        if self.kind in ("number", "whole"):
            if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
                return False
            return self.of.low <= value <= self.of.high and (self.kind == "number" or value == int(value))
        if self.kind == "day":
            return type(value) is date and EARLIEST_DAY <= value <= self._last_day(today)
        if self.kind == "flag":
            return isinstance(value, bool)
        if self.kind == "body":
            return isinstance(value, dict)
        if not isinstance(value, str) or (self.needed and not value.strip()):
            return False
        if self.kind == "choice":
            return value in self.choices
        if self.kind == "note":
            plain = (unicodedata.category(one) not in _NOT_IN_NOTES or one in "\n\t" for one in value)
            return len(value) <= self.longest and all(plain)
        return len(value) <= self.longest and value.isprintable()

    def says(self, text: str, value: Any) -> bool:
        """Whether a typed text says a value (SI): one that comes from elsewhere may say another."""
        try:
            return bool(self.parse(text, today=LATEST_DAY).value == value)
        except InputError:
            return False

    def kept(self, value: Any, typed: str = "") -> str:
        """What is kept of a value as a text, without loss: the typed one, or the number in the field's metric unit."""
        if typed or value is None:
            return typed
        if self.kind in ("number", "whole"):
            number = from_si(value, self.unit)
            text = f"{number:.12g}"
            if "e" in text or to_si(float(text), self.unit) != value:
                text = f"{number:.17f}".rstrip("0").rstrip(".")
            return text
        if self.kind == "flag":
            return "yes" if value else "no"
        return str(value)

    def shown(self, value: Any, typed: str = "", system: System = METRIC) -> str:
        """What the field shows of a value.

        Parameters
        ----------
        value : object
            In SI; None for nothing.
        typed : str
            The text that was kept beside it, if any.
        system : System
            The reader's units.

        Returns
        -------
        str
            As it was typed, or converted where the reader has other units.
        """
        kept = self.kept(value, typed)
        if self.kind not in ("number", "whole"):
            return kept
        return shown_text(kept, self.unit, self.unit_in(system)) if kept else ""

    def told(self, value: Any, typed: str = "", system: System = METRIC) -> str:
        """Say a value in a sentence: with its unit, or by what its choice is called; "nothing" for none."""
        if value is None or value == "":
            return self.choices.get("", "nothing")
        if self.kind == "choice":
            return self.choices.get(value, str(value))
        if self.kind == "text" and (self.choices or self.unit):
            return ", ".join(filter(None, (self._one(key, system) for key in value.split()))) or "none"
        if self.kind in ("text", "note"):
            return f"“{value}”"
        shown = with_point(self.shown(value, typed, system))
        if self.kind not in ("number", "whole") or any(one.isalpha() for one in shown):
            return shown
        return f"{shown} {self.unit_in(system)}".strip()

    def _one(self, key: str, system: System) -> str:
        """What one of several keys in a text stands for: its choice, or a ball, by its mass."""
        ball = read_typed(key.partition("|")[0], self.unit) if self.unit else None
        return self.choices.get(key, key) if ball is None else system.text(ball.si, self.unit)


def in_words(error: InputError) -> str:
    """Say what is wrong with a typed value: field, value given, what is accepted."""
    given = str(error.given).strip()
    if not given:
        return f"{error.field}: nothing given; accepted: {error.accepted}."
    shown = given if len(given) <= SHOWN_CHARACTERS else given[: SHOWN_CHARACTERS - 1] + "…"
    return f"{error.field}: “{shown}” given; accepted: {error.accepted}."
