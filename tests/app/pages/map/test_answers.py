"""The map's numbers: every line is what a whole throw reads, and every per cent counts from the right throw."""

from dataclasses import replace

import numpy as np
import pytest

from app.pages.map.answers import map_of
from app.pages.map.asked import SHOWN_READINGS
from model.ball import Ball
from model.quantity import READOUTS
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.kept_demo import with_rack
from tests.app.known import TODAY, reading


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


def test_the_rack_speeds_use_each_balls_own_diameter(kept):
    answer = map_of(with_rack(kept(), (0.300, 0.073), (0.3005, 0.100)), TODAY)
    place = [ball.diameter_m for ball in answer.case.rack].index(0.1)
    ball = answer.case.rack[place]
    for contour in answer.contours[:3]:
        throw = Throw(answer.case.person, ball, contour.rack_m_s[place])
        assert read_curves(curves(throw), "varus").peak == pytest.approx(contour.value, rel=1e-6)


def test_the_throw_looked_at_reads_as_the_whole_throw_does(make_map):
    answer = make_map(of="reference", ball_mass_kg="275", ball_speed_m_s="28.5")
    throws = [Throw(answer.case.person, Ball(mass), speed) for mass, speed in ((0.275, 28.5), (0.145, 33.0))]
    same, reference = (read_curves(curves(throw), "varus") for throw in throws)  # 33.0: demo_data/athletes.csv
    for key in READOUTS:
        assert getattr(answer.looked.readouts, key) == getattr(same, key)
        assert getattr(answer.looked.reference, key) == getattr(reference, key)


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


def test_a_reference_from_before_an_injury_stays_the_hundred_whatever_was_read_since(kept):
    def read(data):
        since = tuple(reading(number, data.own_ball.id, speed) for number, speed in ((1, 30.0), (2, 30.4)))
        return map_of(replace(data, readings=since), TODAY)

    answer = read(kept("W06"))
    assert (answer.hundred.of, answer.hundred.kind, answer.hundred.throw.speed_m_s) == ("reference", "pre-injury", 35.1)
    now = read(kept("W06", of="profile"))
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


def test_without_measures_or_reference_there_is_no_map(make_map):
    assert make_map(rows={"measures": {"stature_m": "1.88"}}).hundred is None
    nothing = {"reference": {"speed_m_s": ""}}
    assert make_map(rows=nothing, read=False).hundred is None
    assert make_map(rows=nothing).hundred.of == "profile"  # the readings know the speed


def test_a_wrong_end_of_an_axis_or_a_wrong_throw_leaves_the_map(make_map):
    answer = make_map(mass_to_kg="x", ball_speed_m_s="y")
    assert answer.contours
    assert answer.looked is None


@pytest.mark.parametrize(
    "ends",
    [("1", "3000", "1", "60"), ("1", "2", "1", "2"), ("2000", "3000", "50", "60"), ("100", "120", "59", "")],
)
@pytest.mark.parametrize("readout", READOUTS)
def test_any_part_of_the_plane_can_be_drawn(make_map, ends, readout):
    names = ("mass_from_kg", "mass_to_kg", "speed_from_m_s", "speed_to_m_s")
    answer = make_map(readout=readout, **dict(zip(names, ends, strict=True)))
    assert answer.ends_problems == ()
    assert all(contour.speed_m_s.size == answer.mass_kg.size for contour in answer.contours)
