"""A throw: a person, a ball and a release speed -> torque curves over time."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball, beyond_the_hand_m
from model.chain import Frames, Points, State, frames_of, points_of
from model.channels import CHANNELS, INDEX
from model.checks import Limit, check_number
from model.identity import PathLoads, loads_on
from model.motion import PHASES, reference_motion
from model.path_basis import reference_basis
from model.person import Person
from model.segments import Arm, arm_of

Array = NDArray[np.float64]

SPEED_LIMIT = Limit(1.0, 60.0, "m/s")


@dataclass(frozen=True)
class Throw:
    """One throw.

    Parameters
    ----------
    speed_m_s : float
        Release speed of the ball's centre (m/s): the ball still in the hand. Radar reads a moment later.

    Raises
    ------
    InputError
        If the speed lies outside `SPEED_LIMIT`.
    """

    person: Person
    ball: Ball
    speed_m_s: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "speed_m_s", check_number("speed_m_s", self.speed_m_s, SPEED_LIMIT))


@dataclass(frozen=True)
class Curves:
    """Every channel of a throw over time.

    Attributes
    ----------
    clock : float
        Time-scale factor s; 1 is the path's own speed.
    phase, time_s : ndarray (N,)
        Phase, and time (s) with 0 at release and negative before.
    values : dict of str to ndarray (N,)
        For each key of `channels.CHANNELS`, the torque (N m) or force (N).
    foot_contact_s, max_external_rotation_s : float
        Times of these events (s), negative: before release.
    """

    throw: Throw
    clock: float
    phase: Array
    time_s: Array
    values: dict[str, Array]
    foot_contact_s: float
    max_external_rotation_s: float


@lru_cache(maxsize=256)
def path_loads(person: Person, ball_diameter_m: float) -> PathLoads:
    """The identity's curves of a person's arm on the reference path; found once per arm and ball radius.

    Parameters
    ----------
    ball_diameter_m : float
        The ball's diameter (m).
    """
    return loads_on(reference_basis(), arm_of(person), beyond_the_hand_m(ball_diameter_m))


def clock_of(throw: Throw) -> float:
    """Time-scale factor of a throw: s = v / v_path."""
    return float(path_loads(throw.person, throw.ball.diameter_m).clock(throw.speed_m_s))


def curves(throw: Throw) -> Curves:
    """Every torque and force of a throw, by the mass-speed identity.

    Returns
    -------
    Curves
        Resolved channels are those of either hand; the ball's force stands in the lab frame, so that a left-hander's
        `ball_z` is the mirror image.
    """
    return curves_of(throw, path_loads(throw.person, throw.ball.diameter_m))


def curves_of(throw: Throw, basis: PathLoads) -> Curves:
    """As `curves`, for an arm that need not be the person's own.

    Parameters
    ----------
    basis : PathLoads
        The identity's curves of the one arm that throws.
    """
    clock = float(basis.clock(throw.speed_m_s))
    loads = basis.loads(throw.ball.mass_kg, clock)
    values = {key: loads[:, INDEX[key]] for key in CHANNELS}
    if throw.person.handedness == "left":
        values["ball_z"] = -values["ball_z"]
    second_per_phase = basis.duration_s / clock
    return Curves(
        throw,
        clock,
        basis.phase,
        (basis.phase - 1.0) * second_per_phase,
        values,
        -second_per_phase,
        (basis.max_external_rotation_phase - 1.0) * second_per_phase,
    )


@dataclass(frozen=True)
class Movement:
    """How the chain of a throw moves, as a right-hander; a left-hander's Z is the negative of it."""

    arm: Arm
    state: State
    frames: Frames
    points: Points


def movement(throw: Throw, phase: Array = PHASES) -> Movement:
    """Joint angles, frames and points of a throw, at its own clock.

    Parameters
    ----------
    phase : ndarray (N,)
    """
    arm = arm_of(throw.person)
    state = reference_motion().state(phase, clock_of(throw))
    frames = frames_of(state)
    return Movement(arm, state, frames, points_of(frames, state, arm, beyond_the_hand_m(throw.ball.diameter_m)))
