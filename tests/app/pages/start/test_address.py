"""The athlete in the address: whose arm it asks for, also with odd characters and for nobody."""

import pytest

from app.demo import load_demo
from app.pages.start.address import arm_of, code_in, query_of, unknown_code, who_of
from app.show.throw_form import empty_form, to_json
from app.show.whose import OF_COMPARE

ODD = ("A7", "Ä/1 & <2>?#", "50 % + 1", "a=b&athlete=c", "W01")


@pytest.mark.parametrize("code", ODD)
def test_an_address_that_was_written_is_read_back(code):
    assert code_in(query_of(code)) == code


@pytest.mark.parametrize("code", ODD)
def test_it_is_one_word_that_no_address_takes_apart(code):
    assert query_of(code).count("&") == query_of(code).count("#") == 0
    assert query_of(code).count("=") == query_of(code).count("?") == 1


@pytest.mark.parametrize("query", [None, "", "?", "?athlete=", "?athlete=%20", "?who=W02", 3, ["?athlete=W02"]])
def test_an_address_without_an_athlete_asks_for_none(query):
    assert code_in(query) == ""
    assert query_of("") == ""


def named(code):
    form = empty_form()
    return {"compare": to_json(form) | {"athlete": dict(form.athlete) | {"code": code}}}


def test_the_athlete_of_compare_goes_before_an_invented_thrower_and_nobody_is_told_from_both():
    demo = load_demo()
    assert who_of("A7", named(" A7 "), demo, False) == OF_COMPARE
    assert who_of("W04", named("W04"), demo, False) == OF_COMPARE
    assert who_of("W04", named("A7"), demo, False) == "W04"
    assert unknown_code(who_of("A8", named("A7"), demo, True)) == "A8"
    assert unknown_code("W04") == unknown_code(OF_COMPARE) == ""


def test_of_nobody_there_are_no_measures_and_no_readings_even_on_the_demo_data():
    demo = load_demo()
    arm = arm_of(who_of("A8", None, demo, True), None, demo, True)
    assert not any(arm.compared.athlete.values())
    assert arm.profile.untouched
    assert arm_of("W04", None, demo, True).compared.athlete["code"] == "W04"
