"""From the claim to the answer: the two throws, and how each readout of the first differs from that of the second."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.pages.claim.asked import Claim
from app.show.against_reference import Against, against, thrown_as, who_throws
from app.show.numbers import READOUT_ORDER
from app.show.subject import Case
from model.ball import Ball
from model.drawn_throws import Thrown, on_profile
from model.interval import LEVEL, Interval
from model.person import Person
from model.quantity import Quantity, quantity_at
from model.speed import SpeedProfile
from model.structural_band import BandDifference
from model.throw import path_loads


@dataclass(frozen=True)
class Settled:
    """A claim that was put to the readouts.

    Attributes
    ----------
    balls : (Ball, Ball)
        Of the first throw and of the second.
    speeds_m_s : (Interval, Interval)
        Their release speeds (m/s).
    exact : bool
        Whether both speeds were given, and are taken as exact.
    against : Against
        The first throw held against the second.
    values : dict of str to (float, float)
        Best estimates of the first and the second throw's readout, in SI.
    """

    balls: tuple[Ball, Ball]
    speeds_m_s: tuple[Interval, Interval]
    exact: bool
    against: Against
    values: dict[str, tuple[float, float]]

    @property
    def found(self) -> Mapping[str, BandDifference]:
        """How each readout differs, in the order of `READOUT_ORDER`."""
        return self.against.found


@dataclass(frozen=True)
class ClaimAnswer:
    """All that the page shows, as numbers; `settled` is None while something is missing."""

    case: Case
    claim: Claim
    settled: Settled | None = None

    @property
    def needs_speed(self) -> bool:
        """Whether the answer rests on the athlete's own full speed, and that is not known."""
        profile, claim = self.case.profile, self.claim
        wanted = claim.thrown != "typed" and claim.speeds_m_s is None
        return wanted and not claim.to_mend and profile is not None and profile.posterior.own is None

    @property
    def on_prior(self) -> bool:
        """Whether the prior alone says how much this athlete slows down, and the answer rests on it."""
        profile = self.case.profile
        return self.claim.thrown == "profile" and profile is not None and profile.exponent_is_prior


def answer_of(claim: Claim, case: Case) -> ClaimAnswer:
    """Work out all that the page shows; without an answer while the measures, a ball or a speed are missing."""
    answer = ClaimAnswer(case, claim)
    person, profile, first, second = case.person, case.profile, claim.first, claim.second
    if person is None or profile is None or first is None or second is None or claim.to_mend or answer.needs_speed:
        return answer
    return replace(answer, settled=_settled(case, person, profile, claim, (first, second)))


def _settled(case: Case, person: Person, profile: SpeedProfile, claim: Claim, balls: tuple[Ball, Ball]) -> Settled:
    (first, second), speeds = _throws(case, profile, claim, balls)
    subject = who_throws(person, case.own_ball, profile, max(first.speed_m_s, second.speed_m_s))
    (found,) = against(subject, [first], second, claim.reading)
    keys = [(claim.reading, readout) for readout in READOUT_ORDER]
    values = {key[1]: (_value(person, key, first), _value(person, key, second)) for key in keys}
    return Settled(balls, speeds, claim.speeds_m_s is not None, found, values)


def _throws(
    case: Case, profile: SpeedProfile, claim: Claim, balls: tuple[Ball, Ball]
) -> tuple[tuple[Thrown, Thrown], tuple[Interval, Interval]]:
    """The two throws, and their speeds as they are shown."""
    one, other = balls
    if claim.speeds_m_s is not None:
        here, there = claim.speeds_m_s
        exact = Interval(here, here, here, LEVEL), Interval(there, there, there, LEVEL)
        return (thrown_as(one, here), thrown_as(other, there)), exact
    if claim.thrown == "same":
        (own,) = on_profile(profile, [case.own_ball])
        return (replace(own, ball=one), replace(own, ball=other)), (profile.own_speed(), profile.own_speed())
    first, second = on_profile(profile, balls)
    return (first, second), (profile.mean_speed(one.mass_kg), profile.mean_speed(other.mass_kg))


def _value(person: Person, key: tuple[str, str], throw: Thrown) -> float:
    loads = path_loads(person, throw.ball.diameter_m)
    return float(quantity_at(loads, Quantity(*key), throw.ball.mass_kg, throw.speed_m_s))
