"""The model against laboratories. Every value is read from `published/values.csv` by its id, with its citation there.

What was in view when the weights of the reference motion were chosen (level, shape, timing and ratio of the reference
throw) is calibration and says nothing; those tests are named so. Other groups, efforts and balls are predictions.
Laboratories differ by a quarter and more for the same thing (filtering, joint centres, hand and ball): group means of
adults run from 64 to 120 N m in the same units, so bands are wide on purpose.
"""

import numpy as np
import pytest

from model.ball import Ball
from model.person import Person
from model.published import values
from model.throw import Throw, curves

REFERENCE = Person("male", 1.88, 90.0, 25.0)
OWN = Ball(0.145)
BETWEEN_LABORATORIES = 0.25  # LITERATURE.md, "What conflicts" 4


def peak(throw: Throw, key: str = "varus") -> float:
    found = curves(throw)
    return float(found.values[key][found.phase <= 1.0].max())


def test_calibrated_reference_level_lies_among_the_adult_group_means():
    groups = [values()[i].number for i in ("1-kinetics-01", "1-kinetics-53", "1-kinetics-42", "1-kinetics-43")]
    found = peak(Throw(REFERENCE, OWN, 37.0))
    assert min(groups) <= found <= max(groups)
    low, high = (float(x) for x in values()["1-kinetics-65"].value.split("-"))  # van Trigt 2021, a review
    assert low <= found <= high


def test_calibrated_level_agrees_with_college_pitchers():
    # Solomito 2013: 79.2 +- 16.9 and 80.8 +- 15.5; within one spread between their pitchers
    throw = Throw(REFERENCE, OWN, 37.0)
    for key, row in (("varus", "1-kinetics-53"), ("internal_rotation", "1-kinetics-52")):
        assert peak(throw, key) == pytest.approx(values()[row].number, abs=values()[row].spread)


def test_calibrated_level_against_fleisig_1995_differs_by_what_laboratories_differ():
    # 64 and 67 N m; the model stands 26 % and 32 % above. Band: group means of adults in print run from 64 to 120 N m,
    # so one laboratory differs from another by a factor of (120 / 64)^0.5 = 1.37 either way.
    lowest, highest = values()["1-kinetics-01"].number, values()["1-kinetics-43"].number
    factor = (highest / lowest) ** 0.5
    throw = Throw(REFERENCE, OWN, 37.0)
    for key, row in (("varus", "1-kinetics-01"), ("internal_rotation", "1-kinetics-02")):
        assert 1.0 / factor <= peak(throw, key) / values()[row].number <= factor


def test_less_speed_lowers_the_torque_as_fiegen_2023_measured():
    # At 90 % and 85 % of full speed: -19 % and -25 %. It tests the assumption of one path with a changed clock. Band of
    # 4 points: speeds printed to 1 point make 2 of torque, and ten throwers' mean is not known better than 3.
    full = peak(Throw(REFERENCE, OWN, 37.0))
    for speed_row, torque_row in (
        ("4-effort-distance-10", "4-effort-distance-09"),
        ("4-effort-distance-12", "4-effort-distance-11"),
    ):
        share = 1.0 + values()[speed_row].number / 100.0
        change = 100.0 * (peak(Throw(REFERENCE, OWN, 37.0 * share)) / full - 1.0)
        assert change == pytest.approx(values()[torque_row].number, abs=4.0)


def test_high_school_throwers_fall_within_the_range_of_hurd_2012():
    # 0.378-0.723 N m/(m kg) at 71 mph; body size divides out, so the size assumed here hardly matters
    low, high = (float(x) for x in values()["1-kinetics-63"].sd_or_range.split("-"))
    speed_m_s = 71 * 0.44704  # mph, exact
    for stature_m, mass_kg in ((1.75, 70.0), (1.85, 85.0)):
        person = Person("male", stature_m, mass_kg, 16.5)
        assert low <= peak(Throw(person, Ball(0.142), speed_m_s)) / (stature_m * mass_kg) <= high


def test_adolescents_fall_within_the_spread_of_nissen_2013():
    # 33.3 +- 12.3 N m, fifteen adolescents; size and speed are not in the abstract, so ordinary ones are taken
    person = Person("male", 1.65, 55.0, 13.5)
    row = values()["1-kinetics-48"]
    for speed_m_s in (24.0, 28.0):
        assert peak(Throw(person, Ball(0.142), speed_m_s)) == pytest.approx(row.number, abs=row.spread)


def test_calibrated_ratio_of_the_two_torques_is_the_published_one():
    # internal rotation over varus: 0.96-1.08 in print (67/64, 80.8/79.2, 33.6/33.3); up to 1.15 accepted
    throw = Throw(REFERENCE, OWN, 37.0)
    assert 0.95 <= peak(throw, "internal_rotation") / peak(throw) <= 1.15


def test_predicted_ratio_holds_in_other_bodies_too():
    for person in (Person("female", 1.70, 65.0, 22.0), Person("male", 1.50, 42.0, 11.5)):
        throw = Throw(person, Ball(0.142), 25.0)
        assert 0.95 <= peak(throw, "internal_rotation") / peak(throw) <= 1.15


def test_horizontal_adduction_comes_first_then_varus_and_internal_rotation():
    # Feltner & Dapena 1986 (2-kinematics-timing-67): horizontal adduction present at foot contact, the others after it
    found = curves(Throw(REFERENCE, OWN, 37.0))
    before = found.phase <= 1.0

    def passes_half(key: str) -> float:
        curve = found.values[key][before]
        return float(found.phase[before][np.argmax(curve >= 0.5 * curve.max())])

    assert found.values["horizontal_adduction"][0] > 0.0
    assert found.values["varus"][0] < 0.05 * found.values["varus"].max()
    assert found.values["internal_rotation"][0] < 0.05 * found.values["internal_rotation"].max()
    assert passes_half("horizontal_adduction") < passes_half("varus")
    assert passes_half("horizontal_adduction") < passes_half("internal_rotation")


def test_shoulder_proximal_force_peaks_just_after_release_near_the_published_level():
    # Fleisig 1995: 1 090 N shortly after release
    found = curves(Throw(REFERENCE, OWN, 37.0))
    force = found.values["shoulder_proximal"]
    assert force.max() == pytest.approx(values()["1-kinetics-03"].number, rel=BETWEEN_LABORATORIES)
    assert found.phase[force.argmax()] > 1.0


def test_known_fault_the_elbow_force_stands_above_the_shoulder_force():
    # Published the other way round: 900 N (recalled) at the elbow, 1 090 N at the shoulder. The model's order is wrong
    # by a little; this holds the size of the fault, and every page that shows both says so.
    found = curves(Throw(REFERENCE, OWN, 37.0))
    ratio = found.values["elbow_proximal"].max() / found.values["shoulder_proximal"].max()
    assert 1.0 < ratio < 1.10


def test_a_child_who_hardly_slows_peaks_higher_with_the_heavier_ball():
    # Fleisig 2006 (3-ball-mass-10): torque lower with 113 g than with 142 g, age 11
    child = Person("male", 1.48, 41.0, 11.1)
    assert peak(Throw(child, Ball(0.142), 0.99 * 24.0)) > peak(Throw(child, Ball(0.113), 24.0))
