"""From the list to numbers: each throw's curve and readings, and how they stand to the reference throw."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from app.records import tables
from app.show.kept import to_mend
from app.show.listed_throw import HOLDS, OTHER, REFERENCE_HELD, ListedThrow
from app.show.quantities import reading_named
from app.show.subject import Reference
from app.units.conversion import array_from_si, percent_bwh
from app.units.systems import METRIC, System
from model.ball import DEFAULT_DIAMETER_M
from model.channels import Reading
from model.person import Person
from model.readouts import Readouts, read_curves
from model.throw import Curves, Throw, curves

Array = NDArray[np.float64]

LABEL_DOT = " · "
HALF_PEAK = 0.5  # the default level of "time above", as a share of the reference throw's peak


@dataclass(frozen=True)
class Thrower:
    """Who throws: the code, the person once all measures are known, and the labels of those that are missing."""

    code: str = ""
    person: Person | None = None
    missing: tuple[str, ...] = ()


@dataclass(frozen=True)
class Answer:
    """One line of the list, worked out.

    Attributes
    ----------
    throw : ListedThrow
    number : int
        Its place in the list, from 1.
    reference : bool
        Whether it is the reference.
    curves : Curves or None
        All its curves; None if person, ball or speed are missing.
    readouts : Readouts or None
        The readings of the chosen quantity.
    system : System
        The units of its name.
    person : Person or None
        Who throws it.
    who : str
        What the thrower is called, where there are two.
    """

    throw: ListedThrow
    number: int
    reference: bool
    curves: Curves | None = None
    readouts: Readouts | None = None
    system: System = METRIC
    person: Person | None = None
    who: str = ""

    @property
    def key(self) -> str:
        """The uid of its row."""
        return self.throw.uid

    @property
    def name(self) -> str:
        """Ball and speed in words, such as "275 g at 28.5 m/s"; the place in the list where these are missing. Of two
        throwers it begins with whose throw it is: "W02 with 275 g at 28.5 m/s".
        """
        if not self.thrown:
            return f"throw {self.number}"
        return f"{self.who} with {self.thrown}" if self.who else self.thrown

    @property
    def label(self) -> str:
        """The same as it stands on its curve, such as "W02 · 275 g · 28.5 m/s"."""
        thrown = self.thrown.replace(" at ", LABEL_DOT)
        return f"{self.who}{LABEL_DOT}{thrown}" if self.who else thrown

    @property
    def thrown(self) -> str:
        """Ball and speed in words; nothing where these are missing."""
        ball, say = self.throw.ball, self.system.text
        if ball is None or self.throw.speed_m_s is None:
            return ""
        size = "" if ball.diameter_m == DEFAULT_DIAMETER_M else f" ({say(ball.diameter_m, 'mm')})"
        typed = self.throw.hold == "speed"  # a speed that follows from a hold is not known to 0.01 m/s
        speed = say(self.throw.speed_m_s, "m/s", least=1, most=2 if typed else 1)
        return f"{say(ball.mass_kg, 'g')}{size} at {speed}"

    @property
    def thrower(self) -> str:
        """Who throws it: "" or `OTHER`."""
        return self.throw.thrower

    def time_ms(self) -> Array:
        """Time from release (ms) of the points of its curve."""
        return array_from_si(self._drawn.time_s, "ms")

    def value(self, reading: Reading) -> Array:
        """The chosen quantity, with the sign that is read as positive."""
        return reading.sign * self._drawn.values[reading.channel]

    @property
    def throw_drawn(self) -> Throw:
        """Who throws what how fast."""
        return self._drawn.throw

    @property
    def _drawn(self) -> Curves:
        if self.curves is None:
            raise ValueError(f"{self.name} has no curve")
        return self.curves


@dataclass(frozen=True)
class Comparison:
    """Everything the page shows, as numbers and words.

    Attributes
    ----------
    throwers : mapping of str to Thrower
        The first (""), and the second (`OTHER`) where there is one.
    answers : tuple of Answer
        One for each line of the list, in its order.
    reading : Reading
        The chosen quantity.
    kind : str
        How the reference is known, in the word that stands beside every per cent.
    known : str
        The same in full, with its date where there is one.
    level : float or None
        The level of "time above", in the quantity's unit.
    level_typed : bool
        Whether the level was typed (else it is half the reference's peak).
    day_missing : str
        Said of a reference that needs its day and has none.
    align, scale : str
        How the curves are laid over one another and measured, as its row has it.
    system : System
        The units of its words.
    """

    throwers: Mapping[str, Thrower]
    answers: tuple[Answer, ...]
    reading: Reading
    kind: str
    known: str
    level: float | None
    level_typed: bool
    day_missing: str = ""
    align: str = "release"
    scale: str = "plain"
    system: System = METRIC

    @property
    def people(self) -> tuple[Person, ...]:
        """Who throws, as far as all measures could be read; a second thrower only where a throw of theirs is drawn."""
        drawn = {answer.thrower for answer in self.drawn} | {""}
        return tuple(who.person for key, who in self.throwers.items() if key in drawn and who.person is not None)

    @property
    def codes(self) -> tuple[str, ...]:
        """The codes of those whose throws are drawn, or else of the first thrower; without those that have none."""
        drawn = {answer.thrower for answer in self.drawn} or {""}
        return tuple(who.code for key, who in self.throwers.items() if key in drawn and who.code)

    @property
    def drawn(self) -> tuple[Answer, ...]:
        """The throws that have a curve."""
        return tuple(answer for answer in self.answers if answer.curves is not None)

    @property
    def reference(self) -> Answer | None:
        """The reference throw, if it has a curve."""
        return next((answer for answer in self.drawn if answer.reference), None)

    @property
    def compared(self) -> tuple[Answer, ...]:
        """The throws that are compared with the reference."""
        return tuple(answer for answer in self.drawn if not answer.reference)

    @property
    def two(self) -> bool:
        """Whether a throw of the second thrower is drawn."""
        return any(answer.thrower for answer in self.drawn)


def compare(
    row: tables.Comparison, throws: Sequence[ListedThrow], throwers: Mapping[str, Thrower], system: System = METRIC
) -> Comparison:
    """Work out all that the page shows.

    Parameters
    ----------
    row : app.records.tables.Comparison
        What is asked: quantity, reference, level and the like.
    throws : sequence of ListedThrow
    throwers : mapping of str to Thrower
    system : System
        The units of names and messages.

    Returns
    -------
    Comparison
    """
    reading = reading_named(row.quantity)
    people = [throwers[line.thrower].person if line.thrower in throwers else None for line in throws]
    thrown = [_throw(line, person) for line, person in zip(throws, people, strict=True)]
    places = {line.uid: place for place, line in enumerate(throws)}
    reference = None if row.reference is None else places.get(row.reference)
    level = row.above
    if level is None and reference is not None:
        level = _half_peak(thrown[reference], reading)
    answers = tuple(
        Answer(
            throw=line,
            number=number,
            reference=line.uid == row.reference,
            curves=None if throw is None else _curves(throw),
            readouts=None if throw is None else _readouts(throw, reading.key, level),
            system=system,
            person=person,
            who=called(throwers, line.thrower),
        )
        for number, (line, throw, person) in enumerate(zip(throws, thrown, people, strict=True), start=1)
    )
    kind, known = reference_words(row, None if reference is None else throws[reference])
    needs_day = row.kind == "before_injury" and row.day is None and kind not in REFERENCE_HELD.values()
    return Comparison(
        throwers,
        answers,
        reading,
        kind,
        known,
        level,
        row.above is not None,
        to_mend(["day of the reference"]) if needs_day else "",
        row.align,
        row.scale,
        system,
    )


def called(throwers: Mapping[str, Thrower], thrower: str) -> str:
    """What a thrower is called, where there are two."""
    return throwers[thrower].code if OTHER in throwers and thrower in throwers else ""


def reference_words(row: tables.Comparison, throw: ListedThrow | None) -> tuple[str, str]:
    """Say how the reference is known: the word beside every per cent, and in full with its day.

    What follows from a clock or a profile was not measured, whatever was chosen.
    """
    if throw is not None and throw.hold != "speed":
        return REFERENCE_HELD[throw.hold], f"held at the {HOLDS[throw.hold]}"
    known = Reference(kind=row.kind, day=row.day)
    return known.word, known.known


def _throw(line: ListedThrow, person: Person | None) -> Throw | None:
    if person is None or line.ball is None or line.speed_m_s is None:
        return None
    return Throw(person, line.ball, line.speed_m_s)


@lru_cache(maxsize=128)
def _curves(throw: Throw) -> Curves:
    """A throw's curves; kept, because a change of one throw leaves the others as they are."""
    return curves(throw)


@lru_cache(maxsize=512)
def _readouts(throw: Throw, key: str, level: float | None) -> Readouts:
    """A throw's readings; kept likewise."""
    return read_curves(_curves(throw), key, above=level)


def _half_peak(reference: Throw | None, reading: Reading) -> float | None:
    if reference is None:
        return None
    peak = _readouts(reference, reading.key, None).peak
    return HALF_PEAK * peak if math.isfinite(peak) and peak > 0.0 else None


def bwh_of(torque_nm: float, person: Person) -> float:
    """A torque in per cent of this person's body weight times height.

    Parameters
    ----------
    torque_nm : float
    person : Person

    Returns
    -------
    float
        %BW·H.
    """
    return percent_bwh(torque_nm, person.body_mass_kg, person.stature_m)
