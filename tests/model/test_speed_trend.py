"""Own-ball speed over time: against scipy's regression and t test, by hand, and by drawing."""

import math
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from model.checks import InputError
from model.day_speeds import DatedSpeed, DaySpeed, by_day
from model.speed_prior import NOISE_LOG_SD, NOISE_MEDIAN
from model.speed_trend import (
    DAY_TO_THROW,
    LEAST_DAYS,
    PRIOR_FREEDOM,
    PRIOR_SCALE,
    Stretch,
    change_between,
    day_means,
    trend_of,
)
from tests.model.speed_cases import NOISE_PRIOR

FIRST = date(2026, 1, 5)


def days_of(speeds, *, step=7, throws=1):
    return [DaySpeed(FIRST + timedelta(step * i), throws, float(v), float(v)) for i, v in enumerate(speeds)]


def with_prior(squares, freedom, mean):
    """s of the module's text, from a sum of squares in the variance of one throw."""
    return math.sqrt((PRIOR_FREEDOM * (PRIOR_SCALE * mean) ** 2 + squares) / (PRIOR_FREEDOM + freedom))


@pytest.mark.parametrize("throws", [1, 4])
def test_with_as_many_throws_on_each_day_the_slope_is_scipys_and_its_error_scipys_with_the_prior(throws):
    speeds = [32.6, 33.1, 32.9, 33.8, 33.4, 34.0]
    found = trend_of(days_of(speeds, throws=throws), level=0.9)
    x = np.arange(6) * 7.0
    outside = stats.linregress(x, speeds)
    assert found.slope_m_s.estimate == pytest.approx(30.0 * outside.slope, rel=1e-12)
    across = np.sum((x - x.mean()) ** 2)
    weight = 1.0 / (DAY_TO_THROW + 1.0 / throws)
    residual = outside.stderr**2 * across * 4  # of the days: R / w, by D - 2 = 4
    s = with_prior(weight * residual, 4, np.mean(speeds))
    off = 30.0 * stats.t(PRIOR_FREEDOM + 4).ppf(0.95) * s / math.sqrt(weight * across)
    assert found.slope_m_s.high - found.slope_m_s.estimate == pytest.approx(off, rel=1e-9)
    assert found.slope_m_s.estimate - found.slope_m_s.low == pytest.approx(off, rel=1e-9)
    z = 30.0 * outside.slope / (off / stats.t(PRIOR_FREEDOM + 4).ppf(0.95))
    assert found.probability_rose == pytest.approx(stats.t(PRIOR_FREEDOM + 4).cdf(z), rel=1e-9)


def test_with_many_days_the_error_comes_near_scipys_own():
    rng = np.random.default_rng(4)
    speeds = 33.0 + 0.002 * np.arange(400) + 0.9 * rng.standard_normal(400)
    found = trend_of(days_of(speeds, step=1), level=0.9)
    outside = stats.linregress(np.arange(400.0), speeds)
    off = 30.0 * outside.stderr * stats.t(398).ppf(0.95)
    assert found.slope_m_s.high - found.slope_m_s.estimate == pytest.approx(off, rel=0.01)  # 4 of 402 are the prior's


def test_three_days_by_hand():
    # 30.0, 31.0, 32.6 m/s on days 0, 30, 60; 1, 1, 1 throws: w = 1/2 each; slope = (32.6 - 30.0) / 60
    days = days_of([30.0, 31.0, 32.6], step=30)
    found = trend_of(days)
    assert found.slope_m_s.estimate == pytest.approx(1.3)
    # distances from the line 31.2 + 1.3 u, u = -1, 0, 1: 0.1, -0.2, 0.1, squares 0.06, times 1/2: 0.03
    s = with_prior(0.03, 1, 31.2)
    sd = s / math.sqrt(0.5 * 2.0)  # S = w (1 + 0 + 1) in steps of 30 days
    assert found.slope_m_s.high == pytest.approx(1.3 + stats.t(PRIOR_FREEDOM + 1).ppf(0.95) * sd)
    at_the_middle = found.line.at(FIRST + timedelta(30))
    assert at_the_middle.estimate == pytest.approx(31.2)
    assert at_the_middle.high == pytest.approx(31.2 + stats.t(PRIOR_FREEDOM + 1).ppf(0.95) * s / math.sqrt(1.5))
    at_the_end = found.line.at(FIRST + timedelta(60))
    assert at_the_end.estimate == pytest.approx(32.5)
    off = stats.t(PRIOR_FREEDOM + 1).ppf(0.95) * s * math.sqrt(1 / 1.5 + 1.0)
    assert at_the_end.high == pytest.approx(32.5 + off)


def test_a_day_of_more_throws_weighs_more_but_never_more_than_the_scatter_of_days_allows():
    # days 0, 1, 2 with 33, 33, 34; the last of 1 throw (w = 1/2) or of a hundred thousand (w = 1)
    def slope(last):
        days = [*days_of([33.0, 33.0], step=1, throws=1), DaySpeed(FIRST + timedelta(2), last, 34.0, 34.0)]
        return trend_of(days).slope_m_s.estimate / 30.0

    assert slope(1) == pytest.approx(0.5)
    w, t, y = np.array([0.5, 0.5, 1.0]), np.arange(3.0), np.array([33.0, 33.0, 34.0])
    outside = np.polynomial.polynomial.polyfit(t, y, 1, w=np.sqrt(w))[1]
    assert slope(100_000) == pytest.approx(outside, rel=1e-4)


def test_three_days_on_a_line_are_not_taken_for_certain():
    found = trend_of(days_of([33.0, 33.1, 33.2]))
    assert 0.5 < found.probability_rose < 0.7
    assert found.slope_m_s.low < 0.0 < found.slope_m_s.high
    assert found.slope_m_s.high - found.slope_m_s.low > 3.0


def test_a_speed_that_never_changed_rose_with_an_even_chance():
    assert trend_of(days_of([33.0] * 8)).probability_rose == 0.5


@pytest.mark.parametrize(
    ("speeds", "lacking"), [([], "no_reading"), ([33.0], "too_few_days"), ([33, 40], "too_few_days")]
)
def test_too_few_days_have_no_slope_and_say_so(speeds, lacking):
    found = trend_of(days_of(speeds, throws=50))
    assert (found.days, found.throws, found.lacking) == (len(speeds), 50 * len(speeds), lacking)
    assert (found.slope_m_s, found.probability_rose, found.line) == (None, None, None)
    assert len(speeds) < LEAST_DAYS


def drawn_seasons(seed, count, days, throws, slope_m_s_day=0.0):
    """Seasons whose scatter is as it is believed to be before any reading."""
    rng = np.random.default_rng(seed)
    for _ in range(count):
        sigma = PRIOR_SCALE * 33.0 * math.sqrt(PRIOR_FREEDOM / rng.chisquare(PRIOR_FREEDOM))
        t = np.sort(rng.choice(120, days, replace=False))
        n = rng.integers(1, throws + 1, days)
        chance = rng.standard_normal(days) * sigma * np.sqrt(DAY_TO_THROW + 1.0 / n)
        y = 33.0 + slope_m_s_day * t + chance
        yield [DaySpeed(FIRST + timedelta(int(a)), int(b), float(v), float(v)) for a, b, v in zip(t, n, y, strict=True)]


@pytest.mark.parametrize("days", [3, 5, 12])
def test_an_interval_holds_the_true_slope_as_often_as_it_says(days):
    true = 0.02
    held = [
        trend.slope_m_s.low <= 30.0 * true <= trend.slope_m_s.high
        for trend in map(trend_of, drawn_seasons(days, 2000, days, 6, true))
    ]
    assert np.mean(held) == pytest.approx(0.9, abs=4 * math.sqrt(0.09 / 2000))  # four standard errors


def test_where_nothing_changed_a_rise_is_believed_as_often_as_it_should_be():
    rose = [trend_of(days).probability_rose for days in drawn_seasons(8, 2000, 4, 5)]
    assert stats.kstest(rose, "uniform").pvalue > 0.001


def test_the_prior_is_that_of_the_speed_profiles_noise():
    """A scaled inverse chi-squared of the variance in place of a lognormal of sigma: same median, about as wide."""

    def sigma(share):
        return PRIOR_SCALE * math.sqrt(PRIOR_FREEDOM / stats.chi2(PRIOR_FREEDOM).ppf(1.0 - share))

    assert sigma(0.5) == pytest.approx(NOISE_MEDIAN, rel=1e-4)
    assert sigma(0.95) == pytest.approx(NOISE_PRIOR.ppf(0.95), rel=0.1)
    assert sigma(0.05) == pytest.approx(NOISE_PRIOR.ppf(0.05), rel=0.2)
    one_sd_either_way = math.log(sigma(0.8413)) - math.log(sigma(0.1587))
    assert one_sd_either_way / 2 == pytest.approx(NOISE_LOG_SD, rel=0.1)


def test_two_stretches_with_as_many_throws_on_each_day_differ_as_in_scipys_t_test_with_the_prior():
    before, after = [32.1, 32.9, 32.4, 32.6], [33.2, 33.9, 33.1]
    days = days_of([*before, *after], throws=3)
    found = change_between(days, Stretch(FIRST, days[3].day), Stretch(days[4].day, days[6].day), level=0.9)
    outside = stats.ttest_ind(after, before, equal_var=True)
    change = np.mean(after) - np.mean(before)
    assert found.change_m_s.estimate == pytest.approx(change)
    weight = 1.0 / (DAY_TO_THROW + 1.0 / 3.0)
    pooled = (change / outside.statistic) ** 2 / (1 / 4 + 1 / 3)  # variance of a day mean, on 5 degrees of freedom
    s = with_prior(5 * weight * pooled, 5, np.mean([*before, *after]))
    sd = s * math.sqrt((1 / 4 + 1 / 3) / weight)
    t = stats.t(PRIOR_FREEDOM + 5)
    assert found.change_m_s.low == pytest.approx(change - t.ppf(0.95) * sd)
    assert found.probability_rose == pytest.approx(t.cdf(change / sd))
    assert found.earlier_m_s.high == pytest.approx(np.mean(before) + t.ppf(0.95) * s / math.sqrt(4 * weight))
    assert found.later_m_s.estimate == pytest.approx(np.mean(after))
    assert (found.earlier_days, found.later_days, found.lacking) == (4, 3, "")


@pytest.mark.parametrize(
    ("count", "border", "lacking"),
    [
        (0, 10, "no_reading"),
        (3, 0, "no_earlier_reading"),
        (3, 30, "no_later_reading"),
        (2, 5, "too_few_days"),
        (3, 5, ""),
    ],
)
def test_two_stretches_without_enough_days_have_no_change_and_say_so(count, border, lacking):
    days = days_of([33.0] * count)
    split = FIRST + timedelta(border)
    found = change_between(
        days, Stretch(FIRST - timedelta(9), split - timedelta(1)), Stretch(split, date(2026, 12, 31))
    )
    assert found.lacking == lacking
    assert (found.change_m_s is None) == (found.probability_rose is None) == bool(lacking)


def test_days_outside_both_stretches_do_not_count():
    days = days_of([50.0, 32.0, 32.5, 50.0, 33.0, 33.5, 50.0])
    inside = [day for day in days if day.mean_m_s < 50.0]
    stretches = Stretch(days[1].day, days[2].day), Stretch(days[4].day, days[5].day)
    assert change_between(days, *stretches) == change_between(inside, *stretches)


def test_stretches_that_overlap_or_end_before_they_begin_are_refused():
    with pytest.raises(InputError, match="later: '2026-01-08' given; accepted: a first day after 2026-01-08"):
        change_between([], Stretch(FIRST, date(2026, 1, 8)), Stretch(date(2026, 1, 8), date(2026, 2, 1)))
    with pytest.raises(InputError, match="last: '2026-01-04' given; accepted: 2026-01-05 or later"):
        Stretch(FIRST, date(2026, 1, 4))


def test_the_interval_of_a_days_mean_by_hand():
    # 32, 33, 34 on one day (sum of squares 2 on 2 degrees of freedom), 35 on another: mean of all 33.5
    days = by_day([DatedSpeed(FIRST, v) for v in (32.0, 33.0, 34.0)] + [DatedSpeed(FIRST + timedelta(1), 35.0)])
    s = with_prior(2.0, 2, 33.5)
    t = stats.t(PRIOR_FREEDOM + 2).ppf(0.95)
    first, second = day_means(days, 0.9)
    assert (first.estimate, first.low, first.high) == pytest.approx(
        (33.0, 33.0 - t * s / math.sqrt(3), 33.0 + t * s / math.sqrt(3))
    )
    assert (second.estimate, second.low, second.high) == pytest.approx((35.0, 35.0 - t * s, 35.0 + t * s))
    assert day_means([]) == ()


def test_a_single_throw_ever_has_an_interval_from_what_radar_readings_scatter():
    (found,) = day_means(by_day([DatedSpeed(FIRST, 33.0)]))
    off = stats.t(PRIOR_FREEDOM).ppf(0.95) * PRIOR_SCALE * 33.0
    assert found.high == pytest.approx(33.0 + off)


@given(
    st.lists(st.floats(5.0, 50.0), min_size=3, max_size=12),
    st.integers(1, 20),
    st.floats(0.5, 1.1),
)
def test_the_trend_does_not_hang_on_where_days_are_counted_from_and_scales_with_the_speed(speeds, step, factor):
    here = trend_of(days_of(speeds, step=step))
    moved = trend_of([DaySpeed(d.day + timedelta(365), 1, d.mean_m_s, 0.0) for d in days_of(speeds, step=step)])
    assert moved.slope_m_s == here.slope_m_s
    scaled = trend_of(days_of(np.multiply(speeds, factor), step=step))
    assert scaled.slope_m_s.high == pytest.approx(factor * here.slope_m_s.high, rel=1e-9, abs=1e-9)
    assert scaled.probability_rose == pytest.approx(here.probability_rose, abs=1e-9)
    turned = trend_of(days_of(speeds[::-1], step=step))
    assert turned.probability_rose == pytest.approx(1.0 - here.probability_rose, abs=1e-9)
    assert 0.0 < here.probability_rose < 1.0


def test_days_out_of_order_or_twice_are_refused():
    days = days_of([33.0, 34.0, 35.0])
    for wrong in (days[::-1], [*days, days[-1]]):
        for function in (trend_of, day_means):
            with pytest.raises(InputError, match="each day once"):
                function(wrong)
