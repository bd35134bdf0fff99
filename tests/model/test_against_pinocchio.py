"""Inverse dynamics against Pinocchio (rnea), on the same chain built with its own joints, placements and inertias.

Oracle: Pinocchio, https://github.com/stack-of-tasks/pinocchio: spatial-vector recursion in joint frames, where the
model works with plain vectors in the lab frame. Its whole joint wrenches are compared, then resolved: its joint torques
are about joint axes, and varus is no joint of this chain.

Tolerance 1e-8 of a channel's own peak: both sides work in doubles and agree to some 1e-14; 1e-8 leaves room for another
library version or processor and is still a millionth of a N m.
"""

import numpy as np
import pytest

from model.ball import beyond_the_hand_m
from model.channels import CHANNELS
from model.motion import PHASES
from model.segments import Segment, arm_of
from model.throw import Throw
from tests.model.helpers import (
    GRAVITY_M_S2,
    THROWS,
    Answer,
    apart,
    assert_channels_agree,
    assert_wrenches_agree,
    borne_by_the_hand,
    oracle,
    reference_state,
    side_of,
)

pin = oracle("pinocchio", "Pinocchio (package pin)")

TOLERANCE = 1e-8


def chain_of(throw: Throw) -> tuple["pin.Model", int]:
    """Ten joints: travel, three of the trunk, three of the shoulder, elbow, wrist; and the ball's frame.

    A left-hander's chain is really mirrored: offsets along Z and the senses about X and Y are the opposite ones.
    """
    side, arm, model = side_of(throw), arm_of(throw.person), pin.Model()
    model.gravity.linear = GRAVITY_M_S2
    parent = 0

    def joint(name: str, kind: "pin.JointModel", placement: "pin.SE3") -> None:
        nonlocal parent
        parent = model.addJoint(parent, kind, placement, name)

    def turning(*axis: float) -> "pin.JointModel":
        return pin.JointModelRevoluteUnaligned(np.array(axis, dtype=float))

    def at(*offset: float) -> "pin.SE3":
        return pin.SE3(np.eye(3), np.array(offset, dtype=float))

    def body(segment: Segment) -> None:
        inertia = np.diag([segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2])
        centre = np.array([0.0, 0.0, side * segment.centre_m])
        model.appendBodyToJoint(parent, pin.Inertia(segment.mass_kg, centre, inertia), pin.SE3.Identity())

    hanging = pin.SE3(pin.utils.rotate("x", side * np.pi / 2), np.zeros(3))  # turns the arm's side direction down
    joint("travel", pin.JointModelPX(), at(0, 0, 0))
    joint("trunk_rotation", turning(0, side, 0), at(0, 0, 0))
    joint("trunk_forward_tilt", turning(0, 0, -1), at(0, 0, 0))
    joint("trunk_lateral_tilt", turning(-side, 0, 0), at(0, 0, 0))
    joint(
        "horizontal_adduction",
        turning(0, side, 0),
        at(arm.shoulder_x_m, arm.shoulder_y_m, side * arm.shoulder_z_m),
    )
    joint("abduction", turning(-side, 0, 0), hanging)
    joint("external_rotation", turning(0, 0, 1), at(0, 0, 0))
    body(arm.upper_arm)
    joint("elbow_flexion", turning(0, side, 0), at(0, 0, side * arm.upper_arm.length_m))
    body(arm.forearm)
    joint("wrist_flexion", turning(0, side, 0), at(0, 0, side * arm.forearm.length_m))
    body(arm.hand)
    reach = arm.hand.length_m + beyond_the_hand_m(throw.ball.diameter_m)
    ball = model.addFrame(pin.Frame("ball", parent, 0, at(0, 0, side * reach), pin.FrameType.OP_FRAME))
    return model, ball


def answer_of(throw: Throw) -> Answer:
    """Pinocchio moved along the reference path, the ball's force given to the hand from outside."""
    model, ball = chain_of(throw)
    data, state = model.createData(), reference_state(throw)
    stature_m, held = throw.person.stature_m, borne_by_the_hand(PHASES)
    joints = {"shoulder": "external_rotation", "elbow": "elbow_flexion", "wrist": "wrist_flexion"}
    bodies = {"girdle": "abduction", "forearm": "elbow_flexion", "hand": "wrist_flexion"}
    n = len(PHASES)
    force, moment = ({name: np.empty((n, 3)) for name in joints} for _ in range(2))
    axes = {name: np.empty((n, 3, 3)) for name in bodies}
    given, velocity = np.empty((n, 3)), np.empty((n, 3))
    travel, turns = (
        (state.travel, state.travel_rate, state.travel_acceleration),
        (state.angles, state.rates, state.accelerations),
    )
    for i in range(n):
        q, v, a = (np.concatenate(([stature_m * x[i]], y[i])) for x, y in zip(travel, turns, strict=True))
        pin.forwardKinematics(model, data, q, v, a)
        place = pin.updateFramePlacement(model, data, ball)
        lab = pin.ReferenceFrame.LOCAL_WORLD_ALIGNED
        acceleration = pin.getFrameClassicalAcceleration(model, data, ball, lab).linear
        velocity[i] = pin.getFrameVelocity(model, data, ball, lab).linear
        given[i] = held[i] * throw.ball.mass_kg * (acceleration - GRAVITY_M_S2)
        outside = [pin.Force.Zero() for _ in range(model.njoints)]
        hand = model.getJointId("wrist_flexion")
        at_ball = pin.Force(place.rotation.T @ -given[i], np.zeros(3))  # about the ball's centre, in the hand's axes
        outside[hand] = model.frames[ball].placement.act(at_ball)
        pin.rnea(model, data, q, v, a, outside)
        for name, joint in joints.items():
            at = model.getJointId(joint)
            turn = data.oMi[at].rotation
            force[name][i], moment[name][i] = turn @ data.f[at].linear, turn @ data.f[at].angular
        for name, joint in bodies.items():
            axes[name][i] = data.oMi[model.getJointId(joint)].rotation
    return Answer(force, moment, axes, given, velocity[np.argmin(np.abs(PHASES - 1.0))])


@pytest.fixture(scope="module", params=THROWS)
def case(request: pytest.FixtureRequest) -> tuple[Throw, Answer]:
    throw = THROWS[request.param]
    return throw, answer_of(throw)


def test_whole_joint_wrenches_are_those_of_pinocchio(case):
    assert_wrenches_agree(*case, TOLERANCE)


def test_every_channel_of_a_throw_is_that_of_pinocchio(case):
    assert_channels_agree(*case, TOLERANCE)


def test_pinocchios_ball_leaves_at_the_speed_that_was_asked_for(case):
    throw, answer = case
    assert np.linalg.norm(answer.release_velocity) == pytest.approx(throw.speed_m_s, rel=1e-12)


def test_a_mirrored_chain_needs_the_torques_of_the_right_hander():
    """Pinocchio against itself: it is the mirror that is checked, without the model."""
    right, left = (answer_of(THROWS[key]) for key in ("own ball, full speed", "left-hander"))
    mine, mirror = right.channels(1), left.channels(-1)
    for key in CHANNELS:
        sign = -1.0 if key == "ball_z" else 1.0  # the one channel that names a side of the room
        assert apart(mirror[key], sign * mine[key]) <= TOLERANCE, key
