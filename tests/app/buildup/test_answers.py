"""Plans from the form: the trade's order where the athlete slows down, the other where he does not, and why none."""

from itertools import pairwise

import pytest

from app.buildup.answers import missing_of, speeds_words
from app.buildup.checks import check_form
from app.buildup.form import PlanForm
from app.buildup.recheck import recheck
from app.buildup.record import Record, course_of
from model.build_up import NoPlan, check_plan
from model.checks import InputError
from tests.app.buildup.conftest import TODAY


def test_a_plan_of_the_usual_aim_keeps_every_limit_and_ends_with_the_own_ball_at_full_speed(made):
    record = made()
    assert isinstance(record, Record)
    assert check_plan(record.plan) == ()
    assert record.throws[-1] == (record.own_ball, 1.0)
    assert record.throws[0][1] == pytest.approx(0.7)
    assert [one.place for one in course_of(record).schedule.sessions[:4]] == [0, 0, 1, 1]


def test_who_slows_down_begins_with_the_heaviest_and_who_does_not_with_the_lightest_and_it_says_why(made):
    slows, does_not = made("W01"), made("W04")  # by their readings (demo_data/readings.csv)
    masses = [[ball.mass_kg for ball, _ in record.throws] for record in (slows, does_not)]
    assert masses[0][0] == max(masses[0])
    assert all(after <= before for before, after in pairwise(masses[0]))
    assert masses[1][0] == min(masses[1])
    assert "heavier is lower here" in slows.why
    assert "heavier is not lower here" in does_not.why


@pytest.mark.parametrize("aim", ["after_off", "after_injury", "fast_block", "in_season", "ease_off"])
@pytest.mark.parametrize("code", ["W01", "W04", "W05", "W06"])
def test_every_aim_has_a_plan_for_every_thrower_and_it_keeps_its_limits(made, aim, code):
    record = made(code, aim=aim)
    assert isinstance(record, Record)
    course = course_of(record)
    assert (course.breaches, course.session_breaches, course.trouble) == ((), (), "")
    assert len(course.schedule.sessions) == sum(record.repeats)


def test_too_few_steps_are_no_plan_and_the_fewest_that_would_do_are_told(made):
    found = made(steps="5")
    assert isinstance(found, NoPlan)
    assert isinstance(made(steps=str(found.fewest_steps)), Record)


def test_a_single_limit_that_blocks_is_named_and_what_it_needs_opens_a_plan(made):
    free = {f"rise_{key}": "900" for key in ("rise_rate", "shoulder_peak", "loaded_s", "area", "braking", "speed")}
    found = made(steps="4", rise_peak="5", **free)
    assert isinstance(found, NoPlan)
    assert found.loosenings[0].key == "peak"
    needed = 100.0 * found.loosenings[0].needed + 1e-6
    assert isinstance(made(steps="4", rise_peak=f"{needed:.8f}", **free), Record)


def test_balls_that_are_left_out_are_not_thrown(made):
    record = made(left_out="470 360")
    assert {round(1000 * ball.mass_kg) for ball, _ in record.throws} & {470, 360} == set()


def test_a_chosen_ball_begins_and_ends(made):
    record = made(start_ball="275|73", start_percent="80", goal_ball="95|73", goal_percent="90")
    assert (record.throws[0][0].mass_kg, record.throws[0][1]) == (0.275, pytest.approx(0.8))
    assert (record.throws[-1][0].mass_kg, record.throws[-1][1]) == (0.095, pytest.approx(0.9))


@pytest.mark.parametrize("ball", ["1|2|3", "999|73", "x", "<b>|</b>"])
def test_a_ball_that_is_not_on_the_rack_is_refused(made, ball):
    with pytest.raises(InputError, match="Ball"):
        made(start_ball=ball)


def test_all_balls_left_out_leaves_the_own_one_to_end_with_and_none_to_begin_with(made):
    with pytest.raises(InputError, match="Balls"):
        made(left_out="95 125 145 160 210 275 360 470")


@pytest.mark.parametrize("days", ["-", "x", "7 8"])
def test_every_day_unticked_is_told_and_makes_no_plan(made, case, days):
    checked = check_form(PlanForm(days=days), TODAY)
    assert missing_of(case(), checked).reasons == ("Days to throw on: none chosen; accepted: one or more.",)
    with pytest.raises(InputError, match="weekdays"):
        made(days=days)


def test_without_readings_it_says_that_full_speeds_are_of_published_groups(made, case):
    record = made("W06", read=False)
    assert "published groups" in record.rests_on
    assert "Measure full speed" in speeds_words(case("W06", read=False))
    assert record.rests_on == speeds_words(case("W06", read=False))


def test_what_is_missing_is_told_before_anything_is_searched(case):
    checked = check_form(PlanForm(steps="x"), TODAY)
    missing = missing_of(case(), checked)
    assert not missing.measures
    assert missing.reasons == (checked.problems["steps"],)
    assert not missing_of(case(), check_form(PlanForm(), TODAY))


def test_a_plan_held_against_the_numbers_it_was_made_from_asks_nothing(made, case):
    assert recheck(made(), case()) is None
