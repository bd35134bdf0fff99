"""A throw of a comparison is worked out from its row."""

import pytest

from app.records.tables import Throw
from app.show.listed_throw import NO_PROFILE, OTHER, ListedThrow, listed
from app.units.systems import CUSTOMARY
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.person import Person
from model.throw import path_loads

MAN = Person("male", 1.88, 90.0, 25.0)


def row(mass_kg=0.275, diameter_m=0.073, number=28.5, hold="speed") -> Throw:
    return Throw(uid="t", mass_kg=mass_kg, diameter_m=diameter_m, number=number, hold=hold)


def test_a_throw_at_a_release_speed_needs_nobody():
    assert listed(row(), None) == ListedThrow("t", "speed", Ball(0.275), 28.5, 28.5)
    assert listed(row(), None, thrower=OTHER).thrower == OTHER


def test_a_throw_at_the_same_clock_is_as_fast_as_the_arm_makes_it():
    throw = listed(row(number=0.9, hold="clock"), MAN)
    assert throw.speed_m_s == pytest.approx(0.9 * path_loads(MAN, DEFAULT_DIAMETER_M).path_speed_m_s)
    assert throw.percent == pytest.approx(90.0)
    assert listed(row(number=0.9, hold="clock"), None).speed_m_s is None


def test_full_speed_is_the_whole_of_the_profile_and_comes_with_its_interval(make_case):
    case = make_case()
    throw, mean = listed(row(number=1.0, hold="profile"), case.person, case.profile), case.profile.mean_speed(0.275)
    assert throw.speed_m_s == pytest.approx(mean.estimate)
    assert throw.full_speed_m_s == mean


@pytest.mark.parametrize(
    ("empty", "said"),
    [
        ({"number": None}, "Missing or to be mended above: release speed."),
        ({"number": None, "hold": "clock"}, "Missing or to be mended above: joint speeds."),
        ({"mass_kg": None}, "Missing or to be mended above: ball mass."),
        ({"diameter_m": None, "number": None}, "Missing or to be mended above: ball diameter, release speed."),
        ({"mass_kg": None, "number": None}, ""),
        ({"mass_kg": None, "number": 1.0, "hold": "profile"}, ""),
    ],
)
def test_what_is_missing_is_said_but_not_of_a_line_that_nobody_has_filled_in(empty, said):
    throw = listed(row(**empty), MAN)
    assert (throw.speed_m_s, throw.missing) == (None, said)


def test_a_share_of_full_speed_without_a_profile_says_where_to_get_one():
    throw = listed(row(number=0.9, hold="profile"), MAN)
    assert (throw.speed_m_s, throw.missing) == (None, NO_PROFILE)


@pytest.mark.parametrize(
    ("hold", "share", "shown"), [("clock", 3.99, "399"), ("clock", 0.01, "1"), ("profile", 1.49, "149")]
)
def test_a_share_that_leads_beyond_what_a_throw_can_be_names_the_speeds_accepted(make_case, hold, share, shown):
    case = make_case()
    light = row(0.001, 0.020, share, hold)
    said = listed(light, case.person, case.profile).missing
    assert said.endswith(f"“{shown}” given; accepted: what gives a release speed of 1 to 60 m/s.")
    # 1 m/s is 2.2369 mph and 60 m/s are 134.216: what is said lies inside
    assert listed(light, case.person, case.profile, system=CUSTOMARY).missing.endswith("of 2.24 to 134 mph.")
