"""Each joint angle drawn with its zero and its sense, in plain markup that every theme and the printer colour."""

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
from dash import html
from dash.development.base_component import Component
from numpy.typing import NDArray

from app.pages.trust.words import ANGLES, SEEN_FROM
from model.angle_figure import HEAD_M, AngleFigure, angle_figures
from model.solve_recipe import REFERENCE_PERSON

Array = NDArray[np.float64]

MARGIN = 12.0  # per cent of the drawing left free on every side
HEAD = 9.0  # length of an arrow's head, per cent
HEAD_TURN = math.radians(150.0)  # of its two strokes from the arrow's direction


def angle_drawings() -> Component:
    """Make all drawings with their words."""
    return html.Div([_drawing(figure) for figure in angle_figures(REFERENCE_PERSON)], className="trust-angles")


def _drawing(figure: AngleFigure) -> Component:
    words = ANGLES[figure.coordinate]
    said = f"{words.name}, {SEEN_FROM[figure.seen_from]}. Zero: {words.zero}. Positive: {words.positive}."
    place, percent_per_m = _placed(figure)
    heads = zip(place(figure.heads), ("trust-zero", "trust-turned"), strict=False)
    strokes = [
        *(_circle(centre, percent_per_m * HEAD_M[1], name) for centre, name in heads),
        *_line(place(figure.zero), "trust-zero"),
        *_line(place(figure.turned), "trust-turned"),
        *_arrow(place(figure.way)),
    ]
    told = html.Dl(
        [
            part
            for term, text in (
                ("Zero", words.zero),
                ("Positive", words.positive),
                ("ISB", words.recommended),
                ("Drawn", f"{SEEN_FROM[figure.seen_from]}; at 0° and {figure.turned_deg:.0f}°"),
            )
            for part in (html.Dt(term), html.Dd(text))
        ]
    )
    return html.Figure(
        [
            html.Div(strokes, className="trust-drawing", role="img", **{"aria-label": said}),
            html.Figcaption([html.H3(words.name), told]),
        ],
        className="trust-angle",
    )


def _placed(figure: AngleFigure) -> tuple[Callable[[Array], Array], float]:
    """From metres to the right and up to per cent of a square from its left and top; and how much a metre is."""
    round_heads = [figure.heads + side * HEAD_M[1] for side in (-1.0, 1.0)]
    points = np.concatenate((figure.zero, figure.turned, figure.way, *round_heads))
    low, high = points.min(axis=0), points.max(axis=0)
    scale = (100.0 - 2.0 * MARGIN) / float((high - low).max())
    middle = 0.5 * (low + high)
    return lambda places: 50.0 + scale * (places - middle) * np.array([1.0, -1.0]), scale


def _circle(centre: Array, radius: float, name: str) -> Component:
    left, top = (centre - radius).tolist()
    style = {"left": f"{left:.2f}%", "top": f"{top:.2f}%", "width": f"{2 * radius:.2f}%"}
    return html.Span(className=f"{name} trust-round", style=style)


def _line(places: Array, name: str) -> list[Component]:
    return [_stroke(*ends, name) for ends in pairwise(places)]


def _arrow(way: Array) -> list[Component]:
    along = math.atan2(*(way[-1] - way[-2])[::-1])
    sides = (along + HEAD_TURN, along - HEAD_TURN)
    strokes = [way[-1] + HEAD * np.array([math.cos(side), math.sin(side)]) for side in sides]
    return [*_line(way, "trust-way"), *(_stroke(way[-1], end, "trust-way") for end in strokes)]


def _stroke(start: Array, end: Array, name: str) -> Component:
    """A line from place to place: a border turned about its left end; borders are printed, backgrounds are not."""
    across, down = (end - start).tolist()
    turned = math.degrees(math.atan2(down, across))
    style = {
        "left": f"{start[0]:.2f}%",
        "top": f"{start[1]:.2f}%",
        "width": f"calc({math.hypot(across, down):.2f}% + 1px)",  # no gap where lines meet
        "transform": f"rotate({turned:.2f}deg)",
    }
    return html.Span(className=name, style=style)
