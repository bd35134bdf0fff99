"""The exponent strip of the page: the line of p, and what it says of the athlete in words."""

import math
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.athlete.prior import side_by_side
from app.show.cautions import path_note
from app.show.certainty_words import tenths
from app.show.strip import laid_out, likeliest, line_picture, zone_rows
from app.show.subject import Case, Fitted, mean_speeds
from model.checks import InputError
from model.quantity import Quantity, quantity_at
from model.throw import path_loads
from model.zones import BRAKING, Standing

SETTLED = 0.9  # a zone with less than this is called most likely only
HEAVIER = "with a heavier ball"
BRAKING_READING = "horizontal_abduction"


def section(case: Case) -> list[Component]:
    """Make the strip with its words."""
    profile = case.profile
    if profile is None:
        return [html.P("No strip until the measures above are complete.", className="invitation")]
    strip, points, stands = laid_out(case, profile)
    parts: list[Component] = [html.P(_sentence(case, stands), className="sentence", role="status")]
    note = path_note(case.person)
    if note:
        parts.append(html.P(note, className="at-number"))
    parts.append(line_picture(strip, case, stands, points))
    if stands is not None:
        parts.append(zone_rows(strip, stands, None if profile.exponent_is_prior else likeliest(stands)))
    parts.append(_braking(case))
    if profile.exponent_is_prior:
        parts += side_by_side(case)
    return parts


def _sentence(case: Case, stands: Standing | None) -> list[Any]:
    profile = case.profile
    if profile is None:
        return []
    who = case.code or "This athlete"
    p = profile.exponent()
    if profile.exponent_is_prior:
        told = "no readings" if not profile.points or profile.own_speed_is_given else "readings with one ball only"
        return [
            f"{who}, {told}: whether a heavier ball lowers or raises the peak ",
            html.Strong("is not known"),
            ".",
        ]
    lead = f"{who} slows down with p\u202f=\u202f{p.estimate:.2f} "
    interval = html.Span(f"({100 * p.level:.0f} % {p.low:.2f} to {p.high:.2f})", className="kind")
    if stands is None:
        return [lead, interval, "."]
    best = likeliest(stands)
    chance = tenths(best.probability)
    if best.probability < SETTLED:
        return [lead, interval, f". Not settled; most likely ({chance}) ", *_says(best.sentence), "."]
    return [lead, interval, ": ", *_says(best.sentence), f", with {chance}."]


def _says(sentence: str) -> list[Any]:
    return ["" if HEAVIER in sentence else f"{HEAVIER} ", html.Strong(sentence)]


def _braking(case: Case) -> Component:
    """After release there is no ball: its own line, on which only the clock counts."""
    throw, profile = case.throw, case.profile
    number = ""
    if throw is not None and profile is not None:
        heavy = case.rack[-1]
        if heavy.mass_kg > case.own_ball.mass_kg:
            speed = float(mean_speeds(Fitted(profile), tuple(ball.mass_kg for ball in case.rack)).estimate[-1])
            loads = path_loads(throw.person, throw.ball.diameter_m)
            quantity = Quantity(BRAKING_READING, "peak")
            try:
                own, other = quantity_at(
                    loads, quantity, [case.own_ball.mass_kg, heavy.mass_kg], [throw.speed_m_s, speed]
                ).tolist()
            except InputError:
                own = other = math.nan
            if math.isfinite(own) and own > 0.0 and math.isfinite(other):
                number = (
                    f" With the {case.mass(heavy.mass_kg)} ball at {case.speed(speed)} {case.speed_unit} the "
                    f"horizontal-abduction torque that brakes the arm is {100.0 * other / own:.0f} % of the own ball’s."
                )
    line = html.Div(html.Span("level at 0", className="b-zero"), className="b-line", **{"aria-hidden": "true"})
    words = f"Braking is another matter: {BRAKING}.{number}"
    return html.Div([line, html.P(words)], className="braking")
