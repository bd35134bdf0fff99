"""Every cell is checked for itself: a wrong one is named, with what is accepted, and the others count."""

import math
from datetime import date

import pytest

from app.show.profile_checks import check_form
from app.show.profile_form import BallRow, Cell, ProfileForm

TODAY = date(2026, 3, 1)


def checked(*cells, **texts):
    return check_form(ProfileForm((BallRow("b1", "275", "73", cells),), **texts), TODAY)


def test_a_point_or_a_comma_marks_decimals_and_everything_is_si_afterwards():
    found = checked(Cell("28.5"), Cell("28,7", "2026-02-20", "75"))
    first, second = found.readings
    assert found.problems == {}
    assert (first.reading.ball_mass_kg, first.reading.speed_m_s, first.reading.asked_effort) == (0.275, 28.5, 1.0)
    assert (second.reading.speed_m_s, second.reading.asked_effort) == (28.7, 0.75)
    assert second.reading.on == date(2026, 2, 20)
    assert (second.key, second.cell) == ("b1", 1)


@pytest.mark.parametrize("typed", ["abc", "0", "-5", "61", "1e1", "NaN", "1.2.3", "9" * 60])
def test_a_wrong_speed_is_named_with_its_ball_and_place_and_the_others_stay(typed):
    found = checked(Cell("28.5"), Cell(typed))
    assert list(found.problems) == ["b1/1/speed"]
    message = found.problems["b1/1/speed"]
    assert message.startswith("Reading 2 of 275 g: “")
    assert "accepted: 1 to 60 m/s" in message
    assert [placed.cell for placed in found.readings] == [0]


@pytest.mark.parametrize("day", ["20.02.2026", "2026-13-01", "2026-03-02", "1889-01-01", "x"])
def test_a_wrong_day_is_named_and_so_is_the_last_day_accepted(day):
    found = checked(Cell("28.5", day))
    assert "year-month-day from 1990-01-01 to 2026-03-01" in found.problems["b1/0/date"]
    assert found.readings == ()


@pytest.mark.parametrize("effort", ["0", "9", "101", "x"])
def test_a_wrong_effort_is_named_in_per_cent(effort):
    assert "accepted: 10 to 100 %" in checked(Cell("28.5", "", effort)).problems["b1/0/effort"]


def test_a_wrong_ball_is_named_and_its_readings_wait():
    found = check_form(ProfileForm((BallRow("b1", "heavy", "73", (Cell("28.5"),)),)), TODAY)
    assert "Ball mass: “heavy” given; accepted: 1 to 3000 g" in found.problems["b1/mass_g"]
    assert found.readings == ()


def test_a_new_row_is_not_scolded():
    assert check_form(ProfileForm((BallRow("b1"),)), TODAY).problems == {}


def test_what_is_outside_the_grid_is_checked_under_its_own_name():
    found = check_form(
        ProfileForm(
            own_speed_m_s="fast", cap_share="5", throw_distance_m="0", throw_angle_deg="95", radar_angle_deg="-1"
        ),
        TODAY,
    )
    assert set(found.problems) == {
        "own_speed_m_s",
        "cap_share",
        "throw_distance_m",
        "throw_angle_deg",
        "radar_angle_deg",
    }
    assert "10 to 120 %" in found.problems["cap_share"]
    assert (found.own_speed_m_s, found.cap_share, found.distance_m, found.launch) == (None, None, None, None)


def test_ninety_degrees_can_be_typed_and_no_angle_is_the_best_one():
    straight_up = check_form(ProfileForm(throw_angle_deg="90"), TODAY).launch
    assert straight_up.angle_rad == pytest.approx(math.pi / 2, abs=1e-12)
    assert check_form(ProfileForm(throw_angle_deg=""), TODAY).launch.angle_rad is None


def test_the_radar_is_off_until_it_is_switched_on():
    assert check_form(ProfileForm(), TODAY).radar is None
    on = check_form(ProfileForm(radar="on", radar_distance_m="3", radar_angle_deg="10"), TODAY).radar
    assert (on.distance_m, on.angle_rad) == (3.0, pytest.approx(math.radians(10)))
