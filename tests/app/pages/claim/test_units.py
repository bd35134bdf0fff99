"""A claim in the reader's units: what is said follows, and the answer is the same."""

import pytest

from app.pages.claim.view import view_of
from app.pages.claim.words import claim_words, throws_words
from app.show.rack import rack_of
from app.units.systems import CUSTOMARY, METRIC

TYPED = {"thrown": "typed", "first_speed_m_s": "28.5", "second_speed_m_s": "33"}


@pytest.fixture
def answers(make_claim):
    """The same claim in both systems."""
    return [make_claim(system=system, **TYPED) for system in (METRIC, CUSTOMARY)]


def test_words_are_in_the_readers_units_and_the_answer_is_the_same(answers):
    metric, customary = answers
    assert customary.settled == metric.settled
    assert claim_words(customary) == "9.7 oz loads the elbow more than 5.11 oz"
    assert throws_words(customary.settled, CUSTOMARY) == "9.7 oz at 63.8 mph against 5.11 oz at 73.8 mph."
    shown = view_of(customary)
    words = f"{shown.sentence}{shown.readouts}{shown.notes}".replace("N·m/s", "")
    assert not any(unit in words for unit in (" m/s", " g ", " cm", " kg", " mm"))


def test_the_rack_is_listed_in_the_readers_units_and_put_in_as_it_was(answers):
    metric, customary = (rack_of(answer.case) for answer in answers)
    assert [ball["value"] for ball in customary] == [ball["value"] for ball in metric]
    assert {"value": "145|73", "label": "5.11 oz, 2.87 in, own ball"} in customary
