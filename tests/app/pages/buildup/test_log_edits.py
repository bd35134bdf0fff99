"""After sessions: the log moves what is left, pain holds it down, and a stop sign shuts it."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.buildup import log_edits
from app.pages.buildup.course import course_of
from app.pages.buildup.record import HandedOut
from model.checks import InputError
from model.session_rules import JointPain, Notes
from model.stop_signs import Signed, cleared, withdrawn
from tests.app.pages.buildup.conftest import CLINICIAN, COACH, FINE, TODAY, keep, logged, pain, thrown

MORNING = replace(FINE, pain=JointPain("", 0, 0, 0, None))


def changed(record, at, by=COACH, **more):
    """Change a session of the log."""
    return log_edits.keep_session(record, at, replace(record.log[at], **more), by, TODAY)


def test_decisions_move_the_rest_of_the_calendar(made):
    record = made()
    days = [one.day for one in course_of(record).schedule.sessions]
    went_on, repeated = logged(record, "go_on"), logged(record, "repeat")
    assert [one.day for one in course_of(went_on).schedule.sessions] == days[1:]
    assert len(course_of(repeated).schedule.sessions) == len(days)
    assert course_of(repeated).next.place == 0
    back = logged(record, *["go_on"] * 3, "step_back")
    assert course_of(back).next.place == 0
    assert len(course_of(back).schedule.sessions) == len(days)


def test_three_painful_sessions_never_bring_more_throws_more_area_or_a_higher_peak(made):
    # the plan that once answered pain 0 / 4 / 2 with 17 throws after 16, and 4 / 4 and "one step back" with 18 after 15
    record = made("W06", aim="after_injury", order="heavy", first_throws="15", repeats="3")
    record = logged(record, "go_on")
    before = course_of(record).next
    for _ in range(2):
        one = course_of(record).next
        record = keep(record, thrown(record, "repeat", pain(throwing=4)))
        after = course_of(record).next
        assert after.throws <= one.throws <= before.throws
        assert after.area_nms <= one.area_nms * (1 + 1e-9)
        assert after.step.metrics["peak"] <= one.step.metrics["peak"] * (1 + 1e-9)
        assert course_of(record).schedule.sessions == (after,)
    record = keep(record, thrown(record, "step_back", pain(throwing=4)))
    assert [one.sign for one in record.signs] == ["third_in_a_row"]
    assert course_of(record).closed == "stop_sign"
    assert course_of(record).schedule.sessions == ()


def test_after_pain_throws_and_area_climb_from_the_first_painless_session_a_tenth_a_week(made):
    record = logged(made(first_throws="25"), "go_on", "go_on", "go_on", "go_on")
    painful = course_of(record).next
    record = keep(record, thrown(record, "repeat", pain(throwing=3), throws=10))
    assert course_of(record).next.throws <= 10
    record = keep(record, thrown(record, "go_on"))
    course, since = course_of(record), record.log[-1]
    thrown_nms = since.throws * course.row.at(since.ball, since.reached_m_s).metrics["area"]
    assert course.calendar.first_day == since.day
    for one in course.schedule.sessions:
        week = (one.day - since.day).days // 7
        assert one.area_nms <= thrown_nms * 1.1**week * (1 + 1e-9)
    assert course.schedule.sessions[0].throws < painful.throws


def test_days_off_put_the_next_session_off(made):
    record = made()
    rested = keep(record, thrown(record, "repeat", days_off=2))
    # Monday the 2nd, off on the 3rd and 4th, and Thursday the 5th is no day to throw on
    assert course_of(rested).next.day == date(2026, 3, 6)


def test_not_entered_is_not_none(made):
    record = made()
    unknown = keep(record, thrown(record, "", Notes()))
    assert (course_of(unknown).closed, course_of(unknown).next) == ("not_entered", None)
    open_morning = keep(record, thrown(record, "go_on", MORNING))
    assert course_of(open_morning).next.index == 0  # this session again
    filled = changed(open_morning, 0, notes=FINE)
    assert course_of(filled).next.index == 1
    assert filled.changed[-1] == f"{TODAY}: session 1 filled in by AB"


def test_what_is_filled_in_later_is_a_sign_of_its_day_and_marks_the_sessions_since(made):
    record = logged(made(), "go_on", "go_on", "go_on")
    parent = Signed("CD", "parent", date(2026, 3, 20))
    late = changed(record, 1, parent, notes=pain(next_morning=2))
    (sign,) = late.signs
    assert (sign.sign, sign.since, sign.session, sign.entered) == ("morning_pain", record.log[1].day, 1, parent)
    assert course_of(late).late == {2}
    assert course_of(late).closed == "stop_sign"


def test_a_sign_stays_when_its_entry_is_changed_or_taken_out_and_is_withdrawn_with_words(made):
    record = keep(made(), thrown(made(), "", replace(FINE, signs=("swelling",))))
    mended = changed(record, 0, notes=FINE, decision="go_on")
    assert course_of(mended).closed == "stop_sign"
    assert course_of(log_edits.reopened(record, TODAY)).closed == "stop_sign"
    signs = withdrawn(mended.signs, 0, replace(COACH, words="another athlete"))
    assert course_of(replace(mended, signs=signs)).next.index == 1


def test_a_sign_outside_of_a_session_shuts_the_plan_and_clearing_it_asks_for_a_new_one(made):
    record = log_edits.enter_sign(logged(made(), "go_on"), "cold_hand", TODAY, COACH)
    assert course_of(record).closed == "stop_sign"
    assert course_of(record).signs[0].urgent
    done = replace(record, signs=cleared(record.signs, CLINICIAN))
    assert course_of(done).closed == "plan_anew"
    with pytest.raises(InputError, match="Session"):
        keep(done, replace(done.log[0], day=date(2026, 3, 9)))


def test_a_sign_that_was_withdrawn_is_entered_again_with_new_words_only(made):
    record = log_edits.enter_sign(made(), "swelling", TODAY, COACH)
    record = replace(record, signs=withdrawn(record.signs, 0, replace(COACH, words="another athlete")))
    with pytest.raises(InputError, match="what is new"):
        log_edits.enter_sign(record, "swelling", TODAY, COACH)
    again = log_edits.enter_sign(record, "swelling", TODAY, replace(COACH, words="the left elbow"))
    assert course_of(again).closed == "stop_sign"
    assert len(again.signs) == 2


def test_a_stop_ends_it_and_it_can_be_taken_up_again(made):
    record = logged(made(), "go_on", "stop")
    assert (course_of(record).closed, course_of(record).schedule.sessions) == ("stopped", ())
    again = log_edits.take_up_again(record, date(2026, 4, 1), TODAY)
    assert course_of(again).next.day == date(2026, 4, 1)
    assert course_of(again).next.index == 1  # the session that was stopped is thrown again
    with pytest.raises(InputError, match="not stopped"):
        log_edits.take_up_again(again, date(2026, 4, 1), TODAY)


def test_no_budget_climbs_while_nothing_is_thrown(made):
    record = logged(made(target_day="2026-03-20"), "go_on", "stop")
    again = course_of(log_edits.take_up_again(record, date(2026, 5, 4), TODAY))
    first = record.budget.first_nms  # of the first week; by hand a tenth more in the second
    assert [one.budget_nms for one in again.schedule.sessions[:4]] == pytest.approx([first] * 3 + [1.1 * first])
    assert again.calendar.first_day == date(2026, 5, 4)
    assert again.schedule.days_late > 45  # the target day has passed


def test_a_session_out_of_its_order_is_refused(made):
    record = logged(made(), "go_on", "go_on")
    with pytest.raises(InputError, match="Day"):
        keep(record, thrown(record, day=date(2026, 2, 1)))
    with pytest.raises(InputError, match="or earlier"):
        changed(record, 0, day=date(2026, 3, 20))


def test_a_plan_is_thrown_to_its_end(made):
    record = made(aim="ease_off")
    done = logged(record, *["go_on"] * sum(record.repeats))
    assert course_of(done).done
    assert course_of(done).place == len(done.throws)


def test_limits_from_start_that_wait_are_cleared_with_initials(made):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="cleared")
    done = log_edits.clear_limits(record, CLINICIAN, TODAY)
    assert len(course_of(done).schedule.sessions) == sum(record.repeats) > len(course_of(record).schedule.sessions)
    with pytest.raises(InputError, match="wait to be cleared"):
        log_edits.clear_limits(done, CLINICIAN, TODAY)


def test_what_was_handed_out_is_known_to_the_plan_that_takes_its_place(made):
    record = log_edits.handed_out(logged(made(), "go_on"), 24)
    assert record.handed_out == (HandedOut(record.mark, 1, 24),)
    after = log_edits.took_over(made(order="heavy"), record)
    assert after.handed_out == (HandedOut(record.mark, 2, 24),)
    assert log_edits.took_over(made("W05"), record).handed_out == ()
