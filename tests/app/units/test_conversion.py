"""The conversions, against numbers worked out by hand."""

import math

import numpy as np
import pytest

from app.units.conversion import (
    UNITS,
    array_from_si,
    feet_and_inches,
    from_si,
    limit_in,
    percent_bwh,
    plain,
    range_in,
    rounded_down,
    to_si,
)
from app.units.systems import CUSTOMARY, METRIC, system_named
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


# International yard and pound, 1959: 1 in = 25.4 mm and 1 lb = 0.45359237 kg exactly; 1 lb = 16 oz, 1 mile = 63 360 in.
@pytest.mark.parametrize(
    ("shown", "unit", "si"),
    [
        (1.0, "lb", 0.45359237),
        (16.0, "oz", 0.45359237),
        (1.0, "in", 0.0254),
        (1.0, "ft", 12 * 0.0254),
        (3600.0, "mph", 63360 * 0.0254),
    ],
)
def test_the_customary_units_are_those_of_1959(shown, unit, si):
    assert to_si(shown, unit) == pytest.approx(si, rel=1e-14)
    assert from_si(si, unit) == pytest.approx(shown, rel=1e-14)


def test_a_number_is_written_in_the_units_of_the_reader():
    # 145 / 28.349523 = 5.1147; 275 / 28.349523 = 9.7003; 33 / 0.44704 = 73.819; 90 / 0.45359237 = 198.416
    assert METRIC.text(0.145, "g") == "145 g"
    assert CUSTOMARY.text(0.145, "g") == "5.11 oz"
    assert CUSTOMARY.text(0.275, "g") == "9.7 oz"
    assert METRIC.text(33.0, "m/s", least=1) == "33.0 m/s"
    assert CUSTOMARY.text(33.0, "m/s", least=1) == "73.8 mph"
    assert CUSTOMARY.text(90.0, "kg", most=0) == "198.4 lb"
    assert CUSTOMARY.text(0.073, "mm") == "2.87 in"


@pytest.mark.parametrize("unit", ["N·m", "N", "ms", "years", "%"])
def test_torque_force_time_age_and_shares_are_the_same_for_every_reader(unit):
    assert CUSTOMARY.unit(unit) == METRIC.unit(unit) == unit


@pytest.mark.parametrize(
    ("stature_m", "words"),
    # 1.88 m = 74.016 in; 1.90 m = 74.803 in; 1.8288 m = 72 in; 1.828 m = 71.969 in: 6 ft 0, never 5 ft 12
    [(1.88, "6 ft 2 in"), (1.90, "6 ft 2.8 in"), (1.8288, "6 ft 0 in"), (1.828, "6 ft 0 in"), (0.9, "2 ft 11.4 in")],
)
def test_a_height_is_written_in_whole_feet_and_inches(stature_m, words):
    assert feet_and_inches(stature_m) == words
    assert CUSTOMARY.height(stature_m) == words


def test_a_height_in_centimetres_stays_in_centimetres():
    assert METRIC.height(1.885) == "188.5 cm"


@pytest.mark.parametrize(
    ("limit", "unit", "words"),
    [
        (Limit(0.001, 3.0, "kg"), "g", "1 to 3000 g"),
        # 1 g = 0.035274 oz and 3000 g = 105.82 oz; 1 m/s = 2.2369 mph and 60 m/s = 134.22 mph
        (Limit(0.001, 3.0, "kg"), "oz", "0.0353 to 105 oz"),
        (Limit(1.0, 60.0, "m/s"), "mph", "2.24 to 134 mph"),
        # 0.9 m = 35.433 in and 2.3 m = 90.551 in
        (Limit(0.9, 2.3, "m"), "ft in", "2 ft 11.5 in to 7 ft 6.5 in"),
    ],
)
def test_the_ends_of_a_converted_range_are_accepted_themselves(limit, unit, words):
    assert range_in(limit, unit) == words


@pytest.mark.parametrize(
    ("kept", "system"), [("customary", CUSTOMARY), ("metric", METRIC), (None, METRIC), ([], METRIC)]
)
def test_units_that_are_not_known_are_metric(kept, system):
    assert system_named(kept) is system


@pytest.mark.parametrize(("least", "most", "text"), [(0, 2, "28.5"), (2, 2, "28.50"), (0, 0, "28"), (1, 1, "28.5")])
def test_a_number_has_no_needless_decimals(least, most, text):
    assert plain(28.5, least, most) == text


@pytest.mark.parametrize(
    ("value", "places", "down"), [(23.19, 1, 23.1), (23.2, 1, 23.2), (0.3 * 10, 0, 3.0), (96.9, 0, 96.0)]
)
def test_a_cap_is_rounded_down_and_a_round_number_stays(value, places, down):
    assert rounded_down(value, places) == down


def test_a_cap_is_written_in_the_readers_unit():
    assert METRIC.cap(23.19, "m/s") == "23.1 m/s"
    assert CUSTOMARY.cap(23.19, "m/s") == "51.8 mph"  # 23.19 / 0.44704 = 51.87
    assert METRIC.cap(44.9, "m", 0) == "44 m"
