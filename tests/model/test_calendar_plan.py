"""A plan on a calendar: days, weeks, budgets and throws, worked out by hand."""

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.build_up import METRICS, Plan, PlanLimits, Step
from model.calendar_plan import Budget, ByHand, Calendar, budgets, check_sessions, lay_out, schedule
from model.checks import InputError
from model.ladder import Most, Rung
from tests.model.speed_cases import ADULT, OWN

MONDAY = date(2026, 3, 2)
MON_WED_FRI = frozenset({0, 2, 4})


def plan_of(*areas_nms: float) -> Plan:
    """A plan whose steps differ in area only."""
    steps = tuple(Step(OWN, 0.7, 25.0, dict.fromkeys(METRICS, 1.0) | {"area": area}) for area in areas_nms)
    return Plan(ADULT, steps, PlanLimits({}), "rise_rate", 0.0, "")


def rungs_of(areas_nms: tuple[float, ...], order: tuple[int, ...]) -> list[Rung]:
    steps = plan_of(*areas_nms).steps
    return [Rung(i, place, steps[place]) for i, place in enumerate(order)]


def test_by_hand_three_days_a_week_two_sessions_a_step():
    calendar = Calendar(MONDAY, MON_WED_FRI, easier_every=None, target_day=date(2026, 3, 13))
    found = schedule(plan_of(4.0, 5.0), calendar, Budget(100.0, 0.1))
    rows = [(one.day.day, one.week, one.place, one.throws, one.area_nms) for one in found.sessions]
    # week 0 has 100 N·m·s a session: 25 throws of 4, then 20 of 5; week 1 has 110: 22 of 5
    assert rows == [(2, 0, 0, 25, 100.0), (4, 0, 0, 25, 100.0), (6, 0, 1, 20, 100.0), (9, 1, 1, 22, 110.0)]
    assert found.days_late == -4
    assert found.spare_sessions == 2  # Wednesday 11 and Friday 13


def test_a_target_day_too_early_is_told_and_nothing_is_left_out():
    calendar = Calendar(MONDAY, frozenset({0}), easier_every=None, target_day=date(2026, 3, 10))
    found = schedule(plan_of(4.0, 5.0, 5.0), calendar, Budget(100.0), repeats=[1, 2, 1])
    assert [one.place for one in found.sessions] == [0, 1, 1, 2]
    assert [one.day.day for one in found.sessions] == [2, 9, 16, 23]
    assert (found.days_late, found.spare_sessions) == (13, -2)


def test_by_hand_every_third_week_is_easier_and_the_climb_goes_on_after_it():
    calendar = Calendar(MONDAY, MON_WED_FRI, easier_every=3, easier_share=0.5)
    found = budgets(Budget(100.0, 0.1, most_nms=130.0), calendar, 7)
    assert found == pytest.approx((100.0, 110.0, 55.0, 121.0, 130.0, 65.0, 130.0))


@settings(max_examples=60)
@given(
    st.lists(st.floats(1.0, 9.0), min_size=1, max_size=8),
    st.sets(st.integers(0, 6), min_size=1),
    st.floats(9.0, 400.0),
    st.floats(0.0, 0.3),
    st.one_of(st.none(), st.integers(2, 6)),
    st.integers(1, 4),
)
def test_no_session_is_over_its_budget_and_no_budget_climbs_by_more_than_its_limit(
    areas, weekdays, first, rise, easier, repeats
):
    calendar = Calendar(MONDAY, frozenset(weekdays), easier, easier_share=1.0 if first < 20.0 else 0.6)
    found = schedule(plan_of(*areas), calendar, Budget(first, rise, most_throws=40), repeats)
    assert [one.place for one in found.sessions] == [i for i in range(len(areas)) for _ in range(repeats)]
    for one in found.sessions:
        assert one.day.weekday() in weekdays
        assert one.area_nms == pytest.approx(one.throws * areas[one.place])
        assert one.area_nms <= one.budget_nms * (1.0 + 1e-8)
        # one throw more would be too many
        assert one.throws == 40 or one.area_nms + areas[one.place] > one.budget_nms
        assert one.week == (one.day - MONDAY).days // 7
    assert all(before.day < after.day for before, after in pairwise(found.sessions))
    normal = [one.budget_nms for one in found.sessions if not one.easier]
    weeks = [one.week for one in found.sessions if not one.easier]
    for (a, w), (b, v) in pairwise(zip(normal, weeks, strict=True)):
        assert b <= a * (1.0 + rise) ** (w != v) * (1.0 + 1e-9) ** 2


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="weekdays"):
        Calendar(MONDAY, frozenset())
    with pytest.raises(InputError, match="target_day"):
        Calendar(MONDAY, MON_WED_FRI, target_day=date(2026, 3, 1))
    with pytest.raises(InputError, match="most_nms"):
        Budget(100.0, most_nms=50.0)
    with pytest.raises(InputError, match="repeats"):
        schedule(plan_of(4.0, 5.0), Calendar(MONDAY, MON_WED_FRI), Budget(100.0), [1])
    with pytest.raises(InputError, match=r"first_nms.*50\.0 N·m·s or more in week 1, for step 2"):
        schedule(plan_of(4.0, 5.0), Calendar(MONDAY, MON_WED_FRI), Budget(45.0, least_throws=10), 1)


def test_sessions_that_are_left_begin_where_they_may_and_keep_the_weeks_of_the_whole():
    calendar = Calendar(MONDAY, MON_WED_FRI, easier_every=None, target_day=date(2026, 3, 20))
    found = lay_out(
        rungs_of(
            (
                4.0,
                5.0,
            ),
            (0, 1),
        ),
        calendar,
        Budget(100.0, 0.1),
        not_before=date(2026, 3, 12),
    )
    # Friday of the second week, with 110 N·m·s: 27 throws of 4; Monday of the third with 121: 24 of 5
    assert [(one.day.day, one.week, one.throws) for one in found.sessions] == [(13, 1, 27), (16, 2, 24)]
    assert found.days_late == -4
    assert found.spare_sessions == 2  # Wednesday 18 and Friday 20


def test_what_was_set_by_hand_stands_and_what_it_breaks_is_named():
    calendar = Calendar(MONDAY, MON_WED_FRI, easier_every=None)
    budget = Budget(100.0, 0.1, most_throws=40)
    by_hand = {0: ByHand(throws=30), 1: ByHand(day=date(2026, 3, 8), throws=50)}
    found = lay_out(rungs_of((4.0,), (0, 0, 0)), calendar, budget, by_hand=by_hand)
    # Monday 2; Sunday 8 by hand, and the third after it: Monday 9, in the second week
    assert [(one.day.day, one.throws, one.area_nms) for one in found.sessions] == [
        (2, 30, 120.0),
        (8, 50, 200.0),
        (9, 27, 108.0),
    ]
    broken = [(one.session, one.kind) for one in check_sessions(found.sessions, calendar, budget)]
    assert broken == [(0, "budget"), (1, "budget"), (1, "most_throws"), (1, "weekday")]


def test_a_session_set_before_the_one_before_it_or_before_the_first_day_is_named():
    calendar = Calendar(MONDAY, frozenset(range(7)), easier_every=None)
    by_hand = {1: ByHand(day=date(2026, 3, 1))}
    found = lay_out(rungs_of((4.0,), (0, 0, 0)), calendar, Budget(100.0), by_hand=by_hand)
    assert [one.day.isoformat() for one in found.sessions] == ["2026-03-02", "2026-03-01", "2026-03-03"]
    broken = {(one.session, one.kind) for one in check_sessions(found.sessions, calendar, Budget(100.0))}
    assert broken == {(1, "order"), (1, "first_day")}


def test_a_schedule_made_by_itself_breaks_nothing():
    calendar = Calendar(MONDAY, MON_WED_FRI)
    found = schedule(plan_of(4.0, 4.5, 5.0), calendar, Budget(100.0), 4)
    assert check_sessions(found.sessions, calendar, Budget(100.0)) == ()


def test_after_pain_no_session_has_more_throws_or_area_whatever_budget_least_and_hand_say():
    calendar, budget = Calendar(MONDAY, MON_WED_FRI), Budget(100.0, least_throws=12)
    rungs = rungs_of((4.0,), (0,))

    def throws(most: Most, **more) -> int:
        return lay_out(rungs, calendar, budget, most=most, **more).sessions[0].throws

    assert throws(Most(9, 100.0, {})) == 9
    assert throws(Most(9, 30.0, {})) == 7  # 30 N·m·s hold seven throws of 4
    assert throws(Most(40, 400.0, {})) == 25  # the budget's own
    assert throws(Most(9, 100.0, {}), by_hand={0: ByHand(throws=30)}) == 9


def test_what_was_set_of_a_session_by_hand_is_not_for_a_slower_one_on_the_way_to_it():
    (low, full) = lay_out(
        [Rung(0, 0, plan_of(4.0).steps[0], lowered=True), *rungs_of((4.0,), (0,))],
        Calendar(MONDAY, MON_WED_FRI),
        Budget(100.0),
        by_hand={0: ByHand(throws=3)},
    ).sessions
    assert (low.throws, low.lowered, full.throws, full.lowered) == (25, True, 3, False)


def test_no_sessions_left_is_no_fault():
    assert lay_out(rungs_of((4.0,), ()), Calendar(MONDAY, MON_WED_FRI), Budget(100.0)).sessions == ()


@pytest.mark.parametrize("throws", [0, -1, 1e9, float("nan")])
def test_throws_set_by_hand_that_are_not_accepted_are_refused(throws):
    with pytest.raises(InputError, match="throws"):
        ByHand(throws=throws)
