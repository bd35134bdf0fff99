"""Level lines: the speed at which a ball loads as much as another throw does, and what exponent that speed stands for.

To first order in the arm's equivalent mass a readout that goes as (m + mu) s^k is level along v ~ (m + mu)^(-1/k): the
peak at p = 1/2, the rise rate at 1/3, the area at 1. The speeds here are solved from the mass-speed identity instead,
gravity and the moving peak and all, and turned into the exponent they stand for.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from model.ball import BALL_LIMITS, Ball
from model.checks import InputError, Limit, check_number
from model.equivalent_mass import equivalent_mass
from model.identity import PathLoads
from model.interval import LEVEL, Interval, check_numbers
from model.person import Person
from model.quantity import READOUTS, Quantity, quantity_at
from model.speed import SpeedProfile
from model.throw import SPEED_LIMIT, path_loads

Array = NDArray[np.float64]

SPEED_ENDS = (SPEED_LIMIT.low, SPEED_LIMIT.high)
SCAN_M_S = np.geomspace(*SPEED_ENDS, 33)  # where a root is looked for: steps of 14 %
ROOT_TOLERANCE = 1e-9  # of the speed's logarithm
LEVEL_ENOUGH = 1e-6  # of the target: farther off than this, a sign change is a jump of the readout and no root
SHARE_LIMIT = Limit(0.1, 1.2, "of full speed")
SAME_MASS = 0.01  # a ball within 1 % of the own one: its exponent is taken 1 % to either side, where 0/0 is not


def speeds_at(loads: PathLoads, quantity: Quantity, target: float, mass_kg: ArrayLike) -> Array:
    """Solve for the speed at which each ball reaches a value of a quantity.

    On the branch on which throws are thrown, where a faster throw means more (of time: less), and the fastest such
    speed if there are several. At a crawl the torque of weight alone lasts so long that its area grows again.

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    target : float
        The value, in `quantity.unit`.
    mass_kg : array_like (M,)
        Ball mass (kg).

    Returns
    -------
    ndarray (M,)
        Speeds (m/s); NaN where no accepted speed reaches the value.
    """
    return _solve(loads, quantity, target, np.atleast_1d(np.asarray(mass_kg, dtype=float)))[0]


def _solve(loads: PathLoads, quantity: Quantity, target: float, mass: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Speeds as `speeds_at`; and whether a ball is over the target at every speed, however slow."""
    over = quantity_at(loads, quantity, mass[:, None], SCAN_M_S) - target
    grows = READOUTS[quantity.readout].power > 0
    always_over = np.all(over > 0.0, axis=1) & grows
    signed = over if grows else -over
    upward = (signed[:, :-1] <= 0.0) & (signed[:, 1:] > 0.0)
    last = SCAN_M_S.size - 2 - upward[:, ::-1].argmax(axis=1)

    def miss(log_speed: Array, ball_kg: Array) -> Array:
        # the scan's ends come back from their logarithms a rounding error outside the accepted range
        return quantity_at(loads, quantity, ball_kg, np.clip(np.exp(log_speed), *SPEED_ENDS)) - target

    ends = np.log(SCAN_M_S[last]), np.log(SCAN_M_S[last + 1])
    root = elementwise.find_root(miss, ends, args=(mass,), tolerances={"xatol": ROOT_TOLERANCE, "xrtol": 0.0})
    found = upward.any(axis=1) & (np.abs(root.f_x) <= LEVEL_ENOUGH * abs(target))
    return np.where(found, np.exp(root.x), np.nan), np.asarray(always_over)


@dataclass(frozen=True)
class LevelLine:
    """Along which balls load as much as the reference throw.

    Attributes
    ----------
    mass_kg, speed_m_s : ndarray (M,)
        Balls (kg) and the speed of each (m/s); NaN where there is none.
    exponent : ndarray (M,)
        The exponent p whose profile runs from the reference throw through that speed. Infinite where no profile of any
        exponent is level: a small arm with a heavy ball has more area than before however slow the throw, for its
        weight alone lasts the longer. NaN where the quantity does not exist, or only a speed that is not accepted would
        be level.
    value : float
        What is held level, in `quantity.unit`.
    mu_kg : float
        Equivalent mass used for the exponent (kg).
    """

    quantity: Quantity
    mass_kg: Array
    speed_m_s: Array
    exponent: Array
    value: float
    mu_kg: float


def line_of(
    loads: PathLoads, quantity: Quantity, own_mass_kg: float, own_speed_m_s: float, mass_kg: ArrayLike
) -> LevelLine:
    """Find the level line of a quantity through a reference throw of an arm.

    p = ln(v_ref / v*(m)) / ln((m + mu) / (m_own + mu)).

    Parameters
    ----------
    loads : PathLoads
        Of one arm and ball radius.
    own_mass_kg, own_speed_m_s : float
        The reference throw: the own ball (kg), full effort (m/s).
    mass_kg : array_like (M,)
        Ball mass (kg).

    Returns
    -------
    LevelLine
        The exponent is a limit at the own ball itself. NaN where the reference throw has no such quantity.

    Raises
    ------
    InputError
        If a mass is not accepted.
    """
    mass = check_numbers("ball_mass_kg", np.atleast_1d(mass_kg), BALL_LIMITS["mass_kg"])
    mu = equivalent_mass(loads, own_mass_kg).mass_kg
    value = float(quantity_at(loads, quantity, own_mass_kg, own_speed_m_s))
    near = np.abs(mass / own_mass_kg - 1.0) < SAME_MASS
    beside = own_mass_kg * np.array([1.0 - SAME_MASS, 1.0 + SAME_MASS])
    every = np.concatenate((mass, beside))
    speed, always_over = np.full(every.size, np.nan), np.zeros(every.size, dtype=bool)
    if np.isfinite(value):
        speed, always_over = _solve(loads, quantity, value, every)
    with np.errstate(divide="ignore", invalid="ignore"):
        drop = np.where(always_over, np.inf, np.log(own_speed_m_s / speed))
        exponent = drop / np.log((every + mu) / (own_mass_kg + mu))
    exponent = np.where(near, exponent[-2:].mean(), exponent[:-2])
    return LevelLine(quantity, mass, speed[:-2], exponent, value, mu)


@dataclass(frozen=True)
class EqualLoad:
    """The speed at which one ball loads as much as a share of full effort with the own ball does.

    Attributes
    ----------
    speed_m_s : Interval
        That speed (m/s). NaN where no accepted speed does. The interval is that of the athlete's own-ball speed; no
        wider than the speed itself if that was given as exact.
    share_of_full : Interval or None
        As a share of the athlete's full speed with this ball, with the interval of the speed profile; None without one.
    """

    ball: Ball
    speed_m_s: Interval
    share_of_full: Interval | None


def equal_load_speeds(
    person: Person,
    own_ball: Ball,
    quantity: Quantity,
    rack: Sequence[Ball],
    *,
    profile: SpeedProfile | None = None,
    reference_speed_m_s: float | None = None,
    share: float = 1.0,
    level: float = LEVEL,
) -> tuple[EqualLoad, ...]:
    """Find, for each ball of a rack, the speed that loads as much as a share of the reference throw's speed does.

    The reference is the own ball at `reference_speed_m_s`, taken as exact; or, if none is given, at the profile's own
    full speed with its interval.

    Parameters
    ----------
    reference_speed_m_s : float, optional
        Measured full-effort speed with the own ball (m/s); from before an injury, say.
    share : float
        Share of the reference speed, 0.1 to 1.2.
    level : float
        Probability of the intervals.

    Returns
    -------
    tuple of EqualLoad
        In the order of the rack.

    Raises
    ------
    InputError
        If a value is not accepted, or neither a profile nor a speed is given.
    """
    share = check_number("share", share, SHARE_LIMIT)
    if reference_speed_m_s is not None:
        exact = check_number("reference_speed_m_s", reference_speed_m_s, SPEED_LIMIT)
        full = Interval(exact, exact, exact, level)
    elif profile is not None:
        full = profile.own_speed(level)
    else:
        raise InputError("reference_speed_m_s", None, "a number, or a speed profile to take it from")
    starts = dict.fromkeys((full.low, full.estimate, full.high))  # one if it is exact
    own_loads = path_loads(person, own_ball.diameter_m)
    targets = [float(quantity_at(own_loads, quantity, own_ball.mass_kg, share * v)) for v in starts]
    solved = np.full((len(rack), len(starts)), np.nan)
    for diameter_m in {ball.diameter_m for ball in rack}:
        which = [i for i, ball in enumerate(rack) if ball.diameter_m == diameter_m]
        loads = path_loads(person, diameter_m)
        for column, target in enumerate(targets):
            if np.isfinite(target):
                solved[which, column] = speeds_at(loads, quantity, target, [rack[i].mass_kg for i in which])
    found = []
    for ball, row in zip(rack, solved.tolist(), strict=True):
        speed = Interval(row[len(row) // 2], row[0], row[-1], level)
        share_of_full = None
        if profile is not None:
            share_of_full = _share(profile, ball, speed.estimate, full, reference_speed_m_s is not None)
        found.append(EqualLoad(ball, speed, share_of_full))
    return tuple(found)


def _share(profile: SpeedProfile, ball: Ball, speed_m_s: float, full: Interval, exact: bool) -> Interval:
    """A speed as a share of full speed with a ball.

    Against an exact reference all of the profile's uncertainty counts. Against the profile's own full speed that speed
    itself drops out (but for gravity, under 0.1 %): only the exponent counts.
    """
    if exact:
        possible = profile.mean_speed(ball.mass_kg, full.level)
        return Interval(speed_m_s / possible.estimate, speed_m_s / possible.high, speed_m_s / possible.low, full.level)
    ratio = profile.ratio(ball.mass_kg, full.level)
    alike = speed_m_s / full.estimate
    return Interval(alike / ratio.estimate, alike / ratio.high, alike / ratio.low, full.level)
