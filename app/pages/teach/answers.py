"""From the session to the lesson: the throws that the story shows, and what is read off them."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from app.pages.teach.session import Session, text_of
from app.show.cautions import is_growing
from app.show.rack import name_of, rack_of
from app.show.subject import Case, Fitted, is_same, mean_speeds, shown_ball
from model.ball import BALL_LIMITS, Ball
from model.checks import InputError
from model.interval import Interval
from model.one_change import with_clock, with_forearm, with_hand
from model.readouts import Readouts, read_curves
from model.throw import Curves, Throw, curves

READING = "varus"
SHARES = {
    "hand": tuple(1.0 + 0.05 * i for i in range(21)),  # to a hand of twice the mass
    "forearm": tuple(1.0 + 0.01 * i for i in range(21)),  # to a fifth longer
    "clock": tuple(0.70 + 0.02 * i for i in range(26)),  # from 70 % to 120 % of the joint speeds
}
"""Where the sliders of what sets the curve may stand."""

BALL_STOPS, SPEED_STOPS = 12, 20
SLOWEST = 0.9  # of the speed that the readings give: so far down the slider goes
BUILD_SHARES = (0.6, 0.9, 0.9)
"""Shares of full speed in the three pictures of a build-up: heavy and slow, heavy and faster, own ball like that."""
GROWING_SHARES = (0.6, 0.8, 0.9)
"""The same of a thrower who is still growing: the own ball, from slow to fast."""


@dataclass(frozen=True)
class Thrown:
    """One throw, worked out.

    Attributes
    ----------
    curves : Curves
    read : Readouts
        Of the varus torque.
    amount : float
        What was changed comes to this: a share, a mass (kg) or a speed (m/s).
    """

    curves: Curves
    read: Readouts
    amount: float = 1.0

    @property
    def throw(self) -> Throw:
        """Who threw what, how fast."""
        return self.curves.throw

    def change(self, other: "Thrown", readout: str) -> float:
        """How much more a readout is than that of another throw, as a share of that; NaN where there is none."""
        own, than = float(getattr(self.read, readout)), float(getattr(other.read, readout))
        return own / than - 1.0 if np.isfinite(own) and np.isfinite(than) and than > 0.0 else float("nan")


@dataclass(frozen=True)
class Lesson:
    """All that the story shows, as numbers.

    Attributes
    ----------
    case : Case
        Who throws, and how fast which ball.
    second, third : Ball
    own : Thrown
        The own ball at full speed.
    series : dict of str to tuple of Thrown
        By step: throws in which one thing changes, in the order of its slider.
    at_profile : dict of str to Thrown
        ``second`` and ``third`` at this athlete's full speed with each.
    slowed : Interval
        Full speed with the second ball (m/s).
    built : tuple of Thrown
        The three pictures of a build-up.
    """

    case: Case
    second: Ball
    third: Ball
    own: Thrown
    series: dict[str, tuple[Thrown, ...]]
    at_profile: dict[str, Thrown]
    slowed: Interval
    built: tuple[Thrown, ...]

    @property
    def on_prior(self) -> bool:
        """Whether published groups alone say how much this athlete slows down."""
        return self.case.profile is None or self.case.profile.exponent_is_prior


def balls_of(session: Session, case: Case) -> tuple[Ball, Ball]:
    """The two balls beside the own one.

    As chosen; else, and in the place of the own ball, the rack's nearest to twice the own mass, and the rack's
    lightest, or one of two thirds of the own mass where none is lighter.
    """
    own, lightest = case.own_ball, case.rack[0]
    if is_same(lightest, own):
        lightest = Ball(max(own.mass_kg * 2.0 / 3.0, BALL_LIMITS["mass_kg"].low), own.diameter_m)
    second, third = (
        usual if ball is None or is_same(ball, own) else ball
        for ball, usual in ((session.second, shown_ball(case)), (session.third, lightest))
    )
    return second, third


def ball_choices(session: Session, case: Case) -> list[dict[str, str]]:
    """The balls to choose from: the athlete's but for the own one, and those that are shown already."""
    own = text_of(case.own_ball)
    found = {one["value"]: one["label"] for one in rack_of(case) if one["value"] != own}
    for ball in balls_of(session, case):
        found.setdefault(text_of(ball), f"{name_of(ball, case)}, not of the rack")
    return [{"value": value, "label": label} for value, label in found.items()]


def lesson_of(session: Session, case: Case) -> Lesson | None:
    """Work out all that the story shows.

    None while measures or a full speed are missing, or where a throw of the story would be none that is accepted.
    """
    system = case.system
    throw, profile = case.throw, case.profile
    if throw is None or profile is None:
        return None
    second, third = balls_of(session, case)
    heavy = max(second, third, key=lambda ball: ball.mass_kg)
    if heavy.mass_kg < throw.ball.mass_kg:
        heavy = shown_ball(case)  # a build-up starts with a ball heavier than the own one
    try:
        speeds = mean_speeds(Fitted(profile), (second.mass_kg, third.mass_kg, heavy.mass_kg))
        slowed = Interval(float(speeds.estimate[0]), float(speeds.low[0]), float(speeds.high[0]), speeds.level)
        first, *others = (system.as_shown(speed, "m/s") for speed in (throw.speed_m_s, *speeds.estimate.tolist()))
        worked = _worked(replace(throw, speed_m_s=first), (second, third, heavy), tuple(others))
    except InputError:
        return None
    own, series, at_profile, built = worked
    return Lesson(case, second, third, own, series, at_profile, slowed, built)


def _thrown(found: Curves, amount: float = 1.0) -> Thrown:
    return Thrown(found, read_curves(found, READING), amount)


@lru_cache(maxsize=16)
def _worked(
    throw: Throw, balls: tuple[Ball, Ball, Ball], speeds_m_s: tuple[float, float, float]
) -> tuple[Thrown, dict[str, tuple[Thrown, ...]], dict[str, Thrown], tuple[Thrown, ...]]:
    second, third, heavy = balls
    second_m_s, third_m_s, heavy_m_s = speeds_m_s
    changes = {"hand": with_hand, "forearm": with_forearm, "clock": with_clock}
    series = {}
    for step, change in changes.items():
        stops = []
        for share in SHARES[step]:
            try:
                stops.append(_thrown(change(throw, share), share))
            except InputError:
                continue  # beyond what an arm or a throw can be: there the slider ends
        series[step] = tuple(stops)

    def at(ball: Ball, speed_m_s: float, amount: float) -> Thrown:
        return _thrown(curves(Throw(throw.person, ball, speed_m_s)), amount)

    masses = np.linspace(throw.ball.mass_kg, second.mass_kg, BALL_STOPS + 1)
    diameters = np.linspace(throw.ball.diameter_m, second.diameter_m, BALL_STOPS + 1)
    series["ball"] = tuple(
        at(Ball(float(m), float(d)), throw.speed_m_s, float(m)) for m, d in zip(masses, diameters, strict=True)
    )
    ends = (throw.speed_m_s, second_m_s)
    low, high = SLOWEST * min(ends), max(ends)
    speeds = sorted({*np.linspace(low, high, SPEED_STOPS + 1).tolist(), *ends}, reverse=True)
    series["speed"] = tuple(at(second, speed, speed) for speed in speeds)
    profile_throws = {"second": at(second, second_m_s, second.mass_kg), "third": at(third, third_m_s, third.mass_kg)}
    own = _thrown(curves(throw))
    last = (throw.ball, throw.speed_m_s)
    growing = is_growing(throw.person)
    first, shares = (last, GROWING_SHARES) if growing else ((heavy, heavy_m_s), BUILD_SHARES)
    built = tuple(
        at(ball, share * speed_m_s, share)
        for share, (ball, speed_m_s) in zip(shares, (first, first, last), strict=True)
    )
    return own, series, profile_throws, built
