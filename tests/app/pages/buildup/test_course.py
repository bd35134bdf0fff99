"""What follows from any log: after pain nothing planned is more, under a stop sign nothing, and nothing leaps."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pages.buildup.course import course_of, thrown_metrics
from app.pages.buildup.edits import change_session
from model.ladder import HELD_DOWN
from model.session_log import facts_of
from tests.app.pages.buildup.conftest import FINE, TODAY, keep, logged, pain, plan_for, thrown

HEAVY = (("aim", "after_injury"), ("first_throws", "15"), ("order", "heavy"), ("repeats", "3"))
NOTES = [
    FINE,
    FINE,
    FINE,
    pain(throwing=2),
    pain(hour_after=1),
    pain(before=2, throwing=None),
    pain(throwing=3, next_morning=None),
]
TOLD = st.lists(
    st.tuples(
        st.sampled_from(NOTES),
        st.floats(0.3, 1.0),
        st.floats(0.85, 1.0),
        st.sampled_from(["go_on", "repeat", "step_back"]),
        st.booleans(),
    ),
    max_size=8,
)


def played(told):
    """A plan with sessions thrown one by one, as each was open; some with their throws set by hand before."""
    record = plan_for("W06", True, False, HEAVY)
    for notes, share, speed, decision, by_hand in told:
        one = course_of(record).next
        if one is None:
            break
        if by_hand and not one.lowered:
            record = change_session(record, one.index, None, 90, TODAY)
            one = course_of(record).next
        throws = max(1, int(share * one.throws)) if (notes.pain.before or 0) == 0 else 0
        kept = thrown(record, decision, notes, throws=throws, top_speed_m_s=max(1.0, speed * one.step.speed_m_s))
        record = keep(record, kept)
        yield course_of(record)


@settings(max_examples=25, deadline=None)
@given(TOLD)
def test_after_any_log_nothing_planned_is_more_than_pain_allows_nothing_stands_under_a_sign_and_nothing_leaps(told):
    for course in played(told):
        if course.record.signs:
            assert (course.closed, course.schedule.sessions) == ("stop_sign", ())
        no_more_than_up_to_the_pain(course)
        climbs_from_the_first_painless(course)


def no_more_than_up_to_the_pain(course) -> None:
    """Until a session without pain: throws, area, peak, rise and speed."""
    log = course.record.log
    since = max((i for i, one in enumerate(log) if one.notes.painless), default=-1)
    painful = [i for i in range(since + 1, len(log)) if log[i].notes.painful]
    if painful:
        assert len(course.schedule.sessions) <= 1
    for session in course.schedule.sessions:
        for i in painful:
            up_to, read = facts_of(log)[i].thrown_up_to_pain, thrown_metrics(course)[i]
            if up_to == 0:
                continue
            assert session.throws <= up_to
            assert session.area_nms <= up_to * read["area"] * (1.0 + 1e-8)
            assert all(session.step.metrics[key] <= read[key] * (1.0 + 1e-8) for key in HELD_DOWN)


def climbs_from_the_first_painless(course) -> None:
    """After it: the area of a session by a tenth a week, every metric by the step limits."""
    since, sessions = course.standing.since_pain, course.schedule.sessions
    if since is None or course.closed:
        return
    first = since.throws * course.row.at(since.ball, since.reached_m_s).metrics["area"]
    for session in sessions:
        weeks = max(0, (session.day - since.day).days // 7)
        by_hand = session.index in course.record.by_hand and not session.lowered
        assert by_hand or session.area_nms <= first * 1.1**weeks * (1.0 + 1e-8)
    for low, high in pairwise(one.step for one in sessions):
        for key, rise in course.row.rises.items():
            assert high.metrics[key] <= low.metrics[key] * (1 + rise) * (1 + 1e-6)


def test_the_plan_stands_at_the_step_that_comes_next(made):
    assert course_of(made()).place == 0
    assert course_of(logged(made(), "go_on", "go_on")).place == 1
    assert course_of(logged(made(), "go_on", "go_on", "stop")).place == 1


def test_where_a_budget_is_too_small_for_the_least_throws_it_says_so(made):
    course = course_of(made(aim="in_season", first_throws="10", least_throws="12"))
    assert course.trouble.startswith("No days: a budget that comes to")
    assert course.schedule.sessions == ()


@pytest.mark.parametrize("code", ["W01", "W06"])
def test_a_throw_of_the_log_is_read_at_its_highest_speed(made, code):
    record = keep(made(code), thrown(made(code), top_speed_m_s=12.0))
    course = course_of(record)
    assert thrown_metrics(course)[0] == course.row.at(record.log[0].ball, 12.0).metrics
