"""The map as a figure: a plain dict, as Plotly takes it. The plot bundle has no contours: lines and fills do."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.pages.map.answers import Contour, MapAnswer
from app.pages.map.marks import map_labels, mark_traces, profile_traces
from app.show.axes import BLANK, WIDTH_PX, over_mass
from app.show.ball_words import value_words
from app.show.checked_range import CHECKED_BALL_KG, CHECKED_SPEED_M_S
from app.show.numbers import percent
from app.show.palette import Theme
from app.show.plane import trace, with_ink
from app.show.window import Window
from app.units.conversion import from_si

Array = NDArray[np.float64]

PAPER_PX = (690.0, 310.0)
DARKEST = 0.2  # how much ink the darkest part of the field holds
GRADE_STEPS = 10  # lines at which the field is as dark as it gets


def map_figure(answer: MapAnswer, theme: Theme, width: float | None = WIDTH_PX) -> dict[str, Any]:
    """Draw the map for a screen of this width (px), or for paper where it is None; without a map nothing."""
    window, case = answer.window, answer.case
    if window is None or answer.hundred is None:
        return BLANK if width is not None else {}
    balls, log = (case.own_ball, *case.rack), answer.asked.log
    layout, plane, narrow = over_mass(window, balls, theme, case.system, width=width, paper_px=PAPER_PX, log=log)
    layout["shapes"] += _checked_marks(window) + _spot_marks(answer)
    layout["annotations"] = map_labels(answer, plane, theme, narrow)
    data = [
        *_field(answer, theme),
        *_lines(answer, theme),
        *profile_traces(answer, theme),
        *mark_traces(answer, theme, narrow),
    ]
    return {"data": data if width is None else data + _under_pointer(answer), "layout": layout}


def _checked_marks(window: Window) -> list[dict[str, Any]]:
    """Where the map leaves what the calculation was checked for."""
    line = {"type": "line", "layer": "below", "line": {"dash": "dot"}}
    upright, across = line | {"yref": "paper", "y0": 0, "y1": 1}, line | {"xref": "paper", "x0": 0, "x1": 1}
    masses = [from_si(m, "g") for m in CHECKED_BALL_KG if window.mass_low_kg < m < window.mass_high_kg]
    speeds = [v for v in CHECKED_SPEED_M_S if window.speed_low_m_s < v < window.speed_high_m_s]
    return [*(upright | {"x0": m, "x1": m} for m in masses), *(across | {"y0": v, "y1": v} for v in speeds)]


def _spot_marks(answer: MapAnswer) -> list[dict[str, Any]]:
    """From the throw that is looked at to both axes."""
    looked, window = answer.looked, answer.window
    if looked is None or window is None:
        return []
    mass, speed = from_si(looked.throw.ball.mass_kg, "g"), looked.throw.speed_m_s
    line = {"type": "line", "line": {"width": 1}}
    low_g = from_si(window.mass_low_kg, "g")
    return [
        line | {"x0": mass, "x1": mass, "y0": window.speed_low_m_s, "y1": speed},
        line | {"x0": low_g, "x1": mass, "y0": speed, "y1": speed},
    ]


def _field(answer: MapAnswer, theme: Theme) -> list[dict[str, Any]]:
    """Shade the map from line to line, the more ink the higher the value."""
    window, grid = answer.window, answer.grid
    if window is None or grid is None or not answer.contours:
        return []
    low, high = window.speed_low_m_s, window.speed_high_m_s
    lines = [_filled_in(contour, answer) for contour in answer.contours]
    falls = float(np.nanmean(lines[-1] - lines[0])) < 0.0  # of time loaded, the higher line is the slower throw
    if falls:
        lines.reverse()
    edges = [np.full(answer.mass_kg.size, low), *lines, np.full(answer.mass_kg.size, high)]
    bands = len(edges) - 1
    traces = []
    for i, edge in enumerate(edges):
        more: dict[str, Any] = {"line": {"width": 0, "shape": "spline"}}
        if i:
            rank = bands - i if falls else i - 1
            ink = DARKEST * rank / max(bands - 1, GRADE_STEPS)
            more |= {"fill": "tonexty", "fillcolor": with_ink(theme.ink, ink)}
        traces.append(trace(answer.mass_kg, np.clip(edge, low, high), **more))
    return traces


def _filled_in(contour: Contour, answer: MapAnswer) -> Array:
    """A line without gaps: where no accepted speed reaches the value, it is off the map, above or below."""
    speed, grid, window = contour.speed_m_s, answer.grid, answer.window
    if grid is None or window is None:
        return speed
    beyond = np.interp(answer.mass_kg, grid.mass_kg, np.nan_to_num(grid.value[:, -1]))
    before = np.interp(answer.mass_kg, grid.mass_kg, np.nan_to_num(grid.value[:, 0]))
    rises = beyond >= before
    above = np.where(rises, beyond < contour.value, beyond > contour.value)
    return np.where(np.isfinite(speed), speed, np.where(above, window.speed_high_m_s, window.speed_low_m_s))


def _lines(answer: MapAnswer, theme: Theme) -> list[dict[str, Any]]:
    thin = {"color": theme.edge, "width": theme.line_scale, "shape": "spline"}
    level = {"color": theme.accent, "width": 3.5 * theme.line_scale, "shape": "spline"}
    ordered = sorted(answer.contours, key=lambda contour: contour.percent == 100)
    return [
        trace(
            answer.mass_kg,
            contour.speed_m_s,
            name=f"{contour.percent} %",
            line=level if contour.percent == 100 else thin,
        )
        for contour in ordered
    ]


def _under_pointer(answer: MapAnswer) -> list[dict[str, Any]]:
    """Unseen points all over the map that tell its value under the pointer."""
    grid, hundred = answer.grid, answer.hundred
    if grid is None or hundred is None:
        return []
    system = answer.case.system
    mass, speed = np.repeat(grid.mass_kg, grid.speed_m_s.size), np.tile(grid.speed_m_s, grid.mass_kg.size)
    told = [
        f"{system.text(m, 'g', most=0)} at {system.text(v, 'm/s', least=1, most=1)}<br>{_said(value, answer)}"
        for m, v, value in zip(mass.tolist(), speed.tolist(), grid.value.ravel(), strict=True)
    ]
    return [
        trace(
            mass,
            speed,
            mode="markers",
            name="",
            marker={"opacity": 0, "size": 4},
            hoverinfo="text",
            hovertext=told,
        )
    ]


def _said(value: float, answer: MapAnswer) -> str:
    if not np.isfinite(value):
        return "not defined"
    kind = answer.hundred.kind if answer.hundred else ""
    return f"{percent(value / answer.value)} of {kind}, {value_words(value, answer.quantity.unit)}"
