"""What lies on the map: the athlete's speed profile, readings, throws, the reference, and the labels of the lines."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.pages.map.answers import Contour, MapAnswer
from app.pages.map.words import FULL_SPEED, PRIOR
from app.show.axes import on_line
from app.show.ball_words import value_words
from app.show.palette import Theme, figure_px
from app.show.plane import LETTER, Plane, trace, with_ink
from app.show.point_labels import OnLine, place_labels
from model.speed_readings import RadarReading

Array = NDArray[np.float64]

LINE_HEIGHT = 1.15
BAND_INK = 0.16


def profile_traces(answer: MapAnswer, theme: Theme) -> list[dict[str, Any]]:
    """Draw the athlete's full speed over the ball's mass, with its interval as a band.

    Parameters
    ----------
    answer : MapAnswer
    theme : Theme

    Returns
    -------
    list of dict
        Nothing while no speed is known.
    """
    speeds = answer.speeds
    if speeds is None:
        return []
    hair = {"color": theme.ink, "width": 0.75 * theme.line_scale, "shape": "spline", "dash": "dot"}
    # the prior's middle runs close to the level line of the peak: dots let that show through
    dash = "dot" if answer.on_prior else "solid"
    middle = {"color": theme.ink, "width": 2 * theme.line_scale, "shape": "spline", "dash": dash}
    band = {"fill": "tonexty", "fillcolor": with_ink(theme.ink, BAND_INK)}
    return [
        trace(answer.mass_kg, speeds.low, name="interval, low", line=hair),
        trace(answer.mass_kg, speeds.high, name="interval, high", line=hair, **band),
        trace(answer.mass_kg, speeds.estimate, name="full speed", line=middle),
    ]


def mark_traces(answer: MapAnswer, theme: Theme, narrow: bool) -> list[dict[str, Any]]:
    """Mark the readings, the throws of Compare, the reference and the throw that is looked at.

    Parameters
    ----------
    answer : MapAnswer
    theme : Theme
    narrow : bool

    Returns
    -------
    list of dict
        Only those that there are.
    """
    hundred, looked = answer.hundred, answer.looked
    if hundred is None:
        return []
    scale = theme.line_scale * (0.85 if narrow else 1.0)
    full, less = ([r for r in answer.readings if (r.asked_effort == 1.0) is at] for at in (True, False))
    ink, ring = theme.ink, {"color": theme.ink, "width": 1.5 * scale}
    edge, cross = {"color": theme.paper, "width": 1.5 * scale}, {"color": theme.accent, "width": 2.5 * scale}
    in_compare = [(ball.mass_kg, speed) for _, ball, speed in answer.thrown]
    own, chosen = ([(one.throw.ball.mass_kg, one.throw.speed_m_s)] if one else [] for one in (hundred, looked))
    marks: tuple[tuple[str, list[tuple[float, float]], str, int, str, dict[str, Any]], ...] = (
        ("readings at less than full effort", _places(less), "circle", 6, theme.paper, ring),
        ("readings", _places(full), "circle", 7, ink, {}),
        ("throws of Compare", in_compare, "square-open", 11, ink, ring),
        ("reference", own, "diamond", 14, theme.accent, edge),
        ("looked at", chosen, "circle-cross-open", 17, theme.accent, cross),
    )
    return [
        trace(
            *zip(*places, strict=True),
            mode="markers",
            name=name,
            marker={"symbol": symbol, "size": size * scale, "color": color, "line": line},
        )
        for name, places, symbol, size, color, line in marks
        if places
    ]


def _places(readings: Sequence[RadarReading]) -> list[tuple[float, float]]:
    return [(one.ball_mass_kg, one.speed_m_s) for one in readings]


def map_labels(answer: MapAnswer, plane: Plane, theme: Theme, narrow: bool) -> list[dict[str, Any]]:
    """Label each line on the line.

    Parameters
    ----------
    answer : MapAnswer
    plane : Plane
    theme : Theme
    narrow : bool
        Whether there is room for the per cent only.

    Returns
    -------
    list of dict
        Annotations.
    """
    size = figure_px(theme, "xs")
    over = {"text": answer.case.speed_unit, "showarrow": False, "font": {"size": size, "color": theme.ink}}
    over |= {"xref": "paper", "yref": "paper", "y": 1, "yanchor": "bottom", "x": 0, "xanchor": "right", "xshift": -6}
    labels = [over]
    ordered = sorted(answer.contours, key=lambda contour: abs(contour.percent - 100))
    texts = [_line_text(contour, answer, narrow) for contour in ordered]
    paths = [_path(answer.mass_kg, contour.speed_m_s, plane) for contour in ordered]
    if answer.speeds is not None:
        short = PRIOR if answer.on_prior else FULL_SPEED
        texts.insert(1, short.split(",")[0] if narrow else short)
        paths.insert(1, _path(answer.mass_kg, answer.speeds.estimate, plane))
    lines = [
        OnLine(path, LETTER * size * len(text.replace("<b>", "").replace("</b>", "")) + 4, LINE_HEIGHT * size + 2)
        for text, path in zip(texts, paths, strict=True)
    ]
    placed = place_labels(lines, _marked(answer, plane), plane.size, 0.62 * plane.size[0])
    for text, where in zip(texts, placed, strict=True):
        if where is not None:
            labels.append(on_line(text, where, plane, theme))
    return labels


def _line_text(contour: Contour, answer: MapAnswer, narrow: bool) -> str:
    level = contour.percent == 100
    share = f"<b>{contour.percent} %</b>" if level else f"{contour.percent} %"
    if narrow:
        return share
    return f"{share} · {value_words(contour.value, answer.quantity.unit)}{', level line' if level else ''}"


def _path(mass_kg: Array, speed_m_s: Array, plane: Plane) -> Array:
    """A line as points close together, inside the plotting area."""
    known = np.isfinite(speed_m_s)
    if known.sum() < 2:
        return np.empty((0, 2))
    fine = np.geomspace(mass_kg[known][0], mass_kg[known][-1], 240)
    return plane.path(fine, np.interp(np.log(fine), np.log(mass_kg[known]), speed_m_s[known]))


def _marked(answer: MapAnswer, plane: Plane) -> list[Array]:
    """What a label shall not cover: readings, throws, the reference, the throw looked at, and the profile's ends."""
    spots = _places(answer.readings)
    spots += [(ball.mass_kg, speed) for _, ball, speed in answer.thrown]
    marked = [_around(plane.path(mass, speed)) for mass, speed in spots]
    for throw in (answer.hundred, answer.looked):
        if throw is not None:
            marked.append(_around(plane.path(throw.throw.ball.mass_kg, throw.throw.speed_m_s)))
    speeds = answer.speeds
    if speeds is not None:
        marked += [_path(answer.mass_kg, line, plane) for line in (speeds.low, speeds.estimate, speeds.high)]
    return marked


def _around(point: Array) -> Array:
    """A mark as the points of its size."""
    if not len(point):
        return point
    offsets = np.array([(dx, dy) for dx in (-8, 0, 8) for dy in (-8, 0, 8)], dtype=float)
    return np.asarray(point + offsets)
