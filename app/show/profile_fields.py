"""The fields of the Athlete page: what each is called, its unit, and what is accepted."""

import math

from app.show.form_fields import Field
from app.units.systems import System
from app.units.typed import NUMBER, as_typed, read_typed
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
DISTANCE = Field("throw_distance_m", "Distance", "m", flight.DISTANCE_LIMIT, "distance_m")
HEIGHT = Field("throw_height_m", "Height", "m", flight.HEIGHT_LIMIT, "height_m")
ANGLE = _in_degrees(flight.ANGLE_LIMIT)
RADAR_DISTANCE = Field("radar_distance_m", "Distance", "m", radar.DISTANCE_LIMIT, "distance_m")
RADAR_ANGLE = _in_degrees(radar.ANGLE_LIMIT)
"""Limits in the units that are typed: % and degrees."""


def mass_words(kept: str, system: System) -> str:
    """Call a ball by its mass.

    Parameters
    ----------
    kept : str
        Its mass as kept.
    system : System
        The reader's units.

    Returns
    -------
    str
        Such as "145 g" or "5.11 oz"; empty for a ball without a mass.
    """
    shown = MASS.shown(kept, system).strip()
    own_unit = read_typed(kept, MASS.unit) is not None and not NUMBER.fullmatch(shown)
    return shown if own_unit or not as_typed(kept).strip() else f"{shown} {MASS.unit_in(system)}"
