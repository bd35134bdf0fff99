"""The check table in words and numbers: the same on the page and in the terminal."""

import math
from collections import Counter
from collections.abc import Sequence

from app.show.numbers import difference, number
from app.units.conversion import plain
from app.units.systems import METRIC, System
from model.check_table import REFERENCE
from model.comparison import Comparison, Thrower

NOT_IN_THE_MODEL = (
    "The forearm does not turn about its length, the wrist does not bend sideways, the shoulder blade does not move.",
    "The shoulder stays where it is in the trunk, and the trunk turns about one point between the hips.",
    "The ball is a point in the hand until the fingers open.",
    "Muscles, ligaments and bone are not told apart: the torque is shared among them, and how is not known here.",
    "One way of throwing for all: a throw made otherwise, such as side-arm or with a long arc, is not this one.",
)

STATUS = {"found": "found", "memory": "recalled", "derived": "derived"}


def value_words(value: float) -> str:
    """Write a computed number with some three digits; nothing for none."""
    if math.isnan(value):
        return ""
    size = abs(value)
    return number(value, 0 if size >= 100.0 else 1 if size >= 10.0 else 2)


def printed_number(value: float) -> str:
    """Write a number in print, with the digits it has there."""
    return number(value, 0) if abs(value) >= 1000.0 else plain(value).replace("-", "\u2212")


def printed_words(row: Comparison) -> str:
    """Write what is in print: value and spread, a range, or a direction."""
    if row.is_direction:
        end, below = (row.high, True) if math.isinf(row.low) else (row.low, False)
        if end == 0.0:
            return "falls" if below else "rises"
        return f"{'below' if below else 'above'} {printed_number(end)}"
    if math.isfinite(row.spread):
        return f"{printed_number(row.printed)} ± {printed_number(row.spread)}"
    if math.isfinite(row.low):
        return f"{printed_number(row.low)} to {printed_number(row.high)}"
    return printed_number(row.printed)


def distance_words(row: Comparison) -> str:
    """Write how far what a laboratory would see lies from print: in its spread, or per cent; nothing beside a range."""
    if math.isfinite(row.spread):
        return f"{difference(row.distance_sd, 1)} SD"
    ranged = math.isfinite(row.low) or math.isfinite(row.high)
    return "" if ranged else f"{difference(100.0 * (row.seen / row.printed - 1.0), 0)} %"


def standing_words(row: Comparison) -> str:
    """Say whether it agrees, and by which measure."""
    if row.agrees is None:
        return row.standing
    return f"{'agrees' if row.agrees else 'does not agree'}: {_measure_words(row)}"


def _measure_words(row: Comparison) -> str:
    if row.standing in ("inside", "outside"):
        where = "the printed direction" if row.is_direction else "the printed range"
        return f"{'in' if row.standing == 'inside' else 'not in'} {where}"
    if row.standing in ("near", "far"):
        return f"{'within' if row.standing == 'near' else 'more than'} a quarter off"
    return row.standing


def what_words(row: Comparison, system: System = METRIC) -> str:
    """Name what is compared; of two balls also their masses."""
    if row.group != "balls":
        return row.what
    heavy, light = (system.number(ball.mass_kg, "g", most=0) for _, ball, _ in row.throws)
    return f"{row.what}, {heavy} against {light} {system.unit('g')}"


def people_words(row: Comparison) -> str:
    """Say who was measured in print, and how many."""
    many = row.source.n
    return row.source.population + (f", n = {many}" if many else "")


def thrower_words(row: Comparison, system: System = METRIC) -> str:
    """Say whose throw was computed, and what of it was taken; the reference throw by its name, as many rows have it."""
    if row.throws == (REFERENCE,):
        return row.note
    return f"{_throw_words(row.throws, system)}; {row.note}"


def reference_words(system: System = METRIC) -> str:
    """Say what the reference throw is."""
    return f"The reference throw: {_throw_words((REFERENCE,), system)}."


def _throw_words(throws: Sequence[Thrower], system: System) -> str:
    person = throws[0][0]
    who = f"{person.sex}, {plain(person.age_years, most=1)} years, {system.height(person.stature_m)}"
    thrown = " against ".join(_thrown(throw, system) for throw in throws)
    return f"{who}, {system.text(person.body_mass_kg, 'kg', most=1)}; {thrown}"


def _thrown(throw: Thrower, system: System) -> str:
    _, ball, speed_m_s = throw
    return f"{system.text(ball.mass_kg, 'g', most=0)} at {system.text(speed_m_s, 'm/s', most=1)}"


def source_words(row: Comparison) -> str:
    """Name the source, and how it was seen."""
    return f"{row.source_in_short}, {STATUS[row.status]}"


def cut_off_words(row: Comparison) -> str:
    """Say at which cut-off the laboratory's view was made, and how that is known."""
    how = "recalled" if row.cut_off_known else "usual"
    return f"{row.cut_off_hz:g} Hz, {how}"


def no_proof_words(row: Comparison) -> str:
    """Say why an agreement proves nothing; nothing where it does not."""
    if row.calibrated:
        return "tuned to published values, so no proof"
    return "the band was made with it, so no proof" if row.in_band else ""


def spread_words(rows: Sequence[Comparison]) -> str:
    """Say how those with a printed spread stand: within one, within two, beyond."""
    counted = Counter(row.standing for row in rows)
    near, middle, far = (counted[name] for name in ("within 1 SD", "within 2 SD", "beyond 2 SD"))
    return (
        f"Of {near + middle + far} values printed with a spread, {near} lie within 1 SD of print, {middle} between 1 "
        f"and 2 SD, and {far} beyond."
    )


def agreement_words(rows: Sequence[Comparison]) -> str:
    """Say how many of all agree, and how many of those that prove something."""
    free = [row for row in rows if not (row.calibrated or row.in_band)]
    return (
        f"Of all {len(rows)}, {_agreeing(rows)}. Of the {len(free)} that nothing was tuned to, so that agreement says "
        f"something, {_agreeing(free)}."
    )


def _agreeing(rows: Sequence[Comparison]) -> str:
    counted = Counter(row.agrees for row in rows)
    untested = f"; {counted[None]} cannot be tested" if counted[None] else ""
    return f"{counted[True]} agree and {counted[False]} do not{untested}"
