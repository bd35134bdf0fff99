"""What every ball of a rack comes to at the greatest share that the limits allow, and the order an aim puts them in.

Each ball is taken at the greatest share that the limits allow, so that balls are compared and not slowness: slower is
longer and gentler with any ball. Only the aim of a wanted peak looks for the share that comes nearest to it. No order
is given before an aim is chosen.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.ball import Ball
from model.ceilings import BOUNDS, SHARE_LIMIT, TORQUE_LIMIT, Amount, Bound, Ceilings
from model.checks import InputError, check_choice, check_number
from model.interval import LEVEL
from model.limit_draws import Field, quantile_rank
from model.limit_speed import limit_speeds
from model.quantity import Quantity, quantity_at, weight_share
from model.readouts import Readouts, read_curves
from model.start import FULL, Region, region
from model.throw import SPEED_LIMIT, Throw, curves, path_loads

PEAK = Quantity("varus", "peak")

AIMS = ("own", "least_area", "gentlest_rise", "longest_loaded", "nearest_peak")
"""What can matter most: the own ball; least in all; the gentlest rise; the longest under the limits; nearest to a
wanted peak of varus torque."""

MARGIN = 0.02  # a limit that no throw keeps has its edge at the slowest accepted one, by the full speed of some draw
WEIGHT_DECIDES = 0.5  # of a readout: from there on weight is more of it than motion
JUDGED = (
    Quantity("varus", "peak"),
    Quantity("varus", "area"),
    Quantity("internal_rotation", "peak"),
    Quantity("horizontal_abduction", "peak"),
)
"""What is told of how much of it is weight; rise rate and time loaded go with their torque's peak."""


@dataclass(frozen=True)
class BallRange:
    """What a ball may be thrown at.

    Attributes
    ----------
    least, most : float
        Shares of full speed with it; it fits if the least is not above the most.
    least_by, most_by : str
        What sets each: a key of `BOUNDS`, 'slowest' (the slowest share looked at) or 'full'.
    full_speed_m_s : float
        Best estimate of full speed with it (m/s).
    alone : dict of str to (float, float)
        Least and greatest share that each limit allows by itself, by its key; 0 and infinity for no edge.
    floor : float
        The slowest share looked at.
    """

    ball: Ball
    least: float
    most: float
    least_by: str
    most_by: str
    full_speed_m_s: float
    alone: dict[str, tuple[float, float]]
    floor: float

    @property
    def fits(self) -> bool:
        """Whether any share keeps every limit."""
        return self.least <= self.most

    @property
    def closed_by(self) -> tuple[str, ...]:
        """Keys of the limits that close the ball, by themselves or where none does together; empty if it fits."""
        if self.fits:
            return ()
        alone = tuple(key for key, (low, high) in self.alone.items() if max(low, self.floor) > min(high, FULL))
        return alone or tuple(key for key, (low, high) in self.alone.items() if high < self.least or low > self.most)

    @property
    def below_floor(self) -> tuple[str, ...]:
        """Keys of the limits that are kept only in throws slower than the slowest share looked at."""
        slowest = (1.0 + MARGIN) * SPEED_LIMIT.low / self.full_speed_m_s
        return tuple(key for key, (low, high) in self.alone.items() if low <= high < self.floor and high > slowest)


@dataclass(frozen=True)
class LimitKept:
    """How a throw stands to a limit, as the limit's amount counts it.

    Attributes
    ----------
    key : str
        Of the limit.
    amount : Amount
        The limit.
    likely : float
        What the throw comes to by the best estimate.
    bound : float
        What it stays within (of a least time: above) with the stated certainty.
    """

    key: str
    amount: Amount
    likely: float
    bound: float


@dataclass(frozen=True)
class Choice:
    """A ball at a speed, and all that it comes to.

    Attributes
    ----------
    share, speed_m_s : float
        Of full speed with the ball, and that speed by the best estimate (m/s).
    elbow, shoulder, braking : Readouts
        Of varus, internal-rotation and horizontal-abduction torque, at that speed.
    limits : tuple of LimitKept
        One for each limit given.
    together : float
        Probability that all limits are kept at once; each by itself is with the stated certainty.
    by_weight : frozenset of Quantity
        Those of `JUDGED` of which weight is more than motion.
    """

    range: BallRange
    share: float
    speed_m_s: float
    elbow: Readouts
    shoulder: Readouts
    braking: Readouts
    limits: tuple[LimitKept, ...]
    together: float
    by_weight: frozenset[Quantity]


def ranges(
    field: Field, ceilings: Ceilings, rack: Sequence[Ball], *, certainty: float = LEVEL
) -> tuple[BallRange, ...]:
    """Find what each ball of a rack may be thrown at.

    Parameters
    ----------
    certainty : float
        As for `start.region`.

    Returns
    -------
    tuple of BallRange
        In the order of the rack.

    Raises
    ------
    InputError
        If the rack is empty, or as `start.region` says.
    """
    if not rack:
        raise InputError("rack", "no ball", "one ball or more")
    found: dict[int, BallRange] = {}
    for diameter_m in dict.fromkeys(ball.diameter_m for ball in rack):
        which = [i for i, ball in enumerate(rack) if ball.diameter_m == diameter_m]
        one = region(field, ceilings, [rack[i].mass_kg for i in which], diameter_m=diameter_m, certainty=certainty)
        found |= {i: range_in(one, place, rack[i]) for place, i in enumerate(which)}
    return tuple(found[i] for i in range(len(rack)))


def range_in(found: Region, place: int, ball: Ball) -> BallRange:
    """Read what a ball may be thrown at off a region.

    Parameters
    ----------
    found : Region
        Over balls of its diameter.
    place : int
        Of its mass among those of the region.
    """
    alone = {key: (float(low[place]), float(high[place])) for key, (low, high) in found.alone.items()}
    edges = (float(found.least[place]), float(found.most[place]), found.least_by[place], found.most_by[place])
    return BallRange(ball, *edges, float(found.full_speed_m_s[place]), alone, float(found.floor[place]))


def choices(
    field: Field,
    ceilings: Ceilings,
    every: Sequence[BallRange],
    *,
    aim: str = "",
    wanted_peak: Amount | None = None,
    certainty: float = LEVEL,
) -> tuple[Choice, ...]:
    """Take every ball that fits at the share that an aim asks for.

    Parameters
    ----------
    every : sequence of BallRange
        What `ranges` found for all this.
    aim : str
        One of `AIMS`, or empty while none is chosen: the greatest share, as for all but a wanted peak.
    wanted_peak : Amount, optional
        Of varus torque (a share of the reference throw's, or N m); needed for 'nearest_peak'.
    certainty : float
        That the ranges were found with.

    Returns
    -------
    tuple of Choice
        In the order of the ranges; a ball that no share fits is left out.

    Raises
    ------
    InputError
        If a value is not accepted.
    """
    if aim:
        check_choice("aim", aim, AIMS)
    wanted_nm = wanted_peak_nm(field, wanted_peak) if aim == "nearest_peak" else None
    return tuple(_choice(field, ceilings, one, wanted_nm, certainty) for one in every if one.fits)


def ordered(found: Sequence[Choice], aim: str, own_ball: Ball, wanted_nm: float | None = None) -> tuple[Choice, ...]:
    """Put balls in the order of an aim, the one that serves it most first.

    Parameters
    ----------
    aim : str
        One of `AIMS`.
    own_ball : Ball
        For 'own': it comes first, then the balls by how little their mass differs from its (as a ratio).
    wanted_nm : float, optional
        Wanted peak (N m), for 'nearest_peak'.

    Returns
    -------
    tuple of Choice
        Of balls that serve it alike the one loaded longest comes first.

    Raises
    ------
    InputError
        If the aim is unknown, or a wanted peak is needed.
    """
    check_choice("aim", aim, AIMS)
    if aim == "nearest_peak" and wanted_nm is None:
        raise InputError("wanted_peak", None, "a torque, or a share of the reference throw's, for this aim")

    def merit(one: Choice) -> tuple[float, float]:
        longest = -float(one.elbow.loaded_s)
        if aim == "own":
            return abs(float(np.log(one.range.ball.mass_kg / own_ball.mass_kg))), longest
        if aim == "least_area":
            return float(one.elbow.area), longest
        if aim == "gentlest_rise":
            return float(one.elbow.rise_rate), longest
        if aim == "nearest_peak":
            return round(abs(float(one.elbow.peak) - (wanted_nm or 0.0)), 2), longest
        return longest, 0.0

    return tuple(sorted(found, key=merit))


def wanted_peak_nm(field: Field, wanted: Amount | None) -> float:
    """Turn a wanted peak into N m.

    Returns
    -------
    float
        A share is one of the reference throw's peak at the middle of what its speed may be.

    Raises
    ------
    InputError
        If none was given, or it is not accepted.
    """
    if wanted is None:
        raise InputError("wanted_peak", None, "a torque, or a share of the reference throw's, for this aim")
    if wanted.absolute:
        return check_number("wanted_peak", wanted.value, TORQUE_LIMIT)
    check_number("wanted_peak", wanted.value, SHARE_LIMIT)
    return float(field.limits_at(BOUNDS["elbow_peak"], wanted, field.middle_reference)[0])


def _choice(field: Field, ceilings: Ceilings, one: BallRange, wanted_nm: float | None, certainty: float) -> Choice:
    share = one.most if wanted_nm is None else _share_for(field, one, wanted_nm)
    throw = Throw(field.thrower.person, one.ball, share * one.full_speed_m_s)
    thrown = curves(throw)
    limits, kept = [], np.ones(field.p.size, dtype=bool)
    for bound, amount in ceilings.given():
        drawn = field.held(bound, amount, one.ball, share)
        kept &= _keeps(bound, drawn, amount.value)
        limits.append(
            LimitKept(bound.key, amount, _likely(field, bound, amount, throw), _within(bound, drawn, certainty))
        )
    return Choice(
        one,
        share,
        throw.speed_m_s,
        read_curves(thrown, "varus"),
        read_curves(thrown, "internal_rotation"),
        read_curves(thrown, "horizontal_abduction"),
        tuple(limits),
        float(kept.mean()),
        _by_weight(throw),
    )


def _by_weight(throw: Throw) -> frozenset[Quantity]:
    loads, mass_kg = path_loads(throw.person, throw.ball.diameter_m), throw.ball.mass_kg
    return frozenset(one for one in JUDGED if weight_share(loads, one, mass_kg, throw.speed_m_s) > WEIGHT_DECIDES)


def _likely(field: Field, bound: Bound, amount: Amount, throw: Throw) -> float:
    """What a throw comes to by the best estimate, as an amount counts it."""
    value = throw.speed_m_s
    if bound.quantity is not None:
        loads = path_loads(throw.person, throw.ball.diameter_m)
        value = float(quantity_at(loads, bound.quantity, throw.ball.mass_kg, throw.speed_m_s))
    whole = 1.0 if amount.absolute else float(field.limits_at(bound, Amount(1.0), field.middle_reference)[0])
    return value / whole


def _within(bound: Bound, drawn: np.ndarray, certainty: float) -> float:
    """What is kept with a certainty: below it, or of a least amount above it."""
    rank = quantile_rank(certainty if bound.at_most else 1.0 - certainty, drawn.size, not bound.at_most)
    return float(np.partition(drawn, rank)[rank])


def _keeps(bound: Bound, drawn: np.ndarray, value: float) -> np.ndarray:
    rounding = 1e-5  # the curves through the nodes; a hundredth of a per mille of a torque
    return drawn <= value * (1.0 + rounding) if bound.at_most else drawn >= value * (1.0 - rounding)


def _share_for(field: Field, one: BallRange, wanted_nm: float) -> float:
    """The share within a ball's range whose peak comes nearest to the wanted one: peaks rise with speed."""
    loads = path_loads(field.thrower.person, one.ball.diameter_m)
    speed = float(limit_speeds(loads, PEAK, one.ball.mass_kg, wanted_nm))
    return min(max(speed / one.full_speed_m_s, one.least), one.most, FULL)
