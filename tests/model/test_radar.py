"""From a radar's reading to release speed."""

import math

import numpy as np
import pytest

from model.ball import Ball
from model.checks import InputError
from model.flight import Air, Launch, fly
from model.radar import Radar, release_speed

BALL = Ball(0.145)
EXACT = {"distance_sd_m": 0.0, "angle_sd_rad": 0.0, "drag_relative_sd": 0.0, "reading_sd_m_s": 0.0}


def test_off_is_the_reading_itself():
    found = release_speed(35.0, BALL, None)
    assert (found.speed_m_s, found.sd_m_s, found.factor, found.common_relative_sd) == (35.0, 0.0, 1.0, 0.0)


@pytest.mark.parametrize("ball", [BALL, Ball(0.095), Ball(0.47)])
@pytest.mark.parametrize("distance", [1.0, 4.0, 10.0])
def test_it_undoes_the_drag_of_a_level_throw(ball, distance):
    flown = fly(ball, 35.0, Launch(1.8, 0.0), samples=4001)
    read = float(np.interp(distance, flown.x_m, flown.speed_m_s))
    found = release_speed(read, ball, Radar(distance, **EXACT))
    # gravity, left out, speeds a level throw up by (g x / v^2)^2 / 2, v the speed on the way: 0.4 % at 10 m
    assert found.speed_m_s == pytest.approx(35.0, rel=1e-5 + 0.5 * (9.81 * distance / read**2) ** 2)
    assert found.speed_m_s >= 35.0
    assert found.sd_m_s == 0.0


def test_it_undoes_the_cosine():
    found = release_speed(30.0, BALL, Radar(0.0, math.radians(25.0), **EXACT))
    assert found.speed_m_s == pytest.approx(30.0 / math.cos(math.radians(25.0)), rel=1e-12)


def test_a_heavier_ball_is_corrected_less():
    factors = [release_speed(30.0, Ball(mass), Radar(**EXACT)).factor for mass in (0.095, 0.145, 0.47)]
    assert factors == sorted(factors, reverse=True)
    assert factors[1] - 1.0 == pytest.approx(2.0 * 0.00573, rel=0.01)  # k d, by hand: 1.204 0.33 pi 0.0365^2 / 0.29


@pytest.mark.parametrize("angle_deg", [0.0, 10.0, 30.0])
def test_the_error_is_that_of_drawn_distances_angles_and_drags(angle_deg):
    angle = math.radians(angle_deg)
    radar = Radar(3.0, angle, 1.0, math.radians(6.0), 0.15, 0.13)
    found = release_speed(35.0, BALL, radar)
    rng = np.random.default_rng(1)
    k = Air().slowing_1_m(BALL) * (1.0 + 0.15 * rng.standard_normal(400_000))
    distance = 3.0 + 1.0 * rng.standard_normal(k.size)
    angles = angle + math.radians(6.0) * rng.standard_normal(k.size)
    reading = 35.0 + 0.13 * rng.standard_normal(k.size)
    assert found.sd_m_s == pytest.approx(float((reading * np.exp(k * distance) / np.cos(angles)).std()), rel=0.05)
    shared = (np.exp(k * distance) / np.cos(angles)).std() / found.factor
    assert found.common_relative_sd == pytest.approx(float(shared), rel=0.05)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Radar(distance_m=60.0), "distance_m"),
        (lambda: Radar(angle_rad=25.0), "angle_rad"),
        (lambda: Radar(angle_sd_rad=-0.1), "angle_sd_rad"),
        (lambda: release_speed(140.0, BALL, Radar()), "reading_m_s"),
        (lambda: release_speed(59.0, BALL, Radar(angle_rad=math.radians(40.0))), "speed_m_s"),
    ],
)
def test_what_cannot_be_is_refused_by_name(make, field):
    with pytest.raises(InputError) as refused:
        make()
    assert refused.value.field == field
