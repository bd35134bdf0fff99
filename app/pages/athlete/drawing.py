"""What the figures of the page have in common: their layout, their traces, and the figure for the printer."""

from collections.abc import Callable
from typing import Any

import numpy as np

from app.show.palette import THEMES, Theme, figure_px, template

LINE: dict[str, Any] = {"type": "scatter", "mode": "lines"}
MARKERS: dict[str, Any] = {"type": "scatter", "mode": "markers"}


def scale_of(theme: Theme) -> float:
    """How much larger a theme is than the light one."""
    return theme.root_px / THEMES["light"].root_px


def layout_of(theme: Theme, narrow: bool, paper_px: tuple[int, int] | None, name: str, **more: Any) -> dict[str, Any]:
    """What figures in a wide or narrow window, or on paper (width, height), begin with; `name` keeps what is zoomed."""
    made: dict[str, Any] = {
        "template": template(theme),
        "dragmode": False if narrow else "zoom",
        "hovermode": "closest",
        "uirevision": name,
        "font": {"size": figure_px(theme, "xs" if narrow else "s")},
    }
    paper = {"width": paper_px[0], "autosize": False} if paper_px else {}
    return made | more | paper


def band(x: list[Any], low: list[Any], high: list[Any], theme: Theme) -> list[dict[str, Any]]:
    """The area of an interval along a line."""
    edge = LINE | {"x": x, "hoverinfo": "skip", "line": {"width": 0}}
    return [edge | {"y": low}, edge | {"y": high, "fill": "tonexty", "fillcolor": theme.accent + "2e"}]


def unit_above(unit: str, theme: Theme, **place: Any) -> dict[str, Any]:
    """The unit of the upright axis, above it."""
    made = {"xref": "paper", "x": 0, "yref": "paper", "y": 1, "yanchor": "bottom", "text": unit, "showarrow": False}
    return made | {"font": {"size": figure_px(theme, "xs")}} | place


def with_paper(figure: Callable[..., dict[str, Any]], shown: Any, theme: Theme, narrow: bool) -> dict[str, Any]:
    """Draw a figure, with the one for the printer in its layout's ``meta``, where `assets/athlete.js` finds it."""
    drawn = figure(shown, theme, narrow)
    drawn["layout"]["meta"] = {"paper": figure(shown, THEMES["print"], False, paper=True)}
    return drawn


def rounded(values: Any, places: int = 3) -> list[float | None]:
    """Numbers as they are sent: what is none is left out."""
    return [round(one, places) if np.isfinite(one) else None for one in np.asarray(values, float).tolist()]
