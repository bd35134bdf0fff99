"""The level points of an athlete's arm, worked out once for all that asks for them."""

from functools import lru_cache

from app.show.subject import Case
from model.ball import Ball
from model.checks import InputError
from model.person import Person
from model.throw import Throw
from model.zones import LevelPoints, level_points

SPEED_STEP_M_S = 0.1  # a reference speed is rounded to this: it moves no level point by 0.001 and saves most repeats
BEYOND = 1.08  # the plot's lines run so far beyond the lightest and the heaviest ball


def line_ends(rack: tuple[Ball, ...]) -> tuple[float, float]:
    """Where the plot's lines begin and end (kg)."""
    masses = [ball.mass_kg for ball in rack]
    low, high = min(masses) / BEYOND, max(masses) * BEYOND
    return (0.7 * low, 1.4 * high) if high < 1.3 * low else (low, high)


def points_for(case: Case, reading: str) -> LevelPoints | None:
    """Level points of a reading for the balls of the rack.

    Parameters
    ----------
    case : Case
    reading : str
        A key of `model.channels.READINGS`.

    Returns
    -------
    LevelPoints or None
        None while person or full speed are missing.
    """
    throw = case.throw
    if throw is None:
        return None
    masses = tuple(ball.mass_kg for ball in case.rack)
    speed = max(1.0, round(throw.speed_m_s / SPEED_STEP_M_S) * SPEED_STEP_M_S)
    return _points(throw.person, throw.ball, round(speed, 6), reading, masses)


@lru_cache(maxsize=64)
def _points(
    person: Person, ball: Ball, speed_m_s: float, reading: str, masses: tuple[float, ...]
) -> LevelPoints | None:
    try:
        return level_points(Throw(person, ball, speed_m_s), reading, masses)
    except InputError:
        return None
