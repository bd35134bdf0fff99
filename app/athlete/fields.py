"""The fields of the Athlete page: what each is called, its unit, and what is accepted."""

import math

from app.compare.fields import Field
from model import flight, radar
from model.ball import BALL_LIMITS
from model.checks import Limit
from model.level import SHARE_LIMIT
from model.speed_readings import EFFORT_LIMIT
from model.throw import SPEED_LIMIT

PERCENT = 100.0

MASS = Field("mass_g", "Ball mass", "g", BALL_LIMITS["mass_kg"], "mass_kg")
DIAMETER = Field("diameter_mm", "Ball diameter", "mm", BALL_LIMITS["diameter_m"], "diameter_m")
SPEED = Field("speed", "Reading", "m/s", SPEED_LIMIT, "speed_m_s")
OWN_SPEED = Field("own_speed_m_s", "Own-ball full speed", "m/s", SPEED_LIMIT, "own_speed_m_s", needed=False)


def _in_degrees(limit: Limit) -> Limit:
    return Limit(round(math.degrees(limit.low), 6), round(math.degrees(limit.high), 6), "°")


def _in_percent(limit: Limit) -> Limit:
    return Limit(round(PERCENT * limit.low, 6), round(PERCENT * limit.high, 6), "%")


EFFORT = _in_percent(EFFORT_LIMIT)
SHARE = _in_percent(SHARE_LIMIT)
DISTANCE = flight.DISTANCE_LIMIT
HEIGHT = flight.HEIGHT_LIMIT
ANGLE = _in_degrees(flight.ANGLE_LIMIT)
RADAR_DISTANCE = radar.DISTANCE_LIMIT
RADAR_ANGLE = _in_degrees(radar.ANGLE_LIMIT)
"""Limits in the units that are typed: %, m and degrees."""
