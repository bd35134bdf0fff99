"""Whose arm a page speaks of, from what the browser kept."""

from datetime import date

import pytest

from app.demo import load_demo
from app.show.kept import form_for, write_kept
from app.show.profile_form import ProfileForm
from app.show.subject import case_of
from app.show.throw_form import demo_form, empty_form, to_json
from app.show.whose import ALL_MEASURES, OF_COMPARE, kept_athlete, measures_missing, people, who_words, whose

DEMO = load_demo()
W01, W02 = (demo_form(DEMO, DEMO.athlete(code)) for code in ("W01", "W02"))
KEPT = {"compare": to_json(W02), "athlete": write_kept({}, "W02", form_for({}, "W03", DEMO, True))}


@pytest.mark.parametrize("read", [None, "x", 3, [], {}])
def test_where_nothing_is_kept_it_is_as_the_other_pages_would_open(read):
    assert kept_athlete(read, DEMO, True).compared == W01
    empty = kept_athlete(read, DEMO, False)
    assert (empty.compared, empty.profile, empty.unread) == (empty_form(), ProfileForm(), False)


def test_the_athlete_of_compare_is_read_with_the_readings_kept_under_its_code():
    found = whose(OF_COMPARE, KEPT, DEMO, False)
    assert (found.compared, found.profile, found.unread) == (W02, form_for({}, "W03", DEMO, True), False)
    assert whose("nobody", KEPT, DEMO, False) == found


def test_a_form_changed_on_the_page_goes_before_the_kept_one_unless_it_cannot_be_read():
    assert kept_athlete(KEPT, DEMO, False, now=to_json(W01)).compared == W01
    assert kept_athlete(KEPT, DEMO, False, now={"version": 99}).compared == W02


@pytest.mark.parametrize("broken", [KEPT | {"compare": {"version": 99}}, KEPT | {"athlete": "x"}])
def test_what_cannot_be_read_is_told_unless_an_invented_thrower_stands_in(broken):
    assert whose(OF_COMPARE, broken, DEMO, False).unread
    stands_in = whose("W03", broken, DEMO, False)
    assert (stands_in.compared.athlete["code"], stands_in.unread) == ("W03", False)


def test_everybody_invented_can_be_chosen_and_the_athlete_of_compare_comes_first():
    values = [one["value"] for one in people(DEMO)]
    assert values == [OF_COMPARE, *(athlete.athlete for athlete in DEMO.athletes)]


def test_a_line_says_who_throws_or_which_measures_are_missing():
    case = case_of(W01, ProfileForm(), date(2026, 3, 1))
    assert who_words(case) == "W01 · male · 20 years · 183 cm · 84 kg"
    assert measures_missing(case, {}) == ""
    nobody = case_of(empty_form(), ProfileForm(), date(2026, 3, 1))
    assert who_words(nobody) == ""
    assert measures_missing(nobody, {}) == ALL_MEASURES
    assert measures_missing(nobody, {"stature_cm": "Stature: nothing given", "code": "too long"}) == "stature"
