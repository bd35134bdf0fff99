"""What follows from limits: the region, what each ball allows and comes to, the order of an aim. Kept for a while."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from app.pages.start.limits import Asked
from app.show.subject import Case, Fitted, is_same, radar_factor
from model.ball import BALL_LIMITS, Ball
from model.ceilings import Amount, Ceilings, Reference, Thrower
from model.checks import InputError
from model.effort import EffortCurve
from model.flight import Launch, fly
from model.limit_draws import Field, field_of
from model.person import Person
from model.start import Region, region
from model.start_list import BallRange, Choice, choices, ordered, range_in, ranges, wanted_peak_nm

BESIDE_RACK = 1.15  # the region is drawn this much beyond the lightest and the heaviest ball
NODES = 13  # ball masses at which its edges are computed, beside those of the rack
APART = 1.02  # one as near to a ball of the rack is not

Thrown = tuple[Person, Ball, Fitted, Reference]
"""Who throws, the own ball, the speed profile and the reference throw."""


@dataclass(frozen=True)
class Listed:
    """A ball that fits, and what its speed is by other measures.

    Attributes
    ----------
    choice : Choice
    own : bool
        Whether it is the own ball.
    effort : float or None
        Lowest asked effort that brings the share; None where it lies below all that is known.
    distance_m : float or None
        How far such a throw flies; None where it never comes down at the asked height.
    radar_m_s : float
        What the radar shows of it.
    """

    choice: Choice
    own: bool
    effort: float | None
    distance_m: float | None
    radar_m_s: float


@dataclass(frozen=True)
class Found:
    """What follows from the limits.

    Attributes
    ----------
    region : Region
        Over balls of the own one's diameter.
    ranges : tuple of BallRange
        What each ball may be thrown at, light to heavy.
    listed : tuple of Listed
        Those that fit, light to heavy.
    order : tuple of Listed
        The same in the order of the aim, but for the own ball where it stands first whatever is chosen; empty while no
        aim is.
    own_place : int
        Where the own ball stands by the aim alone, from 1; 0 where it does not fit or no aim is chosen.
    """

    region: Region
    ranges: tuple[BallRange, ...]
    listed: tuple[Listed, ...]
    order: tuple[Listed, ...] = ()
    own_place: int = 0


@lru_cache(maxsize=16)
def drawn_of(thrown: Thrown) -> Field:
    """Draw what is not known of a thrower."""
    person, own, fitted, reference = thrown
    return field_of(Thrower(person, own, fitted.profile, reference))


def found_for(
    thrown: Thrown, asked: Asked, balls: tuple[Ball, ...], case: Case, effort: EffortCurve, *, own_first: bool
) -> Found | None:
    """Find what each ball allows, what it comes to, and the order.

    Parameters
    ----------
    thrown : Thrown
    asked : Asked
    balls : tuple of Ball
        Light to heavy.
    case : Case
    effort : EffortCurve
    own_first : bool
        Whether the own ball stands first whatever is chosen.

    Returns
    -------
    Found or None
        None where something that is asked was refused or is missing.
    """
    if asked.to_mend or asked.ceilings is None or asked.certainty is None:
        return None
    where, every = _core(thrown, asked.ceilings, balls, asked.certainty)
    chosen = _choices(thrown, asked.ceilings, balls, asked.certainty, asked.wanted)
    listed = tuple(_listed(choice, case, effort) for choice in chosen)
    order: list[Listed] = []
    if asked.aim:
        nm = None if asked.wanted is None else wanted_peak_nm(drawn_of(thrown), asked.wanted)
        order = _in_order(listed, asked.aim, case.own_ball, nm)
    own_place = next((place for place, one in enumerate(order, start=1) if one.own), 0)
    if own_first:
        order.sort(key=lambda one: not one.own)
    return Found(where, every, listed, tuple(order), own_place)


def _in_order(listed: Sequence[Listed], aim: str, own_ball: Ball, wanted_nm: float | None) -> list[Listed]:
    by_mass = {one.choice.range.ball.mass_kg: one for one in listed}  # no two balls of a rack share one
    order = ordered([one.choice for one in listed], aim, own_ball, wanted_nm)
    return [by_mass[choice.range.ball.mass_kg] for choice in order]


@lru_cache(maxsize=32)
def _core(
    thrown: Thrown, ceilings: Ceilings, balls: tuple[Ball, ...], certainty: float
) -> tuple[Region, tuple[BallRange, ...]]:
    drawn = drawn_of(thrown)
    alike = [ball for ball in balls if ball.diameter_m == drawn.thrower.own_ball.diameter_m]
    limit, masses = BALL_LIMITS["mass_kg"], [ball.mass_kg for ball in balls]
    ends = max(min(masses) / BESIDE_RACK, limit.low), min(max(masses) * BESIDE_RACK, limit.high)
    grid = np.clip(np.geomspace(*ends, NODES), limit.low, limit.high)
    of_rack = np.array([ball.mass_kg for ball in alike])
    clear = (np.abs(np.log(grid[:, None] / of_rack)) > np.log(APART)).all(axis=1)
    mass = np.sort(np.concatenate((grid[clear], of_rack)))
    where = region(drawn, ceilings, mass, certainty=certainty)
    found = {ball: range_in(where, int(np.searchsorted(mass, ball.mass_kg)), ball) for ball in alike}
    others = [ball for ball in balls if ball not in found]
    if others:
        found |= zip(others, ranges(drawn, ceilings, others, certainty=certainty), strict=True)
    return where, tuple(found[ball] for ball in balls)


@lru_cache(maxsize=32)
def _choices(
    thrown: Thrown, ceilings: Ceilings, balls: tuple[Ball, ...], certainty: float, wanted: Amount | None
) -> tuple[Choice, ...]:
    _, every = _core(thrown, ceilings, balls, certainty)
    aim = "nearest_peak" if wanted else ""
    return choices(drawn_of(thrown), ceilings, every, aim=aim, wanted_peak=wanted, certainty=certainty)


def _listed(choice: Choice, case: Case, effort: EffortCurve) -> Listed:
    ball, launch = choice.range.ball, case.choices.launch or Launch()
    try:
        asked: float | None = effort.effort_for(choice.share)
    except InputError:
        asked = None
    return Listed(
        choice,
        is_same(ball, case.own_ball),
        asked,
        _distance(ball, choice.speed_m_s, launch),
        choice.speed_m_s / radar_factor(ball, case),
    )


@lru_cache(maxsize=256)
def _distance(ball: Ball, speed_m_s: float, launch: Launch) -> float | None:
    far = fly(ball, speed_m_s, launch).distance_m
    return far if np.isfinite(far) else None
