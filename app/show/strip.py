"""The line of the exponent p: level points, the exponent of the athlete and the four zones on it."""

import math
from dataclasses import dataclass

import numpy as np
from dash import html
from dash.development.base_component import Component

from app.show.certainty_words import tenths
from app.show.glossary import explained
from app.show.levels import points_for
from app.show.numbers import capital
from app.show.subject import JOINTS, Case
from model.checks import InputError
from model.interval import Interval
from model.speed import SpeedProfile
from model.zones import LevelPoints, Standing, Zone, standing

NAMES = {"rise_rate": "rise rate", "peak": "peak", "area": "area"}
DENSITY_STEPS = 120
LEAST_END, MOST_END = 1.3, 2.2  # of the line of p
TICK = 0.25
NARROWEST = 0.06  # of the line: a last zone narrower than this has its words below the others


@dataclass(frozen=True)
class Strip:
    """What is laid on the line of p.

    Attributes
    ----------
    end : float
        Where the line ends; it begins at 0.
    spans : dict of str to (float, float)
        Level points over the balls of the rack, by readout; those that are on the line.
    exponent : Interval
    density : tuple of (float, float)
        Exponents and the posterior density there, the highest 1.
    """

    end: float
    spans: dict[str, tuple[float, float]]
    exponent: Interval
    density: tuple[tuple[float, float], ...]

    def percent(self, p: float) -> float:
        """Place of an exponent in per cent of the line."""
        return round(100.0 * min(max(p, 0.0), self.end) / self.end, 3)


def strip_of(profile: SpeedProfile, points: LevelPoints | None) -> Strip:
    """Lay a profile and its level points over the rack on the line."""
    spans = {} if points is None else {name: points.span(name) for name in NAMES}
    spans = {name: span for name, span in spans.items() if math.isfinite(span[0])}
    exponent = profile.exponent()
    borders = points.borders if points is not None else None
    reach = [LEAST_END, 1.05 * exponent.high, *(1.2 * border for border in borders or () if math.isfinite(border))]
    end = min(MOST_END, max(reach))
    edges = np.linspace(profile.posterior.p[0], min(end, profile.posterior.p[-1]), DENSITY_STEPS + 1)
    density = np.diff(profile.probability_below(edges))
    middles = 0.5 * (edges[1:] + edges[:-1])
    shape = zip(middles.tolist(), (density / density.max()).tolist(), strict=True)
    return Strip(end, spans, exponent, tuple(shape))


def picture_alone(case: Case) -> list[Component]:
    """Make the strip and its zones without words around them; nothing without a profile."""
    profile = case.profile
    if profile is None:
        return []
    strip, points, stands = laid_out(case, profile)
    here = None if stands is None or profile.exponent_is_prior else likeliest(stands)
    zones = [] if stands is None else [zone_rows(strip, stands, here)]
    return [line_picture(strip, case, stands, points), *zones]


def laid_out(case: Case, profile: SpeedProfile) -> tuple[Strip, LevelPoints | None, Standing | None]:
    """The strip, its level points, and how probable each zone is; None for what is not known."""
    points = points_for(case, case.choices.joint)
    stands = None
    if points is not None:
        try:
            stands = standing(profile, points)
        except InputError:
            stands = None
    return strip_of(profile, points), points, stands


def likeliest(stands: Standing) -> Zone:
    """The zone with the highest probability."""
    return max(stands.zones, key=lambda zone: zone.probability)


def _span_words(span: tuple[float, float]) -> str:
    low, high = span
    if not math.isfinite(high):
        return f"{low:.2f} and up"
    return f"{low:.2f}" if f"{low:.2f}" == f"{high:.2f}" else f"{low:.2f}–{high:.2f}"


def line_picture(strip: Strip, case: Case, stands: Standing | None, points: LevelPoints | None) -> Component:
    """The line with its bands, the density of the exponent and its ticks."""
    p = strip.exponent
    profile = case.profile
    prior = profile is not None and profile.exponent_is_prior
    look = " prior" if prior else ""
    parts: list[Component] = []
    for name, span in strip.spans.items():
        wide = html.Span(" level", className="wide-only")
        label = html.Span([html.B(NAMES[name]), wide, html.Br(), _span_words(span)], className="p-name")
        parts.append(html.Div(label, className="p-level", style=_place(strip, *span)))
    parts += [
        html.Div(className=f"p-density{look}", style=_outline(strip)),
        html.Div(className=f"p-interval{look}", style=_place(strip, p.low, p.high)),
        html.Div(className=f"p-middle{look}", style={"left": f"{strip.percent(p.estimate)}%"}),
    ]
    count = int(strip.end / TICK + 1e-9)
    ticks = [
        html.Span(f"{TICK * i:g}", className="p-tick", style={"left": f"{strip.percent(TICK * i)}%"})
        for i in range(count + 1)
    ]
    picture = html.Div(parts, className="p-line", role="img", **{"aria-label": _heard(strip, case, stands)})
    axis = html.Div(ticks, className="p-axis", **{"aria-hidden": "true"})
    ends = html.P(
        [
            html.Span("← slows down little with a heavier ball"),
            html.Span(explained("exponent p")),
            html.Span("slows down much →"),
        ],
        className="p-ends",
    )
    what = (
        "the published range (no readings)"
        if prior
        else f"this athlete’s p: bar {100 * p.level:.0f} %, shape all of it"
    )
    masses = "" if points is None else _rack_words(points, case)
    caption = html.Figcaption(
        f"{capital(JOINTS[case.choices.joint])}. Upright bands: where a readout stays level{masses}."
        f" On the line: {what}."
    )
    return html.Figure([picture, axis, ends, caption], className="p-strip")


def _place(strip: Strip, low: float, high: float) -> dict[str, str]:
    """Where a stretch of the line stands."""
    left = strip.percent(low)
    return {"left": f"{left}%", "width": f"{round(strip.percent(high) - left, 3)}%"}


def _rack_words(points: LevelPoints, case: Case) -> str:
    low, high = (case.mass(float(m)) for m in (points.mass_kg.min(), points.mass_kg.max()))
    return f" for the balls from {low} to {high}, a little different for each" if low != high else f" at {low}"


def _outline(strip: Strip) -> dict[str, str]:
    """The posterior's shape, cut out of a plain area."""
    first, last = (strip.percent(strip.density[i][0]) for i in (0, -1))
    top = [f"{strip.percent(p):.2f}% {100.0 * (1.0 - y):.1f}%" for p, y in strip.density]
    return {"clipPath": f"polygon({first:.2f}% 100%, {', '.join(top)}, {last:.2f}% 100%)"}


def _heard(strip: Strip, case: Case, stands: Standing | None) -> str:
    p = strip.exponent
    levels = "; ".join(f"{NAMES[name]} level at {_span_words(span)}" for name, span in strip.spans.items())
    zones = (
        ""
        if stands is None
        else " " + "; ".join(f"{zone.sentence}: {tenths(zone.probability)}" for zone in stands.zones)
    )
    return (
        f"Line of the exponent p from 0 to {strip.end:.1f}. {levels or 'No level points yet'}. "
        f"{case.code or 'This athlete'}: p {p.estimate:.2f}, {100 * p.level:.0f} % from {p.low:.2f} to {p.high:.2f}."
        f"{zones}"
    )


def zone_rows(strip: Strip, stands: Standing, here: Zone | None) -> Component:
    """The four zones below the line; `here` is the one that is pointed out."""
    cells = []
    widths = []
    for zone in stands.zones:
        low, high = min(zone.low, strip.end), min(zone.high, strip.end)
        nothing = not math.isfinite(zone.low)
        ends = (
            "no exponent gets there: the ball’s weight alone, held longer, adds area"
            if nothing
            else _ends(zone.low, zone.high)
        )
        cells.append(
            html.Li(
                [
                    html.Span(tenths(zone.probability), className="zone-chance"),
                    html.Span(capital(zone.sentence), className="zone-words"),
                    html.Span(ends, className="zone-ends"),
                ],
                className="zone" + (" here" if zone is here else ""),
            )
        )
        widths.append(max(high - low, 0.0))
    columns = " ".join(f"minmax(0, {width:.4f}fr)" for width in widths)
    return html.Ol(
        cells,
        className="zones" + ("" if widths[-1] > NARROWEST * strip.end else " no-last"),
        style={"--zones": columns},
        **{"aria-label": "With a heavier ball, by zone of p"},
    )


def _ends(low: float, high: float) -> str:
    if low == 0.0:
        return f"p below {high:.2f}"
    return f"p above {low:.2f}" if not math.isfinite(high) else f"p {low:.2f} to {high:.2f}"
