"""Refusals name the field, what was given and what is accepted."""

import math

import numpy as np
import pytest

from model.checks import InputError, Limit, check_choice, check_number

LIMIT = Limit(0.9, 2.3, "m")


@pytest.mark.parametrize("given", [0.9, 2.3, 1, np.float64(1.5)])
def test_a_number_inside_its_limit_is_returned(given):
    assert check_number("stature_m", given, LIMIT) == float(given)


@pytest.mark.parametrize(
    "given",
    [
        0.89,
        2.31,
        math.nan,
        math.inf,
        -math.inf,
        10**400,
        "1.8",
        b"1.8",
        bytearray(b"1.8"),
        None,
        True,
        np.True_,
        [1.8],
        1j,
    ],
)
def test_anything_else_is_refused(given):
    with pytest.raises(InputError) as refused:
        check_number("stature_m", given, LIMIT)
    assert refused.value.field == "stature_m"
    assert refused.value.given is given
    assert str(refused.value).startswith("stature_m: ")
    assert str(refused.value).endswith("accepted: a number from 0.9 to 2.3 m")


def test_a_long_value_is_cut_in_the_message():
    with pytest.raises(InputError) as refused:
        check_number("stature_m", "9" * 10_000, LIMIT)
    assert len(str(refused.value)) < 200


@pytest.mark.parametrize("given", ["Male", "", None, 3, ["male"]])
def test_a_word_that_is_no_choice_is_refused(given):
    with pytest.raises(InputError, match="accepted: male or female"):
        check_choice("sex", given, ("male", "female"))
