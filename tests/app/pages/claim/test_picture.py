"""The pictures: one axis for all, nought on it, and as much of a shape on the claim's side as the claim is probable."""

import numpy as np
import pytest

from app.pages.claim.picture import LEAST_SPAN, outline, picture, scale_of
from model.claim import Difference
from model.interval import Interval

EVEN = (np.arange(20_000) + 0.5) / 20_000


def difference(draws) -> Difference:
    draws = np.sort(np.asarray(draws, dtype=float))
    low, middle, high = np.quantile(draws, [0.05, 0.5, 0.95])
    between = Interval(middle, low, high, 0.9)
    more, less = float((draws > 0).mean()), float((draws < 0).mean())
    return Difference("peak", between, between, between, between, more, less, 0.0, draws)


def area(shape) -> float:
    x, y = np.array(shape).T
    return float(np.trapezoid(y, x))


@pytest.mark.parametrize("centre", [-0.05, 0.0, 0.03, 0.2])
def test_the_claimed_sides_share_of_the_shape_is_the_probability(centre):
    one = difference(centre + 0.2 * (EVEN - 0.5))  # uniform, 0.2 wide
    whole = area(outline(one))
    for side, chance in (("more", one.more), ("less", one.less)):
        shape = outline(one, side)
        # half a bin of sixty is cut off at each end of the shape
        assert (area(shape) / whole if shape else 0.0) == pytest.approx(chance, abs=0.02)


def test_a_side_with_nothing_on_it_has_no_shape():
    assert outline(difference(0.5 + 0.1 * EVEN), "less") == []
    assert outline(difference([0.1]), "") == []


def test_the_axis_holds_every_difference_and_nought():
    scale = scale_of({"a": difference(0.3 + 0.1 * EVEN), "b": difference(-0.1 + 0.05 * EVEN)})
    assert scale.low < -0.1
    assert scale.high > 0.4
    assert 0.0 in scale.ticks
    assert 2 <= len(scale.ticks) <= 7
    assert scale.percent(scale.low) == 0.0
    assert scale.percent(scale.high) == scale.percent(9.0) == 100.0


def test_hardly_any_difference_is_not_blown_up():
    scale = scale_of({"a": difference([0.0])})
    assert scale.high - scale.low >= LEAST_SPAN
    assert scale.percent(0.0) == pytest.approx(50.0)


def parts_of(drawn) -> list[str]:
    return [part.className for part in drawn.children[0].children]


def test_a_distribution_has_shape_interval_and_middle_and_an_exact_number_only_a_bar_from_nought():
    one = difference(0.1 * (EVEN - 0.3))
    scale = scale_of({"peak": one})
    drawn = picture(one, scale, False, True, "heard")
    assert parts_of(drawn) == ["claim-shape", "claim-shape claimed", "claim-nought", "claim-interval", "claim-middle"]
    assert getattr(drawn.children[0], "aria-label") == "heard"
    exact = picture(difference([-0.04]), scale, True, True, "heard")
    assert parts_of(exact) == ["claim-nought", "claim-interval", "claim-middle"]
    bar = exact.children[0].children[1].style
    assert float(bar["left"][:-1]) + float(bar["width"][:-1]) == pytest.approx(scale.percent(0.0), abs=2e-3)
