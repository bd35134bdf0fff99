"""The mass-speed identity: what the dynamics of one arm on one path come to.

    tau(phase; m, s) = s2 [A(phase) + m B(phase)] + [G_A(phase) + m G_B(phase)],    t = phase T / s

Inertial loads scale with the square of the time-scale factor s, gravity's not at all; the ball's mass m enters
linearly. So four curves give every throw exactly, and a million (mass, speed) pairs are array sums. The curves come
from the path basis (`path_basis`); the full recursion (`throw_loads`) stands beside it as a check. The identity holds
while the ball's mass changes; another radius is another A and B (the ball's centre lies elsewhere).
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.chain import frames_of, per_arm, points_of
from model.channels import CHANNELS
from model.dynamics import grip_fraction, inverse_dynamics, resolve
from model.motion import PHASES, Motion
from model.path_basis import PathBasis, products_of_arm, products_of_ball
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
        Foot contact to release at time-scale factor 1 (s).
    path_speed_m_s : float or ndarray (...)
        Release speed of the ball's centre at time-scale factor 1 (m/s).
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
        """Time-scale factor that releases the ball at a speed: s = v / v_path.

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
        """All channels of throws at given masses and time-scale factors.

        Parameters
        ----------
        ball_mass_kg, clock : array_like (...)
            Ball mass (kg) and time-scale factor s, broadcast against each other and against the arms.

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
    ball_mass_kg, beyond_hand_m, clock : float
        Ball mass (kg), its centre's distance beyond the hand's end (m), time-scale factor.
    phase : ndarray (N,)

    Returns
    -------
    ndarray (..., N, C)
    """
    state = motion.state(phase, clock)
    frames = frames_of(state)
    points = points_of(frames, state, arm, beyond_hand_m)
    return resolve(frames, inverse_dynamics(frames, points, arm, ball_mass_kg, grip_fraction(phase)))


def loads_on(basis: PathBasis, arm: Arm, beyond_hand_m: Any) -> PathLoads:
    """Find A, B, G_A and G_B of an arm, or of many, on a path.

    Parameters
    ----------
    beyond_hand_m : float or ndarray (n,)
    """
    own, ball = products_of_arm(arm), products_of_ball(arm, beyond_hand_m)
    of_arm = [basis.loads(key, own) for key in CHANNELS]
    of_ball = [basis.loads(key, ball, ball=True) for key in CHANNELS]
    return PathLoads(
        basis.phase,
        arm=np.stack([motion for motion, _ in of_arm], axis=-1),
        ball=np.stack([motion for motion, _ in of_ball], axis=-1),
        arm_weight=np.stack([weight for _, weight in of_arm], axis=-1),
        ball_weight=np.stack([weight for _, weight in of_ball], axis=-1),
        duration_s=basis.duration_s,
        path_speed_m_s=basis.path_speed_m_s(arm, beyond_hand_m),
        max_external_rotation_phase=basis.max_external_rotation_phase,
    )
