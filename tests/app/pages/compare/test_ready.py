"""Ready comparisons: made from the reference throw and the rack, and what is said where they cannot be made."""

from dataclasses import replace

import pytest

from app.pages.compare.ready import NO_REFERENCE, NO_SECOND, READY, ready
from app.show.listed_throw import OTHER, ListedThrow
from model.ball import Ball
from tests.app.pages.compare.conftest import THROWN

RACK = tuple(Ball(grams / 1000.0) for grams in (95, 125, 145, 160, 210, 275, 360, 470))
OWN = THROWN[0]  # 145 g at 33 m/s
SECOND = {OTHER: "uid of the second"}


def made_of(key, own=OWN, rack=RACK, on_profile=frozenset({""}), others=SECOND):
    return ready(own, key, rack, on_profile, others)


def listed(made) -> list[tuple[float, str, float]]:
    """Ball (g), hold and what it is held at, of what stands behind the reference."""
    return [(round(1000 * one["mass_kg"], 6), one["hold"], one["number"]) for one in made.throws]


def test_the_neighbours_are_the_next_lighter_and_the_next_heavier_ball_at_full_speed():
    made = made_of("neighbours")
    assert listed(made) == [(125, "profile", 1.0), (160, "profile", 1.0)]
    assert made.said == "One ball heavier, one lighter, each at full speed by the profile."


def test_without_readings_other_balls_get_the_references_speed_and_it_is_said():
    made = made_of("neighbours", on_profile=())
    assert listed(made) == [(125, "speed", 33.0), (160, "speed", 33.0)]
    assert made.said.endswith("all at the same speed.")


def test_the_whole_rack_stands_after_the_reference_and_the_own_ball_is_not_there_twice():
    assert [mass for mass, _, _ in listed(made_of("rack"))] == [95, 125, 160, 210, 275, 360, 470]


def test_a_rack_that_does_not_fit_says_how_many_were_left_out():
    large = tuple(Ball(grams / 1000.0) for grams in range(100, 220, 10))  # twelve, none of them 145 g
    made = made_of("rack", rack=large)
    assert len(made.throws) == 7
    assert made.said.endswith("5 of the rack did not fit.")


def test_one_ball_at_three_speeds_goes_down_by_tenths():
    assert listed(made_of("speeds")) == [(145, "speed", 29.7), (145, "speed", 26.4)]


def test_a_reference_at_its_clock_is_slowed_by_its_clock():
    held = replace(OWN, hold="clock", value=0.9)
    assert [number for _, _, number in listed(made_of("speeds", own=held))] == [0.81, 0.72]


def test_a_speed_below_what_is_accepted_is_left_to_be_typed():
    assert [number for _, _, number in listed(made_of("speeds", own=replace(OWN, value=1.0)))] == [None, None]


def test_where_the_rack_has_no_neighbour_a_ball_a_quarter_away_is_taken():
    # 145 / 1.25 = 116 and 145 * 1.25 = 181.25, to the nearest 5 g
    assert [mass for mass, _, _ in listed(made_of("neighbours", rack=RACK[2:3]))] == [115, 180]


def test_a_rack_of_the_own_ball_alone_says_that_there_is_no_other():
    made = made_of("rack", rack=RACK[2:3])
    assert (made.throws, made.said) == ((), "There is no other ball: add one on the Athletes page.")


@pytest.mark.parametrize("key", READY)
@pytest.mark.parametrize("own", [None, ListedThrow("t1"), ListedThrow("t1", ball=Ball(0.145))])
def test_without_a_reference_throw_it_says_what_is_missing_and_changes_nothing(key, own):
    made = made_of(key, own=own)
    assert (made.throws, made.said) == ((), NO_REFERENCE)


@pytest.mark.parametrize("key", [None, 3, "everything", ["rack"]])
def test_an_unknown_choice_changes_nothing(key):
    assert made_of(key).throws == ()


def test_two_athletes_with_the_same_ball_throw_it_at_one_speed_and_the_second_at_full_effort_too():
    made = made_of("throwers", on_profile={"", OTHER})
    assert listed(made) == [(145, "speed", 33.0), (145, "profile", 1.0)]
    assert [one["thrower"] for one in made.throws] == [SECOND[OTHER]] * 2
    assert made.said == (
        "Two athletes with the same ball: at the same speed, and at the second thrower’s own full speed."
    )


def test_a_second_thrower_without_readings_throws_at_the_references_speed_alone():
    assert listed(made_of("throwers")) == [(145, "speed", 33.0)]


def test_without_a_second_thrower_it_is_said_where_to_enter_one():
    made = made_of("throwers", others={})
    assert (made.throws, made.said) == ((), NO_SECOND)


def test_where_the_second_throws_the_reference_other_balls_are_the_seconds_too():
    made = made_of("neighbours", own=replace(OWN, thrower=OTHER))
    assert {one["thrower"] for one in made.throws} == {SECOND[OTHER]}
    assert made.said.endswith("all at the same speed.")  # the readings are those of the first
    back = made_of("throwers", own=replace(OWN, thrower=OTHER))
    assert "thrower" not in back.throws[0]
