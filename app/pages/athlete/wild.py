"""Readings that do not sit with the others: which, and how far each pulls the exponent. None is dropped."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.show.subject import Case, Fitted
from model.speed import SpeedProfile
from model.speed_check import PointCheck, check_points
from model.speed_readings import SAME_BALL_KG

MOST_CHECKED = 60  # points: each is held against a fit to all others


@dataclass(frozen=True)
class Wild:
    """A flagged point.

    Attributes
    ----------
    check : PointCheck
    places : tuple of int
        The readings it stands for, as places in `case.found.used`.
    sentence : str
    """

    check: PointCheck
    places: tuple[int, ...]
    sentence: str


@lru_cache(maxsize=32)
def _checked(fitted: Fitted) -> tuple[PointCheck, ...]:
    return check_points(fitted.profile)


def wild_of(case: Case) -> tuple[Wild, ...]:
    """Find the flagged points of a profile.

    Parameters
    ----------
    case : Case

    Returns
    -------
    tuple of Wild
        None of them where there are more than `MOST_CHECKED` points.
    """
    profile = case.profile
    if profile is None or len(profile.points) > MOST_CHECKED:
        return ()
    found = []
    for check, places in zip(_checked(Fitted(profile)), _places(case, profile), strict=False):
        if check.wild:
            found.append(Wild(check, places, _sentence(check, places, case, profile)))
    return tuple(found)


def _places(case: Case, profile: SpeedProfile) -> list[tuple[int, ...]]:
    """For each point of the profile, the readings it stands for."""
    full = [i for i, used in enumerate(case.found.used) if used.asked_effort == 1.0]
    used: Any = case.found.used
    given: list[tuple[int, ...]] = [()] if profile.own_speed_is_given else []
    rest = profile.points[len(given) :]
    if profile.basis == "all":
        return given + [(i,) for i in full]
    balls = [tuple(i for i in full if abs(used[i].ball_mass_kg - point.ball_mass_kg) < SAME_BALL_KG) for point in rest]
    if profile.basis == "mean":
        return given + balls
    return given + [(max(ball, key=lambda i: used[i].speed_m_s),) for ball in balls if ball]


def _sentence(check: PointCheck, places: tuple[int, ...], case: Case, profile: SpeedProfile) -> str:
    point, expected = check.point, check.expected
    what = {"all": "reading", "mean": "mean", "best": "best throw"}[profile.basis] if places else "typed own speed"
    middle, low, high = (case.speed(speed) for speed in (expected.estimate, expected.low, expected.high))
    now, without = profile.exponent(), check.exponent_without
    return (
        f"Wild {what}: {case.mass(point.ball_mass_kg)} at {case.speed(point.speed_m_s)} {case.speed_unit}, where the "
        f"others lead one to expect {middle} ({low} to {high}). It pulls p from "
        f"{without.estimate:.2f} ({without.low:.2f} to {without.high:.2f}) to {now.estimate:.2f} ({now.low:.2f} to "
        f"{now.high:.2f}), and is still in the fit. Was it misread? Then correct or empty its cell."
    )
