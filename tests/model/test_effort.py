"""Asked effort against speed: published, and the athlete's own."""

import pytest

from model.checks import InputError
from model.effort import effort_curve, published_effort
from model.published import values
from model.speed import fit
from model.speed_readings import RadarReading
from tests.model.speed_cases import MU_KG, law_m_s

FULL = [RadarReading(0.145, 36.0), RadarReading(0.360, law_m_s(0.360, 36.0, 0.5))]
PROFILE = fit(FULL, 0.145, MU_KG)


def test_the_published_shares_are_fiegens():
    # Fiegen 2023 (4-effort-distance-10, -12): -10 % of speed at 75 %, -15 % at 50 % of effort
    assert (values()["4-effort-distance-10"].number, values()["4-effort-distance-12"].number) == (-10.0, -15.0)
    curve = published_effort()
    assert [curve.share_of_speed(effort) for effort in (0.5, 0.75, 1.0)] == pytest.approx([0.85, 0.90, 1.0])
    assert not curve.is_own


def test_between_the_points_the_share_is_straight():
    curve = published_effort()
    assert curve.share_of_speed(0.875) == pytest.approx(0.95)
    assert curve.share_of_speed(0.6) == pytest.approx(0.87)


@pytest.mark.parametrize("effort", [0.5, 0.61, 0.75, 0.9, 1.0])
def test_the_inverse_leads_back(effort):
    curve = published_effort()
    assert curve.effort_for(curve.share_of_speed(effort)) == pytest.approx(effort)


def test_at_the_published_share_the_model_loses_about_the_torque_that_was_measured():
    # 4-effort-distance-09, -11: -19 % and -25 %. The square of 0.90 and 0.85 is -19 % and -28 %: DESIGN 2
    curve = published_effort()
    assert 1.0 - curve.share_of_speed(0.75) ** 2 == pytest.approx(0.19, abs=0.005)
    assert 1.0 - curve.share_of_speed(0.50) ** 2 == pytest.approx(0.25, abs=0.035)


def test_own_readings_take_the_place_of_the_published_points():
    own = [RadarReading(0.145, 0.92 * 36.0, asked_effort=0.75), RadarReading(0.145, 0.94 * 36.0, asked_effort=0.75)]
    curve = effort_curve([*FULL, *own], PROFILE)
    assert curve.is_own
    full = PROFILE.own_speed().estimate
    expected = (0.92 * 0.94) ** 0.5 * 36.0 / full  # geometric mean
    assert curve.share_of_speed(0.75) == pytest.approx(expected)
    assert curve.share_of_speed(1.0) == 1.0
    # below, the published curve is carried on in proportion
    assert curve.share_of_speed(0.50) == pytest.approx(0.85 / 0.90 * expected)
    assert [(point.source, point.readings) for point in curve.points] == [
        ("published", 0),
        ("own", 2),
        ("definition", 0),
    ]


def test_own_readings_with_other_balls_count_against_full_speed_with_that_ball():
    own = [RadarReading(0.360, 0.9 * law_m_s(0.360, 36.0, 0.5), asked_effort=0.6)]
    curve = effort_curve(own, PROFILE)
    assert curve.share_of_speed(0.6) == pytest.approx(0.9, abs=0.01)
    assert [point.asked_effort for point in curve.points] == [0.5, 0.6, 1.0]  # no published point above an own one


def test_own_readings_below_the_published_range_widen_it():
    curve = effort_curve([RadarReading(0.145, 20.0, asked_effort=0.3)], PROFILE)
    assert curve.lowest_effort == 0.3
    assert curve.share_of_speed(0.3) == pytest.approx(20.0 / PROFILE.own_speed().estimate)


def test_where_own_readings_do_not_rise_with_effort_the_lowest_effort_is_given():
    own = [RadarReading(0.145, 34.0, asked_effort=0.6), RadarReading(0.145, 32.0, asked_effort=0.8)]
    curve = effort_curve(own, PROFILE)
    assert curve.effort_for(curve.share_of_speed(0.6)) == pytest.approx(0.6)


def test_without_own_readings_it_is_the_published_curve():
    assert effort_curve(FULL, PROFILE) == published_effort()
    assert effort_curve([]) == published_effort()


@pytest.mark.parametrize("effort", [0.49, 1.01, 75.0, float("nan")])
def test_an_effort_of_which_nothing_is_known_is_refused(effort):
    with pytest.raises(InputError, match=r"asked_effort: .* accepted: a number from 0\.5 to 1 of full effort"):
        published_effort().share_of_speed(effort)


def test_a_share_that_no_effort_brings_is_refused():
    with pytest.raises(InputError, match=r"speed_share: 0\.8 given"):
        published_effort().effort_for(0.8)


def test_own_readings_need_a_full_speed_to_be_a_share_of():
    own = [RadarReading(0.145, 33.0, asked_effort=0.75)]
    with pytest.raises(InputError, match="profile: None given"):
        effort_curve(own)
    with pytest.raises(InputError, match="readings"):
        effort_curve(own, fit(own, 0.145, MU_KG))
