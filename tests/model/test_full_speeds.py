"""Full speeds that stand still, held against the profile they were taken from."""

import pytest

from model.ball import Ball
from model.build_up import steps_of
from model.checks import InputError
from model.full_speeds import SpeedTable, table_of
from model.plan_search import find_plan
from tests.model.speed_cases import ADULT, OWN
from tests.model.start_cases import HEAVY, WHOLE_RACK, measured


def test_a_table_says_what_the_profile_said():
    profile = measured(0.55)
    table = table_of(profile, WHOLE_RACK)
    for ball in table.balls:
        found = table.mean_speed(ball.mass_kg)
        assert found.estimate == pytest.approx(profile.mean_speed(ball.mass_kg).estimate, rel=1e-12)
        assert (found.low, found.high) == (found.estimate, found.estimate)


def test_a_plan_made_on_the_table_is_the_one_made_on_the_profile():
    profile = measured(0.55)
    ends = {"goal": (OWN, 1.0), "steps": 15, "start": (HEAVY, 0.7)}
    plans = [find_plan(ADULT, speeds, WHOLE_RACK, **ends) for speeds in (profile, table_of(profile, WHOLE_RACK))]
    assert [(s.ball, s.share) for s in plans[0].steps] == [(s.ball, s.share) for s in plans[1].steps]


def test_of_balls_of_one_mass_the_first_is_kept():
    table = table_of(measured(0.55), (OWN, Ball(OWN.mass_kg, 0.09), HEAVY))
    assert table.balls == (OWN, HEAVY)


@pytest.mark.parametrize(
    ("balls", "speeds"),
    [((), ()), ((OWN,), ()), ((OWN, OWN), (30.0, 30.0)), ((OWN,), (float("nan"),)), ((OWN,), (0.0,)), ((OWN,), (1e9,))],
)
def test_what_is_no_table_is_refused(balls, speeds):
    with pytest.raises(InputError):
        SpeedTable(balls, speeds)


def test_a_ball_that_is_not_on_the_rack_is_refused_by_name():
    with pytest.raises(InputError, match="ball_mass_kg"):
        SpeedTable((OWN,), (33.0,)).mean_speed(0.2)


def test_a_step_is_its_share_of_full_speed_in_closed_form():
    (step,) = steps_of(ADULT, SpeedTable((OWN,), (32.0,)), [(OWN, 0.75)])
    assert step.speed_m_s == pytest.approx(24.0)
    assert step.metrics["speed"] == pytest.approx(24.0)
