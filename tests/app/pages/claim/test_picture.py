"""The pictures: one axis for all, nought on it, and in the wide interval that of the speeds alone."""

from dataclasses import replace

import pytest

from app.pages.claim.picture import LEAST_SPAN, picture, scale_of
from model.structural_band import BandDifference

WIDE = BandDifference(
    "varus", "peak", -0.08, -0.18, 0.04, 0.12, 0.88, -0.09, -0.07, 0.0, 1.0, 0.1, 0.0, outside=False, no_claim=False
)


def test_the_axis_holds_every_interval_and_nought():
    scale = scale_of([replace(WIDE, best=0.35, low=0.3, high=0.4), WIDE])
    assert scale.low < -0.18
    assert scale.high > 0.4
    assert 0.0 in scale.ticks
    assert 2 <= len(scale.ticks) <= 7
    assert scale.percent(scale.low) == 0.0
    assert scale.percent(scale.high) == scale.percent(9.0) == 100.0


def test_hardly_any_difference_is_not_blown_up_and_an_interval_of_which_nothing_is_claimed_counts_not():
    scale = scale_of([replace(WIDE, best=0.0, no_claim=True)])
    assert scale.high - scale.low == pytest.approx(1.12 * LEAST_SPAN)  # a margin of 6 % at either end
    assert scale.percent(0.0) == pytest.approx(50.0)


def parts_of(drawn) -> list[str]:
    return [part.className for part in drawn.children[0].children]


def test_it_shows_both_intervals_nought_and_the_best_estimate():
    scale = scale_of([WIDE])
    drawn = picture(WIDE, scale, "heard")
    assert parts_of(drawn) == ["claim-interval", "claim-speeds", "claim-nought", "claim-middle"]
    assert getattr(drawn.children[0], "aria-label") == "heard"
    outer, inner = (drawn.children[0].children[i].style for i in (0, 1))
    for style, low, high in ((outer, WIDE.low, WIDE.high), (inner, WIDE.radar_low, WIDE.radar_high)):
        left, width = float(style["left"][:-1]), float(style["width"][:-1])
        assert left == pytest.approx(scale.percent(low))
        assert left + width == pytest.approx(scale.percent(high), abs=2e-3)


def test_exact_speeds_leave_no_interval_of_their_own_and_no_claim_leaves_none_at_all():
    exact = replace(WIDE, radar_low=WIDE.best, radar_high=WIDE.best)
    assert parts_of(picture(exact, scale_of([exact]), "")) == ["claim-interval", "claim-nought", "claim-middle"]
    nothing = replace(WIDE, no_claim=True)
    assert parts_of(picture(nothing, scale_of([nothing]), "")) == ["claim-nought", "claim-middle"]
