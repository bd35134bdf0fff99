"""Rules of the trade the model must agree with (common practice, no source)."""

from dataclasses import replace

import numpy as np
import pytest

from model.ball import Ball, beyond_the_hand_m
from model.channels import INDEX
from model.identity import PathLoads
from model.motion import reference_motion
from model.person import Person
from model.segments import arm_of
from model.throw import path_loads
from tests.model.helpers import path_loads_of

REFERENCE = Person("male", 1.88, 90.0, 25.0)


def varus_peak(loads: PathLoads, mass_kg: float, clock: float) -> float:
    curve = loads.loads(mass_kg, clock)[:, INDEX["varus"]]
    return float(curve[loads.phase <= 1.0].max())


def with_forearm(length_m: float) -> PathLoads:
    return path_loads(Person("male", 1.88, 90.0, 25.0, forearm_length_m=length_m), 0.073)


def test_at_the_same_joint_speeds_a_longer_forearm_means_more_elbow_torque():
    peaks = [varus_peak(with_forearm(length_m), 0.145, 1.0) for length_m in (0.26, 0.28, 0.30, 0.32)]
    assert np.all(np.diff(peaks) > 0)


def test_at_the_same_joint_speeds_a_heavier_forearm_means_more_elbow_torque():
    arm = arm_of(REFERENCE)
    fore = arm.forearm
    heavier = replace(
        arm,
        forearm=replace(
            fore,
            mass_kg=1.1 * fore.mass_kg,
            inertia_x_kg_m2=1.1 * fore.inertia_x_kg_m2,
            inertia_y_kg_m2=1.1 * fore.inertia_y_kg_m2,
            inertia_z_kg_m2=1.1 * fore.inertia_z_kg_m2,
        ),
    )
    motion, beyond = reference_motion(), beyond_the_hand_m(0.073)
    assert varus_peak(path_loads_of(motion, heavier, beyond), 0.145, 1.0) > varus_peak(
        path_loads_of(motion, arm, beyond), 0.145, 1.0
    )


def test_the_same_motion_slower_means_less():
    loads = path_loads(REFERENCE, 0.073)
    assert np.all(np.diff([varus_peak(loads, 0.145, clock) for clock in (0.5, 0.7, 0.9, 1.0)]) > 0)


@pytest.mark.parametrize("key", ["varus", "internal_rotation"])
def test_at_the_same_speed_a_heavier_ball_means_more(key: str):
    loads = path_loads(REFERENCE, 0.073)
    before = loads.phase <= 1.0
    peaks = [loads.loads(mass_kg, 1.0)[before, INDEX[key]].max() for mass_kg in (0.095, 0.145, 0.275, 0.470)]
    assert np.all(np.diff(peaks) > 0)


def test_after_release_every_ball_loads_the_arm_alike_at_the_same_clock():
    loads = path_loads(REFERENCE, 0.073)
    after = loads.phase >= 1.0
    light, heavy = (loads.loads(Ball(mass_kg).mass_kg, 0.9)[after] for mass_kg in (0.095, 0.470))
    assert np.array_equal(light, heavy)
