"""A share of full speed and the speed it is, each rounded so that the two agree and neither goes beyond a limit."""

import math
from dataclasses import dataclass

from app.units.conversion import plain, rounded_down, rounded_up_to, to_si
from app.units.systems import System
from model.start_list import BallRange, Choice

PERCENT_PLACES = SPEED_PLACES = 1
HALF_STEP = 0.5 / 10.0**SPEED_PLACES
LEAST_STEP = 1e-4  # of a shown speed's unit: so much below the half step, for it to be rounded down


@dataclass(frozen=True)
class Rounded:
    """What is shown.

    Attributes
    ----------
    percent : float
        Of full speed with the ball.
    speed : float
        Release speed, in the unit that is shown.
    unit : str
        That unit.
    """

    percent: float
    speed: float
    unit: str

    @property
    def share_text(self) -> str:
        """The share without needless decimals, such as "96.9 %"."""
        return f"{plain(self.percent, most=PERCENT_PLACES)} %"

    @property
    def speed_number(self) -> str:
        """The speed without its unit."""
        return f"{self.speed:.{SPEED_PLACES}f}"

    @property
    def speed_text(self) -> str:
        """The speed with its unit."""
        return f"{self.speed_number} {self.unit}"

    @property
    def speed_m_s(self) -> float:
        """The shown speed (m/s)."""
        return to_si(self.speed, self.unit)


def chosen(choice: Choice, system: System) -> Rounded:
    """Round a throw that is proposed as a cap.

    Parameters
    ----------
    choice : Choice
    system : System
        The units of the speed.

    Returns
    -------
    Rounded
    """
    return _down(choice.share, choice.range, system)


def most(one: BallRange, system: System) -> Rounded:
    """Round the most that a ball may be thrown at."""
    return _down(one.most, one, system)


def least(one: BallRange, system: System) -> Rounded:
    """Round the least that a ball may be thrown at, upward.

    Parameters
    ----------
    one : BallRange
    system : System

    Returns
    -------
    Rounded
        Where only the slowest share computed sets it, that is no limit: its speed is the nearest.
    """
    full, unit = system.value(one.full_speed_m_s, "m/s"), system.unit("m/s")
    percent = rounded_up_to(100.0 * one.least, PERCENT_PLACES)
    limit = max((low for low, _ in one.alone.values()), default=0.0)
    speed = rounded_up_to(limit * full, SPEED_PLACES)
    agreeing = rounded_up_to(100.0 * (speed - HALF_STEP + LEAST_STEP) / full, PERCENT_PLACES)
    percent = max(percent, agreeing)
    if percent > 100.0 * one.most:
        return Rounded(rounded_up_to(100.0 * one.least, PERCENT_PLACES), speed, unit)
    return Rounded(percent, round(percent / 100.0 * full, SPEED_PLACES), unit)


def _down(share: float, one: BallRange, system: System) -> Rounded:
    """The greatest share up to this one whose nearest shown speed is not above what the limits allow."""
    full, unit = system.value(one.full_speed_m_s, "m/s"), system.unit("m/s")
    percent = rounded_down(100.0 * share, PERCENT_PLACES)
    limit = min((high for _, high in one.alone.values()), default=math.inf)
    if math.isfinite(limit):  # full speed itself is no limit: what is nearest to it may be a little above
        speed = rounded_down(limit * full, SPEED_PLACES)
        agreeing = rounded_down(100.0 * (speed + HALF_STEP - LEAST_STEP) / full, PERCENT_PLACES)
        if min(percent, agreeing) < 100.0 * one.least:  # a range without room for both
            return Rounded(percent, rounded_down(share * full, SPEED_PLACES), unit)
        percent = min(percent, agreeing)
    return Rounded(percent, round(percent / 100.0 * full, SPEED_PLACES), unit)
