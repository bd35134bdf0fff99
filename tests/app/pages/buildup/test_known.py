"""Stop signs stay with the athlete, whatever becomes of the plan; and a plan made after one starts no higher."""

from dataclasses import replace

import pytest

from app.pages.buildup.course import course_of
from app.pages.buildup.known import NOTHING_KNOWN, known_of
from app.records import stop_signs
from model.checks import InputError
from tests.app.pages.buildup.conftest import FINE, HAND_ONE, TODAY, Desk, keep, logged, pain, text_of, thrown

SIGN = {"sign_what": "swelling", "sign_by": "AB", "sign_role": "coach"}
CLEAR = {"clear_by": "PT", "clear_role": "clinician"}


@pytest.fixture
def stopped(made):
    """A plan that stands still: 24 throws without pain, and then swelling."""
    record = keep(made(), thrown(made(), throws=24))
    return keep(record, thrown(record, "", replace(FINE, signs=("swelling",))))


@pytest.fixture
def still(desk, stopped):
    """The same in the records."""
    desk.keep(stopped)
    return desk


def test_a_plan_that_stands_still_comes_back_from_its_rows_as_it_was(still, stopped):
    again = still.record
    assert replace(again, mark="", signs=()) == replace(stopped, mark="", signs=(), code="W01")
    (sign,) = again.signs
    assert (sign.sign, sign.session, sign.plan, sign.entered) == ("swelling", 1, again.mark, stopped.signs[0].entered)
    assert course_of(again).closed == "stop_sign"


def test_another_plan_of_the_athlete_stands_still_too_and_that_of_another_does_not(still, made):
    still.keep(made(order="heavy"))
    assert still.course.closed == "stop_sign"
    other = Desk("W05", still.store)
    other.keep(made("W05"))
    assert other.course.closed == ""


def test_no_plan_is_made_while_a_sign_stands_whether_its_plan_is_shown_or_put_away(still):
    assert "a stop sign stands for this athlete" in text_of(still.press("make").said)
    still.press("away")
    assert still.record is None
    assert "a stop sign stands for this athlete" in text_of(still.press("make").said)
    assert still.record is None


def test_the_plan_made_anew_starts_no_higher_than_the_last_painless_session_and_says_so(still, stopped):
    one = stopped.log[0]
    still.press("clear", hand=CLEAR)
    assert still.course.closed == "plan_anew"
    assert still.found.wanted["weeks_off"] is None  # asked anew
    still.type(
        weeks_off="8", throws_week="90", first_throws="25", repeats="2", days="0 2 4", order="own", start_percent="80"
    )
    known = still.found.athlete.known
    assert (known.most.throws, known.most.metrics["speed"]) == (24, one.speed_m_s)
    assert "up to 24 throws after the stop sign" in text_of(still.press("make").said)
    still.type(first_throws="20")
    assert "Plan made." in text_of(still.press("make").said)
    assert still.record.steps[0].speed_m_s <= one.speed_m_s
    assert "no higher than the last painless session" in still.record.notes[0]
    assert [sign.sign for sign in still.record.earlier] == ["swelling"]
    assert still.course.closed == ""
    assert still.found.athlete.known.most is not None
    still.note(0, **PAINLESS)
    still.press("log")
    assert still.found.athlete.known.most is None  # thrown without pain since: the next plan begins freely


PAINLESS = dict.fromkeys(("before", "throwing", "hour_after", "next_morning"), "0") | {
    "throws": "18", "painkiller": "no", "decision": "go_on", "by": "AB", "role": "coach",
    **dict.fromkeys(("sore_before", "sore_throwing", "sore_hour_after", "sore_next_morning"), "no"),
}  # fmt: skip


def test_a_plan_from_before_the_sign_is_not_gone_on_with_when_it_is_brought_back(desk, made):
    desk.keep(made(order="heavy"))
    old = desk.found.shown.row.uid
    desk.keep(made())
    desk.press("sign", hand=SIGN)
    desk.press("clear", hand=CLEAR)
    desk.asked = {"plan": old}
    assert desk.course.closed == "plan_anew"


def test_what_pain_was_noted_of_is_a_sign_also_where_its_row_is_lacking(desk, made):
    record = keep(made(), thrown(made(), "", pain(throwing=6)))
    desk.keep(replace(record, signs=()))
    assert [one.sign for one in desk.record.signs] == ["severe"]
    assert desk.course.closed == "stop_sign"
    desk.press("reopen")  # with the next act it gets its row, and stays without the session
    assert (len(desk.record.log), desk.course.closed) == (0, "stop_sign")
    assert len(desk.found.data.stop_signs) == 1


def test_without_a_plan_the_athletes_signs_are_cleared_all_the_same(still):
    still.press("away")
    still.press("clear", hand=CLEAR)
    known = still.found.athlete.known
    assert known.standing == ()
    assert known.most.throws == 24


def test_a_sign_outside_of_a_session_is_entered_again_once_the_first_was_withdrawn(desk, made):
    desk.keep(made())
    desk.press("sign", hand=SIGN)
    by = {"withdraw_what": "0", "withdraw_by": "AB", "withdraw_role": "coach", "withdraw_words": "another athlete"}
    desk.press("withdraw", hand=by)
    assert desk.course.closed == ""
    with pytest.raises(InputError, match="what is new"):
        desk.press("sign", hand=SIGN)
    desk.press("sign", hand=SIGN | {"sign_words": "the left elbow"})
    assert desk.course.closed == "stop_sign"
    assert len(desk.found.data.stop_signs) == 2


def test_one_who_did_not_clear_it_is_still_asked_by_the_records(still):
    (row,) = still.found.data.stop_signs
    wrong = stop_signs.Signed("W1", "athlete", TODAY)
    with pytest.raises(InputError, match="Role"):
        stop_signs.clear(still.store, still.found.visit.owner, [row.uid], wrong, HAND_ONE)


def test_a_sign_outside_of_sessions_stops_the_newest_plan_and_none_that_was_made_after_it(made):
    stopped = logged(made(), "go_on")
    after = replace(made(order="heavy"), earlier=stopped.signs)
    assert known_of((), [stopped, after]) == NOTHING_KNOWN
