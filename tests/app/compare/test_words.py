"""Warnings, cautions and what the page rests on."""

import pytest

from app.cautions import cautions
from app.compare.words import BASIS, summary, warnings
from model.person import Person

MAN, BOY = Person("male", 1.88, 90.0, 25.0), Person("male", 1.6, 48.0, 13.0)


def test_what_it_rests_on_names_the_things_that_limit_it():
    said = " ".join(text for _, text in BASIS)
    for part in (
        "adult man",
        "measured length",
        "±7 ms",
        "Calibrated, not evidence",
        "±25 %",
        "hand is empty",
        "not calibrated",
    ):
        assert part in said


@pytest.mark.parametrize(
    ("mass_kg", "speed", "said"),
    [
        (0.145, 33.0, None),
        (0.057, 5.0, None),
        (0.907, 50.0, None),
        (0.005, 33.0, "5 g at 33.0 m/s is beyond what the model was tested in: balls from 57 to 907 g."),
        (0.145, 55.0, "145 g at 55.0 m/s is beyond what the model was tested in: speeds from 5 to 50 m/s."),
        (2.0, 3.0, "2000 g at 3.0 m/s is beyond what the model was tested in: "
                   "balls from 57 to 907 g and speeds from 5 to 50 m/s."),
    ],
)  # fmt: skip
def test_a_throw_beyond_the_tested_range_is_named(make_answer, make_comparison, mass_kg, speed, said):
    assert warnings(make_comparison(make_answer(1, mass_kg, speed))) == ([said] if said else [])


def test_the_printed_line_says_who_threw_and_against_what(make_answer, make_comparison):
    said = summary(make_comparison(make_answer(1, reference=True)))
    assert said == (
        "X1 · male · 25 years · 188 cm · 90 kg · right-handed · reference 145 g at 33.0 m/s, measured 2026-01-13"
    )


def test_no_word_passes_a_verdict():
    said = " ".join([*cautions(BOY), *(text for _, text in BASIS)]).lower()
    for verdict in ("safe", "danger", "good", "bad ", "healthy", "optimal"):
        assert verdict not in said


def test_equal_throws_beyond_the_tested_range_are_told_once(make_answer, make_comparison):
    far = [make_answer(number, 0.005, 20.0) for number in (1, 2, 3)]
    assert len(warnings(make_comparison(*far))) == 1
