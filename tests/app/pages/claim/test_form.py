"""The claim's form: what the browser keeps comes back, what it should not send does not get in, balls change places."""

from dataclasses import replace

import pytest

from app.pages.claim.form import NAMES, ClaimForm, from_json, read_form, swapped, to_json, with_ball
from app.show.throw_form import LONGEST_KEPT, FormError

FULL = ClaimForm("W03", "internal_rotation", "less", "typed", "275", "73", "28,5", " 145", "7o", "33", "30")


def test_what_is_kept_comes_back_as_it_was_typed():
    assert from_json(to_json(FULL)) == FULL


@pytest.mark.parametrize(
    "broken",
    [
        None,
        [],
        "x",
        {},
        to_json(FULL) | {"version": 0},
        to_json(FULL) | {"more": ""},
        {name: value for name, value in to_json(FULL).items() if name != "who"},
        to_json(FULL) | {"who": 3},
        to_json(FULL) | {"first_mass_g": "x" * (LONGEST_KEPT + 1)},
    ],
)
def test_anything_else_is_refused(broken):
    with pytest.raises(FormError):
        from_json(broken)


@pytest.mark.parametrize("odd", [None, 3, [], {}, True, float("nan")])
def test_whatever_the_browser_sends_is_a_form(odd):
    assert read_form(dict.fromkeys(NAMES, odd)) == ClaimForm(**dict.fromkeys(NAMES, ""))
    assert len(read_form({"who": "x" * 9000}).who) == LONGEST_KEPT


def test_swapping_takes_each_speed_along_and_twice_is_not_at_all():
    there = swapped(FULL)
    assert (there.first_mass_g, there.first_diameter_mm, there.first_speed_m_s) == (" 145", "7o", "33")
    assert (there.second_mass_g, there.second_diameter_mm, there.second_speed_m_s) == ("275", "73", "28,5")
    assert swapped(there) == FULL


def test_a_ball_of_the_rack_fills_its_own_two_fields():
    assert with_ball(FULL, "second", "360|73") == replace(FULL, second_mass_g="360", second_diameter_mm="73")


@pytest.mark.parametrize(("which", "picked"), [("third", "360|73"), ("first", None), ("first", "360"), ("first", 3)])
def test_what_is_no_ball_changes_nothing(which, picked):
    assert with_ball(FULL, which, picked) is FULL
