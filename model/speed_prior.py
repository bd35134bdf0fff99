"""What is believed of an athlete's speed profile before a reading: published exponents, and two priors.

    v(m) = v_own ((m_own + mu) / (m + mu))^p

The exponent p: gamma. The reading noise sigma (relative standard deviation of repeated full-effort throws): lognormal.
The derivation of both is told in `SPEED_PROFILE.md`; a test holds the numbers here together with it.
"""

import math

from scipy import stats

EXPONENT_LOW, EXPONENT_HIGH = 0.15, 1.2  # 5 % and 95 % of the prior: the published exponents, widened (judgement)
EXPONENT_SHAPE, EXPONENT_SCALE = 2.904, 0.19505  # of the gamma with these two quantiles; its median is 0.503

NOISE_MEDIAN, NOISE_HIGH = 0.02, 0.04  # of sigma, median and 95 %: judgement, see values.csv 4-effort-distance-26
NOISE_LOG_SD = math.log(NOISE_HIGH / NOISE_MEDIAN) / float(stats.norm.ppf(0.95))
