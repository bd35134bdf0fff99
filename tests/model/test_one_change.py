"""One thing changed at a time: against the laws that follow from the equations of motion."""

import numpy as np
import pytest

from model.ball import Ball
from model.checks import InputError
from model.one_change import with_clock, with_forearm, with_hand
from model.person import Person
from model.throw import Throw, curves, path_loads

THROW = Throw(Person("male", 1.83, 84.0, 20.0), Ball(0.145), 33.0)
ROUNDING = 1e-9  # N m


def test_nothing_changed_is_the_throw_itself():
    own = curves(THROW)
    for change in (with_hand, with_forearm, with_clock):
        same = change(THROW, 1.0)
        assert same.values["varus"] == pytest.approx(own.values["varus"], abs=ROUNDING)
        assert same.time_s == pytest.approx(own.time_s, abs=1e-12)


def test_torque_is_linear_in_the_hands_mass():
    # Newton-Euler sums m (a - g) and I alpha over the segments; neither arm nor motion changes
    one, half, more = (with_hand(THROW, share).values["varus"] for share in (1.0, 1.5, 2.0))
    assert more - half == pytest.approx(half - one, abs=ROUNDING)
    assert np.abs(more - one).max() > 5.0


def test_torque_is_quadratic_in_the_forearms_length_and_the_clock_stays():
    # positions and accelerations are linear in the length, lever arms too, and I = m (k L)^2: third differences vanish
    series = [with_forearm(THROW, share) for share in (0.9, 1.0, 1.1, 1.2)]
    third = np.diff([one.values["varus"] for one in series], n=3, axis=0)
    assert third == pytest.approx(0.0, abs=1e-8)
    assert {round(one.clock, 12) for one in series} == {round(series[0].clock, 12)}
    speeds = [one.throw.speed_m_s for one in series]
    assert speeds == sorted(speeds)


def test_a_clock_twice_as_fast_makes_inertial_torque_four_times_in_half_the_time():
    slow, fast = with_clock(THROW, 0.5), with_clock(THROW, 1.0)
    weight = path_loads(THROW.person, THROW.ball.diameter_m)
    gravity = (weight.arm_weight + 0.145 * weight.ball_weight)[:, 0]
    assert fast.values["varus"] - gravity == pytest.approx(4.0 * (slow.values["varus"] - gravity), abs=1e-9)
    assert slow.time_s == pytest.approx(2.0 * fast.time_s)


@pytest.mark.parametrize(("change", "share"), [(with_hand, 0.0), (with_hand, float("nan")), (with_forearm, 9.0)])
def test_what_no_arm_can_be_is_refused(change, share):
    with pytest.raises(InputError):
        change(THROW, share)
