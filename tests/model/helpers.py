"""Shared by the outside checks: who throws what, states built by hand, and how far two results lie apart.

Only what goes *into* an oracle comes from the model (joint angles over time, an arm's measures). What an oracle says
(kinematics, wrenches, frames, the fingers' opening, the resolving into channels) is its own, or is written out here a
second time from the words of DESIGN and of `model.channels`.
"""

import importlib
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from types import ModuleType

import numpy as np
import pytest
from scipy import constants

from model.ball import Ball
from model.chain import COORDINATES, State
from model.channels import CHANNELS
from model.dynamics import inverse_dynamics
from model.identity import PathLoads, loads_on
from model.motion import PHASES, Motion, reference_motion
from model.path_basis import path_basis_of
from model.person import Person
from model.segments import Arm
from model.throw import Throw, clock_of, curves, movement

Array = np.ndarray

ADULT = Person("male", 1.88, 90.0, 25.0)
LEFT_HANDER = Person("male", 1.88, 90.0, 25.0, handedness="left")
CHILD = Person("male", 1.50, 42.0, 12.0)
LEFT_HANDED_GIRL = Person("female", 1.61, 52.0, 14.5, forearm_length_m=0.26, handedness="left")

THROWS = {
    "own ball, full speed": Throw(ADULT, Ball(0.145), 37.0),
    "own ball, half speed": Throw(ADULT, Ball(0.145), 18.5),
    "heavy ball, full speed": Throw(ADULT, Ball(0.470), 37.0),
    "heavy ball, half speed": Throw(ADULT, Ball(0.470), 18.5),
    "left-hander": Throw(LEFT_HANDER, Ball(0.145), 37.0),
    "child of twelve": Throw(CHILD, Ball(0.145), 24.0),
    "lightest ball checked, fastest": Throw(ADULT, Ball(0.050), 50.0),
    "heaviest ball checked, slowest": Throw(ADULT, Ball(1.000), 5.0),
    "left-handed girl, measured forearm, wide ball": Throw(LEFT_HANDED_GIRL, Ball(0.275, 0.097), 19.0),
}
"""Two masses, two speeds, the ends of what is checked, a left-hander, a child, and one who is much of it at once."""


def oracle(module: str, package: str) -> ModuleType:
    """An outside library to check against: skipped where it has no build, but on Linux it must be there."""
    if sys.platform == "linux":
        return importlib.import_module(module)
    return pytest.importorskip(module, reason=f"{package} cannot be installed on {sys.platform}")


def path_loads_of(motion: Motion, arm: Arm, beyond_hand_m: float | Array, phase: Array = PHASES) -> PathLoads:
    """A, B, G_A and G_B of an arm on any path: the model keeps the basis of the reference path alone."""
    return loads_on(path_basis_of(motion, phase), arm, beyond_hand_m)


def side_of(throw: Throw) -> int:
    """+1 for a right-hander; -1 for a left-hander, whose Z is the negative of a right-hander's."""
    return 1 if throw.person.handedness == "right" else -1


def reference_state(throw: Throw) -> State:
    """The reference path at the throw's own clock: what every oracle is moved through."""
    return reference_motion().state(PHASES, clock_of(throw))


def posture(
    angles_deg: Mapping[str, float | Array],
    rates: Mapping[str, float | Array] | None = None,
    accelerations: Mapping[str, float | Array] | None = None,
    travel_acceleration: float | Array = 0.0,
) -> State:
    """A state by hand: coordinates left out are 0 (abduction 0 is the arm hanging); at rest if nothing else is said.

    Angles in degrees, rates in rad/s, accelerations in rad/s2, travel in statures.
    """
    sources = (angles_deg, rates or {}, accelerations or {})
    n = max((np.size(value) for source in sources for value in source.values()), default=1)
    columns = [np.zeros((n, len(COORDINATES))) for _ in sources]
    for source, table in zip(sources, columns, strict=True):
        for name, value in source.items():
            table[:, COORDINATES.index(name)] = value
    travel = np.broadcast_to(np.asarray(travel_acceleration, dtype=float), (n,))
    return State(np.radians(columns[0]), columns[1], columns[2], np.zeros(n), np.zeros(n), travel)


STEP = 1e-30  # h: far below rounding, so the second-order term is nothing


def a_moment_later(state: State) -> State:
    """The state at time t + ih, to first order in h: angles and rates each move by their own rate of change."""
    later = 1j * STEP
    return State(
        state.angles + later * state.rates,
        state.rates + later * state.accelerations,
        state.accelerations.astype(complex),
        state.travel + later * state.travel_rate,
        state.travel_rate + later * state.travel_acceleration,
        state.travel_acceleration.astype(complex),
    )


def rate_of_change(later: np.ndarray) -> np.ndarray:
    return later.imag / STEP


def borne_by_the_hand(phase: Array) -> Array:
    """DESIGN 2, written out again: 1 before phase 0.98, smoothly 0 at 1.00 (1 - smoothstep)."""
    u = np.minimum(np.maximum((phase - 0.98) / 0.02, 0.0), 1.0)
    return 1.0 - 3.0 * u**2 + 2.0 * u**3


GRAVITY_M_S2 = np.array([0.0, -constants.g, 0.0])


@dataclass(frozen=True)
class Answer:
    """What an oracle says of a throw, in the lab frame: forces (N) and moments (N m) on the farther part, (N, 3).

    `axes` are rotation matrices (N, 3, 3) of the oracle's own bodies, all parallel to the lab in the zero posture.
    """

    force: dict[str, Array]
    moment: dict[str, Array]
    axes: dict[str, Array]
    given_to_ball: Array
    release_velocity: Array

    def channels(self, side: int) -> dict[str, Array]:
        """Resolve by the words of `channels.Channel.direction`, for either hand.

        In the zero posture both hands' arms point sideways, palm forward: *volar* is X and *thumb side* is Y for both,
        *distal* is Z for a right-hander and -Z for a left-hander. A turn is a pseudovector: the same muscle action
        about the same bodily direction has the opposite sense in a mirror.
        """

        def direction(body: str, index: int) -> Array:
            return self.axes[body][:, :, index] * (side if index == 2 else 1)

        def push(joint: str, body: str, index: int) -> Array:
            return np.einsum("ni,ni->n", self.force[joint], direction(body, index))

        def turn(joint: str, body: str, index: int) -> Array:
            return side * np.einsum("ni,ni->n", self.moment[joint], direction(body, index))

        volar, thumb, distal = 0, 1, 2
        return {
            "varus": turn("elbow", "forearm", volar),
            "elbow_flexion": turn("elbow", "forearm", thumb),
            "pronation": -turn("elbow", "forearm", distal),
            "wrist_flexion": turn("wrist", "hand", thumb),
            "internal_rotation": -turn("shoulder", "girdle", distal),
            "horizontal_adduction": turn("shoulder", "girdle", thumb),
            "abduction": -turn("shoulder", "girdle", volar),
            "shoulder_proximal": -push("shoulder", "girdle", distal),
            "shoulder_anterior": push("shoulder", "girdle", volar),
            "shoulder_superior": push("shoulder", "girdle", thumb),
            "elbow_proximal": -push("elbow", "forearm", distal),
            "elbow_anterior": push("elbow", "forearm", volar),
            "elbow_medial": -push("elbow", "forearm", thumb),
            "ball_x": -self.given_to_ball[:, 0],
            "ball_y": -self.given_to_ball[:, 1],
            "ball_z": -self.given_to_ball[:, 2],
        }


def apart(ours: Array, oracle: Array) -> float:
    """Largest difference over time, as a share of the oracle's own peak absolute value; 0 if both are 0 throughout."""
    difference, peak = float(np.abs(ours - oracle).max()), float(np.abs(oracle).max())
    if peak == 0.0:
        return 0.0 if difference == 0.0 else np.inf
    return difference / peak


def mirrored(vectors: Array, side: int, *, turning: bool) -> Array:
    """Vectors (..., 3) of a right-hander seen in the mirror Z -> -Z, if side is -1; moments are pseudovectors."""
    if side > 0:
        return vectors
    return vectors * (np.array([-1.0, -1.0, 1.0]) if turning else np.array([1.0, 1.0, -1.0]))


def assert_wrenches_agree(throw: Throw, answer: Answer, tolerance: float) -> None:
    """Whole joint wrenches, each component in the lab frame, over its own peak; the model's seen in the mirror."""
    side, moved = side_of(throw), movement(throw)
    found = inverse_dynamics(moved.frames, moved.points, moved.arm, throw.ball.mass_kg, borne_by_the_hand(PHASES))
    for joint in ("shoulder", "elbow", "wrist"):
        wrench = getattr(found, joint)
        force = mirrored(wrench.force, side, turning=False)
        moment = mirrored(wrench.moment, side, turning=True)
        for k in range(3):
            assert apart(force[:, k], answer.force[joint][:, k]) <= tolerance, (joint, "force", "XYZ"[k])
            assert apart(moment[:, k], answer.moment[joint][:, k]) <= tolerance, (joint, "moment", "XYZ"[k])


def assert_channels_agree(throw: Throw, answer: Answer, tolerance: float) -> None:
    """Every channel that a screen or a file is given, by the identity, over its own peak."""
    found, expected = curves(throw).values, answer.channels(side_of(throw))
    assert set(expected) == set(CHANNELS)
    for key, curve in expected.items():
        assert apart(found[key], curve) <= tolerance, key
