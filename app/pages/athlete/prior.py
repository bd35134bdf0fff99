"""Before there are readings: the same-speed answer and that of the published range, side by side."""

import math

from dash import html
from dash.development.base_component import Component

from app.show.glossary import explained
from app.show.numbers import number
from app.show.subject import Case, shown_ball
from model.checks import InputError
from model.quantity import READOUTS, Quantity, quantity_at
from model.throw import path_loads


def side_by_side(case: Case) -> list[Component]:
    """Show what a heavier ball does at the same speed, and what it does if the athlete slows as published ones did.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Component
    """
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
        rows.append(
            html.Tr(
                [
                    html.Th(explained(readout.label), scope="row"),
                    html.Td(_change(same)),
                    html.Td([_change(change), html.Span(f" ({_change(least)} to {_change(most)})", className="kind")]),
                ]
            )
        )
    name = case.mass(ball.mass_kg)
    own_name = case.mass(throw.ball.mass_kg)
    caption = (
        f"{name} against the own ball, {own_name}, both at full effort: two answers, and readings decide between them. "
        f"In brackets {100 * speeds.level:.0f} % of the published range."
    )
    middle, low, high = (case.speed(speed) for speed in (speeds.estimate, speeds.low, speeds.high))
    head = html.Tr(
        [
            html.Th("", scope="col"),
            html.Th(
                ["If the speed stays", html.Span(f"{case.speed(throw.speed_m_s)} {case.speed_unit}", className="unit")],
                scope="col",
            ),
            html.Th(
                [
                    "If this athlete slows as published ones did",
                    html.Span(f"{middle} ({low} to {high}) {case.speed_unit}", className="unit"),
                ],
                scope="col",
            ),
        ]
    )
    return [
        html.Table([html.Caption(caption), html.Thead(head), html.Tbody(rows)], className="plain-table two-answers")
    ]


def _change(percent: float) -> str:
    if not math.isfinite(percent):
        return "not defined"
    rounded = round(percent)
    return "0 %" if rounded == 0 else f"{'+' if rounded > 0 else ''}{number(rounded, 0)} %"
