"""Ready comparisons: made from the reference throw and the rack, and what is said where they cannot be made."""

from dataclasses import replace

import pytest

from app.demo import load_demo
from app.pages.compare.ready import READY, ready
from app.show.throw_form import OTHER, Form, ThrowForm, measures_of
from model.ball import Ball

RACK = tuple(Ball(grams / 1000.0) for grams in (95, 125, 145, 160, 210, 275, 360, 470))


def listed(form) -> list[tuple[str, str, str]]:
    return [(throw.ball_mass_g, throw.held, throw.typed) for throw in form.throws]


def test_the_neighbours_are_the_next_lighter_and_the_next_heavier_ball_at_full_speed(demo_page):
    made = ready(demo_page, "neighbours", RACK, on_profile={""})
    assert listed(made.form) == [("145", "speed", "33.0"), ("125", "profile", "100"), ("160", "profile", "100")]
    assert made.said == "One ball heavier, one lighter, each at full speed by the profile."


def test_without_readings_other_balls_get_the_references_speed_and_it_is_said(demo_page):
    made = ready(demo_page, "neighbours", RACK, on_profile=())
    assert listed(made.form)[1:] == [("125", "speed", "33.0"), ("160", "speed", "33.0")]
    assert made.said.endswith("all at the same speed.")


def test_the_whole_rack_stands_after_the_reference_and_the_own_ball_is_not_there_twice(demo_page):
    made = ready(demo_page, "rack", RACK, on_profile={""})
    assert [mass for mass, _, _ in listed(made.form)] == ["145", "95", "125", "160", "210", "275", "360", "470"]


def test_a_rack_that_does_not_fit_says_how_many_were_left_out(demo_page):
    large = tuple(Ball(grams / 1000.0) for grams in range(100, 220, 10))  # twelve, none of them 145 g
    made = ready(demo_page, "rack", large, on_profile={""})
    assert len(made.form.throws) == 8
    assert made.said.endswith("5 of the rack did not fit.")


def test_one_ball_at_three_speeds_goes_down_by_tenths(demo_page):
    made = ready(demo_page, "speeds", RACK, on_profile={""})
    assert listed(made.form) == [("145", "speed", "33.0"), ("145", "speed", "29.7"), ("145", "speed", "26.4")]


def test_a_reference_at_its_clock_is_slowed_by_its_clock(demo_page):
    held = replace(demo_page, throws=(demo_page.throws[0].holding("clock", "90"), *demo_page.throws[1:]))
    assert [typed for _, _, typed in listed(ready(held, "speeds", RACK, {""}).form)] == ["90", "81.0", "72.0"]


def test_where_the_rack_has_no_neighbour_a_ball_a_quarter_away_is_taken(demo_page):
    made = ready(demo_page, "neighbours", RACK[2:3], on_profile=())
    # 145 / 1.25 = 116 and 145 * 1.25 = 181.25, to the nearest 5 g
    assert [mass for mass, _, _ in listed(made.form)] == ["145", "115", "180"]


@pytest.mark.parametrize("key", READY)
def test_without_a_reference_throw_it_says_what_is_missing_and_changes_nothing(demo_page, key):
    blank = replace(demo_page, throws=(ThrowForm("t1"), *demo_page.throws[1:]))
    for form in (blank, Form()):
        made = ready(form, key, RACK, on_profile={""})
        assert made.form is form
        assert "give its ball mass and speed first" in made.said


@pytest.mark.parametrize("key", READY)
def test_what_is_made_can_be_kept(demo_page, key):
    made = ready(demo_page, key, RACK, on_profile={""}).form
    assert made.reference == made.throws[0].key


@pytest.mark.parametrize("key", [None, 3, "everything", ["rack"]])
def test_an_unknown_choice_changes_nothing(demo_page, key):
    assert ready(demo_page, key, RACK, on_profile={""}).form is demo_page


def joined(form):
    return replace(form, other=measures_of(load_demo().athletes[1]))


def test_two_athletes_with_the_same_ball_throw_it_at_one_speed_and_the_second_at_full_effort_too(demo_page):
    made = ready(joined(demo_page), "throwers", RACK, on_profile={"", OTHER})
    assert listed(made.form) == [("145", "speed", "33.0"), ("145", "speed", "33.0"), ("145", "profile", "100")]
    assert [throw.thrower for throw in made.form.throws] == ["", OTHER, OTHER]
    assert made.said == (
        "Two athletes with the same ball: at the same speed, and at the second thrower’s own full speed."
    )


def test_a_second_thrower_without_readings_throws_at_the_references_speed_alone(demo_page):
    made = ready(joined(demo_page), "throwers", RACK, on_profile={""})
    assert [(throw.thrower, throw.typed) for throw in made.form.throws] == [("", "33.0"), (OTHER, "33.0")]


def test_without_a_second_thrower_it_is_said_where_to_enter_one(demo_page):
    made = ready(demo_page, "throwers", RACK, on_profile={""})
    assert made.form is demo_page
    assert made.said == "Say first of one throw that another athlete throws it."


def test_where_the_second_throws_the_reference_other_balls_are_the_seconds_too(demo_page):
    by_other = replace(demo_page.throws[0], by=OTHER)
    two = replace(joined(demo_page), throws=(by_other, *demo_page.throws[1:]))
    made = ready(two, "neighbours", RACK, on_profile={""})
    assert {throw.thrower for throw in made.form.throws} == {OTHER}
    assert made.said.endswith("all at the same speed.")  # the readings are those of the first
