"""From the form to numbers: each throw's curve and readings, and how they stand to the reference throw."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from app.pages.compare.checks import check_above, check_throwers, throw_of
from app.show.checks import CheckedAthlete, CheckedThrow, check_reference, check_throw
from app.show.quantities import reading_named
from app.show.throw_form import ALIGNED, OTHER, SCALES, Form
from app.units.conversion import array_from_si, percent_bwh
from app.units.conversion import plain as plain
from app.units.systems import METRIC, System
from model.ball import DEFAULT_DIAMETER_M
from model.channels import Reading
from model.person import Person
from model.readouts import Readouts, read_curves
from model.speed import SpeedProfile
from model.throw import Curves, Throw, curves

Array = NDArray[np.float64]

LABEL_DOT = " · "
HALF_PEAK = 0.5  # the default level of "time above", as a share of the reference throw's peak


NAMELESS = {"": "first thrower", OTHER: "second thrower"}
"""What a thrower without a code is called, where there are two."""

NO_PROFILES: Mapping[str, SpeedProfile] = MappingProxyType({})


@dataclass(frozen=True)
class Answer:
    """One line of the list, worked out.

    Attributes
    ----------
    key : str
        The throw's key in the form.
    number : int
        Its place in the list, from 1.
    reference : bool
        Whether it is the reference.
    checked : CheckedThrow
        What could be read, and the messages.
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

    key: str
    number: int
    reference: bool
    checked: CheckedThrow
    curves: Curves | None = None
    readouts: Readouts | None = None
    system: System = METRIC
    person: Person | None = None
    who: str = ""

    @property
    def name(self) -> str:
        """Ball and speed in words, such as "275 g at 28.5 m/s"; the place in the list where these are missing. Of two
        throwers it begins with whose throw it is: "W02 with 275 g at 28.5 m/s".
        """
        if self.checked.ball is None or self.checked.speed_m_s is None:
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
        if self.checked.ball is None or self.checked.speed_m_s is None:
            return ""
        ball, say = self.checked.ball, self.system.text
        size = "" if ball.diameter_m == DEFAULT_DIAMETER_M else f" ({say(ball.diameter_m, 'mm')})"
        typed = self.checked.form.held == "speed"  # a speed that follows from a hold is not known to 0.01 m/s
        speed = say(self.checked.speed_m_s, "m/s", least=1, most=2 if typed else 1)
        return f"{say(ball.mass_kg, 'g')}{size} at {speed}"

    @property
    def thrower(self) -> str:
        """Who throws it: "" or `OTHER`."""
        return self.checked.form.thrower

    def time_ms(self) -> Array:
        """Time from release (ms) of the points of its curve."""
        return array_from_si(self._drawn.time_s, "ms")

    def value(self, reading: Reading) -> Array:
        """The chosen quantity, with the sign that is read as positive."""
        return reading.sign * self._drawn.values[reading.channel]

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
    throwers : mapping of str to CheckedAthlete
        The first ("") and the second (`OTHER`).
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
    date_problem, level_problem : str
        Messages for these two fields, or nothing.
    align, scale : str
        How the curves are laid over one another and measured, as `Form` has it.
    system : System
        The units of its words.
    """

    throwers: Mapping[str, CheckedAthlete]
    answers: tuple[Answer, ...]
    reading: Reading
    kind: str
    known: str
    level: float | None
    level_typed: bool
    date_problem: str
    level_problem: str
    align: str = "release"
    scale: str = "plain"
    system: System = METRIC

    @property
    def athlete(self) -> CheckedAthlete:
        """The first thrower."""
        return self.throwers[""]

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

    def problems(self) -> Mapping[str, Mapping[str, str]]:
        """For each line of the list, its messages by field."""
        return {answer.key: answer.checked.problems for answer in self.answers}


def compare(
    form: Form, today: date, profiles: Mapping[str, SpeedProfile] = NO_PROFILES, system: System = METRIC
) -> Comparison:
    """Work out all that the page shows.

    Parameters
    ----------
    form : Form
        As typed.
    today : date
        No reference was measured after it.
    profiles : mapping of str to SpeedProfile
        By thrower, for the throws that are held on them.
    system : System
        The units of names and messages.

    Returns
    -------
    Comparison
    """
    throwers = check_throwers(form, system)
    reading = reading_named(form.quantity)
    kind, known, date_problem = check_reference(form, today)
    typed_level, level_problem = check_above(form.above, reading.unit)
    people = [throwers[throw.thrower].person for throw in form.throws]
    checked = [
        check_throw(throw, person, profiles.get(throw.thrower), system)
        for throw, person in zip(form.throws, people, strict=True)
    ]
    thrown = [None if person is None else throw_of(person, line) for person, line in zip(people, checked, strict=True)]
    called = {key: (who.code or NAMELESS[key]) if form.two else "" for key, who in throwers.items()}
    level = typed_level
    if level is None and not level_problem:
        level = _half_peak(thrown, form, reading)
    answers = tuple(
        Answer(
            key=line.form.key,
            number=number,
            reference=line.form.key == form.reference,
            checked=line,
            curves=None if throw is None else _curves(throw),
            readouts=None if throw is None else _readouts(throw, reading.key, level),
            system=system,
            person=throwers[line.form.thrower].person,
            who=called[line.form.thrower],
        )
        for number, (line, throw) in enumerate(zip(checked, thrown, strict=True), start=1)
    )
    return Comparison(
        throwers,
        answers,
        reading,
        kind,
        known,
        level,
        typed_level is not None,
        date_problem,
        level_problem,
        form.align if form.align in ALIGNED else "release",
        form.scale if form.scale in SCALES else "plain",
        system,
    )


@lru_cache(maxsize=128)
def _curves(throw: Throw) -> Curves:
    """A throw's curves; kept, because a change of one throw leaves the others as they are."""
    return curves(throw)


@lru_cache(maxsize=512)
def _readouts(throw: Throw, key: str, level: float | None) -> Readouts:
    """A throw's readings; kept likewise."""
    return read_curves(_curves(throw), key, above=level)


def _half_peak(thrown: Sequence[Throw | None], form: Form, reading: Reading) -> float | None:
    place = form.place(form.reference)
    reference = thrown[place] if place >= 0 else None
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
