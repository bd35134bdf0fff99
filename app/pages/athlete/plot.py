"""The plot: radar readings against ball mass, the fitted law with its interval, and the level lines of the own ball.

Both axes are plain. The law is a straight line in ln(m + mu), and since the arm outweighs the balls it is nearly
straight in m itself: people read grams, and nothing is won by a logarithm.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import PchipInterpolator

from app.pages.athlete.drawing import LINE, MARKERS, band, layout_of, rounded, scale_of, unit_above
from app.show.label_column import spread
from app.show.levels import BEYOND, line_ends, points_for
from app.show.palette import Theme, figure_px, line_color
from app.show.subject import Case, Fitted, mean_speeds
from app.units.conversion import array_from_si
from app.units.systems import METRIC, System
from model.interval import Interval
from model.speed import speed_ratio
from model.zones import LevelPoints

Array = NDArray[np.float64]

LEVELS = {"rise_rate": "rise rate level", "peak": "peak level", "area": "area level"}
SHORT = {"rise_rate": "rise", "peak": "peak", "area": "area"}
LINE_POINTS = 21
LETTER = 0.56  # mean width of a letter, in sizes of the type
LINE_HEIGHT = 1.4  # of a label, in sizes of the type
HEIGHT_PX, NARROW_HEIGHT_PX, PAPER_PX = 430, 360, (690, 300)


@dataclass(frozen=True)
class Dot:
    """A reading: ball mass (kg), release speed (m/s), whether it is fitted, and its words under the cursor."""

    mass_kg: float
    speed_m_s: float
    fitted: bool
    words: str


@dataclass(frozen=True)
class Shown:
    """What the plot shows.

    Attributes
    ----------
    name : str
        Label of the fitted line.
    mass_kg : ndarray (N,)
        Abscissa of the lines (kg).
    fit : Interval or None
        Mean full speed along it (m/s).
    levels : dict of str to ndarray (N,)
        Level lines by readout (m/s); NaN where there is none.
    dots : tuple of Dot
    wild : tuple of int
        Places in `dots` that are flagged.
    older : tuple of (float, float)
        Ball mass (kg) and release speed (m/s) of full-effort readings from before the days that count.
    is_prior : bool
        Whether the fitted line rests on the published range.
    system : System
        The units of the axes.
    """

    name: str
    mass_kg: Array
    fit: Interval | None
    levels: dict[str, Array]
    dots: tuple[Dot, ...]
    wild: tuple[int, ...]
    older: tuple[tuple[float, float], ...]
    is_prior: bool
    system: System = METRIC

    def mass(self, mass_kg: ArrayLike) -> Array:
        """Ball masses (kg) as they are drawn."""
        return array_from_si(mass_kg, self.system.unit("g"))

    def speed(self, speed_m_s: ArrayLike) -> Array:
        """Speeds (m/s) as they are drawn."""
        return array_from_si(speed_m_s, self.system.unit("m/s"))


def shown_of(case: Case, wild: Sequence[int], older: Sequence[tuple[float, float]] = ()) -> Shown:
    """Work out what the plot shows.

    Parameters
    ----------
    case : Case
    wild : sequence of int
        Places of the flagged readings in `case.found.used`.
    older : sequence of (float, float)
        Ball mass (kg) and release speed (m/s) of readings that no longer count.

    Returns
    -------
    Shown
    """
    masses = np.linspace(*line_ends(case.rack), LINE_POINTS)
    profile, speed = case.profile, case.full_speed_m_s
    dots = tuple(
        Dot(one.ball_mass_kg, one.speed_m_s, one.asked_effort == 1.0, _words(case, one.speed_m_s, one.asked_effort))
        for one in case.found.used
    )
    if profile is None or speed is None:
        return Shown("", masses, None, {}, dots, (), tuple(older), True, case.system)
    points = points_for(case, case.choices.joint)
    levels = {} if points is None else _level_lines(points, masses, case, speed)
    prior = profile.exponent_is_prior
    name = f"{'published range' if prior else escape(case.code) or 'this athlete'}, p {profile.exponent().estimate:.2f}"
    fit = mean_speeds(Fitted(profile), tuple(masses.tolist()))
    return Shown(name, masses, fit, levels, dots, tuple(wild), tuple(older), prior, case.system)


def _words(case: Case, speed_m_s: float, effort: float) -> str:
    asked = "" if effort == 1.0 else f", asked {100 * effort:.0f} %"
    return f"{case.speed(speed_m_s)} {case.speed_unit}{asked}"


def _level_lines(points: LevelPoints, masses: Array, case: Case, speed_m_s: float) -> dict[str, Array]:
    """Speeds along the level lines, from exponents interpolated between the balls: those change slowly."""
    profile = case.profile
    if profile is None:
        return {}
    lines = {}
    for readout in LEVELS:
        exponent = np.asarray(getattr(points, readout))
        there = np.isfinite(exponent)
        along = np.full(masses.size, np.nan)
        if there.sum() > 1:
            along = PchipInterpolator(points.mass_kg[there], exponent[there])(masses)
            along[masses > BEYOND * points.mass_kg[there][-1]] = np.nan
        lines[readout] = speed_m_s * speed_ratio(masses, case.own_ball.mass_kg, profile.mu_kg, along)
    return lines


def figure(shown: Shown, theme: Theme, narrow: bool, paper: bool = False) -> dict[str, Any]:
    """Draw the plot as a plain dict; `narrow` for a narrow window."""
    scale = scale_of(theme)
    height = PAPER_PX[1] if paper else round((NARROW_HEIGHT_PX if narrow else HEIGHT_PX) * scale)
    x = shown.mass(shown.mass_kg)
    speeds = shown.speed(_speed_range(shown)).tolist()
    size = figure_px(theme, "xs" if narrow else "s")
    margin = {"l": 44 * scale, "r": 8, "t": 22 * scale, "b": 44 * scale}
    labels = _labels(shown, narrow)
    room = max((len(text) for text, _, _ in labels), default=0) * LETTER * size + size
    width = 340.0 * scale if narrow else 900.0
    end = float(x[-1]) + (float(x[-1]) - float(x[0])) * room / max(width - room, 100.0)
    plot_px = height - margin["t"] - margin["b"]
    unit = unit_above(shown.system.unit("m/s"), theme, xanchor="right", xshift=-4)
    layout = layout_of(
        theme,
        narrow,
        PAPER_PX if paper else None,
        "plot",
        height=height,
        margin=margin,
        xaxis={
            "range": [float(x[0]), end],
            "title": {"text": f"ball mass, {shown.system.unit('g')}", "standoff": 8},
            "ticks": "outside",
            "showgrid": False,
            "nticks": 6 if narrow else 12,
        },
        yaxis={"range": speeds, "nticks": 7},
        annotations=[unit, *_end_labels(labels, float(x[-1]), speeds, plot_px, size, theme)],
    )
    return {"data": _traces(shown, x, theme, narrow), "layout": layout}


def _speed_range(shown: Shown) -> tuple[float, float]:
    values = [dot.speed_m_s for dot in shown.dots] + [speed for _, speed in shown.older]
    for line in shown.levels.values():
        values += line[np.isfinite(line)].tolist()
    if shown.fit is not None:
        values += np.asarray(shown.fit.estimate).tolist()
        if not shown.is_prior:
            values += [*np.asarray(shown.fit.low).tolist(), *np.asarray(shown.fit.high).tolist()]
    if not values:
        return 0.0, 40.0
    low, high = min(values), max(values)
    room = 0.06 * (high - low or 10.0)
    return max(0.0, low - room), high + room


def _traces(shown: Shown, x: Array, theme: Theme, narrow: bool) -> list[dict[str, Any]]:
    traces: list[dict[str, Any]] = []
    masses, unit, ball = x.tolist(), shown.system.unit("m/s"), _ball(shown.system)
    if shown.fit is not None:
        traces += band(masses, rounded(shown.speed(shown.fit.low)), rounded(shown.speed(shown.fit.high)), theme)
    lines = [(LEVELS[key], line, theme.quiet, 1.2, f"{LEVELS[key]}") for key, line in shown.levels.items()]
    if shown.fit is not None:
        lines.append((shown.name, np.asarray(shown.fit.estimate), theme.accent, 2.4, ""))
    for name, line, color, width, level in lines:
        said = f"{ball} at %{{y:.1f}} {unit}: {level}" if level else f"{ball}: %{{y:.1f}} {unit} by the fit"
        traces.append(
            LINE
            | {
                "name": name,
                "x": masses,
                "y": rounded(shown.speed(line)),
                "line": {"color": color, "width": width * theme.line_scale},
                "hovertemplate": f"{said}<extra></extra>",
            }
        )
    size = (7 if narrow else 9) * theme.line_scale
    if shown.older:
        cross = {"symbol": "x-thin", "size": size - 2 * theme.line_scale, "line": {"width": 1.5, "color": theme.edge}}
        said = f"{ball}: %{{y:.1f}} {unit}, older, does not count<extra></extra>"
        traces.append(_markers(shown, shown.older, marker=cross, hovertemplate=said))
    for fitted in (False, True):
        dots = [dot for dot in shown.dots if dot.fitted is fitted]
        marker = {"size": size, "symbol": "circle-open", "color": theme.quiet, "line": {"width": 1.5}}
        if fitted:
            colors = [line_color(dot.mass_kg, theme) for dot in dots]
            marker = {"size": size, "color": colors, "line": {"width": 1, "color": theme.paper}}
        if dots:
            said, words = f"{ball}: %{{text}}<extra></extra>", [dot.words for dot in dots]
            traces.append(_markers(shown, _places(dots), marker=marker, text=words, hovertemplate=said))
    wild = [shown.dots[i] for i in shown.wild]
    if wild:
        ring = {"size": 18 * theme.line_scale, "symbol": "circle-open", "color": theme.ink, "line": {"width": 1.5}}
        near: dict[str, Any] = {
            "mode": "markers+text",
            "text": ["wild reading"] * len(wild),
            "textposition": "middle right",
        }
        near |= {"textfont": {"size": figure_px(theme, "xs"), "color": theme.ink}, "hoverinfo": "skip"}
        traces.append(_markers(shown, _places(wild), marker=ring, **near))
    return traces


def _places(dots: Sequence[Dot]) -> list[tuple[float, float]]:
    return [(dot.mass_kg, dot.speed_m_s) for dot in dots]


def _markers(shown: Shown, places: Sequence[tuple[float, float]], **more: Any) -> dict[str, Any]:
    """Marks at ball masses (kg) and speeds (m/s)."""
    masses, speeds = zip(*places, strict=True)
    x, y = shown.mass(list(masses)).tolist(), shown.speed(list(speeds)).round(2).tolist()
    return MARKERS | {"x": x, "y": y} | more


def _ball(system: System) -> str:
    """A ball's mass under the cursor."""
    return "%{x:.0f} g" if system == METRIC else f"%{{x:.2f}} {system.unit('g')}"


def _labels(shown: Shown, narrow: bool) -> list[tuple[str, float, bool]]:
    """Text, height (in the unit drawn) and whether it is the fit's, for each line that reaches the right end."""
    names = SHORT if narrow else LEVELS
    found = [(names[readout], float(shown.speed(line)[-1]), False) for readout, line in shown.levels.items()]
    if shown.fit is not None:
        fit = float(shown.speed(shown.fit.estimate)[-1])
        found.append((shown.name.split(", ")[-1] if narrow else shown.name, fit, True))
    return [label for label in found if math.isfinite(label[1])]


def _end_labels(
    labels: Sequence[tuple[str, float, bool]],
    x: float,
    speeds: Sequence[float],
    plot_px: float,
    size: float,
    theme: Theme,
) -> list[dict[str, Any]]:
    if not labels:
        return []
    low, high = speeds

    def down(speed: float) -> float:
        return (high - speed) / (high - low) * plot_px

    wanted = [down(speed) for _, speed, _ in labels]
    places = spread(wanted, LINE_HEIGHT * size, LINE_HEIGHT * size / 2, plot_px - LINE_HEIGHT * size / 2)
    return [
        {
            "x": x,
            "xanchor": "left",
            "xshift": 6,
            "y": high - place / plot_px * (high - low),
            "yanchor": "middle",
            "text": f"<b>{text}</b>" if own else text,
            "font": {"size": size, "color": theme.accent if own else theme.quiet},
            "bgcolor": "rgba(0,0,0,0)",
            "showarrow": False,  # said again: a figure drawn over another forgets its template's defaults
        }
        for (text, _, own), place in zip(labels, places, strict=True)
    ]
