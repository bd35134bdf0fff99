"""From the records to an athlete's case: what counts, and what the speed profile is fitted to."""

import math
from dataclasses import replace
from datetime import date

import pytest

from app.records import tables
from app.show.from_records import case_of, person_of
from app.show.subject import OWN_BALL, Case, Reference
from model.ball import Ball
from model.flight import Launch
from model.person import Person
from model.radar import Radar, release_speed
from tests.app.kept_demo import TODAY, kept
from tests.app.known import ADULT, known, reading, row, with_settings


def test_readings_made_by_the_law_give_back_its_exponent():
    # closed form: v(m) = v_own ((m_own + mu) / (m + mu))^p with this arm's own mu, p = 0.8, no scatter
    mu = case_of(known(), TODAY).profile.mu_kg
    masses = (0.095, 0.145, 0.21, 0.275, 0.36, 0.47)
    case = case_of(known(speeds={m: [37.0 * ((0.145 + mu) / (m + mu)) ** 0.8] * 3 for m in masses}), TODAY)
    p = case.profile.exponent()
    assert p.estimate == pytest.approx(0.8, abs=0.01)
    assert p.low < 0.8 < p.high
    assert case.full_speed_m_s == pytest.approx(37.0, rel=0.002)


def test_the_reference_throw_is_the_own_speed_until_there_are_readings_with_the_own_ball():
    typed = {"profile.own_speed_m_s": 35.0}
    assert case_of(known(), TODAY).full_speed_m_s == pytest.approx(37.0, rel=1e-3)
    assert case_of(known(settings=typed), TODAY).full_speed_m_s == pytest.approx(35.0, rel=1e-3)
    read = case_of(known(speeds={0.145: [33.0, 33.0]}, settings=typed), TODAY)
    assert read.full_speed_m_s == pytest.approx(33.0, rel=1e-3)


def test_without_an_own_ball_it_weighs_145_g():
    assert case_of(known(own_kg=None), TODAY).reference == Reference(OWN_BALL)
    assert not case_of(known(own_kg=None), TODAY).reference.found
    assert case_of(None, TODAY) == Case()


def test_the_ball_of_a_reference_throw_is_the_own_one_where_none_is_kept():
    data = known(own_kg=None, speeds={0.2: []}, reference={"ball_id": 2})
    assert case_of(data, TODAY).own_ball == Ball(0.2)


@pytest.mark.parametrize(
    ("kind", "day", "word", "words"),
    [
        ("measured", date(2026, 1, 13), "measured", "measured 2026-01-13"),
        ("measured", None, "measured", "measured"),
        ("before_injury", date(2025, 9, 2), "pre-injury", "from before an injury, 2025-09-02"),
        ("before_injury", None, "pre-injury", "from before an injury, date not given"),
        ("estimated", date(2026, 1, 13), "estimated", "estimated"),
    ],
)
def test_the_reference_says_how_it_is_known(kind, day, word, words):
    reference = case_of(known(reference={"kind": kind, "day": day}), TODAY).reference
    assert (reference.word, reference.known, reference.speed_m_s) == (word, words, 37.0)


def test_a_refused_speed_of_the_reference_is_none():
    refused = row(tables.Reference, 1, ball_id=1, kind="measured", speed_m_s=37.0, draft={"speed_m_s": "370"})
    assert case_of(replace(known(), references=(refused,)), TODAY).reference.speed_m_s is None


def test_the_radar_correction_is_that_of_the_model_and_off_by_default():
    speeds = {0.145: [33.0], 0.275: [28.0]}
    off = case_of(known(speeds=speeds), TODAY).found
    assert [one.speed_m_s for one in off.used] == [33.0, 28.0]
    on = case_of(known(speeds=speeds, settings={"profile.radar": True}), TODAY)
    expected = [release_speed(33.0, Ball(0.145), Radar()), release_speed(28.0, Ball(0.275), Radar())]
    assert [one.speed_m_s for one in on.found.used] == [one.speed_m_s for one in expected]
    assert on.found.common_relative_sd == max(one.common_relative_sd for one in expected)
    assert on.found_with(None) == off


def test_a_release_speed_is_not_corrected():
    data = replace(known(settings={"profile.radar": True}), readings=(reading(1, 1, 33.0, speed_is="release"),))
    assert [one.speed_m_s for one in case_of(data, TODAY).found.used] == [33.0]


@pytest.mark.parametrize(
    "wrong",
    [
        {"draft": {"speed_m_s": "fast"}},
        {"draft": {"asked_effort": "half"}},
        {"draft": {"day": "yesterday"}},
        {"distance_m": 40.0},
        {"speed_m_s": None},
    ],
)
def test_a_reading_that_was_refused_or_is_of_a_distance_does_not_count(wrong):
    rows = (reading(1, 1, 33.0), reading(2, 1, **({"speed_m_s": 20.0} | wrong)))
    assert [one.speed_m_s for one in case_of(replace(known(), readings=rows), TODAY).found.used] == [33.0]


def test_an_asked_effort_and_the_day_go_with_the_reading():
    data = replace(known(), readings=(reading(1, 1, 25.0, asked_effort=0.7), reading(2, 1, 33.0)))
    used = case_of(data, TODAY).found.used
    assert [(one.asked_effort, one.on) for one in used] == [(0.7, TODAY), (1.0, TODAY)]


def test_the_rack_holds_each_mass_once_and_the_own_ball():
    data = known(speeds={0.275: [], 0.27500001: [28.0], 0.095: []})
    assert [ball.mass_kg for ball in case_of(data, TODAY).rack] == [0.095, 0.145, 0.275]


def test_an_archived_ball_is_there_only_with_readings_that_count():
    data = known(speeds={0.275: [28.0], 0.36: []})
    for number in (2, 3):
        data.balls[number].archived_at = TODAY
    assert [ball.mass_kg for ball in case_of(data, TODAY).rack] == [0.145, 0.275]


def test_what_was_chosen_is_read_and_a_refused_number_is_none():
    usual = case_of(known(), TODAY).choices
    assert (usual.basis, usual.cap_share, usual.distance_m, usual.radar) == ("all", 0.8, 40.0, Radar())
    assert usual.launch == Launch(1.8, math.radians(25.0))
    farthest = case_of(known(settings={"profile.throw_farthest": True}), TODAY).choices
    assert farthest.launch == Launch(1.8, None)
    paths = ("cap_share", "throw_angle_deg", "radar_distance_m")
    refused = case_of(with_settings(known(), {}, [f"profile.{name}" for name in paths]), TODAY).choices
    assert (refused.cap_share, refused.launch, refused.radar) == (None, None, None)


def test_a_throw_over_a_distance_may_be_with_another_ball():
    data = known(speeds={0.275: []}, settings={"profile.throw_ball": "ball2"})
    assert case_of(data, TODAY).choices.throw_ball == Ball(0.275)
    assert case_of(known(settings={"profile.throw_ball": "gone"}), TODAY).choices.throw_ball is None


def test_of_each_measure_the_newest_counts_and_age_goes_on_cut_to_a_tenth():
    before = row(tables.Measures, 1, day=date(2025, 1, 1), age_years=20.0, stature_m=1.8, body_mass_kg=80.0)
    newer = row(tables.Measures, 2, day=date(2025, 6, 1), body_mass_kg=82.5)
    person, missing = person_of(replace(known(), measures=(before, newer)), TODAY)
    # 424 days are 1.161 years
    assert (person, missing) == (Person("male", 1.8, 82.5, 21.1), ())


def test_what_is_missing_or_refused_is_named():
    missing = person_of(known(measures=None, about={}), TODAY)[1]
    assert missing == ("Sex", "Throwing hand", "Age", "Stature", "Body mass")
    refused = row(tables.Measures, 1, day=TODAY, **ADULT, draft={"stature_m": "tall", "hand_length_m": "long"})
    assert person_of(replace(known(), measures=(refused,)), TODAY) == (None, ("Stature", "Hand"))


def test_a_mark_as_still_growing_goes_to_the_person():
    about = {"sex": "male", "handedness": "right", "still_growing": True}
    assert person_of(known(about=about), TODAY)[0].still_growing


def test_an_invented_thrower_has_person_readings_and_reference():
    case = case_of(kept("W01"), TODAY)
    assert (case.code, case.missing, len(case.found.used)) == ("W01", (), 15)
    assert case.reference.known == "measured 2026-01-13"
