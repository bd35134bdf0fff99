"""What is believed of an athlete's speed profile before a reading: published exponents, and two priors.

    v(m) = v_own ((m_own + mu) / (m + mu))^p

The exponent p: gamma. The reading noise sigma (relative standard deviation of repeated full-effort throws): lognormal.
The derivation of both is told in `SPEED_PROFILE.md`; a test holds the numbers here together with it.
"""

import math
import re
from dataclasses import dataclass

import numpy as np
from scipy import stats

from model.ball import DEFAULT_DIAMETER_M
from model.equivalent_mass import equivalent_mass
from model.person import Person
from model.published import values
from model.throw import path_loads

EXPONENT_LOW, EXPONENT_HIGH = 0.15, 1.2  # 5 % and 95 % of the prior: the published exponents, widened (judgement)
EXPONENT_SHAPE, EXPONENT_SCALE = 2.904, 0.19505  # of the gamma with these two quantiles; its median is 0.503

NOISE_MEDIAN, NOISE_HIGH = (
    0.02,
    0.04,
)  # of sigma, median and 95 %: judgement, see values.csv 4-effort-distance-26
NOISE_LOG_SD = math.log(NOISE_HIGH / NOISE_MEDIAN) / float(stats.norm.ppf(0.95))

EXPONENT_PRIOR = stats.gamma(EXPONENT_SHAPE, scale=EXPONENT_SCALE)
NOISE_PRIOR = stats.lognorm(NOISE_LOG_SD, scale=NOISE_MEDIAN)

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
    """Pool published exponents on a logarithmic scale, every study alike.

    Parameters
    ----------
    exponents : tuple of PublishedExponent
        Two or more.

    Returns
    -------
    (float, float, float)
        5 %, 50 % and 95 % of the lognormal with the mean and standard deviation of the logarithms of their middles.
    """
    logs = np.log([study.middle for study in exponents])
    spread = stats.lognorm(logs.std(ddof=1), scale=math.exp(logs.mean()))
    low, middle, high = spread.ppf([0.05, 0.5, 0.95])
    return float(low), float(middle), float(high)
