"""A throw of text -> the model's throw."""

import pytest

from app.throw_cells import NEEDED_COLUMNS, OPTIONAL_COLUMNS, ThrowError, ThrowReader
from model.ball import Ball
from model.person import Person
from model.throw import Throw

COLUMNS = (*NEEDED_COLUMNS, *OPTIONAL_COLUMNS)
CELLS = {
    "athlete": "W01",
    "sex": "male",
    "age_years": "25",
    "stature_cm": "188",
    "body_mass_kg": "90",
    "ball_mass_g": "145",
    "ball_diameter_mm": "73",
    "speed_m_s": "37",
}


def throw_of(**cells: str) -> Throw:
    given = CELLS | cells
    return ThrowReader(tuple(given)).throw(tuple(given.values()))


def test_the_columns_are_those_of_the_file_format() -> None:
    assert set(NEEDED_COLUMNS) == set(CELLS)
    assert set(OPTIONAL_COLUMNS) == {"forearm_length_cm", "upper_arm_length_cm", "hand_length_cm", "handedness"}


def test_a_throw_is_made_in_si_units() -> None:
    assert throw_of() == Throw(Person("male", 1.88, 90.0, 25.0), Ball(0.145, 0.073), 37.0)


def test_every_optional_value_is_taken() -> None:
    throw = throw_of(forearm_length_cm="29", upper_arm_length_cm="30.5", hand_length_cm="9", handedness="left")
    assert throw.person == Person("male", 1.88, 90.0, 25.0, 0.305, 0.29, 0.09, "left")


def test_an_empty_diameter_is_a_baseballs_and_empty_optional_values_are_left_out() -> None:
    blank = dict.fromkeys(OPTIONAL_COLUMNS, " ")
    assert throw_of(ball_diameter_mm="", **blank) == throw_of()


def test_words_may_be_written_in_capitals() -> None:
    assert throw_of(sex="Female", handedness=" LEFT ").person.sex == "female"


@pytest.mark.parametrize(
    ("column", "given", "message"),
    [
        ("sex", "m", "sex: 'm' given; accepted: male or female"),
        ("sex", "", "sex: '' given; accepted: male or female"),
        ("handedness", "both", "handedness: 'both' given; accepted: right or left"),
        ("stature_cm", "1.88", "stature_cm: '1.88' given; accepted: 90 to 230 cm"),
        ("body_mass_kg", "", "body_mass_kg: '' given; accepted: 12 to 200 kg"),
        ("age_years", "3", "age_years: '3' given; accepted: 4 to 100 years"),
        ("ball_mass_g", "0.145", "ball_mass_g: '0.145' given; accepted: 1 to 3000 g"),
        ("ball_diameter_mm", "7.3", "ball_diameter_mm: '7.3' given; accepted: 10 to 350 mm"),
        ("speed_m_s", "83", "speed_m_s: '83' given; accepted: 1 to 60 m/s"),
        ("hand_length_cm", "19", "hand_length_cm: '19' given; accepted: 3 to 14 cm"),
        ("forearm_length_cm", "290", "forearm_length_cm: '290' given; accepted: 10 to 45 cm"),
        ("upper_arm_length_cm", "x", "upper_arm_length_cm: 'x' given; accepted: 10 to 50 cm"),
    ],
)
def test_a_bad_value_is_named_with_its_column_and_range(column: str, given: str, message: str) -> None:
    with pytest.raises(ThrowError) as refusal:
        throw_of(**{column: given})
    assert str(refusal.value) == message


def test_all_bad_values_are_named_at_once() -> None:
    with pytest.raises(ThrowError) as refusal:
        throw_of(sex="", stature_cm="188,5", ball_mass_g="heavy", speed_m_s="0")
    assert [problem.field for problem in refusal.value.problems] == ["sex", "stature_cm", "ball_mass_g", "speed_m_s"]


def test_rows_do_not_borrow_from_each_other() -> None:
    reader = ThrowReader(tuple(CELLS))
    rows = [CELLS, CELLS | {"speed_m_s": "30"}, CELLS | {"stature_cm": "0"}, CELLS | {"ball_mass_g": "200"}, CELLS]
    found = []
    for row in rows:
        try:
            found.append(reader.throw(tuple(row.values())))
        except ThrowError:
            found.append(None)
    assert found[0] == found[4] == throw_of()
    assert found[1] == throw_of(speed_m_s="30")
    assert found[2] is None
    assert found[3] == throw_of(ball_mass_g="200")
