"""What a throw keeps when it is held otherwise."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo, load_readings
from app.pages.compare.answers import compare
from app.pages.compare.holding import settled
from app.show.checks import NO_PROFILE, check_athlete, check_reference, check_throw
from app.show.form_fields import HOLD_FIELDS
from app.show.from_records import case_from_forms
from app.show.throw_form import ThrowForm
from model.ball import DEFAULT_DIAMETER_M
from model.person import Person
from model.segments import arm_of
from model.throw import path_loads
from tests.app.typed_forms import rack_form, with_readings

TODAY = date(2026, 3, 1)


def path_speed_m_s(person: Person) -> float:
    """Release speed of an arm at the reference motion's own clock."""
    return float(path_loads(person, DEFAULT_DIAMETER_M).path_speed_m_s)


def measured(form, **measures):
    """The same form with other measures of the athlete."""
    return replace(form, athlete={**form.athlete, **measures})


def held_as(form, hold):
    """The form as it stands on the page right after every throw was given another hold."""
    return replace(form, throws=tuple(replace(throw, hold=hold) for throw in form.throws))


def speeds(form, profile=None):
    person = check_athlete(form.athlete).person
    return [check_throw(throw, person, profile).speed_m_s for throw in form.throws]


@pytest.fixture
def profile(demo_page):
    """The speed profile of the demo's first thrower."""
    own = [reading for reading in load_readings() if reading.athlete == demo_page.athlete["code"]]
    return case_from_forms(demo_page, with_readings(rack_form(load_demo().rack), own), TODAY).profile


@pytest.mark.parametrize("hold", ["clock", "profile"])
def test_a_throw_held_otherwise_keeps_its_speed_and_comes_back_to_it(demo_page, profile, hold):
    changed = settled(held_as(demo_page, hold), {"": profile})
    assert [throw.held for throw in changed.throws] == [hold] * 4
    # the numbers are written to 0.01 %, which is 0.003 m/s
    assert speeds(changed, profile) == pytest.approx(speeds(demo_page), abs=0.0035)
    back = settled(held_as(changed, "speed"), {"": profile})
    assert speeds(back) == pytest.approx(speeds(demo_page), abs=0.0085)


def test_the_number_of_a_clock_is_the_speed_over_that_of_the_arm_on_the_reference_motion(demo_page):
    changed = settled(held_as(demo_page, "clock"), {})
    path = path_speed_m_s(check_athlete(demo_page.athlete).person)
    assert float(changed.throws[0].clock_percent) == pytest.approx(100.0 * 33.0 / path, abs=0.005)


def test_full_speed_is_a_hundred_per_cent_of_the_profile_and_comes_with_its_interval(demo_page, profile):
    throw = demo_page.throws[1].holding("profile", "100")
    line = check_throw(throw, check_athlete(demo_page.athlete).person, profile)
    mean = profile.mean_speed(0.275)
    assert line.speed_m_s == pytest.approx(mean.estimate)
    assert line.full_speed_m_s == mean


def test_what_is_settled_already_is_left_alone(demo_page, profile):
    assert settled(demo_page, {"": profile}) is demo_page
    changed = settled(held_as(demo_page, "clock"), {"": profile})
    assert settled(changed, {"": profile}) is changed


@pytest.mark.parametrize(("hold", "number"), [("speed", ""), ("clock", ""), ("profile", "100")])
def test_where_no_speed_is_known_there_is_no_number_but_full_speed(demo_page, hold, number):
    blank = replace(demo_page, throws=(replace(ThrowForm("t1", "145"), hold=hold),))
    made = settled(blank, {}).throws[0]
    assert getattr(made, HOLD_FIELDS[hold].name) == number
    wrong = replace(demo_page, throws=(replace(ThrowForm("t1", "145", "73", "abc"), hold="clock"),))
    assert settled(wrong, {}).throws[0] == ThrowForm("t1", "145", "73", "", "clock")


def test_a_profile_that_is_missing_is_told_at_the_field_and_the_others_are_drawn(demo_page):
    second = demo_page.throws[1].holding("profile", "100")
    form = replace(demo_page, throws=(demo_page.throws[0], second, *demo_page.throws[2:]))
    comparison = compare(form, TODAY)
    assert len(comparison.drawn) == 3
    assert comparison.answers[1].checked.problems == {"share_percent": NO_PROFILE}


@pytest.mark.parametrize(("hold", "text"), [("clock", "399"), ("clock", "1"), ("profile", "149")])
def test_a_share_that_leads_beyond_what_a_throw_can_be_is_refused_with_the_speeds_accepted(
    demo_page, profile, hold, text
):
    throw = ThrowForm("t1", "1", "20").holding(hold, text)
    (problem,) = check_throw(throw, check_athlete(demo_page.athlete).person, profile).problems.values()
    assert problem.endswith(f"“{text}” given; accepted: what gives a release speed of 1 to 60 m/s.")


def test_at_the_same_clock_a_longer_arm_releases_faster(demo_page):
    taller = measured(settled(held_as(demo_page, "clock"), {}), stature_cm="192.15")  # 5 % more
    # every length of the arm goes with stature, the trunk's travel too; only the ball (2 mm of 1 m) does not
    assert speeds(taller) == pytest.approx([1.05 * speed for speed in speeds(demo_page)], rel=2e-3)


def peak(form):
    return compare(form, TODAY).answers[0].readouts.peak


def test_the_page_teaches_that_a_longer_arm_at_the_same_clock_needs_more_and_at_the_same_speed_does_not(demo_page):
    taller = {"stature_cm": "192.15"}
    assert peak(measured(demo_page, **taller)) / peak(demo_page) == pytest.approx(1.0, abs=0.01)  # m L^2 (v / L)^2
    at_clock = measured(settled(held_as(demo_page, "clock"), {}), **taller)
    assert peak(at_clock) / peak(demo_page) == pytest.approx(1.05**2, rel=0.01)


def test_one_longer_segment_needs_more_at_either(demo_page):
    forearm_cm = 100.0 * arm_of(check_athlete(demo_page.athlete).person).forearm.length_m
    own, longer = f"{forearm_cm:.3f}", f"{1.05 * forearm_cm:.3f}"

    def rise(form):
        return peak(measured(form, forearm_length_cm=longer)) / peak(measured(form, forearm_length_cm=own)) - 1.0

    assert rise(demo_page) == pytest.approx(0.07, abs=0.01)
    assert rise(settled(held_as(demo_page, "clock"), {})) == pytest.approx(0.13, abs=0.01)


@pytest.mark.parametrize(("hold", "word"), [("clock", "clock-held"), ("profile", "profile")])
def test_a_reference_that_is_not_held_at_its_speed_is_not_called_measured(demo_page, profile, hold, word):
    assert check_reference(demo_page, TODAY)[0] == "measured"
    assert check_reference(settled(held_as(demo_page, hold), {"": profile}), TODAY)[0] == word
