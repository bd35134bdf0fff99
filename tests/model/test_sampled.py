"""Sampled curves taken as straight between their samples: windows, peaks, crossings and integrals."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from scipy.integrate import quad

from model.sampled import Crossings, crossings, cut, highest_point, integrals_of_positive, rise

ROUNDING = 1e-12


def row(*values: float) -> np.ndarray:
    return np.array([values], dtype=float)


def passing(x: np.ndarray, y: np.ndarray, level: float) -> Crossings:
    return crossings(x, y, [level])[0]


def integral(x: np.ndarray, y: np.ndarray, factor: np.ndarray) -> np.ndarray:
    return integrals_of_positive(x, y, passing(x, y, 0.0), [factor])[0]


heights = hnp.arrays(float, (3, 9), elements=st.integers(-50, 50).map(float))
rates = hnp.arrays(float, 9, elements=st.integers(-50, 50).map(float))
places = hnp.arrays(float, 9, elements=st.integers(1, 20).map(float)).map(lambda steps: np.cumsum(steps) / 40.0)


def test_a_window_on_samples_is_a_view() -> None:
    x = np.linspace(0.0, 1.25, 501)
    inside, rows = cut(x, 0.0, 1.0)
    y = np.ones((2, 501))
    assert inside[0] == 0.0
    assert inside[-1] == pytest.approx(1.0, abs=ROUNDING)
    assert inside.size == 401
    assert np.shares_memory(rows(y), y)


def test_a_window_between_samples_cuts_the_line_there() -> None:
    x = np.array([0.0, 1.0, 2.0])
    inside, rows = cut(x, 0.25, 1.5)
    np.testing.assert_allclose(inside, [0.25, 1.0, 1.5], rtol=ROUNDING)
    np.testing.assert_allclose(rows(row(0.0, 4.0, 0.0)), row(1.0, 4.0, 2.0), rtol=ROUNDING)


def test_a_window_inside_one_interval_keeps_its_piece_of_the_line() -> None:
    inside, rows = cut(np.array([0.0, 1.0, 2.0]), 0.25, 0.75)
    np.testing.assert_allclose(inside, [0.25, 0.75], rtol=ROUNDING)
    np.testing.assert_allclose(rows(row(0.0, 4.0, 0.0)), row(1.0, 3.0), rtol=ROUNDING)


def test_the_top_of_a_parabola_between_samples_is_found_exactly_on_uneven_places_too() -> None:
    x = np.array([0.0, 0.2, 0.5, 0.6, 1.0])
    height, place, at_edge = highest_point(x, (7.0 - 3.0 * (x - 0.43) ** 2)[None])
    assert height[0] == pytest.approx(7.0, rel=ROUNDING)
    assert place[0] == pytest.approx(0.43, rel=ROUNDING)
    assert not at_edge[0]


def test_a_highest_sample_at_the_edge_is_taken_as_it_stands() -> None:
    height, place, at_edge = highest_point(np.array([0.0, 1.0, 2.0]), np.array([[3.0, 2.0, 1.0], [1.0, 2.0, 3.0]]))
    assert height.tolist() == [3.0, 3.0]
    assert place.tolist() == [0.0, 2.0]
    assert at_edge.tolist() == [True, True]


def test_a_flat_top_of_three_samples_is_not_refined() -> None:
    height, place, _ = highest_point(np.arange(5.0), row(0.0, 2.0, 2.0, 2.0, 0.0))
    assert height[0] == pytest.approx(2.0 + 2.0 / 8.0)  # its corner: an eighth of the step down, as the docstring says
    assert place[0] == pytest.approx(1.5)
    height, place, _ = highest_point(np.arange(3.0), row(2.0, 2.0, 2.0))
    assert (height[0], place[0]) == (2.0, 0.0)


@given(heights)
def test_at_a_corner_the_refined_peak_stands_at_most_an_eighth_of_the_step_down_above_it(y: np.ndarray) -> None:
    height, place, at_edge = highest_point(np.arange(9.0), y)
    for values, top, x, edge in zip(y, height, place, at_edge, strict=True):
        i = int(values.argmax())
        drop = 0.0 if edge else values[i] - min(values[i - 1], values[i + 1])
        assert values[i] <= top <= values[i] + drop / 8.0 + ROUNDING
        assert abs(x - i) <= 0.5 + ROUNDING


def test_crossings_of_a_zigzag_by_hand() -> None:
    found = passing(np.arange(4.0), row(0.0, 4.0, 0.0, 4.0), 1.0)
    np.testing.assert_allclose(found.place, [0.25, 1.75, 2.25], rtol=ROUNDING)
    assert found.upward.tolist() == [True, False, True]
    assert found.length_over[0] == pytest.approx(1.5 + 0.75, rel=ROUNDING)


@given(places, heights, st.integers(-50, 50).map(lambda level: level + 0.5))
def test_length_over_a_level_is_the_sum_over_the_intervals(x: np.ndarray, y: np.ndarray, level: float) -> None:
    """Oracle: interval by interval, the share of a line from a to b above the level is a ratio of heights."""
    found = passing(x, y, level).length_over
    for values, length in zip(y, found, strict=True):
        expected = 0.0
        for h, a, b in zip(np.diff(x), values[:-1], values[1:], strict=True):
            high, low = max(a, b) - level, min(a, b) - level
            expected += h if low > 0 else 0.0 if high < 0 else h * high / (high - low)
        assert length == pytest.approx(expected, abs=ROUNDING * (x[-1] - x[0]) * 10)


def test_the_rise_runs_from_the_last_passing_of_the_low_level_to_the_first_of_the_high_one() -> None:
    x, y = np.arange(8.0), row(0.0, 4.0, 0.0, 4.0, 10.0, 0.0, 10.0, 0.0)
    length = rise(passing(x, y, 2.0), passing(x, y, 7.0))
    assert length[0] == pytest.approx(3.5 - 2.5, rel=ROUNDING)


@pytest.mark.parametrize("values", [(5.0, 5.0, 10.0, 0.0), (10.0, 5.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0)])
def test_without_both_passings_there_is_no_rise(values: tuple[float, ...]) -> None:
    x, y = np.arange(4.0), row(*values)
    assert np.isnan(rise(passing(x, y, 1.0), passing(x, y, 9.0)))[0]


def test_the_area_of_a_line_through_zero_is_its_triangle() -> None:
    x, y = np.array([0.0, 1.0]), np.array([[-1.0, 3.0], [3.0, -1.0]])
    area = integral(x, y, np.ones(2))
    np.testing.assert_allclose(area, 0.5 * 3.0 * 0.75, rtol=ROUNDING)


def test_the_product_of_two_lines_with_different_zeros_by_hand() -> None:
    # y = x - 1/4 and rate = 3/4 - x are both positive on (1/4, 3/4): with u = x - 1/4, integral of u (1/2 - u)
    # from 0 to 1/2 = (1/2)^3 / 6 = 1/48
    x = np.array([0.0, 1.0])
    y = (x - 0.25)[None]
    assert integral(x, y, 0.75 - x)[0] == pytest.approx(1.0 / 48.0, rel=ROUNDING)


def test_factors_that_are_never_positive_together_give_nothing() -> None:
    x = np.array([0.0, 1.0])
    y = (x - 0.75)[None]
    assert integral(x, y, 0.25 - x)[0] == 0.0
    assert integral(x, y, np.array([-1.0, -2.0]))[0] == 0.0
    assert integral(x, -np.ones((1, 2)), np.ones(2))[0] == 0.0


@given(places, heights, rates)
def test_the_product_of_the_positive_parts_agrees_with_adaptive_quadrature(
    x: np.ndarray, y: np.ndarray, rate: np.ndarray
) -> None:
    """Oracle: scipy.integrate.quad over each interval, told where either line passes zero."""
    assume(np.abs(y).max() > 0)
    found = integral(x, y, rate)
    for values, result in zip(y, found, strict=True):

        def product(at: float, values: np.ndarray = values) -> float:
            return max(np.interp(at, x, values), 0.0) * max(np.interp(at, x, rate), 0.0)

        expected = 0.0
        for i, (a, b) in enumerate(pairwise(x)):
            kinks = sorted(a + (b - a) * f[i] / (f[i] - f[i + 1]) for f in (values, rate) if f[i] * f[i + 1] < 0)
            ends = [a, *kinks, b]
            expected += sum(quad(product, lo, hi)[0] for lo, hi in pairwise(ends))
        assert result == pytest.approx(expected, rel=1e-9, abs=1e-9)
