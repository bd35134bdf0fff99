"""The priors, and the published numbers they are drawn from."""

import math
import re
from dataclasses import dataclass

import numpy as np
import pytest
from scipy import stats

from model.ball import DEFAULT_DIAMETER_M
from model.equivalent_mass import equivalent_mass
from model.person import Person
from model.published import values
from model.speed_prior import EXPONENT_HIGH, EXPONENT_LOW, EXPONENT_SCALE, EXPONENT_SHAPE
from model.throw import path_loads
from tests.model.speed_cases import EXPONENT_PRIOR, NOISE_PRIOR

ASSUMED_SPEEDS_M_S = (24.0, 34.0)  # of groups whose own speed could not be seen (assumption, values.csv 3-ball-mass-36)
ASSUMED_ADULT = Person("male", 1.80, 78.0, 25.0)  # where no body size could be seen (assumption)


@dataclass(frozen=True)
class PublishedExponent:
    """The exponent of one published group, refitted with the equivalent mass of their body size.

    Attributes
    ----------
    row : str
        Id of the row of `published/values.csv` that gives the change of speed.
    equivalent_mass_kg : float
        mu of an arm of their size (kg).
    low, high : float
        The exponent at the fastest and at the slowest speed the group may have thrown; equal where it needs none.
    rests_on : str
        What had to be assumed or recalled.
    """

    row: str
    equivalent_mass_kg: float
    low: float
    high: float
    rests_on: str

    @property
    def middle(self) -> float:
        """Geometric middle of the range."""
        return math.sqrt(self.low * self.high)


def _mu_kg(person: Person, own_mass_kg: float) -> float:
    return equivalent_mass(path_loads(person, DEFAULT_DIAMETER_M), own_mass_kg).mass_kg


def _numbers(text: str) -> list[float]:
    return [float(word) for word in re.findall(r"-?\d+(?:\.\d+)?", text)]


def published_exponents() -> tuple[PublishedExponent, ...]:
    """Refit the published changes of speed with ball mass: p = ln(v_light / v_heavy) / ln((heavy + mu) / (light + mu)).

    Returns
    -------
    tuple of PublishedExponent
        Adults throwing 110 and 145 g (3-ball-mass-05), bowling 72 to 214 g (3-ball-mass-35), and throwing objects over
        a sixty-fold range of mass (3-ball-mass-16).
    """
    rows = values()

    def exponent(v_light: float, v_heavy: float, light_kg: float, heavy_kg: float, mu_kg: float) -> float:
        return math.log(v_light / v_heavy) / math.log((heavy_kg + mu_kg) / (light_kg + mu_kg))

    slow, fast = ASSUMED_SPEEDS_M_S
    found = []

    change_m_s = rows["3-ball-mass-05"].number
    mu = _mu_kg(Person("male", 1.70, 71.6, 26.0), 0.145)
    low, high = (exponent(v, v + change_m_s, 0.110, 0.145, mu) for v in (fast, slow))
    found.append(PublishedExponent("3-ball-mass-05", mu, low, high, "speeds assumed"))

    light, heavy = (grams / 1000.0 for grams in map(abs, _numbers(rows["3-ball-mass-35"].ball_mass_g)))
    change_m_s = _numbers(rows["3-ball-mass-35"].value)[0] * (heavy - light) / 0.1
    mu = _mu_kg(ASSUMED_ADULT, 0.156)
    low, high = (exponent(v, v + change_m_s, light, heavy, mu) for v in (fast, slow))
    found.append(
        PublishedExponent("3-ball-mass-35", mu, low, high, "speeds and body size assumed; run-up speed does not fall")
    )

    light, heavy = _numbers(rows["3-ball-mass-18"].value)
    mu = _mu_kg(ASSUMED_ADULT, 0.145)
    p = exponent(rows["3-ball-mass-16"].number, 1.0, light, heavy, mu)
    found.append(PublishedExponent("3-ball-mass-16", mu, p, p, "masses from memory; body size assumed"))
    return tuple(found)


def pooled(exponents: tuple[PublishedExponent, ...]) -> tuple[float, float, float]:
    """Pool published exponents on a logarithmic scale, every study alike."""
    logs = np.log([study.middle for study in exponents])
    spread = stats.lognorm(logs.std(ddof=1), scale=math.exp(logs.mean()))
    low, middle, high = spread.ppf([0.05, 0.5, 0.95])
    return float(low), float(middle), float(high)


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
