"""What the page says: the sentences, the numbers, where they come from, and what is missing."""

import pytest

from app.pages.claim.view import view_of
from app.pages.claim.words import (
    FOUR,
    beyond_words,
    claim_chance_words,
    claim_words,
    claimed,
    interval_words,
    numbers_words,
    source_words,
    summary,
    throws_words,
)
from app.show.certainty_words import NO_CLAIM, NOTHING_TO_SPEAK_OF, RULE
from app.show.numbers import READOUT_ORDER
from app.units.systems import METRIC
from tests.app.pages.claim.conftest import UNKNOWN_SPEED, text_of


def test_values_stand_in_units_and_per_cent():
    assert numbers_words((72.24, 67.31), 0.0732, ("varus", "peak")) == ("+4.9 N·m, +7 %", "72.2 against 67.3 N·m")
    assert numbers_words((0.135, 0.117), 0.154, ("varus", "loaded_s")) == ("+18 ms, +15 %", "135 against 117 ms")


def test_what_is_claimed_is_called_by_its_readout():
    assert [claimed("peak", True), claimed("loaded_s", False)] == ["a higher peak", "a shorter time loaded"]
    assert [claimed("rise_rate", False), claimed("area", True)] == ["a gentler rise", "a larger area"]


def test_the_page_says_first_how_sure_the_peak_is_and_then_what_becomes_of_each_claim(make_claim):
    answer = make_claim(way="less")
    assert claim_words(answer) == "275 g loads the elbow less than 145 g"
    # 28.5 against 33.0 m/s: R = (0.275 + 0.43) / (0.145 + 0.43) = 1.23, s = 0.864: R s^2 = 0.92
    first, second, third = (text_of(part) for part in view_of(answer).sentence[:3])
    assert first == (
        "If he moves the same with both balls: peak 8 % lower. People change how they move with a heavy ball; allowing "
        "for that, lower with about nine in ten."
    )
    assert second == (
        "“275 g loads the elbow less than 145 g”: supported for rise rate; not supported for time loaded; cannot tell "
        "for peak (but close to supported) and area."
    )
    assert FOUR in third


def test_of_a_woman_it_says_she(make_claim):
    assert text_of(view_of(make_claim("W05")).sentence).startswith(
        "If she moves the same with both balls: peak 3 % higher."
    )


def test_all_four_alike_are_told_at_once(make_claim):
    answer = make_claim(first_mass_kg="145", way="less", reading="internal_rotation")
    assert claim_words(answer) == "145 g loads the shoulder less than 145 g"
    assert summary(answer) == [("not supported", "all four")]


def test_a_row_says_interval_probability_and_what_would_help(make_claim):
    answer = make_claim(way="less")
    settled = answer.settled
    assert interval_words(settled.found["peak"], False)[1].startswith("of the speeds alone: ")
    assert claim_chance_words("peak", settled.found["peak"], answer, settled) == [
        "a lower peak: about nine in ten",
        "more radar readings would hardly settle it: what is not known is how he moves with each ball",
    ]
    assert claim_chance_words("loaded_s", settled.found["loaded_s"], answer, settled) == [
        "a shorter time loaded: less than one in ten",
        "",
    ]
    unread = make_claim("W06")
    assert "more radar readings could settle it" in claim_chance_words(
        "peak", unread.settled.found["peak"], unread, unread.settled
    )


def test_a_typed_speed_is_said_to_be_exact_and_what_is_left_is_how_one_moves(make_claim):
    answer = make_claim(thrown="typed", first_speed_m_s="28.55", second_speed_m_s="33", way="less")
    assert throws_words(answer.settled, METRIC) == "275 g at 28.55 m/s against 145 g at 33.0 m/s."
    assert source_words(answer) == ["A typed speed is taken as exact."]
    told = text_of(view_of(answer).readouts)
    assert "90 % interval" in told
    assert "speeds alone" not in told
    assert "what is not known is how he moves with each ball" in told
    assert "radar" not in told


def test_without_a_full_speed_the_faster_typed_one_counts_for_it(make_claim):
    answer = make_claim(thrown="typed", first_speed_m_s="28", second_speed_m_s="33", **UNKNOWN_SPEED)
    assert source_words(answer)[0].endswith(
        "The faster of them counts as full speed: that of this athlete is not known."
    )


def test_a_tie_says_that_there_is_no_difference_to_speak_of(make_claim):
    tie = make_claim(thrown="typed", first_mass_kg="145", first_speed_m_s="33.02", second_speed_m_s="33")
    # s = 1.0006: the rise rate, the steepest of the four, changes by 0.2 %
    shown = view_of(tie)
    assert text_of(shown.readouts).count(NOTHING_TO_SPEAK_OF) == 4
    assert text_of(shown.sentence).startswith("If he moves the same at both speeds: peak the same.")


def test_where_nothing_may_be_claimed_the_best_estimate_stands_with_its_condition(make_claim):
    shown = view_of(make_claim(reading="horizontal_abduction"))
    told = text_of(shown.readouts)
    assert told.count(NO_CLAIM) == told.count("if he moves the same with both balls") == 4
    assert "interval:" not in told
    assert "no claim for all four" in text_of(shown.sentence)
    assert "in ten" not in text_of(shown.sentence)


def test_with_readings_their_number_is_told_and_that_means_are_compared(make_claim):
    answer = make_claim()
    told = " ".join(source_words(answer))
    assert told.startswith("From 12 full-effort radar readings with 4 balls.")  # demo_data/readings.csv
    assert "mean full-effort throws, not next ones" in told
    assert RULE in text_of(view_of(answer).notes)


def test_without_readings_the_page_says_who_answers(make_claim):
    told = " ".join(source_words(make_claim("W06")))
    assert "No radar readings" in told
    assert "published groups answer" in told


def test_after_release_the_page_says_that_only_the_clock_counts(make_claim):
    assert "After release the hand is empty" in text_of(view_of(make_claim(reading="horizontal_abduction")).notes)
    assert "After release" not in text_of(view_of(make_claim()).notes)


def test_what_was_not_solved_or_checked_is_named(make_claim):
    def said(**texts):
        return beyond_words(make_claim(**texts).settled, METRIC)

    assert said() == ["", ""]
    outside, checked = said(first_mass_kg="1200")
    assert outside.startswith("Outside what was solved: the movement was worked out anew for balls from 95 to 470 g")
    assert checked.startswith("Part of this claim is outside the range in which")
    fast = said(first_mass_kg="", thrown="typed", first_speed_m_s="55", second_speed_m_s="33")
    assert "speeds from 5 to 50 m/s" in fast[1]


@pytest.mark.parametrize(("code", "note"), [("W04", "13 years old"), ("W05", "female"), ("W01", "")])
def test_for_the_young_and_for_women_the_page_says_at_the_number_whose_path_it_is(make_claim, code, note):
    shown = view_of(make_claim(code))
    assert ("The path comes from adult men; this thrower is" in text_of(shown.sentence)) == bool(note)
    assert note in text_of(shown.sentence)
    assert ("path from adult men" in text_of(shown.readouts)) == bool(note)


def test_every_readout_has_its_verdict_number_and_picture(make_claim):
    rows = view_of(make_claim(way="less")).readouts[1].children
    assert len(rows) == len(READOUT_ORDER)
    verdicts = ["cannot tell, but close to supported", "not supported", "supported", "cannot tell"]
    for row, verdict in zip(rows, verdicts, strict=True):
        head, numbers, picture = row.children
        assert text_of(head.children[1]) == verdict
        assert "in ten" in text_of(numbers)
        assert "Difference in" in getattr(picture.children[0], "aria-label")


def test_a_readout_that_a_throw_does_not_have_is_called_not_defined(make_claim):
    # at a crawl weight alone loads the shoulder from release on: already above 10 % of the peak, so there is no rise
    answer = make_claim(
        reading="horizontal_abduction",
        thrown="typed",
        first_mass_kg="145",
        first_speed_m_s="3",
        second_speed_m_s="33",
    )
    assert answer.settled.found["rise_rate"].not_defined
    assert "not defined for these throws" in text_of(view_of(answer).sentence)
    assert "One of the throws has no such number." in text_of(view_of(answer).readouts)


def test_where_measures_are_missing_it_says_which_and_where_to_enter_them(make_claim):
    shown = view_of(make_claim(measures={"body_mass_kg": "", "stature_m": "tall"}))
    assert shown.body_hidden
    assert "Missing or to be mended: stature, body mass. Enter it on Athlete." in text_of(shown.empty)


def test_a_missing_speed_is_asked_for_where_it_is_entered(make_claim):
    told = text_of(view_of(make_claim(**UNKNOWN_SPEED)).empty)
    assert "Missing: a full-effort speed of this athlete. Enter radar readings or the reference throw" in told
    assert "body mass" not in told


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"first_mass_kg": "heavy"}, "above: mass of the first ball."),
        ({"thrown": "typed"}, "above: speed of the first ball, speed of the second ball."),
        ({"thrown": "same", "same_speed_m_s": "x"}, "above: speed of both."),
    ],
)
def test_what_is_missing_on_the_page_itself_is_named(make_claim, changes, said):
    assert said in text_of(view_of(make_claim(**changes)).empty)
