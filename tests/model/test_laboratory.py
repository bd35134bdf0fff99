"""A throw as a laboratory sees it: without a filter the model itself; with one what filters of that kind do."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.ball import Ball, beyond_the_hand_m
from model.chain import COORDINATES, angular_velocities, frames_of
from model.channels import INDEX
from model.checks import InputError
from model.filtered import Moving, corner_hz, low_passed
from model.identity import throw_loads
from model.laboratory import Laboratory, View, sample_phases, seen_by
from model.motion import PHASES, reference_motion
from model.person import Person
from model.readouts import read_curves
from model.segments import arm_of
from model.throw import Throw, clock_of, curves
from tests.model.helpers import THROWS, apart, side_of

REFERENCE = Throw(Person("male", 1.88, 90.0, 25.0), Ball(0.145), 37.0)
MOTION = reference_motion()


# ---- no filter ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("throw", THROWS.values(), ids=THROWS)
@pytest.mark.parametrize("laboratory", [Laboratory(None), Laboratory(None, 1000.0, 0.08, record="cut")], ids=str)
def test_unfiltered_it_sees_the_model_itself(throw: Throw, laboratory: Laboratory):
    seen = seen_by(laboratory, throw)
    clock = clock_of(throw)
    arm, beyond_m = arm_of(throw.person), beyond_the_hand_m(throw.ball.diameter_m)
    whole = throw_loads(MOTION, arm, throw.ball.mass_kg, beyond_m, clock, seen.phase)
    for key, i in INDEX.items():
        assert apart(seen.values[key], whole[:, i]) <= 1e-9, (key, side_of(throw))
    state = MOTION.state(seen.phase, clock)
    for key, speed in angular_velocities(frames_of(state)).items():
        assert apart(seen.speeds[key], speed) <= 1e-9, key
    rotation = state.angles[:, COORDINATES.index("external_rotation")]
    assert apart(seen.external_rotation, rotation) <= 1e-9


def test_unfiltered_and_finely_sampled_it_reads_what_the_throw_reads():
    seen, alone = seen_by(Laboratory(None, 4000.0), REFERENCE), curves(REFERENCE)
    for key in ("varus", "internal_rotation", "shoulder_proximal", "horizontal_adduction"):
        found, expected = seen.read(key), read_curves(alone, key)
        for name in ("peak", "loaded_s", "half_height_s", "area"):
            assert getattr(found, name) == pytest.approx(getattr(expected, name), rel=2e-3), (key, name)


@settings(max_examples=30)
@given(rate_hz=st.floats(100.0, 5000.0), phase_s=st.floats(0.1, 0.5))
def test_samples_are_as_far_apart_as_asked_and_one_falls_on_release(rate_hz, phase_s):
    phase = sample_phases(rate_hz, phase_s)
    assert np.min(np.abs(phase - 1.0)) == 0.0
    assert np.diff(phase)[1:-1] * phase_s * rate_hz == pytest.approx(1.0, rel=1e-9)
    assert phase[0] < 1.0 / (rate_hz * phase_s) + 1e-12
    assert 0.0 <= phase[0] < phase[-1] <= 1.25


# ---- the filter -----------------------------------------------------------------------------------------------------


def wave(frequency_hz: float, rate_hz: float, seconds: float = 2.0) -> Moving:
    t = np.arange(round(seconds * rate_hz))[:, None] / rate_hz
    w = 2.0 * np.pi * frequency_hz
    return Moving(np.sin(w * t), w * np.cos(w * t), -w * w * np.sin(w * t))


@pytest.mark.parametrize("cut_off_hz", [6.0, 13.4, 20.0])
@pytest.mark.parametrize("rate_hz", [240.0, 1000.0])
def test_three_decibels_are_off_at_the_frequency_named(cut_off_hz, rate_hz):
    middle = slice(round(0.7 * rate_hz), round(1.3 * rate_hz))
    for factor, expected in ((1.0, 2.0**-0.5), (0.2, 1.0), (4.0, 0.0)):
        record = wave(factor * cut_off_hz, rate_hz)
        found = low_passed(record, cut_off_hz, rate_hz)
        for name in ("now", "rate", "change"):
            before, after = (np.abs(getattr(one, name)[middle]).max() for one in (record, found))
            # fourth order: (f / f_c)^4 / 2.41 of the amplitude is left far above, 1 - 1e-3 far below
            assert after / before == pytest.approx(expected, abs=0.012), (factor, name)


def test_it_shifts_nothing_in_time():
    t = np.linspace(-0.5, 0.5, 241)[:, None]
    bell = np.exp(-0.5 * (t / 0.02) ** 2)
    found = low_passed(Moving(bell, 0.0 * bell, 0.0 * bell), 13.4, 240.0).now
    assert found == pytest.approx(found[::-1], abs=1e-12)
    assert found.max() < bell.max()


def test_filtered_derivatives_are_derivatives_of_the_filtered():
    rate_hz = 4000.0
    t = np.arange(4001)[:, None] / rate_hz
    record = Moving(*(np.exp(-0.5 * ((t - 0.5) / 0.03) ** 2) * one for one in (
        np.ones_like(t), -(t - 0.5) / 0.03**2, ((t - 0.5) / 0.03**2) ** 2 - 1.0 / 0.03**2)))  # fmt: skip
    found = low_passed(record, 13.4, rate_hz)
    assert apart(np.gradient(found.now, 1.0 / rate_hz, axis=0), found.rate) < 1e-4
    assert apart(np.gradient(found.rate, 1.0 / rate_hz, axis=0), found.change) < 1e-4


def test_the_corner_of_one_pass_lies_a_quarter_higher():
    assert corner_hz(13.4, 10_000.0) == pytest.approx(13.4 * (2.0**0.5 - 1.0) ** -0.25, rel=1e-4)
    assert corner_hz(13.4, 240.0) < corner_hz(13.4, 10_000.0)  # what the bilinear transform bends


# ---- what a laboratory sees -----------------------------------------------------------------------------------------


def view(cut_off_hz: float | None, **others) -> View:
    return seen_by(Laboratory(cut_off_hz, **others), REFERENCE)


def test_peaks_of_varus_and_internal_rotation_can_be_compared_either_way():
    raw, filtered = view(None), view(13.4)
    for key in ("varus", "internal_rotation"):
        assert filtered.read(key).peak == pytest.approx(raw.read(key).peak, rel=0.07)


def test_an_independent_filter_of_the_same_motion_saw_much_the_same():
    """Cut-off: varus, internal rotation (N m), shoulder (N), rotation (deg/s), peak before release (ms) by that filter.

    Within 3 % of the torques, 12 % of the force, 4 % of the speed, 2 ms. Area, loading rate, the elbow's force and the
    reversed varus differ by more: STRUCTURAL_BAND.md says so.
    """
    independent = {
        20.0: (81.6, 88.8, 1097.0, 5560.0, 36.0),
        13.4: (78.0, 83.5, 948.0, 5240.0, 43.0),
        10.0: (70.6, 75.4, 1000.0, 5180.0, 50.0),
    }
    for cut_off_hz, (varus, rotation, shoulder, speed, before) in independent.items():
        seen = view(cut_off_hz)
        assert seen.read("varus").peak == pytest.approx(varus, rel=0.03)
        assert seen.read("internal_rotation").peak == pytest.approx(rotation, rel=0.03)
        assert seen.read("shoulder_proximal").peak == pytest.approx(shoulder, rel=0.12)
        assert np.degrees(seen.speeds["internal_rotation"].max()) == pytest.approx(speed, rel=0.04)
        assert 1e3 * seen.read("varus").peak_before_release_s == pytest.approx(before, abs=2.0)


def test_the_lower_the_cut_off_the_less_is_seen_and_the_earlier_the_peak():
    some = [view(cut_off_hz) for cut_off_hz in (None, 20.0, 13.4, 10.0)]
    speeds = [seen.speeds["internal_rotation"].max() for seen in some]
    areas = [seen.read("varus").area for seen in some]
    early = [seen.read("varus").peak_before_release_s for seen in some]
    assert speeds == sorted(speeds, reverse=True)
    assert areas == sorted(areas, reverse=True)
    assert early == sorted(early)


def test_what_lies_beyond_the_record_decides_what_is_seen_after_release_only():
    rest, cut = view(13.4), view(13.4, record="cut")
    for key in ("varus", "internal_rotation"):
        assert rest.read(key).peak == pytest.approx(cut.read(key).peak, rel=0.01)
    after = [seen.read("horizontal_abduction").peak for seen in (rest, cut)]
    assert max(after) > 2.0 * min(after)  # not to be held against print


def test_noise_is_drawn_by_its_seed_and_averages_out():
    exact = view(13.4).read("varus").peak
    one, same, other = (view(13.4, noise_m=0.002, seed=seed).read("varus").peak for seed in (1, 1, 2))
    assert one == same != other
    peaks = [view(13.4, noise_m=0.002, seed=seed).read("varus").peak for seed in range(40)]
    assert np.mean(peaks) == pytest.approx(exact, rel=0.02)


def test_a_view_is_read_by_the_same_definitions_as_a_throw():
    seen = view(13.4)
    curve = seen.at_phases(seen.values["varus"])
    found = seen.read("varus")
    assert found.peak == pytest.approx(curve[PHASES <= 1.0].max(), rel=1e-3)
    assert found.area == pytest.approx(
        np.trapezoid(np.maximum(curve[PHASES <= 1.0], 0.0), dx=0.0025) * seen.phase_s, rel=1e-3
    )


@pytest.mark.parametrize(
    ("arguments", "field"),
    [
        ({"cut_off_hz": 0.1}, "cut_off_hz"),
        ({"cut_off_hz": 200.0}, "cut_off_hz"),
        ({"rate_hz": 24.0}, "rate_hz"),
        ({"marker_m": 4.0}, "marker_m"),
        ({"noise_m": -0.1}, "noise_m"),
        ({"record": "loop"}, "record"),
    ],
)
def test_what_no_laboratory_does_is_refused_by_name(arguments, field):
    with pytest.raises(InputError) as refused:
        Laboratory(**arguments)
    assert refused.value.field == field
