"""The sentence is generated from the numbers."""

import math

import pytest

from app.pages.compare.answers import Thrower
from app.pages.compare.sentence import difference, headline, instead, sentence


def test_the_sentence_of_the_design_from_its_numbers(make_answer, round_readouts):
    # the design page, section 3, gives these ratios and this sentence; the reference's kind is added
    reference = make_answer(1, 0.145, 33.0, reference=True)
    heavy = make_answer(
        2,
        0.275,
        28.5,
        peak=0.91 * round_readouts.peak,
        loaded_s=1.15 * round_readouts.loaded_s,
        area=1.04 * round_readouts.area,
        rise_rate=0.79 * round_readouts.rise_rate,
    )
    assert str(sentence(heavy, reference, "measured")) == (
        "275 g at 28.5 m/s against 145 g at 33.0 m/s (measured): "
        "peak 9 % lower, loaded 15 % longer, rise 21 % gentler, area 4 % larger."
    )


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (109.0, "peak 9 % higher"),
        (91.0, "peak 9 % lower"),
        (100.5, "peak 1 % higher"),  # half a per cent and more is printed as one
        (100.49, "peak the same"),
        (99.51, "peak the same"),
        (99.5, "peak 1 % lower"),
        (335.0, "peak 235 % higher"),
        (0.0, "peak 100 % lower"),
        (math.nan, "peak not defined"),
        (math.inf, "peak not defined"),
    ],
)
def test_a_difference_is_rounded_to_the_nearest_per_cent(value, said):
    assert difference("peak", value, 100.0, "higher", "lower") == said


@pytest.mark.parametrize("reference", [0.0, math.nan])
def test_no_per_cent_of_nothing(reference):
    assert difference("area", 5.0, reference, "larger", "smaller") == "area not defined"


def test_no_difference_is_said_in_words(make_answer):
    said = str(sentence(make_answer(2), make_answer(1, reference=True), "estimated"))
    assert said == (
        "145 g at 33.0 m/s against 145 g at 33.0 m/s (estimated): "
        "no difference in peak, time loaded, rise rate or area (each under 0.5 %)."
    )


def test_one_reading_that_stays_is_said_beside_those_that_change(make_answer, round_readouts):
    longer = make_answer(2, loaded_s=2 * round_readouts.loaded_s)
    assert (
        sentence(longer, make_answer(1, reference=True), "").says
        == "peak the same, loaded 100 % longer, rise as steep, area the same"
    )
    higher = make_answer(2, peak=2 * round_readouts.peak)
    assert (
        sentence(higher, make_answer(1, reference=True), "").says
        == "peak 100 % higher, loaded as long, rise as steep, area the same"
    )


def test_a_quantity_that_is_never_positive_is_not_compared(make_answer):
    flat = {"peak": 0.0, "loaded_s": 0.0, "area": 0.0, "rise_rate": math.nan}
    said = sentence(make_answer(2, **flat), make_answer(1, reference=True, **flat), "measured").says
    assert said == "nothing to compare, the quantity stays at or below zero"


def test_a_ball_of_another_diameter_and_odd_numbers_are_named_in_full(make_answer):
    assert make_answer(1, 0.1425, 28.55, diameter_m=0.09).name == "142.5 g (90 mm) at 28.55 m/s"


def test_the_first_sentence_is_about_the_chosen_throw_and_the_others_follow_in_order(make_answer, make_comparison):
    answers = [make_answer(1, reference=True), *(make_answer(i, mass_kg=0.1 * i) for i in (2, 3, 4))]
    comparison = make_comparison(*answers)
    first, others = headline(comparison, "t3")
    assert first.throw == "300 g at 33.0 m/s"
    assert [other.throw for other in others] == ["200 g at 33.0 m/s", "400 g at 33.0 m/s"]


@pytest.mark.parametrize("chosen", ["", "t1", "t77"])
def test_a_choice_that_cannot_be_compared_falls_to_the_first_that_can(make_answer, make_comparison, chosen):
    comparison = make_comparison(make_answer(1, reference=True), make_answer(2, mass_kg=0.2))
    assert headline(comparison, chosen)[0].throw == "200 g at 33.0 m/s"


def test_a_reference_from_before_an_injury_is_named_with_its_date(make_answer, make_comparison):
    answers = (make_answer(1, reference=True), make_answer(2))
    comparison = make_comparison(*answers, kind="pre-injury", known="from before an injury, 2025-09-02")
    assert "(from before an injury, 2025-09-02)" in str(headline(comparison, "")[0])


def test_one_throw_alone_asks_for_a_second(make_answer, make_comparison):
    alone = make_comparison(make_answer(1, reference=True))
    assert headline(alone, "") == (None, ())
    assert instead(alone) == "145 g at 33.0 m/s: peak 80.0 N·m. Add a second throw to compare it with."


def test_no_throws_ask_for_one(make_comparison):
    assert instead(make_comparison()) == "No throws in the list: add one."


def test_no_reference_asks_for_one(make_answer, make_comparison):
    said = instead(make_comparison(make_answer(1), make_answer(2)))
    assert said == "The reference throw has no curve: complete it, or choose another reference."


def test_missing_measures_are_named(compare_on):
    said = instead(compare_on(first=Thrower("X1", None, ("Stature", "Forearm"))))
    assert said == "No curves until this is mended: stature, forearm."
