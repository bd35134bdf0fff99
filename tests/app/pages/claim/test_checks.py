"""Typed text to balls and speeds: right ones are read, wrong ones told in their own field, empty ones left in peace."""

from dataclasses import replace

import pytest

from app.pages.claim.checks import check_claim
from app.pages.claim.form import ClaimForm
from model.ball import Ball

FORM = ClaimForm(first_mass_g="275", first_diameter_mm="73", second_mass_g="142,5", second_diameter_mm="75")


def test_balls_are_read_with_point_or_comma():
    found = check_claim(FORM)
    assert (found.first, found.second) == (Ball(0.275, 0.073), Ball(0.1425, 0.075))
    assert found.complete("profile")


def test_an_empty_form_does_not_scold():
    found = check_claim(ClaimForm(thrown="typed"))
    assert found.problems == {}
    assert not found.complete("typed")


def test_speeds_are_asked_for_only_where_they_are_typed():
    typed = replace(FORM, first_speed_m_s="fast", second_speed_m_s="33", same_speed_m_s="0")
    assert check_claim(typed).complete("profile")
    assert set(check_claim(replace(typed, thrown="typed")).problems) == {"first_speed_m_s"}
    assert set(check_claim(replace(typed, thrown="same")).problems) == {"same_speed_m_s"}


def test_typed_speeds_are_needed_once_one_is_typed():
    neither = check_claim(replace(FORM, thrown="typed"))
    assert neither.problems == {}
    assert not neither.complete("typed")
    one = check_claim(replace(FORM, thrown="typed", first_speed_m_s="28.5"))
    assert one.problems == {"second_speed_m_s": "Speed of the second ball: nothing given; accepted: 1 to 60 m/s."}
    both = check_claim(replace(FORM, thrown="typed", first_speed_m_s="28.5", second_speed_m_s="33"))
    assert (both.first_speed_m_s, both.second_speed_m_s) == (28.5, 33.0)
    assert both.complete("typed")


def test_one_speed_for_both_may_be_left_out():
    assert check_claim(replace(FORM, thrown="same")).complete("same")
    assert check_claim(replace(FORM, thrown="same", same_speed_m_s="30")).same_speed_m_s == 30.0


@pytest.mark.parametrize(
    ("name", "bad", "said"),
    [
        ("first_mass_g", "heavy", "Mass of the first ball: “heavy” given; accepted: 1 to 3000 g"),
        ("second_mass_g", "3001", "Mass of the second ball: “3001” given; accepted: 1 to 3000 g."),
        ("first_diameter_mm", "", "Diameter of the first ball: nothing given; accepted: 10 to 350 mm."),
        ("second_diameter_mm", "1e2", "Diameter of the second ball: “1e2” given; accepted: 10 to 350 mm"),
    ],
)
def test_a_wrong_value_is_told_with_field_value_and_range(name, bad, said):
    found = check_claim(replace(FORM, **{name: bad}))
    assert list(found.problems) == [name]
    assert found.problems[name].startswith(said)
