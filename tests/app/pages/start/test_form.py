"""The form of limits, kept by the browser and read back with distrust."""

from dataclasses import replace

import pytest

from app.pages.start.form import (
    ABSOLUTE,
    AIMS,
    COUNTED,
    EXAMPLE,
    LIMITS,
    NAMES,
    StartForm,
    from_json,
    is_example,
    read_form,
    to_json,
    with_example,
    without_limits,
)
from app.show.throw_form import FormError
from model.ceilings import BOUNDS
from model.start_list import AIMS as MODEL_AIMS

FULL = StartForm(who="W02", speed="70 mph", braking="", left_out="95 470", certainty_percent="80", axis="speed")


def test_what_is_kept_comes_back_as_it_was():
    assert from_json(to_json(FULL)) == FULL


@pytest.mark.parametrize(
    "kept",
    [
        None,
        3,
        "x",
        [],
        {},
        {"version": 99},
        to_json(FULL) | {"more": ""},
        to_json(FULL) | {"speed": 3},
        to_json(FULL) | {"version": 1},  # kept before the area was a limit
    ],
)
def test_anything_else_is_refused(kept):
    with pytest.raises(FormError):
        from_json(kept)


def test_whatever_the_browser_sends_the_result_is_a_form():
    made = read_form({name: ["x"] for name in NAMES} | {"speed": "9" * 5000})
    assert made.elbow_peak == ""
    assert len(made.speed) == 200


def test_the_limits_are_those_of_the_model_in_its_order():
    assert tuple(BOUNDS) == LIMITS
    assert (*BOUNDS, "wanted_peak") == COUNTED


def test_the_limits_are_emptied_or_set_to_the_example_and_nothing_else_changes():
    typed = replace(FULL, rise_rate="300", rise_rate_in=ABSOLUTE)
    bare = without_limits(typed)
    assert not any(getattr(bare, name) for name in LIMITS)
    assert (bare.rise_rate_in, bare.who, bare.left_out) == (ABSOLUTE, "W02", "95 470")
    assert is_example(EXAMPLE)
    assert not is_example(bare)
    example = with_example(bare)
    assert is_example(example)
    assert (example.who, example.certainty_percent) == ("W02", "80")


def test_no_aim_is_chosen_to_begin_with_and_each_of_the_model_has_its_words():
    assert EXAMPLE.aim == ""
    assert tuple(AIMS) == MODEL_AIMS
    assert (EXAMPLE.area, LIMITS.index("area")) == ("", LIMITS.index("rise_rate") + 1)
