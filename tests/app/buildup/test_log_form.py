"""What was typed after a session comes back for that session of that plan, and for no other."""

import json
from dataclasses import replace

import pytest

from app.buildup import edits
from app.buildup.log_form import BETWEEN, LogForm, fields_of, key_of, shown_for, taken_out
from app.flat_form import to_json
from model.soreness import STOP_SIGNS
from tests.app.buildup.test_edits import logged, thrown

TYPED = LogForm(before="1", after="x", held="no", signs=BETWEEN.join(STOP_SIGNS[:2]), decision="repeat", note="sore")


def kept(record, form=TYPED):
    """As the browser keeps it."""
    return json.loads(json.dumps({key_of(record): to_json(form, 1)}))


def test_what_is_typed_and_not_kept_yet_comes_back_as_typed(made):
    form = shown_for(made(), None, None, kept(made()), "")
    assert form == TYPED
    shown = fields_of(form)
    assert shown["pains"] == ["1", "x", ""]
    assert (shown["held"], shown["signs"], shown["decision"]) == ("no", list(STOP_SIGNS[:2]), "repeat")
    assert shown["texts"]["note"] == "sore"


def test_it_does_not_turn_up_under_another_plan_or_session_and_nobody_signs_another_plan(made):
    record, other = made(), made(aim="ease_off")
    stands = key_of(record)
    assert shown_for(other, stands, None, kept(record), "AB") == LogForm()
    assert shown_for(logged(record, "repeat"), stands, None, kept(record), "AB") == LogForm(by="AB")
    assert shown_for(record, key_of(other), None, kept(record), "") == TYPED


def test_a_plan_that_was_changed_leaves_the_fields_as_they_are(made):
    record = made()
    changed = replace(record, throws=record.throws[:-1], repeats=record.repeats[:-1])
    assert shown_for(changed, key_of(record), None, kept(record), "") is None
    assert shown_for(None, None, None, kept(record), "") is None


def test_a_session_taken_out_of_the_log_stands_in_the_fields_whatever_was_kept_of_it(made):
    record = made()
    one = thrown(
        record, "step_back", days_off=3, pain_after=4, pain_next_morning=None, speed_held=False, signs=["swelling"]
    )
    after = edits.log_session(record, replace(one, note="n"))
    form = shown_for(record, key_of(record), taken_out(after, record), kept(record), "")
    day = one.day.isoformat()
    assert form == LogForm("0", "4", "", "no", "swelling", "step_back", day, "3", "AB", "n")
    assert [taken_out(*pair) for pair in ((record, after), (record, record), (None, record), (after, None))] == [
        None
    ] * 4
    assert taken_out(after, made(aim="ease_off")) is None


@pytest.mark.parametrize(
    "junk", [None, 3, "x", [], {}, {"version": 1}, to_json(LogForm(note="x" * 201), 1), to_json(TYPED, 9), {"note": 3}]
)
def test_whatever_the_browser_kept_the_fields_are_filled_or_empty(made, junk):
    assert shown_for(made(), None, None, junk, 3) == LogForm()
    assert shown_for(made(), None, None, {key_of(made()): junk}, "x") == LogForm()


def test_a_choice_that_is_none_is_left_open():
    shown = fields_of(LogForm(held="maybe", signs="sniffles|swelling", decision="win"))
    assert (shown["held"], shown["signs"], shown["decision"]) == ("", ["swelling"], None)
