"""The limits that a first throw was found under on Start, and how long a plan keeps them."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from app.pages.buildup.given import Given
from app.records.plan_fields import HOLDS
from app.show.subject import Case, Fitted
from app.units.conversion import plain
from app.units.systems import System
from model.ball import Ball
from model.build_up import SHARE_LIMIT, STEPS_LIMIT, Step
from model.ceilings import BOUNDS, Amount, Ceilings, Reference, Thrower
from model.checks import InputError, Limit, check_choice, check_number
from model.limit_draws import Field, field_of
from model.person import Person
from model.start import CERTAINTY_LIMIT
from model.start_list import ranges
from model.stop_signs import Signed

COUNT_LIMIT = {"steps": Limit(1, STEPS_LIMIT.high, "steps"), "weeks": Limit(1, 52, "weeks")}
FAR = 99.0  # a share that no limit bounds, in plans as they are kept
ROUNDING = 1e-9
SHARE_PLACES = 1000.0  # shares are told to a tenth of a per cent


@dataclass(frozen=True)
class FirstLimits:
    """What came over from Start, and how long it holds.

    Attributes
    ----------
    ball : Ball
    share : float
        Of full speed with it.
    ceilings : Ceilings
    certainty : float
    reference : Reference
    dated : str
        Its kind and day.
    holds : str
        A key of `HOLDS`.
    count : int
        For how many steps or weeks; 0 until cleared.
    steps : int
        How many first steps keep the limits.
    balls : tuple of Ball (n,)
    alone : mapping of str to tuple of (float, float) (n,)
        Least and most share of full speed with each ball that each limit allows by itself.
    cleared : Signed or None
    """

    ball: Ball
    share: float
    ceilings: Ceilings
    certainty: float
    reference: Reference
    dated: str
    holds: str
    count: int
    steps: int
    balls: tuple[Ball, ...]
    alone: Mapping[str, tuple[tuple[float, float], ...]]
    cleared: Signed | None = None

    def __post_init__(self) -> None:
        check_choice("holds", self.holds, HOLDS)
        check_number("share", self.share, SHARE_LIMIT)
        check_number("certainty", self.certainty, CERTAINTY_LIMIT)
        check_number("steps", self.steps, Limit(0, STEPS_LIMIT.high, "steps"))
        given = {bound.key for bound, _ in self.ceilings.given()}
        if set(self.alone) != given or any(len(edges) != len(self.balls) for edges in self.alone.values()):
            raise InputError("limits", sorted(self.alone), "each limit with its shares for each ball")

    @property
    def shares(self) -> dict[Ball, tuple[float, float]]:
        """Least and most share with each ball; a ball with none has a least above its most."""
        found = {}
        for i, ball in enumerate(self.balls):
            lows, highs = zip(
                (SHARE_LIMIT.low, SHARE_LIMIT.high), *(edges[i] for edges in self.alone.values()), strict=True
            )
            found[ball] = max(lows), min(highs)
        return found

    @property
    def most_share(self) -> dict[Ball, float]:
        """The most share with each ball, while these limits wait to be cleared; empty otherwise."""
        if self.holds != "cleared" or self.cleared is not None:
            return {}
        return {ball: high if low <= high else 0.0 for ball, (low, high) in self.shares.items()}

    def passed(self, ball: Ball, share: float) -> tuple[str, ...]:
        """Keys of the limits that a throw passes."""
        at = [i for i, one in enumerate(self.balls) if one == ball]
        return tuple(
            key
            for key, edges in self.alone.items()
            for low, high in [edges[i] for i in at]
            if not low * (1.0 - ROUNDING) <= share <= high * (1.0 + ROUNDING)
        )

    def closed_by(self, ball: Ball) -> tuple[str, ...]:
        """Keys of the limits under which a ball is thrown at no share; all of them where none closes it alone."""
        at = self.balls.index(ball)
        bounds = [
            key for key, edges in self.alone.items() if edges[at][1] < SHARE_LIMIT.low or edges[at][0] > edges[at][1]
        ]
        return tuple(bounds or self.alone)


def first_limits(
    given: Given, case: Case, balls: tuple[Ball, ...], holds: str, count: int, sessions_a_week: int, repeats: int
) -> FirstLimits:
    """Find what the limits from Start allow with each ball of a plan.

    Parameters
    ----------
    case : Case
        Whose person and speeds are known.
    sessions_a_week, repeats : int
        Days to throw on, and sessions at each step: weeks are counted out in steps.
    """
    alone = _alone(case, given.ceilings, given.certainty, given.reference, balls)
    steps = {"steps": count, "weeks": math.ceil(count * sessions_a_week / repeats), "cleared": 1}[holds]
    kept = (given.ball, given.share, given.ceilings, given.certainty, given.reference, given.dated)
    return FirstLimits(*kept, holds, count, min(steps, int(STEPS_LIMIT.high)), balls, alone)


def again(first: FirstLimits | None, case: Case) -> FirstLimits | None:
    """The same limits by today's measures and speeds."""
    if first is None:
        return None
    return replace(first, alone=_alone(case, first.ceilings, first.certainty, first.reference, first.balls))


def _alone(
    case: Case, ceilings: Ceilings, certainty: float, reference: Reference, balls: tuple[Ball, ...]
) -> dict[str, tuple[tuple[float, float], ...]]:
    """Least and most share with each ball that each limit allows by itself."""
    if case.person is None or case.profile is None:
        raise ValueError("measures and speeds are needed")
    drawn = _field(case.person, case.own_ball, Fitted(case.profile), reference)
    found = ranges(drawn, ceilings, balls, certainty=certainty)
    return {
        bound.key: tuple((one.alone[bound.key][0], min(one.alone[bound.key][1], FAR)) for one in found)
        for bound, _ in ceilings.given()
    }


@lru_cache(maxsize=16)
def _field(person: Person, own_ball: Ball, fitted: Fitted, reference: Reference) -> Field:
    return field_of(Thrower(person, own_ball, fitted.profile, reference))


def passing(first: FirstLimits | None, steps: Iterable[Step]) -> dict[int, tuple[str, ...]]:
    """The steps that pass a limit from Start: place, and keys of the limits."""
    found = {} if first is None else {i: first.passed(one.ball, one.share) for i, one in enumerate(steps)}
    return {i: keys for i, keys in found.items() if keys}


def limit_words(key: str, amount: Amount, system: System) -> str:
    """Name a limit with its number, such as "peak at the elbow (varus torque), at most 50 N·m"."""
    bound = BOUNDS[key]
    end = "at most" if bound.at_most else "at least"
    if not amount.absolute:
        return f"{bound.label}, {end} {plain(100.0 * amount.value, most=1)} % of the reference throw’s"
    unit = bound.accepted.unit
    if unit == "s":
        return f"{bound.label}, {end} {plain(1000.0 * amount.value, most=0)} ms"
    if unit == "m/s":
        return f"{bound.label}, {end} {system.cap(amount.value, unit)}"
    return f"{bound.label}, {end} {plain(amount.value, most=1)} {unit}"


def hold_words(first: FirstLimits) -> str:
    """Say how long the limits hold."""
    if first.holds == "cleared":
        by = first.cleared
        return "until somebody clears them" if by is None else f"until {by.on}, when they were cleared by {by.by}"
    unit = first.holds if first.count != 1 else first.holds.removesuffix("s")
    only = f"first {first.count} {unit}" if first.count != 1 else f"first {unit}"
    steps = f" ({first.steps} step{'' if first.steps == 1 else 's'})" if first.holds == "weeks" else ""
    return f"for the {only}{steps}"


def rounded_down_share(share: float) -> float:
    """A share that is not to be gone beyond, to the tenth of a per cent that is told."""
    return math.floor(share * SHARE_PLACES + 1e-6) / SHARE_PLACES


def rounded_up_share(share: float) -> float:
    """One that is not to be fallen below."""
    return math.ceil(share * SHARE_PLACES - 1e-6) / SHARE_PLACES
