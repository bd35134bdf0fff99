"""Every quantity at once: a small panel for each, all over the same time axis, the braking group among them."""

import math
from typing import Any

import numpy as np

from app.pages.compare.answers import Answer, Comparison
from app.pages.compare.picture import zero_ms
from app.records.field_list import ALIGNED
from app.show.curves_figure import REFERENCE_DASH
from app.show.palette import THEMES, Theme, figure_px, line_color, line_width, template
from app.show.quantities import title
from model.channels import READINGS, Reading

COLUMNS, NARROW_COLUMNS = 4, 2
PANEL_PX = 150.0  # height of a panel with its title
GAP = 0.035  # between panels side by side, of the figure's width
TITLE_SHARE = 0.30  # of a panel's height
DRAWN_EVERY = 6  # points of the model's time grid: a panel is a quarter as wide as the large figure
LINE_SCALE = 0.6


def multiples(comparison: Comparison, theme: Theme, narrow: bool) -> dict[str, Any]:
    """Draw every reading of every throw in a panel of its own, in plain units.

    Parameters
    ----------
    comparison : Comparison
    theme : Theme
    narrow : bool
        Whether the window is narrow: fewer panels side by side.

    Returns
    -------
    dict
        A figure for Plotly. What is read as positive points up; the window that is read is not cut out.
    """
    columns = NARROW_COLUMNS if narrow else COLUMNS
    rows = math.ceil(len(READINGS) / columns)
    scale = theme.root_px / THEMES["light"].root_px
    layout: dict[str, Any] = {
        "template": template(theme),
        "height": round(rows * PANEL_PX * scale),
        "margin": {"l": 40 * scale, "r": 8, "t": 4, "b": 40 * scale},
        "annotations": [],
        "hovermode": False,
        "dragmode": False,
    }
    small = {"size": figure_px(theme, "xs")}
    data: list[dict[str, Any]] = []
    span = _span(comparison)
    order = sorted(comparison.drawn, key=lambda answer: (answer.reference, -_mass_kg(answer)))
    for place, reading in enumerate(READINGS.values()):
        row, column = divmod(place, columns)
        number = "" if place == 0 else str(place + 1)
        left, right = column / columns + (GAP if column else 0.0), (column + 1) / columns
        low, high = max(0.0, 1.0 - (row + 1) / rows), 1.0 - (row + TITLE_SHARE) / rows
        axis = {"fixedrange": True, "nticks": 4}
        along = {"range": span, "showgrid": False, "showticklabels": row == rows - 1}
        layout[f"xaxis{number}"] = {"domain": [left, right], "anchor": f"y{number}", **axis, **along}
        zero = {"zeroline": True, "zerolinecolor": theme.edge}
        layout[f"yaxis{number}"] = {"domain": [low, high], "anchor": f"x{number}", **axis, **zero}
        above = {"xanchor": "left", "yanchor": "bottom", "bgcolor": "rgba(0,0,0,0)", "font": small}
        layout["annotations"].append(_words(f"{_name(reading)}, {reading.unit}", left, high) | above)
        data += [_trace(answer, reading, comparison.align, theme) | _axes(number) for answer in order]
    below = {"yshift": -36 * scale, "font": small | {"color": theme.quiet}}
    layout["annotations"].append(_words(f"ms before (−) and after {ALIGNED[comparison.align]}", 0.5, 0.0) | below)
    return {"data": data, "layout": layout}


def _words(text: str, x: float, y: float) -> dict[str, Any]:
    return {"text": text, "x": x, "y": y, "xref": "paper", "yref": "paper"}


def _axes(number: str) -> dict[str, str]:
    return {"xaxis": f"x{number}", "yaxis": f"y{number}"}


def _trace(answer: Answer, reading: Reading, align: str, theme: Theme) -> dict[str, Any]:
    values, mass_kg = answer.value(reading), _mass_kg(answer)
    keep = np.append(np.arange(0, values.size - 1, DRAWN_EVERY), values.size - 1)
    return {
        "type": "scatter",
        "mode": "lines",
        "x": np.round((answer.time_ms() - zero_ms(answer, align))[keep], 1).tolist(),
        "y": np.round(values[keep], 1).tolist(),
        "line": {
            "color": line_color(mass_kg, theme),
            "width": LINE_SCALE * line_width(mass_kg, theme),
            "dash": REFERENCE_DASH if answer.reference else "solid",
        },
        "hoverinfo": "skip",
    }


def _name(reading: Reading) -> str:
    """A name short enough for a panel: "after release" says already where the braking group belongs."""
    return reading.label[0].upper() + reading.label[1:] if reading.braking else title(reading)


def _mass_kg(answer: Answer) -> float:
    return 0.0 if answer.throw.ball is None else answer.throw.ball.mass_kg


def _span(comparison: Comparison) -> list[float]:
    ends = [
        float(end)
        for answer in comparison.drawn
        for end in answer.time_ms()[[0, -1]] - zero_ms(answer, comparison.align)
    ]
    return [min(ends), max(ends)] if ends else [-150.0, 40.0]
