"""What the log comes to."""

import time
from datetime import date

import pytest

from app.pages.log.answers import Gap, answer_of, people_of, with_gaps
from app.records.acts import Add, Edit
from app.records.reads import person_on
from model.ball import Ball
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.pages.log.conftest import MONDAY, after


def one_throw(log, speed: float, mass: float = 0.145):
    """Readouts of one throw of the athlete."""
    person, _ = person_on(log.visit.data, MONDAY)
    return read_curves(curves(Throw(person, Ball(mass, 0.073), speed)), "varus")


def test_a_week_counts_and_sums_its_throws_at_their_highest_speed(log):
    log.add(after(0), throws=10, top=30.0)
    log.add(after(0, 2), throws=4, top=32.0)
    week = answer_of(log.visit.data, after(0, 3)).weeks[-1]
    slow, fast = one_throw(log, 30.0), one_throw(log, 32.0)
    assert week.week.tally.throws == 14
    assert week.week.tally.peak_nm == pytest.approx(fast.peak, rel=1e-9)
    assert week.week.tally.area_nm_s == pytest.approx(10 * slow.area + 4 * fast.area, rel=1e-9)
    assert not week.over
    assert week.outside == 14
    assert week.planned is None


def test_done_stands_beside_what_the_plan_had_for_the_sessions_that_were_thrown(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    log.add(after(0), throws=20, top=31.0, planned=25, speed_m_s=30.0, plan="spring")
    log.add(after(0, 1), throws=5)
    answer = answer_of(log.visit.data, after(0, 6))
    line = answer.weeks[-1]
    assert (line.week.tally.throws, line.planned.throws, line.outside) == (25, 25, 5)
    assert line.planned.area_nm_s == pytest.approx(25 * one_throw(log, 30.0).area, rel=1e-9)
    outside, of_plan = answer.session_lines(0, 20)
    assert [outside.plan_name, of_plan.plan_name] == ["", "Spring"]
    assert (outside.planned, of_plan.planned) == (None, line.planned)


def test_without_a_speed_that_was_read_the_planned_one_counts(log):
    log.add(after(0), throws=1, top=None, planned=1, speed_m_s=28.0)
    line = answer_of(log.visit.data, after(0)).weeks[-1]
    assert line.week.tally.peak_nm == pytest.approx(one_throw(log, 28.0).peak, rel=1e-9)


def test_all_that_was_thrown_outside_a_plan_on_a_day_is_one_session_and_each_of_a_plan_is_one(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    for _ in range(2):
        log.add(after(0))
        log.add(after(0), plan="spring")
    answer = answer_of(log.visit.data, after(0))
    assert [len(one.entries) for one in answer.session_lines(0, 20)] == [1, 1, 2]
    assert answer.weeks[-1].week.sessions == 3


def test_a_week_has_four_before_it_only_where_the_log_covers_them(log):
    for week in range(5):
        log.add(after(week), throws=10 * (week + 1))
    weeks = answer_of(log.visit.data, after(4)).weeks
    assert [line.week.before is None for line in weeks] == [True, True, True, True, False]
    # (10 + 20 + 30 + 40) / 4 = 25; 50 / 25 = 2
    assert weeks[-1].week.ratios.throws == pytest.approx(2.0)


def test_weeks_go_on_to_today_and_empty_ones_stand_as_one_line(log):
    log.add(after(0))
    log.add(after(2))
    answer = answer_of(log.visit.data, after(6))
    lines = with_gaps(answer.weeks)
    assert [line.weeks if isinstance(line, Gap) else line.week.sessions for line in lines] == [0, 3, 1, 0, 1]
    assert (lines[1].first.monday, lines[1].last.monday) == (after(3), after(5))
    assert answer.last.week.monday == after(2)


def test_a_week_is_over_when_its_sunday_is_past(log):
    log.add(after(0))
    assert not answer_of(log.visit.data, after(0, 6)).weeks[0].over
    assert answer_of(log.visit.data, after(1)).weeks[0].over


def test_a_session_of_tomorrow_is_counted(log):
    log.add(after(0, 6))
    assert answer_of(log.visit.data, after(0, 5)).weeks[-1].week.tally.throws == 10


def test_the_area_above_a_level_is_there_where_a_level_is_set(log):
    log.add(after(0))
    assert answer_of(log.visit.data, after(0)).weeks[-1].week.tally.area_above_nm_s is None
    log.act(Edit("log.level_nm", "0"))
    tally = answer_of(log.visit.data, after(0)).weeks[-1].week.tally
    assert tally.area_above_nm_s == pytest.approx(tally.area_nm_s, rel=1e-9)  # the curve's area above 0 is its area


def test_each_session_is_of_the_athlete_as_measured_then(log):
    log.act(Add("measures", {"body_mass_kg": "60"}, {"day": date(2026, 1, 5)}))
    log.act(Add("measures", {"body_mass_kg": "95"}, {"day": date(2026, 4, 6)}))
    people, missing = people_of(log.visit.data, date(2026, 5, 1))
    assert missing == ()
    assert [(day, one.body_mass_kg) for day, one in people if day >= date(2026, 1, 5)] == [
        (date(2026, 1, 5), 60.0),
        (date(2026, 4, 6), 95.0),
    ]
    log.add(date(2026, 3, 30))
    log.add(date(2026, 4, 6))
    light, heavy = answer_of(log.visit.data, date(2026, 5, 1)).sessions
    assert heavy.tally.peak_nm > 1.1 * light.tally.peak_nm


def test_without_measures_nothing_is_summed_and_what_is_missing_is_named(log):
    log.add(after(0))
    log.act(Edit("measures.body_mass_kg", "", log.visit.data.measures[-1].uid))
    answer = answer_of(log.visit.data, after(0))
    assert answer.missing == ("measures.body_mass_kg",)
    assert answer.weeks == ()
    assert len(answer.read.entries) == 1


def test_an_empty_log_has_no_weeks(log):
    answer = answer_of(log.visit.data, after(0))
    assert (answer.weeks, answer.sessions, answer.last) == ((), (), None)


def test_only_a_page_of_the_sessions_is_put_together(log):
    for day in range(5):
        log.add(after(0, day))
    answer = answer_of(log.visit.data, after(0, 6))
    lines = answer.session_lines(1, 3)
    assert [one.session.day for one in lines] == [after(0, 3), after(0, 2)]
    assert [[entry.day for entry in one.entries] for one in lines] == [[after(0, 3)], [after(0, 2)]]
    assert answer.session_lines(5, 9) == []


def test_five_thousand_sessions_are_counted_in_under_three_tenths_of_a_second(log):
    bodies = (
        {"ball": {"mass_kg": 0.145}, "throws": 20, "top_speed_m_s": 20.0 + 0.01 * (i % 1500)} for i in range(5000)
    )
    log.act(*(Add("session_log", values={"day": after(i % 30, i % 7), "body": body}) for i, body in enumerate(bodies)))
    took = []
    for _ in range(3):
        data = log.visit.data
        began = time.process_time()
        answer = answer_of(data, after(30))
        took.append(time.process_time() - began)
    assert len(answer.read.entries) == 5000
    assert min(took) < 0.3
