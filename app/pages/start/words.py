"""How the page writes numbers and limits, what its numbers rest on, and what is missing."""

from app.pages.start.answers import Basis, StartAnswer
from app.pages.start.found import Listed
from app.pages.start.limits import LEAST_ABOVE_MOST
from app.pages.start.rounded import chosen
from app.records.field_list import AMOUNT_UNITS, LIMIT_LABELS
from app.records.fields import in_words
from app.show.ball_words import ball_words, value_words
from app.show.checked_range import beyond
from app.show.hundred import hundred_words
from app.show.numbers import percent
from app.show.sources import FLIGHT_NOTE, effort_source
from app.units.conversion import from_si, plain, rounded_down, rounded_up_to
from app.units.systems import System
from model.ball import Ball
from model.ceilings import BOUNDS, LABORATORY_SPREAD, TORQUE_LIMIT, Amount
from model.checks import InputError
from model.start_list import LimitKept

EDGES = {
    "elbow_peak": "elbow peak",
    "shoulder_peak": "shoulder peak",
    "rise_rate": "rise rate",
    "area": "area",
    "braking": "braking after release",
    "least_loaded": "least time loaded",
    "most_loaded": "most time loaded",
    "speed": "release speed",
    "full": "full speed",
    "slowest": "slowest computed",
}
"""What sets an edge, in the fewest words."""

EXAMPLE_NOTE = (
    "These limits are an example, to be changed: no published limit stands behind them. An empty field is no limit."
)
INITIALS = ("Ball and speed chosen", "Number of throws", "Initials", "Date")
"""What is filled in by hand on the sheet."""

SPREAD_PERCENT = f"±{percent(LABORATORY_SPREAD)}"
SPREAD = f"Laboratories differ by {SPREAD_PERCENT} and more for similar throws; that is not in the certainty."
NEAR = 10.0  # m or ft: below it a distance has a decimal
COARSE = 0.1  # from here on a share is written in whole per cents


def amount_words(key: str, amount: Amount, answer: StartAnswer) -> str:
    """Write a limit's amount, such as "90 % of the reference (measured, 2026-01-13)" or "60.0 N·m".

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
    said = bare_words(key, amount, answer)
    return said if amount.absolute else f"{said} of {reference_words(answer)}"


def bare_words(key: str, amount: Amount, answer: StartAnswer) -> str:
    """Write a limit's amount where it is said beside it what 100 % is."""
    if not amount.absolute:
        return percent(amount.value, 1)
    if key == "speed":
        return answer.case.system.text(amount.value, "m/s", least=1)
    return value_words(amount.value, BOUNDS[key].accepted.unit)


def limit_words(key: str, answer: StartAnswer) -> str:
    """Name a limit by what it limits and its number, such as "elbow peak at most 40 %"."""
    amount = answer.asked.amounts.get(key)
    if amount is None:
        return EDGES[key]
    return f"{name_of(key)} {way_of(key)} {bare_words(key, amount, answer)}"


def name_of(key: str) -> str:
    """What a limit is on, without which way it limits."""
    return EDGES[key].removeprefix("least ").removeprefix("most ")


def way_of(key: str) -> str:
    """Whether a limit is an upper or a lower one."""
    return "at most" if BOUNDS[key].at_most else "at least"


def reference_words(answer: StartAnswer) -> str:
    """The reference with its kind and day, to stand beside a per cent."""
    return "the reference" if answer.basis is None else f"the reference ({answer.basis.dated})"


def certainty_words(answer: StartAnswer) -> str:
    """The certainty in per cent."""
    return percent(answer.asked.certainty or 0.0, 1)


def between_words(key: str, amount: Amount) -> str:
    """Say what a torque in N·m may be in another laboratory; nothing of any other limit."""
    if not amount.absolute or not BOUNDS[key].accepted.unit.startswith(TORQUE_LIMIT.unit):
        return ""
    low, high = (value_words(value, BOUNDS[key].accepted.unit) for value in amount.between_laboratories)
    return f"by laboratory {low} to {high}"


def limits_words(answer: StartAnswer) -> list[tuple[str, str]]:
    """List what is limited and by how much, and then what is not."""
    said = []
    for key, amount in answer.asked.limits.items():
        spread = between_words(key, amount)
        said.append((LIMIT_LABELS[key], bare_words(key, amount, answer) + (f"; {spread}" if spread else "")))
    free = [EDGES[key] for key in BOUNDS if key not in answer.asked.amounts]
    return [*said, *([("Not limited", ", ".join(free))] if free else [])]


def pair_words(kept: LimitKept, answer: StartAnswer) -> tuple[str, str]:
    """Write what a throw likely comes to, and what it stays within, so that neither seems to pass the limit.

    Parameters
    ----------
    kept : LimitKept
    answer : StartAnswer

    Returns
    -------
    (str, str)
        The bound is rounded toward its limit and not beyond it, the likely value not beyond the bound.
    """
    if not kept.amount.absolute:
        sign = 1.0 if BOUNDS[kept.key].at_most else -1.0
        places = 0 if kept.amount.value >= COARSE else 1
        limit, bound, likely = (sign * 100.0 * value for value in (kept.amount.value, kept.bound, kept.likely))
        shown = min(rounded_up_to(bound, places), max(limit, bound))
        near = min(round(likely, places), shown) if likely <= bound else round(likely, places)
        return f"{plain(sign * near, most=1)} %", f"{plain(sign * shown, most=1)} %"
    if kept.key == "speed":
        system = answer.case.system
        return system.text(kept.likely, "m/s", 1, 1), system.text(kept.bound, "m/s", 1, 1)
    unit = BOUNDS[kept.key].accepted.unit
    return value_words(kept.likely, unit), value_words(kept.bound, unit)


def share_percent(share: float) -> str:
    """Write a share of the reference in whole per cents, a small one with a decimal."""
    return percent(share, 0 if share >= COARSE else 1)


def figures(value: float, unit: str) -> str:
    """Write a value without its unit."""
    return value_words(value, unit).removesuffix(f" {AMOUNT_UNITS[unit]}")


def effort_text(listed: Listed, answer: StartAnswer) -> str:
    """Write the asked effort that brings a speed, rounded down."""
    if listed.effort is None:
        return f"under {percent(answer.effort.lowest_effort)}"
    return percent(rounded_down(listed.effort, 2))


def distance_text(listed: Listed, answer: StartAnswer) -> str:
    """Write how far such a throw flies, rounded down, without the unit."""
    if listed.distance_m is None:
        return "–"
    system = answer.case.system
    far = system.value(listed.distance_m, "m")
    return f"{rounded_down(far):.0f}" if far >= NEAR else f"{rounded_down(far, 1):.1f}"


def own_words(ball: Ball, own: bool, system: System) -> str:
    """Name a ball, and say if it is the own one."""
    return f"{ball_words(ball, system)}, the own ball," if own else ball_words(ball, system)


def throw_text(listed: Listed, answer: StartAnswer) -> str:
    """Name a throw by ball, share and speed."""
    choice, system = listed.choice, answer.case.system
    shown, at = chosen(choice, system), "at" if answer.asked.aim == "nearest_peak" else "at up to"
    name = own_words(choice.range.ball, listed.own, system)
    return f"{name} {at} {shown.share_text} of full speed with it, {shown.speed_text}"


def notes(answer: StartAnswer) -> list[str]:
    """Say how sure the answer is, what it counts from, and what leaves the tested range."""
    basis, found = answer.basis, answer.found
    if basis is None or found is None:
        return []
    said = [hundred_words(basis.hundred, answer.case), _doubt(basis)]
    if answer.asked.limits:
        said.append(
            f"Each limit by itself is kept with a certainty of {certainty_words(answer)}, over all that the readings "
            "leave open; path and body measures are taken as they are."
        )
    said.append(SPREAD)
    if found.listed:
        said += [f"Asked effort is not speed. {effort_source(answer.effort)}", f"Distance: {FLIGHT_NOTE}"]
        balls = [listed.choice.range.ball.mass_kg for listed in found.listed]
        speeds = [listed.choice.speed_m_s for listed in found.listed]
        ends = (min(balls), max(balls)), (min(speeds), max(speeds))
        said.append(beyond(*ends, "Part of the table", answer.case.system))
    return [text for text in said if text]


def _doubt(basis: Basis) -> str:
    doubt = basis.reference.doubt
    known = f"Its speed counts as known to ±{percent(doubt, 1)} (one standard deviation)." if doubt else ""
    if basis.same_throw:
        return f"It is the throw that full speed now is known by: what is not known of it counts once. {known}".strip()
    return known


def prior_words(answer: StartAnswer) -> str:
    """Say that speeds rest on others than this athlete, where they do."""
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


def crossed_words(answer: StartAnswer) -> str:
    """Say that the least time loaded is above the most, where it is."""
    asked = answer.asked
    if LIMIT_LABELS[LEAST_ABOVE_MOST] not in asked.to_mend or LEAST_ABOVE_MOST not in asked.amounts:
        return ""
    least, most = (bare_words(key, asked.amounts[key], answer) for key in (LEAST_ABOVE_MOST, "most_loaded"))
    accepted = f"no more than “{LIMIT_LABELS['most_loaded'].lower()}”, {most}"
    return in_words(InputError(LIMIT_LABELS[LEAST_ABOVE_MOST], least, accepted))


def down(value_si: float, metric: str, system: System, places: int = 1) -> str:
    """Write an upper end, rounded down, without its unit."""
    return f"{rounded_down(from_si(value_si, system.unit(metric)), places):.{places}f}"


def up(value_si: float, metric: str, system: System, places: int = 1) -> str:
    """Write a lower end, rounded up, without its unit."""
    return f"{rounded_up_to(from_si(value_si, system.unit(metric)), places):.{places}f}"
