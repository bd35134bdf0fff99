"""Full speeds of a rack as they were known on a day: what a plan was made from, and stays made from.

A plan needs of a speed profile no more than the best estimate of full speed with each ball. Kept as a table, it stands
still while new readings come in, and can be held against them.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from model.ball import Ball
from model.checks import InputError, check_number
from model.interval import LEVEL, Interval
from model.throw import SPEED_LIMIT

SAME_KG = 1e-6  # masses that differ by less are of one ball


class FullSpeeds(Protocol):
    """What tells the full speed with a ball: a `SpeedProfile` or a `SpeedTable`."""

    def mean_speed(self, mass_kg: float) -> Interval:
        """Mean full-effort speed with a ball (m/s)."""


@dataclass(frozen=True)
class SpeedTable:
    """Full speed with each ball of a rack.

    Parameters
    ----------
    balls : tuple of Ball (n,)
    speeds_m_s : tuple of float (n,)

    Raises
    ------
    InputError
        If there is no ball, a mass comes twice, or a speed is not accepted.
    """

    balls: tuple[Ball, ...]
    speeds_m_s: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.balls or len(self.balls) != len(self.speeds_m_s):
            raise InputError("balls", len(self.balls), "one or more, with a speed for each")
        masses = sorted(ball.mass_kg for ball in self.balls)
        if any(high - low < SAME_KG for low, high in pairwise(masses)):
            raise InputError("balls", masses, "each mass once")
        for speed in self.speeds_m_s:
            check_number("speed_m_s", speed, SPEED_LIMIT)

    def mean_speed(self, mass_kg: float) -> Interval:
        """Mean full-effort speed with a ball of the table.

        Parameters
        ----------
        mass_kg : float
            Of the ball (kg).

        Returns
        -------
        Interval
            Of no width: the doubt was that of the profile.

        Raises
        ------
        InputError
            If the table has no such ball.
        """
        for ball, speed in zip(self.balls, self.speeds_m_s, strict=True):
            if abs(ball.mass_kg - mass_kg) < SAME_KG:
                return Interval(speed, speed, speed, LEVEL)
        raise InputError("ball_mass_kg", mass_kg, "a ball of the plan's rack")


def table_of(speeds: FullSpeeds, balls: tuple[Ball, ...]) -> SpeedTable:
    """Write down what is known today.

    Parameters
    ----------
    speeds : FullSpeeds
        A speed profile.
    balls : tuple of Ball
        The rack; of balls of one mass, the first.

    Raises
    ------
    InputError
        As the profile's `mean_speed`, and as `SpeedTable`.
    """
    kept: list[Ball] = []
    for ball in balls:
        if not any(abs(ball.mass_kg - other.mass_kg) < SAME_KG for other in kept):
            kept.append(ball)
    return SpeedTable(tuple(kept), tuple(float(speeds.mean_speed(ball.mass_kg).estimate) for ball in kept))
