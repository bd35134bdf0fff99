"""Full-effort speed with the own ball over time: day by day, along a line, and between two stretches of days.

What is taken of the readings. The mean of the n throws of day d, on day t_d, is

    y_d = a + b t_d + day_d + error_d,    day_d ~ N(0, k sigma^2),    error_d ~ N(0, sigma^2 / n_d)

sigma is the scatter of one throw about its day, the square root of k sigma that of the days about the line. So a day
mean has the variance sigma^2 / w_d with w_d = 1 / (k + 1 / n_d), and b is found by weighted least squares of the day
means (Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, section 9.2; the formulas from memory):

    b = sum w (t - t_w) (y - y_w) / S,    S = sum w (t - t_w)^2,    R = sum w (y - a - b t)^2

with t_w and y_w the weighted means. How much chance there is comes from the days' distances from the line, and from
what the radar readings of the speed profile are believed to scatter before any is seen (in `speed_prior`), put
as a scaled inverse chi-squared distribution of sigma^2 with m degrees of freedom and scale s_0^2. Then
(b - true) / (s / sqrt(S)) is Student's t with m + D - 2 degrees of freedom for D days, where

    s^2 = (m s_0^2 + R) / (m + D - 2)

(the conjugate analysis of a normal regression with a flat prior on its coefficients: Gelman et al., Bayesian Data
Analysis, 3rd ed. 2013, sections 3.3 and 14.2, from memory). Without the prior, m = 0, it is the textbook's interval;
with it three days that happen to lie on a line are not taken for certain. With many days the days decide.

What it rests on: chance is independent from day to day and normal; the change, if any, is steady; all readings were
taken by the same radar in the same place, whose common error drops out of a change. Another radar or another place
looks like a change and is not in the interval.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtr, stdtrit

from model.checks import InputError
from model.day_speeds import DaySpeed
from model.interval import LEVEL, Interval, tails_of
from model.speed_prior import NOISE_MEDIAN

Array = NDArray[np.float64]

STEP_DAYS = 30.0  # days over which a slope is told
LEAST_DAYS = 3  # on which readings were taken; of two days one line is as good as any chance between them
DAY_TO_THROW = 1.0  # k, variance of days about the line over that of throws about their day: judgement, rather large
PRIOR_FREEDOM = 4.0  # m: ln sigma then has the standard deviation 0.40; that of the prior, `NOISE_LOG_SD`, is 0.42
PRIOR_SCALE = NOISE_MEDIAN * math.sqrt(3.3567 / PRIOR_FREEDOM)  # s_0, relative; 3.3567 is the median of chi-squared
# with 4 degrees of freedom, so that sigma has the median NOISE_MEDIAN

LACKING = ("", "no_reading", "too_few_days", "no_earlier_reading", "no_later_reading")
"""Why there is no answer: there is one; there is no reading; fewer than `LEAST_DAYS` days have one; the earlier or the
later stretch of days has none."""


def day_means(days: Sequence[DaySpeed], level: float = LEVEL) -> tuple[Interval, ...]:
    """How sure the mean full-effort speed of each day is: y_d +- t s / sqrt(n_d).

    s^2 = (m s_0^2 + Q) / (m + F): Q and F, sum of squares and degrees of freedom of the throws about their days' means,
    all days together. So a single throw has an interval too.

    Parameters
    ----------
    days : sequence of DaySpeed
        Each day once, the oldest first.
    level : float
        Probability of the intervals.

    Returns
    -------
    tuple of Interval
        Speeds (m/s), in the order of the days.

    Raises
    ------
    InputError
        If the days are not in order.
    """
    days = _in_order(days)
    if not days:
        return ()
    spread = [(one.throws - 1, one.sd_m_s) for one in days if one.sd_m_s is not None]
    freedom = PRIOR_FREEDOM + sum(count for count, _ in spread)
    squares = _prior_squares(days) + sum(count * sd**2 for count, sd in spread)
    reach = math.sqrt(squares / freedom) * float(stdtrit(freedom, tails_of(level)[2]))
    return tuple(
        Interval(one.mean_m_s, one.mean_m_s - off, one.mean_m_s + off, level)
        for one in days
        for off in [reach / math.sqrt(one.throws)]
    )


@dataclass(frozen=True)
class Trend:
    """Whether the own-ball speed rose over days, and by how much.

    Attributes
    ----------
    days, throws : int
        Days with readings, and readings.
    lacking : str
        One of `LACKING`: why there is no slope.
    slope_m_s : Interval or None
        Change of speed in `STEP_DAYS` days (m/s).
    probability_rose : float or None
        That the slope is above 0.
    line : Line or None
        The line itself.
    """

    days: int
    throws: int
    lacking: str
    slope_m_s: Interval | None = None
    probability_rose: float | None = None
    line: "Line | None" = None


@dataclass(frozen=True)
class Line:
    """A line through day means.

    Attributes
    ----------
    first, last : date
        The days between which it was found.
    middle_days : float
        Where it is known best, in days after the first.
    middle_m_s, slope_m_s_day : float
        Speed there (m/s), and slope (m/s a day).
    scale_m_s, freedom : float
        s and its degrees of freedom.
    weight, spread : float
        Sum of the weights, and S in days squared.
    """

    first: date
    last: date
    middle_days: float
    middle_m_s: float
    slope_m_s_day: float
    scale_m_s: float
    freedom: float
    weight: float
    spread: float

    def at(self, day: date, level: float = LEVEL) -> Interval:
        """The line's own speed on a day (m/s), not that of a throw: +- t s sqrt(1 / sum w + (t - t_w)^2 / S)."""
        away = (day - self.first).days - self.middle_days
        middle = self.middle_m_s + self.slope_m_s_day * away
        sd = self.scale_m_s * math.sqrt(1.0 / self.weight + away**2 / self.spread)
        return _student(middle, sd, self.freedom, level)


def trend_of(days: Sequence[DaySpeed], level: float = LEVEL) -> Trend:
    """Find how the own-ball speed changed over days, by the regression that the module describes.

    Parameters
    ----------
    days : sequence of DaySpeed
        Each day once, the oldest first: of a season, say.
    level : float
        Probability of the interval.

    Returns
    -------
    Trend
        Without a slope where fewer than `LEAST_DAYS` days have readings.

    Raises
    ------
    InputError
        If the days are not in order.
    """
    days = _in_order(days)
    throws = sum(one.throws for one in days)
    if len(days) < LEAST_DAYS:
        return Trend(len(days), throws, "too_few_days" if days else "no_reading")
    t = np.array([(one.day - days[0].day).days for one in days], dtype=float)
    y, w = _means_and_weights(days)
    t_w, y_w = float(w @ t / w.sum()), float(w @ y / w.sum())
    spread = float(w @ (t - t_w) ** 2)
    slope = float(w @ ((t - t_w) * (y - y_w))) / spread
    residual = float(w @ (y - y_w - slope * (t - t_w)) ** 2)
    freedom = PRIOR_FREEDOM + len(days) - 2
    scale = math.sqrt((_prior_squares(days) + residual) / freedom)
    line = Line(days[0].day, days[-1].day, t_w, y_w, slope, scale, freedom, float(w.sum()), spread)
    sd = STEP_DAYS * scale / math.sqrt(spread)
    told = _student(STEP_DAYS * slope, sd, freedom, level)
    return Trend(len(days), throws, "", told, _above_zero(told.estimate, sd, freedom), line)


@dataclass(frozen=True)
class Stretch:
    """A stretch of days, both ends included.

    Raises
    ------
    InputError
        If it ends before it begins.
    """

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise InputError("last", self.last.isoformat(), f"{self.first.isoformat()} or later")

    def of(self, days: Iterable[DaySpeed]) -> tuple[DaySpeed, ...]:
        """Those of the days that lie in it."""
        return tuple(one for one in days if self.first <= one.day <= self.last)


@dataclass(frozen=True)
class Change:
    """Whether the own-ball speed was higher in a later stretch of days than in an earlier one.

    Attributes
    ----------
    earlier_days, later_days : int
        Days with readings in either.
    lacking : str
        One of `LACKING`: why there is no answer.
    earlier_m_s, later_m_s, change_m_s : Interval or None
        Mean speed in either, and how much higher the later one is (m/s).
    probability_rose : float or None
        That the later mean is the higher.
    """

    earlier_days: int
    later_days: int
    lacking: str
    earlier_m_s: Interval | None = None
    later_m_s: Interval | None = None
    change_m_s: Interval | None = None
    probability_rose: float | None = None


def change_between(days: Sequence[DaySpeed], earlier: Stretch, later: Stretch, level: float = LEVEL) -> Change:
    """Compare two stretches of days: the two-sample comparison with one common scatter, weighted and with the prior.

    As in the regression, with a mean for each stretch in place of the line: y_2 - y_1 is Student's t about the true
    change with m + D - 2 degrees of freedom and the scale s sqrt(1 / sum w_1 + 1 / sum w_2).

    Parameters
    ----------
    days : sequence of DaySpeed
        Each day once, the oldest first; days outside both stretches do not count.
    level : float
        Probability of the intervals.

    Returns
    -------
    Change
        Without numbers where a stretch has no readings, or both together fewer than `LEAST_DAYS` days with them.

    Raises
    ------
    InputError
        If the days are not in order, or the later stretch begins before the earlier one has ended.
    """
    if later.first <= earlier.last:
        raise InputError("later", later.first.isoformat(), f"a first day after {earlier.last.isoformat()}")
    days = _in_order(days)
    parts = earlier.of(days), later.of(days)
    counts = len(parts[0]), len(parts[1])
    lacking = _lacking_of(*counts)
    if lacking:
        return Change(*counts, lacking)
    squares, means, weights = _prior_squares((*parts[0], *parts[1])), [], []
    for part in parts:
        y, w = _means_and_weights(part)
        means.append(float(w @ y / w.sum()))
        weights.append(float(w.sum()))
        squares += float(w @ (y - means[-1]) ** 2)
    freedom = PRIOR_FREEDOM + sum(counts) - 2
    scale = math.sqrt(squares / freedom)
    sd = scale * math.sqrt(1.0 / weights[0] + 1.0 / weights[1])
    change = _student(means[1] - means[0], sd, freedom, level)
    own = [_student(mean, scale / math.sqrt(w), freedom, level) for mean, w in zip(means, weights, strict=True)]
    return Change(*counts, "", own[0], own[1], change, _above_zero(change.estimate, sd, freedom))


def _lacking_of(earlier: int, later: int) -> str:
    if not earlier and not later:
        return "no_reading"
    if not earlier or not later:
        return "no_later_reading" if earlier else "no_earlier_reading"
    return "too_few_days" if earlier + later < LEAST_DAYS else ""


def _in_order(days: Sequence[DaySpeed]) -> tuple[DaySpeed, ...]:
    for one, after in pairwise(days):
        if after.day <= one.day:
            raise InputError("days", after.day.isoformat(), f"a day after {one.day.isoformat()}, each day once")
    return tuple(days)


def _means_and_weights(days: Sequence[DaySpeed]) -> tuple[Array, Array]:
    y = np.array([one.mean_m_s for one in days])
    return y, 1.0 / (DAY_TO_THROW + 1.0 / np.array([one.throws for one in days], dtype=float))


def _prior_squares(days: Sequence[DaySpeed]) -> float:
    """What the prior adds to a sum of squares, m s_0^2 (m^2/s^2): scatter is believed as a share of the speed."""
    speed = sum(one.throws * one.mean_m_s for one in days) / sum(one.throws for one in days)
    return PRIOR_FREEDOM * (PRIOR_SCALE * speed) ** 2


def _student(middle: float, sd: float, freedom: float, level: float) -> Interval:
    off = sd * float(stdtrit(freedom, tails_of(level)[2]))
    return Interval(middle, middle - off, middle + off, level)


def _above_zero(middle: float, sd: float, freedom: float) -> float:
    return float(stdtr(freedom, middle / sd))
