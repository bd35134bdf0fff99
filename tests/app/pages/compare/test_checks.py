"""Typed text is read or refused with a message that names field, value and accepted range."""

import contextlib
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pages.compare.checks import check_above, throw_of
from app.show.checks import check_athlete, check_reference, check_throw, message, read_number
from app.show.throw_form import ATHLETE_NAMES, Form, ThrowForm
from model.checks import InputError, Limit

SPEED = Limit(1.0, 60.0, "m/s")
GOOD = dict.fromkeys(ATHLETE_NAMES, "") | {
    "code": "X1",
    "sex": "male",
    "handedness": "left",
    "age_years": "25",
    "stature_cm": "188",
    "body_mass_kg": "90",
}


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("28.5", 28.5),
        ("28,5", 28.5),
        (" 28.5 ", 28.5),
        ("28.", 28.0),
        ("+28", 28.0),
        ("1", 1.0),
        ("60", 60.0),
        ("60,0", 60.0),
    ],
)
def test_a_point_and_a_comma_both_mark_the_decimals(typed, number):
    assert read_number(typed, "Release speed", SPEED, "m/s") == number


@pytest.mark.parametrize(
    "typed",
    [
        "abc",
        "NaN",
        "nan",
        "inf",
        "-inf",
        "Infinity",
        "1e400",
        "2e1",
        "0x1f",
        "28.5 kg",
        "1,234.5",
        "1.234,5",
        "1_0",
        "--3",
        "28 5",
        "٢٨",
        ".",
        ",",
        "-",
        "²",
        "28\n5",
    ],
)
def test_what_is_no_plain_number_is_refused_with_how_to_write_one(typed):
    with pytest.raises(InputError) as caught:
        read_number(typed, "Release speed", SPEED, "m/s")
    said = message(caught.value)
    assert said.startswith("Release speed: “")
    assert said.endswith("given; accepted: 1 to 60 m/s, as a plain number with a point or a comma for decimals.")


@pytest.mark.parametrize("typed", ["0", "-3", "−3", "0.999", "60.001", "9" * 40, "0," + "0" * 30 + "1"])
def test_what_lies_outside_the_range_is_refused_with_the_range(typed):
    with pytest.raises(InputError) as caught:
        read_number(typed, "Release speed", SPEED, "m/s")
    assert message(caught.value).endswith("given; accepted: 1 to 60 m/s.")


@given(st.text(max_size=300))
def test_any_text_is_a_number_in_range_or_refused(typed):
    with contextlib.suppress(InputError):
        assert 1.0 <= read_number(typed, "Release speed", SPEED, "m/s") <= 60.0


def test_an_empty_field_is_said_to_be_empty():
    with pytest.raises(InputError) as caught:
        read_number("  ", "Age", Limit(4.0, 100.0, "years"), "years")
    assert message(caught.value) == "Age: nothing given; accepted: 4 to 100 years."


def test_a_very_long_value_is_cut_in_its_message_only():
    said = message(InputError("Release speed", "x" * 5000, "1 to 60 m/s"))
    assert said == f"Release speed: “{'x' * 23}…” given; accepted: 1 to 60 m/s."


def test_the_units_of_the_form_become_si():
    person = check_athlete(GOOD | {"forearm_length_cm": "26,5"}).person
    assert person is not None
    assert (person.stature_m, person.body_mass_kg, person.age_years) == (1.88, 90.0, 25.0)
    assert (person.forearm_length_m, person.upper_arm_length_m) == (0.265, None)
    assert (person.sex, person.handedness) == ("male", "left")


def test_an_empty_form_is_not_scolded():
    checked = check_athlete(dict.fromkeys(ATHLETE_NAMES, ""))
    assert checked.person is None
    assert checked.problems == {}


def test_each_wrong_measure_has_its_own_message():
    checked = check_athlete(GOOD | {"stature_cm": "1.88", "age_years": "abc", "sex": "", "hand_length_cm": "19"})
    assert checked.person is None
    assert dict(checked.problems) == {
        "sex": "Sex: nothing given; accepted: male or female.",
        "age_years": "Age: “abc” given; accepted: 4 to 100 years, "
        "as a plain number with a point or a comma for decimals.",
        "stature_cm": "Stature: “1.88” given; accepted: 90 to 230 cm.",
        "hand_length_cm": "Hand: “19” given; accepted: 3 to 14 cm.",
    }


def test_a_thrower_can_be_marked_as_still_growing_whatever_the_age():
    assert [check_athlete(GOOD | {"still_growing": text}).person.still_growing for text in ("", "yes")] == [False, True]
    refused = check_athlete(GOOD | {"still_growing": "perhaps"})
    assert refused.person is None
    assert refused.problems["still_growing"] == "Still growing: “perhaps” given; accepted: by age or yes."


@pytest.mark.parametrize("code", ["N" * 25, "W01\x00", "a\u202eb"])
def test_a_code_that_cannot_be_shown_is_told_and_stops_nothing(code):
    checked = check_athlete(GOOD | {"code": code})
    assert checked.person is not None
    assert "accepted: up to 24 printable characters" in checked.problems["code"]
    assert checked.code.isprintable()
    assert len(checked.code) <= 24


def test_a_throw_is_read_in_si():
    checked = check_throw(ThrowForm("t1", "275", "73", "28,5"))
    assert checked.ball is not None
    assert (checked.ball.mass_kg, checked.ball.diameter_m, checked.speed_m_s) == (0.275, 0.073, 28.5)
    assert checked.problems == {}


def test_a_blank_throw_is_neither_right_nor_wrong(man):
    checked = check_throw(ThrowForm("t1"))
    assert checked.problems == {}
    assert throw_of(man, checked) is None


def test_a_throw_with_one_wrong_value_has_no_curve_and_one_message(man):
    checked = check_throw(ThrowForm("t1", "0", "73", "28.5"))
    assert dict(checked.problems) == {"ball_mass_g": "Ball mass: “0” given; accepted: 1 to 3000 g."}
    assert throw_of(man, checked) is None


TODAY = date(2026, 3, 1)


@pytest.mark.parametrize(
    ("kind", "day", "short", "full"),
    [
        ("measured", "", "measured", "measured"),
        ("measured", "2026-01-13", "measured", "measured 2026-01-13"),
        ("before", "2025-09-02", "pre-injury", "from before an injury, 2025-09-02"),
        ("estimated", "", "estimated", "estimated"),
        ("estimated", "not a date", "estimated", "estimated"),
        ("something else", "", "estimated", "estimated"),
    ],
)
def test_the_kind_of_the_reference_is_put_into_words(kind, day, short, full):
    assert check_reference(Form(kind=kind, date=day), TODAY) == (short, full, "")


@pytest.mark.parametrize(
    "day", ["13.01.2026", "2026-02-30", "2026-03-02", "1989-12-31", "20260113", "2026-1-3", "x" * 99]
)
def test_a_date_that_is_none_or_lies_ahead_is_refused(day):
    said = check_reference(Form(kind="measured", date=day), TODAY)[2]
    assert said.startswith("Date of the reference: “")
    assert said.endswith("given; accepted: year-month-day from 1990-01-01 to 2026-03-01.")


def test_a_reference_from_before_an_injury_needs_its_date():
    short, full, problem = check_reference(Form(kind="before"), TODAY)
    assert (short, full) == ("pre-injury", "from before an injury, date not given")
    assert problem.startswith("Date of the reference: nothing given")


def test_the_level_of_time_above_is_read_in_the_quantitys_unit():
    assert check_above("", "N·m") == (None, "")
    assert check_above("39,5", "N·m") == (39.5, "")
    assert check_above("-1", "N·m") == (None, "Level: “-1” given; accepted: 0.1 to 2000 N·m.")
    assert check_above("0.5", "N") == (None, "Level: “0.5” given; accepted: 1 to 20000 N.")
