"""Three ways to hold a throw, and what they say of a longer arm."""

import pytest

from model.ball import Ball
from model.checks import InputError
from model.hold import AtClock, AtSpeed, OnProfile, held, same_clock
from model.person import Person
from model.readouts import read_curves
from model.segments import arm_of
from model.speed import fit_athlete
from model.speed_readings import RadarReading
from model.throw import Throw, clock_of, curves
from tests.model.speed_cases import ADULT, OWN, REFERENCE


def change(throw: Throw, key: str = "varus") -> float:
    """Peak against the reference throw's, as a relative change."""
    return read_curves(curves(throw), key).peak / read_curves(curves(REFERENCE), key).peak - 1.0


TALLER = Person("male", 1.05 * 1.88, 90.0, 25.0)  # every length 5 % longer, the masses as they were
LONG_FOREARM = Person("male", 1.88, 90.0, 25.0, forearm_length_m=1.05 * arm_of(ADULT).forearm.length_m)


@pytest.mark.parametrize("key", ["varus", "internal_rotation"])
def test_at_a_fixed_release_speed_a_scaled_arm_cancels_out(key):
    # torque goes as m L^2 (v / L)^2; weight and the ball's diameter, which does not scale, leave under 1 %
    assert abs(change(held(TALLER, OWN, AtSpeed(37.0)).throw, key)) < 0.01


@pytest.mark.parametrize("key", ["varus", "internal_rotation"])
def test_at_the_same_clock_a_scaled_arm_counts_twice(key):
    longer = held(TALLER, OWN, same_clock(REFERENCE))
    # L^2 = 1.1025 less what does not scale: weight, which goes as L, and the ball's diameter
    assert change(longer.throw, key) == pytest.approx(1.05**2 - 1.0, abs=0.01)
    assert longer.speed_m_s == pytest.approx(1.05 * 37.0, rel=0.005)


def test_one_longer_segment_does_not_cancel_out():
    # a 5 % longer forearm gives about +7 % at the same speed, +13 % at the same clock
    assert change(held(LONG_FOREARM, OWN, AtSpeed(37.0)).throw) == pytest.approx(0.07, abs=0.01)
    assert change(held(LONG_FOREARM, OWN, same_clock(REFERENCE)).throw) == pytest.approx(0.13, abs=0.01)


def test_the_speed_held_is_the_speed_thrown():
    found = held(ADULT, Ball(0.275), AtSpeed(30.0))
    assert found.speed_m_s == 30.0
    assert found.clock == clock_of(found.throw)


def test_the_clock_held_is_the_clock_thrown_whatever_ball_is_in_the_hand():
    wide = Ball(0.275, 0.12)  # its centre lies farther out, so the same clock releases it faster
    found = held(ADULT, wide, same_clock(REFERENCE))
    assert found.clock == pytest.approx(clock_of(REFERENCE), rel=1e-12)
    assert found.speed_m_s > 37.0


def test_on_the_profile_the_speed_is_the_share_of_the_best_estimate():
    profile = fit_athlete(ADULT, OWN, [RadarReading(0.145, 37.0), RadarReading(0.275, 33.0)])
    found = held(ADULT, Ball(0.360), OnProfile(profile, 0.8))
    assert found.speed_m_s == pytest.approx(0.8 * profile.mean_speed(0.360).estimate, rel=1e-12)


@pytest.mark.parametrize(
    ("hold", "value", "field"), [(AtSpeed, 370.0, "speed_m_s"), (AtClock, 37.0, "clock"), (AtClock, 0.0, "clock")]
)
def test_what_cannot_be_held_is_refused_by_name(hold, value, field):
    with pytest.raises(InputError) as refused:
        hold(value)
    assert refused.value.field == field


def test_a_clock_that_ends_in_no_accepted_speed_is_refused():
    with pytest.raises(InputError, match="speed_m_s: "):
        held(ADULT, OWN, AtClock(3.0))


def test_a_share_of_a_profile_is_a_share_and_no_percentage():
    profile = fit_athlete(ADULT, OWN, [])
    with pytest.raises(InputError, match=r"share: 80\.0 given"):
        OnProfile(profile, 80.0)
    with pytest.raises(InputError, match="readings"):
        held(ADULT, OWN, OnProfile(profile))
