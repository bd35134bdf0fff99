"""How limits and numbers are written, and what the numbers rest on."""

import pytest

from app.pages.start import words
from app.pages.start.headline import sentence
from app.pages.start.limits import ABSOLUTE
from app.units.systems import CUSTOMARY
from model.ceilings import BOUNDS, Amount
from model.start_list import LimitKept
from tests.app.pages.start.conftest import NONE


def test_a_limit_in_torque_is_told_with_the_spread_between_laboratories(start):
    answer = start(elbow_peak="60", elbow_peak_in=ABSOLUTE)
    said = dict(words.limits_words(answer))
    # ±25 % of 60 N·m (DESIGN: adult group means run from 64 to 90 N·m in the same units)
    assert said["Elbow, peak at most"] == "60.0 N·m; by laboratory 45.0 N·m to 75.0 N·m"
    assert said["Shoulder, peak at most"] == "80 %"
    assert words.between_words("least_loaded", Amount(0.1, absolute=True)) == ""


def test_speeds_that_rest_on_the_published_spread_say_so(start):
    assert words.prior_words(start()) == ""
    assert words.prior_words(start(read=False)).startswith("No radar readings: how much this athlete slows down")
    before = words.prior_words(start("W06"))
    assert "taken as that of before the injury" in before


def test_the_notes_name_the_reference_the_certainty_and_the_source_of_asked_effort(start):
    said = " ".join(words.notes(start("W06")))
    for part in (
        "from before an injury, 2025-09-02",
        "certainty of 90 %",
        "Laboratories differ by ±25 % and more for similar throws",
        "Fiegen 2023",
        "without lift from spin",
    ):
        assert part in said
    assert "±10 %" in " ".join(words.notes(start(base="reference", rows={"reference": {"kind": "estimated"}})))


def test_no_word_passes_a_verdict(start):
    said = " ".join([*words.notes(start()), *sentence(start(aim="own")), words.prior_words(start("W06"))]).lower()
    for word in ("safe", "danger", "good", "bad ", "risk"):
        assert word not in said


def test_what_is_not_limited_is_listed_after_the_limits(start):
    assert words.limits_words(start())[-1] == (
        "Not limited",
        "area, least time loaded, most time loaded, release speed",
    )
    every = dict.fromkeys(BOUNDS, "90") | {"speed": "30"}
    assert [label for label, _ in words.limits_words(start(**every))].count("Not limited") == 0
    assert [label for label, _ in words.limits_words(start(**NONE))] == ["Not limited"]


def test_a_limit_is_named_by_its_number_and_which_way_it_limits(start):
    answer = start(most_loaded="140", least_loaded="110", least_loaded_in="share", speed="30")
    assert words.limit_words("elbow_peak", answer) == "elbow peak at most 80 %"
    assert words.limit_words("most_loaded", answer) == "time loaded at most 140 %"
    assert words.limit_words("least_loaded", answer) == "time loaded at least 110 %"
    assert words.limit_words("speed", answer) == "release speed at most 30.0 m/s"
    assert (
        words.amount_words("elbow_peak", Amount(0.8), answer)
        == "80 % of the reference (full speed by the readings, 2026-01-13)"
    )


@pytest.mark.parametrize("likely", [0.301, 0.355, 0.3999, 0.4])
@pytest.mark.parametrize("bound", [0.3901, 0.3999, 0.4, 0.4000004])
def test_neither_the_likely_value_nor_the_certain_bound_is_written_beyond_the_limit(start, likely, bound):
    kept = LimitKept("elbow_peak", Amount(0.40), min(likely, bound), bound)
    near, far = (float(text.removesuffix(" %")) for text in words.pair_words(kept, start()))
    assert near <= far <= 40.0
    assert 100 * bound - 1e-3 <= far  # and the bound is not told lower than it is


@pytest.mark.parametrize("bound", [1.25, 1.2512, 1.37])
def test_of_a_least_amount_neither_is_written_below_it(start, bound):
    kept = LimitKept("least_loaded", Amount(1.25), max(1.31, bound), bound)
    near, far = (float(text.removesuffix(" %")) for text in words.pair_words(kept, start()))
    assert 125.0 <= far <= near
    assert far <= 100 * bound + 1e-3


def test_a_limit_with_decimals_is_not_rounded_up(start):
    kept = LimitKept("elbow_peak", Amount(0.125), 0.121, 0.125)
    assert words.pair_words(kept, start()) == ("12 %", "12.5 %")
    assert words.pair_words(LimitKept("elbow_peak", Amount(0.055), 0.0512, 0.0548), start()) == ("5.1 %", "5.5 %")


def test_an_absolute_bound_keeps_its_unit_and_a_speed_the_readers(start):
    kept = LimitKept("rise_rate", Amount(305.0, absolute=True), 214.2, 290.4)
    assert words.pair_words(kept, start()) == ("214 N·m/s", "290 N·m/s")
    speed = LimitKept("speed", Amount(8.0, absolute=True), 7.8, 8.0)
    assert words.pair_words(speed, start()) == ("7.8 m/s", "8.0 m/s")
    assert words.pair_words(speed, start(system=CUSTOMARY))[1] == "17.9 mph"  # 8 / 0.44704


def test_every_limit_and_end_has_its_few_words():
    assert words.EDGES.keys() == {*BOUNDS, "full", "slowest"}
