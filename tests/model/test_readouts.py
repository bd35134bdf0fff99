"""What is read off a curve: closed forms, odd curves, named oracles, properties."""

from dataclasses import fields, replace
from math import asin, log, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from scipy.integrate import simpson
from scipy.signal import peak_widths

from model.channels import END_PHASE
from model.checks import InputError
from model.motion import PHASES
from model.readouts import PhaseReadouts, read

ROUNDING = 1e-12
STEP = PHASES[1]


def close(value: float) -> object:
    return pytest.approx(value, rel=ROUNDING)


def bell(centre: float, width: float, height: float) -> np.ndarray:
    return height * np.exp(-0.5 * ((PHASES - centre) / width) ** 2)


# -- closed forms ------------------------------------------------------------------------------------------------------


def test_a_triangle_is_read_exactly() -> None:
    found = read(PHASES, 80.0 * np.clip(1.0 - np.abs(PHASES - 0.5) / 0.3, 0.0, None), above=20.0)
    assert found.peak == close(80.0)
    assert found.peak_phase == close(0.5)
    assert found.loaded == close(0.9 * 0.6)
    assert found.half_height == close(0.5 * 0.6)
    assert found.above == close(0.75 * 0.6)
    assert found.area == close(0.5 * 0.6 * 80.0)
    assert found.rise_rate == close(80.0 / 0.3)
    assert not found.peak_at_edge


def test_a_trapezoid_is_read_to_the_eighth_of_a_step_by_which_its_corner_is_rounded_up() -> None:
    found = read(PHASES, 80.0 * np.clip(np.minimum((PHASES - 0.1) / 0.2, (0.9 - PHASES) / 0.2), 0.0, 1.0))
    slope = 80.0 / 0.2
    corner = slope * STEP / 8.0  # 0.125 N m
    assert 80.0 <= found.peak <= 80.0 + corner + 1e-9
    assert found.loaded == pytest.approx(0.8 - 2 * 0.1 * 0.2, abs=2 * 0.1 * corner / slope + 1e-9)
    assert found.half_height == pytest.approx(0.6, abs=2 * 0.5 * corner / slope + 1e-9)
    assert found.area == close(80.0 * 0.6)
    assert found.rise_rate == close(slope)  # both sides of the rise move along the same line


def test_a_half_sine_between_samples_is_read_to_the_bend_of_a_step() -> None:
    start, length = 0.10131, 0.8  # its top, at 0.50131, lies about halfway between two samples
    inside = np.abs(PHASES - start - length / 2) <= length / 2
    curve = np.where(inside, 80.0 * np.sin(pi * (PHASES - start) / length), 0.0)
    found = read(PHASES, curve)
    bend = (pi * STEP / length) ** 2 / 8.0  # greatest distance of a chord from a sine, of its height: 1.2e-5
    assert found.peak == pytest.approx(80.0, rel=1e-9)  # the parabola leaves the fourth order: (pi h / L)^4 / 24
    assert curve.max() < 80.0 * (1.0 - 0.5 * bend)  # the highest sample alone is that much lower
    assert found.peak_phase == pytest.approx(start + length / 2, abs=1e-6)
    assert found.loaded == pytest.approx(length * (1.0 - 2.0 * asin(0.1) / pi), rel=2 * bend)
    assert found.half_height == pytest.approx(length * (1.0 - 2.0 * asin(0.5) / pi), rel=2 * bend)
    assert found.area == pytest.approx(80.0 * length * 2.0 / pi, rel=2 * bend)
    assert found.rise_rate == pytest.approx(0.8 * 80.0 * pi / length / (asin(0.9) - asin(0.1)), rel=2 * bend)


def test_two_humps_are_added_up_and_the_rise_is_that_of_the_higher_one() -> None:
    # 15 widths apart they do not touch (exp(-28)); each is above a level for 2 width sqrt(2 ln(height / level))
    width = 0.03
    found = read(PHASES, bell(0.3, width, 60.0) + bell(0.75, width, 80.0))

    def over(level: float) -> float:
        return sum(2.0 * width * sqrt(2.0 * log(height / level)) for height in (60.0, 80.0))

    chord = (STEP / width) ** 2 / 8.0  # of the height: 9e-4
    assert found.peak == pytest.approx(80.0, rel=1e-6)
    assert found.peak_phase == pytest.approx(0.75, abs=1e-6)
    assert found.loaded == pytest.approx(over(8.0), rel=chord)
    assert found.half_height == pytest.approx(over(40.0), rel=chord)
    assert found.area == pytest.approx(140.0 * width * sqrt(2.0 * pi), rel=chord)
    rise = width * (sqrt(2.0 * log(10.0)) - sqrt(2.0 * log(1.0 / 0.9)))
    # a chord below the curve shifts a passing by its distance / slope: 1.0 chord at 10 % and at 90 % each
    assert found.rise_rate == pytest.approx(0.8 * 80.0 / rise, rel=2.1 * chord)


def test_the_rise_is_that_of_a_first_hump_which_already_passes_nine_tenths() -> None:
    width = 0.03
    found = read(PHASES, bell(0.3, width, 76.0) + bell(0.75, width, 80.0))
    rise = width * (sqrt(2.0 * log(76.0 / 8.0)) - sqrt(2.0 * log(76.0 / 72.0)))
    assert found.peak_phase == pytest.approx(0.75, abs=1e-6)
    # shifts of the passings as above: 1.0 chord at 8 N m, and 1.5 at 72 of 76 N m, where the hump is less steep
    assert found.rise_rate == pytest.approx(0.8 * 80.0 / rise, rel=2.6 * (STEP / width) ** 2 / 8.0)


def test_of_two_equal_humps_the_earlier_one_has_the_peak() -> None:
    assert read(PHASES, bell(0.25, 0.03, 80.0) + bell(0.75, 0.03, 80.0)).peak_phase == pytest.approx(0.25, abs=1e-6)


def test_work_of_a_steady_torque_is_torque_times_angle() -> None:
    # the joint turns back for 0.4013 and on for 0.5987 of the window, at a rate that changes by 2 rad a phase a phase
    turn = 0.4013
    found = read(PHASES, np.full(PHASES.size, 50.0), rate=2.0 * (PHASES - turn))
    assert found.work_in_j == close(-50.0 * turn**2)
    assert found.work_out_j == close(50.0 * (1.0 - turn) ** 2)


def test_a_torque_the_other_way_does_no_work_in_a_reading() -> None:
    found = read(PHASES, np.full(PHASES.size, -50.0), rate=PHASES - 0.4)
    assert (found.work_in_j, found.work_out_j) == (0.0, 0.0)


def test_without_turning_there_is_no_work_to_speak_of() -> None:
    found = read(PHASES, np.ones(PHASES.size))
    assert np.isnan(found.work_in_j)
    assert np.isnan(found.work_out_j)


# -- odd curves --------------------------------------------------------------------------------------------------------


def test_a_flat_curve_is_loaded_all_along_and_has_no_rise() -> None:
    found = read(PHASES, np.full(PHASES.size, 40.0), above=39.0)
    assert found.peak == 40.0
    assert found.peak_at_edge
    assert found.loaded == found.half_height == found.above == close(1.0)
    assert found.area == close(40.0)
    assert np.isnan(found.rise_rate)


@pytest.mark.parametrize("curve", [np.full(501, -3.0), np.zeros(501), -1e-3 - (PHASES - 0.501) ** 2])
def test_a_curve_that_is_never_positive_has_no_peak(curve: np.ndarray) -> None:
    found = read(PHASES, curve, above=1.0, rate=PHASES - 0.5)
    assert found.peak == found.loaded == found.above == found.half_height == found.area == 0.0
    assert found.work_in_j == found.work_out_j == 0.0
    assert np.isnan(found.peak_phase)
    assert np.isnan(found.rise_rate)
    assert not found.peak_at_edge


def test_a_rise_cut_off_by_the_window_has_its_peak_at_the_edge() -> None:
    found = read(PHASES, 100.0 * PHASES)  # goes on to 125 after release
    assert found.peak == close(100.0)
    assert found.peak_phase == close(1.0)
    assert found.peak_at_edge
    assert found.loaded == close(0.9)
    assert found.area == close(50.0)
    assert found.rise_rate == close(100.0)


def test_a_curve_that_starts_loaded_has_no_rise_rate() -> None:
    found = read(PHASES, 20.0 + 80.0 * PHASES)
    assert np.isnan(found.rise_rate)
    assert found.loaded == close(1.0)
    falling = read(PHASES, 100.0 * (1.0 - PHASES))
    assert np.isnan(falling.rise_rate)
    assert falling.peak_phase == 0.0
    assert falling.peak_at_edge


def test_a_curve_that_starts_loaded_but_falls_first_has_the_rise_after_it() -> None:
    # 20 -> 0 by phase 0.2, then 0 -> 100 by phase 0.7
    found = read(PHASES, np.interp(PHASES, [0.0, 0.2, 0.7, 1.25], [20.0, 0.0, 100.0, 0.0]))
    assert found.rise_rate == pytest.approx(100.0 / 0.5, rel=ROUNDING)


def test_only_what_lies_in_the_window_counts() -> None:
    curve = np.where(PHASES > 1.0, np.nan, 40.0)
    assert read(PHASES, curve).area == close(40.0)
    assert read(PHASES, PHASES, window=(0.1003, 0.9001)).area == close(0.5 * (0.9001**2 - 0.1003**2))


def test_two_samples_are_a_curve() -> None:
    found = read([0.0, 1.0], [-1.0, 1.0])
    assert (found.peak, found.area, found.half_height) == (1.0, close(0.25), close(0.25))


@pytest.mark.parametrize(
    ("field", "arguments"),
    [
        ("phase", {"phase": [], "curve": []}),
        ("phase", {"phase": [0.0], "curve": [1.0]}),
        ("phase", {"phase": [0.0, 1.0, 1.0], "curve": [1.0, 2.0, 3.0]}),
        ("phase", {"phase": [0.0, np.nan, 1.0], "curve": [1.0, 2.0, 3.0]}),
        ("curve", {"curve": np.empty(0)}),
        ("curve", {"curve": np.ones(500)}),
        ("curve", {"curve": 1.0}),
        ("curve", {"curve": np.where(PHASES > 0.5, np.nan, 1.0)}),
        ("curve", {"curve": np.where(PHASES > 0.5, np.inf, 1.0)}),
        ("window", {"window": (0.0, 1.3)}),
        ("window", {"window": (0.5, 0.5)}),
        ("window", {"window": (0.0, np.nan)}),
        ("share", {"share": 0.0}),
        ("share", {"share": 1.0}),
        ("share", {"share": np.nan}),
        ("above", {"above": -1.0}),
        ("above", {"above": np.nan}),
        ("rate", {"rate": np.ones(7)}),
        ("rate", {"rate": np.full(501, np.nan)}),
    ],
)
def test_what_cannot_be_read_is_refused_by_name(field: str, arguments: dict) -> None:
    with pytest.raises(InputError) as refusal:
        read(**{"phase": PHASES, "curve": np.ones(PHASES.size), **arguments})
    assert refusal.value.field == field


# -- named oracles -----------------------------------------------------------------------------------------------------


def skewed_hump() -> np.ndarray:
    return 80.0 * (PHASES / 0.4) ** 3 * np.exp(3.0 * (1.0 - PHASES / 0.4)) - 1.0


def test_half_height_width_agrees_with_scipy_peak_widths() -> None:
    curve = np.clip(skewed_hump(), 0.0, None)
    top = int(curve.argmax())
    prominence = (np.array([curve[top]]), np.array([0]), np.array([curve.size - 1]))
    width = peak_widths(curve, [top], rel_height=0.5, prominence_data=prominence)[0][0] * STEP
    # both take the curve as straight between samples; they differ by the refined peak, 80 (h / width)^2 / 8 at most
    assert read(PHASES, curve, window=(0.0, END_PHASE)).half_height == pytest.approx(width, rel=1e-5)


def test_area_agrees_with_scipy_simpson() -> None:
    curve = skewed_hump() + 1.0
    # Simpson's error is of fourth order; the chords' is h^2 / 12 times the change of slope over the window
    chords = STEP**2 / 12.0 * np.abs(np.diff(curve[[-2, -1]])[0] / STEP)
    found = read(PHASES, curve, window=(0.0, END_PHASE)).area
    assert found == pytest.approx(simpson(curve, x=PHASES), abs=2.0 * chords)


# -- properties --------------------------------------------------------------------------------------------------------

zigzags = hnp.arrays(float, st.integers(4, 30), elements=st.integers(-40, 100).map(float))
factors = st.floats(0.05, 20.0)


def grid(curve: np.ndarray) -> np.ndarray:
    return np.linspace(0.0, 1.0, curve.size)


def same(a: PhaseReadouts, b: PhaseReadouts) -> None:
    for field in fields(PhaseReadouts):
        left, right = getattr(a, field.name), getattr(b, field.name)
        np.testing.assert_allclose(left, right, rtol=1e-9, atol=1e-11, err_msg=field.name)


@given(zigzags, factors)
def test_a_curve_twice_as_high_has_the_same_times_and_twice_the_rest(curve: np.ndarray, factor: float) -> None:
    rate = np.cos(7.0 * grid(curve))
    once, more = (read(grid(curve), c * curve, above=c * 30.0, rate=rate) for c in (1.0, factor))
    scaled = ("peak", "area", "rise_rate", "work_in_j", "work_out_j")
    same(more, replace(once, **{name: factor * getattr(once, name) for name in scaled}))


@given(zigzags, factors)
def test_a_curve_twice_as_long_has_twice_the_times_and_area_and_half_the_rise(curve: np.ndarray, factor: float) -> None:
    x = grid(curve)
    once = read(x, curve, above=30.0)
    longer = read(factor * x, curve, above=30.0, window=(0.0, factor))
    stretched = {
        name: factor * getattr(once, name) for name in ("peak_phase", "loaded", "above", "half_height", "area")
    }
    same(longer, replace(once, **stretched, rise_rate=once.rise_rate / factor))


@given(zigzags.filter(lambda curve: np.count_nonzero(curve == curve.max()) == 1))  # of equals, the first is refined
def test_a_curve_run_backward_has_the_same_times_and_area(curve: np.ndarray) -> None:
    on, back = (read(grid(curve), c, above=30.0) for c in (curve, curve[::-1]))
    for name in ("peak", "loaded", "above", "half_height", "area"):
        assert getattr(back, name) == pytest.approx(getattr(on, name), rel=1e-9, abs=1e-12)


@given(zigzags, st.floats(0.1, 0.9))
def test_areas_and_times_above_add_up_over_neighbouring_windows(curve: np.ndarray, at: float) -> None:
    x = grid(curve)
    parts = [read(x, curve, window=window, above=30.0) for window in ((0.0, at), (at, 1.0), (0.0, 1.0))]
    for name in ("area", "above"):
        left, right, whole = (float(getattr(part, name)) for part in parts)
        assert left + right == pytest.approx(whole, rel=1e-9, abs=1e-12)


@given(zigzags)
def test_the_higher_the_level_the_shorter_the_time_above_it(curve: np.ndarray) -> None:
    many = np.broadcast_to(curve, (60, curve.size))
    assert (np.diff(read(grid(curve), many, above=np.linspace(0.0, 130.0, 60)).above) <= 1e-12).all()


@given(zigzags, st.floats(0.05, 0.95))
def test_time_loaded_is_time_above_that_share_of_the_peak(curve: np.ndarray, share: float) -> None:
    once = read(grid(curve), curve, share=share)
    again = read(grid(curve), curve, above=share * once.peak)
    assert again.above == pytest.approx(float(once.loaded), abs=1e-12)
    assert 0.0 <= once.loaded <= 1.0 + ROUNDING


@given(zigzags)
def test_the_area_is_at_most_peak_times_time_above_zero(curve: np.ndarray) -> None:
    found = read(grid(curve), curve, above=0.0)
    assert 0.0 <= found.area <= found.peak * found.above * (1.0 + 1e-9)


@settings(max_examples=20)
@given(hnp.arrays(float, (2, 3, 12), elements=st.integers(-40, 100).map(float)))
def test_many_curves_at_once_are_read_as_one_by_one(many: np.ndarray) -> None:
    x, rate = np.linspace(0.0, 1.0, 12), np.cos(np.arange(12.0))
    together = read(x, many, above=30.0, rate=rate)
    for index in np.ndindex(2, 3):
        alone = read(x, many[index], above=30.0, rate=rate)
        same(alone, PhaseReadouts(*(getattr(together, field.name)[index] for field in fields(PhaseReadouts))))


def test_no_curve_at_all_gives_no_number_at_all() -> None:
    assert read(PHASES, np.empty((0, PHASES.size))).peak.shape == (0,)
