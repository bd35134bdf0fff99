"""From the forms to the answer: the two throws, and how each readout of the first differs from that of the second."""

from dataclasses import dataclass
from functools import lru_cache

from app.pages.claim.checks import SAME, CheckedClaim, check_claim
from app.pages.claim.form import JOINTS, ClaimForm
from app.show.numbers import READOUT_ORDER
from app.show.subject import Case, Fitted
from model.ball import Ball
from model.claim import Difference, Draws, at_own_speed, differences, given, on_profile
from model.interval import Interval
from model.person import Person
from model.throw import path_loads


@dataclass(frozen=True)
class Settled:
    """A claim that was put to the readouts.

    Attributes
    ----------
    first_m_s, second_m_s : Interval
        Release speeds of the two throws (m/s).
    exact : bool
        Whether both speeds were given, and are taken as exact.
    found : dict of str to Difference
        By readout, in the order of `READOUT_ORDER`.
    """

    first_m_s: Interval
    second_m_s: Interval
    exact: bool
    found: dict[str, Difference]


@dataclass(frozen=True)
class ClaimAnswer:
    """All that the page shows, as numbers.

    Attributes
    ----------
    case : Case
    reading : str
        A key of `form.JOINTS`.
    more : bool
        Whether more is claimed of the first ball.
    held : str
        How both are thrown: a key of `form.THROWN`.
    checked : CheckedClaim
    settled : Settled or None
        None while something is missing.
    """

    case: Case
    reading: str
    more: bool
    held: str
    checked: CheckedClaim
    settled: Settled | None = None

    @property
    def needs_speed(self) -> bool:
        """Whether the answer rests on the athlete's own full speed, and that is not known."""
        profile = self.case.profile
        wanted = self.held == "profile" or (
            self.held == "same" and self.checked.same_speed_m_s is None and SAME.name not in self.checked.problems
        )
        return wanted and profile is not None and profile.posterior.own is None

    @property
    def on_prior(self) -> bool:
        """Whether the prior alone says how much this athlete slows down, and the answer rests on it."""
        profile = self.case.profile
        return self.held == "profile" and profile is not None and profile.exponent_is_prior


def claim_of(form: ClaimForm, case: Case) -> ClaimAnswer:
    """Work out all that the page shows; without an answer while the measures, a ball or a speed are missing."""
    checked = check_claim(form, case.system)
    reading = form.reading if form.reading in JOINTS else "varus"
    answer = ClaimAnswer(case, reading, form.more, form.held, checked)
    person, profile, first, second = case.person, case.profile, checked.first, checked.second
    if person is None or profile is None or first is None or second is None:
        return answer
    if not checked.complete(form.held) or answer.needs_speed:
        return answer
    speeds: tuple[float, float] | None = None
    if form.held == "typed" and checked.first_speed_m_s is not None and checked.second_speed_m_s is not None:
        speeds = checked.first_speed_m_s, checked.second_speed_m_s
    elif form.held == "same" and checked.same_speed_m_s is not None:
        speeds = checked.same_speed_m_s, checked.same_speed_m_s
    fitted = Fitted(profile) if speeds is None else None
    settled = _settled(person, first, second, reading, fitted, form.held == "same", speeds)
    return ClaimAnswer(case, reading, form.more, form.held, checked, settled)


@lru_cache(maxsize=32)
def _settled(
    person: Person,
    first: Ball,
    second: Ball,
    reading: str,
    fitted: Fitted | None,
    same: bool,
    speeds: tuple[float, float] | None,
) -> Settled:
    loads = path_loads(person, first.diameter_m), path_loads(person, second.diameter_m)
    draws = _draws(fitted, first, second, same, speeds)
    found = differences(loads, (first.mass_kg, second.mass_kg), reading, draws)
    return Settled(draws.speed("first"), draws.speed("second"), draws.exact, {key: found[key] for key in READOUT_ORDER})


def _draws(fitted: Fitted | None, first: Ball, second: Ball, same: bool, speeds: tuple[float, float] | None) -> Draws:
    if speeds is not None:
        return given(*speeds)
    if fitted is None:
        raise ValueError("neither speeds nor a profile")
    return at_own_speed(fitted.profile) if same else on_profile(fitted.profile, first.mass_kg, second.mass_kg)
