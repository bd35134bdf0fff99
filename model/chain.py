"""Kinematics of the chain: trunk -> shoulder -> elbow -> wrist -> hand and ball.

Frame: X toward the target, Y up, Z to the thrower's right; everything here is a right-hander. Rotations in order, each
about the axis as already moved (`ROTATIONS`). The trunk turns about a point between the hips that moves along X only.
Angles are arrays (..., N, 8), vectors (..., N, 3): N time points, and any leading axes for many arms at once.

Nothing here takes an absolute value or a conjugate, so complex angles give exact derivatives by a complex step.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.segments import Arm

Array = NDArray[Any]

X, Y, Z = 0, 1, 2

ROTATIONS = (  # coordinate, axis, sense, angle at which the frames coincide (rad)
    ("trunk_rotation", Y, +1, 0.0),
    ("trunk_forward_tilt", Z, -1, 0.0),
    ("trunk_lateral_tilt", X, -1, 0.0),
    ("horizontal_adduction", Y, +1, 0.0),
    ("abduction", X, -1, np.pi / 2),  # 90 degrees is the arm held out sideways
    ("external_rotation", Z, +1, 0.0),
    ("elbow_flexion", Y, +1, 0.0),
    ("wrist_flexion", Y, +1, 0.0),
)

COORDINATES = tuple(name for name, *_ in ROTATIONS)

_FRAME_AFTER = {
    "trunk_lateral_tilt": "trunk",
    "abduction": "shoulder",
    "external_rotation": "upper_arm",
    "elbow_flexion": "forearm",
    "wrist_flexion": "hand",
}


@dataclass(frozen=True)
class State:
    """Where the joints are and how they move, over time.

    Attributes
    ----------
    angles, rates, accelerations : ndarray (..., N, 8)
        Joint angles (rad), first (rad/s) and second (rad/s2) time derivatives, in the order of `COORDINATES`.
    travel, travel_rate, travel_acceleration : ndarray (N,)
        Displacement of the point between the hips along X, in statures (1, 1/s, 1/s2).
    """

    angles: Array
    rates: Array
    accelerations: Array
    travel: Array
    travel_rate: Array
    travel_acceleration: Array


@dataclass(frozen=True)
class Frame:
    """A moving frame.

    Attributes
    ----------
    axes : ndarray (..., N, 3, 3)
        Its unit vectors x, y, z as columns, expressed in the lab frame.
    omega, alpha : ndarray (..., N, 3)
        Its angular velocity (rad/s) and acceleration (rad/s2), expressed in the lab frame.
    """

    axes: Array
    omega: Array
    alpha: Array

    def axis(self, index: int) -> Array:
        """Unit vector along an axis.

        Parameters
        ----------
        index : int
            0, 1 or 2 for x, y or z.

        Returns
        -------
        ndarray (..., N, 3)
            In the lab frame.
        """
        return self.axes[..., index]


@dataclass(frozen=True)
class Point:
    """A moving point: position (m), velocity (m/s), acceleration (m/s2), each (..., N, 3) in the lab frame."""

    position: Array
    velocity: Array
    acceleration: Array


@dataclass(frozen=True)
class Frames:
    """The five frames of the chain; `shoulder` is the one after abduction, before external rotation."""

    trunk: Frame
    shoulder: Frame
    upper_arm: Frame
    forearm: Frame
    hand: Frame


@dataclass(frozen=True)
class Points:
    """The chain's points: joint centres, the ball's centre, and the centre of mass of each segment."""

    hips: Point
    shoulder: Point
    elbow: Point
    wrist: Point
    ball: Point
    upper_arm_centre: Point
    forearm_centre: Point
    hand_centre: Point


def cross(a: Array, b: Array) -> Array:
    """Cross product of vectors (..., 3); several times faster than ``numpy.cross`` on small last axes.

    Parameters
    ----------
    a, b : ndarray (..., 3)

    Returns
    -------
    ndarray (..., 3)
    """
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    return np.stack((ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx), axis=-1)


def dot(a: Array, b: Array) -> Array:
    """Dot product of vectors over the last axis, without conjugation.

    Parameters
    ----------
    a, b : ndarray (..., 3)

    Returns
    -------
    ndarray (...)
    """
    return a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1] + a[..., 2] * b[..., 2]


def _turned(axes: Array, about: int, angle: Array) -> Array:
    """Axes turned about one of their own: R <- R R_about(angle), which mixes the two other columns only."""
    i, j = (about + 1) % 3, (about + 2) % 3
    c, s = np.cos(angle)[..., None], np.sin(angle)[..., None]
    columns: list[Array] = [None, None, None]  # type: ignore[list-item]
    columns[about] = axes[..., about]
    columns[i] = c * axes[..., i] + s * axes[..., j]
    columns[j] = c * axes[..., j] - s * axes[..., i]
    return np.stack(columns, axis=-1)


def frames_of(state: State) -> Frames:
    """Orient the chain; no length enters, so one answer serves every arm on the same path.

    For each rotation about the moved axis e by angle q:
    omega <- omega + e q',  alpha <- alpha + e q'' + omega x e q'.
    """
    q = state.angles
    axes = np.broadcast_to(np.eye(3), (*q.shape[:-1], 3, 3))
    omega = np.zeros((*q.shape[:-1], 3), dtype=q.dtype)
    alpha = np.zeros_like(omega)
    found: dict[str, Frame] = {}
    for k, (name, about, sense, zero) in enumerate(ROTATIONS):
        spin = sense * axes[..., about] * state.rates[..., k, None]
        alpha = alpha + sense * axes[..., about] * state.accelerations[..., k, None] + cross(omega, spin)
        omega = omega + spin
        axes = _turned(axes, about, sense * (q[..., k] - zero))
        if name in _FRAME_AFTER:
            found[_FRAME_AFTER[name]] = Frame(axes, omega, alpha)
    return Frames(**found)


def per_arm(number: Any) -> Array:
    """A number per arm, shaped to multiply vectors (..., N, 3).

    Parameters
    ----------
    number : float or ndarray (n,)

    Returns
    -------
    ndarray (1, 1) or (n, 1, 1)
    """
    return np.asarray(number)[..., None, None]


def unit_arrow(frame: Frame, index: int) -> Point:
    """How the tip of a unit arrow fixed in a frame moves, relative to its base.

    r = e_k,  r' = omega x e_k,  r'' = alpha x e_k + omega x (omega x e_k). It knows no length: one answer
    serves every arm on the path.

    Parameters
    ----------
    index : int
        0, 1 or 2: along x, y or z of the frame.

    Returns
    -------
    Point
        Per metre of arrow, in the lab frame.
    """
    tip = frame.axis(index)
    swing = cross(frame.omega, tip)
    return Point(tip, swing, cross(frame.alpha, tip) + cross(frame.omega, swing))


def reached(base: Point, *steps: tuple[Any, Point]) -> Point:
    """Point reached from a base along arrows.

    Parameters
    ----------
    *steps : (float or ndarray (n,), Point)
        Distances (m), one for each arm, and the unit arrows they are taken along.

    Returns
    -------
    Point
        Position, velocity and acceleration are sums, since each is linear in the distances.
    """
    place, velocity, acceleration = base.position, base.velocity, base.acceleration
    for distance_m, arrow in steps:
        far = per_arm(distance_m)
        place = place + far * arrow.position
        velocity = velocity + far * arrow.velocity
        acceleration = acceleration + far * arrow.acceleration
    return Point(place, velocity, acceleration)


def points_of(frames: Frames, state: State, arm: Arm, beyond_hand_m: Any) -> Points:
    """Place the chain's points.

    Parameters
    ----------
    arm : Arm
        One arm, or many (then every result has a leading axis).
    beyond_hand_m : float or ndarray (n,)
        Distance of the ball's centre beyond the hand's end (m).

    Returns
    -------
    Points
        In the lab frame, of a right-hander; X = Y = Z = 0 is the point between the hips at foot contact.
    """
    toward_target = np.array([1.0, 0.0, 0.0])
    hips = Point(
        *(
            per_arm(arm.stature_m) * motion[..., None] * toward_target
            for motion in (state.travel, state.travel_rate, state.travel_acceleration)
        )
    )
    trunk = [unit_arrow(frames.trunk, axis) for axis in (X, Y, Z)]
    upper_arm, forearm, hand = (unit_arrow(frame, Z) for frame in (frames.upper_arm, frames.forearm, frames.hand))
    out = zip((arm.shoulder_x_m, arm.shoulder_y_m, arm.shoulder_z_m), trunk, strict=True)
    shoulder = reached(hips, *out)
    elbow = reached(shoulder, (arm.upper_arm.length_m, upper_arm))
    wrist = reached(elbow, (arm.forearm.length_m, forearm))
    return Points(
        hips=hips,
        shoulder=shoulder,
        elbow=elbow,
        wrist=wrist,
        ball=reached(wrist, (arm.hand.length_m + beyond_hand_m, hand)),
        upper_arm_centre=reached(shoulder, (arm.upper_arm.centre_m, upper_arm)),
        forearm_centre=reached(elbow, (arm.forearm.centre_m, forearm)),
        hand_centre=reached(wrist, (arm.hand.centre_m, hand)),
    )


def angular_velocities(frames: Frames) -> dict[str, Array]:
    """Angular velocity of each joint, resolved about the axes its torques are resolved about.

    Power of a joint is then the plain sum of torque times speed over its channels.

    Returns
    -------
    dict of str to ndarray (..., N)
        Of each rotation of a joint (rad/s), positive in the sense of the torque of the same name.
    """
    shoulder = frames.upper_arm.omega - frames.trunk.omega
    elbow = frames.forearm.omega - frames.upper_arm.omega
    wrist = frames.hand.omega - frames.forearm.omega
    return {
        "internal_rotation": -dot(shoulder, frames.shoulder.axis(Z)),
        "horizontal_adduction": dot(shoulder, frames.shoulder.axis(Y)),
        "abduction": -dot(shoulder, frames.shoulder.axis(X)),
        "elbow_flexion": dot(elbow, frames.forearm.axis(Y)),
        "wrist_flexion": dot(wrist, frames.hand.axis(Y)),
    }
