"""Kinematics of the chain: zero angles in words, orientation, velocity and acceleration.

Oracles: the words of `model/published/motion_landmarks.csv` for the zero and sense of each angle;
scipy.spatial.transform.Rotation (intrinsic sequences) for orientation and, with it, positions written out once more; a
complex step in time for velocity and acceleration: x(t + ih) = x + ih x' to h^2, so that Im/h is the derivative to
rounding (Squire & Trapp 1998, SIAM Review 40:110), with no formula of the model's own velocities in it.

Tolerances are a few hundred roundings of the largest value.
"""

import csv
from importlib.resources import files

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from model.ball import beyond_the_hand_m
from model.chain import COORDINATES, Frames, Points, State, cross, dot, frames_of, points_of
from model.motion import PHASES, reference_motion
from model.segments import arm_of
from model.throw import clock_of, movement
from tests.model.helpers import (
    ADULT,
    THROWS,
    a_moment_later,
    apart,
    posture,
    rate_of_change,
    reference_state,
)

ROUNDING = 1e-12
THROW = THROWS["own ball, full speed"]
FRAMES = ("trunk", "shoulder", "upper_arm", "forearm", "hand")
POINTS = ("hips", "shoulder", "elbow", "wrist", "ball", "upper_arm_centre", "forearm_centre", "hand_centre")

TARGET, UP, RIGHT = np.eye(3)  # of a right-hander: the throwing side is the right


def frames_at(**angles_deg: float) -> Frames:
    return frames_of(posture(angles_deg))


def points_at(**angles_deg: float) -> Points:
    state = posture(angles_deg)
    return points_of(frames_of(state), state, arm_of(ADULT), beyond_the_hand_m(0.073))


def towards(start: str, end: str, **angles_deg: float) -> np.ndarray:
    """Unit vector from one point of the chain to another in a posture."""
    points = points_at(**angles_deg)
    arrow = getattr(points, end).position[0] - getattr(points, start).position[0]
    return arrow / np.linalg.norm(arrow)


def worded(coordinate: str) -> str:
    """All notes on a coordinate, so that a check of its zero fails when the words change."""
    text = files("model.published").joinpath("motion_landmarks.csv").read_text(encoding="utf-8")
    return " / ".join(row["note"] for row in csv.DictReader(text.splitlines()) if row["coordinate"] == coordinate)


def close(vector: np.ndarray, expected: np.ndarray) -> bool:
    return bool(np.allclose(vector, expected, atol=1e-14, rtol=0.0))


# ---- where each angle is zero, and which way it counts --------------------------------------------------------------


def test_trunk_rotation_is_zero_with_the_chest_to_the_target_and_negative_with_the_throwing_shoulder_back():
    assert "0 = chest faces the target; negative = turned away (throwing shoulder back)" in worded("trunk_rotation")
    trunk = frames_at().trunk
    assert close(trunk.axis(0)[0], TARGET)  # the chest's normal
    assert close(frames_at(trunk_rotation=-90.0).trunk.axis(2)[0], -TARGET)  # the throwing shoulder points back
    assert close(frames_at(trunk_rotation=-90.0).trunk.axis(0)[0], RIGHT)  # and the chest to the throwing side


def test_forward_tilt_leans_from_the_vertical_toward_the_target():
    assert "from vertical, positive toward the target" in worded("trunk_forward_tilt")
    assert close(frames_at().trunk.axis(1)[0], UP)
    assert close(frames_at(trunk_forward_tilt=90.0).trunk.axis(1)[0], TARGET)


def test_lateral_tilt_leans_toward_the_glove_side():
    assert "positive toward the glove side" in worded("trunk_lateral_tilt")
    assert close(frames_at(trunk_lateral_tilt=90.0).trunk.axis(1)[0], -RIGHT)


def test_abduction_is_zero_with_the_arm_hanging_and_ninety_with_it_horizontal():
    assert "0 = arm hanging, 90 = horizontal" in worded("abduction")
    assert close(towards("shoulder", "elbow"), -UP)
    assert close(towards("shoulder", "elbow", abduction=90.0), RIGHT)
    assert close(towards("shoulder", "elbow", abduction=180.0), UP)


def test_horizontal_adduction_is_zero_in_the_frontal_plane_and_positive_forward():
    assert "0 = upper arm in the frontal plane, positive forward" in worded("horizontal_adduction")
    assert close(towards("shoulder", "elbow", abduction=90.0, horizontal_adduction=90.0), TARGET)


def test_external_rotation_turns_the_forearm_from_forward_to_up_to_laid_back():
    assert "0 = forearm forward, 90 = up, 180 = laid back" in worded("external_rotation")
    for angle, direction in ((0.0, TARGET), (90.0, UP), (180.0, -TARGET)):
        arm = {"abduction": 90.0, "elbow_flexion": 90.0, "external_rotation": angle}
        assert close(towards("elbow", "wrist", **arm), direction)


def test_elbow_flexion_is_zero_with_the_arm_straight():
    assert "0 = straight" in worded("elbow_flexion")
    assert close(towards("elbow", "wrist", abduction=90.0), RIGHT)
    # arms at the sides, palms forward: bending the elbow brings the hand forward, not back
    assert close(towards("elbow", "wrist", elbow_flexion=90.0), TARGET)


def test_wrist_flexion_is_negative_when_the_hand_is_bent_back():
    assert "negative = extended" in worded("wrist_flexion")
    # arms at the sides, palms forward: flexed, the hand points forward, to the palm's side; extended, backward
    assert close(towards("wrist", "ball", wrist_flexion=90.0), TARGET)
    assert close(towards("wrist", "ball", wrist_flexion=-90.0), -TARGET)


# ---- orientation and place ------------------------------------------------------------------------------------------


def columns(state: State, *names: str) -> np.ndarray:
    return np.stack([state.angles[:, COORDINATES.index(name)] for name in names], axis=1)


def oracle_rotations(state: State) -> dict[str, Rotation]:
    """Intrinsic turns: about the axes as already moved (capital letters in SciPy), signs as DESIGN 2 gives them."""
    trunk_angles = columns(state, "trunk_rotation", "trunk_forward_tilt", "trunk_lateral_tilt")
    shoulder_angles = columns(state, "horizontal_adduction", "abduction") - [0.0, np.pi / 2]
    trunk = Rotation.from_euler("YZX", trunk_angles * [1, -1, -1])
    girdle = trunk * Rotation.from_euler("YX", shoulder_angles * [1, -1])
    upper_arm = girdle * Rotation.from_euler("Z", columns(state, "external_rotation"))
    forearm = upper_arm * Rotation.from_euler("Y", columns(state, "elbow_flexion"))
    hand = forearm * Rotation.from_euler("Y", columns(state, "wrist_flexion"))
    return {"trunk": trunk, "shoulder": girdle, "upper_arm": upper_arm, "forearm": forearm, "hand": hand}


def test_every_frame_is_the_intrinsic_sequence_of_turns():
    state = reference_state(THROW)
    frames, expected = frames_of(state), oracle_rotations(state)
    for name in FRAMES:
        difference = np.abs(getattr(frames, name).axes - expected[name].as_matrix()).max()
        assert difference <= ROUNDING, name


def test_every_frame_is_right_handed_with_unit_axes_square_to_each_other():
    frames = frames_of(reference_state(THROW))
    for name in FRAMES:
        axes = getattr(frames, name).axes
        assert np.abs(np.swapaxes(axes, -1, -2) @ axes - np.eye(3)).max() <= ROUNDING, name
        assert np.abs(np.linalg.det(axes) - 1.0).max() <= ROUNDING, name


@pytest.mark.parametrize("throw", [THROWS["own ball, full speed"], THROWS["child of twelve"]], ids=["adult", "child"])
def test_every_point_stands_where_its_segments_put_it(throw):
    state, arm = reference_state(throw), arm_of(throw.person)
    turns = oracle_rotations(state)
    long = {name: turn.apply([0.0, 0.0, 1.0]) for name, turn in turns.items()}
    hips = throw.person.stature_m * state.travel[:, None] * TARGET
    shoulder = hips + turns["trunk"].apply(throw.person.stature_m * np.array([0.02, 0.29, 0.113]))  # DESIGN 2
    elbow = shoulder + arm.upper_arm.length_m * long["upper_arm"]
    wrist = elbow + arm.forearm.length_m * long["forearm"]
    expected = {
        "hips": hips,
        "shoulder": shoulder,
        "elbow": elbow,
        "wrist": wrist,
        "ball": wrist + (arm.hand.length_m + throw.ball.diameter_m / 4.0) * long["hand"],  # half the radius beyond
        "upper_arm_centre": shoulder + arm.upper_arm.centre_m * long["upper_arm"],
        "forearm_centre": elbow + arm.forearm.centre_m * long["forearm"],
        "hand_centre": wrist + arm.hand.centre_m * long["hand"],
    }
    points = movement(throw).points
    assert set(expected) == set(POINTS)
    for name, place in expected.items():
        assert np.abs(getattr(points, name).position - place).max() <= ROUNDING, name


def test_the_hips_travel_along_the_line_to_the_target_only():
    hips = movement(THROW).points.hips
    for vectors in (hips.position, hips.velocity, hips.acceleration):
        assert np.all(vectors[:, 1:] == 0.0)
        assert np.any(vectors[:, 0] != 0.0)


def test_the_hips_move_at_the_prescribed_speed_times_the_clock():
    # 2.2 - 1.0 phase m/s at the reference clock (DESIGN 2) for 1.88 m; the same share of stature for another
    for throw in (THROW, THROWS["child of twelve"]):
        expected = (2.2 - 1.0 * PHASES) * throw.person.stature_m / 1.88 * clock_of(throw)
        assert apart(movement(throw).points.hips.velocity[:, 0], expected) <= ROUNDING


# ---- velocity and acceleration --------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def now_and_later() -> tuple[Frames, Points, Frames, Points]:
    now = reference_state(THROW)
    later = a_moment_later(now)
    arm, beyond = arm_of(THROW.person), beyond_the_hand_m(THROW.ball.diameter_m)
    frames, frames_later = frames_of(now), frames_of(later)
    return frames, points_of(frames, now, arm, beyond), frames_later, points_of(frames_later, later, arm, beyond)


@pytest.mark.parametrize("name", POINTS)
def test_velocity_is_the_rate_of_change_of_place_and_acceleration_that_of_velocity(now_and_later, name):
    _, now, _, later = now_and_later
    point, moved = getattr(now, name), getattr(later, name)
    assert apart(point.velocity, rate_of_change(moved.position)) <= ROUNDING
    assert apart(point.acceleration, rate_of_change(moved.velocity)) <= ROUNDING


@pytest.mark.parametrize("name", FRAMES)
def test_angular_velocity_is_what_turns_the_axes_and_angular_acceleration_its_rate_of_change(now_and_later, name):
    now, _, later, _ = now_and_later
    frame, moved = getattr(now, name), getattr(later, name)
    spin = rate_of_change(moved.axes) @ np.swapaxes(frame.axes, -1, -2)  # R' R^T, skew: omega x
    omega = np.stack([spin[:, 2, 1], spin[:, 0, 2], spin[:, 1, 0]], axis=-1)
    assert apart(frame.omega, omega) <= ROUNDING
    assert np.abs(spin + np.swapaxes(spin, -1, -2)).max() <= ROUNDING * np.abs(spin).max()
    assert apart(frame.alpha, rate_of_change(moved.omega)) <= ROUNDING


def test_the_state_over_phase_is_its_own_derivative():
    """The spline's derivatives by finite differences of its angles: the one link the complex step takes on trust."""
    middle = np.linspace(0.05, 1.2, 47)
    h = 2e-4  # phase; the central difference errs by h^2/6 of two derivatives on: 1e-6 of rates, 4e-6 of accelerations
    motion, pace = reference_motion(), 1.3 / 0.145  # clock 1.3: phases a second
    now, before, after = (motion.state(phase, 1.3) for phase in (middle, middle - h, middle + h))
    rates = (after.angles - before.angles) / (2.0 * h) * pace
    accelerations = (after.rates - before.rates) / (2.0 * h) * pace
    travel_rate = (after.travel - before.travel) / (2.0 * h) * pace
    for j, name in enumerate(COORDINATES):
        assert apart(now.rates[:, j], rates[:, j]) <= 1e-5, name
        assert apart(now.accelerations[:, j], accelerations[:, j]) <= 1e-5, name
    assert apart(now.travel_rate, travel_rate) <= 1e-9  # a parabola: exact but for rounding
    assert apart(now.travel_acceleration, (after.travel_rate - before.travel_rate) / (2.0 * h) * pace) <= 1e-9


def test_products_of_vectors_are_numpys_own():
    a, b = np.random.default_rng(1).normal(size=(2, 4, 7, 3))
    assert np.allclose(cross(a, b), np.cross(a, b), rtol=0.0, atol=1e-14)
    assert np.allclose(dot(a, b), np.einsum("...i,...i", a, b), rtol=0.0, atol=1e-14)
