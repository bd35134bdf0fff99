"""How far a plan has come: small rows of sessions, followed by hand."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks import InputError
from model.course import BREAK_DAYS, DECISIONS, Thrown, earliest_day, next_session, weeks_from
from model.soreness import After
from tests.model.speed_cases import OWN

ORDER = (0, 0, 1, 1, 2)


def thrown(day=date(2026, 3, 2), decision="advance", days_off=0, by="AB", **more) -> Thrown:
    return Thrown(day, 0, OWN, 20.0, 25, After(0, 0), decision, days_off, by, **more)


@pytest.mark.parametrize(
    ("decisions", "at"),
    [
        ([], 0),
        (["advance"], 1),
        (["advance", "advance"], 2),
        (["repeat", "repeat"], 0),
        (["advance", "advance", "advance", "step_back"], 0),  # from the second session of step 2 to the first of step 1
        (["advance"] * 4 + ["step_back"], 2),
        (["step_back"], 0),  # there is no step before the first
        (["advance"] * 5, 5),
        (["advance"] * 7, 5),
        (["advance", "stop"], None),
        (["stop", "advance"], None),
    ],
)
def test_by_hand_the_next_session_after_what_was_decided(decisions, at):
    assert next_session(ORDER, decisions) == at


@given(st.lists(st.sampled_from(sorted(DECISIONS)), max_size=30))
def test_the_next_session_is_always_one_of_the_plan_or_its_end(decisions):
    at = next_session(ORDER, decisions)
    assert at is None or 0 <= at <= len(ORDER)
    assert (at is None) is ("stop" in decisions)


def test_days_off_come_before_the_next_session():
    assert earliest_day(date(2026, 3, 2), []) == date(2026, 3, 2)
    assert earliest_day(date(2026, 3, 2), [thrown()]) == date(2026, 3, 3)
    assert earliest_day(date(2026, 3, 2), [thrown(days_off=2)]) == date(2026, 3, 5)
    assert earliest_day(date(2026, 4, 1), [thrown(days_off=2)]) == date(2026, 4, 1)


def test_after_a_break_weeks_begin_anew_and_go_on_from_there():
    first, before = date(2026, 3, 2), thrown(day=date(2026, 3, 4))
    assert weeks_from(first, [before], date(2026, 3, 6)) == first
    assert weeks_from(first, [before], date(2026, 3, 18)) == first  # fourteen days
    assert weeks_from(first, [before], date(2026, 3, 19)) == date(2026, 3, 19)
    after = thrown(day=date(2026, 4, 1))
    assert weeks_from(first, [before, after], date(2026, 4, 3)) == date(2026, 4, 1)
    assert weeks_from(first, [], first) == first
    assert BREAK_DAYS == 14


@pytest.mark.parametrize(
    "wrong", [{"by": " "}, {"decision": "go"}, {"days_off": -1}, {"days_off": 1.5}, {"days_off": 100}]
)
def test_a_line_of_the_log_without_initials_or_with_what_is_not_accepted_is_refused(wrong):
    with pytest.raises(InputError):
        thrown(**wrong)
