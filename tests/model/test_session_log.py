"""The log of a plan: what a session takes, when the next may be, and what comes late."""

from dataclasses import replace

import pytest

from model.checks import InputError
from model.ladder import Rung
from model.session_log import BREAK_DAYS, after_a_sign, earliest_day, facts_of, new_signs, weeks_from
from model.session_rules import JointPain, Notes
from model.stop_signs import Signed, StopSign, cleared, withdrawn
from tests.model.course_cases import FINE, FIRST, logged, on, pain, row

FIRST_RUNG = Rung(0, 0, row().steps[0])


def session(notes=FINE, day=FIRST, **more):
    return logged(FIRST_RUNG, notes, day=day, **more)


def test_days_off_come_before_the_next_session_those_decided_and_those_the_rules_ask_for():
    assert earliest_day(FIRST, []) == FIRST
    assert earliest_day(FIRST, [session()]) == on(1)
    assert earliest_day(FIRST, [session(days_off=3)]) == on(4)
    assert earliest_day(FIRST, [session(pain(throwing=2))]) == on(3)  # two days off
    assert earliest_day(FIRST, [session(pain(throwing=2), role="clinician")]) == on(1)
    assert earliest_day(on(30), [session(days_off=2)]) == on(30)


def test_after_a_break_weeks_begin_anew_and_go_on_from_there():
    assert weeks_from(FIRST, [session(day=on(2))], on(4)) == FIRST
    assert weeks_from(FIRST, [session(day=on(2))], on(2 + BREAK_DAYS)) == FIRST
    assert weeks_from(FIRST, [session(day=on(2))], on(3 + BREAK_DAYS)) == on(3 + BREAK_DAYS)
    assert weeks_from(FIRST, [session(day=on(30)), session(day=on(32))], on(34)) == on(30)


def test_pain_in_a_row_counts_over_sessions_of_which_nothing_is_known():
    dulled = replace(FINE, painkiller=True)
    rows = [
        facts.painful_in_a_row
        for facts in facts_of([session(one) for one in (pain(throwing=2), dulled, pain(throwing=2))])
    ]
    assert rows == [1, 0, 2]
    free = [
        facts.painful_in_a_row
        for facts in facts_of([session(one) for one in (pain(throwing=2), FINE, pain(throwing=2))])
    ]
    assert free == [1, 0, 1]


def test_a_sign_that_is_entered_late_holds_from_its_session_and_marks_those_since():
    log = [session(), session(day=on(2)), session(day=on(4))]
    late = [log[0], replace(log[1], notes=Notes(FINE.pain, FINE.soreness, ("swelling",), False)), log[2]]
    signs = new_signs(late, (), {1: Signed("CD", "parent", on(6))})
    assert [(one.sign, one.since, one.session, one.entered.on) for one in signs] == [("swelling", on(2), 1, on(6))]
    assert after_a_sign(late, signs) == {2}
    assert after_a_sign(late, withdrawn(signs, 0, Signed("CD", "coach", on(6), "mistaken"))) == frozenset()
    assert after_a_sign(late, cleared(signs, Signed("PT", "clinician", on(3)))) == frozenset()
    outside = StopSign("numbness", on(1), None, Signed("CD", "parent", on(6)))
    assert after_a_sign(log, (outside,)) == {1, 2}


def test_a_morning_filled_in_later_is_a_sign_of_its_session():
    log = [session(pain(throwing=1, next_morning=1)), session(day=on(2))]
    assert [one.sign for one in new_signs(log, (), {})] == ["morning_pain"]


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"by": " "}, "by"),
        ({"role": "friend"}, "role"),
        ({"decision": "advance"}, "decision"),
        ({"days_off": 61}, "days_off"),
        ({"days_off": 0.5}, "days_off"),
        ({"throws": 0}, "throws"),
        ({"throws": 501}, "throws"),
        ({"top_speed_m_s": 0.5}, "top_speed_m_s"),
    ],
)
def test_what_is_not_accepted_is_refused_by_name(change, name):
    with pytest.raises(InputError, match=name):
        replace(session(), **change)


def test_nothing_thrown_is_taken_where_pain_came_before_the_first_throw():
    assert session(Notes(JointPain("elbow", 3), painkiller=False), throws=0).throws == 0
