"""Shared by the tests of the speed profile and the level lines: an arm by hand, a rack, simulated athletes."""

import numpy as np
from scipy import stats

from model.ball import Ball
from model.channels import CHANNELS, INDEX
from model.identity import PathLoads
from model.level import LevelLine, line_of
from model.motion import PHASES
from model.person import Person
from model.quantity import Quantity
from model.speed_prior import EXPONENT_SCALE, EXPONENT_SHAPE, NOISE_LOG_SD, NOISE_MEDIAN
from model.speed_readings import RadarReading
from model.throw import Throw, path_loads

ADULT = Person("male", 1.88, 90.0, 25.0)
OWN = Ball(0.145)
REFERENCE = Throw(ADULT, OWN, 37.0)
RACK = tuple(Ball(grams / 1000.0) for grams in (95, 125, 160, 210, 275, 360, 470))
RACK_KG = np.array([ball.mass_kg for ball in RACK])
MU_KG = 0.495

EXPONENT_PRIOR = stats.gamma(EXPONENT_SHAPE, scale=EXPONENT_SCALE)
NOISE_PRIOR = stats.lognorm(NOISE_LOG_SD, scale=NOISE_MEDIAN)


def arm_with_equivalent_mass(mu_kg: float) -> PathLoads:
    """An arm without weight whose own varus torque is that of mu kilograms of ball at every phase."""
    u = np.clip((PHASES - 0.1) / 0.85, 0.0, 1.0)
    one_kg = np.zeros((PHASES.size, len(CHANNELS)))
    one_kg[:, INDEX["varus"]] = 120.0 * np.sin(np.pi * u**1.5) ** 2
    nothing = np.zeros_like(one_kg)
    return PathLoads(PHASES, mu_kg * one_kg, one_kg, nothing, nothing, 0.145, 36.9, 0.82)


def law_m_s(mass_kg, own_speed_m_s: float, p: float, mu_kg: float = MU_KG, own_mass_kg: float = 0.145):
    """The law of the profile, written out once more."""
    return own_speed_m_s * ((own_mass_kg + mu_kg) / (mass_kg + mu_kg)) ** p


def throws_of(rng, mass_kg, own_speed_m_s: float, p: float, sigma: float) -> list[RadarReading]:
    """Full-effort readings of a simulated athlete, one for each mass given."""
    mass = np.asarray(mass_kg, dtype=float)
    speeds = law_m_s(mass, own_speed_m_s, p) * np.exp(sigma * rng.standard_normal(mass.size))
    return [RadarReading(m, v) for m, v in zip(mass.tolist(), speeds.tolist(), strict=True)]


def level_line(reference: Throw, quantity: Quantity, mass_kg) -> LevelLine:
    """The level line through a whole throw, for balls of its own ball's diameter."""
    loads = path_loads(reference.person, reference.ball.diameter_m)
    return line_of(loads, quantity, reference.ball.mass_kg, reference.speed_m_s, mass_kg)
