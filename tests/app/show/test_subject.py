"""From the two forms to the profile: what is used, and what it is used for."""

from dataclasses import replace
from datetime import date

import pytest

from app.show.profile_form import ProfileForm
from app.show.subject import OWN_BALL, case_of, profile_of, reference_of
from model.ball import Ball
from model.person import Person
from model.radar import Radar, release_speed
from tests.app.typed_forms import empty_form

TODAY = date(2026, 3, 1)
MAN = Person("male", 1.88, 90.0, 25.0)


def test_readings_made_by_the_law_give_back_its_exponent(man, form_with):
    # closed form: v(m) = v_own ((m_own + mu) / (m + mu))^p with this arm's own mu, p = 0.8, no scatter
    mu = case_of(man, ProfileForm(), TODAY).profile.mu_kg
    speeds = {m: f"{37.0 * ((0.145 + mu) / (m / 1000 + mu)) ** 0.8:.3f}" for m in (95, 145, 210, 275, 360, 470)}
    case = case_of(man, form_with({str(m): [v] * 3 for m, v in speeds.items()}), TODAY)
    p = case.profile.exponent()
    assert p.estimate == pytest.approx(0.8, abs=0.01)
    assert p.low < 0.8 < p.high
    assert case.full_speed_m_s == pytest.approx(37.0, rel=0.002)


def test_the_reference_throw_is_the_own_speed_until_there_are_readings_with_the_own_ball(man, form_with):
    assert case_of(man, ProfileForm(), TODAY).full_speed_m_s == pytest.approx(37.0, rel=1e-3)
    typed = case_of(man, ProfileForm(own_speed_m_s="35"), TODAY)
    assert typed.full_speed_m_s == pytest.approx(35.0, rel=1e-3)
    read = case_of(man, form_with({"145": ["33.0", "33.0"]}, own_speed_m_s="35"), TODAY)
    assert read.full_speed_m_s == pytest.approx(33.0, rel=1e-3)


def test_without_a_reference_throw_the_own_ball_weighs_145_g():
    assert reference_of(empty_form(), None, TODAY).ball == OWN_BALL
    assert not reference_of(empty_form(), None, TODAY).found


def test_without_measures_the_readings_are_checked_all_the_same(form_with):
    found = profile_of(None, OWN_BALL, form_with({"145": ["x"]}), TODAY)
    assert found.profile is None
    assert list(found.checked.problems) == ["b1/0/speed"]


def test_the_radar_correction_is_that_of_the_model_and_off_by_default(form_with):
    off = profile_of(MAN, OWN_BALL, form_with({"145": ["33"], "275": ["28"]}), TODAY)
    assert [reading.speed_m_s for reading in off.used] == [33.0, 28.0]
    on = profile_of(MAN, OWN_BALL, form_with({"145": ["33"], "275": ["28"]}, radar="on"), TODAY)
    expected = [release_speed(33.0, Ball(0.145), Radar()), release_speed(28.0, Ball(0.275), Radar())]
    assert [reading.speed_m_s for reading in on.used] == [one.speed_m_s for one in expected]
    assert on.common_relative_sd == max(one.common_relative_sd for one in expected)


def test_the_rack_holds_each_mass_once_and_the_own_ball(man, form_with):
    case = case_of(man, form_with({"275": [], "275,0": ["28"], "95": []}), TODAY)
    assert [ball.mass_kg for ball in case.rack] == [0.095, 0.145, 0.275]


def test_an_unknown_basis_is_every_throw(man, form_with):
    case = case_of(man, replace(form_with({"145": ["33"]}), basis="luck"), TODAY)
    assert case.profile.basis == "all"
