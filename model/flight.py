"""Distance and release speed: the flight of a ball with drag.

    m dv/dt = m g - 1/2 rho c_d A |v| v

in the vertical plane, still air, no lift from spin (backspin carries a thrown ball some metres farther; wind more).
x runs along the ground from below the release point, y up from the ground.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import constants
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

from model.ball import Ball
from model.checks import InputError, Limit, check_number
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

DRAG_COEFFICIENT = (
    0.33  # of a baseball thrown or hit: a change of 0.01 is "about 3 %" (Young & Nathan 2020); of a smooth
)
# sphere at these speeds about 0.5 (Smith & Sciacchitano 2022): enter a ball's own where it is known
AIR_DENSITY_KG_M3 = 1.204  # dry air at 20 C and 101.325 kPa, by the gas law with 287.05 J/(kg K)

DRAG_LIMIT = Limit(0.0, 1.5, "")
AIR_LIMIT = Limit(0.0, 2.0, "kg/m3")
HEIGHT_LIMIT = Limit(0.0, 5.0, "m")
ANGLE_LIMIT = Limit(math.radians(-30.0), math.radians(90.0), "rad")
BEST_ANGLE_RAD = (math.radians(5.0), math.radians(80.0))  # between which the best angle is looked for
DISTANCE_LIMIT = Limit(0.5, 200.0, "m")
LONGEST_S = 30.0  # no accepted throw stays up longer: 60 m/s straight up without air takes 12 s
TOLERANCE = 1e-8  # of the solver, m and m/s: its own error is under a millimetre
CLOSE_M_S = 1e-5
CLOSE_M = 0.05  # a distance missed by more is one that no speed reaches
CLOSE_RAD = 1e-4  # the distance is flat about the best angle


@dataclass(frozen=True)
class Air:
    """What the ball flies through.

    Parameters
    ----------
    drag_coefficient : float
        c_d, referred to the ball's cross-section; 0 for none.
    density_kg_m3 : float
        Density of the air (kg/m3).

    Raises
    ------
    InputError
        If either is outside its accepted range.
    """

    drag_coefficient: float = DRAG_COEFFICIENT
    density_kg_m3: float = AIR_DENSITY_KG_M3

    def __post_init__(self) -> None:
        drag = check_number("drag_coefficient", self.drag_coefficient, DRAG_LIMIT)
        object.__setattr__(self, "drag_coefficient", drag)
        density = check_number("density_kg_m3", self.density_kg_m3, AIR_LIMIT)
        object.__setattr__(self, "density_kg_m3", density)

    def slowing_1_m(self, ball: Ball) -> float:
        """Relative loss of speed for each metre flown, k = rho c_d A / (2 m) (1/m); 0.0057 for a 145 g, 73 mm ball."""
        area = math.pi * (0.5 * ball.diameter_m) ** 2
        return self.density_kg_m3 * self.drag_coefficient * area / (2.0 * ball.mass_kg)


STILL_AIR = Air()


@dataclass(frozen=True)
class Launch:
    """How the ball starts and where it ends.

    Parameters
    ----------
    height_m : float
        Height of release above the ground (m).
    angle_rad : float or None
        Angle of release above the horizontal (rad), negative for downward; None for whatever angle carries farthest.
    target_height_m : float
        Height at which the distance counts (m): 0 for the ground, about 1.5 for a catch.

    Raises
    ------
    InputError
        If a value is outside its accepted range.
    """

    height_m: float = 1.8
    angle_rad: float | None = None
    target_height_m: float = 0.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "height_m", check_number("height_m", self.height_m, HEIGHT_LIMIT))
        object.__setattr__(self, "target_height_m", check_number("target_height_m", self.target_height_m, HEIGHT_LIMIT))
        if self.angle_rad is not None:
            object.__setattr__(self, "angle_rad", check_number("angle_rad", self.angle_rad, ANGLE_LIMIT))


@dataclass(frozen=True)
class Flight:
    """A flight.

    Attributes
    ----------
    distance_m : float
        Along the ground, from below the release to where the ball comes down through the target height (m); NaN if it
        never does, and then there is no path either.
    angle_rad, duration_s, end_speed_m_s : float
        Angle of release (rad), time of flight (s), speed at the end (m/s).
    time_s, x_m, y_m, speed_m_s : ndarray (P,)
        The path, for drawing.
    """

    distance_m: float
    angle_rad: float
    duration_s: float
    end_speed_m_s: float
    time_s: Array
    x_m: Array
    y_m: Array
    speed_m_s: Array


def fly(ball: Ball, speed_m_s: float, launch: Launch, air: Air = STILL_AIR, *, samples: int = 61) -> Flight:
    """Fly a ball.

    Parameters
    ----------
    speed_m_s : float
        Release speed (m/s).
    samples : int
        Points of the path.

    Raises
    ------
    InputError
        If the speed is outside `SPEED_LIMIT`.
    """
    speed = check_number("speed_m_s", speed_m_s, SPEED_LIMIT)
    angle = best_angle_rad(ball, speed, launch, air) if launch.angle_rad is None else launch.angle_rad
    legs = _legs(air.slowing_1_m(ball), speed, angle, launch, path=True)
    if not legs:
        nothing = np.zeros(samples)
        return Flight(math.nan, angle, 0.0, speed, nothing, nothing, nothing + launch.height_m, nothing + speed)
    end_s = float(legs[-1].t_events[0][0])
    time = np.linspace(0.0, end_s, samples)
    x, y, vx, vy = np.where(time <= legs[0].t[-1], legs[0].sol(time), legs[-1].sol(time))
    path_speed = np.hypot(vx, vy)
    return Flight(float(x[-1]), angle, end_s, float(path_speed[-1]), time, x, y, path_speed)


def _legs(slowing_1_m: float, speed_m_s: float, angle_rad: float, launch: Launch, *, path: bool) -> list[Any]:
    """Solutions (x, y, vx, vy) up to where the ball comes down through the target height; none if it never does.

    One leg; two, divided at the top, if the target lies above the hand: else a step of the solver might leap over the
    short while for which a ball is above it.
    """

    def rates(_: float, state: Array) -> tuple[float, float, float, float]:
        _, _, vx, vy = state
        drag = slowing_1_m * math.hypot(vx, vy)
        return vx, vy, -drag * vx, -drag * vy - constants.g

    def lands(_: float, state: Array) -> float:
        return float(state[1]) - launch.target_height_m

    def tops(_: float, state: Array) -> float:
        return float(state[3])

    def solved(start_s: float, start: Any, event: Any) -> Any:
        event.terminal, event.direction = True, -1.0
        return solve_ivp(
            rates,
            (start_s, LONGEST_S),
            start,
            method="DOP853",
            events=event,
            dense_output=path,
            rtol=TOLERANCE,
            atol=TOLERANCE,
        )

    start = (0.0, launch.height_m, speed_m_s * math.cos(angle_rad), speed_m_s * math.sin(angle_rad))
    if launch.target_height_m < launch.height_m:
        return [solved(0.0, start, lands)]
    if start[3] <= 0.0:
        return []
    up = solved(0.0, start, tops)
    if up.y[1, -1] <= launch.target_height_m:
        return []
    return [up, solved(up.t[-1], up.y[:, -1], lands)]


def _reach_m(ball: Ball, speed_m_s: float, angle_rad: float, launch: Launch, air: Air) -> float:
    """Distance of a throw (m); 0 if it never comes down through the target height."""
    legs = _legs(air.slowing_1_m(ball), speed_m_s, angle_rad, launch, path=False)
    return float(legs[-1].y_events[0][0][0]) if legs else 0.0


def best_angle_rad(ball: Ball, speed_m_s: float, launch: Launch, air: Air = STILL_AIR) -> float:
    """Angle of release that carries a ball farthest.

    Parameters
    ----------
    speed_m_s : float
        Release speed (m/s).
    launch : Launch
        Its own angle is not used.

    Returns
    -------
    float
        Angle above the horizontal (rad): below 45 degrees with drag or from above the target, and above it otherwise.
    """
    return _best_angle(ball, float(speed_m_s), launch.height_m, launch.target_height_m, air)


@lru_cache(maxsize=512)
def _best_angle(ball: Ball, speed_m_s: float, height_m: float, target_height_m: float, air: Air) -> float:
    launch = Launch(height_m, None, target_height_m)

    def short(angle: float) -> float:
        return -_reach_m(ball, speed_m_s, angle, launch, air)

    low, high = BEST_ANGLE_RAD
    # a target above the hand is out of reach at small angles: begin where, without air, the ball just rises to it
    lift = 2.0 * constants.g * max(target_height_m - height_m, 0.0) / speed_m_s**2
    low = max(low, math.asin(min(math.sqrt(lift), 0.98)))
    found = minimize_scalar(short, bounds=(low, high), method="bounded", options={"xatol": CLOSE_RAD})
    return float(found.x)


def speed_for_distance(ball: Ball, distance_m: float, launch: Launch, air: Air = STILL_AIR) -> float:
    """Release speed of a throw prescribed as a distance.

    At any one angle a faster throw carries farther, so there is one answer; without an angle it is the least speed that
    can carry the ball there.

    Parameters
    ----------
    distance_m : float
        Distance along the ground (m).

    Returns
    -------
    float
        Speed (m/s).

    Raises
    ------
    InputError
        If the distance is outside `DISTANCE_LIMIT`, or out of reach from 1 to 60 m/s; it says what is in reach.
    """
    distance = check_number("distance_m", distance_m, DISTANCE_LIMIT)

    def reach(speed: float) -> float:
        angle = best_angle_rad(ball, speed, launch, air) if launch.angle_rad is None else launch.angle_rad
        return _reach_m(ball, speed, angle, launch, air)

    least, most = reach(SPEED_LIMIT.low), reach(SPEED_LIMIT.high)
    if least <= distance <= most:
        found = float(brentq(lambda speed: reach(speed) - distance, SPEED_LIMIT.low, SPEED_LIMIT.high, xtol=CLOSE_M_S))
        least = reach(found + 2.0 * CLOSE_M_S)
        if least - distance < CLOSE_M:
            return found
        # short of the top of its path no throw comes down through a target above the hand: `least` is where that begins
    how = "at the best angle" if launch.angle_rad is None else f"at {math.degrees(launch.angle_rad):.0f} degrees"
    if most == 0.0:
        raise InputError("distance_m", distance_m, f"none: {how} no speed from {SPEED_LIMIT} reaches the target height")
    ends = f"{max(least, DISTANCE_LIMIT.low):.1f} to {min(most, DISTANCE_LIMIT.high):.1f} m"
    raise InputError("distance_m", distance_m, f"{ends}, what {SPEED_LIMIT} can carry {how}")
