"""Limits and choices as the records have them: values, the example nobody has touched, and what is to be mended."""

from dataclasses import replace

import pytest

from app.pages.start.limits import ABSOLUTE, AIMS, COUNTED, EXAMPLE, asked_of, limit_row
from app.records.field_list import LIMIT_LABELS
from model.ceilings import BOUNDS, Amount, Ceilings
from model.start_list import AIMS as MODEL_AIMS
from tests.app.pages.start.conftest import NONE


def test_shares_torques_times_and_speeds_become_the_models_limits(kept):
    typed = {
        "elbow_peak": "80",
        "shoulder_peak": "55,5",
        "rise_rate": "500",
        "area": "4.5",
        "braking": "",
        "least_loaded": "90",
        "most_loaded": "150",
        "speed": "70 mph",
    }
    counted = dict.fromkeys(("shoulder_peak_in", "rise_rate_in", "area_in", "least_loaded_in"), ABSOLUTE)
    asked = asked_of(kept(**counted, **typed))
    assert asked.to_mend == ()
    assert asked.ceilings.speed.value == pytest.approx(70 * 0.44704)  # a mile is 1609.344 m by definition
    assert replace(asked.ceilings, speed=None) == Ceilings(
        elbow_peak=Amount(0.8),
        shoulder_peak=Amount(55.5, absolute=True),
        rise_rate=Amount(500.0, absolute=True),
        area=Amount(4.5, absolute=True),
        least_loaded=Amount(0.090, absolute=True),
        most_loaded=Amount(1.5),
    )
    assert (asked.certainty, asked.doubt, asked.wanted) == (0.9, None, None)
    assert not asked.is_example


def test_the_page_begins_with_the_example(kept):
    asked = asked_of(kept())
    assert asked.is_example
    assert asked.ceilings == Ceilings(**{name: Amount(share) for name, share in EXAMPLE.items()})
    assert (asked.aim, asked.base, asked.left_out, asked.by_speed) == ("", "", "", False)


def test_a_limit_that_is_typed_is_the_athletes_and_the_others_of_the_example_stay(kept):
    asked = asked_of(kept(elbow_peak="65", speed="30"))
    assert asked.amounts["elbow_peak"] == Amount(0.65)
    assert asked.amounts["speed"] == Amount(30.0, absolute=True)  # in its own unit unless somebody says otherwise
    assert asked.amounts["rise_rate"] == Amount(0.7)
    assert not asked.is_example


def test_an_empty_field_is_no_limit(kept):
    assert asked_of(kept(**NONE)).ceilings == Ceilings()


@pytest.mark.parametrize("name", BOUNDS)
def test_a_limit_that_was_refused_is_to_be_mended_and_does_not_count_as_none(kept, name):
    asked = asked_of(kept(**{name: "a lot"}))
    assert asked.ceilings is None
    assert asked.to_mend == (LIMIT_LABELS[name],)


def test_a_least_time_above_the_most_is_to_be_mended_at_the_least(kept):
    asked = asked_of(kept(least_loaded="150", most_loaded="120"))
    assert asked.ceilings is None
    assert asked.to_mend == ("Time loaded at least",)


def test_certainty_and_doubt_are_shares_and_one_that_was_refused_is_to_be_mended(kept):
    asked = asked_of(kept(certainty="95", rows={"reference": {"relative_sd": "5"}}))
    assert (asked.certainty, asked.doubt, asked.to_mend) == (0.95, 0.05, ())
    wrong = asked_of(kept(certainty="100", rows={"reference": {"relative_sd": "31"}}))
    assert (wrong.certainty, wrong.doubt) == (None, None)
    assert wrong.to_mend == ("Doubt of the reference speed (±)", "Certainty")


def test_the_wanted_peak_counts_only_where_the_aim_asks_for_it(kept):
    assert asked_of(kept(wanted_peak="x")).to_mend == ()
    refused = asked_of(kept(aim="nearest_peak", wanted_peak="x"))
    assert (refused.wanted, refused.to_mend) == (None, ("Wanted peak at the elbow",))
    assert asked_of(kept(aim="nearest_peak", wanted_peak="60")).wanted == Amount(0.6)


def test_the_wanted_peak_of_the_example_is_a_share_and_means_nothing_in_newton_metres(kept):
    assert asked_of(kept(aim="nearest_peak")).wanted == Amount(0.75)
    assert asked_of(kept(aim="nearest_peak", wanted_peak_in=ABSOLUTE)).to_mend == ("Wanted peak at the elbow",)


def test_everything_else_is_read_too(kept):
    asked = asked_of(kept(base="reference", aim="own", left_out="95 470", axis="speed"))
    assert (asked.base, asked.aim, asked.left_out, asked.by_speed) == ("reference", "own", "95 470", True)


def test_a_limit_nobody_touched_has_a_row_that_stands_for_it(kept):
    data = kept()
    assert (limit_row(data, "elbow_peak").uid, limit_row(data, "elbow_peak").amount) == ("elbow_peak", 0.8)
    assert limit_row(data, "speed").amount is None


def test_the_limits_are_those_of_the_model_and_each_of_its_aims_has_its_words():
    assert (*BOUNDS, "wanted_peak") == COUNTED
    assert tuple(AIMS) == MODEL_AIMS
