"""Shared by the tests of where to start and how to build up: athletes with readings, and a rack."""

from functools import cache

import numpy as np

from model.ceilings import Reference, Thrower
from model.limit_draws import Field, field_of
from model.person import Person
from model.speed import SpeedProfile, fit_athlete
from tests.model.speed_cases import ADULT, OWN, RACK, throws_of

WHOLE_RACK = (*RACK, OWN)
LIGHT, HEAVY = RACK[0], RACK[-1]


@cache
def measured(p: float, own_speed_m_s: float = 36.0, person: Person = ADULT) -> SpeedProfile:
    """An athlete of a given exponent, well measured."""
    masses = np.repeat([0.145, 0.210, 0.360, 0.470], 4)
    return fit_athlete(person, OWN, throws_of(np.random.default_rng(3), masses, own_speed_m_s, p, 0.01))


@cache
def field_with(reference: Reference, p: float = 0.55) -> Field:
    """What is drawn of that athlete against a reference."""
    return field_of(Thrower(ADULT, OWN, measured(p), reference))
