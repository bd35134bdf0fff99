"""Who throws: filled in, joined by a second, measured anew."""

import re
from dataclasses import replace

import pytest

from app.demo import load_demo
from app.pages.compare.changes import emptied, held_otherwise, put_back
from app.pages.compare.throwers import exchanged, filled, joined, released_as_before, remeasured, without_second
from app.show.invented import invented_throwers, is_invented
from app.show.throw_form import OTHER, demo_form, empty_form, to_json

DEMO = load_demo()


def test_another_demo_thrower_replaces_all_and_can_be_put_back(demo_page):
    change = filled(demo_page, DEMO, "W05")
    assert change.form.athlete["sex"] == "female"
    assert change.undo
    assert put_back(change.form, to_json(demo_page)).form == demo_page


def test_filling_an_untouched_form_has_nothing_to_put_back():
    assert not filled(empty_form(), DEMO, "W05").undo
    assert not emptied(empty_form()).undo


@pytest.mark.parametrize("code", [None, "W99", 5, [], {"a": 1}])
def test_an_unknown_thrower_changes_nothing(demo_page, code):
    assert filled(demo_page, DEMO, code).form is demo_page


def test_an_athlete_is_called_invented_only_while_the_measures_are_those_of_the_demo_data():
    demo = load_demo()
    form = demo_form(demo, demo.athletes[0])
    assert is_invented(form, demo)
    assert not is_invented(replace(form, athlete={**form.athlete, "stature_cm": "181"}), demo)
    assert not is_invented(empty_form(), demo)


def remeasured_to(form, stature_cm, kept=None, before=None):
    changed = replace(form, athlete={**form.athlete, "stature_cm": stature_cm})
    return remeasured(changed, to_json(form) if kept is None else kept, before)


def test_a_changed_measure_keeps_the_clocks_says_what_became_of_the_reference_and_offers_the_speeds(demo_page):
    made = remeasured_to(demo_page, "192.15")
    assert {throw.held for throw in made.form.throws} == {"clock"}
    assert made.form.athlete["stature_cm"] == "192.15"
    # 5 % taller: 33.0 * 1.05 = 34.65, less some hundredths because the ball did not grow with the arm
    assert re.search(r"the reference throw at 34\.[56] instead of 33\.0 m/s\.$", made.notice)
    assert made.undo
    assert made.speeds
    assert made.before == demo_page


def test_measures_changed_twice_can_still_go_back_to_the_first_speeds(demo_page):
    first = remeasured_to(demo_page, "190")
    again = remeasured_to(first.form, "195", before=to_json(first.before))
    assert again.form.throws == first.form.throws
    assert again.before == demo_page
    back = released_as_before(again.form, to_json(again.before))
    assert back.form.throws == demo_page.throws
    assert back.form.athlete["stature_cm"] == "195"


@pytest.mark.parametrize("kept", [None, {"version": 9}, "x"])
def test_without_a_form_from_before_no_clock_is_known(demo_page, kept):
    assert remeasured(demo_page, kept, None) is None


def test_fields_that_are_made_anew_change_nothing(demo_page):
    assert remeasured(demo_page, to_json(demo_page), None) is None
    assert held_otherwise(demo_page, "t2", {}) is None


def test_a_measure_changed_while_all_clocks_were_chosen_by_hand_offers_no_speeds(demo_page):
    clocks = replace(demo_page, throws=tuple(throw.holding("clock", "90") for throw in demo_page.throws))
    assert remeasured_to(clocks, "190") is None
    assert remeasured_to(clocks, "190", before=to_json(clocks)) is None


def test_speeds_that_were_not_kept_cannot_come_back(demo_page):
    assert released_as_before(demo_page, None).form is demo_page


@pytest.fixture
def two(demo_page):
    """W01's throws, and the last two of them by the left-hander W02."""
    form = joined(demo_page, DEMO, "W02").form
    throws = (*form.throws[:-2], *(replace(throw, by=OTHER) for throw in form.throws[-2:]))
    return replace(form, throws=throws)


def test_a_second_thrower_joins_and_nothing_else_changes(demo_page):
    change = joined(demo_page, DEMO, "W02")
    assert change.form.other["code"] == "W02"
    assert replace(change.form, other=demo_page.other) == demo_page
    assert change.notice == "The second thrower is W02, left-hander."
    assert change.undo
    assert joined(demo_page, DEMO, "<b>").form is demo_page


def test_a_second_thrower_goes_with_their_throws(two):
    change = without_second(two)
    assert not change.form.two
    assert change.form.throws == two.throws[:-2]
    assert change.undo


def test_the_reference_passes_on_where_it_was_the_seconds(two):
    theirs = replace(two, reference=two.throws[-1].key, headline=two.throws[-2].key)
    change = without_second(theirs)
    assert change.form.reference == two.throws[0].key
    assert change.form.headline == ""


def test_both_throwers_are_called_invented_each_by_their_own_measures(two):
    assert invented_throwers(two, DEMO) == {"", OTHER}
    assert invented_throwers(replace(two, other={**two.other, "stature_cm": "170"}), DEMO) == {""}
    assert invented_throwers(exchanged(replace(two, athlete=empty_form().athlete)).form, DEMO) == {""}


def test_a_changed_measure_of_the_second_keeps_the_clocks_of_their_throws_alone(two):
    changed = replace(two, other={**two.other, "stature_cm": "195.3"})  # 186 cm and 5 % more
    made = remeasured(changed, to_json(two), None)
    assert [throw.held for throw in made.form.throws] == [*["speed"] * (len(two.throws) - 2), "clock", "clock"]
    assert made.speeds
    assert made.before == two


def test_another_second_thrower_brings_no_clock_along(two):
    other = {**two.other, "stature_cm": "195.3", "code": "X9"}
    assert remeasured(replace(two, other=other), to_json(two), None) is None


def test_the_first_measure_of_a_second_thrower_lets_every_throw_say_whose_it_is(demo_page):
    changed = replace(demo_page, other={**demo_page.other, "age_years": "20"})
    assert remeasured(changed, to_json(demo_page), None).form is changed
