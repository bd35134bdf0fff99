"""Warnings, cautions and what the page rests on."""

from operator import attrgetter

import pytest

from app.pages.compare.words import summary, warnings
from app.show.basis import BASIS
from app.show.cautions import cautions
from app.show.checked_range import CHECK, CHECKED_BALL_KG, CHECKED_SPEED_M_S
from model.person import Person
from tests.model.helpers import THROWS

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


OUTSIDE = "is outside the range in which two other mechanics programs give the same torques"
MASS_KG, SPEED_M_S = attrgetter("ball.mass_kg"), attrgetter("speed_m_s")


@pytest.mark.parametrize(
    ("mass_kg", "speed", "said"),
    [
        (0.145, 33.0, None),
        (0.050, 5.0, None),
        (1.000, 50.0, None),
        (0.005, 33.0, f"5 g at 33.0 m/s {OUTSIDE}: balls from 50 to 1000 g."),
        (0.145, 55.0, f"145 g at 55.0 m/s {OUTSIDE}: speeds from 5 to 50 m/s."),
        (2.0, 3.0, f"2000 g at 3.0 m/s {OUTSIDE}: balls from 50 to 1000 g and speeds from 5 to 50 m/s."),
    ],
)
def test_a_throw_outside_the_checked_range_is_named(make_answer, make_comparison, mass_kg, speed, said):
    assert warnings(make_comparison(make_answer(1, mass_kg, speed))) == ([said, CHECK] if said else [])


def test_the_checked_range_is_that_of_the_throws_held_against_other_programs():
    # all of them go through Pinocchio and MuJoCo in tests/model/test_against_*.py
    masses, speeds = ([value(throw) for throw in THROWS.values()] for value in (MASS_KG, SPEED_M_S))
    assert (min(masses), max(masses)) == CHECKED_BALL_KG
    assert (min(speeds), max(speeds)) == CHECKED_SPEED_M_S


def test_the_printed_line_says_who_threw_and_against_what(make_answer, make_comparison):
    said = summary(make_comparison(make_answer(1, reference=True)))
    assert said == (
        "X1 · male · 25 years · 188 cm · 90 kg · right-handed · reference 145 g at 33.0 m/s, measured 2026-01-13"
    )


def test_no_word_passes_a_verdict():
    said = " ".join([*cautions(BOY), *(text for _, text in BASIS)]).lower()
    for verdict in ("safe", "danger", "good", "bad ", "healthy", "optimal"):
        assert verdict not in said


def test_equal_throws_outside_the_checked_range_are_told_once(make_answer, make_comparison):
    far = [make_answer(number, 0.005, 20.0) for number in (1, 2, 3)]
    assert len(warnings(make_comparison(*far))) == 2  # the throw, and what kind of check that was
