"""Claims about two throws, held against the first-order law, closed forms, plain simulation and their mirror image."""

import numpy as np
import pytest

from model.ball import Ball
from model.checks import InputError
from model.claim import (
    HOLDS_FROM,
    NO_DIFFERENCE,
    Difference,
    Draws,
    at_own_speed,
    differences,
    given,
    on_profile,
    settled,
)
from model.drawn_throws import Subject, Thrown
from model.drawn_throws import on_profile as on_band_profile
from model.interval import Interval
from model.quantity import READOUTS, Quantity, quantity_at
from model.readouts import read_curves
from model.speed import fit, fit_athlete
from model.speed_readings import RadarReading
from model.structural_band import differences as band_differences
from model.throw import Throw, curves, path_loads
from tests.model.speed_cases import ADULT, MU_KG, OWN, arm_with_equivalent_mass, law_m_s, throws_of

FIRST_KG, SECOND_KG = 0.275, 0.145
IDEAL = (arm_with_equivalent_mass(0.4),) * 2
ARM = (path_loads(ADULT, OWN.diameter_m),) * 2
READ = throws_of(np.random.default_rng(7), np.repeat([0.145, 0.210, 0.360], 3), 36.0, 0.55, 0.02)
MEASURED = fit_athlete(ADULT, OWN, READ)
PRIOR = fit_athlete(ADULT, OWN, [], own_speed_m_s=36.0)


def asked(profile, reading: str = "varus", first_kg: float = FIRST_KG, second_kg: float = SECOND_KG):
    return differences(ARM, (first_kg, second_kg), reading, on_profile(profile, first_kg, second_kg))


@pytest.mark.parametrize("speeds", [(28.5, 33.0), (33.0, 33.0), (20.0, 35.0)])
def test_on_the_ideal_arm_given_speeds_follow_the_first_order_law_to_rounding(speeds):
    found = differences(IDEAL, (FIRST_KG, SECOND_KG), "varus", given(*speeds))
    r, s = (FIRST_KG + 0.4) / (SECOND_KG + 0.4), speeds[0] / speeds[1]
    expected = {"peak": r * s**2, "area": r * s, "rise_rate": r * s**3, "loaded_s": 1.0 / s}
    for key, ratio in expected.items():
        one = found[key]
        assert one.relative.estimate == pytest.approx(ratio - 1.0, abs=1e-12)
        assert (one.more, one.less) == (float(ratio > 1.0 + 1e-12), float(ratio < 1.0 - 1e-12))


def test_on_the_ideal_arm_the_probability_is_that_of_the_exponent_below_the_level_point():
    profile = fit(READ, 0.145, 0.4)
    found = differences(IDEAL, (FIRST_KG, SECOND_KG), "varus", on_profile(profile, FIRST_KG, SECOND_KG))
    level = {"rise_rate": 1 / 3, "peak": 1 / 2, "area": 1.0, "loaded_s": np.inf}  # 1 / k of (m + mu) s^k
    for key in READOUTS:
        # 16 384 evenly spread draws: a few of them on the wrong side of the border
        assert found[key].more == pytest.approx(float(profile.probability_below(level[key])), abs=2e-3)


def test_on_the_ideal_arm_the_interval_is_that_of_the_exponent_carried_over():
    profile = fit(READ, 0.145, 0.4)
    found = differences(IDEAL, (FIRST_KG, SECOND_KG), "varus", on_profile(profile, FIRST_KG, SECOND_KG))
    p, r = profile.exponent(), (FIRST_KG + 0.4) / (SECOND_KG + 0.4)
    # peak = R s^2 with s = R^-p: the largest p gives the smallest peak
    expected = [r ** (1.0 - 2.0 * value) - 1.0 for value in (p.high, p.estimate, p.low)]
    one = found["peak"].relative
    assert [one.low, one.estimate, one.high] == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("reading", ["varus", "internal_rotation", "horizontal_abduction"])
def test_given_speeds_read_what_whole_throws_read(reading):
    found = differences(ARM, (FIRST_KG, SECOND_KG), reading, given(28.5, 33.0))
    throws = [Throw(ADULT, Ball(mass), speed) for mass, speed in ((FIRST_KG, 28.5), (SECOND_KG, 33.0))]
    first, second = (read_curves(curves(throw), reading) for throw in throws)
    for key, one in found.items():
        assert one.first.estimate == pytest.approx(getattr(first, key), rel=1e-12)
        assert one.second.estimate == pytest.approx(getattr(second, key), rel=1e-12)
        assert one.absolute.estimate == pytest.approx(getattr(first, key) - getattr(second, key), rel=1e-9)


@pytest.mark.parametrize("profile", [MEASURED, PRIOR], ids=["measured", "prior"])
@pytest.mark.parametrize("reading", ["varus", "internal_rotation", "horizontal_abduction"])
def test_probability_and_interval_are_those_of_plain_simulation(profile, reading):
    """Athletes drawn at random from the posterior's own points, each throw computed by itself."""
    count = 4000
    rng, drawn = np.random.default_rng(3), profile.posterior.draw(16)
    some = rng.choice(drawn.p.size, count, replace=False)
    log_own, p = drawn.log_own[some], drawn.p[some]
    speeds = [np.exp(log_own - p * float(profile.x(mass))).clip(1.0, 60.0) for mass in (FIRST_KG, SECOND_KG)]
    found = asked(profile, reading)
    for key, one in found.items():
        first, second = (
            quantity_at(ARM[0], Quantity(reading, key), mass, speed)
            for mass, speed in zip((FIRST_KG, SECOND_KG), speeds, strict=True)
        )
        more = float((first > second).mean())
        # three standard errors of the simulation, and of an odds near 0 or 1 at least one draw in a thousand
        assert one.more == pytest.approx(more, abs=3.0 * np.sqrt(more * (1.0 - more) / count) + 1e-3)
        for name, level in (("low", 0.05), ("estimate", 0.5), ("high", 0.95)):
            spread = 3.0 * np.sqrt(level * (1.0 - level) / count)
            for of, values in (("relative", first / second - 1.0), ("absolute", first - second)):
                low, high = np.quantile(values, [max(level - spread, 0.0), min(level + spread, 1.0)])
                assert low <= getattr(getattr(one, of), name) <= high


@pytest.mark.parametrize("profile", [MEASURED, PRIOR], ids=["measured", "prior"])
def test_swapping_the_balls_swaps_more_and_less(profile):
    there, back = asked(profile), asked(profile, first_kg=SECOND_KG, second_kg=FIRST_KG)
    for key in READOUTS:
        assert there[key].more + back[key].more == pytest.approx(1.0, abs=1e-12)
        assert (there[key].more, there[key].less) == (back[key].less, back[key].more)
        assert there[key].verdict(more=True) == back[key].verdict(more=False)
        assert there[key].absolute.low == pytest.approx(-back[key].absolute.high, rel=1e-9)


def test_both_speeds_come_from_the_same_draw():
    """Two draws of their own would make the difference of two nearly equal balls as wide as the speeds."""
    one = asked(MEASURED, first_kg=0.150)["peak"].relative
    alone = MEASURED.own_speed()
    assert one.high - one.low < 0.1 * 2.0 * (alone.high - alone.low) / alone.estimate


def test_the_speeds_of_the_draws_are_those_of_the_profile():
    draws = on_profile(MEASURED, FIRST_KG, SECOND_KG)
    for which, mass in (("first", FIRST_KG), ("second", SECOND_KG)):
        found, expected = draws.speed(which), MEASURED.mean_speed(mass)
        for end in ("low", "estimate", "high"):
            assert getattr(found, end) == pytest.approx(getattr(expected, end), rel=1e-3)


def test_an_error_that_all_readings_share_widens_the_speeds_and_not_the_relative_difference():
    shared = fit_athlete(ADULT, OWN, READ, common_relative_sd=0.03)
    wide, narrow = on_profile(shared, FIRST_KG, SECOND_KG), on_profile(MEASURED, FIRST_KG, SECOND_KG)
    assert wide.speed("first").high == pytest.approx(shared.mean_speed(FIRST_KG).high, rel=2e-3)
    assert wide.speed("first").high > 1.02 * narrow.speed("first").high
    widths = [found["peak"].relative.high - found["peak"].relative.low for found in (asked(shared), asked(MEASURED))]
    assert widths[0] == pytest.approx(widths[1], rel=0.02)


def test_at_one_speed_a_heavier_ball_has_more_of_everything_but_time_and_braking_is_level():
    found = differences(ARM, (FIRST_KG, SECOND_KG), "varus", at_own_speed(MEASURED))
    assert [found[key].verdict(more=True) for key in ("peak", "rise_rate", "area")] == ["holds"] * 3
    assert abs(found["loaded_s"].relative.estimate) < 0.05
    after = differences(ARM, (FIRST_KG, SECOND_KG), "horizontal_abduction", at_own_speed(MEASURED))
    for one in after.values():
        # the hand is empty: the same clock, the same curve
        assert (one.more, one.less, one.relative.low, one.relative.high) == (0.0, 0.0, 0.0, 0.0)
        assert one.none_to_speak_of
        assert {one.verdict(more=True), one.verdict(more=False)} == {"fails"}


@pytest.mark.parametrize(("p", "expected"), [(0.2, "holds"), (0.8, "fails")])
def test_a_well_measured_athlete_settles_the_claim_about_the_peak(p, expected):
    mass = np.resize([0.095, 0.145, 0.275, 0.470], 40)
    readings = [RadarReading(m, v) for m, v in zip(mass, law_m_s(mass, 37.0, p), strict=True)]
    found = asked(fit_athlete(ADULT, OWN, readings))
    assert found["peak"].verdict(more=True) == expected
    assert found["loaded_s"].verdict(more=True) == "holds"


def test_the_prior_alone_does_not_know_the_sign_of_the_peak():
    assert asked(PRIOR)["peak"].verdict(more=True) == asked(PRIOR)["peak"].verdict(more=False) == "open"


def test_draws_beyond_the_accepted_speeds_count_for_neither_side():
    fast = Draws(np.array([61.0, 30.0, 30.0, 0.5]), np.array([33.0, 33.0, 20.0, 20.0]))
    one = differences(IDEAL, (SECOND_KG, SECOND_KG), "varus", fast)["peak"]
    assert (one.more, one.less, one.undefined) == (0.25, 0.25, 0.5)
    none = differences(IDEAL, (SECOND_KG, SECOND_KG), "varus", Draws(np.array([61.0]), np.array([33.0])))["peak"]
    assert none.verdict(more=True) == "undefined"
    assert np.isnan(none.relative.estimate)


def difference_of(more: float, less: float, low: float, high: float, undefined: float = 0.0) -> Difference:
    between = Interval(0.5 * (low + high), low, high, 0.9)
    return Difference("peak", between, between, between, between, more, less, undefined, np.array([low, high]))


def test_the_border_itself_is_enough_and_just_below_it_is_not():
    assert difference_of(HOLDS_FROM, 0.1, -0.1, 0.3).verdict(more=True) == "holds"
    assert difference_of(HOLDS_FROM, 0.1, -0.1, 0.3).verdict(more=False) == "fails"
    assert difference_of(HOLDS_FROM - 0.001, 0.101, -0.1, 0.3).verdict(more=True) == "open"


def test_a_difference_that_prints_as_nought_is_none_whatever_its_probability():
    small = 0.9 * NO_DIFFERENCE
    assert difference_of(1.0, 0.0, 0.0, small).verdict(more=True) == "fails"
    assert difference_of(1.0, 0.0, 0.0, NO_DIFFERENCE).verdict(more=True) == "holds"
    assert not difference_of(0.5, 0.0, 0.0, small, undefined=0.5).none_to_speak_of


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: given(0.0, 30.0), "first_m_s"),
        (lambda: given(30.0, float("nan")), "second_m_s"),
        (lambda: on_profile(MEASURED, 9.0, 0.1), "first_mass_kg"),
        (lambda: on_profile(fit([], 0.145, MU_KG), 0.2, 0.1), "readings"),
        (lambda: at_own_speed(fit([], 0.145, MU_KG)), "readings"),
        (lambda: differences(ARM, (0.2, 9.0), "varus", given(30.0, 30.0)), "second_mass_kg"),
        (lambda: differences(ARM, (0.2, 0.1), "all of it", given(30.0, 30.0)), "reading"),
        (lambda: differences(ARM, (0.2, 0.1), "varus", given(30.0, 30.0), 1.5), "level"),
    ],
)
def test_what_cannot_be_is_refused_by_name(make, field):
    with pytest.raises(InputError) as refused:
        make()
    assert refused.value.field == field


# ---- with all that is not known ------------------------------------------------------------------------------------


def test_settled_is_the_structural_band_of_every_readout():
    subject = Subject(ADULT, OWN, 37.0)
    first, second = Thrown(Ball(0.275), 30.0), Thrown(OWN, 37.0)
    found = settled(subject, first, second, "internal_rotation")
    assert set(found) == set(READOUTS)
    (expected,) = band_differences(subject, [first], second, [("internal_rotation", "area")])
    assert found["area"] == expected["internal_rotation", "area"]


def test_from_the_speeds_alone_it_says_what_the_draws_of_the_speeds_say():
    own, heavy = on_band_profile(MEASURED, (OWN, Ball(FIRST_KG)))
    found = settled(Subject(ADULT, OWN, own.speed_m_s), heavy, own, "varus")
    plain = asked(MEASURED, "varus", first_kg=FIRST_KG, second_kg=OWN.mass_kg)
    for key, one in found.items():
        assert one.radar_probability_more == pytest.approx(plain[key].more, abs=0.01), key
        assert one.radar_low == pytest.approx(plain[key].relative.low, abs=0.002), key
        assert one.radar_high == pytest.approx(plain[key].relative.high, abs=0.002), key


def test_a_claim_of_an_unknown_reading_is_refused():
    with pytest.raises(InputError, match="reading: 'valgus' given"):
        settled(Subject(ADULT, OWN, 37.0), Thrown(OWN, 37.0), Thrown(OWN, 37.0), "valgus")
