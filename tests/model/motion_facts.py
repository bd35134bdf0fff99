"""What is read off a solved motion to hold it against its targets; shared by the stored and the re-solved motion."""

from dataclasses import dataclass

import numpy as np

from model.ball import beyond_the_hand_m
from model.chain import COORDINATES, frames_of, points_of
from model.channels import INDEX
from model.identity import throw_loads
from model.motion import Motion
from model.segments import arm_of
from model.solve_recipe import REFERENCE_BALL, REFERENCE_PERSON

PHASE = np.linspace(0.0, 1.25, 2501)  # steps of 0.0005: 0.07 ms of the reference throw
RELEASE = int(np.argmin(np.abs(PHASE - 1.0)))


@dataclass(frozen=True)
class Facts:
    """Curves of the reference throw over `PHASE`: degrees, deg/s, m/s, N m, N."""

    angle_deg: dict[str, np.ndarray]
    rate_deg_s: dict[str, np.ndarray]
    ball_velocity_m_s: np.ndarray
    hand_velocity_m_s: np.ndarray
    loads: dict[str, np.ndarray]
    loads_heavy: dict[str, np.ndarray]
    duration_s: float

    def before_release(self, key: str) -> np.ndarray:
        return self.loads[key][: RELEASE + 1]

    def after_release(self, key: str) -> np.ndarray:
        return self.loads[key][RELEASE + 1 :]

    def ms_before_release(self, phase: float) -> float:
        return (1.0 - phase) * self.duration_s * 1e3


def facts_of(motion: Motion) -> Facts:
    arm, beyond = arm_of(REFERENCE_PERSON), beyond_the_hand_m(REFERENCE_BALL.diameter_m)
    state = motion.state(PHASE)
    frames = frames_of(state)
    points = points_of(frames, state, arm, beyond)
    light, heavy = (throw_loads(motion, arm, mass, beyond, 1.0, PHASE) for mass in (REFERENCE_BALL.mass_kg, 0.5))
    return Facts(
        {name: np.degrees(state.angles[:, j]) for j, name in enumerate(COORDINATES)},
        {name: np.degrees(state.rates[:, j]) for j, name in enumerate(COORDINATES)},
        points.ball.velocity,
        points.hand_centre.velocity,
        {key: light[:, i] for key, i in INDEX.items()},
        {key: heavy[:, i] for key, i in INDEX.items()},
        motion.duration_s,
    )


def second_rise(curve: np.ndarray) -> float:
    """Largest rise on the way down from the highest point to either side, as a share of it: 0 for one hump."""
    top = int(curve.argmax())
    sides = (curve[top:], curve[top::-1])
    return max(float((side - np.minimum.accumulate(side)).max()) for side in sides) / float(curve[top])


def turned_back_deg(angle_deg: np.ndarray) -> float:
    """Largest travel against the net direction of a stretch of an angle."""
    along = angle_deg * np.sign(angle_deg[-1] - angle_deg[0])
    return float((np.maximum.accumulate(along) - along).max())


def assert_varus_and_internal_rotation_reach_their_targets(facts: Facts) -> None:
    """The unfitted torques: one hump, level, time, breadth, ratio, ends. Calibrated (in view), so no evidence."""
    varus, rotation = facts.before_release("varus"), facts.before_release("internal_rotation")
    peak = varus.max()
    assert second_rise(varus) <= 0.05
    assert second_rise(facts.loads_heavy["varus"][: RELEASE + 1]) <= 0.05
    assert 65.0 <= peak <= 90.0
    farthest_back = PHASE[facts.angle_deg["external_rotation"].argmax()]
    before_turn_ms = (farthest_back - PHASE[varus.argmax()]) * facts.duration_s * 1e3
    assert -5.0 <= before_turn_ms <= 12.0
    assert np.mean(varus > 0.9 * peak) <= 0.22  # of phase 0-1
    assert 0.95 <= rotation.max() / peak <= 1.15
    assert abs(varus[0]) <= 0.15 * peak
    assert abs(varus[-1]) <= 0.20 * peak
    assert facts.after_release("varus").max() < 0.10 * peak
    assert -facts.after_release("varus").min() < 0.75 * peak
