"""The region as a figure: ball mass across, share of full speed or release speed upward. A plain dict, for Plotly."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.pages.start.answers import StartAnswer
from app.pages.start.found import Found
from app.pages.start.words import EDGES, limit_words, throw_text
from app.show.axes import BLANK, WIDTH_PX, on_line, over_mass
from app.show.numbers import percent
from app.show.palette import Theme, figure_px
from app.show.plane import LETTER, Plane, trace, with_ink
from app.show.point_labels import OnLine, place_labels
from app.show.window import Window
from app.units.systems import System
from model.start import FULL, Region
from model.start_list import MARGIN
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

HEIGHT_PX = {False: 440.0, True: 400.0}  # of the figure, wide and narrow
PAPER_PX = (690.0, 175.0)
REGION_INK = 0.22
TICK = 0.1  # of full speed
TICK_TYPES = 1.3  # from one tick to the next at least, in type sizes
HIGHEST = 1.3  # share that is drawn, where a limit on how slowly lies above full speed
OFFS_PX = (19.0, 34.0, 49.0, 64.0)  # from an edge to the middle of its name: the first clears the marks on it
NAMED = ((False, 1), (True, 1), (False, 2), (True, 2), (True, 3), (True, 4))
"""How names are tried until each has its place: whether short, and in how many rows beside their edge."""

MARK_PX = 10.0  # half the size of a mark: no label goes there
LEAST_MARK_PX = {False: 3.0, True: 6.0}  # where balls stand close together, without a number and with one
BESIDE_MARK_PX = 1.0


def start_figure(answer: StartAnswer, theme: Theme, width: float | None = WIDTH_PX) -> dict[str, Any]:
    """Draw the region for a screen of this width (px), or for paper where it is None; without an answer nothing."""
    found = answer.found
    if found is None:
        return BLANK if width is not None else {}
    system, by_speed = answer.case.system, answer.asked.by_speed
    window = _window(found, by_speed)
    layout, plane, narrow = over_mass(
        window, answer.balls, theme, system, width=width, paper_px=PAPER_PX, heights=HEIGHT_PX
    )
    if not by_speed:
        layout["yaxis"] |= _share_axis(plane, theme)
    runs = _runs(found, by_speed)
    layout["annotations"] = _labels(answer, found, runs, plane, theme, narrow)
    data = [
        *_region(found, by_speed, theme),
        *_lines(found, by_speed, theme),
        *(_run(run, theme) for run in runs),
        *_bars(found, by_speed, theme),
        *_marks(answer, found, plane, theme),
    ]
    return {"data": data, "layout": layout}


def _up(share: Any, full_speed_m_s: Any, by_speed: bool) -> Any:
    """A share of full speed as the upright axis has it."""
    return share * full_speed_m_s if by_speed else share


def _window(found: Found, by_speed: bool) -> Window:
    """The part that is drawn: the region, or where nothing fits the edges that cross, with air around."""
    region = found.region
    shown = region.fits if region.fits.any() else np.ones(region.mass_kg.size, dtype=bool)
    low = np.minimum(region.least, region.most)[shown]
    one = [ball.least for ball in found.ranges if ball.fits]
    lowest = max(0.0, float(TICK * np.floor((min([float(low.min()), *one]) - TICK / 2.0) / TICK)))
    slowly = [edges[0] for edges in _edges(region).values()]  # a limit on how slowly may lie above full speed
    above = np.nanmin(np.where(np.isfinite(slowly), slowly, FULL), axis=1).max() if slowly else FULL
    highest = max(FULL, min(HIGHEST, float(above))) + TICK
    ends = [lowest, highest]
    if by_speed:
        full = region.full_speed_m_s
        ends = [np.floor(lowest * float(full.min())), np.ceil(highest * float(full.max()))]
    return Window(float(region.mass_kg[0]), float(region.mass_kg[-1]), float(ends[0]), float(ends[1]))


def _share_axis(plane: Plane, theme: Theme) -> dict[str, Any]:
    """Ticks at every tenth, or every fifth where they would stand too close."""
    window = plane.window
    apart = plane.size[1] * TICK / (window.speed_high_m_s - window.speed_low_m_s)
    step = TICK if apart >= TICK_TYPES * figure_px(theme, "xs") else 2.0 * TICK
    first, last = int(np.ceil(window.speed_low_m_s / step - 0.01)), int((window.speed_high_m_s - TICK / 2.0) / step)
    places = [step * tick for tick in range(first, last + 1)]
    return {"tickmode": "array", "tickvals": places, "ticktext": [percent(place) for place in places]}


def _region(found: Found, by_speed: bool, theme: Theme) -> list[dict[str, Any]]:
    region, traces = found.region, []
    for mass, share in region.polygons:
        full = np.interp(mass, region.mass_kg, region.full_speed_m_s)
        fill = {"fill": "toself", "fillcolor": with_ink(theme.accent, REGION_INK), "line": {"width": 0}}
        traces.append(trace(mass, _up(share, full, by_speed), name="region", **fill))
    return traces


def _edges(region: Region) -> dict[str, tuple[Array, Array]]:
    """The least and greatest share that each limit allows by itself; NaN where it sets no edge, or allows no throw."""
    slowest = (1.0 + MARGIN) * SPEED_LIMIT.low / region.full_speed_m_s
    found = {}
    for key, (low, high) in region.alone.items():
        there = (low <= high) & (high > slowest)
        found[key] = (np.where(there & (low > 0.0), low, np.nan), np.where(there & np.isfinite(high), high, np.nan))
    return found


def _lines(found: Found, by_speed: bool, theme: Theme) -> list[dict[str, Any]]:
    """Every limit's own edge, dotted, and full speed."""
    region = found.region
    dotted = {"color": theme.quiet, "width": theme.line_scale, "dash": "dot"}
    solid = {"color": theme.ink, "width": 1.5 * theme.line_scale}
    traces = []
    for key, edges in _edges(region).items():
        for edge in edges:
            if np.isfinite(edge).any():
                height = _up(edge, region.full_speed_m_s, by_speed)
                traces.append(trace(region.mass_kg, height, name=EDGES[key], line=dotted))
    full = _up(np.full(region.mass_kg.size, FULL), region.full_speed_m_s, by_speed)
    return [*traces, trace(region.mass_kg, full, name=EDGES["full"], line=solid)]


@dataclass(frozen=True)
class _Run:
    """A stretch of the region's edge that one limit sets: its key, points (mass in kg, height) (N, 2), which edge."""

    key: str
    path: Array
    upper: bool


def _runs(found: Found, by_speed: bool) -> list[_Run]:
    """The stretches of both edges, where there is a region; else of the tightest lines."""
    region = found.region
    nowhere = not region.fits.any()
    edges = _edges(region)
    made = []
    for upper, edge, keys in ((True, region.most, region.most_by), (False, region.least, region.least_by)):
        height = _up(edge, region.full_speed_m_s, by_speed)
        start = 0
        for end in range(1, len(keys) + 1):
            if end < len(keys) and keys[end] == keys[start] and region.fits[end] == region.fits[start]:
                continue
            last = min(end + 1, len(keys)) if end < len(keys) and region.fits[end] == region.fits[start] else end
            drawn = keys[start] not in edges or bool(np.isfinite(edges[keys[start]][upper][start:end]).all())
            if (region.fits[start] or nowhere) and drawn:
                path = np.column_stack([region.mass_kg[start:last], height[start:last]])
                made.append(_Run(keys[start], path, upper))
            start = end
    return [run for run in made if run.key != "full"]


def _run(run: _Run, theme: Theme) -> dict[str, Any]:
    width = 1.0 if run.key == "slowest" else 3.0  # what is no limit is drawn as none
    line = {"color": theme.accent, "width": width * theme.line_scale}
    return trace(run.path[:, 0], run.path[:, 1], name="edge", line=line)


def _bars(found: Found, by_speed: bool, theme: Theme) -> list[dict[str, Any]]:
    """What each ball of the rack may be thrown at, upright."""
    fits = [one for one in found.ranges if one.fits]
    ends = [_up(share, one.full_speed_m_s, by_speed) for one in fits for share in (one.least, one.most, np.nan)]
    line = {"color": theme.ink, "width": 2.5 * theme.line_scale}
    return [trace(np.repeat([one.ball.mass_kg for one in fits], 3), ends, name="rack", line=line)] if fits else []


def _marks(answer: StartAnswer, found: Found, plane: Plane, theme: Theme) -> list[dict[str, Any]]:
    """A mark for each ball that fits; once there is an order, its place in it, and the first filled."""
    if not found.listed:
        return []
    places = [answer.place(one) for one in found.listed]
    radius = _radius(found, plane, theme)
    numbered = bool(answer.asked.aim) and radius >= LEAST_MARK_PX[True]
    filled = [place == 1 for place in places]
    mark = {
        "symbol": "circle",
        "size": 2.0 * radius,
        "color": [theme.accent if one else theme.paper for one in filled],
        "line": {"color": theme.accent, "width": min(2.0 * theme.line_scale, radius / 3.0)},
    }
    by_speed = answer.asked.by_speed
    text = {
        "text": [f"<b>{place}</b>" if numbered else "" for place in places],
        "textfont": {
            "color": [theme.paper if one else theme.ink for one in filled],
            "size": min(figure_px(theme, "xs"), round(1.3 * radius)),
        },
    }
    chosen = [one.choice for one in found.listed]
    return [
        trace(
            [one.range.ball.mass_kg for one in chosen],
            [_up(one.share, one.range.full_speed_m_s, by_speed) for one in chosen],
            mode="markers+text",
            name="list",
            marker=mark,
            **text,
            hoverinfo="text",
            hovertext=[throw_text(one, answer) for one in found.listed],
        )
    ]


def _radius(found: Found, plane: Plane, theme: Theme) -> float:
    """Of the marks (px): as large as they may be without touching one another."""
    across = np.sort([float(plane.x(one.choice.range.ball.mass_kg)) for one in found.listed])
    room = float(np.diff(across).min()) / 2.0 - BESIDE_MARK_PX if across.size > 1 else np.inf
    return max(LEAST_MARK_PX[False], min(MARK_PX * theme.line_scale, room))


def _labels(
    answer: StartAnswer, found: Found, runs: list[_Run], plane: Plane, theme: Theme, narrow: bool
) -> list[dict[str, Any]]:
    """Name each edge on the edge, and the unit over the axis."""
    size = figure_px(theme, "xs")
    over = {"text": axis_words(answer.asked.by_speed, answer.case.system), "showarrow": False}
    over |= {"xref": "paper", "yref": "paper", "x": 0, "y": 1, "yanchor": "bottom", "xanchor": "left"}
    labels = [over | {"font": {"size": size, "color": theme.ink}}]
    region = found.region
    full = _up(np.full(region.mass_kg.size, FULL), region.full_speed_m_s, answer.asked.by_speed)
    ordered = sorted((run for run in runs if len(run.path) > 1), key=lambda run: -len(run.path))
    over_all = _fine(np.column_stack([region.mass_kg, full]), plane)
    marked = _marked(answer, found, plane, MARK_PX * theme.line_scale)
    texts: list[str] = []
    placed: list[Place] = []
    fewest = np.inf
    for short, near in NAMED:
        named = [*(_edge(run.key, answer, short or narrow) for run in ordered), EDGES["full"]]
        boxes = [(LETTER * size * len(text) + 6, 1.2 * size + 2) for text in named]
        paths = [*(_beside(run, plane, box, near) for run, box in zip(ordered, boxes, strict=False)), over_all]
        lines = [OnLine(path, *box) for path, box in zip(paths, boxes, strict=True)]
        places = place_labels(lines, marked, plane.size, 0.5 * plane.size[0])
        faults = sum(_covered(where, line, marked) for where, line in zip(places, lines, strict=True))
        if faults < fewest:
            texts, placed, fewest = named, places, faults
        if fewest == 0:
            break
    for text, where in zip(texts, placed, strict=True):
        if where is not None:
            labels.append(on_line(text, where, plane, theme))
    return labels


Place = tuple[float, float] | None
"""The middle of a name (px); None where it found no room."""


def _marked(answer: StartAnswer, found: Found, plane: Plane, radius: float) -> list[Array]:
    """The marks and the balls' ends, which no name is to cover, as the points of their size (px)."""
    steps = np.linspace(-radius, radius, 5).tolist()
    made = []
    for one in found.listed:
        ball = one.choice.range
        for share in {one.choice.share, ball.most}:
            height = _up(share, ball.full_speed_m_s, answer.asked.by_speed)
            x, y = float(plane.x(ball.ball.mass_kg)), float(plane.y(height))
            made.append(np.array([(x + dx, y + dy) for dx in steps for dy in steps]))
    return made


def _covered(where: Place, line: OnLine, marked: list[Array]) -> int:
    """How many marks a name covers; one that found no room counts as covering all."""
    if where is None:
        return 1 + len(marked)
    half = np.array([line.width, line.height]) / 2.0
    return sum(bool((np.abs(points - where) < half).all(axis=1).any()) for points in marked)


def _beside(run: _Run, plane: Plane, box: tuple[float, float], near: int) -> Array:
    """Where the name of an edge may stand, as tall and wide as it is: outside the region, or above its lowest edge.

    A name is wider than a short edge, and may reach beyond its ends. It stands in one of the `near` nearest rows; where
    all are tried, on the other side of the edge too.
    """
    side = 1.0 if not run.upper and run.key != "slowest" else -1.0
    offs = [*OFFS_PX[:near], *((-OFFS_PX[0], -OFFS_PX[1]) if near == len(OFFS_PX) else ())]
    rows = [_fine(run.path, plane) + np.array([0.0, side * off]) for off in offs]
    half = np.array(box) / 2.0
    return np.asarray(np.clip(np.concatenate(rows), half, np.array(plane.size) - half))


def _fine(path: Array, plane: Plane) -> Array:
    """An edge as points close together, inside the plotting area (px)."""
    fine = np.geomspace(path[0, 0], path[-1, 0], 160)
    return plane.path(fine, np.interp(np.log(fine), np.log(path[:, 0]), path[:, 1]))


def _edge(key: str, answer: StartAnswer, narrow: bool) -> str:
    return EDGES[key] if narrow or key not in answer.asked.amounts else limit_words(key, answer)


def axis_words(by_speed: bool, system: System) -> str:
    """What the upright axis shows."""
    return f"release speed, {system.unit('m/s')}" if by_speed else "share of full speed with the ball"
