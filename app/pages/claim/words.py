"""What the page says: the claim, what becomes of it, the numbers, and where the speeds come from."""

import math

from app.pages.claim.answers import ClaimAnswer, Settled
from app.pages.claim.checks import SAME
from app.pages.claim.form import JOINTS
from app.show.ball_words import ball_words
from app.show.ball_words import interval_words as speed_with_interval
from app.show.checked_range import beyond
from app.show.numbers import READOUT_ORDER, chance_words, difference, number
from app.show.person_words import measures_missing
from app.units.conversion import from_si
from app.units.systems import METRIC, System
from model.claim import HOLDS_FROM, NO_DIFFERENCE, Difference
from model.interval import Interval
from model.quantity import READOUTS, Quantity

VERDICTS = {
    "holds": "holds",
    "fails": "does not hold",
    "open": "cannot tell from these readings",
    "undefined": "not defined for these throws",
}
"""What becomes of a claim, by `Difference.verdict`."""

NAMES = {"peak": "peak", "loaded_s": "time loaded", "rise_rate": "rise rate", "area": "area"}
CLAIMED = {
    "peak": ("a higher peak", "a lower peak"),
    "loaded_s": ("a longer time loaded", "a shorter time loaded"),
    "rise_rate": ("a steeper rise", "a gentler rise"),
    "area": ("a larger area", "a smaller area"),
}
"""What is claimed of each readout: more of it, and less."""

FOUR = (
    "A claim that names no readout is four claims: peak, time loaded, rise rate and area are each answered for itself."
)
NOTHING_TO_SPEAK_OF = f"no difference to speak of, under {100.0 * NO_DIFFERENCE:g} %"
ONLY_READINGS = (
    "Interval and probability are of what the readings leave open; path and body measures are taken as they are."
)
READ_TO = {"m/s": "0.1 m/s", "mph": "0.2 mph"}
"""To how much a release speed is read, in the reader's unit."""

LEAST_TOLD = 0.005  # of the draws: fewer that have no answer are not worth a word


def claim_words(answer: ClaimAnswer) -> str:
    """Say the claim, for example "275 g loads the elbow more than 145 g"."""
    first, second = answer.checked.first, answer.checked.second
    if first is None or second is None:
        return ""
    way = "more" if answer.more else "less"
    balls = [ball_words(ball, answer.case.system) for ball in (first, second)]
    return f"{balls[0]} loads {JOINTS[answer.reading]} {way} than {balls[1]}"


def summary(answer: ClaimAnswer) -> list[tuple[str, str]]:
    """Say which of the four claims hold.

    Parameters
    ----------
    answer : ClaimAnswer

    Returns
    -------
    list of (str, str)
        What becomes of them, and of which: ``("holds", "time loaded and area")``; ``all four`` if it is the same of
        all. None without an answer.
    """
    if answer.settled is None:
        return []
    groups: dict[str, list[str]] = {key: [] for key in VERDICTS}
    for key in READOUT_ORDER:
        groups[answer.settled.found[key].verdict(answer.more)].append(NAMES[key])
    return [
        (VERDICTS[key], "all four" if len(names) == len(READOUT_ORDER) else _listed(names))
        for key, names in groups.items()
        if names
    ]


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def speed_words(speed: Interval, exact: bool, system: System = METRIC) -> str:
    """Write a speed, with its interval unless it is exact."""
    return system.text(speed.estimate, "m/s", least=1) if exact else speed_with_interval(speed, system)


def throws_words(answer: ClaimAnswer) -> str:
    """Name the two throws with their speeds."""
    settled, first, second = answer.settled, answer.checked.first, answer.checked.second
    if settled is None or first is None or second is None:
        return ""
    there, against = (
        speed_words(speed, settled.exact, answer.case.system) for speed in (settled.first_m_s, settled.second_m_s)
    )
    balls = [ball_words(ball, answer.case.system) for ball in (first, second)]
    return f"{balls[0]} at {there} against {balls[1]} at {against}."


def unit_of(readout: str, reading: str) -> str:
    """The unit a readout is printed in."""
    unit = Quantity(reading, readout).unit
    return "ms" if unit == "s" else unit


def _shown(value: float, unit: str) -> float:
    return from_si(value, "ms") if unit == "ms" else value


def _places(*values: float) -> int:
    """Decimals at which the largest of the values has three figures, or none."""
    size = max((abs(value) for value in values if math.isfinite(value)), default=0.0)
    return 0 if size >= 100.0 else 1 if size >= 10.0 else 2 if size >= 1.0 else 3


def values_words(one: Difference, reading: str) -> str:
    """Write the readout of both throws, for example "72.2 against 67.3 N·m"."""
    unit = unit_of(one.readout, reading)
    first, second = (_shown(value.estimate, unit) for value in (one.first, one.second))
    places = _places(first, second)
    return f"{number(first, places)} against {number(second, places)} {unit}"


def difference_words(one: Difference, reading: str) -> str:
    """Write the difference in units and per cent, for example "+4.9 N·m, +7.3 %"."""
    unit = unit_of(one.readout, reading)
    value, places = _shown(one.absolute.estimate, unit), _absolute_places(one, unit)
    return f"{difference(value, places)} {unit}, {_percent(one.relative.estimate)} %"


def interval_words(one: Difference, reading: str) -> str:
    """Write the interval of the difference in units and per cent."""
    unit = unit_of(one.readout, reading)
    places = _absolute_places(one, unit)
    absolute = _between(*(difference(_shown(value, unit), places) for value in (one.absolute.low, one.absolute.high)))
    percent = _between(_percent(one.relative.low), _percent(one.relative.high))
    return f"{100 * one.relative.level:.0f} % interval: {absolute} {unit}, {percent}\u00a0%"


def _between(low: str, high: str) -> str:
    """Both ends of an interval; one number if they print alike."""
    return low if low == high else f"{low} to {high}"


def _absolute_places(one: Difference, unit: str) -> int:
    return _places(_shown(one.first.estimate, unit), _shown(one.second.estimate, unit))


def _percent(share: float) -> str:
    percent = 100.0 * share
    return difference(percent, 0 if abs(percent) >= 100.0 else 1)


def probability_words(one: Difference, more: bool) -> str:
    """Write the probability of the claim, and what has no answer."""
    claimed = CLAIMED[one.readout][0 if more else 1]
    said = f"probability of {claimed}: {chance_words(one.more if more else one.less)}"
    if one.undefined > LEAST_TOLD:
        said += f"; in {chance_words(one.undefined)} of what the readings allow there is no such number"
    return said


def borders_words(answer: ClaimAnswer) -> str:
    """Say from where on a claim holds."""
    settled = answer.settled
    if settled is None:
        return ""
    tie = (
        f"A difference under {100.0 * NO_DIFFERENCE:g} % is none to speak of: it prints as 0 %, and a release speed "
        f"read to {READ_TO[answer.case.speed_unit]} does not tell it apart."
    )
    if settled.exact:
        return f"Holds, or does not hold, by the numbers alone. {tie}"
    level = f"{100.0 * HOLDS_FROM:.0f} %"
    contrary = f"{100.0 * (1.0 - HOLDS_FROM):.0f} %"
    return (
        f"Holds: a probability of {level} or more. Does not hold: {contrary} or less, or the whole interval within "
        f"±{100.0 * NO_DIFFERENCE:g} %. Between: cannot tell from these readings. {tie}"
    )


def source_words(answer: ClaimAnswer) -> list[str]:
    """Say where the speeds come from.

    Parameters
    ----------
    answer : ClaimAnswer

    Returns
    -------
    list of str
    """
    settled, profile = answer.settled, answer.case.profile
    if settled is None or profile is None:
        return []
    if settled.exact:
        return [
            "A typed speed is taken as exact: there is no interval and no probability, and nothing of the readings."
        ]
    if answer.held == "same":
        return [
            "Both balls at this athlete’s mean full-effort speed with the own ball. Whether this athlete reaches it "
            "with either is not asked here.",
            ONLY_READINGS,
        ]
    mean = "Both are mean full-effort throws, not next ones, and both speeds come from the same draw of the profile."
    full = [reading for reading in answer.case.found.used if reading.asked_effort == 1.0]
    if answer.on_prior:
        told = "No radar readings" if not full else "Readings with one ball only"
        unknown = any(one.verdict(answer.more) == "open" for one in settled.found.values())
        sign = " Where it says “cannot tell”, the sign is not known." if unknown else ""
        return [
            f"{told}: how much this athlete slows down with another ball is not known. The prior from published groups "
            f"answers alone, not this athlete.{sign}",
            mean,
            ONLY_READINGS,
        ]
    balls = len({round(reading.ball_mass_kg, 4) for reading in full})
    typed = ", and a typed own-ball speed" if profile.own_speed_is_given else ""
    return [f"From {len(full)} full-effort radar readings with {balls} balls{typed}. {mean}", ONLY_READINGS]


def beyond_words(answer: ClaimAnswer) -> str:
    """Name the checked range where a throw of the claim leaves it."""
    settled, first, second = answer.settled, answer.checked.first, answer.checked.second
    if settled is None or first is None or second is None:
        return ""
    masses, speeds = (first.mass_kg, second.mass_kg), _reach(settled)
    return beyond((min(masses), max(masses)), speeds, "Part of this claim", answer.case.system)


def _reach(settled: Settled) -> tuple[float, float]:
    both = (settled.first_m_s, settled.second_m_s)
    return min(speed.low for speed in both), max(speed.high for speed in both)


def missing(answer: ClaimAnswer, measures: dict[str, str]) -> tuple[str, bool, str]:
    """Say what is missing for an answer.

    Parameters
    ----------
    answer : ClaimAnswer
    measures : dict of str to str
        Messages of the athlete's fields.

    Returns
    -------
    str
        Which measures; empty for none.
    bool
        Whether a full-effort speed is.
    str
        What of this page is; empty for nothing.
    """
    checked = answer.checked
    parts: dict[str, object] = {"first ball": checked.first, "second ball": checked.second}
    if answer.held == "typed":
        parts |= {"speed of the first ball": checked.first_speed_m_s, "of the second": checked.second_speed_m_s}
    here = [name for name, part in parts.items() if part is None]
    if not here and checked.problems:
        here = [SAME.label.lower()]
    return measures_missing(answer.case, measures), answer.needs_speed, ", ".join(here)


def heard(one: Difference, answer: ClaimAnswer) -> str:
    """Say a picture, for those who hear it."""
    said = f"Difference in {READOUTS[one.readout].label}: {difference_words(one, answer.reading)}"
    if answer.settled is None or answer.settled.exact:
        return f"{said}."
    return f"{said}; {interval_words(one, answer.reading)}."
