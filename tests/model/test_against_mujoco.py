"""Inverse dynamics against MuJoCo (mj_rnePostConstraint), on the same chain written as its own XML.

Oracle: MuJoCo, https://github.com/google-deepmind/mujoco: interaction forces between bodies (cfrc_int), about the arm's
common centre of mass. MuJoCo wants a mass for every moving body, so its trunk gets a tiny one; it lies inward of the
shoulder and cannot change what the shoulder transmits.

Tolerance 1e-6 of a channel's own peak: agreement is some 1e-14 today; 1e-6 is the least that is asked for, below any
figure shown on a screen.
"""

import numpy as np
import pytest

from model.ball import beyond_the_hand_m
from model.motion import PHASES
from model.segments import Segment, arm_of
from model.throw import Throw
from tests.model.helpers import (
    GRAVITY_M_S2,
    THROWS,
    Answer,
    assert_channels_agree,
    assert_wrenches_agree,
    borne_by_the_hand,
    oracle,
    reference_state,
    side_of,
)

mujoco = oracle("mujoco", "MuJoCo")

TOLERANCE = 1e-6


def chain_of(throw: Throw) -> "mujoco.MjModel":
    """Trunk (travel and three turns), upper arm (three turns), forearm, hand; joints of a body turn in their order.

    `ref` is the joint's angle in the posture drawn: arm out sideways, where abduction reads 90 degrees.
    A left-hander's chain is really mirrored: offsets along Z and the senses about X and Y are the opposite ones.
    """
    side, arm = side_of(throw), arm_of(throw.person)
    reach = arm.hand.length_m + beyond_the_hand_m(throw.ball.diameter_m)

    def text(*numbers: float) -> str:
        return " ".join(f"{number:.17g}" for number in numbers)

    def hinge(name: str, axis: str, ref: float = 0.0) -> str:
        return f'<joint name="{name}" type="hinge" axis="{axis}" ref="{text(ref)}"/>'

    def inertial(segment: Segment) -> str:
        moments = text(segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2)
        mass, at = text(segment.mass_kg), text(0, 0, side * segment.centre_m)
        return f'<inertial pos="{at}" mass="{mass}" diaginertia="{moments}"/>'

    return mujoco.MjModel.from_xml_string(f"""
      <mujoco>
        <compiler angle="radian"/>
        <option gravity="{text(*GRAVITY_M_S2)}"/>
        <worldbody><body name="trunk">
          <inertial pos="0 0 0" mass="1e-6" diaginertia="1e-6 1e-6 1e-6"/>
          <joint name="travel" type="slide" axis="1 0 0"/>
          {hinge("trunk_rotation", f"0 {side} 0")}
          {hinge("trunk_forward_tilt", "0 0 -1")}
          {hinge("trunk_lateral_tilt", f"{-side} 0 0")}
          <body name="upper_arm" pos="{text(arm.shoulder_x_m, arm.shoulder_y_m, side * arm.shoulder_z_m)}">
            {inertial(arm.upper_arm)}
            {hinge("horizontal_adduction", f"0 {side} 0")}
            {hinge("abduction", f"{-side} 0 0", np.pi / 2)}
            {hinge("external_rotation", "0 0 1")}
            <body name="forearm" pos="{text(0, 0, side * arm.upper_arm.length_m)}">
              {inertial(arm.forearm)}
              {hinge("elbow_flexion", f"0 {side} 0")}
              <body name="hand" pos="{text(0, 0, side * arm.forearm.length_m)}">
                {inertial(arm.hand)}
                {hinge("wrist_flexion", f"0 {side} 0")}
                <site name="ball" pos="{text(0, 0, side * reach)}"/>
              </body>
            </body>
          </body>
        </body></worldbody>
      </mujoco>""")


def answer_of(throw: Throw) -> Answer:
    """MuJoCo moved along the reference path, the ball's force given to the hand from outside."""
    model, state = chain_of(throw), reference_state(throw)
    data = mujoco.MjData(model)
    stature_m, held = throw.person.stature_m, borne_by_the_hand(PHASES)
    bodies = {"shoulder": "upper_arm", "elbow": "forearm", "wrist": "hand"}
    ball, hand = data.site("ball"), data.body("hand")
    n = len(PHASES)
    force, moment = ({name: np.empty((n, 3)) for name in bodies} for _ in range(2))
    axes = {name: np.empty((n, 3, 3)) for name in ("girdle", "forearm", "hand")}
    given, velocity, motion = np.empty((n, 3)), np.empty((n, 3)), np.empty(6)
    for i in range(n):
        data.qpos[:] = np.concatenate(([stature_m * state.travel[i]], state.angles[i]))
        data.qvel[:] = np.concatenate(([stature_m * state.travel_rate[i]], state.rates[i]))
        data.qacc[:] = np.concatenate(([stature_m * state.travel_acceleration[i]], state.accelerations[i]))
        data.xfrc_applied[:] = 0.0
        mujoco.mj_fwdPosition(model, data)
        mujoco.mj_fwdVelocity(model, data)
        mujoco.mj_rnePostConstraint(model, data)
        site = (mujoco.mjtObj.mjOBJ_SITE, ball.id, motion, 0)
        mujoco.mj_objectVelocity(model, data, *site)
        velocity[i] = motion[3:]
        mujoco.mj_objectAcceleration(model, data, *site)
        given[i] = held[i] * throw.ball.mass_kg * motion[3:]  # what an accelerometer reads: a - g
        data.xfrc_applied[hand.id, :3] = -given[i]  # at the hand's centre of mass, so with its moment about it
        data.xfrc_applied[hand.id, 3:] = np.cross(ball.xpos - hand.xipos, -given[i])
        mujoco.mj_rnePostConstraint(model, data)
        centre = data.subtree_com[model.body(hand.id).rootid[0]]
        for name, body in bodies.items():
            moment_about_centre, push = data.body(body).cfrc_int[:3], data.body(body).cfrc_int[3:]
            force[name][i] = push
            moment[name][i] = moment_about_centre + np.cross(centre - data.body(body).xpos, push)
        upper, outward = data.body("upper_arm").xmat.reshape(3, 3), state.angles[i, 5]
        axes["girdle"][i] = upper @ turned_about_z(outward).T  # before the external rotation
        for name in ("forearm", "hand"):
            axes[name][i] = data.body(name).xmat.reshape(3, 3)
    return Answer(force, moment, axes, given, velocity[np.argmin(np.abs(PHASES - 1.0))])


def turned_about_z(angle: float) -> np.ndarray:
    c, s = np.cos(angle), np.sin(angle)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


@pytest.fixture(scope="module", params=THROWS)
def case(request: pytest.FixtureRequest) -> tuple[Throw, Answer]:
    throw = THROWS[request.param]
    return throw, answer_of(throw)


def test_whole_joint_wrenches_are_those_of_mujoco(case):
    assert_wrenches_agree(*case, TOLERANCE)


def test_every_channel_of_a_throw_is_that_of_mujoco(case):
    assert_channels_agree(*case, TOLERANCE)


def test_mujocos_ball_leaves_at_the_speed_that_was_asked_for(case):
    throw, answer = case
    assert np.linalg.norm(answer.release_velocity) == pytest.approx(throw.speed_m_s, rel=1e-9)
