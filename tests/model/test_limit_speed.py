"""Speeds at which a ball meets a limit, against scalar root finding and minimising by SciPy's own scalar routines."""

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from model.limit_speed import limit_speeds, turning_speeds
from model.person import Person
from model.quantity import Quantity, quantity_at, weight_share
from model.throw import SPEED_LIMIT, path_loads
from tests.model.speed_cases import ADULT

GIRL = Person("female", 1.57, 45.0, 13.0)
WOMAN = Person("female", 1.72, 68.0, 22.0)
BOY = Person("male", 1.34, 29.0, 9.0)
AREA = Quantity("varus", "area")
MASSES = np.array([0.095, 0.145, 0.470])
ONE_WAY = [Quantity("varus", "peak"), Quantity("internal_rotation", "peak"), Quantity("varus", "rise_rate")]


@pytest.mark.parametrize("person", [ADULT, WOMAN, GIRL, BOY])
def test_peaks_and_rise_rate_rise_with_speed_from_the_slowest_throw_on(person):
    loads = path_loads(person, 0.073)
    speeds = np.geomspace(SPEED_LIMIT.low, 40.0, 300)
    for quantity in ONE_WAY:
        values = quantity_at(loads, quantity, MASSES[:, None], speeds[None, :])
        assert (np.diff(values, axis=1) > 0.0).all()
        assert (turning_speeds(loads, quantity, MASSES) == SPEED_LIMIT.low).all()
    loaded = quantity_at(loads, Quantity("varus", "loaded_s"), MASSES[:, None], speeds[None, :])
    assert (np.diff(loaded, axis=1) < 0.0).all()


@pytest.mark.parametrize("person", [ADULT, WOMAN, GIRL, BOY])
def test_area_and_braking_fall_at_most_once_before_they_rise(person):
    loads = path_loads(person, 0.073)
    speeds = np.geomspace(SPEED_LIMIT.low, 40.0, 300)
    for quantity in (AREA, Quantity("horizontal_abduction", "peak")):
        values = quantity_at(loads, quantity, MASSES[:, None], speeds[None, :])
        rises = np.diff(values, axis=1) > 0.0
        turned = speeds[:-1] >= turning_speeds(loads, quantity, MASSES)[:, None]
        assert (rises | ~turned).all()
        assert (~rises | (speeds[1:] > turning_speeds(loads, quantity, MASSES)[:, None])).all()


@pytest.mark.parametrize("person", [ADULT, GIRL])
def test_the_area_is_least_where_a_scalar_search_finds_it_and_weight_is_half_of_it_there(person):
    loads = path_loads(person, 0.073)
    turns = turning_speeds(loads, AREA, MASSES)
    for mass, turn in zip(MASSES, turns, strict=True):
        least = minimize_scalar(
            lambda v, m=mass: float(quantity_at(loads, AREA, m, v)),
            bounds=(1.5, 30.0),
            method="bounded",
            options={"xatol": 1e-9},
        )
        assert turn == pytest.approx(least.x, rel=1e-4)
        # area = s I + W / s where the torque stays positive: at the least of it both halves are equal
        assert weight_share(loads, AREA, mass, turn) == pytest.approx(0.5, abs=0.06)


def test_a_ceiling_on_the_area_is_met_at_two_speeds_and_between_them_it_is_kept():
    loads = path_loads(GIRL, 0.073)
    ceiling = 1.3 * quantity_at(loads, AREA, MASSES, turning_speeds(loads, AREA, MASSES))
    slow, fast = (limit_speeds(loads, AREA, MASSES, ceiling, slow=one) for one in (True, False))
    for i, mass in enumerate(MASSES):

        def over(v: float, m: float = mass, most: float = ceiling[i]) -> float:
            return float(quantity_at(loads, AREA, m, v)) - most

        turn = float(turning_speeds(loads, AREA, mass))
        assert slow[i] == pytest.approx(brentq(over, SPEED_LIMIT.low, turn, xtol=1e-12), rel=1e-9)
        assert fast[i] == pytest.approx(brentq(over, turn, SPEED_LIMIT.high, xtol=1e-12), rel=1e-9)
        inside = np.linspace(slow[i], fast[i], 50)[1:-1]
        assert (quantity_at(loads, AREA, mass, inside) < ceiling[i]).all()


def test_a_ceiling_below_the_least_area_leaves_an_empty_range_and_one_never_reached_the_whole():
    loads = path_loads(ADULT, 0.073)
    least = quantity_at(loads, AREA, 0.145, turning_speeds(loads, AREA, 0.145))
    assert limit_speeds(loads, AREA, 0.145, 0.99 * least) == SPEED_LIMIT.low
    assert limit_speeds(loads, AREA, 0.145, 0.99 * least, slow=True) == SPEED_LIMIT.high
    assert limit_speeds(loads, AREA, 0.145, 1e4) == SPEED_LIMIT.high
    assert limit_speeds(loads, AREA, 0.145, 1e4, slow=True) == SPEED_LIMIT.low
    peak = Quantity("varus", "peak")
    assert limit_speeds(loads, peak, 0.145, 1e-3) == SPEED_LIMIT.low  # weight alone is more
    assert limit_speeds(loads, peak, 0.145, 1e4) == SPEED_LIMIT.high


def test_the_weight_share_of_a_peak_falls_from_nearly_all_to_little():
    loads = path_loads(ADULT, 0.073)
    shares = [weight_share(loads, Quantity("varus", "peak"), 0.145, v) for v in (1.0, 5.0, 37.0)]
    assert shares[0] > 0.95
    assert shares[0] > shares[1] > shares[2]
    # weight alone, read off a throw so slow that nothing else is left, over the peak of the fast one
    still, fast = (float(quantity_at(loads, Quantity("varus", "peak"), 0.145, v)) for v in (1.0, 37.0))
    assert shares[2] == pytest.approx(still / fast, rel=0.05)
