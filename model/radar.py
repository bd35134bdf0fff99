"""From a radar's reading to release speed: drag on the way, and the angle between radar and flight. Off by default.

    v = v_radar exp(k d) / cos(angle),    k = rho c_d A / (2 m)

A radar reads the part of the speed along its own line, some way after release. Along a straight path quadratic drag
takes off a share exp(-k d) over a distance d, whatever the speed; gravity changes the speed by less than 0.1 % over the
first metres of a level throw.
"""

import math
from dataclasses import dataclass

from model.ball import Ball
from model.checks import Limit, check_number
from model.flight import STILL_AIR, Air
from model.throw import SPEED_LIMIT

DISTANCE_LIMIT = Limit(0.0, 30.0, "m")
ANGLE_LIMIT = Limit(0.0, math.radians(60.0), "rad")
SD_LIMITS = {
    "distance_sd_m": Limit(0.0, 10.0, "m"),
    "angle_sd_rad": Limit(0.0, math.radians(20.0), "rad"),
    "drag_relative_sd": Limit(0.0, 1.0, "of the drag coefficient"),
    "reading_sd_m_s": Limit(0.0, 5.0, "m/s"),
}


@dataclass(frozen=True)
class Radar:
    """Where a radar stands, and how well that is known.

    Parameters
    ----------
    distance_m, distance_sd_m : float
        How far from the hand the ball is when it is read, and the standard deviation of that (m).
    angle_rad, angle_sd_rad : float
        Angle between the radar's line and the ball's flight, and the standard deviation of that (rad).
    drag_relative_sd : float
        Standard deviation of the drag coefficient, relative: 0.15 covers published baseballs (judgement).
    reading_sd_m_s : float
        Standard deviation of what the radar shows (m/s), beside all this: 0.13 for whole miles an hour.

    Raises
    ------
    InputError
        If a value is outside its accepted range.
    """

    distance_m: float = 2.0
    angle_rad: float = 0.0
    distance_sd_m: float = 1.0
    angle_sd_rad: float = math.radians(3.0)
    drag_relative_sd: float = 0.15
    reading_sd_m_s: float = 0.13

    def __post_init__(self) -> None:
        limits = {"distance_m": DISTANCE_LIMIT, "angle_rad": ANGLE_LIMIT, **SD_LIMITS}
        for field, limit in limits.items():
            object.__setattr__(self, field, check_number(field, getattr(self, field), limit))


@dataclass(frozen=True)
class Corrected:
    """A release speed from a radar's reading.

    Attributes
    ----------
    speed_m_s, sd_m_s : float
        Speed and its standard deviation (m/s).
    factor : float
        Speed over reading.
    common_relative_sd : float
        The part of the error that all readings from this place share, relative: for `speed.fit`. The radar's own
        scatter is not in it; it is part of the readings' noise.
    """

    speed_m_s: float
    sd_m_s: float
    factor: float
    common_relative_sd: float


def release_speed(reading_m_s: float, ball: Ball, radar: Radar | None, air: Air = STILL_AIR) -> Corrected:
    """Correct a radar's reading.

    With u the relative errors, all independent: u_d = k sd_d, u_c = k d sd_c, and for the angle a, to second order so
    that it does not vanish head-on, u_a^2 = (tan a sd_a)^2 + (sd_a^2 (1 + 2 tan^2 a))^2 / 2.

    Parameters
    ----------
    reading_m_s : float
        What the radar shows (m/s).
    radar : Radar or None
        None, the default everywhere: the reading is taken as the release speed, without an error of its own.

    Raises
    ------
    InputError
        If the reading or the corrected speed is outside `SPEED_LIMIT`.
    """
    reading = check_number("reading_m_s", reading_m_s, SPEED_LIMIT)
    if radar is None:
        return Corrected(reading, 0.0, 1.0, 0.0)
    slowing = air.slowing_1_m(ball)
    factor = math.exp(slowing * radar.distance_m) / math.cos(radar.angle_rad)
    tan, sd = math.tan(radar.angle_rad), radar.angle_sd_rad
    by_angle = math.hypot(tan * sd, sd**2 * (1.0 + 2.0 * tan**2) / math.sqrt(2.0))
    common = math.hypot(slowing * radar.distance_sd_m, slowing * radar.distance_m * radar.drag_relative_sd, by_angle)
    speed = check_number("speed_m_s", reading * factor, SPEED_LIMIT)
    sd = speed * math.hypot(common, radar.reading_sd_m_s / reading)
    return Corrected(speed, sd, factor, common)
