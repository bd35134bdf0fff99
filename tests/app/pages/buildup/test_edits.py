"""Changes to a kept plan: by hand, and from new numbers."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.buildup import edits
from app.pages.buildup.course import course_of
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import Record
from model.build_up import NoPlan
from model.checks import InputError
from model.full_speeds import SpeedTable
from model.ladder import Most
from model.stop_signs import StopSign
from tests.app.pages.buildup.conftest import COACH, TODAY, keep, logged, pain, thrown


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


def test_by_hand_too_the_own_ball_comes_early_and_slowly(made):
    record = made(order="heavy")
    own = next(i for i, (ball, _) in enumerate(record.throws) if ball == record.own_ball)
    with pytest.raises(InputError, match="first at 80 % or less: after time off"):
        edits.change_step(record, own, record.own_ball, 0.85, 2, TODAY)
    heavy = record.throws[0][0]

    def replaced(plan, places):
        for place in places:
            plan = edits.change_step(plan, place, heavy, 0.7, 2, TODAY)

    with pytest.raises(InputError, match="first at 80 % or less"):  # then it comes first where it is faster
        replaced(record, range(own, len(record.throws)))
    slow = made(order="heavy", goal_percent="80")
    with pytest.raises(InputError, match="within two thirds"):
        replaced(slow, range(len(slow.throws) - 1))
    free = made(aim="fast_block")
    assert edits.change_step(free, 0, free.own_ball, 0.95, 1, TODAY).throws[0][1] == 0.95


def test_a_plan_made_after_a_stop_sign_is_not_made_to_start_higher_by_hand(made):
    record = made()
    first = record.steps[0]
    most = Most(
        10,
        10 * first.metrics["area"],
        {key: first.metrics[key] for key in ("peak", "shoulder_peak", "rise_rate", "speed")},
    )
    record = replace(record, start_most=most)
    with pytest.raises(InputError, match="no higher than the last painless session"):
        edits.change_step(record, 0, record.own_ball, record.throws[0][1] + 0.05, 2, TODAY)
    faster = SpeedTable(record.table.balls, tuple(1.1 * v for v in record.table.speeds_m_s))
    with pytest.raises(InputError, match="no higher than the last painless session"):
        edits.take_numbers(record, record.person, faster, record.rests_on, None, TODAY)


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
    record = logged(made(), "go_on", "go_on", "go_on")
    assert course_of(record).place == 1
    with pytest.raises(InputError, match="still to come"):
        edits.change_step(record, 0, *record.throws[0], 2, TODAY)
    with pytest.raises(InputError, match="2 or more: 1 at this step"):
        edits.change_step(record, 1, *record.throws[1], 1, TODAY)
    with pytest.raises(InputError, match="not begun"):
        edits.leave_out(record, 1, TODAY)
    with pytest.raises(InputError, match="Session"):
        edits.change_session(record, 0, None, 10, TODAY)


def test_nothing_is_changed_by_hand_under_a_stop_sign(made):
    record = replace(made(), signs=(StopSign("swelling", TODAY, None, COACH),))
    for change in (edits.leave_out, edits.put_in):
        with pytest.raises(InputError, match="under a stop sign"):
            change(record, 3, TODAY)
    with pytest.raises(InputError, match="Session"):
        edits.change_session(record, 0, None, 10, TODAY)


@pytest.mark.parametrize("place", [-1, 99])
def test_a_step_that_is_not_there_is_refused(made, place):
    for change in (edits.leave_out, edits.put_in):
        with pytest.raises(InputError, match="Step"):
            change(made(), place, TODAY)


def test_a_session_set_by_hand_stands_until_it_is_emptied(made):
    record = made()
    day = date(2026, 3, 3)  # a Tuesday
    changed = edits.change_session(record, 1, day, 7, TODAY)
    session = course_of(changed).schedule.sessions[1]
    assert (session.day, session.throws) == (day, 7)
    assert [one.kind for one in course_of(changed).session_breaches] == ["weekday"]
    assert dict(edits.change_session(changed, 1, None, None, TODAY).by_hand) == {}


def test_what_was_set_by_hand_before_pain_is_gone_after_it(made):
    record = edits.change_session(made(), 3, None, 60, TODAY)
    assert course_of(logged(record, "go_on")).record.by_hand
    assert not keep(record, thrown(record, "repeat", pain(throwing=2))).by_hand


def test_the_rest_planned_again_starts_at_its_step_and_ends_at_the_goal(made):
    record = logged(made(order="heavy"), *["go_on"] * 7)
    place = course_of(record).place
    count = len(record.throws) - place
    again = edits.plan_rest(record, place, count + 2, TODAY)
    assert isinstance(again, Record)
    assert again.throws[: place + 1] == record.throws[: place + 1]
    assert again.throws[-1] == record.throws[-1]
    assert len(again.throws) == len(record.throws) + 2
    assert course_of(again).next.index == course_of(record).next.index
    assert course_of(again).breaches == ()


def test_the_rest_in_too_few_steps_is_no_plan(made):
    assert isinstance(edits.plan_rest(made(), 0, 4, TODAY), NoPlan)


def test_the_rest_keeps_the_limits_from_start_as_long_as_they_hold(made):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="steps", hold_count="6")
    again = edits.plan_rest(record, 2, None, TODAY)
    assert min(course_of(again).passes) >= 6


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
    taken = edits.take_numbers(old, found.person, found.table, found.rests_on, found.limits, TODAY)
    assert taken.steps == record.steps
    assert recheck(taken, case()) is None
    assert recheck(replace(old, refused=found.mark), case()) is None


def test_what_the_limits_from_start_allow_follows_new_numbers(made, case):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="steps", hold_count="6")
    slower = replace(record, person=replace(record.person, body_mass_kg=70.0))
    found = recheck(slower, case("W06"))
    assert found.limits.shares == record.first.shares


def test_only_steps_that_are_left_are_checked_again(made, case):
    record = made()
    faster = SpeedTable(record.table.balls, tuple(1.1 * v for v in record.table.speeds_m_s))
    begun = logged(replace(record, table=faster), *["go_on"] * 6)
    found = recheck(begun, case())
    assert found.first == 3
    assert len(found.now) == len(record.throws) - 3
    assert begun.log[0].speed_m_s == pytest.approx(1.1 * record.steps[0].speed_m_s)
