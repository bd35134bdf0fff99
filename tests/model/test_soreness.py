"""What is suggested after a session, against the published rules as values.csv has them."""

from itertools import product

import pytest

from model.checks import InputError
from model.published import values
from model.soreness import ACTIONS, COMMON, REFER_FROM, RULE_ROW, STOP_SIGNS, After, suggest

CAUTION = {action: i for i, action in enumerate(ACTIONS)}  # advance, repeat, step back, rest and refer


@pytest.mark.parametrize(
    ("before", "after", "morning", "action", "days_off", "words", "printed"),
    [
        (0, 0, 0, "advance", 0, "no soreness: advance one step", "no soreness: advance one step"),
        (2, 0, 0, "repeat", 0, "gone by ~15 throws: repeat step", "gone within 10-15 throws: repeat"),
        (0, 2, 0, "repeat", 1, "sore >1 h after or next day: 1 day off, repeat", "next day: 1 day off, repeat"),
        (0, 0, 1, "repeat", 1, "sore >1 h after or next day: 1 day off, repeat", "next day: 1 day off, repeat"),
        (2, 3, 0, "step_back", 2, "persisting: stop, 2 days off, drop one step", "stop, 2 days off, drop one step"),
    ],
)
def test_the_published_rules(before, after, morning, action, days_off, words, printed):
    assert words in values()[RULE_ROW].value  # Axe, Wickham, Snyder-Mackler 2001, from memory
    assert printed in values()["9-load-rules-15"].value  # as clinics print them
    found = suggest(After(before, after, morning, speed_held=True))
    assert (found.action, found.days_off, found.source, found.provisional) == (action, days_off, RULE_ROW, False)


@pytest.mark.parametrize("sign", STOP_SIGNS)
def test_numbness_swelling_and_loss_of_motion_end_it_whatever_the_pain(sign):
    found = suggest(After(0, 0, 0, True, [sign]))
    assert (found.action, found.days_off, found.source) == ("rest_and_refer", None, COMMON)
    assert sign in found.reason


def test_a_high_rating_at_any_time_is_referred():
    for place in range(3):
        ratings = [REFER_FROM if i == place else 0 for i in range(3)]
        assert suggest(After(*ratings)).action == "rest_and_refer"


def test_a_speed_not_held_repeats_the_step_and_one_not_measured_does_not_matter():
    assert suggest(After(0, 0, 0, speed_held=False)).action == "repeat"
    assert suggest(After(0, 0, 0, speed_held=False)).source == COMMON
    assert suggest(After(0, 0, 0, speed_held=None)).action == "advance"


def test_more_pain_or_a_lost_speed_never_makes_it_bolder():
    for before, after, morning, held in product(range(11), range(11), (None, *range(11)), (True, False)):
        here = CAUTION[suggest(After(before, after, morning, held)).action]
        later = 0 if morning is None else min(morning + 1, 10)
        for more in (
            After(min(before + 1, 10), after, morning, held),
            After(before, min(after + 1, 10), morning, held),
            After(before, after, later, held),
            After(before, after, morning, False),
        ):
            assert CAUTION[suggest(more).action] >= here


def test_before_the_next_morning_it_is_provisional_and_says_so():
    found = suggest(After(0, 0))
    assert found.provisional
    assert "still to come" in found.reason
    assert not suggest(After(9, 9)).provisional


def test_what_is_not_accepted_is_refused_by_name():
    for wrong in (11, -1, 2.5, "3", True):
        with pytest.raises(InputError, match="pain_after"):
            After(0, wrong)
    with pytest.raises(InputError, match="signs"):
        After(0, 0, 0, True, ["tired"])
