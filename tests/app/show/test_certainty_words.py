"""Probabilities in tenths, what becomes of a claim, and one sentence that says it: never as certain."""

import math
from dataclasses import replace

import pytest

from app.show.certainty_words import (
    RULE,
    TWO_ATHLETES,
    circumstance,
    differs,
    low_high,
    nearness,
    outside_words,
    signed_percent,
    tenths,
    uncertainty,
    verdict,
    what_would_help,
)
from app.units.systems import CUSTOMARY
from model.ball import Ball
from model.person import Person
from model.structural_band import Answer, BandDifference

MAN, WOMAN = Person("male", 1.88, 90.0, 25.0), Person("female", 1.72, 68.0, 22.0)
OWN, HEAVY, LIGHT = Ball(0.145), Ball(0.275), Ball(0.095)
LOWER = BandDifference(
    "varus", "peak", -0.08, -0.18, 0.035, 0.12, 0.88, -0.09, -0.07, 0.0, 1.0, 0.1, 0.0, outside=False, no_claim=False
)
LONGER = replace(
    LOWER, readout="loaded_s", best=0.155, low=0.02, high=0.31, probability_more=0.967, probability_less=0.033
)
HIS = circumstance(MAN, OWN, (HEAVY, 28.5), (OWN, 33.0))


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "less than one in ten"),
        (0.0499, "less than one in ten"),
        (0.05, "about one in ten"),
        (0.149, "about one in ten"),
        (0.151, "about two in ten"),
        (0.5, "about five in ten"),
        (0.878, "about nine in ten"),
        (0.95, "about nine in ten"),
        (0.951, "more than nine in ten"),
        (1.0, "more than nine in ten"),
    ],
)
def test_a_probability_is_told_in_tenths_and_never_as_certain(chance, said):
    assert tenths(chance) == said


def test_per_cents_are_whole_and_small_ones_have_a_decimal():
    assert [signed_percent(share) for share in (-0.183, 0.0949, 0.0042, -0.0004)] == ["−18", "+9", "+0.4", "0.0"]
    assert low_high(-0.183, 0.035) == "−18 to +4\u00a0%"
    assert low_high(0.051, 0.0549) == "+5\u00a0%"


def test_a_difference_is_told_in_the_readouts_own_words():
    assert differs("peak", -0.082) == "peak 8 % lower"
    assert differs("loaded_s", 0.155) == "time loaded 16 % longer"
    assert differs("rise_rate", -0.21) == "rise 21 % gentler"
    assert differs("area", 0.004) == "area the same"
    assert differs("area", math.nan) == "area not defined"


def test_one_sentence_says_what_it_takes_for_granted_and_how_sure_it_is_without():
    assert uncertainty({"peak": LOWER}, HIS) == (
        "If he moves the same with both balls: peak 8 % lower. People change how they move with a heavy ball; allowing "
        "for that, lower with about nine in ten."
    )
    assert uncertainty({"peak": LOWER, "loaded_s": LONGER}, HIS) == (
        "If he moves the same with both balls: peak 8 % lower, time loaded 16 % longer. People change how they move "
        "with a heavy ball; allowing for that, peak lower with about nine in ten, time loaded longer with more than "
        "nine in ten."
    )


def test_nothing_is_said_of_chances_where_there_is_no_difference_or_no_claim():
    same = replace(LOWER, best=0.001, low=0.0, high=0.002)
    assert uncertainty({"peak": same}, HIS) == "If he moves the same with both balls: peak the same."
    assert uncertainty({"peak": replace(LOWER, no_claim=True)}, HIS) == (
        "If he moves the same with both balls: peak 8 % lower. People change how they move with a heavy ball, and how "
        "much is known too little to say whether that is so."
    )
    gone = replace(LOWER, best=math.nan, undefined=1.0)
    assert uncertainty({"peak": gone}, HIS) == "If he moves the same with both balls: peak not defined."


@pytest.mark.parametrize(
    ("throw", "against", "alike", "change"),
    [
        ((HEAVY, 28.5), (OWN, 33.0), "both balls", "with a heavy ball"),
        ((OWN, 33.0), (HEAVY, 28.5), "both balls", "with a heavy ball"),
        ((LIGHT, 35.0), (OWN, 33.0), "both balls", "with a light ball"),
        ((OWN, 28.0), (OWN, 33.0), "both speeds", "when they throw slower"),
        ((OWN, 33.0), (OWN, 28.0), "both speeds", "when they throw faster"),
    ],
)
def test_what_people_change_is_what_the_throws_differ_in(throw, against, alike, change):
    where = circumstance(WOMAN, OWN, throw, against)
    assert where.alike == f"she moves the same {'at' if 'speeds' in alike else 'with'} {alike}"
    assert where.change == f"People change how they move {change}"
    assert where.unseen == f"how she moves {'at each speed' if 'speeds' in alike else 'with each ball'}"


def test_of_two_athletes_it_is_said_that_people_differ():
    assert uncertainty({"peak": LOWER}, TWO_ATHLETES).startswith("If both move the same: peak 8 % lower. People of one")


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.96, "supported"),
        (0.93, "supported, but barely"),
        (0.90, "supported, but barely"),
        (0.88, "cannot tell, but close to supported"),
        (0.60, "cannot tell"),
        (0.14, "cannot tell, but close to not supported"),
        (0.10, "not supported, but barely"),
        (0.04, "not supported"),
    ],
)
def test_a_verdict_says_where_it_is_close_to_a_border(chance, said):
    assert verdict(replace(LOWER, probability_less=chance, probability_more=1.0 - chance), more=False) == said


def test_ties_missing_readouts_and_no_claim_have_verdicts_of_their_own():
    assert verdict(replace(LOWER, low=-0.004, high=0.004), more=False) == "not supported"
    assert verdict(replace(LOWER, undefined=0.6), more=False) == "not defined for these throws"
    assert verdict(replace(LOWER, no_claim=True), more=False) == "no claim"
    assert nearness(Answer("no claim", math.nan, False)) == ""


def test_the_printed_rule_names_every_border():
    for border in ("90 % or more", "10 % or less", "±0.5 %", "Within 5 %", "above 95 %"):
        assert border in RULE


def test_what_would_help_depends_on_what_a_radar_can_see():
    assert what_would_help(Answer("cannot tell", 0.6, True), HIS, read=True) == "more radar readings could settle it"
    hardly = what_would_help(Answer("cannot tell", 0.6, False), HIS, read=True)
    assert hardly == "more radar readings would hardly settle it: what is not known is how he moves with each ball"
    given = what_would_help(Answer("cannot tell", 0.6, True), HIS, read=False)
    assert given == "what is not known is how he moves with each ball"
    assert what_would_help(Answer("supported", 0.95, True), HIS, read=True) == ""


def test_what_was_solved_is_named_in_the_readers_units():
    assert "balls from 95 to 470 g, thrown at 61 to 165 % of full speed" in outside_words()
    assert "3.36 to 16.5 oz" in outside_words(CUSTOMARY)  # rounded inwards: 3.351 and 16.58
