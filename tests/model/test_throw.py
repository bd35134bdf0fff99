"""A throw's curves: times, events, hands, and what is refused."""

import math

import numpy as np
import pytest

from model.ball import Ball
from model.channels import CHANNELS
from model.checks import InputError
from model.person import Person
from model.throw import Throw, clock_of, curves, movement

REFERENCE = Person("male", 1.88, 90.0, 25.0)
OWN = Ball(0.145)


def test_release_is_at_zero_and_foot_contact_before_it():
    found = curves(Throw(REFERENCE, OWN, 37.0))
    assert found.time_s[found.phase == 1.0] == 0.0
    assert found.time_s[0] == found.foot_contact_s
    # the reference path takes 0.145 s at its own speed, 36.9 m/s; at 37 a little less
    assert found.foot_contact_s == pytest.approx(-0.145 / found.clock, rel=1e-12)
    assert found.foot_contact_s < found.max_external_rotation_s < 0.0


def test_half_the_speed_takes_twice_the_time():
    fast, slow = (curves(Throw(REFERENCE, OWN, speed_m_s)) for speed_m_s in (36.0, 18.0))
    assert slow.time_s == pytest.approx(2.0 * fast.time_s, rel=1e-12)


def test_the_ball_leaves_at_the_speed_asked_for():
    for person in (REFERENCE, Person("female", 1.62, 58.0, 13.0, forearm_length_m=0.25)):
        throw = Throw(person, Ball(0.275, 0.09), 21.5)
        velocity = movement(throw, np.array([1.0])).points.ball.velocity[0]
        assert np.linalg.norm(velocity) == pytest.approx(21.5, rel=1e-12)


def test_a_left_hander_has_the_same_torques_and_the_mirrored_ball_force():
    left = Person("male", 1.88, 90.0, 25.0, handedness="left")
    a, b = curves(Throw(REFERENCE, OWN, 37.0)), curves(Throw(left, OWN, 37.0))
    for key in CHANNELS:
        sign = -1.0 if key == "ball_z" else 1.0
        assert np.array_equal(b.values[key], sign * a.values[key])


def test_every_channel_is_given_over_the_whole_throw():
    found = curves(Throw(REFERENCE, OWN, 37.0))
    assert set(found.values) == set(CHANNELS)
    assert found.phase[0] == 0.0
    assert found.phase[-1] == 1.25
    assert all(np.isfinite(curve).all() and curve.shape == found.phase.shape for curve in found.values.values())


def test_the_clock_is_the_speed_over_the_paths_own():
    assert clock_of(Throw(REFERENCE, OWN, 18.5)) == pytest.approx(0.5 * clock_of(Throw(REFERENCE, OWN, 37.0)))


@pytest.mark.parametrize("speed", [0.0, -3.0, 61.0, math.nan, math.inf, "37", None, True, [37.0]])
def test_a_speed_that_cannot_be_is_refused_by_name(speed):
    with pytest.raises(InputError, match=r"speed_m_s: .* given; accepted: a number from 1 to 60 m/s") as refused:
        Throw(REFERENCE, OWN, speed)
    assert refused.value.field == "speed_m_s"
    assert refused.value.given is speed
