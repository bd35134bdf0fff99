"""The line figure: joint centres that keep the segments' lengths, and what they must do in a throw."""

from dataclasses import replace

import numpy as np
import pytest

from model.ball import beyond_the_hand_m
from model.line_figure import line_figure
from model.person import Person
from model.segments import arm_of

MAN = Person("male", 1.88, 90.0, 25.0)


@pytest.fixture
def drawn():
    return line_figure(MAN, 0.073)


def test_every_link_keeps_the_length_of_its_segment(drawn):
    arm = arm_of(MAN)
    lengths = {
        ("shoulder", "elbow"): arm.upper_arm.length_m,
        ("elbow", "wrist"): arm.forearm.length_m,
        ("wrist", "ball"): arm.hand.length_m + beyond_the_hand_m(0.073),
        ("neck", "shoulder"): arm.shoulder_z_m,
        ("neck", "other_shoulder"): arm.shoulder_z_m,
    }
    for (near, far), length_m in lengths.items():
        apart = np.linalg.norm(drawn.points[far] - drawn.points[near], axis=1)
        assert apart == pytest.approx(length_m, rel=1e-12)


def test_the_hips_travel_straight_toward_the_target_at_the_published_pace(drawn):
    # prescribed 2.2 - phase m/s for a stature of 1.88 m, over 0.145 s of phase: 0.145 (2.2 - 1/2) m by release
    at_release = drawn.points["hips"][drawn.phase == 1.0][0]
    assert at_release == pytest.approx([0.145 * 1.7, 0.0, 0.0], abs=1e-9)


def test_the_ball_is_released_in_front_and_above_and_moving_to_the_target(drawn):
    release = int(np.flatnonzero(drawn.phase == 1.0)[0])
    ball, elbow = drawn.points["ball"], drawn.points["elbow"]
    assert ball[release, 1] > elbow[release, 1]  # the forearm points up
    assert ball[release, 0] > drawn.points["hips"][release, 0]
    moved = ball[release] - ball[release - 1]
    assert moved[0] > 0.95 * np.linalg.norm(moved)


def test_a_left_hander_is_the_mirror_image(drawn):
    mirrored = line_figure(replace(MAN, handedness="left"), 0.073)
    for name, place in drawn.points.items():
        assert mirrored.points[name] == pytest.approx(place * [1.0, 1.0, -1.0], abs=0.0)


def test_the_varus_axis_is_square_to_the_forearm_and_turns_a_left_hander_the_mirrored_way(drawn):
    forearm = drawn.points["wrist"] - drawn.points["elbow"]
    assert np.linalg.norm(drawn.varus_axis, axis=1) == pytest.approx(1.0)
    assert np.einsum("ij,ij->i", forearm, drawn.varus_axis) == pytest.approx(0.0, abs=1e-12)
    # a small turn of the forearm about the axis, seen in the mirror, is the left-hander's turn about the axis of theirs
    other = line_figure(replace(MAN, handedness="left"), 0.073)
    turned = np.cross(drawn.varus_axis, forearm) * [1.0, 1.0, -1.0]
    assert np.cross(other.varus_axis, other.points["wrist"] - other.points["elbow"]) == pytest.approx(turned)


def test_at_maximum_external_rotation_a_varus_torque_turns_the_forearm_forward(drawn):
    # laid back, the forearm points backward and up from the elbow; varus torque works against its being bent further
    at = round(0.82 * 100)
    turn = np.cross(drawn.varus_axis, drawn.points["wrist"] - drawn.points["elbow"])[at]
    assert turn[1] > 0.8 * np.linalg.norm(turn)  # up and over, toward the target
