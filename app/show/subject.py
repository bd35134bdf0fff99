"""Who a page is about: the person, the own ball and how fast it is thrown, the readings that count, and what is fitted
to them.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property, lru_cache

from app.units.systems import METRIC, System
from model.ball import Ball
from model.ceilings import KINDS
from model.checks import InputError
from model.flight import Launch
from model.interval import Interval
from model.person import Person
from model.radar import Radar, release_speed
from model.speed import SpeedProfile, fit_athlete
from model.speed_readings import SAME_BALL_KG, RadarReading
from model.throw import Throw

ANY_SPEED_M_S = 10.0

ABOUT_TWICE = 2.0  # the ball it is shown for: the heavier one nearest to twice the own ball

OWN_BALL = Ball(0.145)  # while no own ball is known
JOINTS = {"varus": "elbow, varus torque", "internal_rotation": "shoulder, internal-rotation torque"}
KIND_WORDS = {"before_injury": "pre-injury"}
"""The word beside every per cent for a kind of reference that is not called by its key."""


class Fitted:
    """A profile that stands for what it was fitted to, so that answers that take long can be kept under it.

    Parameters
    ----------
    profile : SpeedProfile
    """

    def __init__(self, profile: SpeedProfile) -> None:
        self.profile = profile
        self._key = (profile.own_mass_kg, profile.mu_kg, profile.basis, profile.points, profile.common_relative_sd)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Fitted) and self._key == other._key

    def __hash__(self) -> int:
        return hash(self._key)


@dataclass(frozen=True)
class Reference:
    """The own ball and how fast it is thrown.

    Attributes
    ----------
    ball : Ball
        `OWN_BALL` if none is known.
    speed_m_s : float or None
    kind : str
        How the speed is known: a key of `model.ceilings.KINDS`.
    day : date or None
        When it was measured.
    found : bool
        Whether there is an own ball whose mass is known.
    """

    ball: Ball = OWN_BALL
    speed_m_s: float | None = None
    kind: str = "measured"
    day: date | None = None
    found: bool = False

    @property
    def word(self) -> str:
        """The word beside every per cent: measured, pre-injury or estimated."""
        return KIND_WORDS.get(self.kind, self.kind)

    @property
    def known(self) -> str:
        """The same in full, with the day where there is one: from before an injury, 2025-09-02."""
        if self.kind == "before_injury":
            return f"{KINDS[self.kind]}, {self.day or 'date not given'}"
        return f"{self.kind} {self.day}" if self.kind == "measured" and self.day else self.kind


@dataclass(frozen=True)
class Choices:
    """What was chosen or typed once for the speed profile; None for a number that was refused.

    Attributes
    ----------
    own_speed_m_s : float or None
        Full speed with the own ball that was typed.
    basis : str
        What the profile works from: a key of `model.speed_readings.BASES`.
    corrected : bool
        Whether readings are corrected to release speeds.
    radar : Radar or None
        Where the radar stands.
    joint : str
        Whose level points are shown: a key of `JOINTS`.
    cap_joint, cap_readout, cap_of : str
        What the speed caps hold level, and of which full speed: "profile" or "reference".
    cap_share : float or None
        Share of full speed.
    throw_ball : Ball or None
        Of a throw prescribed as a distance; None for the own one.
    distance_m : float or None
    launch : Launch or None
    """

    own_speed_m_s: float | None = None
    basis: str = "all"
    corrected: bool = False
    radar: Radar | None = None
    joint: str = "varus"
    cap_joint: str = "varus"
    cap_readout: str = "peak"
    cap_of: str = "profile"
    cap_share: float | None = None
    throw_ball: Ball | None = None
    distance_m: float | None = None
    launch: Launch | None = None


@dataclass(frozen=True)
class Found:
    """A speed profile and what it was made from.

    Attributes
    ----------
    profile : SpeedProfile or None
        None while measures are missing.
    used : tuple of RadarReading
        The readings as release speeds: corrected if the radar correction is on; in the order of `Case.readings`.
    common_relative_sd : float
        The error that all corrected readings share; 0 while the correction is off.
    own_speed : Interval or None
        Mean full speed with the own ball (m/s); None if nothing is known of it.
    """

    profile: SpeedProfile | None
    used: tuple[RadarReading, ...] = ()
    common_relative_sd: float = 0.0
    own_speed: Interval | None = None


@dataclass(frozen=True)
class Read:
    """A reading that counts, the ball it is of, and whether its speed is the release speed already, and no radar's."""

    reading: RadarReading
    ball: Ball
    release: bool = False


@dataclass(frozen=True)
class Case:
    """All that a page about an athlete starts from.

    Attributes
    ----------
    person : Person or None
        None while measures are missing.
    code : str
    missing : tuple of str
        Labels of the measures that are empty or were refused.
    reference : Reference
    balls : tuple of Ball
        The team's and the own one, light to heavy.
    readings : tuple of Read
        Those that count, by ball.
    choices : Choices
    system : System
        The units of what is said.
    """

    person: Person | None = None
    code: str = ""
    missing: tuple[str, ...] = ()
    reference: Reference = field(default_factory=Reference)
    balls: tuple[Ball, ...] = ()
    readings: tuple[Read, ...] = ()
    choices: Choices = field(default_factory=Choices)
    system: System = METRIC

    def mass(self, mass_kg: float) -> str:
        """Call a ball by its mass (kg), such as "145 g"."""
        return self.system.text(mass_kg, "g")

    def speed(self, speed_m_s: float) -> str:
        """Write a speed (m/s), without the unit."""
        return self.system.number(speed_m_s, "m/s", least=1, most=1)

    @property
    def speed_unit(self) -> str:
        """The unit of a speed."""
        return self.system.unit("m/s")

    @cached_property
    def found(self) -> Found:
        """The speed profile, and what it was made from."""
        return self.found_with(self.radar)

    @property
    def radar(self) -> Radar | None:
        """Where the radar stands whose readings are corrected; None while the correction is off."""
        return self.choices.radar if self.choices.corrected else None

    @property
    def profile(self) -> SpeedProfile | None:
        """The speed profile."""
        return self.found.profile

    @property
    def own_ball(self) -> Ball:
        """The athlete's own ball."""
        return self.reference.ball

    @property
    def full_speed_m_s(self) -> float | None:
        """Best estimate of the full speed with the own ball (m/s); None if nothing is known of it."""
        return None if self.found.own_speed is None else float(self.found.own_speed.estimate)

    @property
    def rack(self) -> tuple[Ball, ...]:
        """The athlete's balls, each mass once and the own ball among them, light to heavy."""
        balls = [self.own_ball]
        for ball in self.balls:
            if not any(is_same(ball, other) for other in balls):
                balls.append(ball)
        return tuple(sorted(balls, key=lambda ball: ball.mass_kg))

    @property
    def throw(self) -> Throw | None:
        """The own ball at full speed; None while person or speed are missing."""
        speed = self.full_speed_m_s
        if self.person is None or speed is None:
            return None
        try:
            return Throw(self.person, self.own_ball, speed)
        except InputError:
            return None  # an estimate beyond what a throw can be

    def found_with(self, radar: Radar | None) -> Found:
        """Fit the readings, corrected for where a radar stands, or as they are."""
        used, common = _release_speeds(self.readings, radar)
        if self.person is None:
            return Found(None, used, common)
        own, basis = self.choices.own_speed_m_s, self.choices.basis
        own = own if own is not None else self.reference.speed_m_s
        profile, own_speed = _fitted(self.person, self.own_ball, used, basis, own, common)
        return Found(profile, used, common, own_speed)


@lru_cache(maxsize=64)
def mean_speeds(fitted: Fitted, mass_kg: tuple[float, ...]) -> Interval:
    """Mean full-effort speed with each ball (m/s), kept for all that ask; as `SpeedProfile.mean_speed`."""
    return fitted.profile.mean_speed(mass_kg)


def is_same(ball: Ball, other: Ball) -> bool:
    """Whether two balls count as one: their masses differ by less than the model tells apart."""
    return abs(ball.mass_kg - other.mass_kg) < SAME_BALL_KG


@lru_cache(maxsize=64)
def _fitted(
    person: Person, own_ball: Ball, used: tuple[RadarReading, ...], basis: str, own: float | None, common: float
) -> tuple[SpeedProfile, Interval | None]:
    """Fit once for all the sections of the page, each of which asks on its own."""
    profile = fit_athlete(person, own_ball, used, basis=basis, own_speed_m_s=own, common_relative_sd=common)
    return profile, None if profile.posterior.own is None else profile.own_speed()


def _release_speeds(readings: Sequence[Read], radar: Radar | None) -> tuple[tuple[RadarReading, ...], float]:
    """Readings as release speeds, and the largest error they share; the same readings while nothing is corrected."""
    used, common = [], 0.0
    for one in readings:
        reading = one.reading
        if radar is not None and not one.release:
            corrected = corrected_speed(reading.speed_m_s, one.ball, radar)
            if corrected is not None:
                speed, shared = corrected
                reading, common = replace(reading, speed_m_s=speed), max(common, shared)
        used.append(reading)
    return tuple(used), common


def corrected_speed(speed_m_s: float, ball: Ball, radar: Radar) -> tuple[float, float] | None:
    """Correct a radar's reading.

    Parameters
    ----------
    speed_m_s : float
        What the radar showed (m/s).
    ball : Ball
    radar : Radar

    Returns
    -------
    (float, float) or None
        Release speed (m/s) and the relative error that all readings from this place share; None if it would leave the
        accepted speeds.
    """
    try:
        found = release_speed(speed_m_s, ball, radar)
    except InputError:
        return None
    return found.speed_m_s, found.common_relative_sd


def shown_ball(case: Case) -> Ball:
    """The ball that the two answers are told for: of the rack's heavier balls the one nearest to twice the own; without
    any, one of twice the own mass.
    """
    own = case.own_ball.mass_kg
    heavier = [ball for ball in case.rack if ball.mass_kg > 1.05 * own]
    if not heavier:
        return Ball(min(ABOUT_TWICE * own, 3.0), case.own_ball.diameter_m)
    return min(heavier, key=lambda ball: abs(math.log(ball.mass_kg / (ABOUT_TWICE * own))))


def radar_factor(ball: Ball, case: Case) -> float:
    """Release speed over what the radar shows, 1 while the radar correction is off.

    It depends on the ball and the place, not on the speed.
    """
    return 1.0 if case.radar is None else release_speed(ANY_SPEED_M_S, ball, case.radar).factor
