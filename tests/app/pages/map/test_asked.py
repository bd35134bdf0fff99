"""What is asked of the map: quantity, ends of the axes, and the throw looked at, a click or the usual one."""

from dataclasses import replace

import pytest

from app.pages.map.asked import MASS_ENDS, SHOWN_READINGS, SPEED_ENDS, asked_of, clicked, window_of
from app.records.field_list import SETTINGS
from app.show.from_records import case_of
from app.show.window import Window
from app.units.systems import CUSTOMARY
from model.channels import READINGS
from model.quantity import Quantity
from tests.app.known import TODAY, known

FITTING = Window(0.08, 0.54, 18.0, 40.0)


def asked(data):
    return asked_of(data, case_of(data, TODAY))


def test_the_page_begins_with_the_varus_torques_peak_over_even_ratios(kept):
    made = asked(kept())
    assert (made.quantity, made.base, made.log) == (Quantity("varus", "peak"), "", True)


def test_what_is_chosen_is_asked_and_a_quantity_that_no_map_is_drawn_of_counts_as_the_usual(kept):
    made = asked(kept(reading="internal_rotation", readout="area", of="reference", axis="linear"))
    assert (made.quantity, made.base, made.log) == (Quantity("internal_rotation", "area"), "reference", False)
    other = next(key for key in READINGS if key not in SHOWN_READINGS)
    assert asked(kept(reading=other)).quantity.reading == "varus"


def test_elbow_shoulder_and_the_whole_braking_group_can_be_drawn():
    braking = {key for key, reading in READINGS.items() if reading.braking}
    assert set(SHOWN_READINGS) == {"varus", "internal_rotation"} | braking
    assert len(braking) >= 3  # horizontal abduction, posterior and proximal force: the design page, section 3


def test_ends_that_were_left_out_are_the_fitting_ones(kept):
    assert window_of(kept(), FITTING) == (FITTING, [])
    assert {*MASS_ENDS, *SPEED_ENDS} <= set(SETTINGS)


def test_ends_of_ones_own_take_their_place(kept):
    data = kept(mass_from_kg="100", mass_to_kg="900", speed_from_m_s="10,5", speed_to_m_s="30")
    assert window_of(data, FITTING) == (Window(0.1, 0.9, 10.5, 30.0), [])


@pytest.mark.parametrize("typed", ["abc", "0", "3001", "-5", "1e3"])
def test_of_an_end_that_was_refused_the_fitting_one_is_used(kept, typed):
    data = kept(mass_to_kg=typed, speed_to_m_s="35")
    assert window_of(data, FITTING) == (Window(0.08, 0.54, 18.0, 35.0), [])


def test_ends_that_meet_or_cross_are_told_and_neither_is_used(kept):
    window, problems = window_of(kept(speed_from_m_s="30", speed_to_m_s="30"), FITTING)
    assert window == FITTING
    assert problems == ["Fastest throw: “30 m/s” given; accepted: at least 36 m/s, a fifth above the other end."]
    _, (problem,) = window_of(kept(mass_from_kg="500", mass_to_kg="100"), FITTING)
    assert problem.endswith("at least 600 g, a fifth above the other end.")
    _, (problem,) = window_of(kept(speed_from_m_s="55", speed_to_m_s="60"), FITTING)
    assert problem.endswith("accepted: a lower number for “slowest throw”.")
    _, (problem,) = window_of(kept(mass_from_kg="10 oz", mass_to_kg="11 oz"), FITTING, CUSTOMARY)
    assert problem == "Heaviest ball: “11 oz” given; accepted: at least 12 oz, a fifth above the other end."


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"mass_from_kg": "900"}, Window(0.9, 1.08, 18.0, 40.0)),  # the other end makes room: a fifth above
        ({"mass_to_kg": "60"}, Window(0.05, 0.06, 18.0, 40.0)),
        ({"speed_from_m_s": "60"}, Window(0.08, 0.54, 50.0, 60.0)),  # nothing is above 60 m/s
    ],
)
def test_one_end_outside_the_fitting_ones_is_shown(kept, typed, expected):
    window, problems = window_of(kept(**typed), FITTING)
    assert problems == []
    for name in vars(expected):
        assert getattr(window, name) == pytest.approx(getattr(expected, name))


def test_the_throw_that_is_typed_is_looked_at_and_keeps_its_unit(kept):
    spot = asked(kept(ball_mass_kg="7 oz", ball_speed_m_s="28,5")).spot
    assert spot.mass_kg == pytest.approx(7 * 0.028349523125)  # an ounce, by definition
    assert (spot.speed_m_s, spot.mass_typed, spot.speed_typed) == (28.5, "7 oz", "28,5")


def test_the_usual_throw_is_a_heavier_ball_at_this_athletes_full_speed(kept):
    made = asked(kept())
    assert made.usual == (0.275, 28.5)  # 2 x 145 = 290 g: of the rack 275 g is nearest
    assert (made.spot.mass_kg, made.spot.speed_m_s, made.refused) == (0.275, 28.5, False)
    nothing = asked(known(measures=None))
    assert (nothing.usual, nothing.spot.mass_kg) == ((None, None), None)
    data = kept(read=False)
    alone = replace(data, balls={data.own_ball.id: data.own_ball})
    assert asked(alone).usual[0] == pytest.approx(0.290)


def test_a_ball_typed_alone_is_thrown_at_full_speed_with_it(kept):
    data = kept(ball_mass_kg="470")
    full = float(case_of(data, TODAY).profile.mean_speed(0.47).estimate)
    assert asked(data).spot.speed_m_s == round(full, 1)


def test_no_speed_is_guessed_for_a_ball_that_was_refused_and_no_throw_for_a_refused_speed(kept):
    made = asked(kept(ball_mass_kg="4oo"))
    assert (made.spot.mass_kg, made.spot.speed_m_s, made.refused) == (None, None, True)
    assert asked(kept(ball_mass_kg="4oo", ball_speed_m_s="20")).spot.speed_m_s == 20.0
    fast = asked(kept(ball_speed_m_s="fast"))
    assert (fast.spot.mass_kg, fast.spot.speed_m_s, fast.refused) == (0.275, None, True)


def test_a_click_is_read_in_whole_grams_and_tenths_of_a_metre_a_second():
    assert clicked({"mass_g": 274.6, "speed_m_s": 28.4501, "at": 1}) == ("275", "28.5")
    assert clicked({"mass_g": 300, "speed_m_s": 30}) == ("300", "30")


def test_a_click_is_put_down_in_tenths_of_the_readers_units():
    assert clicked({"mass_g": 275.0, "speed_m_s": 28.5}, CUSTOMARY) == ("9.7", "63.8")


def test_a_click_at_the_very_edge_stays_within_what_is_accepted():
    assert clicked({"mass_g": 0.4, "speed_m_s": 60.2}) == ("1", "60")


@pytest.mark.parametrize(
    "where",
    [None, 3, [], {}, {"mass_g": 200}, {"mass_g": "200", "speed_m_s": 30}, {"mass_g": True, "speed_m_s": 30}]
    + [{"mass_g": float(x), "speed_m_s": 30} for x in ("nan", "inf")],
)
def test_what_is_no_place_on_a_map_is_no_click(where):
    assert clicked(where) is None
