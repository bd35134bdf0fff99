"""What the page says: which throw is 100 %, whose speeds these are, what is missing, what leaves the tested range."""

import pytest

from app.pages.map import ids
from app.pages.map.view import view_of
from app.pages.map.words import figure_note, looked_words, notes
from app.show.ball_words import value_words
from app.show.checked_range import beyond

NO_MEASURES = dict.fromkeys(("age_years", "stature_m", "body_mass_kg"), "")


@pytest.fixture
def view():
    return view_of


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (61.5208, "N·m", "61.5 N·m"),
        (1398.4, "N·m/s", "1\u202f398 N·m/s"),
        (4.4870, "N·m·s", "4.49 N·m·s"),
        (0.33590, "N·m·s", "0.336 N·m·s"),
        (0.1165, "s", "116 ms"),
        (0.0136, "s", "13.6 ms"),
        (float("nan"), "N·m", "not defined"),
    ],
)
def test_a_value_is_written_with_its_unit_and_no_needless_figures(value, unit, said):
    assert value_words(value, unit) == said


def test_it_says_which_throw_is_a_hundred_and_where_the_reference_throw_differs(make_map):
    own, line, *_ = notes(make_map("W02"))
    # W02's readings with the own ball have the mean of the reference throw: nothing differs
    assert own == "100 % is 145 g at 36.2 m/s, full speed by the readings of the Athlete page."
    assert notes(make_map("W02", rows={"reference": {"speed_m_s": "35.0"}}))[0] == (
        "100 % is 145 g at 36.2 m/s, full speed by the readings of the Athlete page. The reference throw has "
        "another speed, 35.0 m/s."
    )
    assert line.startswith("Line and band: this athlete’s mean full-effort throw with its 90 % interval, from ")
    assert notes(make_map("W02", of="reference"))[0] == (
        "100 % is 145 g at 36.2 m/s, measured 2026-01-13 (the reference throw)."
    )


def test_the_hundred_is_called_the_reference_throw_only_where_it_is_that(make_map, view, text):
    by_profile, chosen = view(make_map("W02")), view(make_map("W02", of="reference"))
    for part in (ids.MAP_FIGURE_TITLE, ids.MAP_FIGURE_NOTE, ids.MAP_TABLE):
        assert "the own ball at full speed" in text(by_profile[part])
        assert "reference throw" not in text(by_profile[part])
        assert "the reference throw" in text(chosen[part])


def test_without_readings_it_says_plainly_that_the_band_is_the_prior(make_map):
    assert notes(make_map(read=False))[1] == (
        "No readings: how much this athlete slows down with another ball is not known. The line and its band are the "
        "prior from published groups, not this athlete."
    )


def test_what_leaves_the_checked_range_is_named(make_map):
    assert notes(make_map(mass_to_kg="1500"))[-1] == (
        "Part of the map is outside the range in which two other mechanics programs give the same torques: "
        "balls from 50 to 1000 g. That is a check of the calculation, not of throwers."
    )
    assert beyond((0.04, 0.04), (55.0, 55.0), "40 g at 55 m/s") == (
        "40 g at 55 m/s is outside the range in which two other mechanics programs give the same torques: "
        "balls from 50 to 1000 g and speeds from 5 to 50 m/s. That is a check of the calculation, not of throwers."
    )
    assert beyond((0.05, 1.0), (5.0, 50.0), "x") == ""


def test_a_throw_of_compare_off_the_map_is_named(make_map):
    assert "Outside the map: throw 4 of Compare." in notes(make_map(mass_to_kg="400"))[-1]


def test_the_sentence_for_the_ear_holds_all_four_readings(make_map):
    said = looked_words(make_map())
    assert said.startswith("275 g at 28.5 m/s, varus torque: rise rate ")
    for name in ("peak", "time loaded", "area under the curve"):
        assert f"; {name} " in said
    assert said.count(" % of measured") == 4


def test_braking_says_that_only_the_clock_counts(make_map):
    assert "only the clock counts" in figure_note(make_map(reading="horizontal_abduction"))
    assert "only the clock counts" not in figure_note(make_map())


def test_the_panel_shows_the_readings_with_per_cent_and_kind(make_map, view, text):
    answer = make_map()
    told = text(view(answer)[ids.MAP_POINT])
    assert "275 g at 28.5 m/s" in told
    assert f"Peak{answer.looked.readouts.peak:.1f} N·m" in told
    assert told.count("% of measured") == 4
    assert "This athlete’s full speed, with 275 g: 28.5 m/s (" in told


def test_for_the_young_and_for_women_the_page_says_at_the_number_whose_path_it_is(make_map, view, text):
    assert "The path comes from adult men; this thrower is 13 years old." in text(view(make_map("W04"))[ids.MAP_POINT])
    assert "The path comes from adult men; this thrower is female." in text(view(make_map("W05"))[ids.MAP_POINT])
    assert "adult men" in text(view(make_map("W05"))[ids.MAP_TABLE])
    assert "adult men" not in text(view(make_map())[ids.MAP_POINT])


def test_the_table_holds_a_speed_for_every_ball_and_line(make_map, view, text):
    answer = make_map()
    told = text(view(answer)[ids.MAP_TABLE])
    assert "145 gown ball" in told
    for contour in answer.contours:
        assert f"{contour.percent} %" in told
        for speed in contour.rack_m_s:
            assert f"{speed:.1f}" in told


def test_an_empty_page_says_what_to_enter_and_where(make_map, view, text):
    rows = {"athlete": {"sex": "", "handedness": ""}, "measures": NO_MEASURES, "reference": {"speed_m_s": ""}}
    shown = view(make_map(read=False, rows=rows))
    told = text(shown[ids.MAP_EMPTY])
    assert "sex, throwing hand, age, stature, body mass. Enter it on Athlete" in told
    assert "the reference throw: ball and release speed, or radar readings. Enter it on Athlete" in told


def test_one_wrong_measure_is_named(make_map, view, text):
    told = text(view(make_map(rows={"measures": {"stature_m": "1.88"}}))[ids.MAP_EMPTY])
    assert "Missing or to be mended: stature. " in told
    assert "reference throw" not in told


def test_a_quantity_that_the_reference_throw_has_not_is_said_to_be_missing(make_map, view, text):
    answer = make_map(reading="elbow_proximal_braking", readout="rise_rate")
    told = "No lines: rise rate is not defined for the throw that is 100 %, so nothing can be counted from it."
    assert told in notes(answer)
    assert text(view(answer)[ids.MAP_TABLE]) == "No lines, so no speeds."
    assert "not defined" in text(view(answer)[ids.MAP_POINT])
