"""Changes to a kept plan: by hand, from new numbers, after sessions."""

from dataclasses import replace
from datetime import date

import pytest

from app.buildup import edits
from app.buildup.recheck import recheck
from app.buildup.record import Record, course_of
from model.build_up import NoPlan
from model.checks import InputError
from model.course import Thrown
from model.full_speeds import SpeedTable
from model.soreness import After
from tests.app.buildup.conftest import TODAY


def thrown(record, decision="advance", day=None, days_off=0, **after) -> Thrown:
    session = course_of(record).schedule.sessions[0]
    said = After(**({"pain_before": 0, "pain_after": 0, "pain_next_morning": 0} | after))
    step = session.step
    return Thrown(
        day or session.day, session.place, step.ball, step.speed_m_s, session.throws, said, decision, days_off, "AB"
    )


def logged(record, *decisions):
    for decision in decisions:
        record = edits.log_session(record, thrown(record, decision))
    return record


def test_a_step_changed_by_hand_breaks_the_limits_that_its_numbers_say(made):
    record = made()
    ball, share = record.throws[4]
    changed = edits.change_step(record, 4, ball, share + 0.1, 2, TODAY)
    course = course_of(changed)
    before, after = changed.steps[3].metrics, changed.steps[4].metrics
    over = {key for key, rise in record.limits.rises.items() if after[key] > (1 + rise) * before[key]}
    assert {one.key for one in course.breaches if one.step == 4} == over
    assert "rise_rate" in over
    assert course_of(record).breaches == ()
    assert changed.changed == (f"{TODAY}: step 5 changed by hand",)


def test_a_change_that_changes_nothing_is_none(made):
    record = made()
    assert edits.change_step(record, 4, *record.throws[4], 2, TODAY) is record


def test_sessions_at_a_step_move_the_days_of_those_after_it(made):
    record = made()
    later = edits.change_step(record, 0, *record.throws[0], 3, TODAY)
    assert [one.place for one in course_of(later).schedule.sessions[:4]] == [0, 0, 0, 1]


def test_a_step_is_left_out_and_put_in(made):
    record = made()
    fewer = edits.leave_out(record, 3, TODAY)
    assert fewer.throws == record.throws[:3] + record.throws[4:]
    more = edits.put_in(record, 3, TODAY)
    assert more.throws[3] == more.throws[4] == record.throws[3]
    assert len(more.repeats) == len(more.throws) == len(record.throws) + 1


def test_what_was_thrown_cannot_be_changed(made):
    record = logged(made(), "advance", "advance", "advance")
    assert record.place == 1
    with pytest.raises(InputError, match="still to come"):
        edits.change_step(record, 0, *record.throws[0], 2, TODAY)
    with pytest.raises(InputError, match="2 or more: 1 at this step"):
        edits.change_step(record, 1, *record.throws[1], 1, TODAY)
    with pytest.raises(InputError, match="not begun"):
        edits.leave_out(record, 1, TODAY)
    with pytest.raises(InputError, match="Session"):
        edits.change_session(record, 0, None, 10, TODAY)


@pytest.mark.parametrize("place", [-1, 99])
def test_a_step_that_is_not_there_is_refused(made, place):
    record = made()
    for change in (edits.leave_out, edits.put_in):
        with pytest.raises(InputError, match="Step"):
            change(record, place, TODAY)


def test_a_session_set_by_hand_stands_until_it_is_emptied(made):
    record = made()
    day = date(2026, 3, 3)  # a Tuesday
    changed = edits.change_session(record, 1, day, 7, TODAY)
    session = course_of(changed).schedule.sessions[1]
    assert (session.day, session.throws) == (day, 7)
    assert [one.kind for one in course_of(changed).session_breaches] == ["weekday"]
    assert dict(edits.change_session(changed, 1, None, None, TODAY).by_hand) == {}


def test_the_rest_planned_again_starts_at_its_step_and_ends_at_the_goal(made):
    record = logged(made(), *["advance"] * 7)
    count = len(record.throws) - record.place
    again = edits.plan_rest(record, record.place, count + 2, TODAY)
    assert isinstance(again, Record)
    assert again.throws[: record.place + 1] == record.throws[: record.place + 1]
    assert again.throws[-1] == record.throws[-1]
    assert len(again.throws) == len(record.throws) + 2
    assert (again.at, again.place) == (record.at, record.place)
    assert course_of(again).breaches == ()


def test_the_rest_in_too_few_steps_is_no_plan(made):
    assert isinstance(edits.plan_rest(made(), 0, 4, TODAY), NoPlan)


def test_decisions_move_the_rest_of_the_calendar(made):
    record = made()
    days = [one.day for one in course_of(record).schedule.sessions]
    went_on, repeated = logged(record, "advance"), logged(record, "repeat")
    assert [one.day for one in course_of(went_on).schedule.sessions] == days[1:]
    assert len(course_of(repeated).schedule.sessions) == len(days)
    assert course_of(repeated).schedule.sessions[0].place == 0
    back = logged(record, *["advance"] * 3, "step_back")
    assert course_of(back).schedule.sessions[0].place == 0
    assert len(course_of(back).schedule.sessions) == len(days)


def test_days_off_put_the_next_session_off(made):
    record = made()
    monday = course_of(record).schedule.sessions[0].day
    rested = edits.log_session(record, thrown(record, "repeat", days_off=2))
    assert course_of(rested).schedule.sessions[0].day == date(2026, 3, 6)
    assert monday == TODAY  # Monday the 2nd, off on the 3rd and 4th, and Thursday the 5th is no day to throw on


def test_a_stop_ends_it_and_it_can_be_taken_up_again(made):
    record = logged(made(), "advance", "stop")
    assert course_of(record).schedule.sessions == ()
    with pytest.raises(InputError, match="still to come"):
        edits.log_session(record, replace(record.log[-1], day=date(2026, 3, 20)))
    again = edits.take_up_again(record, date(2026, 4, 1), TODAY)
    assert course_of(again).schedule.sessions[0].day == date(2026, 4, 1)
    assert again.at == 1  # the session that was stopped is thrown again
    with pytest.raises(InputError, match="not stopped"):
        edits.take_up_again(again, date(2026, 4, 1), TODAY)


def test_no_budget_climbs_while_nothing_is_thrown(made):
    record = logged(made(target_day="2026-03-20"), "advance", "stop")
    again = course_of(edits.take_up_again(record, date(2026, 5, 4), TODAY))
    first = record.budget.first_nms  # of the first week; by hand a tenth more in the second
    assert [one.budget_nms for one in again.schedule.sessions[:4]] == pytest.approx([first] * 3 + [1.1 * first])
    assert again.calendar.first_day == date(2026, 5, 4)
    assert again.schedule.days_late > 45  # the target day has passed
    more = course_of(logged(again.record, "advance", "advance", "advance"))
    assert more.schedule.sessions[0].budget_nms == pytest.approx(1.1 * first)


def test_the_last_session_can_be_opened_again(made):
    record = logged(made(), "advance", "repeat")
    assert edits.reopened(record) == replace(record, log=record.log[:1])
    assert edits.reopened(made()) == made()


def test_a_session_before_the_last_is_refused(made):
    record = logged(made(), "advance")
    with pytest.raises(InputError, match="Day"):
        edits.log_session(record, thrown(record, day=date(2026, 2, 1)))


def test_a_plan_is_thrown_to_its_end(made):
    record = made(aim="ease_off")
    done = logged(record, *["advance"] * sum(record.repeats))
    assert course_of(done).done
    assert done.place == len(done.throws)


def test_new_numbers_are_asked_about_once_and_change_nothing_until_taken(made, case):
    record = made()
    faster = SpeedTable(record.table.balls, tuple(1.1 * v for v in record.table.speeds_m_s))
    old = replace(record, table=faster)  # as if made from faster readings
    found = recheck(old, case())
    # by hand: speed caps fall by 1/1.1, the same for all, so that no rise of speed changes
    assert [now.speed_m_s / then.speed_m_s for now, then in zip(found.now, found.then, strict=True)] == pytest.approx(
        [1 / 1.1] * len(record.throws)
    )
    assert found.rests_on == record.rests_on
    taken = edits.take_numbers(old, found.person, found.table, found.rests_on, TODAY)
    assert taken.steps == record.steps
    assert recheck(taken, case()) is None
    assert recheck(replace(old, refused=found.mark), case()) is None
    assert recheck(old, case("W02")) is None


def test_only_steps_that_are_left_are_checked_again(made, case):
    record = made()
    faster = SpeedTable(record.table.balls, tuple(1.1 * v for v in record.table.speeds_m_s))
    begun = logged(replace(record, table=faster), *["advance"] * 6)
    found = recheck(begun, case())
    assert found.first == 3
    assert len(found.now) == len(record.throws) - 3
    assert begun.log[0].speed_m_s == pytest.approx(1.1 * record.steps[0].speed_m_s)


def test_who_has_read_the_text_about_growing_throwers_is_kept_by_initials(made):
    read = edits.acknowledge(made("W04"), " CD ", TODAY)
    assert (read.read.by, read.read.on) == ("CD", TODAY)
    for wrong in ("", "  ", "x" * 9, "a\nb", None):
        with pytest.raises(InputError, match="Initials"):
            edits.acknowledge(made("W04"), wrong, TODAY)
