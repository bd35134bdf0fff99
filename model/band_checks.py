"""What is in print of differences between throws, held against the structural band.

Each check says whether it was used in making the band: the two of effort were (1 - beta is theirs), so that they prove
nothing; the others were not.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from model.ball import Ball
from model.drawn_throws import Subject, Thrown, on_profile
from model.equivalent_mass import equivalent_mass
from model.person import Person
from model.published import values
from model.solve_recipe import REFERENCE_BALL, REFERENCE_PERSON
from model.speed import fit_athlete, speed_ratio
from model.structural_band import BandDifference, differences
from model.throw import path_loads

FULL_M_S = 37.0  # of the reference throw
CHILD = Subject(Person("male", 1.48, 41.0, 11.1), Ball(0.142), 24.0)  # speed taken
TRAINED_P, CHILD_P = 0.76, 0.25  # how much each slows with a heavier ball (judgement, from speeds in print)
SAME_WITHIN = 0.10  # of the peak: as the literature leaves the sign over 4 to 7 oz


@dataclass(frozen=True)
class BandCheck:
    """A difference of the varus peak in print, and what the band makes of it.

    Attributes
    ----------
    about : {'effort', 'trained', 'youth', 'sign'}
    sources : tuple of str
        Ids of the rows of `published/values.csv`; none for what the literature as a whole leaves open.
    throw, reference : Thrown
        The first is held against the second.
    exponent : float
        Taken of the speed profile; NaN where none is, or all that is known before any reading.
    printed : float
        Relative; NaN where only a direction is printed.
    direction : int
        Printed: +1 more, -1 less, 0 not known.
    found : BandDifference
        Best estimate, 90 % interval and probabilities.
    used : bool
        Whether the band was made with it.
    """

    about: str
    sources: tuple[str, ...]
    throw: Thrown
    reference: Thrown
    exponent: float
    printed: float
    direction: int
    found: BandDifference
    used: bool

    @property
    def agrees(self) -> bool:
        """Print within the interval; or the printed direction the likelier; or no sign, and within a tenth."""
        if np.isfinite(self.printed):
            return self.found.low <= self.printed <= self.found.high
        if self.direction:
            return bool((self.found.probability_more if self.direction > 0 else self.found.probability_less) > 0.5)
        return self.found.answer(True).verdict == "cannot tell" and abs(self.found.best) <= SAME_WITHIN


@cache
def band_checks() -> tuple[BandCheck, ...]:
    """Hold print against the band.

    Returns
    -------
    tuple of BandCheck
        Two of effort, trained throwers, youth, and the sign that is not known.
    """
    return tuple(check for checks in (_efforts, _balls) for check in checks())


def _peak(subject: Subject, throw: Thrown, reference: Thrown) -> BandDifference:
    key = ("varus", "peak")
    return differences(subject, [throw], reference, [key])[0][key]


def _efforts() -> Iterator[BandCheck]:
    subject = Subject(REFERENCE_PERSON, REFERENCE_BALL, FULL_M_S)
    full = Thrown(REFERENCE_BALL, FULL_M_S)
    for speed_row, torque_row in (
        ("4-effort-distance-10", "4-effort-distance-09"),
        ("4-effort-distance-12", "4-effort-distance-11"),
    ):
        speed, torque = (values()[row].number / 100.0 for row in (speed_row, torque_row))
        slower = Thrown(REFERENCE_BALL, FULL_M_S * (1.0 + speed))
        found = _peak(subject, slower, full)
        yield BandCheck("effort", (torque_row, speed_row), slower, full, np.nan, torque, -1, found, used=True)


def _slowed(subject: Subject, mass_kg: float, p: float) -> Thrown:
    own = subject.own_ball
    mu_kg = equivalent_mass(path_loads(subject.person, own.diameter_m), own.mass_kg).mass_kg
    ratio = float(speed_ratio(mass_kg, own.mass_kg, mu_kg, p))
    return Thrown(Ball(mass_kg, own.diameter_m), subject.full_speed_m_s * ratio)


def _balls() -> Iterator[BandCheck]:
    man = Subject(REFERENCE_PERSON, REFERENCE_BALL, FULL_M_S)
    for about, source, subject, heavy, light, p, direction in (
        ("trained", "3-ball-mass-03", man, 0.198, 0.113, TRAINED_P, -1),
        ("youth", "3-ball-mass-10", CHILD, 0.142, 0.113, CHILD_P, 1),
    ):
        throw, reference = (_slowed(subject, mass, p) for mass in (heavy, light))
        found = _peak(subject, throw, reference)
        yield BandCheck(about, (source,), throw, reference, p, np.nan, direction, found, used=False)
    profile = fit_athlete(man.person, man.own_ball, [], own_speed_m_s=FULL_M_S)
    reference, throw = on_profile(profile, (Ball(0.113), Ball(0.198)))
    found = _peak(man, throw, reference)
    yield BandCheck("sign", (), throw, reference, np.nan, np.nan, 0, found, used=False)
