"""Which part of the plane is drawn and which lines."""

import numpy as np
import pytest

from app.pages.map.window import MOST_LINES, fitting_window, levels_between
from model.ball import Ball
from model.person import Person
from model.speed_readings import RadarReading
from model.throw import Throw

REFERENCE = Throw(Person("male", 1.83, 84.0, 20.0), Ball(0.145), 33.0)


def test_the_axes_reach_around_the_rack_and_the_reference_speed():
    window = fitting_window(REFERENCE, [Ball(0.095), Ball(0.145), Ball(0.470)], [], None)
    # by hand: 95 / 1.15 = 82.6 and 470 x 1.15 = 540.5 g, to 5 g outward; 0.6 x 33 = 19.8 and 1.15 x 33 = 37.95 m/s
    assert window.mass_low_kg == pytest.approx(0.080)
    assert window.mass_high_kg == pytest.approx(0.545)
    assert (window.speed_low_m_s, window.speed_high_m_s) == (19.0, 38.0)


def test_a_rack_of_the_own_ball_alone_still_leaves_something_to_be_seen():
    window = fitting_window(REFERENCE, [Ball(0.145)], [], None)
    assert window.mass_high_kg / window.mass_low_kg >= 4.0
    assert window.mass_low_kg < 0.145 < window.mass_high_kg


def test_no_reading_lies_outside():
    readings = [RadarReading(0.145, 12.0, asked_effort=0.5), RadarReading(0.095, 45.0)]
    window = fitting_window(REFERENCE, [Ball(0.145)], readings, None)
    assert window.speed_low_m_s < 12.0
    assert window.speed_high_m_s > 45.0


def test_a_throw_of_compare_lies_inside_unless_it_is_beyond_the_tested_range():
    rack = [Ball(0.145), Ball(0.470)]
    window = fitting_window(REFERENCE, rack, [], None, [(Ball(0.600), 14.0), (Ball(0.005), 30.0), (Ball(0.2), 55.0)])
    assert window.mass_high_kg > 0.600
    assert window.speed_low_m_s < 14.0
    assert (window.mass_low_kg, window.speed_high_m_s) == (0.125, 38.0)  # 145 / 1.15 = 126 g; 1.15 x 33 = 37.95 m/s


def test_the_axes_stay_within_what_is_accepted():
    fast = Throw(REFERENCE.person, Ball(0.001), 60.0)
    window = fitting_window(fast, [Ball(0.001), Ball(3.0)], [], None)
    assert window.mass_low_kg >= 0.001
    assert window.mass_high_kg <= 3.0
    assert window.speed_high_m_s <= 60.0


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (38.0, 225.0, (40, 60, 80, 100, 120, 140, 160, 180, 200, 220)),  # steps of 10 would be 19 lines
        (91.0, 112.0, (95, 100, 105, 110)),  # of 2: 11 lines
        (97.5, 103.9, (98, 99, 100, 101, 102, 103)),
        (10.0, 320.0, (50, 100, 150, 200, 250, 300)),  # of 25: 12 lines
        (110.0, 190.0, (110, 120, 130, 140, 150, 160, 170, 180, 190)),
        (3.0, 4.0, (3, 4)),
        (0.2, 0.4, ()),  # no whole per cent
    ],
)
def test_the_lines_go_in_even_steps_from_a_hundred_and_are_few(low, high, expected):
    assert levels_between(np.array([[low, high], [np.nan, 0.5 * (low + high)]])) == expected
    assert len(expected) <= MOST_LINES


def test_where_nothing_exists_there_is_no_line():
    assert levels_between(np.full((2, 2), np.nan)) == ()
