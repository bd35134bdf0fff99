"""Stop signs stay with the athlete, whatever becomes of the plan; and a plan made after one starts no higher."""

from dataclasses import replace

import pytest

from app.pages.buildup import making
from app.pages.buildup.course import course_of
from app.pages.buildup.signs import Known, before_making, joined, kept_signs, known_of, noted
from model.stop_signs import cleared
from tests.app.pages.buildup.conftest import CLINICIAN, FINE, TODAY, keep, logged, pain, text_of, thrown


@pytest.fixture
def stopped(made):
    """A plan that stands still: 24 throws without pain, and then swelling."""
    record = keep(made(), thrown(made(), throws=24))
    return keep(record, thrown(record, "", replace(FINE, signs=("swelling",))))


@pytest.fixture
def done(stopped):
    """The same, once the sign was cleared."""
    return replace(stopped, signs=cleared(stopped.signs, CLINICIAN))


def test_another_plan_of_the_athlete_stands_still_too_and_that_of_another_does_not(stopped, made):
    store = noted(None, stopped)
    assert course_of(joined(made(order="heavy"), store)).closed == "stop_sign"
    assert course_of(joined(made("W05"), store)).closed == ""
    assert course_of(joined(replace(made(), code=""), store)).closed == ""
    assert course_of(joined(replace(made(), invented=False), store)).closed == ""


def test_no_plan_is_made_while_a_sign_stands_whether_its_plan_is_shown_or_put_away(page, stopped):
    for record, known in (
        (stopped, before_making(None, stopped, "W01", True)),
        (None, before_making(noted(None, stopped), None, "W01", True)),
    ):
        act = making.made(page(record, known=known))
        assert act.record is record
        assert "a stop sign stands for this athlete" in text_of(act.said)
    assert making.made(page(stopped, "W05", known=before_making(noted(None, stopped), stopped, "W05", True))).record


def test_the_plan_made_anew_starts_no_higher_than_the_last_painless_session_and_says_so(page, done):
    known = before_making(None, done, "W01", True)
    one = done.log[0]
    assert (known.most.throws, known.most.metrics["speed"]) == (24, one.speed_m_s)
    act = making.made(page(done, known=known, start_percent="80"))
    assert "up to 24 throws after the stop sign" in text_of(act.said)
    made = making.made(page(done, known=known, start_percent="80", first_throws="20")).record
    assert made.steps[0].speed_m_s <= one.speed_m_s
    assert "no higher than the last painless session" in made.notes[0]
    assert made.earlier == done.signs
    assert course_of(joined(made, noted(None, done))).closed == ""


def test_after_a_painless_session_of_the_new_plan_the_next_plan_begins_freely(page, done):
    store = noted(None, done)
    known = before_making(store, done, "W01", True)
    made = making.made(page(done, known=known, first_throws="20")).record
    assert before_making(noted(store, made), made, "W01", True).most is not None
    thrown_once = logged(made, "go_on")
    assert before_making(noted(noted(store, made), thrown_once), thrown_once, "W01", True).most is None


def test_a_plan_opened_from_before_the_sign_is_not_gone_on_with(done, made):
    old = joined(made(order="heavy"), noted(None, done))
    assert course_of(old).closed == "plan_anew"


def test_what_pain_was_filled_in_for_another_plan_is_found_in_a_file_that_lacks_its_signs(made):
    record = keep(made(), thrown(made(), "", pain(throwing=6)))
    assert course_of(joined(replace(record, signs=()), None)).closed == "stop_sign"


def test_without_a_plan_the_athletes_signs_are_cleared_all_the_same(stopped):
    store = noted(None, stopped)
    known = known_of(store, "W01", True)
    after = kept_signs(store, "W01", True, cleared(known.signs, CLINICIAN))
    assert before_making(after, None, "W01", True).standing == ()
    assert before_making(after, None, "W01", True).most.throws == 24


@pytest.mark.parametrize(
    "junk", [None, 3, "x", [], {"invented W01": 3}, {"invented W01": {"signs": [3, {}], "mosts": {"a": 3}}}]
)
def test_whatever_the_browser_kept_it_is_read_or_left_out(junk, made):
    assert known_of(junk, "W01", True) == Known()
    assert joined(made(), junk) == made()
    assert TODAY


def test_without_any_sign_nothing_is_kept(made):
    assert noted(None, made()) == {}
