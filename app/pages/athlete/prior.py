"""Before there are readings: the same-speed answer and that of the published range, side by side."""

import math

from dash import html
from dash.development.base_component import Component

from app.show.glossary import explained
from app.show.numbers import difference
from app.show.plain_table import plain_table, with_unit
from app.show.subject import Case, shown_ball
from model.checks import InputError
from model.quantity import READOUTS, Quantity, quantity_at
from model.throw import path_loads


def side_by_side(case: Case) -> list[Component]:
    """Show what a heavier ball does at the same speed, and what it does if the athlete slows as published ones did."""
    profile, throw = case.profile, case.throw
    if profile is None:
        return []
    if throw is None:
        return [
            html.P(
                "Two throws settle most of it: a full-effort speed with the own ball, then some with a heavier one.",
                className="invitation",
            )
        ]
    ball = shown_ball(case)
    loads = path_loads(throw.person, throw.ball.diameter_m)
    speeds = profile.mean_speed(ball.mass_kg)
    rows = []
    for key, readout in READOUTS.items():
        quantity = Quantity(case.choices.joint, key)
        try:
            own = float(quantity_at(loads, quantity, throw.ball.mass_kg, throw.speed_m_s))
            same, change, least, most = (
                100.0 * (float(quantity_at(loads, quantity, ball.mass_kg, speed)) / own - 1.0)
                for speed in (throw.speed_m_s, speeds.estimate, speeds.low, speeds.high)
            )
        except InputError:
            continue
        least, most = min(least, most), max(least, most)
        between = html.Span(f" ({_change(least)} to {_change(most)})", className="kind")
        rows.append((explained(readout.label), _change(same), [_change(change), between]))
    name = case.mass(ball.mass_kg)
    own_name = case.mass(throw.ball.mass_kg)
    caption = (
        f"{name} against the own ball, {own_name}, both at full effort: two answers, and readings decide between them. "
        f"In brackets {100 * speeds.level:.0f} % of the published range."
    )
    middle, low, high = (case.speed(speed) for speed in (speeds.estimate, speeds.low, speeds.high))
    unit = case.speed_unit
    heads = (
        "",
        with_unit("If the speed stays", f"{case.speed(throw.speed_m_s)} {unit}"),
        with_unit("If this athlete slows as published ones did", f"{middle} ({low} to {high}) {unit}"),
    )
    return [plain_table(caption, heads, rows, "two-answers")]


def _change(percent: float) -> str:
    return f"{difference(percent, 0)} %" if math.isfinite(percent) else "not defined"
