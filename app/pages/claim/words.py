"""What the page says: the claim, what becomes of it, the numbers, and where the speeds come from."""

import math

from app.pages.claim.answers import ClaimAnswer, Settled
from app.pages.claim.asked import JOINTS
from app.show import certainty_words as sure
from app.show.ball_words import ball_words
from app.show.ball_words import interval_words as speed_with_interval
from app.show.checked_range import beyond
from app.show.numbers import READOUT_NAMES, difference, number
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from model.interval import Interval
from model.quantity import Quantity
from model.structural_band import BandDifference

FOUR = (
    "A claim that names no readout is four claims: peak, time loaded, rise rate and area are each answered for itself."
)
VERDICTS = ("supported", "not supported", "cannot tell", "no claim", sure.NOT_DEFINED)
"""In the order of the sentence."""


def claim_words(answer: ClaimAnswer) -> str:
    """Say the claim, for example "275 g loads the elbow more than 145 g"."""
    claim = answer.claim
    if claim.first is None or claim.second is None:
        return ""
    first, second = (ball_words(ball, answer.case.system) for ball in (claim.first, claim.second))
    return f"{first} loads {JOINTS[claim.reading]} {'more' if claim.more else 'less'} than {second}"


def claimed(readout: str, more: bool) -> str:
    """Say what is claimed of a readout, for example "a higher peak"."""
    words = sure.READOUT_WORDS[readout]
    return f"a {words.more if more else words.less} {words.name}"


def summary(answer: ClaimAnswer) -> list[tuple[str, str]]:
    """Say what becomes of the four claims: pairs such as ("supported", "time loaded and area"); none without answer."""
    if answer.settled is None:
        return []
    groups: dict[str, list[str]] = {key: [] for key in VERDICTS}
    for readout, one in answer.settled.found.items():
        verdict = sure.NOT_DEFINED if one.not_defined else one.answer(answer.claim.more).verdict
        near = "" if one.none_to_speak_of else sure.nearness(one.answer(answer.claim.more))
        groups[verdict].append(
            f"{READOUT_NAMES[readout]} ({near})" if near.startswith("but close") else READOUT_NAMES[readout]
        )
    count = len(answer.settled.found)
    alike = {
        verdict: len(names) == count and not any("(" in name for name in names) for verdict, names in groups.items()
    }
    return [(verdict, "all four" if alike[verdict] else _listed(names)) for verdict, names in groups.items() if names]


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def speed_words(speed: Interval, exact: bool, system: System = METRIC) -> str:
    """Write a speed, with its interval unless it is exact."""
    return system.text(speed.estimate, "m/s", least=1) if exact else speed_with_interval(speed, system)


def throws_words(settled: Settled, system: System) -> str:
    """Name the two throws with their speeds."""
    there, against = (
        f"{ball_words(ball, system)} at {speed_words(speed, settled.exact, system)}"
        for ball, speed in zip(settled.balls, settled.speeds_m_s, strict=True)
    )
    return f"{there} against {against}."


def numbers_words(values: tuple[float, float], best: float, key: tuple[str, str]) -> tuple[str, str]:
    """Write the best estimates of a readout: "−6.6 N·m, −8 %", and "73.9 against 80.5 N·m"."""
    unit = Quantity(*key).unit
    first, second = (from_si(value, "ms") if unit == "s" else value for value in values)
    unit = "ms" if unit == "s" else unit
    size = max((abs(value) for value in (first, second) if math.isfinite(value)), default=0.0)
    places = 0 if size >= 100.0 else 1 if size >= 10.0 else 2 if size >= 1.0 else 3
    apart = f"{difference(first - second, places)} {unit}, {sure.signed_percent(best)} %"
    return apart, f"{number(first, places)} against {number(second, places)} {unit}"


def interval_words(one: BandDifference, exact: bool) -> list[str]:
    """Write the interval of a difference, and that of the speeds alone unless they are exact."""
    said = [f"90 % interval: {sure.low_high(one.low, one.high)}"]
    return said if exact else [*said, f"of the speeds alone: {sure.low_high(one.radar_low, one.radar_high)}"]


def claim_chance_words(readout: str, one: BandDifference, answer: ClaimAnswer, settled: Settled) -> list[str]:
    """Say how probable the claim is, and what would help where it cannot be told."""
    found = one.answer(answer.claim.more)
    said = f"{claimed(readout, answer.claim.more)}: {sure.tenths(found.probability)}"
    return [said, sure.what_would_help(found, settled.against.where, not settled.exact)]


def source_words(answer: ClaimAnswer) -> list[str]:
    """Say where the speeds come from."""
    settled, profile = answer.settled, answer.case.profile
    if settled is None or profile is None:
        return []
    if settled.exact:
        unknown = profile.posterior.own is None
        full = " The faster of them counts as full speed: that of this athlete is not known." if unknown else ""
        return [f"A typed speed is taken as exact.{full}"]
    if answer.claim.thrown == "same":
        return [
            "Both balls at this athlete’s mean full-effort speed with the own ball. Whether this athlete reaches it "
            "with either is not asked here."
        ]
    mean = "Both are mean full-effort throws, not next ones."
    full_effort = [reading for reading in answer.case.found.used if reading.asked_effort == 1.0]
    if answer.on_prior:
        told = "No radar readings" if not full_effort else "Readings with one ball only"
        return [
            f"{told}: how much this athlete slows down with another ball is not known, and published groups answer for "
            f"that. {mean}"
        ]
    balls = len({round(reading.ball_mass_kg, 4) for reading in full_effort})
    typed = ", and a typed own-ball speed" if profile.own_speed_is_given else ""
    return [f"From {len(full_effort)} full-effort radar readings with {balls} balls{typed}. {mean}"]


def beyond_words(settled: Settled, system: System) -> list[str]:
    """Name what was solved, and the checked range, where a throw of the claim leaves it."""
    masses = sorted(ball.mass_kg for ball in settled.balls)
    reach = min(speed.low for speed in settled.speeds_m_s), max(speed.high for speed in settled.speeds_m_s)
    checked = beyond((masses[0], masses[1]), reach, "Part of this claim", system)
    return [sure.outside_words(system) if settled.against.outside else "", checked]


def heard(readout: str, one: BandDifference, settled: Settled, key: tuple[str, str]) -> str:
    """Say a picture, for those who hear it."""
    best = f"Difference in {READOUT_NAMES[readout]}: {numbers_words(settled.values[readout], one.best, key)[0]}"
    return f"{best}." if one.no_claim else f"{'; '.join([best, *interval_words(one, settled.exact)])}."
