"""An athlete's arm, drawn: its middle is the best estimate, its spread what first-order error propagation gives."""

from dataclasses import fields, replace

import numpy as np
import pytest

from model.ball import beyond_the_hand_m
from model.body_spread import (
    CENTRE_SD,
    LENGTH_SD,
    MASS_SD,
    RADIUS_SD,
    SEGMENTS,
    best_products,
    drawn_arm,
    drawn_products,
)
from model.motion import reference_motion
from model.person import Person
from model.segments import Arm, Segment, arm_of
from model.structural_field import DRAWS
from tests.model.helpers import path_loads_of

MAN = Person("male", 1.88, 90.0, 25.0)
BEYOND_M = beyond_the_hand_m(0.073)


def test_the_median_arm_is_the_best_estimate():
    drawn, best = drawn_arm(MAN), arm_of(MAN)
    for name in SEGMENTS:
        for field in fields(Segment):
            middle = np.median(getattr(getattr(drawn, name), field.name))
            assert middle == pytest.approx(getattr(getattr(best, name), field.name), rel=0.01), (name, field.name)
    assert drawn.stature_m.shape == (DRAWS,)
    assert np.all(drawn.shoulder_y_m == best.shoulder_y_m)


def test_an_inertia_goes_with_mass_and_with_the_squares_of_radius_and_length():
    segment = drawn_arm(MAN).forearm
    expected = np.sqrt(MASS_SD**2 + 4.0 * RADIUS_SD**2 + 4.0 * LENGTH_SD**2)
    assert np.log(segment.inertia_x_kg_m2).std() == pytest.approx(expected, rel=0.05)
    assert np.log(segment.centre_m).std() == pytest.approx(np.hypot(CENTRE_SD, LENGTH_SD), rel=0.05)


def test_segments_are_drawn_apart_and_athletes_too():
    one, other = drawn_arm(MAN), drawn_arm(MAN, stream=1)
    assert abs(np.corrcoef(one.hand.mass_kg, one.forearm.mass_kg)[0, 1]) < 0.08
    assert abs(np.corrcoef(one.hand.mass_kg, other.hand.mass_kg)[0, 1]) < 0.08
    assert np.array_equal(drawn_arm(MAN).hand.mass_kg, one.hand.mass_kg)


def peak(arm: Arm) -> float:
    """Inertial and weight varus peak with 145 g at 37 m/s, by the whole identity."""
    loads = path_loads_of(reference_motion(), arm, BEYOND_M)
    curve = loads.loads(0.145, float(loads.clock(37.0)))[:401, 0]
    return float(curve.max())


def changed(name: str, what: str, factor: float) -> Arm:
    arm = arm_of(MAN)
    old = getattr(arm, name)
    inertias = ("inertia_x_kg_m2", "inertia_y_kg_m2", "inertia_z_kg_m2")
    powers = {
        "mass": {"mass_kg": 1, **dict.fromkeys(inertias, 1)},
        "radius": dict.fromkeys(inertias, 2),
        "centre": {"centre_m": 1},
        "length": {"length_m": 1, "centre_m": 1, **dict.fromkeys(inertias, 2)},
    }[what]
    return replace(arm, **{name: replace(old, **{k: getattr(old, k) * factor**n for k, n in powers.items()})})


def test_the_spread_of_the_varus_peak_is_that_of_first_order_propagation():
    """Sum of (d ln peak / d ln measure)2 SD2 over four measures of three segments, by central differences."""
    variance = 0.0
    for name in SEGMENTS:
        for what, sd in (("mass", MASS_SD), ("radius", RADIUS_SD), ("centre", CENTRE_SD), ("length", LENGTH_SD)):
            up, down = (np.log(peak(changed(name, what, np.exp(step)))) for step in (0.01, -0.01))
            variance += ((up - down) / 0.02 * sd) ** 2
    arms = drawn_arm(MAN)
    loads = path_loads_of(reference_motion(), arms, np.full(DRAWS, BEYOND_M), np.linspace(0.0, 1.0, 101))
    peaks = loads.loads(np.full(DRAWS, 0.145), loads.clock(np.full(DRAWS, 37.0)))[..., 0].max(axis=1)
    assert np.log(peaks).std() == pytest.approx(np.sqrt(variance), rel=0.05)


def test_products_are_those_of_the_drawn_arm():
    drawn, best = drawn_products(MAN, 0.073), best_products(MAN, 0.073)
    assert drawn.arm.shape == drawn.ball.shape == (DRAWS, best.arm.shape[1])
    assert best.arm.shape[0] == 1
    assert np.median(drawn.path_speed_m_s) == pytest.approx(best.path_speed_m_s[0], rel=0.005)
