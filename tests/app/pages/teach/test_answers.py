"""The lesson: the balls, the series in which one thing changes, and what is missing for it."""

import pytest

from app.pages.teach.answers import SHARES, ball_choices, lesson_of
from app.pages.teach.session import Session
from app.show.from_records import case_of
from app.units.systems import CUSTOMARY
from model.ball import Ball
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.known import ADULT, TODAY, known


def test_it_opens_on_the_own_ball_about_twice_its_mass_and_the_lightest_of_the_rack(lesson):
    assert lesson.own.throw.ball == Ball(0.145)
    assert lesson.own.throw.speed_m_s == pytest.approx(33.0, abs=0.1)
    assert (lesson.second, lesson.third) == (Ball(0.275), Ball(0.095))


def test_a_ball_that_is_not_of_the_rack_is_offered_all_the_same(lesson):
    offered = ball_choices(Session(Ball(0.5, 0.12)), lesson.case)
    assert {"value": "500|120", "label": "500 g, 120 mm, not of the rack"} in offered
    assert sum(one["value"] == "95|73" for one in offered) == 1


def test_the_own_ball_is_not_set_beside_itself(lesson_for):
    lesson = lesson_for(session=Session(Ball(0.145), Ball(0.145)))
    assert (lesson.second.mass_kg, lesson.third.mass_kg) == (0.275, 0.095)
    assert "145|73" not in {one["value"] for one in ball_choices(Session(), lesson.case)}


def test_series_change_one_thing_alone(lesson):
    own = lesson.own.throw
    for thrown in lesson.series["hand"]:
        assert thrown.throw == own
    for step in ("forearm", "clock"):
        assert {thrown.throw.ball for thrown in lesson.series[step]} == {own.ball}
    clocks = [thrown.curves.clock for thrown in lesson.series["forearm"]]
    assert clocks == pytest.approx([lesson.own.curves.clock] * len(clocks), rel=1e-12)
    assert {thrown.throw.speed_m_s for thrown in lesson.series["ball"]} == {own.speed_m_s}
    assert {thrown.throw.ball for thrown in lesson.series["speed"]} == {lesson.second}
    assert [len(lesson.series[step]) for step in SHARES] == [len(shares) for shares in SHARES.values()]


def test_every_series_passes_the_throw_it_starts_from(lesson):
    own = read_curves(curves(lesson.own.throw), "varus")
    for step in ("hand", "forearm", "clock", "ball"):
        start = min(lesson.series[step], key=lambda one: abs(one.read.peak - own.peak))
        assert start.read.peak == pytest.approx(own.peak, rel=1e-9)


def test_one_stop_of_the_speed_is_the_full_speed_that_the_readings_give(lesson):
    speeds = [thrown.throw.speed_m_s for thrown in lesson.series["speed"]]
    full = round(lesson.slowed.estimate, 1)  # as it stands on the page
    assert full in speeds
    assert lesson.own.throw.speed_m_s in speeds
    assert speeds == sorted(speeds, reverse=True)
    assert lesson.at_profile["second"].throw == Throw(lesson.own.throw.person, lesson.second, full)


def test_a_throw_is_the_one_that_its_words_name_so_that_compare_says_the_same_of_it(lesson, lesson_for):
    for thrown in (lesson.own, *lesson.at_profile.values()):
        assert thrown.throw.speed_m_s == round(thrown.throw.speed_m_s, 1)
    mph = lesson_for(system=CUSTOMARY).own.throw.speed_m_s / 0.44704  # m/s in a mile per hour, by definition
    assert mph == pytest.approx(round(mph, 1))


def test_a_build_up_goes_from_the_heaviest_ball_to_the_own_one(lesson):
    first, then, later = (thrown.throw for thrown in lesson.built)
    assert first.ball == then.ball == lesson.second
    assert first.speed_m_s == pytest.approx(0.6 * round(lesson.slowed.estimate, 1))
    assert later.ball == lesson.own.throw.ball
    assert later.speed_m_s == pytest.approx(0.9 * lesson.own.throw.speed_m_s)


def test_a_build_up_starts_with_a_heavier_ball_also_where_both_that_are_shown_are_lighter(lesson_for, lesson):
    light = lesson_for(session=Session(Ball(0.095), Ball(0.125)))
    assert [thrown.throw for thrown in light.built] == [thrown.throw for thrown in lesson.built]


def test_a_thrower_who_is_still_growing_builds_up_with_the_own_ball_from_slow_to_fast(lesson_for):
    lesson = lesson_for("W04")
    own = lesson.own.throw
    assert [thrown.throw.ball for thrown in lesson.built] == [own.ball] * 3
    assert [thrown.throw.speed_m_s / own.speed_m_s for thrown in lesson.built] == pytest.approx([0.6, 0.8, 0.9])


def test_without_measures_or_a_speed_there_is_no_lesson():
    assert lesson_of(Session(), case_of(None, TODAY)) is None
    case = case_of(known(reference_m_s=None), TODAY)
    assert case.person is not None
    assert lesson_of(Session(), case) is None


def test_sliders_end_where_no_arm_or_throw_is_accepted():
    long = known(measures=ADULT | {"forearm_length_m": 0.44})
    lesson = lesson_of(Session(), case_of(long, TODAY))
    assert lesson.series["forearm"][-1].throw.person.forearm_length_m <= 0.45
    assert len(lesson.series["forearm"]) == 3  # 44 cm, and 1 % and 2 % more
