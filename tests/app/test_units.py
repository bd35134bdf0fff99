"""The conversions, against numbers worked out by hand."""

import math

import numpy as np
import pytest

from app.units import UNITS, array_from_si, from_si, limit_in, percent_bwh, to_si
from model.checks import Limit


@pytest.mark.parametrize(
    ("shown", "unit", "si"),
    [
        (145.0, "g", 0.145),
        (73.0, "mm", 0.073),
        (188.0, "cm", 1.88),
        (26.0, "ms", 0.026),
        (90.0, "kg", 90.0),
        (28.5, "m/s", 28.5),
    ],
)
def test_a_typed_number_and_the_same_number_in_code_are_one(shown, unit, si):
    assert to_si(shown, unit) == si  # exactly: no 0.14500000000000002


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("value", [0.0, 1.0, -28.6, 1234.5, 1e-6])
def test_there_and_back_is_the_same_number(unit, value):
    assert math.isclose(from_si(to_si(value, unit), unit), value, rel_tol=1e-15)


def test_an_array_keeps_its_shape():
    times = array_from_si(np.array([[-0.145, 0.0], [0.0, 0.036]]), "ms")
    np.testing.assert_allclose(times, [[-145.0, 0.0], [0.0, 36.0]], rtol=1e-15)


def test_an_unknown_unit_is_refused():
    with pytest.raises(KeyError):
        to_si(1.0, "furlong")


def test_a_range_is_printed_in_the_unit_it_is_typed_in():
    assert str(limit_in(Limit(0.9, 2.3, "m"), "cm")) == "90 to 230 cm"
    assert str(limit_in(Limit(0.001, 3.0, "kg"), "g")) == "1 to 3000 g"


def test_a_range_of_another_quantity_is_refused():
    with pytest.raises(ValueError, match="g stands for kg, not for m"):
        limit_in(Limit(0.9, 2.3, "m"), "g")


def test_percent_of_body_weight_times_height_by_hand():
    # 100 * 79 / (90 kg * 9.80665 m/s2 * 1.88 m) = 7900 / 1659.285 = 4.7611; standard gravity: 3rd CGPM 1901
    assert percent_bwh(79.0, 90.0, 1.88) == pytest.approx(4.7611, abs=5e-5)
