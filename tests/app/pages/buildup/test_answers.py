"""Plans from the form: each order of the balls by its rules, for every aim and thrower, and why there is none."""

from dataclasses import replace
from itertools import pairwise

import pytest

from app.pages.buildup.answers import make
from app.pages.buildup.athlete import reference_of, speeds_words
from app.pages.buildup.course import course_of
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import KnownReference, Record
from model.build_up import NoPlan, check_plan
from model.checks import InputError
from tests.app.pages.buildup.conftest import ASKED, TODAY, athlete_for, wanted_for

ORDERS = ("own", "heavy", "between")


@pytest.mark.parametrize("aim", ["after_off", "after_injury", "fast_block", "in_season", "ease_off"])
@pytest.mark.parametrize("code", ["W01", "W04", "W05", "W06"])
def test_every_aim_has_a_plan_for_every_thrower_and_it_keeps_its_limits(made, aim, code):
    record = made(code, aim=aim)
    assert isinstance(record, Record)
    course = course_of(record)
    assert (course.breaches, course.session_breaches, course.trouble) == ((), (), "")
    assert len(course.schedule.sessions) == sum(record.repeats)
    assert check_plan(record.plan) == ()


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize(("code", "aim"), [("W01", "after_off"), ("W06", "after_injury"), ("W04", "fast_block")])
def test_in_every_order_the_own_ball_comes_within_two_thirds_of_the_steps_at_four_fifths_at_most(
    made, code, aim, order
):
    record = made(code, aim=aim, order=order)
    first = next(i for i, (ball, _) in enumerate(record.throws) if ball == record.own_ball)
    assert first + 1 <= 2 * len(record.throws) / 3
    assert record.throws[first][1] <= 0.8 + 1e-9
    assert all(ball == record.own_ball for ball, _ in record.throws[first:])
    assert record.throws[-1] == (record.own_ball, 1.0)
    apart = [abs(ball.mass_kg - record.own_ball.mass_kg) for ball, _ in record.throws]
    assert all(after <= before for before, after in pairwise(apart))
    assert {"own": apart[0] == 0, "heavy": record.throws[0][0].mass_kg == 0.470}.get(order, apart[0] > 0)


def test_the_ball_in_between_is_the_nearest_to_the_middle_unless_another_is_chosen_or_came_from_start(made):
    # the geometric mean of 145 and 470 g is 261 g
    assert made(order="between").throws[0][0].mass_kg == 0.275
    assert made(order="between", between_ball="210|73").throws[0][0].mass_kg == 0.210


def test_a_start_typed_above_four_fifths_is_refused_with_the_reason_and_the_aims_own_is_lowered_and_said(made):
    athlete = athlete_for("W01")
    wanted = wanted_for(athlete, **ASKED | {"start_percent": "85"})
    with pytest.raises(InputError, match="80 % with the own ball: after time off or an injury"):
        make(wanted, athlete, TODAY)
    lowered = made("W04", aim="fast_block")  # its own start is 85 %
    assert lowered.throws[0][1] == pytest.approx(0.8)
    assert lowered.notes[0].startswith("The start was lowered from 85 % to 80 %")
    assert made(aim="fast_block").throws[0][1] == pytest.approx(0.85)  # an adult without time off


def test_what_is_kept_level_stays_where_a_growing_thrower_may_begin(made):
    assert made("W04", aim="in_season").throws == ((made("W04").own_ball, 0.8),)


def test_another_goal_than_the_own_ball_is_for_those_alone_who_are_neither_injured_nor_off_nor_growing(made):
    assert made(aim="fast_block", goal_ball="95|73").throws[-1][0].mass_kg == 0.095
    for code, aim in (("W01", "after_off"), ("W06", "after_injury"), ("W04", "fast_block")):
        assert made(code, aim=aim, goal_ball="95|73").throws[-1][0].mass_kg == 0.145


def test_the_first_steps_keep_the_limits_from_start_and_later_ones_that_pass_them_are_named(made):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="steps", hold_count="6")
    assert record.throws[0] == (record.first.ball, pytest.approx(0.418))
    course = course_of(record)
    assert min(course.passes) >= 6
    assert set(course.passes[len(record.throws) - 1]) == {"elbow_peak", "rise_rate"}
    for place, (ball, share) in enumerate(record.throws[:6]):
        low, high = record.first.shares[ball]
        assert low <= share <= high, place
    weeks = made("W06", given=True, aim="after_injury", order="heavy", holds="weeks", hold_count="4")
    assert weeks.first.steps == 6  # 4 weeks of 3 days, 2 sessions at each step
    assert (weeks.reference.kind, str(weeks.reference.on)) == ("before_injury", "2025-09-02")


def test_a_start_above_the_limits_from_start_is_lowered_and_said(made):
    record = made(
        "W06", given=True, aim="after_injury", order="heavy", holds="steps", hold_count="1", start_percent="75"
    )
    share = record.throws[0][1]
    assert record.first.shares[record.throws[0][0]][1] - 0.001 < share <= record.first.shares[record.throws[0][0]][1]
    assert "by the limits from Start" in record.notes[0]


def test_until_they_are_cleared_no_step_that_passes_a_limit_is_open(made):
    record = made("W06", given=True, aim="after_injury", order="heavy", holds="cleared")
    course = course_of(record)
    assert course.waits
    open_steps = {one.place for one in course.schedule.sessions}
    assert open_steps.isdisjoint(course.passes)
    assert max(open_steps) + 1 == min(course.passes)


def test_too_few_steps_are_no_plan_and_the_fewest_that_would_do_are_told(made):
    found = made(steps="5")
    assert isinstance(found, NoPlan)
    assert isinstance(made(steps=str(found.fewest_steps)), Record)


def test_more_steps_than_whole_per_cents_go_up_all_the_same(made):
    shares = [share for _, share in made(steps="50").throws]
    assert shares == sorted(shares)


def test_only_balls_that_are_ticked_are_thrown(made):
    record = made(order="heavy", left_out="470 360")
    assert record.throws[0][0].mass_kg == 0.275


def test_what_is_missing_is_told_before_a_plan_is_made():
    athlete = athlete_for("W06")
    told = " ".join(replace(wanted_for(athlete, aim="after_injury"), limited=True).missing)
    for asked in (
        "Weeks without",
        "Throws a week",
        "Sessions at each",
        "Throws in the first",
        "Days to",
        "Who cleared",
    ):
        assert asked in told
    assert "how long they hold" in told


def test_an_injury_is_known_by_the_aim_or_by_the_reference():
    assert athlete_for("W06").care("fast_block").injury
    assert athlete_for("W06").reference == KnownReference("before_injury", athlete_for("W06").reference.on, 35.1)
    assert not athlete_for("W01").care("fast_block").injury
    assert athlete_for("W01").care("after_injury").injury
    case = athlete_for("W01").case
    estimated = replace(case, reference=replace(case.reference, kind="estimated"))
    assert reference_of(estimated).words == "estimated from the group"


def test_where_full_speeds_come_from_is_told(case):
    assert speeds_words(case("W01")) == "12 full-effort radar readings with 4 balls"
    assert speeds_words(case("W06")).startswith("no radar reading: how much this athlete slows down")


def test_a_plan_of_another_athlete_is_not_held_against_these_readings(made, case):
    assert recheck(made(), case("W02")) is None
