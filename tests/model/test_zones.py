"""Zones of the exponent: their borders, their odds, and the sentence for where an athlete falls."""

import numpy as np
import pytest

from model.checks import InputError
from model.person import Person
from model.quantity import READOUTS, Quantity
from model.readouts import read_curves
from model.speed import fit, fit_athlete
from model.speed_readings import RadarReading
from model.throw import Throw, curves
from model.zones import ZONE_SENTENCES, level_points, points_of_arm, standing
from tests.model.speed_cases import (
    ADULT,
    EXPONENT_PRIOR,
    MU_KG,
    OWN,
    RACK,
    RACK_KG,
    REFERENCE,
    arm_with_equivalent_mass,
    law_m_s,
    level_line,
)

POINTS = level_points(REFERENCE, "varus", RACK_KG)


def athlete(p: float):
    """A well-measured athlete of a given exponent."""
    mass = np.resize([0.095, 0.145, 0.275, 0.470], 40)
    return fit([RadarReading(m, v) for m, v in zip(mass, law_m_s(mass, 37.0, p), strict=True)], 0.145, MU_KG)


def test_the_borders_of_the_ideal_arm_are_a_third_a_half_and_one():
    points = points_of_arm(arm_with_equivalent_mass(0.4), "varus", 0.145, 30.0, RACK_KG)
    assert points.borders == pytest.approx((1 / 3, 1 / 2, 1.0), abs=1e-7)
    assert points.span("area") == pytest.approx((1.0, 1.0), abs=1e-7)


def test_the_odds_of_the_four_zones_are_those_of_the_prior_without_readings():
    found = standing(fit_athlete(ADULT, OWN, []), POINTS)
    assert [zone.sentence for zone in found.zones] == list(ZONE_SENTENCES)
    assert [zone.high for zone in found.zones[:3]] == [zone.low for zone in found.zones[1:]] == list(POINTS.borders)
    expected = np.diff([0.0, *EXPONENT_PRIOR.cdf(POINTS.borders), 1.0])
    assert [zone.probability for zone in found.zones] == pytest.approx(expected, abs=2e-3)


@pytest.mark.parametrize(("p", "zone"), [(0.2, 0), (0.42, 1), (0.8, 2), (1.4, 3)])
def test_a_well_measured_athlete_falls_in_the_zone_of_the_exponent(p, zone):
    found = standing(athlete(p), POINTS)
    assert found.best is found.zones[zone]
    assert found.best.probability > 0.9
    assert sum(one.probability for one in found.zones) == pytest.approx(1.0)


@pytest.mark.parametrize(("p", "zone"), [(0.2, 0), (0.42, 1), (0.8, 2), (1.4, 3)])
@pytest.mark.parametrize("reading", ["varus", "internal_rotation"])
def test_what_a_zone_says_is_what_the_throws_do(p, zone, reading):
    """The sentences, held against whole throws with a heavier ball on the law."""
    rises = {
        "peak": zone <= 1,
        "rise_rate": zone == 0,
        "area": zone <= 2,
        "loaded_s": True,
    }
    own = read_curves(curves(REFERENCE), reading)
    for ball in RACK:
        if ball.mass_kg < OWN.mass_kg:
            continue
        heavy = read_curves(curves(Throw(ADULT, ball, law_m_s(ball.mass_kg, 37.0, p))), reading)
        assert {key: getattr(heavy, key) > getattr(own, key) for key in READOUTS} == rises


def test_points_differ_a_little_by_joint_and_ball():
    shoulder = level_points(REFERENCE, "internal_rotation", RACK_KG)
    assert shoulder.borders[1] < POINTS.borders[1]
    low, high = POINTS.span("area")
    assert 0.0 < high - low < 0.2


def test_a_small_arm_has_its_own_points_in_the_same_order():
    points = level_points(Throw(Person("male", 1.30, 28.0, 8.3), OWN, 18.0), "varus", RACK_KG)
    rise, peak, area = points.borders
    assert rise == pytest.approx(1 / 3, abs=0.03)
    assert peak == pytest.approx(1 / 2, abs=0.06)
    # the slower the throw and the smaller the arm, the more weight counts, and its area grows as the throw slows down
    assert area > POINTS.borders[2]
    assert points.area[-1] == np.inf


def test_an_infinite_point_means_more_area_however_slow_the_throw():
    boy = Person("male", 1.30, 28.0, 8.3)
    own = read_curves(curves(Throw(boy, OWN, 18.0)), "varus").area
    heavy = [read_curves(curves(Throw(boy, RACK[-1], speed)), "varus").area for speed in np.linspace(1.0, 18.0, 60)]
    assert min(heavy) > own


@pytest.mark.parametrize("reading", ["shoulder_proximal_braking", "horizontal_adduction", "abduction"])
def test_a_reading_without_such_zones_is_refused(reading):
    with pytest.raises(InputError) as refused:
        standing(athlete(0.8), level_points(REFERENCE, reading, RACK_KG))
    assert refused.value.given == reading


def test_after_release_every_point_is_nought():
    points = level_points(REFERENCE, "horizontal_abduction", RACK_KG)
    assert points.peak == pytest.approx(0.0, abs=1e-6)
    assert points.area == pytest.approx(0.0, abs=1e-6)
    assert points.borders is None


def test_an_unknown_readout_has_no_span():
    with pytest.raises(InputError, match="readout: 'height' given"):
        POINTS.span("height")


def test_level_points_are_those_of_the_level_lines():
    assert POINTS.peak == pytest.approx(level_line(REFERENCE, Quantity(), RACK_KG).exponent, rel=1e-12)
