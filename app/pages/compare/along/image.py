"""The figure as it is taken along: on white paper, with a title, and at its foot what it rests on."""

import html
import textwrap
from collections.abc import Collection
from datetime import date
from typing import Any

from app.pages.compare.answers import Comparison
from app.pages.compare.picture import figure_of, measured_in
from app.pages.compare.table import ADULT_MEN
from app.pages.compare.words import invented_words, path_of
from app.show.cautions import cautioned, cautions
from app.show.palette import THEMES, figure_px
from app.show.quantities import title
from app.version import VERSION

WIDTH_PX = 760
PNG_SCALE = 3  # pixels of the file for one of the figure: 2280 across, enough for half a page at 300 dpi
HEAD_PX, LINE_PX = 24.0, 17.0
BELOW_AXIS_PX = 44.0  # the axis' numbers and title
FOOT_CHARACTERS = 140  # in a line of the foot


def image_of(comparison: Comparison, today: date, invented: Collection[str]) -> dict[str, Any]:
    """Draw the throws for a picture of its own.

    Parameters
    ----------
    comparison : Comparison
        With at least one curve.
    today : date
    invented : collection of str
        Which throwers are of the demo data.

    Returns
    -------
    dict
        A figure for Plotly, with its width and height. It names the athlete's code and nothing else of the athlete.
    """
    paper = THEMES["print"]
    made = figure_of(comparison, paper, narrow=False)
    layout = made["layout"]
    lines = foot(comparison, today, invented)
    small, margin = figure_px(paper, "xs"), layout["margin"]
    more = {"t": HEAD_PX, "b": LINE_PX * len(lines) + 8.0}
    layout |= {
        "width": WIDTH_PX,
        "height": layout["height"] + more["t"] + more["b"],
        "autosize": False,
        "margin": margin | {side: margin[side] + more[side] for side in more},
        "title": {
            "text": html.escape(heading(comparison)),
            "x": 0.0,
            "xref": "paper",
            "xanchor": "left",
            "pad": {"t": 10},
            "y": 1.0,
            "yref": "container",
            "yanchor": "top",
            "font": {"size": figure_px(paper, "m"), "weight": 600},
        },
        "annotations": [
            {
                "text": "<br>".join(map(html.escape, lines)),
                "x": 0.0,
                "xref": "paper",
                "xanchor": "left",
                "y": 0.0,
                "yref": "paper",
                "yanchor": "top",
                "yshift": -BELOW_AXIS_PX,
                "align": "left",
                "showarrow": False,
                "font": {"size": small, "color": paper.quiet},
            }
        ],
    }
    return made


def heading(comparison: Comparison) -> str:
    """The title: the throwers' codes, the quantity and what it is measured in.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
    """
    return " · ".join([*comparison.codes, f"{title(comparison.reading)}, {measured_in(comparison)} against time"])


def foot(comparison: Comparison, today: date, invented: Collection[str]) -> list[str]:
    """The lines at the foot: reference, whose path it is, cautions, day and version.

    Parameters
    ----------
    comparison : Comparison
    today : date
    invented : collection of str

    Returns
    -------
    list of str
    """
    reference = comparison.reference
    parts = [said] if (said := invented_words(comparison, invented)) else []
    parts += ["Thicker and darker is heavier."]
    parts += ["With rings: the second thrower."] if comparison.two else []
    parts += [f"Dashed: the reference, {reference.name}, {comparison.known}."] if reference else []
    parts += [ADULT_MEN] if path_of(comparison) else []
    lines = textwrap.wrap(" ".join(parts), FOOT_CHARACTERS)
    lines += textwrap.wrap(" ".join(cautions(cautioned(comparison.people))), FOOT_CHARACTERS)
    return [*lines, f"Levelpeak {VERSION} · {today.isoformat()}"]
