"""Which ball to throw next: what is promised, held against simulated throws."""

import numpy as np
import pytest

from model.checks import InputError
from model.next_reading import next_readings
from model.speed import fit
from model.speed_readings import RadarReading
from tests.model.speed_cases import MU_KG, OWN, RACK, throws_of

RNG = np.random.default_rng(11)
ONE = fit([RadarReading(0.145, 36.0)], 0.145, MU_KG)
DOZEN = fit(throws_of(RNG, np.repeat([0.145, 0.210, 0.275], 4), 36.0, 0.6, 0.015), 0.145, MU_KG)


def simulated_width(profile, mass_kg: float, throws: int, athletes: int, seed: int) -> tuple[float, float]:
    """Mean width of the exponent's interval after simulated further throws, and the mean's standard error.

    Athletes are drawn from the profile's posterior, throw, and are fitted anew with all their readings.
    """
    rng, drawn = np.random.default_rng(seed), profile.posterior.draw(12)
    readings = [RadarReading(point.ball_mass_kg, point.speed_m_s) for point in profile.points]
    widths = []
    for i in rng.choice(drawn.p.size, athletes, replace=False):
        log_speeds = drawn.log_own[i] - drawn.p[i] * float(profile.x(mass_kg))
        log_speeds = log_speeds + drawn.sigma[i] * rng.standard_normal(throws)
        further = [RadarReading(mass_kg, speed) for speed in np.exp(log_speeds).clip(1.0, 60.0)]
        found = fit([*readings, *further], 0.145, MU_KG).exponent()
        widths.append(found.high - found.low)
    return float(np.mean(widths)), float(np.std(widths) / np.sqrt(athletes))


@pytest.mark.parametrize("profile", [ONE, DOZEN], ids=["one reading", "a dozen"])
@pytest.mark.parametrize(("mass", "throws"), [(0.470, 1), (0.470, 3), (0.275, 3), (0.095, 5)])
def test_the_promised_width_is_that_of_simulated_throws(profile, mass, throws):
    ball = next(ball for ball in RACK if ball.mass_kg == mass)
    (promised,) = next_readings(profile, [ball], throws=(throws,))
    mean, error = simulated_width(profile, mass, throws, 200, 12)
    # what is left out, that the throws also tell of the noise, is worth a few per cent
    assert promised.width_then == pytest.approx(mean, abs=3.0 * error + 0.05 * mean)


def test_the_ball_that_differs_most_from_those_thrown_narrows_most_and_comes_first():
    found = next_readings(ONE, (*RACK, OWN), throws=(3,))
    widths = [reading.width_then for reading in found]
    assert widths == sorted(widths)
    assert found[0].ball.mass_kg == 0.470
    own = next(reading for reading in found if reading.ball == OWN)
    assert own.ratio == pytest.approx(1.0, abs=0.005)  # more throws with the same ball tell nothing of p
    assert own.width_then >= max(widths) - 0.005


def test_more_throws_narrow_more():
    widths = [next_readings(DOZEN, RACK[-1:], throws=(count,))[0].width_then for count in (1, 2, 3, 5, 10)]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] < DOZEN.exponent().high - DOZEN.exponent().low


def test_before_the_first_reading_the_own_ball_comes_first():
    with pytest.raises(InputError, match="begin with the own ball"):
        next_readings(fit([], 0.145, MU_KG), RACK)


@pytest.mark.parametrize(("rack", "throws", "field"), [((), (3,), "rack"), (RACK, (0,), "throws")])
def test_what_cannot_be_is_refused_by_name(rack, throws, field):
    with pytest.raises(InputError) as refused:
        next_readings(ONE, rack, throws=throws)
    assert refused.value.field == field
