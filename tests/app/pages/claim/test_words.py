"""What the page says: the sentence, the numbers, where they come from, and what is missing."""

from dataclasses import replace

import numpy as np
import pytest

from app.pages.claim.words import (
    FOUR,
    beyond_words,
    borders_words,
    claim_words,
    difference_words,
    interval_words,
    probability_words,
    source_words,
    summary,
    throws_words,
    values_words,
)
from app.show.numbers import READOUT_ORDER
from model.claim import Difference
from model.interval import Interval
from tests.app.typed_forms import empty_form


def between(low: float, middle: float, high: float) -> Interval:
    return Interval(middle, low, high, 0.9)


PEAK = Difference(
    "peak",
    between(70.0, 72.24, 75.0),
    between(66.0, 67.31, 69.0),
    between(-1.94, 4.93, 11.2),
    between(-0.0288, 0.0732, 1.664),
    0.9961,
    0.0039,
    0.0,
    np.linspace(-0.03, 1.7, 100),
)

TIME = replace(PEAK, readout="loaded_s", first=between(0.13, 0.135, 0.14), second=between(0.11, 0.117, 0.12))


def test_numbers_stand_in_units_and_per_cent():
    assert values_words(PEAK, "varus") == "72.2 against 67.3 N·m"
    assert difference_words(PEAK, "varus") == "+4.9 N·m, +7.3 %"
    assert interval_words(PEAK, "varus") == "90 % interval: −1.9 to +11.2 N·m, −2.9 to +166\u00a0%"
    assert values_words(TIME, "varus") == "135 against 117 ms"


def test_ends_that_print_alike_are_one_number():
    one = replace(PEAK, absolute=between(4.91, 4.92, 4.93), relative=between(0.0731, 0.0732, 0.0733))
    assert interval_words(one, "varus") == "90 % interval: +4.9 N·m, +7.3\u00a0%"


def test_a_probability_is_never_quite_all_and_what_has_no_number_is_told():
    assert probability_words(PEAK, more=True) == "probability of a higher peak: over 99 %"
    assert probability_words(replace(PEAK, less=0.4), more=False) == "probability of a lower peak: 40 %"
    part = probability_words(replace(PEAK, more=0.8, undefined=0.1), more=True)
    assert part.endswith("80 %; in 10 % of what the readings allow there is no such number")


def test_the_sentence_tells_which_of_the_four_hold(make_claim, view, text):
    answer = make_claim()
    assert claim_words(answer) == "275 g loads the elbow more than 145 g"
    # 28.5 against 33.0 m/s: R = (0.275 + 0.43) / (0.145 + 0.43) = 1.23, s = 0.864: R s^2 and R s^3 below 1, R s above
    assert summary(answer) == [("holds", "time loaded and area"), ("does not hold", "peak and rise rate")]
    told = text(view(answer).sentence)
    assert told.startswith(
        "“275 g loads the elbow more than 145 g”: holds for time loaded and area; does not hold for peak and rise rate."
    )
    assert FOUR in told


def test_all_four_alike_are_told_at_once_and_less_is_said_as_less(make_claim):
    answer = make_claim(first_mass_g="145", way="less", reading="internal_rotation")
    assert claim_words(answer) == "145 g loads the shoulder less than 145 g"
    assert summary(answer) == [("does not hold", "all four")]


def test_a_typed_speed_is_said_to_be_exact_and_has_no_interval(make_claim, view, text):
    answer = make_claim(thrown="typed", first_speed_m_s="28.55", second_speed_m_s="33")
    assert throws_words(answer) == "275 g at 28.55 m/s against 145 g at 33.0 m/s."
    assert "taken as exact" in source_words(answer)[0]
    told = text(view(answer).readouts)
    assert "interval" not in told
    assert "probability" not in told
    assert "under 0.5 %" in borders_words(answer)


def test_a_tie_says_that_there_is_no_difference_to_speak_of(make_claim, view, text):
    tie = make_claim(thrown="typed", first_mass_g="145", first_speed_m_s="33.02", second_speed_m_s="33")
    # s = 1.0006: the rise rate, the steepest of the four, changes by 0.2 %
    assert text(view(tie).readouts).count("no difference to speak of, under 0.5 %") == 4
    assert "to speak of" not in text(view(make_claim()).readouts)


def test_with_readings_their_number_is_told_and_that_means_are_compared(make_claim):
    told = " ".join(source_words(make_claim()))
    assert told.startswith("From 12 full-effort radar readings with 4 balls.")  # demo_data/readings.csv
    assert "mean full-effort throws, not next ones" in told
    assert "same draw" in told
    assert "0 % or more" not in told
    assert "90 % or more" in borders_words(make_claim())
    assert "10 % or less" in borders_words(make_claim())


def test_without_readings_the_page_says_that_the_prior_answers(make_claim):
    told = " ".join(source_words(make_claim("W06")))
    assert "No radar readings" in told
    assert "prior from published groups answers alone" in told
    assert "the sign is not known" in told


def test_after_release_the_page_says_that_only_the_clock_counts(make_claim, view, text):
    assert "After release the hand is empty" in text(view(make_claim(reading="horizontal_abduction")).notes)
    assert "After release" not in text(view(make_claim()).notes)


def test_what_was_not_checked_is_named(make_claim):
    assert beyond_words(make_claim()) == ""
    assert beyond_words(make_claim(first_mass_g="1200")).startswith("Part of this claim is outside the range in which")
    fast = make_claim(thrown="typed", first_speed_m_s="55", second_speed_m_s="33")
    assert "speeds from 5 to 50 m/s" in beyond_words(fast)


@pytest.mark.parametrize(("code", "note"), [("W04", "13 years old"), ("W05", "female"), ("W01", "")])
def test_for_the_young_and_for_women_the_page_says_at_the_number_whose_path_it_is(make_claim, view, text, code, note):
    shown = view(make_claim(code))
    assert ("The path comes from adult men; this thrower is" in text(shown.sentence)) == bool(note)
    assert note in text(shown.sentence)
    assert ("path from adult men" in text(shown.readouts)) == bool(note)


def test_every_readout_has_its_verdict_number_and_picture(make_claim, view, text):
    shown = view(make_claim())
    rows = shown.readouts[1].children
    assert len(rows) == len(READOUT_ORDER)
    for row in rows:
        head, numbers, picture = row.children
        assert text(head).endswith(("holds", "does not hold", "cannot tell from these readings"))
        assert "probability of" in text(numbers)
        assert "Difference in" in getattr(picture.children[0], "aria-label")


def test_a_readout_that_a_throw_does_not_have_is_called_not_defined(make_claim, view, text):
    # at a crawl weight alone loads the shoulder from release on: already above 10 % of the peak, so there is no rise
    answer = make_claim(reading="horizontal_abduction", thrown="typed", first_speed_m_s="3", second_speed_m_s="33")
    assert answer.settled.found["rise_rate"].verdict(True) == "undefined"
    assert "not defined for these throws" in text(view(answer).sentence)
    assert "One of the throws has no such number." in text(view(answer).readouts)


def test_an_empty_page_says_what_to_enter_and_where(make_claim, view, text):
    form = empty_form()
    shown = view(make_claim(compare=form, read=False), form)
    told = text(shown.empty)
    assert shown.body_hidden
    assert "sex, throwing hand, age, stature and body mass. Enter it on Athlete" in told


def test_a_missing_speed_is_asked_for_where_it_is_entered(make_claim, view, compared, text):
    form = replace(compared(), throws=(), reference="")
    told = text(view(make_claim(compare=form, read=False), form).empty)
    assert "Missing: a full-effort speed of this athlete. Enter radar readings or the reference throw" in told
    assert "body mass" not in told


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"first_mass_g": "heavy"}, "above: first ball."),
        ({"thrown": "typed"}, "above: speed of the first ball, of the second."),
        ({"thrown": "same", "same_speed_m_s": "x"}, "above: speed of both."),
    ],
)
def test_what_is_missing_on_the_page_itself_is_named(make_claim, view, text, changes, said):
    assert said in text(view(make_claim(**changes)).empty)
