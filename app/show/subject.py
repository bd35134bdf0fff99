"""From the two forms to the athlete's speed profile, and to the throw that it starts from."""

import math
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from app.show.checks import check_athlete, check_ball, check_reference, check_throw
from app.show.profile_checks import CheckedForm, check_form
from app.show.profile_form import ProfileForm
from app.show.throw_form import Form
from app.units.systems import METRIC, System
from model.ball import Ball
from model.checks import InputError
from model.interval import Interval
from model.person import Person
from model.radar import Radar, release_speed
from model.speed import SpeedProfile, fit_athlete
from model.speed_readings import BASES, SAME_BALL_KG, RadarReading
from model.throw import Throw

ANY_SPEED_M_S = 10.0

ABOUT_TWICE = 2.0  # the ball it is shown for: the heavier one nearest to twice the own ball

OWN_BALL = Ball(0.145)  # while the Compare form has no reference throw
JOINTS = {"varus": "elbow, varus torque", "internal_rotation": "shoulder, internal-rotation torque"}


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
class CheckedProfile:
    """A speed profile and what it was made from.

    Attributes
    ----------
    profile : SpeedProfile or None
        None while the athlete's measures cannot be read.
    checked : CheckedForm
        Balls, readings, and a message for each field that could not be read.
    used : tuple of RadarReading
        The readings as release speeds: corrected if the radar correction is on; in the order of `checked.readings`.
    common_relative_sd : float
        The error that all corrected readings share; 0 while the correction is off.
    own_speed : Interval or None
        Mean full speed with the own ball (m/s); None if nothing is known of it.
    """

    profile: SpeedProfile | None
    checked: CheckedForm
    used: tuple[RadarReading, ...] = ()
    common_relative_sd: float = 0.0
    own_speed: Interval | None = None


@dataclass(frozen=True)
class Reference:
    """The own ball and how fast it is thrown, as the Compare form has it.

    Attributes
    ----------
    ball : Ball
        `OWN_BALL` if there is no reference throw.
    speed_m_s : float or None
    known : str
        How it is known, in words; empty without a speed.
    found : bool
        Whether there is a reference throw whose ball could be read.
    """

    ball: Ball = OWN_BALL
    speed_m_s: float | None = None
    known: str = ""
    found: bool = False


@dataclass(frozen=True)
class Case:
    """All that the page's sections start from.

    Attributes
    ----------
    person : Person or None
    code : str
    reference : Reference
    form : ProfileForm
    found : CheckedProfile
    system : System
        The units of what is said.
    """

    person: Person | None
    code: str
    reference: Reference
    form: ProfileForm
    found: CheckedProfile
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
        for _, ball in self.found.checked.balls:
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


@lru_cache(maxsize=64)
def mean_speeds(fitted: Fitted, mass_kg: tuple[float, ...]) -> Interval:
    """Mean full-effort speed with each ball (m/s), kept for all that ask; as `SpeedProfile.mean_speed`."""
    return fitted.profile.mean_speed(mass_kg)


def is_same(ball: Ball, other: Ball) -> bool:
    """Whether two balls count as one: their masses differ by less than the model tells apart."""
    return abs(ball.mass_kg - other.mass_kg) < SAME_BALL_KG


def reference_of(form: Form, person: Person | None, today: date) -> Reference:
    """Read the reference throw of the Compare form.

    Parameters
    ----------
    form : app.show.throw_form.Form
    person : Person or None
        Who throws.
    today : date

    Returns
    -------
    Reference
        Without a speed where the throw is held on the speed profile: the profile cannot rest on itself.
    """
    place = form.place(form.reference)
    if place < 0:
        return Reference()
    throw = form.throws[place]
    line = check_throw(throw, person)
    ball = line.ball or check_ball(throw)
    if ball is None:
        return Reference()
    if throw.thrower:
        return Reference(ball, found=True)  # the second thrower's speed says nothing of the first
    known = check_reference(form, today)[1] if line.speed_m_s is not None else ""
    return Reference(ball, line.speed_m_s, known, True)


def profile_of(
    person: Person | None,
    own_ball: Ball,
    form: ProfileForm,
    today: date,
    reference_speed_m_s: float | None = None,
    system: System = METRIC,
) -> CheckedProfile:
    """Fit an athlete's speed profile to the readings of a form.

    Parameters
    ----------
    person : Person or None
        None while the measures cannot be read: then the readings are checked and nothing is fitted.
    own_ball : Ball
    form : ProfileForm
        As typed.
    today : date
        No reading was made after it.
    reference_speed_m_s : float, optional
        Speed of the reference throw (m/s): the own-ball full speed, unless the form has one or readings with that ball.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedProfile
    """
    checked = check_form(form, today, system)
    used, common = _release_speeds(checked)
    if person is None:
        return CheckedProfile(None, checked, used, common)
    own = checked.own_speed_m_s if checked.own_speed_m_s is not None else reference_speed_m_s
    basis = form.basis if form.basis in BASES else "all"
    profile, own_speed = _fitted(person, own_ball, used, basis, own, common)
    return CheckedProfile(profile, checked, used, common, own_speed)


@lru_cache(maxsize=64)
def _fitted(
    person: Person, own_ball: Ball, used: tuple[RadarReading, ...], basis: str, own: float | None, common: float
) -> tuple[SpeedProfile, Interval | None]:
    """Fit once for all the sections of the page, each of which asks on its own."""
    profile = fit_athlete(person, own_ball, used, basis=basis, own_speed_m_s=own, common_relative_sd=common)
    return profile, None if profile.posterior.own is None else profile.own_speed()


def _release_speeds(checked: CheckedForm) -> tuple[tuple[RadarReading, ...], float]:
    """Readings as release speeds, and the largest error they share; the same readings while nothing is corrected."""
    used, common = [], 0.0
    for placed in checked.readings:
        reading = placed.reading
        if checked.radar is not None and not placed.release:
            corrected = corrected_speed(reading.speed_m_s, placed.ball, checked.radar)
            if corrected is not None:
                speed, shared = corrected
                reading = RadarReading(reading.ball_mass_kg, speed, reading.asked_effort, reading.throws, reading.on)
                common = max(common, shared)
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


def case_of(compared: Form, form: ProfileForm, today: date, system: System = METRIC) -> Case:
    """Put the two forms together.

    Parameters
    ----------
    compared : app.show.throw_form.Form
        Who throws, and the reference throw.
    form : ProfileForm
        The readings.
    today : date
    system : System
        The units of what is said.

    Returns
    -------
    Case
    """
    athlete = check_athlete(compared.athlete)
    reference = reference_of(compared, athlete.person, today)
    found = profile_of(athlete.person, reference.ball, form, today, reference.speed_m_s, system)
    return Case(athlete.person, athlete.code, reference, form, found, system)


def shown_ball(case: Case) -> Ball:
    """The ball that the two answers are told for.

    Parameters
    ----------
    case : Case

    Returns
    -------
    Ball
        Of the rack's heavier balls the one nearest to twice the own; without any, one of twice the own mass.
    """
    own = case.own_ball.mass_kg
    heavier = [ball for ball in case.rack if ball.mass_kg > 1.05 * own]
    if not heavier:
        return Ball(min(ABOUT_TWICE * own, 3.0), case.own_ball.diameter_m)
    return min(heavier, key=lambda ball: abs(math.log(ball.mass_kg / (ABOUT_TWICE * own))))


def radar_factor(ball: Ball, case: Case) -> float:
    """Release speed over what the radar shows: it depends on the ball and the place, not on the speed.

    Parameters
    ----------
    ball : Ball
    case : Case

    Returns
    -------
    float
        1 while the radar correction is off.
    """
    radar = case.found.checked.radar
    return 1.0 if radar is None else release_speed(ANY_SPEED_M_S, ball, radar).factor
