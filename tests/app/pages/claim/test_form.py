"""The claim of an athlete's settings: what was left empty is the usual, balls change places."""

from dataclasses import replace

import pytest

from app.pages.claim.form import PATHS, ClaimForm, swapped, usual_texts, with_usual
from app.records.field_list import SETTINGS
from app.show.from_records import case_from_forms
from app.show.profile_form import BallRow
from tests.app.pages.claim.conftest import TODAY

FULL = ClaimForm("internal_rotation", "less", "typed", "275", "73", "28,5", " 145", "7o", "33", "30")


@pytest.fixture
def case(compared, readings):
    return case_from_forms(compared(), readings(), TODAY)


def test_every_part_is_a_setting_of_the_athlete():
    assert set(PATHS) == set(vars(ClaimForm()))
    assert set(PATHS.values()) <= set(SETTINGS)


def test_swapping_takes_each_speed_along_and_twice_is_not_at_all():
    there = swapped(FULL)
    assert (there.first_mass_g, there.first_diameter_mm, there.first_speed_m_s) == (" 145", "7o", "33")
    assert (there.second_mass_g, there.second_diameter_mm, there.second_speed_m_s) == ("275", "73", "28,5")
    assert swapped(there) == FULL


def test_the_usual_balls_are_the_one_nearest_to_twice_the_own_one_and_the_own_one(case):
    form = with_usual(ClaimForm(), case)
    assert (form.first_mass_g, form.second_mass_g) == ("275", "145")  # of the rack 275 g is nearest to 290 g
    assert (form.first_diameter_mm, form.second_diameter_mm) == ("73", "73")


def test_what_was_typed_stays_and_a_typed_ball_is_as_large_as_that_of_the_rack(compared, readings, case):
    assert with_usual(FULL, case) == FULL
    known = case_from_forms(compared(), replace(readings(), rows=(BallRow("b1", "250", "90"),)), TODAY)
    assert usual_texts(ClaimForm(first_mass_g="250"), known)["first_diameter_mm"] == "90"
    assert usual_texts(ClaimForm(first_mass_g="252"), known)["first_diameter_mm"] == "73"
