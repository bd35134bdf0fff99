"""What the arm is given in power is what its mechanical energy gains, at every instant and over the whole throw.

    dE/dt = joints:  sum over shoulder, elbow, wrist of M . (omega beyond - omega before)
          + base:    F_shoulder . v_shoulder + M_shoulder . omega_trunk
          + ball:    (ball's force on the hand) . v_ball
    E     = sum over upper arm, forearm, hand of m v^2 / 2 + omega . I omega / 2 + m g y

Oracle: conservation of energy; E is written out here from velocities alone, so that neither accelerations nor the
recursion enter it. Its rate of change is found twice: in closed form, and by a complex step in time, exact to rounding.
Tolerance 1e-8 of peak power, as asked for; rounding gives some 1e-14 of its 11 kW.
"""

import numpy as np
import pytest
from scipy import constants

from model.ball import beyond_the_hand_m
from model.chain import Frames, Points, State, angular_velocities, frames_of, points_of
from model.channels import CHANNELS, INDEX
from model.dynamics import Wrenches, inverse_dynamics, resolve
from model.motion import PHASES, reference_motion
from model.segments import Arm, arm_of
from model.throw import Throw, clock_of
from tests.model.helpers import THROWS, a_moment_later, apart, borne_by_the_hand, rate_of_change

TOLERANCE = 1e-8
SEGMENTS = ("upper_arm", "forearm", "hand")


def product(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    return np.einsum("...i,...i->...", a, b)  # no conjugate: complex steps pass through


class Moving:
    """A throw in motion, with all the model says of it."""

    def __init__(self, throw: Throw, phase: np.ndarray) -> None:
        self.throw, self.arm = throw, arm_of(throw.person)
        self.beyond_m = beyond_the_hand_m(throw.ball.diameter_m)
        self.state = reference_motion().state(phase, clock_of(throw))
        self.frames, self.points = self.placed(self.state)
        held = borne_by_the_hand(phase)
        self.wrenches = inverse_dynamics(self.frames, self.points, self.arm, throw.ball.mass_kg, held)

    def placed(self, state: State) -> tuple[Frames, Points]:
        frames = frames_of(state)
        return frames, points_of(frames, state, self.arm, self.beyond_m)


def energy(arm: Arm, frames: Frames, points: Points) -> np.ndarray:
    """Kinetic and potential energy of the three segments (J), shape (N,)."""
    total = 0.0
    for name in SEGMENTS:
        segment, frame, centre = getattr(arm, name), getattr(frames, name), getattr(points, f"{name}_centre")
        inertia = (segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2)
        spin = np.einsum("...ij,...i->...j", frame.axes, frame.omega)  # about the segment's own axes
        total = total + segment.mass_kg * product(centre.velocity, centre.velocity) / 2.0
        total = total + spin**2 @ np.array(inertia) / 2.0
        total = total + segment.mass_kg * constants.g * centre.position[..., 1]
    return total


def energy_rate(arm: Arm, frames: Frames, points: Points) -> np.ndarray:
    """Its rate of change in closed form (W): m v . (a + g up) and, about principal axes, I_k omega_k alpha_k."""
    total = 0.0
    up = np.array([0.0, constants.g, 0.0])
    for name in SEGMENTS:
        segment, frame, centre = getattr(arm, name), getattr(frames, name), getattr(points, f"{name}_centre")
        inertia = (segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2)
        spin, change = (np.einsum("...ij,...i->...j", frame.axes, x) for x in (frame.omega, frame.alpha))
        total = total + segment.mass_kg * product(centre.velocity, centre.acceleration + up)
        total = total + (spin * change) @ np.array(inertia)
    return total


def joint_power(frames: Frames, wrenches: Wrenches) -> dict[str, np.ndarray]:
    """Moment times the speed of the farther segment against the nearer (W)."""
    pairs = {
        "shoulder": (frames.trunk, frames.upper_arm),
        "elbow": (frames.upper_arm, frames.forearm),
        "wrist": (frames.forearm, frames.hand),
    }
    return {
        joint: product(getattr(wrenches, joint).moment, beyond.omega - before.omega)
        for joint, (before, beyond) in pairs.items()
    }


def power_given(moving: Moving) -> np.ndarray:
    frames, points, wrenches = moving.frames, moving.points, moving.wrenches
    joints = sum(joint_power(frames, wrenches).values())
    base = product(wrenches.shoulder.force, points.shoulder.velocity)
    base = base + product(wrenches.shoulder.moment, frames.trunk.omega)
    return joints + base - product(wrenches.ball.force, points.ball.velocity)


@pytest.fixture(
    scope="module",
    params=["own ball, full speed", "heavy ball, full speed", "heavy ball, half speed", "child of twelve"],
)
def moving(request: pytest.FixtureRequest) -> Moving:
    return Moving(THROWS[request.param], PHASES)


def test_power_given_is_the_closed_rate_of_change_of_energy(moving: Moving):
    assert apart(power_given(moving), energy_rate(moving.arm, moving.frames, moving.points)) <= TOLERANCE


def test_power_given_is_the_rate_of_change_of_energy_by_a_complex_step(moving: Moving):
    frames, points = moving.placed(a_moment_later(moving.state))
    assert apart(power_given(moving), rate_of_change(energy(moving.arm, frames, points))) <= TOLERANCE


def test_work_given_over_the_whole_throw_is_the_energy_gained():
    """Gauss-Legendre between the knots of the spline and of the fingers' opening: there everything is smooth."""
    throw = THROWS["heavy ball, full speed"]
    motion = reference_motion()
    second_per_phase = motion.duration_s / clock_of(throw)
    intervals = len(motion.coefficients) - 5
    edges = np.unique(np.concatenate((np.linspace(0.0, 1.25, intervals + 1), [0.98, 1.0])))
    nodes, weights = np.polynomial.legendre.leggauss(24)
    middle, half = (edges[1:] + edges[:-1]) / 2.0, np.diff(edges) / 2.0
    phase = (middle[:, None] + half[:, None] * nodes).ravel()
    work_j = power_given(Moving(throw, phase)) @ (half[:, None] * weights).ravel() * second_per_phase
    ends = Moving(throw, np.array([0.0, 1.25]))
    start_j, end_j = energy(ends.arm, ends.frames, ends.points)
    peak_j = energy(*(getattr(Moving(throw, PHASES), name) for name in ("arm", "frames", "points"))).max()
    assert abs(work_j - (end_j - start_j)) <= 1e-8 * peak_j


def test_work_done_on_the_ball_is_its_own_energy_while_it_is_firmly_held():
    """The ball is a point mass in the hand: up to phase 0.98 it gains just what the hand gives."""
    throw = THROWS["own ball, full speed"]
    moving = Moving(throw, PHASES)
    _, later = moving.placed(a_moment_later(moving.state))
    held = PHASES < 0.98
    mass = throw.ball.mass_kg
    gained = rate_of_change(
        mass * product(later.ball.velocity, later.ball.velocity) / 2.0 + mass * constants.g * later.ball.position[:, 1]
    )
    given = product(moving.wrenches.ball.force, moving.points.ball.velocity)
    assert apart(given[held], gained[held]) <= TOLERANCE


def test_resolved_torques_times_angular_velocities_are_the_power_of_the_joints(moving: Moving):
    channels = resolve(moving.frames, moving.wrenches)
    speeds = angular_velocities(moving.frames)
    assert set(speeds) == {key for key, channel in CHANNELS.items() if channel.turns}
    by_joint = {"shoulder": 0.0, "elbow": 0.0, "wrist": 0.0}
    for key, speed in speeds.items():
        by_joint[CHANNELS[key].joint] = by_joint[CHANNELS[key].joint] + channels[:, INDEX[key]] * speed
    for joint, power in joint_power(moving.frames, moving.wrenches).items():
        assert apart(by_joint[joint], power) <= 1e-12, joint  # the same sum in other axes: rounding


def test_a_torque_shares_the_speed_of_a_turn_only_where_the_joint_really_turns():
    turns = {"internal_rotation", "horizontal_adduction", "abduction", "elbow_flexion", "wrist_flexion"}
    assert {key for key, channel in CHANNELS.items() if channel.turns} == turns
    assert all(channel.turns in (None, key) for key, channel in CHANNELS.items())
    assert CHANNELS["varus"].turns is None  # a hinge: nothing turns that way
    assert CHANNELS["pronation"].turns is None  # held still in this chain
