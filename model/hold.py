"""Three ways to hold a throw when something else changes: a release speed, a clock, or the athlete's speed profile.

They differ. At a fixed release speed the length of a uniformly scaled arm cancels out of the torque (torque goes as
m L^2 (v / L)^2); at the same clock, with joint speeds kept, it counts twice, and a longer arm throws faster. So a
changed body measure keeps the clock (`same_clock`) unless something else is asked for.
"""

from dataclasses import dataclass

from model.ball import Ball
from model.checks import Limit, check_number
from model.person import Person
from model.speed import SpeedProfile
from model.throw import SPEED_LIMIT, Throw, clock_of, path_loads

CLOCK_LIMIT = Limit(0.01, 4.0, "")
PROFILE_SHARE_LIMIT = Limit(0.05, 1.5, "of full speed")


@dataclass(frozen=True)
class AtSpeed:
    """Hold a release speed (m/s), typed or measured.

    Raises
    ------
    InputError
        If it is outside `SPEED_LIMIT`.
    """

    speed_m_s: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "speed_m_s", check_number("speed_m_s", self.speed_m_s, SPEED_LIMIT))


@dataclass(frozen=True)
class AtClock:
    """Hold the clock: the ratio s of joint speeds to those of the reference motion, so that a longer arm throws faster.

    Raises
    ------
    InputError
        If it is outside `CLOCK_LIMIT`.
    """

    clock: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "clock", check_number("clock", self.clock, CLOCK_LIMIT))


@dataclass(frozen=True)
class OnProfile:
    """Hold a share of the athlete's full speed with whatever ball: the profile's best estimate of the mean throw.

    The profile is that of the athlete as measured: its speeds stay when a body measure is changed.

    Raises
    ------
    InputError
        If the share is outside `PROFILE_SHARE_LIMIT`.
    """

    profile: SpeedProfile
    share: float = 1.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "share", check_number("share", self.share, PROFILE_SHARE_LIMIT))


Hold = AtSpeed | AtClock | OnProfile


@dataclass(frozen=True)
class Held:
    """A throw so held, and its time-scale factor."""

    throw: Throw
    clock: float

    @property
    def speed_m_s(self) -> float:
        """Release speed (m/s)."""
        return self.throw.speed_m_s


def held(person: Person, ball: Ball, hold: Hold) -> Held:
    """Find the release speed and the clock of a throw.

    Raises
    ------
    InputError
        If the speed that follows is outside `SPEED_LIMIT`, or the profile knows no speed.
    """
    match hold:
        case AtSpeed(speed_m_s):
            speed = speed_m_s
        case AtClock(clock):
            speed = clock * float(path_loads(person, ball.diameter_m).path_speed_m_s)
        case OnProfile(profile, share):
            speed = share * profile.mean_speed(ball.mass_kg).estimate
    throw = Throw(person, ball, speed)
    return Held(throw, clock_of(throw))


def same_clock(throw: Throw) -> AtClock:
    """Hold the clock of a throw, whoever throws whatever ball."""
    return AtClock(clock_of(throw))
