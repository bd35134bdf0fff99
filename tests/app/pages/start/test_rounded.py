"""The share and the speed that are shown agree, and neither goes beyond a limit."""

import math
from dataclasses import replace

import pytest

from app.pages.start.rounded import chosen, least, most
from app.units.systems import CUSTOMARY, METRIC
from model.ball import Ball
from model.start_list import BallRange

MPH = 0.44704  # m/s, by definition


def ball_range(top: float, full_m_s: float, low: float = 0.3, **alone: tuple[float, float]) -> BallRange:
    edges = {"elbow_peak": (0.0, top)} | alone
    return BallRange(Ball(0.47), low, top, "slowest", "elbow_peak", full_m_s, edges, 0.05)


def test_the_speed_shown_is_the_share_shown_times_full_speed():
    # 97.4 % of 23.8 m/s is 23.18 m/s, which is nearest to 23.2 m/s: above the limit. 97.2 % of 23.8 is 23.134: 23.1 m/s
    shown = most(ball_range(0.974, 23.8), METRIC)
    assert (shown.share_text, shown.speed_text) == ("97.2 %", "23.1 m/s")
    # 97.0 % of 23.8 is 23.086 m/s, nearest to 23.1: above. 96.8 % is 23.04: 23.0 m/s
    assert most(ball_range(0.97, 23.8), METRIC).share_text == "96.8 %"


@pytest.mark.parametrize("system", [METRIC, CUSTOMARY])
@pytest.mark.parametrize("full_m_s", [4.97, 17.31, 23.84, 33.0, 44.7])
def test_they_agree_to_the_speeds_rounding_and_stay_within_the_limit(full_m_s, system):
    full = full_m_s / (1.0 if system is METRIC else MPH)
    for thousandth in range(5000, 10000, 7):
        one = ball_range(thousandth / 10000, full_m_s, most_loaded=(0.0, math.inf))
        shown = most(one, system)
        assert abs(shown.percent / 100.0 * full - shown.speed) <= 0.05 + 1e-9
        assert shown.percent <= 100.0 * one.most + 1e-6
        assert shown.speed <= one.most * full + 1e-6
        assert shown.speed > one.most * full - 0.15 - 0.001 * full  # no more is given away than the roundings ask
        slow = ball_range(1.0, full_m_s, one.most, most_loaded=(one.most, math.inf))
        shown = least(slow, system)
        if one.most < 0.98:  # above it a slow throw's range may have no room for a rounding
            assert abs(shown.percent / 100.0 * full - shown.speed) <= 0.05 + 1e-9
        assert shown.percent >= 100.0 * one.most - 1e-6
        assert shown.speed >= one.most * full - 1e-6


def test_full_speed_is_the_whole_of_it_and_the_slowest_computed_is_no_limit():
    one = BallRange(Ball(0.145), 0.05, 1.0, "slowest", "full", 33.08, {}, 0.05)
    assert (most(one, METRIC).share_text, most(one, METRIC).speed_text) == ("100 %", "33.1 m/s")
    assert (least(one, METRIC).share_text, least(one, METRIC).speed_text) == ("5 %", "1.7 m/s")
    # a limit just above full speed holds for what is shown too: 33.1 m/s would be beyond 33.09 m/s
    near = replace(one, alone={"speed": (0.0, 33.09 / 33.08)})
    assert most(near, METRIC).speed_text == "33.0 m/s"


def test_a_range_without_room_for_a_rounding_keeps_its_share():
    one = ball_range(0.8399, 23.8, low=0.8395)
    assert (most(one, METRIC).share_text, most(one, METRIC).speed_text) == ("83.9 %", "19.9 m/s")


def test_both_edges_of_one_limit_are_kept_by_what_is_shown():
    # an area that slow throws pass too: from 0.2043 to 0.6047 of 23.8 m/s, 4.862 to 14.392 m/s
    one = BallRange(Ball(0.47), 0.2043, 0.6047, "area", "area", 23.8, {"area": (0.2043, 0.6047)}, 0.05)
    assert (least(one, METRIC).share_text, least(one, METRIC).speed_text) == ("20.5 %", "4.9 m/s")
    assert (most(one, METRIC).share_text, most(one, METRIC).speed_text) == ("60.2 %", "14.3 m/s")


def test_a_throw_of_the_table_is_rounded_the_same_way(start):
    answer = start()
    for listed in answer.found.listed:
        shown, one = chosen(listed.choice, METRIC), listed.choice.range
        assert abs(shown.percent / 100.0 * one.full_speed_m_s - shown.speed) <= 0.05 + 1e-9
        assert shown == most(one, METRIC)
