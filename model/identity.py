"""The mass-speed identity: what the dynamics of one arm on one path come to.

    tau(phase; m, s) = s2 [A(phase) + m B(phase)] + [G_A(phase) + m G_B(phase)],    t = phase T / s

Inertial loads scale with the square of the clock ratio s, gravity's not at all; the ball's mass m enters linearly. So
the recursion without a ball, once moving without weight and once at rest with it, and what a kilogram of ball adds to
each, give every throw exactly; a million (mass, speed) pairs are then array sums. It holds while the ball's mass
changes; another radius is another A and B (the ball's centre lies elsewhere).
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.chain import State, dot, frames_of, per_arm, points_of
from model.dynamics import GRAVITY_M_S2, NO_GRAVITY, ball_wrenches, hold, inverse_dynamics, resolve
from model.motion import PHASES, Motion
from model.segments import Arm

Array = NDArray[np.float64]


@dataclass(frozen=True)
class PathLoads:
    """The four curves of the identity, for one arm or many.

    Attributes
    ----------
    phase : ndarray (N,)
        Phases, 0 to 1.25.
    arm, ball, arm_weight, ball_weight : ndarray (..., N, C)
        A, B, G_A and G_B: channels as `channels.CHANNELS` orders them, N m and N; B and G_B for each kg of ball.
    duration_s : float
        Foot contact to release at clock ratio 1 (s).
    path_speed_m_s : float or ndarray (...)
        Release speed of the ball's centre at clock ratio 1 (m/s).
    max_external_rotation_phase : float
        Phase of maximum external rotation.
    """

    phase: Array
    arm: Array
    ball: Array
    arm_weight: Array
    ball_weight: Array
    duration_s: float
    path_speed_m_s: Any
    max_external_rotation_phase: float

    def clock(self, speed_m_s: ArrayLike) -> Any:
        """Clock ratio that releases the ball at a speed: s = v / v_path.

        Parameters
        ----------
        speed_m_s : array_like (...)
            Release speed (m/s).

        Returns
        -------
        float or ndarray (...)
        """
        return np.asarray(speed_m_s) / self.path_speed_m_s

    def loads(self, ball_mass_kg: ArrayLike, clock: ArrayLike) -> Array:
        """All channels of throws at given masses and clock ratios.

        Parameters
        ----------
        ball_mass_kg, clock : array_like (...)
            Ball mass (kg) and clock ratio s, broadcast against each other and against the arms.

        Returns
        -------
        ndarray (..., N, C)
        """
        m, s = per_arm(ball_mass_kg), per_arm(clock)
        return s**2 * (self.arm + m * self.ball) + (self.arm_weight + m * self.ball_weight)


def throw_loads(
    motion: Motion, arm: Arm, ball_mass_kg: float, beyond_hand_m: Any, clock: float, phase: Array = PHASES
) -> Array:
    """All channels of one throw by the full recursion: the check of the identity, and the plain way to read it.

    Parameters
    ----------
    motion : Motion
    arm : Arm
    ball_mass_kg, beyond_hand_m, clock : float
        Ball mass (kg), its centre's distance beyond the hand's end (m), clock ratio.
    phase : ndarray (N,)

    Returns
    -------
    ndarray (..., N, C)
    """
    state = motion.state(phase, clock)
    frames = frames_of(state)
    points = points_of(frames, state, arm, beyond_hand_m)
    return resolve(frames, inverse_dynamics(frames, points, arm, ball_mass_kg, hold(phase)))


def at_rest(state: State) -> State:
    """The same angles without any motion: what is left is weight.

    Parameters
    ----------
    state : State

    Returns
    -------
    State
    """
    still = np.zeros_like
    return replace(
        state,
        rates=still(state.rates),
        accelerations=still(state.accelerations),
        travel_rate=still(state.travel_rate),
        travel_acceleration=still(state.travel_acceleration),
    )


def path_loads_of(motion: Motion, arm: Arm, beyond_hand_m: Any, phase: Array = PHASES) -> PathLoads:
    """Find A, B, G_A and G_B of an arm, or of many, on a path.

    Parameters
    ----------
    motion : Motion
    arm : Arm
        One, or many stacked (`segments.stack`).
    beyond_hand_m : float or ndarray (n,)
        Distance of the ball's centre beyond the hand's end (m).
    phase : ndarray (N,)

    Returns
    -------
    PathLoads
    """
    held = hold(phase)
    moving = motion.state(phase)

    def parts(state: State, gravity: Array) -> tuple[Array, Array]:
        """What the bare arm needs, and what each kilogram of ball adds."""
        frames = frames_of(state)
        points = points_of(frames, state, arm, beyond_hand_m)
        bare = inverse_dynamics(frames, points, arm, 0.0, held, gravity)
        return resolve(frames, bare), resolve(frames, ball_wrenches(points, held, gravity))

    return PathLoads(
        phase,
        *parts(moving, NO_GRAVITY),
        *parts(at_rest(moving), GRAVITY_M_S2),
        motion.duration_s,
        path_speed_m_s(motion, arm, beyond_hand_m),
        motion.max_external_rotation_phase,
    )


def path_speed_m_s(motion: Motion, arm: Arm, beyond_hand_m: Any) -> Any:
    """Release speed of the ball's centre at clock ratio 1.

    Parameters
    ----------
    motion : Motion
    arm : Arm
    beyond_hand_m : float or ndarray (n,)

    Returns
    -------
    float or ndarray (n,)
        Speed (m/s).
    """
    state = motion.state(np.array([1.0]))
    velocity = points_of(frames_of(state), state, arm, beyond_hand_m).ball.velocity[..., 0, :]
    speed = np.sqrt(dot(velocity, velocity))
    return float(speed) if speed.ndim == 0 else speed
