"""The profile form goes to the browser and back as it was typed, and nothing else is taken for one."""

from dataclasses import replace

import pytest

from app.demo import load_demo
from app.show.profile_form import (
    MOST_BALLS,
    BallRow,
    Cell,
    ProfileForm,
    add_ball,
    from_json,
    rack_form,
    remove_ball,
    to_json,
    without_readings,
)
from app.show.throw_form import FormError

TYPED = ProfileForm(
    (BallRow("b1", " 145 ", "73", (Cell("33,1", "2026-01-13", "75"), Cell(), Cell("abc"))), BallRow("b2", "275")),
    own_speed_m_s="x",
    cap_share="80 %",
)


def test_a_form_comes_back_as_it_was_typed():
    assert from_json(to_json(TYPED)) == TYPED


def test_empty_cells_after_the_last_reading_are_not_kept():
    row = BallRow("b1", "145", "73", (Cell("33"), Cell(), Cell()))
    assert from_json(to_json(ProfileForm((row,)))).rows[0].cells == (Cell("33"),)


@pytest.mark.parametrize(
    "broken",
    [
        None,
        [],
        "x",
        {},
        {**to_json(TYPED), "version": 0},
        {**to_json(TYPED), "more": 1},
        {**to_json(TYPED), "rows": "no"},
        {**to_json(TYPED), "rows": [{**to_json(TYPED)["rows"][0], "key": "x1"}]},
        {**to_json(TYPED), "rows": [to_json(TYPED)["rows"][0]] * 2},
        {**to_json(TYPED), "rows": [{**to_json(TYPED)["rows"][0], "cells": [{"speed": 3, "date": "", "effort": ""}]}]},
        {**to_json(TYPED), "basis": 3},
        {**to_json(TYPED), "basis": "x" * 5000},
    ],
)
def test_anything_else_is_refused(broken):
    with pytest.raises(FormError):
        from_json(broken)


def test_a_rack_becomes_a_row_for_each_ball_from_light_to_heavy():
    rows = rack_form(load_demo().rack).rows
    assert [row.mass_g for row in rows] == ["95", "125", "145", "160", "210", "275", "360", "470"]
    assert len({row.key for row in rows}) == 8


def test_balls_are_added_up_to_the_most_and_never_under_a_key_in_use():
    form = ProfileForm((BallRow("b7"),))
    assert add_ball(form).rows[-1].key == "b8"
    full = ProfileForm(tuple(BallRow(f"b{i}") for i in range(1, MOST_BALLS + 1)))
    assert add_ball(full) is full


def test_a_removed_ball_is_no_longer_the_one_of_the_distance():
    form = replace(TYPED, throw_ball="b1")
    assert remove_ball(form, "b1").throw_ball == ""
    assert remove_ball(form, "b2").throw_ball == "b1"


def test_clearing_takes_the_readings_and_leaves_balls_and_choices():
    cleared = without_readings(TYPED)
    assert cleared.untouched
    assert [row.mass_g for row in cleared.rows] == [" 145 ", "275"]
    assert cleared.cap_share == "80 %"
