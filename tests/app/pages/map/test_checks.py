"""What is typed on the map: ends of the axes and a throw, each checked in its own field."""

import pytest

from app.pages.map.checks import check_spot, check_window, quantity_of
from app.pages.map.form import MapForm
from app.show.window import Spot, Window
from model.quantity import Quantity

FITTING = Window(0.08, 0.54, 18.0, 40.0)


def test_ends_that_were_left_out_are_the_fitting_ones():
    assert check_window(MapForm(), FITTING) == (FITTING, {})


def test_typed_ends_take_their_place():
    form = MapForm(mass_from_g="100", mass_to_g="900", speed_from_m_s="10,5", speed_to_m_s="30")
    assert check_window(form, FITTING) == (Window(0.1, 0.9, 10.5, 30.0), {})


@pytest.mark.parametrize("typed", ["abc", "0", "3001", "-5", "1e3"])
def test_a_wrong_end_is_told_in_its_field_and_the_fitting_one_is_used(typed):
    window, problems = check_window(MapForm(mass_to_g=typed, speed_to_m_s="35"), FITTING)
    assert window == Window(0.08, 0.54, 18.0, 35.0)
    assert set(problems) == {"mass_to_g"}
    assert f"Heaviest ball: “{typed}” given; accepted: 1 to 3000 g" in problems["mass_to_g"]


def test_ends_that_meet_or_cross_are_told_and_neither_is_used():
    window, problems = check_window(MapForm(speed_from_m_s="30", speed_to_m_s="30"), FITTING)
    assert window == FITTING
    told = "Fastest throw: “30 m/s” given; accepted: at least 36 m/s, a fifth above the other end."
    assert problems == {"speed_to_m_s": told}
    _, problems = check_window(MapForm(mass_from_g="500", mass_to_g="100"), FITTING)
    assert problems["mass_to_g"].endswith("at least 600 g, a fifth above the other end.")
    _, problems = check_window(MapForm(speed_from_m_s="55", speed_to_m_s="60"), FITTING)
    assert problems["speed_to_m_s"].endswith("accepted: a lower number for “slowest throw”.")


@pytest.mark.parametrize(
    ("form", "expected"),
    [
        (MapForm(mass_from_g="900"), Window(0.9, 1.08, 18.0, 40.0)),  # the other end makes room: a fifth above
        (MapForm(mass_to_g="60"), Window(0.05, 0.06, 18.0, 40.0)),
        (MapForm(speed_from_m_s="60"), Window(0.08, 0.54, 50.0, 60.0)),  # nothing is above 60 m/s
    ],
)
def test_one_typed_end_outside_the_fitting_ones_is_shown(form, expected):
    window, problems = check_window(form, FITTING)
    assert problems == {}
    for name in vars(expected):
        assert getattr(window, name) == pytest.approx(getattr(expected, name))


def test_a_throw_with_nothing_typed_is_neither_right_nor_wrong():
    assert check_spot(MapForm()) == Spot(None, None, {})


def test_a_throw_is_read_with_point_or_comma():
    assert check_spot(MapForm(ball_mass_g="275", speed_m_s="28,5")) == Spot(0.275, 28.5, {})


def test_a_wrong_field_keeps_its_message_beside_the_right_one():
    spot = check_spot(MapForm(ball_mass_g="275", speed_m_s="fast"))
    assert (spot.mass_kg, spot.speed_m_s) == (0.275, None)
    assert spot.problems == {
        "speed_m_s": "Release speed: “fast” given; accepted: 1 to 60 m/s, as a plain number with a point or a comma "
        "for decimals."
    }
    assert set(check_spot(MapForm(ball_mass_g="275")).problems) == {"speed_m_s"}


def test_an_unknown_quantity_is_the_varus_torques_peak():
    assert quantity_of(MapForm(reading="x", readout="y")) == Quantity("varus", "peak")
    assert quantity_of(MapForm(reading="ball_x")) == Quantity("varus", "peak")
    assert quantity_of(MapForm(reading="internal_rotation", readout="area")) == Quantity("internal_rotation", "area")
