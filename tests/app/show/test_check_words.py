"""The check table in words: print as it is printed, distances with their sign, and no agreement that proves nothing."""

from dataclasses import replace
from math import inf, nan

import pytest

from app.show.check_words import (
    agreement_words,
    cut_off_words,
    distance_words,
    no_proof_words,
    printed_words,
    reference_words,
    spread_words,
    standing_words,
    thrower_words,
    value_words,
    what_words,
)
from app.units.systems import CUSTOMARY
from model.check_table import check_table

ROWS = check_table()
NOTHING = {"printed": nan, "spread": nan, "low": nan, "high": nan, "testable": True}
YOUTH = next(row for row in ROWS if row.sources[0] == "3-ball-mass-10")


def row(**changes):
    return replace(ROWS[0], **(NOTHING | changes))


@pytest.mark.parametrize(
    ("changes", "printed", "distance", "standing"),
    [
        ({"printed": 79.2, "spread": 16.9, "seen": 96.1}, "79.2 ± 16.9", "+1.0 SD", "agrees: within 1 SD"),
        ({"printed": 900.0, "spread": 100.0, "seen": 1300.0}, "900 ± 100", "+4.0 SD", "does not agree: beyond 2 SD"),
        ({"low": 25.0, "high": 33.0, "seen": 40.0}, "25 to 33", "", "does not agree: not in the printed range"),
        ({"low": 0.0, "high": inf, "seen": 3.0}, "rises", "", "agrees: in the printed direction"),
        ({"low": -inf, "high": 0.0, "seen": 3.0}, "falls", "", "does not agree: not in the printed direction"),
        ({"low": -inf, "high": 3.0, "seen": 1.0}, "below 3", "", "agrees: in the printed direction"),
        ({"printed": -250.8, "seen": -200.64}, "\u2212250.8", "\u221220 %", "agrees: within a quarter off"),
        ({"printed": 26.0, "seen": 39.0}, "26", "+50 %", "does not agree: more than a quarter off"),
        ({"printed": 400.0, "seen": 95.0, "testable": False}, "400", "\u221276 %", "cannot be tested"),
    ],
)
def test_a_row_in_words(changes, printed, distance, standing):
    found = row(**changes)
    assert (printed_words(found), distance_words(found), standing_words(found)) == (printed, distance, standing)


@pytest.mark.parametrize(
    ("value", "text"), [(80.74, "80.7"), (1333.2, "1\u202f333"), (0.407, "0.41"), (-5.79, "\u22125.79"), (nan, "")]
)
def test_a_computed_number_has_some_three_digits(value, text):
    assert value_words(value) == text


def test_two_balls_are_named_in_the_readers_units():
    assert what_words(YOUTH) == "varus torque, 142 against 113 g"
    assert what_words(YOUTH, CUSTOMARY) == "varus torque, 5.01 against 3.99 oz"  # 142 / 28.35, 113 / 28.35
    assert what_words(ROWS[0], CUSTOMARY) == "varus torque"


def test_a_throw_is_told_whole_and_the_reference_throw_by_its_name():
    assert thrower_words(ROWS[0]) == "the reference throw"
    assert reference_words() == "The reference throw: male, 25 years, 188 cm, 90 kg; 145 g at 37 m/s."
    told = thrower_words(YOUTH)
    assert told.startswith("male, 11.1 years, 148 cm, 41 kg; 142 g at ")
    assert told.endswith(" against 113 g at 24 m/s; size, speed and exponent p = 0.25 taken")


def test_a_cut_off_says_how_it_is_known():
    assert cut_off_words(row(cut_off_hz=13.4, cut_off_known=True)) == "13.4 Hz, recalled"
    assert cut_off_words(row(cut_off_hz=13.4, cut_off_known=False)) == "13.4 Hz, usual"


def test_what_was_tuned_to_is_no_proof_and_counted_apart():
    assert "no proof" in no_proof_words(row(calibrated=True))
    assert "band" in no_proof_words(row(calibrated=False, in_band=True))
    assert no_proof_words(row(calibrated=False, in_band=False)) == ""
    near, far = {"printed": 10.0, "spread": 1.0, "seen": 10.5}, {"printed": 10.0, "spread": 1.0, "seen": 15.0}
    some = [
        row(**near, calibrated=True),
        row(**near, calibrated=False),
        row(**far, calibrated=False),
        row(low=1.0, high=2.0, seen=3.0, calibrated=False),
    ]
    assert spread_words(some).startswith("Of 3 values printed with a spread, 2 lie within 1 SD of print, 0 between")
    assert agreement_words(some) == (
        "Of all 4, 2 agree and 2 do not. Of the 3 that nothing was tuned to, so that agreement says something, 1 agree "
        "and 2 do not."
    )
