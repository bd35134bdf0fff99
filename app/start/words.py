"""What the page says: limits, the answer in a sentence, where the numbers come from, what is missing."""

import math
from collections.abc import Sequence

from app.athlete.advice import FLIGHT_NOTE, effort_source
from app.map.words import ball_words, beyond, hundred_words, value_words
from app.start.answers import Listed, StartAnswer
from app.start.checks import LABELS, SHOWN_IN
from app.start.rounded import chosen
from app.systems import System
from app.units import from_si, plain, rounded_down, to_si
from model.ceilings import BOUNDS, LABORATORY_SPREAD, TORQUE_LIMIT, Amount
from model.start_list import AIMS, BallRange, Margin, Relaxation

EDGES = {
    "elbow_peak": "elbow peak",
    "shoulder_peak": "shoulder peak",
    "rise_rate": "rise rate",
    "braking": "braking after release",
    "least_loaded": "least time loaded",
    "most_loaded": "most time loaded",
    "speed": "speed ceiling",
    "full": "full speed",
    "slowest": "slowest looked at",
}
"""What sets an edge, in the fewest words."""

EXAMPLE_NOTE = (
    "These limits are an example, to be changed: no published limit stands behind them. An empty field is no limit."
)
INITIALS = ("Ball and speed chosen", "Number of throws", "Initials", "Date")
"""What is filled in by hand on the sheet."""

SPREAD_PERCENT = f"±{100 * LABORATORY_SPREAD:.0f} %"
SPREAD = f"laboratories differ by {SPREAD_PERCENT} and more"


def amount_words(key: str, amount: Amount, answer: StartAnswer) -> str:
    """Write a limit's amount, such as "90 % of measured, 2026-01-13" or "60.0 N·m".

    Parameters
    ----------
    key : str
        Of the limit.
    amount : Amount
    answer : StartAnswer

    Returns
    -------
    str
    """
    if not amount.absolute:
        return f"{plain(100.0 * amount.value, most=1)} % of {dated(answer)}"
    if key == "speed":
        return answer.case.system.text(amount.value, "m/s", least=1)
    return value_words(amount.value, BOUNDS[key].accepted.unit)


def dated(answer: StartAnswer) -> str:
    """The reference's kind and day, to stand beside a per cent."""
    return "the reference" if answer.basis is None else answer.basis.dated


def between_words(key: str, amount: Amount) -> str:
    """Say what a torque in N·m may be in another laboratory; nothing of any other limit."""
    if not amount.absolute or BOUNDS[key].accepted.unit not in (TORQUE_LIMIT.unit, "N·m/s"):
        return ""
    low, high = (value_words(value, BOUNDS[key].accepted.unit) for value in amount.between_laboratories)
    return f"by laboratory {low} to {high}"


def limits_words(answer: StartAnswer) -> list[tuple[str, str]]:
    """List the limits that count.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of (str, str)
        What is limited and by how much.
    """
    ceilings = answer.checked.ceilings
    if ceilings is None:
        return []
    said = []
    for bound, amount in ceilings.given():
        spread = between_words(bound.key, amount)
        said.append((LABELS[bound.key], amount_words(bound.key, amount, answer) + (f"; {spread}" if spread else "")))
    return said


def effort_text(listed: Listed, answer: StartAnswer) -> str:
    """Write the asked effort that brings a speed, rounded down."""
    if listed.effort is None:
        return f"under {100.0 * answer.effort.lowest_effort:.0f} %"
    return f"{rounded_down(100.0 * listed.effort):.0f} %"


def distance_text(listed: Listed, answer: StartAnswer) -> str:
    """Write how far such a throw flies, rounded down."""
    if listed.distance_m is None:
        return "–"
    return answer.case.system.cap(listed.distance_m, "m", 0)


def throw_text(listed: Listed, answer: StartAnswer) -> str:
    """Name a line of the short list by ball, share and speed."""
    choice, system = listed.choice, answer.case.system
    shown, at = chosen(choice, system), "at" if answer.aim == "nearest_peak" else "at up to"
    return f"{ball_words(choice.range.ball, system)} {at} {shown.share_text} of full speed with it, {shown.speed_text}"


def sentence(answer: StartAnswer) -> tuple[str, str]:
    """Say the answer: what stands out, and the rest.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    (str, str)
        Both empty without an answer.
    """
    found = answer.found
    if found is None:
        return "", ""
    if found.nothing is not None:
        return "Nothing fits.", nothing_words(answer)
    first = found.listed[0]
    count = sum(one.fits for one in found.ranges)
    fit = f"{count} of {len(found.ranges)} balls fit" if len(found.ranges) > 1 else "the one ball ticked fits"
    return throw_text(first, answer), f": first of the list for “{AIMS[answer.aim]}”; {fit}."


def nothing_words(answer: StartAnswer) -> str:
    """Say which limit to relax, and by how much, for a ball to fit.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    str
    """
    nothing = answer.found.nothing if answer.found else None
    if nothing is None:
        return ""
    changes = " and ".join(_change(one, answer) for one in nothing.relax)
    alone = "That is the least single change" if len(nothing.relax) == 1 else "No single change is enough"
    ball = ball_words(nothing.ball, answer.case.system)
    return f"{ball} would, with {changes}. {alone}. Whether to is for the clinician and the coach."


def _change(one: Relaxation, answer: StartAnswer) -> str:
    now, then = one.amount, relaxed(one, answer.case.system)
    return f"{EDGES[one.key]} at {amount_words(one.key, then, answer)} instead of {bare_words(one.key, now, answer)}"


def held_words(margin: Margin, answer: StartAnswer) -> str:
    """Write what a throw stays within, as its limit is counted."""
    if margin.key == "speed" and margin.amount.absolute:
        return answer.case.system.text(margin.held, "m/s", least=1, most=1)
    return bare_words(margin.key, Amount(margin.held, margin.amount.absolute), answer)


def bare_words(key: str, amount: Amount, answer: StartAnswer) -> str:
    """Write a limit's amount without the reference's kind, where that stands beside it already."""
    return amount_words(key, amount, answer).removesuffix(f" of {dated(answer)}")


def relaxed(one: Relaxation, system: System) -> Amount:
    """What a limit would have to be, rounded so that it is enough: to what is printed of it.

    Parameters
    ----------
    one : Relaxation
    system : System
        The units it is printed in.

    Returns
    -------
    Amount
    """
    needed = one.needed
    unit = system.unit(SHOWN_IN[BOUNDS[one.key].accepted.unit]) if needed.absolute else "%"
    shown = from_si(needed.value, unit)
    step = 1.0 if unit in ("ms", "N·m/s") or (unit == "N·m" and shown >= 99.0) else 10.0
    rounded = math.ceil if BOUNDS[one.key].at_most else math.floor
    return Amount(to_si(rounded(shown * step) / step, unit), needed.absolute)


def range_words(one: BallRange) -> str:
    """Say why a ball does not fit."""
    return (
        f"none: {EDGES[one.most_by]} up to {rounded_down(100.0 * one.most):.0f} %, "
        f"{EDGES[one.least_by]} from {math.ceil(100.0 * one.least):.0f} %"
    )


def notes(answer: StartAnswer) -> list[str]:
    """Say how sure the answer is, what it counts from, and what leaves the tested range.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of str
    """
    basis, found, checked = answer.basis, answer.found, answer.checked
    if basis is None or found is None or checked.certainty is None or checked.ceilings is None:
        return []
    said = [hundred_words(basis.hundred, answer.case), _doubt(answer)]
    if not checked.ceilings.given():
        said.append("No limit is set: every ball may go up to full speed.")
    said.append(
        f"Each limit by itself is kept with a certainty of {plain(100.0 * checked.certainty, most=1)} %, over all that "
        "the readings leave open; path and body measures are taken as they are."
    )
    if any(between_words(bound.key, amount) for bound, amount in checked.ceilings.given()):
        said.append(f"Of a limit in N·m: {SPREAD}; that is not in the certainty.")
    if found.listed:
        said += [f"Asked effort is not speed. {effort_source(answer.effort)}", f"Distance: {FLIGHT_NOTE}"]
        balls = [listed.choice.range.ball.mass_kg for listed in found.listed]
        speeds = [listed.choice.speed_m_s for listed in found.listed]
        ends = (min(balls), max(balls)), (min(speeds), max(speeds))
        said.append(beyond(*ends, "Part of the list", answer.case.system))
    return [text for text in said if text]


def _doubt(answer: StartAnswer) -> str:
    basis = answer.basis
    if basis is None:
        return ""
    doubt = basis.reference.doubt
    known = f"Its speed counts as known to ±{plain(100.0 * doubt, most=1)} % (one standard deviation)." if doubt else ""
    if basis.same_throw:
        return f"It is the throw that full speed now is known by: what is not known of it counts once. {known}".strip()
    return known


def prior_words(answer: StartAnswer) -> str:
    """Say that speeds rest on others than this athlete, where they do.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    str
    """
    profile, basis = answer.case.profile, answer.basis
    if profile is None or basis is None or not profile.exponent_is_prior:
        return ""
    full = [reading for reading in answer.case.found.used if reading.asked_effort == 1.0]
    told = "Readings with one ball only" if full else "No radar readings"
    said = (
        f"{told}: how much this athlete slows down with another ball is not known. The speeds rest on the published "
        "spread between throwers, and the region is as narrow as that asks."
    )
    if basis.reference.kind == "before_injury" and profile.own_speed_is_given and not full:
        said += " Full speed of now is not known either: it is taken as that of before the injury."
    return said


def missing(answer: StartAnswer) -> list[str]:
    """Say what of this page is missing or to be mended.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of str
    """
    names = [LABELS[name].lower() for name in answer.checked.problems if name in LABELS]
    names += [name.removesuffix("_percent") for name in answer.checked.problems if name not in LABELS]
    return [*names, *([] if answer.balls else ["a ball of the rack"])]


def heard(answer: StartAnswer, listed: Sequence[Listed]) -> str:
    """Say the short list, for those who hear it."""
    return "; ".join(throw_text(one, answer) for one in listed)
