"""The throws of an athlete's newest comparison, and a throw found on another page put at their end."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.records.acts import Act, Add, Put
from app.records.reads import AthleteData
from app.records.tables import Comparison, new_uid
from app.records.tables import Throw as ThrowRow
from app.show.listed_throw import MOST_THROWS, listed
from app.show.subject import Case
from app.show.window import Spot
from app.units.typed import NUMBER
from model.ball import Ball
from model.speed_readings import SAME_BALL_KG

SAME_SPEED_M_S = 0.005


@dataclass(frozen=True)
class Added:
    """What puts a throw into the comparison, and what is said about it; no acts where nothing is added."""

    acts: tuple[Act, ...]
    notice: str


def newest(data: AthleteData) -> Comparison | None:
    """The comparison that was made last."""
    return data.comparisons[-1] if data.comparisons else None


def thrown(data: AthleteData, case: Case) -> tuple[tuple[int, Ball, float], ...]:
    """The athlete's own throws in the newest comparison: number in its list, ball, release speed (m/s)."""
    comparison = newest(data)
    rows = data.throws_of(comparison) if comparison else ()
    made = []
    for number, row in enumerate(rows, start=1):
        if row.thrower_id is not None:
            continue
        line = listed(row, case.person, case.profile if row.hold == "profile" else None)
        if line.ball is not None and line.speed_m_s is not None:
            made.append((number, line.ball, line.speed_m_s))
    return tuple(made)


def to_compare(data: AthleteData, spot: Spot, case: Case, diameter_m: float | None = None) -> Added:
    """Put a throw at the end of the newest comparison, or into a new one.

    Parameters
    ----------
    data : AthleteData
    spot : Spot
    case : Case
        Who throws, and the own ball.
    diameter_m : float, optional
        Of the ball (m); the own ball's unless given, for the map's balls are of that.

    Returns
    -------
    Added
    """
    if spot.mass_kg is None or spot.speed_m_s is None:
        return Added((), "Nothing added: a ball mass and a speed are needed.")
    ball = Ball(spot.mass_kg, case.own_ball.diameter_m if diameter_m is None else diameter_m)
    name = f"{case.mass(spot.mass_kg)} at {case.system.text(spot.speed_m_s, 'm/s', least=1)}"
    for number, other, speed in thrown(data, case):
        if _same(ball, other) and abs(speed - spot.speed_m_s) < SAME_SPEED_M_S:
            return Added((), f"{name} is already in Compare: throw {number}.")
    comparison = newest(data)
    rows = data.throws_of(comparison) if comparison else ()
    blank = next((row for row in rows if _is_blank(row) and comparison and row.uid != comparison.reference), None)
    if blank is None and len(rows) >= MOST_THROWS:
        return Added((), f"Not added: Compare is full, {MOST_THROWS} throws. Remove one there to add another.")
    values = {"mass_kg": ball.mass_kg, "diameter_m": ball.diameter_m, "number": spot.speed_m_s}
    if blank is not None:
        acts: tuple[Act, ...] = tuple(Put("throw", column, value, blank.uid) for column, value in values.items())
        place = rows.index(blank) + 1
    elif comparison is not None:
        acts, place = (_add(comparison.uid, values, spot),), len(rows) + 1
    else:
        acts = _new_comparison(data, case, values, spot)
        place = len(acts) - 1
    return Added(acts, f"Added to Compare: {name}, throw {place} of at most {MOST_THROWS}.")


def _new_comparison(data: AthleteData, case: Case, values: Mapping[str, float], spot: Spot) -> tuple[Act, ...]:
    """A comparison that begins with the reference throw, where its speed is known, and the throw that is added."""
    comparison, reference = new_uid(), new_uid()
    known, own = data.reference, case.own_ball
    made: dict[str, Any] = {"reference": reference} | ({"kind": known.kind, "day": known.day} if known else {})
    first = Add("comparison", values=made, uid=comparison)
    if case.reference.speed_m_s is None:
        return first, _add(comparison, values, spot, reference)
    base = {"mass_kg": own.mass_kg, "diameter_m": own.diameter_m, "number": case.reference.speed_m_s}
    return first, _add(comparison, base, Spot(), reference), _add(comparison, values, spot)


def _add(comparison: str, values: Mapping[str, float], spot: Spot, uid: str = "") -> Add:
    """A new throw; what was typed with its unit stays as it was typed."""
    typed = {"mass_kg": spot.mass_typed, "number": spot.speed_typed}
    texts = {name: text for name, text in typed.items() if text and not NUMBER.fullmatch(text)}
    rest = {name: value for name, value in values.items() if name not in texts}
    return Add("throw", texts, {"comparison": comparison} | rest, uid)


def _is_blank(row: ThrowRow) -> bool:
    return row.mass_kg is None and row.number is None and not row.draft and row.hold == "speed"


def _same(ball: Ball, other: Ball) -> bool:
    return abs(ball.mass_kg - other.mass_kg) < SAME_BALL_KG and ball.diameter_m == other.diameter_m
