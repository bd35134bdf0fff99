"""A motion: a path of joint angles over phase, and a clock that runs along it.

Phase 0 is stride foot contact, 1 is ball release, 1.25 the end of the follow-through. The path is a set of B-spline
curves; speed is the clock alone: time-scale factor s runs phase 0 to 1 in T / s seconds, so rates scale with s and
accelerations with s2. The reference motion is solved for (`solve_motion`) and kept as data beside this module.
"""

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import BSpline

from model.chain import COORDINATES, State
from model.channels import END_PHASE

Array = NDArray[np.float64]

DEGREE = 5  # quintic: accelerations are smooth to their second derivative
REFERENCE_STATURE_M = 1.88  # the reference thrower's, for whom the trunk's travel was prescribed
TRAVEL_SPEED_M_S = (2.2, -1.0)  # speed of the hips toward the target = 2.2 - 1.0 phase: judgement, after values of
# forward velocity recalled in motion_landmarks.csv; prescribed because a free one ran away to 25 m/s

PHASES = np.linspace(0.0, END_PHASE, 501)  # where curves are given; 0, 1 and 1.25 are among them


def knots(intervals: int) -> Array:
    """Knots of a clamped spline with equal intervals over phase 0 to 1.25.

    Parameters
    ----------
    intervals : int
        Number of equal intervals.

    Returns
    -------
    ndarray (intervals + 11,)
    """
    inner = np.linspace(0.0, END_PHASE, intervals + 1)
    return np.concatenate((np.zeros(DEGREE), inner, np.full(DEGREE, END_PHASE)))


def design_matrix(intervals: int, phase: ArrayLike, derivative: int = 0) -> Array:
    """Matrix that takes spline coefficients to a derivative of the curve at given phases.

    Parameters
    ----------
    intervals : int
        Number of equal spline intervals.
    phase : array_like (N,)
        Phases, 0 to 1.25.
    derivative : int
        0 for the angle itself, k for its k-th derivative by phase.

    Returns
    -------
    ndarray (N, intervals + 5)
    """
    basis = BSpline(knots(intervals), np.eye(intervals + DEGREE), DEGREE)
    return np.asarray(basis(np.asarray(phase, dtype=float), nu=derivative))


@dataclass(frozen=True)
class Motion:
    """A path and its reference clock.

    Attributes
    ----------
    coefficients : ndarray (K, 8)
        Spline coefficients of each joint angle (rad), in the order of `chain.COORDINATES`.
    duration_s : float
        Time from foot contact to release at time-scale factor 1 (s).
    max_external_rotation_phase : float
        Phase of maximum external rotation.
    """

    coefficients: Array
    duration_s: float
    max_external_rotation_phase: float

    def state(self, phase: ArrayLike, clock: float = 1.0) -> State:
        """Joint angles and trunk travel, with their time derivatives.

        q' = dq/dphase * s/T,  q'' = d2q/dphase2 * (s/T)2.

        Parameters
        ----------
        phase : array_like (N,)
            Phases, 0 to 1.25.
        clock : float
            Time-scale factor s; 1 is the reference speed.
        """
        phase = np.asarray(phase, dtype=float)
        pace = clock / self.duration_s
        intervals = len(self.coefficients) - DEGREE
        q, dq, ddq = (design_matrix(intervals, phase, k) @ self.coefficients for k in (0, 1, 2))
        return moving(phase, q, dq, ddq, self.duration_s, pace)


def moving(phase: Array, q: Any, dq: Any, ddq: Any, duration_s: float, pace: float) -> State:
    """Put angles over phase on a clock, with the trunk's prescribed travel.

    Parameters
    ----------
    phase : ndarray (N,)
    q, dq, ddq : ndarray (..., N, 8)
        Angles (rad) and their first and second derivatives by phase.
    duration_s : float
        Foot contact to release at the reference clock (s), for which the travel is prescribed.
    pace : float
        Phases a second (1/s).
    """
    start, change = TRAVEL_SPEED_M_S
    by_phase = duration_s / REFERENCE_STATURE_M  # m/s at the reference clock -> statures a phase
    return State(
        q,
        dq * pace,
        ddq * pace**2,
        (start * phase + 0.5 * change * phase**2) * by_phase,
        (start + change * phase) * by_phase * pace,
        np.full_like(phase, change * by_phase * pace**2),
    )


@cache
def reference_motion() -> Motion:
    """The solved reference motion, read from `reference_motion.json`.

    Returns
    -------
    Motion
        Of the reference thrower: male, 1.88 m, 90 kg, 145 g ball, about 37 m/s.
    """
    stored = json.loads(files("model").joinpath("reference_motion.json").read_text(encoding="utf-8"))
    if tuple(stored["coordinates"]) != COORDINATES:
        raise ValueError("reference_motion.json: its coordinates are not those of the chain")
    return Motion(
        np.array(stored["coefficients_rad"], dtype=float),
        float(stored["duration_s"]),
        float(stored["max_external_rotation_phase"]),
    )
