"""The priors, and the published numbers they are drawn from."""

import math

import pytest
from scipy import stats

from model.published import values
from model.speed_prior import (
    EXPONENT_HIGH,
    EXPONENT_LOW,
    EXPONENT_PRIOR,
    EXPONENT_SCALE,
    EXPONENT_SHAPE,
    NOISE_PRIOR,
    pooled,
    published_exponents,
)


def test_the_gamma_has_the_two_quantiles_it_was_chosen_by():
    gamma = stats.gamma(EXPONENT_SHAPE, scale=EXPONENT_SCALE)
    assert gamma.ppf([0.05, 0.95]) == pytest.approx([EXPONENT_LOW, EXPONENT_HIGH], rel=1e-3)
    # DESIGN 4: median about 0.5, 90 % from 0.15 to 1.2
    assert gamma.median() == pytest.approx(0.5, abs=0.01)
    assert (EXPONENT_LOW, EXPONENT_HIGH) == (0.15, 1.2)


def test_the_published_exponents_follow_from_the_rows_by_hand():
    by_row = {study.row: study for study in published_exponents()}
    rows = values()
    assert rows["3-ball-mass-05"].number == -1.4
    light = by_row["3-ball-mass-05"]  # 110 against 145 g, -1.4 m/s, at 24 and at 34 m/s
    ratio = math.log((0.145 + light.equivalent_mass_kg) / (0.110 + light.equivalent_mass_kg))
    assert light.high == pytest.approx(math.log(24.0 / 22.6) / ratio, rel=1e-12)
    assert light.low == pytest.approx(math.log(34.0 / 32.6) / ratio, rel=1e-12)
    cricket = by_row["3-ball-mass-35"]  # -1.1 m/s a 100 g over 72 to 214 g: -1.562 m/s
    ratio = math.log((0.214 + cricket.equivalent_mass_kg) / (0.072 + cricket.equivalent_mass_kg))
    assert cricket.high == pytest.approx(math.log(24.0 / (24.0 - 1.562)) / ratio, rel=1e-12)
    sixty_fold = by_row["3-ball-mass-16"]
    ratio = math.log((3.4 + sixty_fold.equivalent_mass_kg) / (0.057 + sixty_fold.equivalent_mass_kg))
    assert sixty_fold.low == sixty_fold.high == pytest.approx(math.log(2.4) / ratio, rel=1e-12)


def test_a_smaller_arm_gives_the_published_change_a_smaller_exponent():
    # values.csv 3-ball-mass-36: 0.9-1.26 with mu 0.65 kg, 0.74-1.06 with 0.49 kg; 71.6 kg and 1.70 m come to less
    study = published_exponents()[0]
    assert study.equivalent_mass_kg < 0.49
    assert study.low < 0.74
    assert study.high < 1.06


def test_the_prior_is_wider_than_the_pooled_studies_on_both_sides():
    low, middle, high = pooled(published_exponents())
    assert EXPONENT_LOW < low < 1.2 * EXPONENT_LOW
    assert EXPONENT_HIGH / 1.2 < high < EXPONENT_HIGH
    assert low < EXPONENT_PRIOR.median() < high
    assert middle == pytest.approx(EXPONENT_PRIOR.median(), rel=0.25)


def test_the_noise_prior_holds_the_published_spread_between_its_median_and_its_upper_end():
    # Stodden 2005 (4-effort-distance-26) took pitchers with a spread of 1.8 to 3.5 m/s among 6-10 throws: the range of
    # eight normal numbers is 2.85 standard deviations (order statistics), so 0.63 to 1.23 m/s, chosen for being large,
    # 1.8 to 3.5 % at the 35 m/s such pitchers throw (assumption)
    low, high = (spread / 2.85 / 35.0 for spread in (1.8, 3.5))
    assert 0.2 < NOISE_PRIOR.cdf(low) < 0.6
    assert 0.8 < NOISE_PRIOR.cdf(high) < 0.97
    assert NOISE_PRIOR.ppf([0.05, 0.5, 0.95]) == pytest.approx([0.01, 0.02, 0.04], rel=1e-9)
