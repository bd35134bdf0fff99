"""Throws as they are typed."""

from app.show.throw_form import OTHER, Form, ThrowForm
from tests.app.typed_forms import copy_throw, empty_form


def test_a_form_with_one_typed_value_is_no_longer_untouched():
    assert empty_form().untouched
    assert not Form(throws=(ThrowForm("t1", ball_mass_g="145"),)).untouched


def test_a_throw_held_otherwise_has_the_number_of_its_hold_alone():
    throw = ThrowForm("t1", "145", "73", "33").holding("clock", "95")
    assert (throw.held, throw.typed, throw.speed_m_s) == ("clock", "95", "")


def test_a_throw_is_by_the_first_or_by_the_second_thrower():
    assert ThrowForm("t1", by=OTHER).thrower == OTHER
    assert ThrowForm("t1", by="somebody").thrower == ""


def test_a_throw_is_found_by_its_key():
    form = copy_throw(empty_form(), "t1")
    assert [form.place(key) for key in ("t1", "t3", "t2", "t9")] == [0, 1, 2, -1]
