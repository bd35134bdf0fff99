"""Balls at the greatest share that limits allow, the order of an aim, and which limit closes a ball."""

from dataclasses import replace

import numpy as np
import pytest

from model.ball import Ball
from model.ceilings import BOUNDS, Amount, Ceilings, Reference
from model.checks import InputError
from model.quantity import Quantity
from model.readouts import read_curves
from model.start import FULL, SLOWEST
from model.start_list import AIMS, choices, ordered, ranges, wanted_peak_nm
from model.throw import Throw, curves
from tests.model.speed_cases import ADULT, OWN
from tests.model.start_cases import WHOLE_RACK, field_with

FIELD = field_with(Reference())
SOME = Ceilings(elbow_peak=Amount(0.75), rise_rate=Amount(0.6), braking=Amount(0.85), most_loaded=Amount(2.0))
RANGES = ranges(FIELD, SOME, WHOLE_RACK)
FOUND = choices(FIELD, SOME, RANGES)


def varus_at(ball: Ball, speed_m_s: float):
    """Read off whole curves."""
    return read_curves(curves(Throw(ADULT, ball, speed_m_s)), "varus")


def masses(found) -> list[float]:
    return [one.range.ball.mass_kg for one in found]


def test_before_an_aim_is_chosen_every_ball_stands_at_its_greatest_share_in_the_order_of_the_rack():
    assert masses(FOUND) == [ball.mass_kg for ball in WHOLE_RACK]
    assert [one.share for one in FOUND] == [one.most for one in RANGES]
    with pytest.raises(InputError, match="aim"):
        ordered(FOUND, "", OWN)


@pytest.mark.parametrize(
    ("aim", "merit"),
    [
        ("least_area", lambda read: read.area),
        ("gentlest_rise", lambda read: read.rise_rate),
        ("longest_loaded", lambda read: -read.loaded_s),
    ],
)
def test_an_order_is_that_of_its_readout_off_whole_curves(aim, merit):
    read = {one.range.ball.mass_kg: merit(varus_at(one.range.ball, one.speed_m_s)) for one in FOUND}
    assert masses(ordered(FOUND, aim, OWN)) == sorted(read, key=read.__getitem__)


def test_the_own_ball_first_then_those_whose_mass_differs_least():
    assert masses(ordered(FOUND, "own", OWN)) == sorted(masses(FOUND), key=lambda kg: abs(np.log(kg / OWN.mass_kg)))


def test_the_wanted_peak_is_met_where_a_balls_range_reaches_it_and_else_at_its_nearest_end():
    own_peak = varus_at(OWN, FIELD.thrower.profile.own_speed().estimate).peak
    for one in choices(FIELD, SOME, RANGES, aim="nearest_peak", wanted_peak=Amount(0.6)):
        assert one.elbow.peak == pytest.approx(0.6 * own_peak, rel=1e-3)  # median of the draws against the estimate
    wanted = Amount(500.0, absolute=True)
    far = choices(FIELD, SOME, RANGES, aim="nearest_peak", wanted_peak=wanted)
    assert all(one.share == one.range.most for one in far)
    peaks = [one.elbow.peak for one in ordered(far, "nearest_peak", OWN, wanted_peak_nm(FIELD, wanted))]
    assert peaks == sorted(peaks, reverse=True)


def test_the_limit_that_sets_the_edge_is_met_by_its_certain_bound_and_the_likely_value_lies_within():
    for one in FOUND:
        for kept in one.limits:
            assert kept.bound <= kept.amount.value * (1.0 + 2e-5)
            if kept.key == one.range.most_by:
                assert kept.bound == pytest.approx(kept.amount.value, rel=2e-5)
            assert kept.likely <= kept.bound * (1.0 + 1e-4)
        assert 0.6 < one.together <= 1.0  # four limits of 90 % each can at worst leave 60 % together


def test_the_likely_value_is_the_readout_over_the_references_off_whole_curves():
    own = varus_at(OWN, FIELD.thrower.profile.own_speed().estimate)
    for one in FOUND:
        likely = {kept.key: kept.likely for kept in one.limits}
        read = varus_at(one.range.ball, one.speed_m_s)
        assert likely["elbow_peak"] == pytest.approx(read.peak / own.peak, rel=2e-3)  # the median draw of the reference
        assert likely["rise_rate"] == pytest.approx(read.rise_rate / own.rise_rate, rel=2e-3)


def test_a_limit_that_no_share_keeps_closes_its_balls_by_name_and_no_other_is_blamed():
    limits = replace(SOME, area=Amount(0.2))
    for one in ranges(FIELD, limits, WHOLE_RACK):
        assert not one.fits
        assert one.closed_by == ("area",)
        assert one.below_floor == ()


def test_two_limits_that_cross_close_a_ball_together():
    limits = Ceilings(elbow_peak=Amount(0.5), most_loaded=Amount(1.2), braking=Amount(2.0))
    light, own, *_, heavy = ranges(FIELD, limits, (WHOLE_RACK[0], OWN, WHOLE_RACK[-2]))
    for one in (light, own):
        assert set(one.closed_by) == {"elbow_peak", "most_loaded"}
        assert one.alone["elbow_peak"][1] < one.alone["most_loaded"][0] < FULL
    # the heaviest is loaded too long even at full speed: the other limit does not close it
    assert heavy.alone["most_loaded"][0] > FULL
    assert heavy.closed_by == ("most_loaded",)


def test_a_limit_kept_only_below_the_slowest_share_looked_at_is_told_as_the_programs_own_floor():
    slow = Ceilings(speed=Amount(1.2, absolute=True))
    for one in ranges(FIELD, slow, WHOLE_RACK):
        assert one.floor == SLOWEST
        assert (one.closed_by, one.below_floor) == (("speed",), ("speed",))
        assert one.alone["speed"][1] < SLOWEST
    # weight alone is more than the limit: no slower throw would do
    none = Ceilings(elbow_peak=Amount(0.01))
    assert all(one.closed_by == ("elbow_peak",) and one.below_floor == () for one in ranges(FIELD, none, WHOLE_RACK))


def test_a_speed_limit_of_eight_metres_a_second_leaves_every_ball_a_share():
    for one in ranges(FIELD, Ceilings(speed=Amount(8.0, absolute=True)), WHOLE_RACK):
        assert one.fits
        assert one.most * one.full_speed_m_s < 8.0 * 1.001


def test_weight_decides_the_area_of_a_slow_throw_and_nothing_of_a_fast_one():
    slow = choices(FIELD, Ceilings(), ranges(FIELD, Ceilings(speed=Amount(2.0, absolute=True)), WHOLE_RACK))
    fast = choices(FIELD, Ceilings(), ranges(FIELD, Ceilings(), WHOLE_RACK))
    assert all({Quantity("varus", "area"), Quantity("varus", "peak")} <= one.by_weight for one in slow)
    assert all(one.share == FULL and not one.by_weight for one in fast)


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="aim"):
        choices(FIELD, SOME, RANGES, aim="best")
    with pytest.raises(InputError, match="wanted_peak"):
        choices(FIELD, SOME, RANGES, aim="nearest_peak")
    with pytest.raises(InputError, match="wanted_peak"):
        ordered(FOUND, "nearest_peak", OWN)
    with pytest.raises(InputError, match="rack"):
        ranges(FIELD, SOME, ())
    with pytest.raises(InputError, match="area"):
        Ceilings(area=Amount(0.0))
    assert set(AIMS) == {"own", "least_area", "gentlest_rise", "longest_loaded", "nearest_peak"}
    assert set(BOUNDS) == {
        "elbow_peak",
        "shoulder_peak",
        "rise_rate",
        "area",
        "braking",
        "least_loaded",
        "most_loaded",
        "speed",
    }
