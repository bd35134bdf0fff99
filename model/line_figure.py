"""The thrower as a line figure: the model's own joint centres over a throw, for drawing."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.chain import X, Y, Z
from model.channels import END_PHASE
from model.person import Person
from model.throw import SPEED_LIMIT, Throw, movement

Array = NDArray[np.float64]

FRAMES = 126
"""Phases that are given, from foot contact to the end of the follow-through: every hundredth."""


@dataclass(frozen=True)
class LineFigure:
    """Joint centres over phase. They do not depend on the throw's speed: a faster throw takes the same path.

    Attributes
    ----------
    phase : ndarray (N,)
        0 is foot contact, 1 release.
    points : dict of str to ndarray (N, 3)
        ``hips`` (the point between them), ``neck`` (between the shoulders), ``other_shoulder``, ``shoulder``,
        ``elbow``, ``wrist`` and ``ball``, in m. X toward the target, Y up, Z to the thrower's right; a left-hander's
        throw is the mirror image.
    ball_radius_m : float
        Of the ball (m).
    varus_axis : ndarray (N, 3)
        Unit vector, square to the forearm, about which a positive varus torque turns it by the right-hand rule.
    """

    phase: Array
    points: dict[str, Array]
    ball_radius_m: float
    varus_axis: Array


@lru_cache(maxsize=64)
def line_figure(person: Person, ball_diameter_m: float) -> LineFigure:
    """Find the joint centres of a person's throw.

    Parameters
    ----------
    ball_diameter_m : float
        The ball's diameter (m).
    """
    phase = np.linspace(0.0, END_PHASE, FRAMES)
    ball = Ball(0.145, ball_diameter_m)  # neither its mass nor the speed moves a joint centre
    moved = movement(Throw(person, ball, 0.5 * SPEED_LIMIT.high), phase)
    chain, arm, trunk = moved.points, moved.arm, moved.frames.trunk
    hips = chain.hips.position
    neck = hips + arm.shoulder_x_m * trunk.axis(X) + arm.shoulder_y_m * trunk.axis(Y)
    points = {
        "hips": hips,
        "neck": neck,
        "other_shoulder": neck - arm.shoulder_z_m * trunk.axis(Z),
        "shoulder": chain.shoulder.position,
        "elbow": chain.elbow.position,
        "wrist": chain.wrist.position,
        "ball": chain.ball.position,
    }
    varus_axis = moved.frames.forearm.axis(X)
    if person.handedness == "left":
        points = {name: place * np.array([1.0, 1.0, -1.0]) for name, place in points.items()}
        varus_axis = varus_axis * np.array([-1.0, -1.0, 1.0])  # a mirrored turn goes about the reversed mirrored axis
    return LineFigure(phase, points, 0.5 * ball.diameter_m, varus_axis)
