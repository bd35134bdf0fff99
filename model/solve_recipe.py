"""What the reference motion is asked for: the thrower, the landmarks and every weight of the fit, in one place.

No published value of varus or internal-rotation torque stands here: both are only penalised for size and roughness.
Ceilings near published values on the other channels do stand here. Level, shape, timing and ratio of the reference
throw were in view when the weights were chosen: they are calibrated, not evidence. Why each weight is there, and what
happens without it: `REFERENCE_MOTION.md`.
"""

import csv
from dataclasses import dataclass, field, replace
from importlib.resources import files

import numpy as np

from model.ball import Ball
from model.chain import COORDINATES
from model.person import Person

REFERENCE_PERSON = Person("male", 1.88, 90.0, 25.0)
REFERENCE_BALL = Ball(0.145, 0.073)


@dataclass(frozen=True)
class Landmark:
    """One published or recalled value that the path passes near.

    Attributes
    ----------
    coordinate, phase, derivative : str, float, int
        Which angle, when, and which derivative by time (0 or 1).
    value, spread : float
        Value and standard deviation, rad or rad/s.
    event_average : bool
        Whether it is an average at an event (bounded more tightly) rather than a loose corridor between events.
    """

    coordinate: str
    phase: float
    derivative: int
    value: float
    spread: float
    event_average: bool


@dataclass(frozen=True)
class Throwing:
    """Who throws what, and how fast against the recipe's own clock.

    Attributes
    ----------
    clock : float
        Time-scale factor s: landmarks and limits of speed are multiplied by it, landmarks of angle stay.
    """

    person: Person
    ball: Ball
    clock: float = 1.0

    def marks(self, full: tuple[Landmark, ...]) -> tuple[Landmark, ...]:
        """Landmarks of a full-effort throw -> those of this one, values and spreads of speeds times s."""
        return tuple(
            replace(
                mark, value=mark.value * self.clock**mark.derivative, spread=mark.spread * self.clock**mark.derivative
            )
            for mark in full
        )


REFERENCE_THROWING = Throwing(REFERENCE_PERSON, REFERENCE_BALL)


def landmarks() -> tuple[Landmark, ...]:
    """The joint-angle landmarks of a full-effort throw, from `published/motion_landmarks.csv`.

    Returns
    -------
    tuple of Landmark
        As published: no weight of the recipe is in them.
    """
    text = files("model").joinpath("published/motion_landmarks.csv").read_text(encoding="utf-8")
    return tuple(
        Landmark(
            row["coordinate"],
            float(row["phase"]),
            int(row["derivative"]),
            np.radians(float(row["value"])),
            np.radians(float(row["sd"])),
            "event average" in row["note"],
        )
        for row in csv.DictReader(text.splitlines())
        if row["coordinate"] in COORDINATES
    )


@dataclass(frozen=True)
class Recipe:
    """Weights of the fit. A residual is a value over its scale; a smaller scale asks more of it.

    Scales of rows over phase are meant before division by the root of their number, so that the number of phases does
    not matter. Angles in degrees here (deg, deg/s), torques in N m, forces in N; `solve_motion` converts.
    """

    intervals: int = 16
    phases: int = 126
    duration_s: float = 0.145

    release_speed_m_s: float = 37.0
    release_speed_scale_m_s: float = 0.1
    release_drop_deg: float = 1.5  # degrees below the horizontal
    release_angle_scale_deg: float = 1.0
    guard_weight: float = 10.0
    guard_sd: float = 1.3
    after_release_spread: float = 3.0  # landmark positions after release are known worse
    internal_rotation_speed_sd_deg_s: float = 160.0

    torque_scale_nm: dict[str, float] = field(
        default_factory=lambda: {
            "varus": 11.5,
            "internal_rotation": 11.5,
            "elbow_flexion": 13.0,
            "horizontal_adduction": 18.0,
            "abduction": 18.0,
            "pronation": 32.0,
            "wrist_flexion": 32.0,
        }
    )
    torque_rate_scale_nm: dict[str, float] = field(
        default_factory=lambda: {
            "varus": 160.0,
            "internal_rotation": 160.0,
            "elbow_flexion": 180.0,
            "horizontal_adduction": 250.0,
            "abduction": 250.0,
            "pronation": 440.0,
            "wrist_flexion": 440.0,
        }
    )
    torque_curvature_scale_nm: dict[str, float] = field(
        default_factory=lambda: {"varus": 1500.0, "internal_rotation": 1500.0}
    )
    after_release_torque: float = 0.4
    after_release_varus: float = 2.0
    after_release_varus_from: float = 1.015
    after_release_rate: float = 0.18
    after_release_curvature: float = 0.07

    ceiling_scale_nm: float = 7.0
    # channel, sense, ceiling (N m), from phase, to phase
    ceilings: tuple[tuple[str, int, float, float, float], ...] = (
        ("horizontal_adduction", +1, 110.0, 0.0, 1.0),
        ("horizontal_adduction", +1, 20.0, 1.04, 1.25),
        ("horizontal_adduction", -1, 60.0, 0.0, 0.9),
        ("horizontal_adduction", -1, 140.0, 1.0, 1.25),
        ("elbow_flexion", -1, 50.0, 0.0, 1.25),
        ("elbow_flexion", +1, 70.0, 0.0, 1.25),
        ("abduction", +1, 100.0, 0.0, 1.25),
        ("abduction", -1, 100.0, 0.0, 1.25),
    )
    force_scale_n: float = 50.0
    force_ceiling_n: dict[str, float] = field(
        default_factory=lambda: {"shoulder_proximal": 1000.0, "elbow_proximal": 850.0}
    )

    jerk_weight: dict[str, float] = field(
        default_factory=lambda: {
            "trunk_rotation": 8e-3,
            "trunk_forward_tilt": 5e-3,
            "trunk_lateral_tilt": 3e-3,
            "horizontal_adduction": 9e-3,
            "abduction": 5e-3,
            "external_rotation": 15e-3,
            "elbow_flexion": 16e-3,
            "wrist_flexion": 40e-3,
        }
    )

    angle_scale_deg: float = 0.7
    # coordinate, sense, limit (deg): sense * angle <= sense * limit
    angle_limits: tuple[tuple[str, int, float], ...] = (
        ("external_rotation", +1, 176.0),
        ("external_rotation", -1, 0.0),
        ("elbow_flexion", -1, 8.0),
    )
    # coordinate, sense, limit (deg/s), scale (deg/s), from phase
    rate_limits: tuple[tuple[str, int, float, float, float], ...] = (
        ("trunk_rotation", +1, 1250.0, 17.0, 0.0),
        ("trunk_rotation", +1, 900.0, 33.0, 0.8),
        ("horizontal_adduction", +1, 1000.0, 33.0, 0.0),
        ("horizontal_adduction", -1, -1000.0, 33.0, 0.0),
        ("abduction", +1, 1000.0, 33.0, 0.0),
        ("abduction", -1, -1000.0, 33.0, 0.0),
        ("elbow_flexion", +1, 2450.0, 33.0, 0.0),
        ("elbow_flexion", -1, -2450.0, 33.0, 0.0),
        ("external_rotation", +1, 0.0, 33.0, 1.0),
    )
    slowing_from: float = 1.005
    slowing_m_s_a_phase: float = 37.0
    slowing_scale_m_s_a_phase: float = 1.2


def recipe_for(
    base: Recipe, clock: float, release_speed_m_s: float, torque: float = 1.0, force: float = 1.0, duration: float = 1.0
) -> Recipe:
    """A recipe for another throw: the law of tolerances.

    Landmarks and limits of angle and the smoothness of the path stay. Limits of speed, and the ball's slowing after
    release, go with the time-scale factor s. Tolerances, ceilings and penalties of torque go with one factor, of force
    with another. With torque = force = s2 and the ball unchanged the problem is, weight aside, the same one run slower.

    Parameters
    ----------
    clock : float
        Time-scale factor s.
    release_speed_m_s : float
        Release speed asked for (m/s).
    torque, force : float
        Factors on what is tolerated of torque and of force.
    duration : float
        Factor on the time from foot contact to release at factor 1, beside the s of the clock.
    """

    def times(scales: dict[str, float], factor: float) -> dict[str, float]:
        return {key: scale * factor for key, scale in scales.items()}

    return replace(
        base,
        duration_s=base.duration_s * duration,
        release_speed_m_s=release_speed_m_s,
        release_speed_scale_m_s=base.release_speed_scale_m_s * clock,
        internal_rotation_speed_sd_deg_s=base.internal_rotation_speed_sd_deg_s * clock,
        torque_scale_nm=times(base.torque_scale_nm, torque),
        torque_rate_scale_nm=times(base.torque_rate_scale_nm, torque),
        torque_curvature_scale_nm=times(base.torque_curvature_scale_nm, torque),
        ceiling_scale_nm=base.ceiling_scale_nm * torque,
        ceilings=tuple(
            (channel, sense, ceiling * torque, start, end) for channel, sense, ceiling, start, end in base.ceilings
        ),
        force_scale_n=base.force_scale_n * force,
        force_ceiling_n=times(base.force_ceiling_n, force),
        rate_limits=tuple(
            (name, sense, limit * clock, scale * clock, start) for name, sense, limit, scale, start in base.rate_limits
        ),
        slowing_m_s_a_phase=base.slowing_m_s_a_phase * clock,
        slowing_scale_m_s_a_phase=base.slowing_scale_m_s_a_phase * clock,
    )
