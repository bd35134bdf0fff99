"""Readouts of throws: windows, scaling with the clock, work, and what 501 samples cost."""

from dataclasses import fields, replace

import numpy as np
import pytest
from scipy.integrate import simpson

from model.ball import Ball
from model.channels import CHANNELS, END_PHASE, INDEX, READINGS
from model.checks import InputError
from model.identity import throw_loads
from model.motion import PHASES, reference_motion
from model.person import Person
from model.readouts import path_angular_velocity, read, read_curves, reading_of
from model.segments import arm_of
from model.throw import Throw, curves, path_loads

STEP = PHASES[1]
PERSON = Person("male", 1.88, 90.0, 25.0)


@pytest.mark.parametrize("mass_kg", [0.0, 0.145, 0.5])
def test_without_gravity_readouts_scale_with_the_clock_as_the_identity_says(mass_kg: float) -> None:
    basis = path_loads(PERSON, 0.073)
    basis = replace(basis, arm_weight=0.0 * basis.arm_weight, ball_weight=0.0 * basis.ball_weight)

    def at(clock: float):
        curve = basis.loads(mass_kg, clock)[:, INDEX["internal_rotation"]]
        rate = path_angular_velocity(READINGS["internal_rotation"])
        return read(PHASES, curve, rate=rate).in_time(basis.duration_s / clock)

    one, faster = at(1.0), at(1.3)
    powers = {"peak": 2, "peak_before_release_s": -1, "loaded_s": -1, "half_height_s": -1, "area": 1, "rise_rate": 3}
    powers |= {"work_in_j": 2, "work_out_j": 2}  # torque times angle, and the path is the same
    for name, power in powers.items():
        assert getattr(faster, name) == pytest.approx(1.3**power * getattr(one, name), rel=1e-10), name


def test_the_reference_throw_is_read_in_its_own_units() -> None:
    throw = curves(Throw(PERSON, Ball(0.145), 37.0))
    found = read_curves(throw, "varus", above=40.0)
    inside = throw.phase <= 1.0
    varus, time_s = throw.values["varus"][inside], throw.time_s[inside]
    assert varus.max() <= found.peak <= 1.0002 * varus.max()  # refined upward, by less than the bend over a step
    assert found.peak_before_release_s == pytest.approx(-time_s[varus.argmax()], abs=STEP * -throw.foot_contact_s)
    assert found.area == pytest.approx(np.trapezoid(np.clip(varus, 0, None), time_s), rel=1e-4)
    assert found.above_s == pytest.approx(np.mean(varus > 40.0) * -throw.foot_contact_s, rel=0.01)
    assert found.half_height_s < found.loaded_s < -throw.foot_contact_s
    assert np.isnan(found.work_in_j)  # the elbow does not turn that way
    assert all(type(getattr(found, field.name)) in (float, bool) for field in fields(found))


@pytest.mark.parametrize("key", ["varus", "internal_rotation"])
def test_a_hundred_times_finer_samples_read_the_same_to_a_ten_thousandth(key: str) -> None:
    """What straight lines between 501 samples cost; the finer curve comes from the full recursion."""
    throw = curves(Throw(PERSON, Ball(0.145), 37.0))
    fine = np.linspace(0.0, END_PHASE, 50001)
    curve = throw_loads(reference_motion(), arm_of(PERSON), 0.145, 0.073 / 4, throw.clock, fine)[:, INDEX[key]]
    coarse, finer = read_curves(throw, key), read(fine, curve).in_time(-throw.foot_contact_s)
    for name in ("peak", "peak_before_release_s", "loaded_s", "half_height_s", "area", "rise_rate"):
        assert getattr(coarse, name) == pytest.approx(float(getattr(finer, name)), rel=1e-4), name


def test_without_a_level_there_is_no_time_above_it() -> None:
    assert np.isnan(read_curves(curves(Throw(PERSON, Ball(0.145), 37.0)), "varus").above_s)


def test_the_braking_group_is_read_after_release() -> None:
    light, heavy = (curves(Throw(PERSON, Ball(mass), 30.0)) for mass in (0.095, 0.470))
    for key, reading in READINGS.items():
        if reading.braking:
            found, other = read_curves(light, key), read_curves(heavy, key)
            assert found.peak > 0.0
            assert found.peak_before_release_s <= 0.0
            assert other.peak == pytest.approx(found.peak, rel=1e-12)  # the hand is empty: only the clock counts


def test_a_reversed_reading_is_the_positive_reading_of_the_reversed_curve() -> None:
    throw = curves(Throw(PERSON, Ball(0.145), 37.0))
    reversed_throw = replace(throw, values={key: -values for key, values in throw.values.items()})
    assert read_curves(throw, "adduction").peak == read_curves(reversed_throw, "abduction").peak


def test_work_of_both_directions_adds_up_to_the_integral_of_power() -> None:
    throw = curves(Throw(PERSON, Ball(0.145), 37.0))
    inside = throw.phase <= 1.0
    for one, other in (("abduction", "adduction"), ("elbow_flexion", "elbow_extension")):
        both = [read_curves(throw, key) for key in (one, other)]
        rate = path_angular_velocity(READINGS[one])
        net = simpson((throw.values[one] * rate)[inside], x=throw.phase[inside])  # J: torque times rad
        bend = np.abs(np.diff(throw.values[one][inside], n=2)).max() / 8.0  # greatest distance of curve and chord, N m
        turned = np.trapezoid(np.abs(rate[inside]), throw.phase[inside])  # rad
        assert sum(part.work_in_j + part.work_out_j for part in both) == pytest.approx(net, abs=bend * turned)


def test_a_joint_turned_back_takes_work_in_and_one_turned_along_gives_it_out() -> None:
    # until maximum external rotation the upper arm turns against the internal-rotation torque, then along with it
    throw = curves(Throw(PERSON, Ball(0.145), 37.0))
    found = read_curves(throw, "internal_rotation")
    rate = path_angular_velocity(READINGS["internal_rotation"])
    top = 1.0 - throw.max_external_rotation_s / throw.foot_contact_s
    before, after = (throw.phase > 0.3) & (throw.phase < top - 0.02), (throw.phase > top + 0.02) & (throw.phase < 1.0)
    assert (rate[before] < 0.0).all()
    assert (rate[after] > 0.0).all()
    assert found.work_in_j < 0.0 < found.work_out_j


def test_a_channel_without_a_reading_of_its_own_is_read_on_its_positive_side() -> None:
    assert reading_of("shoulder_superior").end_phase == END_PHASE
    for key in (*CHANNELS, *READINGS):
        assert reading_of(key).key == key


def test_an_unknown_quantity_is_refused_with_the_known_ones() -> None:
    with pytest.raises(InputError, match=r"valgus.*varus"):
        reading_of("valgus")
