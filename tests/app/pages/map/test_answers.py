"""The map's numbers: every line is what a whole throw reads, and every per cent counts from the right throw."""

from dataclasses import replace

import numpy as np
import pytest

from app.pages.compare.answers import compare
from app.pages.map.form import SHOWN_READINGS, MapForm
from app.show.profile_form import BallRow, Cell
from model.ball import Ball
from model.quantity import READOUTS
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.pages.map.conftest import TODAY
from tests.app.typed_forms import empty_form


@pytest.mark.parametrize("readout", READOUTS)
@pytest.mark.parametrize("reading", ["varus", "internal_rotation", "shoulder_proximal_braking"])
def test_along_each_line_a_whole_throw_reads_its_per_cent_of_the_reference_throw(make_map, reading, readout):
    answer = make_map(reading=reading, readout=readout)
    hundred = getattr(read_curves(curves(answer.hundred.throw), reading), readout)
    assert len(answer.contours) >= 4
    for contour in answer.contours[::2]:
        for mass, speed in list(zip(answer.mass_kg, contour.speed_m_s, strict=True))[::6]:
            if not np.isfinite(speed):
                continue
            value = getattr(read_curves(curves(Throw(answer.case.person, Ball(mass), speed)), reading), readout)
            assert 100 * value / hundred == pytest.approx(contour.percent, rel=1e-6)  # the solver's tolerance


def test_the_level_line_runs_through_the_reference_throw(make_map):
    answer = make_map()
    (level,) = (contour for contour in answer.contours if contour.percent == 100)
    own = answer.case.rack.index(answer.case.own_ball)
    assert level.rack_m_s[own] == pytest.approx(answer.hundred.throw.speed_m_s, rel=1e-7)


def test_the_rack_speeds_use_each_balls_own_diameter(make_map, readings):
    rows = (BallRow("b1", "300", "73"), BallRow("b2", "300.5", "100"))
    answer = make_map(form=MapForm(), profile=replace(readings(), rows=rows))
    place = [ball.diameter_m for ball in answer.case.rack].index(0.1)
    ball = answer.case.rack[place]
    for contour in answer.contours[:3]:
        throw = Throw(answer.case.person, ball, contour.rack_m_s[place])
        assert read_curves(curves(throw), "varus").peak == pytest.approx(contour.value, rel=1e-6)


def test_the_throw_looked_at_reads_as_on_compare(make_map, compared):
    form = compared()
    answer = make_map(of="reference", ball_mass_g="275", speed_m_s="28.5")
    shown = compare(form, TODAY)
    same = next(one for one in shown.drawn if one.name == "275 g at 28.5 m/s")
    for key in READOUTS:
        assert getattr(answer.looked.readouts, key) == getattr(same.readouts, key)
        assert getattr(answer.looked.reference, key) == getattr(shown.reference.readouts, key)


def test_the_value_under_the_pointer_is_the_maps_own(make_map):
    answer = make_map()
    grid = answer.grid
    for i, j in ((0, 0), (20, 15), (40, 30)):
        throw = Throw(answer.case.person, Ball(grid.mass_kg[i]), grid.speed_m_s[j])
        assert grid.value[i, j] == pytest.approx(read_curves(curves(throw), "varus").peak, rel=1e-9)


def test_own_ball_readings_make_the_profiles_full_speed_the_hundred(make_map):
    answer = make_map("W02")
    assert (answer.hundred.of, answer.hundred.kind) == ("profile", "measured")
    assert answer.hundred.throw.speed_m_s == pytest.approx(answer.case.profile.own_speed().estimate)


def test_without_own_ball_readings_it_is_the_reference_throw(make_map):
    answer = make_map("W02", read=False)
    assert (answer.hundred.of, answer.hundred.kind) == ("reference", "measured")
    assert answer.hundred.throw.speed_m_s == 36.2  # demo_data/athletes.csv


def test_a_reference_from_before_an_injury_stays_the_hundred_whatever_was_read_since(make_map, readings):
    own = BallRow("b1", "145", "73", (Cell("30.0"), Cell("30.4")))
    profile = replace(readings("W06"), rows=(own,))
    answer = make_map("W06", profile=profile)
    assert (answer.hundred.of, answer.hundred.kind, answer.hundred.throw.speed_m_s) == ("reference", "pre-injury", 35.1)
    now = make_map("W06", profile=profile, of="profile")
    assert now.hundred.throw.speed_m_s == pytest.approx(30.2, abs=0.05)  # the mean of the two readings


def test_the_reference_throw_can_be_chosen_all_the_same(make_map):
    assert make_map("W02", of="reference").hundred.throw.speed_m_s == 36.2


def test_without_any_reading_the_band_is_the_priors_and_contains_both_answers(make_map):
    answer = make_map(read=False)
    assert answer.case.profile.exponent_is_prior
    heaviest = -1
    ratio = answer.speeds.low[heaviest] / answer.speeds.high[heaviest]
    assert ratio < 0.7  # p from 0.15 to 1.2 over (545 + 440) / (145 + 440) g alone is a ratio of 0.58


@pytest.mark.parametrize("reading", SHOWN_READINGS)
@pytest.mark.parametrize("readout", READOUTS)
def test_every_quantity_has_lines_if_the_reference_throw_has_it(make_map, reading, readout):
    answer = make_map(reading=reading, readout=readout)
    hundred = getattr(read_curves(curves(answer.hundred.throw), reading), readout)
    assert bool(answer.contours) == np.isfinite(hundred)  # a force at its height from release on has no rise


def test_without_measures_or_reference_there_is_no_map(make_map, compared):
    form = compared()
    assert make_map(compare=empty_form()).hundred is None
    assert make_map(compare=replace(form, athlete=form.athlete | {"stature_cm": "1.88"})).hundred is None
    nothing = replace(form, throws=tuple(replace(throw, speed_m_s="") for throw in form.throws))
    assert make_map(compare=nothing, read=False).hundred is None
    assert make_map(compare=nothing).hundred.of == "profile"  # the readings know the speed


def test_a_wrong_end_of_an_axis_or_a_wrong_throw_leaves_the_map(make_map):
    answer = make_map(mass_to_g="x", speed_m_s="y")
    assert answer.contours
    assert answer.looked is None
    assert set(answer.range_problems) == {"mass_to_g"}


@pytest.mark.parametrize(
    "ends",
    [("1", "3000", "1", "60"), ("1", "2", "1", "2"), ("2000", "3000", "50", "60"), ("100", "120", "59", "")],
)
@pytest.mark.parametrize("readout", READOUTS)
def test_any_part_of_the_plane_can_be_drawn(make_map, ends, readout):
    names = ("mass_from_g", "mass_to_g", "speed_from_m_s", "speed_to_m_s")
    answer = make_map(readout=readout, **dict(zip(names, ends, strict=True)))
    assert answer.range_problems == {}
    assert all(contour.speed_m_s.size == answer.mass_kg.size for contour in answer.contours)
