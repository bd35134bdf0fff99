"""Where each joint angle of the chain is zero and which way it counts, as a thrower of lines: drawn from the chain."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.chain import COORDINATES, State, Y, frames_of, points_of
from model.person import Person
from model.segments import arm_of

Array = NDArray[np.float64]

VIEWS = {  # what lies to the right and up on the drawing: X toward the target, Y up, Z to the thrower's right
    "above": (2, 0),
    "right": (0, 1),
    "behind": (2, 1),
}
LINE = ("hips", "neck", "shoulder", "elbow", "wrist", "hand")
STEPS = 9  # points along the way from zero
HEAD_M = (0.17, 0.11)  # of the drawn head: its centre above the neck, and its radius (m), for drawing alone
REACH = 0.6  # how far out from the joint the way is drawn, as a share of what turns


@dataclass(frozen=True)
class _Pose:
    """How an angle is drawn: from where, turned by how much (deg), about which joint, and the others' angles (deg)."""

    seen_from: str
    turned_deg: float
    pivot: str
    tip: str
    others: dict[str, float]
    line: tuple[str, ...] = LINE


_SIDEWAYS = {"abduction": 90.0}
_POSES = {
    "trunk_rotation": _Pose("above", 40.0, "hips", "elbow", _SIDEWAYS),
    "trunk_forward_tilt": _Pose("right", 30.0, "hips", "neck", {}, LINE[:2]),
    "trunk_lateral_tilt": _Pose("behind", 30.0, "hips", "neck", _SIDEWAYS, LINE[:4]),
    "horizontal_adduction": _Pose("above", 40.0, "shoulder", "elbow", _SIDEWAYS),
    "abduction": _Pose("behind", 60.0, "shoulder", "elbow", {}),
    "external_rotation": _Pose("right", 60.0, "elbow", "wrist", _SIDEWAYS | {"elbow_flexion": 90.0}),
    "elbow_flexion": _Pose("above", 60.0, "elbow", "wrist", _SIDEWAYS),
    "wrist_flexion": _Pose("above", 50.0, "wrist", "hand", _SIDEWAYS, LINE[3:]),
}


@dataclass(frozen=True)
class AngleFigure:
    """One angle, drawn.

    Attributes
    ----------
    coordinate : str
        One of `chain.COORDINATES`.
    seen_from : {'above', 'right', 'behind'}
        Above has the target up on the drawing, right has it to the right, behind has it going in.
    zero, turned : ndarray (P, 2)
        The thrower at zero, and turned the positive way: from the hips or a joint outward, to the right and up (m).
    heads : ndarray (2, 2) or (0, 2)
        Centre of the head at zero and turned (m); none where only part of the arm is drawn.
    way : ndarray (STEPS, 2)
        The way between, to the right and up (m).
    turned_deg : float
        By how much.
    """

    coordinate: str
    seen_from: str
    zero: Array
    turned: Array
    heads: Array
    way: Array
    turned_deg: float


def angle_figures(person: Person) -> tuple[AngleFigure, ...]:
    """Draw every angle of a right-hander's chain.

    Parameters
    ----------
    person : Person
        Whose arm is drawn.

    Returns
    -------
    tuple of AngleFigure
        In the order of `chain.COORDINATES`.
    """
    return tuple(_figure(person, name) for name in COORDINATES)


def _figure(person: Person, name: str) -> AngleFigure:
    pose = _POSES[name]
    angles = np.zeros((STEPS, len(COORDINATES)))
    for other, degrees in pose.others.items():
        angles[:, COORDINATES.index(other)] = degrees
    angles[:, COORDINATES.index(name)] = np.linspace(0.0, pose.turned_deg, STEPS)
    places = _places(person, np.radians(angles))
    view = list(VIEWS[pose.seen_from])
    thrower = np.stack([places[part][:, view] for part in pose.line], axis=1)
    heads = places["head"][[0, -1]][:, view] if "neck" in pose.line else np.zeros((0, 2))
    pivot, tip = places[pose.pivot][:, view], places[pose.tip][:, view]
    return AngleFigure(
        name, pose.seen_from, thrower[0], thrower[-1], heads, pivot + REACH * (tip - pivot), pose.turned_deg
    )


def _places(person: Person, angles: Array) -> dict[str, Array]:
    """Where the joints are, each (STEPS, 3) in m."""
    still, along = np.zeros_like(angles), np.zeros(len(angles))
    state = State(angles, still, still, along, along, along)
    frames, arm = frames_of(state), arm_of(person)
    points = points_of(frames, state, arm, 0.0)
    neck = points.hips.position + arm.shoulder_y_m * frames.trunk.axis(Y)
    joints = {name: getattr(points, name).position for name in ("hips", "shoulder", "elbow", "wrist")}
    head = neck + HEAD_M[0] * frames.trunk.axis(Y)
    return joints | {"neck": neck, "head": head, "hand": points.ball.position}
