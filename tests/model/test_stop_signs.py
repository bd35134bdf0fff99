"""Stop signs: none is ever taken out, and the athlete clears none."""

from datetime import date

import pytest

from model.checks import InputError
from model.stop_signs import ROLES, Signed, StopSign, cleared, standing, together, withdrawn

DAY = date(2026, 3, 2)
ENTERED = Signed("AB", "coach", DAY)
SWELLING, COLD = StopSign("swelling", DAY, 3, ENTERED), StopSign("cold_hand", DAY, None, ENTERED)


def test_a_sign_stands_until_it_is_cleared_or_withdrawn_and_the_urgent_comes_first():
    assert standing((SWELLING, COLD)) == (COLD, SWELLING)
    both = cleared((SWELLING, COLD), Signed("PT", "clinician", DAY))
    assert standing(both) == ()
    assert [one.sign for one in both] == ["swelling", "cold_hand"]
    assert both[0].cleared.by == "PT"


def test_the_athlete_clears_none_and_who_records_a_decision_says_whose_it_was():
    with pytest.raises(InputError, match="role"):
        cleared((SWELLING,), Signed("AB", "athlete", DAY, "feels fine"))
    with pytest.raises(InputError, match="words"):
        cleared((SWELLING,), Signed("AB", "coach", DAY))
    assert not standing(cleared((SWELLING,), Signed("AB", "coach", DAY, "cleared by the team physician")))
    with pytest.raises(InputError, match="on"):
        cleared((SWELLING,), Signed("PT", "clinician", date(2026, 3, 1)))


def test_one_entered_by_mistake_is_withdrawn_with_words_and_stays():
    gone = withdrawn((SWELLING, COLD), 0, Signed("AB", "coach", DAY, "wrong athlete"))
    assert standing(gone) == (COLD,)
    assert gone[0].withdrawn.words == "wrong athlete"
    with pytest.raises(InputError, match="words"):
        withdrawn((SWELLING,), 0, Signed("AB", "coach", DAY))
    with pytest.raises(InputError, match="sign"):
        withdrawn(gone, 0, Signed("AB", "coach", DAY, "again"))


def test_signs_from_two_places_are_joined_each_once_and_what_was_cleared_is():
    done = cleared((SWELLING,), Signed("PT", "clinician", DAY))[0]
    assert together((SWELLING,), (done, COLD)) == (done, COLD)
    assert together((done,), (SWELLING,)) == (done,)


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="by"):
        Signed(" ", "coach", DAY)
    with pytest.raises(InputError, match="role"):
        Signed("AB", "friend", DAY)
    with pytest.raises(InputError, match="sign"):
        StopSign("tired", DAY, None, ENTERED)
    assert "athlete" in ROLES
