"""The mass-speed map, held against whole throws."""

import numpy as np
import pytest

from model.ball import Ball
from model.channels import READINGS
from model.checks import InputError
from model.load_map import contour, load_map
from model.person import Person
from model.quantity import READOUTS, Quantity
from model.readouts import read_curves
from model.throw import Throw, curves, path_loads
from tests.model.speed_cases import ADULT, OWN

MASS_KG = np.linspace(0.05, 1.0, 50)
SPEED_M_S = np.linspace(10.0, 45.0, 50)
CHILD = Person("female", 1.35, 30.0, 9.0)


def spots(seed: int) -> list[tuple[int, int]]:
    rng = np.random.default_rng(seed)
    return [*rng.integers(0, 50, (30, 2)).tolist(), [0, 0], [0, 49], [49, 0], [49, 49]]


@pytest.mark.parametrize("person", [ADULT, CHILD], ids=["man", "girl"])
@pytest.mark.parametrize("key", READINGS)
def test_the_map_of_the_peak_is_exact_for_every_reading(person, key):
    found = load_map(path_loads(person, OWN.diameter_m), Quantity(key), MASS_KG, SPEED_M_S)
    for i, j in spots(1):
        plain = read_curves(curves(Throw(person, Ball(MASS_KG[i]), SPEED_M_S[j])), key).peak
        assert found[i, j] == pytest.approx(plain, rel=1e-10, abs=1e-10)


@pytest.mark.parametrize("key", ["varus", "internal_rotation", "horizontal_adduction", "elbow_proximal"])
@pytest.mark.parametrize("readout", ["rise_rate", "area", "loaded_s"])
def test_the_map_of_another_readout_is_within_two_per_mille(key, readout):
    found = load_map(path_loads(ADULT, OWN.diameter_m), Quantity(key, readout), MASS_KG, SPEED_M_S)
    for i, j in spots(2):
        plain = getattr(read_curves(curves(Throw(ADULT, Ball(MASS_KG[i]), SPEED_M_S[j])), key), readout)
        assert found[i, j] == pytest.approx(plain, rel=2e-3, nan_ok=True)  # half a per mille is typical


@pytest.mark.parametrize("readout", READOUTS)
def test_along_a_contour_the_value_is_the_contours(readout):
    loads, quantity = path_loads(ADULT, OWN.diameter_m), Quantity("varus", readout)
    value = float(getattr(read_curves(curves(Throw(ADULT, OWN, 30.0)), "varus"), readout))
    masses = np.linspace(0.1, 0.5, 9)
    for mass, speed in zip(masses, contour(loads, quantity, value, masses), strict=True):
        plain = getattr(read_curves(curves(Throw(ADULT, Ball(mass), speed)), "varus"), readout)
        assert plain == pytest.approx(value, rel=1e-7)


def test_a_contour_that_no_speed_reaches_is_not_there():
    loads = path_loads(ADULT, OWN.diameter_m)
    assert np.isnan(contour(loads, Quantity(), 1e4, [0.1, 0.5])).all()


@pytest.mark.parametrize(
    ("mass", "speed", "field"),
    [
        ([0.2, 0.1], SPEED_M_S, "ball_mass_kg"),
        ([0.1, 100.0], SPEED_M_S, "ball_mass_kg"),
        (MASS_KG, [30.0], "speed_m_s"),
        (MASS_KG, [0.0, 30.0], "speed_m_s"),
    ],
)
def test_a_grid_that_cannot_be_is_refused_by_name(mass, speed, field):
    with pytest.raises(InputError) as refused:
        load_map(path_loads(ADULT, OWN.diameter_m), Quantity(), mass, speed)
    assert refused.value.field == field
