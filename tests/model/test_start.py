"""The region of a first throw, held against whole curves, closed forms and root finding by another route."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from model.ball import Ball
from model.ceilings import BOUNDS, Amount, Ceilings, Reference, Thrower
from model.checks import InputError
from model.limit_draws import field_of
from model.person import Person
from model.readouts import read_curves
from model.speed import fit_athlete
from model.start import FULL, SLOWEST, Region, region
from model.throw import Throw, curves
from tests.model.speed_cases import ADULT, OWN, throws_of
from tests.model.start_cases import field_with, measured

OWN_SPEED = Reference()
BEFORE = Reference("before_injury", 38.0, date(2020, 5, 1))
ESTIMATED = Reference("estimated", 36.0)
ALL = Ceilings(
    elbow_peak=Amount(0.75),
    shoulder_peak=Amount(0.70),
    rise_rate=Amount(0.60),
    area=Amount(0.95),
    braking=Amount(0.85),
    least_loaded=Amount(1.1),
    most_loaded=Amount(2.0),
    speed=Amount(30.0, absolute=True),
)


def value_of(key: str, person: Person, ball: Ball, speed_m_s: float) -> float:
    """What a limit looks at, read off whole curves."""
    quantity = BOUNDS[key].quantity
    if quantity is None:
        return speed_m_s
    return getattr(read_curves(curves(Throw(person, ball, speed_m_s)), quantity.reading), quantity.readout)


def edge_of(found: Region, key: str) -> np.ndarray:
    """Where a limit stops throws: the most share it allows, or of one on how slowly the least."""
    return found.alone[key][1 if BOUNDS[key].upper_edge else 0]


@pytest.mark.parametrize("reference", [OWN_SPEED, BEFORE, ESTIMATED], ids=lambda one: one.kind)
@pytest.mark.parametrize("key", BOUNDS)
def test_an_edge_lies_at_its_limit_in_the_draw_it_belongs_to_and_the_stated_share_of_draws_keeps_it(reference, key):
    field, ball = field_with(reference), Ball(0.275)
    amount = getattr(ALL, key)
    edge = float(edge_of(region(field, Ceilings(**{key: amount}), [ball.mass_kg]), key)[0])
    full, reference_m_s = np.exp(field.log_full(ball.mass_kg)), np.exp(field.log_reference)

    def ratio(i: int, share: float) -> float:
        own = 1.0 if amount.absolute else value_of(key, ADULT, OWN, reference_m_s[i])
        return value_of(key, ADULT, ball, share * full[i]) / own / amount.value

    # the draw whose own share is the edge: the readout over the limit is 1 there
    some = np.linspace(0, field.p.size - 1, 41).astype(int)
    at_edge = np.array([ratio(i, edge) for i in some])
    order = field.held(BOUNDS[key], amount, ball, edge) / amount.value
    assert order[some] == pytest.approx(at_edge, rel=2e-5)  # the curve through the nodes
    nearest = np.argsort(np.abs(order - 1.0))[:8]
    assert min(abs(ratio(i, edge) - 1.0) for i in nearest) < 1e-6
    kept = order <= 1.0 + 2e-5 if BOUNDS[key].at_most else order >= 1.0 - 2e-5
    assert kept.mean() == pytest.approx(0.9, abs=3e-3)


@pytest.mark.parametrize("mass_kg", [0.095, 0.210, 0.470])
def test_against_an_exact_reference_the_edge_is_the_limit_speed_over_the_upper_tail_of_full_speed(mass_kg):
    profile, ball = measured(0.55), Ball(mass_kg)
    target = 0.75 * value_of("elbow_peak", ADULT, OWN, BEFORE.speed_m_s)
    at_limit = brentq(lambda v: value_of("elbow_peak", ADULT, ball, v) - target, 5.0, 55.0, xtol=1e-10)
    tail = profile.mean_speed(mass_kg, level=0.8).high  # 90 % one-sided
    edge = edge_of(region(field_with(BEFORE), Ceilings(elbow_peak=Amount(0.75)), [mass_kg]), "elbow_peak")[0]
    assert edge == pytest.approx(at_limit / tail, rel=2e-4)  # 4 096 draws against the exact quantile


@pytest.mark.parametrize("mass_kg", [0.095, 0.210, 0.470])
def test_against_the_own_speed_only_the_exponent_counts(mass_kg):
    profile, ball = measured(0.55), Ball(mass_kg)
    own = profile.own_speed().estimate
    target = 0.75 * value_of("elbow_peak", ADULT, OWN, own)
    at_limit = brentq(lambda v: value_of("elbow_peak", ADULT, ball, v) - target, 5.0, 55.0, xtol=1e-10)
    faster = 0.1 if mass_kg > OWN.mass_kg else 0.9  # the tail of p in which full speed with this ball is higher
    ratio = np.exp(-profile.posterior.quantile_p(faster) * profile.x(mass_kg))
    edge = edge_of(region(field_with(OWN_SPEED), Ceilings(elbow_peak=Amount(0.75)), [mass_kg]), "elbow_peak")[0]
    # 4 096 draws against the exact quantile; weight makes the own speed, which goes with the exponent, count a little
    assert edge == pytest.approx(at_limit / (own * ratio), rel=6e-4)


def test_the_own_ball_at_the_root_of_the_ceiling_when_weight_is_little():
    # peak goes as the square of the clock but for weight, a few per cent of it: the share is near the root of 0.81
    edge = edge_of(region(field_with(OWN_SPEED), Ceilings(elbow_peak=Amount(0.81)), [OWN.mass_kg]), "elbow_peak")[0]
    assert edge == pytest.approx(0.9, abs=0.01)
    assert region(field_with(OWN_SPEED), Ceilings(speed=Amount(0.8)), [OWN.mass_kg]).most[0] == pytest.approx(0.8)


def test_the_doubt_of_an_estimated_reference_narrows_the_region_and_can_be_given():
    masses = np.linspace(0.1, 0.47, 5)
    exact, doubted, more = (
        region(field_with(replace(ESTIMATED, relative_sd=sd)), ALL, masses) for sd in (0.0, None, 0.2)
    )
    assert (exact.most > doubted.most).all()
    assert (doubted.most > more.most).all()
    assert (exact.least < doubted.least).all()


@settings(max_examples=6)
@given(
    st.floats(0.4, 1.2),
    st.floats(0.4, 1.2),
    st.floats(0.5, 1.2),
    st.floats(1.2, 3.0),
    st.floats(1.0, 1.5),
    st.floats(0.5, 0.95),
)
def test_a_looser_limit_and_less_certainty_never_make_the_region_smaller(peak, rise, braking, most, looser, certainty):
    def of(factor: float, sure: float):
        amounts = {"elbow_peak": peak, "rise_rate": rise, "braking": braking, "most_loaded": most}
        limits = Ceilings(**{key: Amount(value * factor) for key, value in amounts.items()})
        return region(field_with(ESTIMATED), limits, [0.095, 0.470], certainty=sure)

    tight = of(1.0, certainty)
    for wide in (of(looser, certainty), of(1.0, max(0.5, certainty - 0.2))):
        assert (wide.most >= tight.most - 1e-9).all()
        assert (wide.least <= tight.least + 1e-9).all()


def test_every_edge_is_named_and_is_the_tightest_of_all():
    found = region(field_with(OWN_SPEED), ALL, np.linspace(0.06, 0.6, 12))
    for i in range(12):
        highs = {key: most[i] for key, (_, most) in found.alone.items()} | {"full": FULL}
        assert found.most[i] == min(highs.values()) == highs[found.most_by[i]]
        lows = {key: least[i] for key, (least, _) in found.alone.items()} | {"slowest": SLOWEST}
        assert found.least[i] == max(lows.values()) == lows[found.least_by[i]]
    assert found.most_by[0] == "speed"  # the lightest ball is the fastest


def test_a_limit_on_the_area_is_kept_in_the_stated_share_of_draws_between_both_its_edges_and_no_more_beyond():
    field, certainty, mass = field_with(BEFORE), 0.9, 0.145
    amount = Amount(0.62)
    least, most = (
        float(edge[0]) for edge in region(field, Ceilings(area=amount), [mass], certainty=certainty).alone["area"]
    )
    assert SLOWEST < least < most < FULL

    def kept(share: float) -> float:
        return float((field.held(BOUNDS["area"], amount, Ball(mass), share) <= amount.value * (1.0 + 1e-6)).mean())

    assert min(kept(share) for share in np.linspace(least * 1.0005, most * 0.9995, 25)) >= certainty - 2e-3
    assert kept(1.01 * most) < certainty
    assert kept(0.99 * least) < certainty


def test_a_limit_on_the_area_that_no_speed_keeps_closes_the_ball():
    found = region(field_with(OWN_SPEED), Ceilings(area=Amount(0.2)), [0.145, 0.470])
    assert not found.fits.any()


def test_the_slowest_share_looked_at_is_a_twentieth_or_what_the_slowest_accepted_throw_is():
    slow = fit_athlete(ADULT, OWN, throws_of(np.random.default_rng(3), np.array([0.145] * 4), 14.0, 0.55, 0.01))
    found = region(field_of(Thrower(ADULT, OWN, slow, OWN_SPEED)), Ceilings(), [0.145])
    assert found.least[0] == found.floor[0] == pytest.approx(1.0 / 14.0, rel=0.01)
    assert region(field_with(OWN_SPEED), Ceilings(), [0.145]).floor[0] == SLOWEST


def test_the_outline_closes_and_leaves_out_the_balls_that_do_not_fit():
    # held too long by heavy balls, too steep by none: only a stretch of balls is left
    limits = Ceilings(elbow_peak=Amount(0.60), most_loaded=Amount(1.45))
    found = region(field_with(OWN_SPEED), limits, np.linspace(0.03, 1.2, 60))
    assert found.fits.any()
    assert not found.fits.all()
    assert sum((outline[0].size - 1) // 2 for outline in found.polygons) == found.fits.sum()
    for mass, share in found.polygons:
        assert (mass[0], share[0]) == (mass[-1], share[-1])


def test_without_limits_everything_looked_at_fits():
    found = region(field_with(OWN_SPEED), Ceilings(), [0.1, 0.4])
    assert (found.least.tolist(), found.most.tolist()) == ([SLOWEST] * 2, [FULL] * 2)
    assert (found.least_by[0], found.most_by[0]) == ("slowest", "full")


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="elbow_peak"):
        Ceilings(elbow_peak=Amount(0.0))
    with pytest.raises(InputError, match="rise_rate"):
        Ceilings(rise_rate=Amount(1e9, absolute=True))
    with pytest.raises(InputError, match="least_loaded"):
        Ceilings(least_loaded=Amount(2.0), most_loaded=Amount(1.5))
    with pytest.raises(InputError, match="measured_on"):
        Reference("before_injury", 38.0)
    with pytest.raises(InputError, match="speed_m_s"):
        Reference("before_injury", None, date(2020, 5, 1))
    with pytest.raises(InputError, match="kind"):
        Reference("guessed")
    with pytest.raises(InputError, match="certainty"):
        region(field_with(OWN_SPEED), Ceilings(), [0.1], certainty=1.0)
    with pytest.raises(InputError, match="readings"):
        field_of(Thrower(ADULT, OWN, fit_athlete(ADULT, OWN, []), OWN_SPEED))


@pytest.mark.parametrize("key", BOUNDS)
def test_a_limit_counted_the_other_way_is_the_share_of_the_reference_throws_own_readout_and_back(key):
    field = field_with(Reference("measured", 36.0))
    whole = value_of(key, ADULT, OWN, 36.0)
    absolute = field.recounted(BOUNDS[key], Amount(0.8))
    assert absolute == Amount(pytest.approx(0.8 * whole, rel=1e-6), absolute=True)
    assert field.recounted(BOUNDS[key], absolute) == Amount(pytest.approx(0.8))


def test_a_torque_elsewhere_may_be_a_quarter_less_or_more():
    assert Amount(60.0, absolute=True).between_laboratories == (45.0, 75.0)


def test_a_range_found_before_is_not_found_again_and_another_certainty_or_amount_is():
    field, mass = field_of(Thrower(ADULT, OWN, measured(0.55), BEFORE)), np.array([0.145, 0.360])
    peak = BOUNDS["elbow_peak"]
    first = field.range_of(peak, Amount(0.75), mass, OWN.diameter_m, 0.9)
    assert field.range_of(peak, Amount(0.75), mass.copy(), OWN.diameter_m, 0.9) is first
    for amount, certainty in ((Amount(0.75), 0.95), (Amount(0.70), 0.9), (Amount(40.0, absolute=True), 0.9)):
        assert not np.array_equal(field.range_of(peak, amount, mass, OWN.diameter_m, certainty)[1], first[1])
