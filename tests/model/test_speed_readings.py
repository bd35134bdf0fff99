"""Readings: what is used of them, in which form, and what is refused."""

import math

import pytest

from model.checks import InputError
from model.speed_readings import RadarReading, best_of, points_of


def test_the_best_of_several_normal_numbers_is_known():
    # closed forms: 1 / sqrt(pi) and 1 - 1 / pi of two, 3 / (2 sqrt(pi)) of three; tables (Harter 1961) of five and ten
    assert best_of(1) == pytest.approx((0.0, 1.0), abs=1e-9)
    assert best_of(2) == pytest.approx((1.0 / math.sqrt(math.pi), 1.0 - 1.0 / math.pi), abs=1e-9)
    assert best_of(3)[0] == pytest.approx(1.5 / math.sqrt(math.pi), abs=1e-9)
    assert best_of(5)[0] == pytest.approx(1.16296, abs=1e-5)
    assert best_of(10)[0] == pytest.approx(1.53875, abs=1e-5)


READINGS = (
    RadarReading(0.275, 30.0),
    RadarReading(0.145, 36.0),
    RadarReading(0.275, 31.0),
    RadarReading(0.145, 33.0, asked_effort=0.75),
    RadarReading(0.275, 32.0),
)


def test_every_throw_is_used_in_the_order_given():
    points, _ = points_of(READINGS, "all")
    assert [(p.ball_mass_kg, p.speed_m_s, p.throws) for p in points] == [
        (0.275, 30.0, 1),
        (0.145, 36.0, 1),
        (0.275, 31.0, 1),
        (0.275, 32.0, 1),
    ]


@pytest.mark.parametrize(("basis", "speed"), [("mean", 31.0), ("best", 32.0)])
def test_mean_and_best_make_one_point_of_each_ball(basis, speed):
    points, _ = points_of(READINGS, basis)
    assert [(p.ball_mass_kg, p.speed_m_s, p.throws) for p in points] == [(0.145, 36.0, 1), (0.275, speed, 3)]


def test_a_reading_at_less_than_full_effort_is_left_out_and_kept():
    _, left_out = points_of(READINGS, "all")
    assert left_out == (READINGS[3],)


def test_a_number_that_stands_for_several_throws_counts_as_so_many():
    points, _ = points_of([RadarReading(0.145, 36.0, throws=4), RadarReading(0.145, 34.0)], "mean")
    assert points[0].throws == 5
    assert points[0].speed_m_s == pytest.approx(35.6)


def test_a_number_that_stands_for_several_throws_is_no_single_throw():
    with pytest.raises(InputError, match="throws: 4 given"):
        points_of([RadarReading(0.145, 36.0, throws=4)], "all")


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"ball_mass_kg": 145.0, "speed_m_s": 36.0}, "ball_mass_kg"),
        ({"ball_mass_kg": 0.145, "speed_m_s": 80.0}, "speed_m_s"),
        ({"ball_mass_kg": 0.145, "speed_m_s": math.nan}, "speed_m_s"),
        ({"ball_mass_kg": 0.145, "speed_m_s": 36.0, "asked_effort": 75.0}, "asked_effort"),
        ({"ball_mass_kg": 0.145, "speed_m_s": 36.0, "throws": 0}, "throws"),
        ({"ball_mass_kg": 0.145, "speed_m_s": 36.0, "throws": 2.5}, "throws"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_by_name(values, field):
    with pytest.raises(InputError) as refused:
        RadarReading(**values)
    assert refused.value.field == field
    assert refused.value.given == values[field] or math.isnan(values[field])


def test_an_unknown_basis_is_refused():
    with pytest.raises(InputError, match="accepted: all or mean or best"):
        points_of(READINGS, "median")
