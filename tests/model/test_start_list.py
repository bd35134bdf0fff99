"""The short list of first throws, and the least change that lets a ball in where none fits."""

from dataclasses import replace

import pytest

from model.ceilings import Amount, Ceilings, Reference
from model.checks import InputError
from model.readouts import read_curves
from model.start_list import AIMS, NothingFits, nothing_fits, ranges, short_list
from model.throw import Throw, curves
from tests.model.speed_cases import ADULT, OWN, RACK
from tests.model.start_cases import WHOLE_RACK, field_with

FIELD = field_with(Reference())
SOME = Ceilings(elbow_peak=Amount(0.75), rise_rate=Amount(0.6), braking=Amount(0.85), most_loaded=Amount(2.0))
NONE = (
    Ceilings(elbow_peak=Amount(0.5), most_loaded=Amount(1.2)),
    Ceilings(elbow_peak=Amount(0.02), braking=Amount(0.5)),
    Ceilings(speed=Amount(5.0, absolute=True), rise_rate=Amount(1.0)),
    Ceilings(least_loaded=Amount(0.3, absolute=True), most_loaded=Amount(1.5)),
    Ceilings(elbow_peak=Amount(0.01), most_loaded=Amount(0.02, absolute=True)),
)


def at_its_best(aim: str) -> list[tuple[float, float]]:
    """Every ball at the greatest share, read off whole curves: (merit, mass)."""
    found = []
    for one in ranges(FIELD, SOME, WHOLE_RACK):
        read = read_curves(curves(Throw(ADULT, one.ball, one.most * one.full_speed_m_s)), "varus")
        found.append((-read.loaded_s if aim == "longest_loaded" else read.rise_rate, one.ball.mass_kg))
    return sorted(found)


@pytest.mark.parametrize("aim", ["longest_loaded", "slowest_rise"])
def test_the_list_is_in_the_order_of_its_aim(aim):
    listed = short_list(FIELD, SOME, WHOLE_RACK, aim, length=8)
    assert [one.range.ball.mass_kg for one in listed] == [mass for _, mass in at_its_best(aim)]
    assert [one.share for one in listed] == [one.range.most for one in listed]
    assert "place 1 of the 8" in listed[0].reason


def test_the_wanted_peak_is_met_where_a_balls_range_reaches_it_and_else_the_nearest_end_is_told():
    own_peak = read_curves(
        curves(Throw(ADULT, WHOLE_RACK[-1], FIELD.thrower.profile.own_speed().estimate)), "varus"
    ).peak
    for one in short_list(FIELD, SOME, WHOLE_RACK, "nearest_peak", wanted_peak=Amount(0.6)):
        assert one.elbow.peak == pytest.approx(0.6 * own_peak, rel=1e-3)  # median of the draws against the estimate
    far = short_list(FIELD, SOME, RACK, "nearest_peak", wanted_peak=Amount(500.0, absolute=True))[0]
    assert far.share == far.range.most
    assert "keeps it from coming nearer" in far.reason


def test_the_binding_limit_has_no_room_and_every_other_has_some():
    for aim in ("longest_loaded", "slowest_rise"):
        for one in short_list(FIELD, SOME, WHOLE_RACK, aim, length=8):
            room = {margin.key: margin.room for margin in one.margins}
            assert room.pop(one.range.most_by) == pytest.approx(0.0, abs=2e-5)
            assert min(room.values()) > -2e-5
            assert 0.6 < one.together <= 1.0  # four limits of 90 % each can at worst leave 60 % together


@pytest.mark.parametrize("limits", NONE)
def test_where_nothing_fits_the_change_told_is_enough_and_a_little_less_is_not(limits):
    found = short_list(FIELD, limits, WHOLE_RACK)
    assert isinstance(found, NothingFits)
    up = 1.0 + 1e-4
    for factor, opens in ((up, True), (0.999, False)):
        # of a needed amount above the present one a little less is tighter; of one below, a little more
        changed = {}
        for part in found.relax:
            towards = factor if part.needed.value > part.amount.value else 1.0 / factor
            changed[part.key] = replace(part.needed, value=part.needed.value * towards)
        assert any(one.fits for one in ranges(FIELD, replace(limits, **changed), WHOLE_RACK)) is opens
    assert "nothing fits" in found.sentence
    assert all(part.label in found.sentence for part in found.relax)


def test_no_other_single_limit_would_let_a_ball_in_with_a_smaller_change():
    for limits in NONE:
        told = short_list(FIELD, limits, WHOLE_RACK)
        step = 0.999 * told.relax[0].change if len(told.relax) == 1 else 3.0
        for bound, amount in limits.given():
            if bound.key == "least_loaded":
                looser = amount.value * 2.718281828 ** (-step)
            else:
                looser = min(amount.value * 2.718281828**step, 4.99 if not amount.absolute else 59.0)
            changed = replace(limits, **{bound.key: replace(amount, value=looser)})
            assert not any(one.fits for one in ranges(FIELD, changed, WHOLE_RACK)), bound.key


def test_a_ball_that_even_full_speed_holds_too_long_lets_the_most_time_loaded_give_and_not_a_ceiling():
    # 0.02 s at most: no throw of the rack is over so soon, however fast; the ceiling on braking is broken as well
    limits = Ceilings(most_loaded=Amount(0.02, absolute=True))
    found = short_list(FIELD, limits, WHOLE_RACK)
    assert [part.key for part in found.relax] == ["most_loaded"]
    # at full speed with the lightest ball, on the slow side of what is known of it: a little over its estimate there
    speed = FIELD.thrower.profile.mean_speed(RACK[0].mass_kg).estimate
    estimate = read_curves(curves(Throw(ADULT, RACK[0], speed)), "varus").loaded_s
    assert estimate < found.relax[0].needed.value < 1.02 * estimate
    assert "20" not in found.sentence.split("from ")[1].split(" to ")[1]
    # with a ceiling that is broken there too both have to give; without one no ceiling is asked to give at all
    both = short_list(FIELD, replace(limits, speed=Amount(20.0, absolute=True)), RACK[-1:])
    assert {part.key for part in both.relax} <= {"most_loaded", "speed"}
    opened = replace(
        limits, **{part.key: replace(part.needed, value=part.needed.value * 1.0001) for part in both.relax}
    )
    assert any(one.fits for one in ranges(FIELD, opened, RACK[-1:]))


def test_one_limit_that_gives_more_is_told_before_two_that_give_less():
    # at 0.3 of full speed the lightest ball needs the least of the elbow, but brakes 1 % above its ceiling
    full = FIELD.thrower.profile.mean_speed
    thrown = (Throw(ADULT, ball, x * full(ball.mass_kg).estimate) for ball, x in ((RACK[0], 0.3), (OWN, 1.0)))
    braking = [read_curves(curves(throw), "horizontal_abduction").peak for throw in thrown]
    limits = Ceilings(elbow_peak=Amount(0.01), braking=Amount(0.99 * braking[0] / braking[1]))
    told = short_list(FIELD, limits, (RACK[0], RACK[-1]))
    assert [part.key for part in told.relax] == ["elbow_peak"]
    assert told.ball == RACK[-1]
    alone = short_list(FIELD, limits, RACK[:1])
    assert {part.key for part in alone.relax} == {"elbow_peak", "braking"}
    assert sum(part.change for part in alone.relax) < told.relax[0].change


def test_two_limits_are_told_where_one_alone_is_not_enough():
    limits = Ceilings(elbow_peak=Amount(0.01), rise_rate=Amount(0.01))
    found = nothing_fits(FIELD, limits, ranges(FIELD, limits, WHOLE_RACK))
    assert {part.key for part in found.relax} == {"elbow_peak", "rise_rate"}
    assert "no single change is enough" in found.sentence


def test_what_is_not_accepted_is_refused_by_name():
    with pytest.raises(InputError, match="aim"):
        short_list(FIELD, SOME, RACK, "best")
    with pytest.raises(InputError, match="wanted_peak"):
        short_list(FIELD, SOME, RACK, "nearest_peak")
    with pytest.raises(InputError, match="rack"):
        ranges(FIELD, SOME, ())
    assert set(AIMS) == {"longest_loaded", "slowest_rise", "nearest_peak"}
