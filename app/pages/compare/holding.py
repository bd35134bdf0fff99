"""What a throw is held at when it is held otherwise and keeps its speed. Pure."""

from app.records.field_list import field_of
from app.show.listed_throw import ListedThrow
from model.person import Person
from model.speed import SpeedProfile
from model.throw import path_loads

SPEED_DECIMALS, SHARE_DECIMALS = 2, 4  # a hundredth of a m/s or of a per cent
FULL = 1.0
"""Share of full speed, where nothing is known to convert from."""


def held_at(throw: ListedThrow, hold: str, person: Person | None, profile: SpeedProfile | None) -> float | None:
    """Find what leaves a throw's speed as it is when it is held otherwise.

    Parameters
    ----------
    throw : ListedThrow
        As it is held now.
    hold : str
        How it is to be held: "speed", "clock" or "profile".
    person : Person or None
        Who throws.
    profile : SpeedProfile or None
        The person's.

    Returns
    -------
    float or None
        A release speed (m/s), or a share of the clock or of full speed; None where it is not known or not accepted.
    """
    ball, speed = throw.ball, throw.speed_m_s
    unknown = FULL if hold == "profile" else None
    if ball is None or speed is None:
        return unknown
    if hold == "clock":
        return None if person is None else as_held(hold, speed / path_loads(person, ball.diameter_m).path_speed_m_s)
    if hold == "profile":
        if profile is None or profile.posterior.own is None:
            return unknown
        return as_held(hold, speed / float(profile.mean_speed(ball.mass_kg).estimate))
    return as_held(hold, speed)


def as_held(hold: str, value: float) -> float | None:
    """Round what a throw is to be held at as people would type it; None where that is not accepted."""
    rounded, limit = (
        round(value, SPEED_DECIMALS if hold == "speed" else SHARE_DECIMALS),
        field_of("throw.number", {"hold": hold}).of,
    )
    return float(rounded) if limit.low <= rounded <= limit.high else None
