"""What the buttons do, what is said about it, and what of it can be put back."""

import json
from dataclasses import replace

import pytest

from app.demo import load_demo
from app.pages.compare.changes import added, held_otherwise, moved, put_back
from app.show.throw_form import empty_form, to_json
from app.show.throw_form_change import opening

DEMO = load_demo()


def test_the_demo_opens_with_its_first_thrower_and_without_it_with_an_empty_form():
    assert opening(None, DEMO, on_demo=True).form.athlete["code"] == "W01"
    assert opening(None, DEMO, on_demo=False).form == empty_form()


def test_what_was_kept_opens_again(demo_page):
    assert opening(to_json(demo_page), DEMO, on_demo=False).form == demo_page


def test_a_broken_kept_form_opens_the_demo_and_says_so():
    change = opening({"version": 1, "throws": "?"}, DEMO, on_demo=True)
    assert change.form.athlete["code"] == "W01"
    assert change.notice == "What was kept from last time could not be read: the demo data are shown instead."


def test_a_broken_kept_form_without_the_demo_opens_empty_and_says_so():
    change = opening("[]", DEMO, on_demo=False)
    assert change.form == empty_form()
    assert change.notice == "What was kept from last time could not be read: the form starts empty."


def test_copying_goes_to_the_speed_of_the_copy(demo_page):
    change = moved(demo_page, "t2", "copy")
    key = change.form.throws[2].key
    assert json.loads(change.focus) == {"type": "compare-throw", "throw": key, "name": "speed_m_s"}


def test_removing_can_be_put_back_and_goes_to_the_next_throw(demo_page):
    change = moved(demo_page, "t2", "remove")
    assert change.notice == "Throw 2 removed."
    assert change.undo
    assert json.loads(change.focus) == {"type": "compare-move", "throw": "t3", "move": "remove"}
    assert put_back(change.form, to_json(demo_page)).form == demo_page


def test_removing_the_last_line_goes_to_the_one_before_and_the_only_one_nowhere(demo_page):
    assert json.loads(moved(demo_page, "t4", "remove").focus)["throw"] == "t3"
    alone = demo_page
    for key in ("t2", "t3", "t4"):
        alone = moved(alone, key, "remove").form
    assert moved(alone, "t1", "remove").focus == ""


def test_moving_keeps_the_hand_on_a_button_that_still_works(demo_page):
    up = moved(demo_page, "t3", "up")
    assert json.loads(up.focus) == {"type": "compare-move", "throw": "t3", "move": "up"}
    top = moved(up.form, "t3", "up")
    assert top.form.throws[0].key == "t3"
    assert json.loads(top.focus) == {"type": "compare-move", "throw": "t3", "move": "down"}


def test_an_unknown_throw_or_move_changes_nothing(demo_page):
    assert moved(demo_page, "t99", "remove").form is demo_page
    assert moved(demo_page, "t1", "explode").form == demo_page


def test_a_ball_of_the_rack_is_added_and_only_its_speed_is_left_to_type(demo_page):
    change = added(demo_page, DEMO, "6")
    assert change.form.throws[-1].ball_mass_g == "470"
    assert json.loads(change.focus)["name"] == "speed_m_s"


@pytest.mark.parametrize("rack", ["8", "-1", "x", 3, [], {}, True])
def test_a_ball_that_is_not_on_the_rack_changes_nothing(demo_page, rack):
    assert added(demo_page, DEMO, rack).form is demo_page


def test_a_full_list_says_so(demo_page):
    full = demo_page
    while len(full.throws) < 8:
        full = added(full, DEMO).form
    change = added(full, DEMO)
    assert change.form is full
    assert change.notice == "The list is full: 8 throws. Remove one to add another."


def test_nothing_to_put_back_changes_nothing(demo_page):
    assert put_back(demo_page, None).form is demo_page


def test_another_hold_is_chosen_and_the_focus_stays_on_it(demo_page):
    chosen = tuple(replace(throw, hold="clock") if throw.key == "t2" else throw for throw in demo_page.throws)
    made = held_otherwise(replace(demo_page, throws=chosen), "t2", {})
    assert made.form.throws[1].clock_percent
    assert made.form.throws[0] == demo_page.throws[0]
    assert made.focus == '{"name":"hold","throw":"t2","type":"compare-throw"}'
