"""Newton-Euler, from the ball inward, over whole arrays of time points.

For each segment, with the force F_d and moment M_d that it must pass on at its distal point:

    F_p = m (a - g) + F_d
    M_p = dH/dt + M_d - (p - c) x F_p + (d - c) x F_d,    dH/dt = I alpha + omega x (I omega) about the centre of mass c

F_p and M_p are exerted on the segment at its proximal point p by its neighbour. The ball comes first: the hand gives it
w(phase) m (a - g), where w is 1 until the fingers begin to open and 0 at release.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import constants

from model.chain import Array, Frame, Frames, Point, Points, X, Y, Z, cross, dot, per_arm
from model.channels import CHANNELS
from model.segments import Arm, Segment

GRAVITY_M_S2 = np.array([0.0, -constants.g, 0.0])  # standard gravity, lab frame

OPENING_PHASE = 0.98  # the fingers begin to open: a window in phase, so that every clock scales exactly


def grip_fraction(phase: Array) -> NDArray[np.float64]:
    """Share of the ball's force that the hand still bears.

    w = 1 before phase 0.98, then 1 - smoothstep, 0 from phase 1.00 on; smoothstep(u) = 3 u^2 - 2 u^3.

    Parameters
    ----------
    phase : ndarray (N,)

    Returns
    -------
    ndarray (N,)
        Between 0 and 1.
    """
    u = np.clip((np.asarray(phase, dtype=float) - OPENING_PHASE) / (1.0 - OPENING_PHASE), 0.0, 1.0)
    return 1.0 - u * u * (3.0 - 2.0 * u)


@dataclass(frozen=True)
class Wrench:
    """Force (N) and moment (N m), each (..., N, 3) in the lab frame, exerted on the farther part at a joint centre."""

    force: Array
    moment: Array


@dataclass(frozen=True)
class Wrenches:
    """What each joint transmits, and the force that the hand gives the ball (its moment is zero)."""

    shoulder: Wrench
    elbow: Wrench
    wrist: Wrench
    ball: Wrench


def spin_of(frame: Frame, axis: int) -> Array:
    """Change of angular momentum that one principal axis e asks for: (alpha . e) e + (omega . e) omega x e.

    Parameters
    ----------
    frame : Frame
        Of the principal axes.
    axis : int
        0, 1 or 2 for x, y or z.

    Returns
    -------
    ndarray (..., N, 3)
        N m for each kg m2 about that axis, lab frame; it knows no arm.
    """
    e = frame.axis(axis)
    return dot(frame.alpha, e)[..., None] * e + dot(frame.omega, e)[..., None] * cross(frame.omega, e)


def _spin_change(segment: Segment, frame: Frame) -> Array:
    """Rate of change of angular momentum about the centre of mass (N m), lab frame: sum of I_k times `spin_of`."""
    inertias = (segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2)
    x, y, z = (per_arm(inertia) * spin_of(frame, k) for k, inertia in zip((X, Y, Z), inertias, strict=True))
    return x + y + z


def _passed_on(
    segment: Segment, frame: Frame, near: Point, centre: Point, far: Point, load: Wrench, gravity: Array
) -> Wrench:
    force = per_arm(segment.mass_kg) * (centre.acceleration - gravity) + load.force
    moment = (
        _spin_change(segment, frame)
        + load.moment
        - cross(near.position - centre.position, force)
        + cross(far.position - centre.position, load.force)
    )
    return Wrench(force, moment)


def inverse_dynamics(
    frames: Frames, points: Points, arm: Arm, ball_mass_kg: Any, held: Array, gravity: Array = GRAVITY_M_S2
) -> Wrenches:
    """Forces and moments at every joint.

    Parameters
    ----------
    frames, points : Frames, Points
        The moving chain.
    ball_mass_kg : float or ndarray (n,)
        Mass of the ball (kg).
    held : ndarray (N,)
        Share of the ball's force that the hand bears, from `grip_fraction`.
    gravity : ndarray (3,)
        Gravity (m/s2), lab frame.

    Returns
    -------
    Wrenches
        About each joint centre, in the lab frame, exerted by the nearer on the farther part.
    """
    given = per_arm(ball_mass_kg) * held[..., None] * (points.ball.acceleration - gravity)
    ball = Wrench(given, np.zeros_like(given))
    wrist = _passed_on(arm.hand, frames.hand, points.wrist, points.hand_centre, points.ball, ball, gravity)
    elbow = _passed_on(arm.forearm, frames.forearm, points.elbow, points.forearm_centre, points.wrist, wrist, gravity)
    shoulder = _passed_on(
        arm.upper_arm, frames.upper_arm, points.shoulder, points.upper_arm_centre, points.elbow, elbow, gravity
    )
    return Wrenches(shoulder, elbow, wrist, ball)


def resolve(frames: Frames, wrenches: Wrenches) -> Array:
    """Resolve the joints' wrenches into the channels of `channels.CHANNELS`.

    Elbow in the forearm's frame: varus about x, flexion about y, pronation about -z; anterior along x, medial
    along -y, proximal along -z. Shoulder in the frame after abduction and before external rotation: horizontal
    adduction about y, abduction about -x, internal rotation about -z; anterior along x, superior along y, proximal
    along -z.

    Returns
    -------
    ndarray (..., N, C)
        Torques (N m) and forces (N), in the order of `CHANNELS`; signs as each channel's `direction` says.
    """
    fore, girdle = frames.forearm, frames.shoulder
    elbow, shoulder = wrenches.elbow, wrenches.shoulder
    by_key = {
        "varus": dot(elbow.moment, fore.axis(X)),
        "elbow_flexion": dot(elbow.moment, fore.axis(Y)),
        "pronation": -dot(elbow.moment, fore.axis(Z)),
        "wrist_flexion": dot(wrenches.wrist.moment, frames.hand.axis(Y)),
        "internal_rotation": -dot(shoulder.moment, girdle.axis(Z)),
        "horizontal_adduction": dot(shoulder.moment, girdle.axis(Y)),
        "abduction": -dot(shoulder.moment, girdle.axis(X)),
        "shoulder_proximal": -dot(shoulder.force, girdle.axis(Z)),
        "shoulder_anterior": dot(shoulder.force, girdle.axis(X)),
        "shoulder_superior": dot(shoulder.force, girdle.axis(Y)),
        "elbow_proximal": -dot(elbow.force, fore.axis(Z)),
        "elbow_anterior": dot(elbow.force, fore.axis(X)),
        "elbow_medial": -dot(elbow.force, fore.axis(Y)),
        "ball_x": -wrenches.ball.force[..., X],
        "ball_y": -wrenches.ball.force[..., Y],
        "ball_z": -wrenches.ball.force[..., Z],
    }
    return np.stack([by_key[key] for key in CHANNELS], axis=-1)
