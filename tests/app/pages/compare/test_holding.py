"""What a throw is held at when it is held otherwise."""

from dataclasses import replace

import pytest

from app.pages.compare.holding import held_at
from app.show.from_records import case_of
from app.show.listed_throw import ListedThrow
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.hold import AtClock, OnProfile, held
from model.segments import arm_of
from model.throw import path_loads
from tests.app.pages.compare.conftest import THROWN, W01

MAN = W01.person


def path_speed_m_s(person) -> float:
    """Release speed of an arm at the reference motion's own clock."""
    return float(path_loads(person, DEFAULT_DIAMETER_M).path_speed_m_s)


@pytest.fixture
def profile(open_page):
    """The speed profile of W01."""
    visit = open_page()
    return case_of(visit.data, visit.today).profile


@pytest.mark.parametrize("throw", THROWN)
def test_a_throw_held_otherwise_keeps_its_speed_and_comes_back_to_it(throw, profile):
    # the numbers are written to 0.01 %, which is 0.003 m/s
    clock = AtClock(held_at(throw, "clock", MAN, None))
    assert held(MAN, throw.ball, clock).speed_m_s == pytest.approx(throw.speed_m_s, abs=0.0035)
    share = OnProfile(profile, held_at(throw, "profile", MAN, profile))
    assert held(MAN, throw.ball, share).speed_m_s == pytest.approx(throw.speed_m_s, abs=0.0035)
    at_clock = replace(throw, hold="clock", value=clock.clock, speed_m_s=held(MAN, throw.ball, clock).speed_m_s)
    assert held_at(at_clock, "speed", MAN, None) == pytest.approx(throw.speed_m_s, abs=0.0085)


def test_the_number_of_a_clock_is_the_speed_over_that_of_the_arm_on_the_reference_motion():
    assert held_at(THROWN[0], "clock", MAN, None) == pytest.approx(33.0 / path_speed_m_s(MAN), abs=0.00005)


@pytest.mark.parametrize(("hold", "value"), [("speed", None), ("clock", None), ("profile", 1.0)])
def test_where_no_speed_is_known_there_is_no_number_but_full_speed(hold, value):
    for throw in (ListedThrow("t1"), ListedThrow("t1", ball=Ball(0.145))):
        assert held_at(throw, hold, MAN, None) == value


def test_without_a_person_there_is_no_clock_and_without_a_profile_it_is_full_speed():
    assert held_at(THROWN[0], "clock", None, None) is None
    assert held_at(THROWN[0], "profile", MAN, None) == 1.0


def test_at_the_same_clock_a_longer_arm_releases_faster():
    taller = replace(MAN, stature_m=1.9215)  # 5 % more
    clock = AtClock(held_at(THROWN[0], "clock", MAN, None))
    # every length of the arm goes with stature, the trunk's travel too; only the ball (2 mm of 1 m) does not
    assert held(taller, Ball(0.145), clock).speed_m_s == pytest.approx(1.05 * 33.0, rel=2e-3)


@pytest.fixture
def peak(compare_on):
    """The peak of the reference throw by a person, at its speed or at W01's clock."""

    def of(person, at_clock=False):
        throw = THROWN[0]
        if at_clock:
            hold = AtClock(held_at(throw, "clock", MAN, None))
            throw = replace(throw, speed_m_s=held(person, throw.ball, hold).speed_m_s)
        return compare_on(throw, first=replace(W01, person=person)).answers[0].readouts.peak

    return of


def test_the_page_teaches_that_a_longer_arm_at_the_same_clock_needs_more_and_at_the_same_speed_does_not(peak):
    taller = replace(MAN, stature_m=1.9215)
    assert peak(taller) / peak(MAN) == pytest.approx(1.0, abs=0.01)  # m L^2 (v / L)^2
    assert peak(taller, at_clock=True) / peak(MAN) == pytest.approx(1.05**2, rel=0.01)


def test_one_longer_segment_needs_more_at_either(peak):
    own = arm_of(MAN).forearm.length_m
    same, longer = (replace(MAN, forearm_length_m=factor * own) for factor in (1.0, 1.05))
    assert peak(longer) / peak(same) - 1.0 == pytest.approx(0.07, abs=0.01)
    assert peak(longer, at_clock=True) / peak(same, at_clock=True) - 1.0 == pytest.approx(0.13, abs=0.01)
