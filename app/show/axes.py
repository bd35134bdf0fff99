"""The axes of a figure over ball mass, and its sizes: of the map, and of the region of the Start page."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from app.show.palette import THEMES, Theme, figure_px, template
from app.show.plane import LETTER, Plane
from app.show.ticks import ROUND_G, ROUND_OZ, mass_ticks, speed_ticks
from app.show.window import Window
from app.units.conversion import from_si, plain, to_si
from app.units.systems import System
from model.ball import Ball

WIDTH_PX, WIDTHS_PX = 860.0, (280.0, 4000.0)  # a usual width of the figure, and those that are believed
NARROW_PX = 480.0  # below it there is room for the shortest labels only
HEIGHT_PX = {False: 560.0, True: 430.0}  # of the figure, wide and narrow

_CLEAR = "rgba(0,0,0,0)"
BLANK: dict[str, Any] = {
    "data": [],
    "layout": {
        "paper_bgcolor": _CLEAR,
        "plot_bgcolor": _CLEAR,
        "xaxis": {"visible": False},
        "yaxis": {"visible": False},
    },
}
"""Before there is a map, there is no axis to be misread."""


def width_px(told: object) -> float:
    """Read the figure's width as the browser told it; a usual one where that cannot be.

    Parameters
    ----------
    told : object

    Returns
    -------
    float
        Pixels.
    """
    if isinstance(told, bool) or not isinstance(told, int | float) or not WIDTHS_PX[0] <= told <= WIDTHS_PX[1]:
        return WIDTH_PX
    return float(told)


def over_mass(
    window: Window,
    balls: Sequence[Ball],
    theme: Theme,
    system: System,
    *,
    width: float | None,
    paper_px: tuple[float, float],
    log: bool = True,
    heights: Mapping[bool, float] = HEIGHT_PX,
) -> tuple[dict[str, Any], Plane, bool]:
    """Make the layout of a figure over ball mass.

    Parameters
    ----------
    window : Window
        The part that is drawn.
    balls : sequence of Ball
        What stands on the mass axis in bold, the most important first.
    theme : Theme
    system : System
    width : float or None
        Of the figure on a screen (px); None for paper.
    paper_px : (float, float)
        Width and height on paper.
    log : bool
        Whether the mass axis has even ratios.
    heights : mapping of bool to float
        On a screen, wide and narrow.

    Returns
    -------
    dict
    Plane
        The plotting area.
    bool
        Whether it is narrow.
    """
    narrow = width is not None and width < NARROW_PX
    scale = theme.root_px / THEMES["light"].root_px
    ends = [from_si(mass, "g") for mass in (window.mass_low_kg, window.mass_high_kg)]
    size = (paper_px[0] if width is None else width, paper_px[1] if width is None else round(heights[narrow] * scale))
    margin = {"l": 44 * scale, "r": 10, "t": 26 * scale, "b": 48 * scale}
    plane = Plane(window, log, (size[0] - margin["l"] - margin["r"], size[1] - margin["t"] - margin["b"]))
    rack_g = [from_si(ball.mass_kg, "g") for ball in balls]
    fixed = {"fixedrange": True, "showgrid": False, "ticks": "outside"}
    layout = {
        "template": template(theme),
        "height": size[1],
        "margin": margin,
        "dragmode": False,
        "hovermode": "closest",
        "font": {"size": figure_px(theme, "xs" if narrow else "s")},
        "shapes": rack_marks(rack_g, theme),
        "xaxis": {
            "type": "log" if log else "linear",
            "range": [float(np.log10(end)) for end in ends] if log else ends,
            "title": {"text": f"ball mass, {system.unit('g')}", "standoff": 8},
            **fixed,
            **mass_axis(rack_g, plane, theme, narrow, system),
        },
        "yaxis": {"range": [window.speed_low_m_s, window.speed_high_m_s], **fixed, **speed_axis(window, system)},
    }
    return layout | ({"width": size[0], "autosize": False} if width is None else {}), plane, narrow


def on_line(text: str, where: tuple[float, float], plane: Plane, theme: Theme) -> dict[str, Any]:
    """Make the label of a line; `where` is its middle on the plotting area (px)."""
    return {
        "text": text,
        "x": where[0] / plane.size[0],
        "y": 1 - where[1] / plane.size[1],
        **dict.fromkeys(("xref", "yref"), "paper"),
        "xanchor": "center",
        "yanchor": "middle",
        "showarrow": False,
        "borderpad": 1,
        "font": {"size": figure_px(theme, "xs"), "color": theme.ink},
        "bgcolor": theme.paper + "d0",
    }


def speed_axis(window: Window, system: System) -> dict[str, Any]:
    """The speed axis runs in m/s in any case, so that a click says them; its ticks are in the reader's unit."""
    if not system.converts("m/s"):
        return {"nticks": 9}
    ends = (system.value(speed, "m/s") for speed in (window.speed_low_m_s, window.speed_high_m_s))
    ticks = speed_ticks(*ends)
    places = [to_si(tick, system.unit("m/s")) for tick in ticks]
    return {"tickmode": "array", "tickvals": places, "ticktext": [plain(tick) for tick in ticks]}


def mass_axis(rack_g: list[float], plane: Plane, theme: Theme, narrow: bool, system: System) -> dict[str, Any]:
    """Make the ticks of the mass axis: the balls of the rack in bold, round masses between them.

    Parameters
    ----------
    rack_g : list of float
        Balls (g), the own one first.
    plane : Plane
    theme : Theme
    narrow : bool
    system : System

    Returns
    -------
    dict
        For Plotly's ``xaxis``.
    """
    size = figure_px(theme, "xs")
    unit, in_grams = system.unit("g"), not system.converts("g")
    room = size * LETTER * (3.0 if in_grams else 4.5) + (5.0 if narrow else 9.0)
    ends = (from_si(plane.window.mass_low_kg, unit), from_si(plane.window.mass_high_kg, unit))
    rack = rack_g if in_grams else [from_si(to_si(mass, "g"), unit) for mass in rack_g]
    steps = ROUND_G if in_grams else ROUND_OZ
    ticks = mass_ticks(rack, ends, lambda mass: float(plane.x(to_si(mass, unit))), room, steps)
    text = [f"<b>{plain(tick.mass_g)}</b>" if tick.rack else plain(tick.mass_g) for tick in ticks]
    places = [tick.mass_g if in_grams else from_si(to_si(tick.mass_g, unit), "g") for tick in ticks]
    return {"tickmode": "array", "tickvals": places, "ticktext": text}


def rack_marks(rack_g: list[float], theme: Theme) -> list[dict[str, Any]]:
    """A ball of the rack is a tick that stands into the map."""
    mark = {"type": "line", "yref": "paper", "y0": 0, "y1": 0.022, "line": {"width": 2, "color": theme.ink}}
    return [mark | {"x0": mass, "x1": mass} for mass in sorted(set(rack_g))]
