"""The staircase: peak, rise rate and time loaded over the days, one panel each. A plain dict, as Plotly takes it."""

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from app.pages.buildup.course import Course
from app.pages.buildup.lines import Line, lines_of
from app.pages.buildup.paper import figure_rows
from app.records.plan_fields import CAP_LIMITS
from app.show.palette import THEMES, Theme, figure_px, line_color, line_width, template
from app.show.subject import is_same
from app.units.conversion import from_si
from app.units.systems import System
from model.build_up import METRICS, steps_of

PANELS = ("peak", "rise_rate", "loaded_s")
NARROW_PX = 500.0  # below it the figure has smaller type and fewer words
HEIGHT_PX = {False: 560.0, True: 520.0}
PAPER_WIDTH_PX = 342.0  # two figures beside one another on paper
PAPER_PX = (520.0, 15.6)  # height of figures and steps on the first printed page, and of one row
PAPER_HEIGHTS_PX = (150.0, 300.0)
GAP = 0.09  # between panels, as a share of the height
MARK_PX = (5.0, 1.6)  # a mark is so large, and this much more for each pixel that its ball's line is wide
NARROW_MARKS = 0.55  # of that size where the figure is narrow
ROOM = 0.16  # above and below the marks, as a share of their span


def stairs(course: Course, theme: Theme, system: System, width: float | None = None) -> dict[str, Any]:
    """Draw the staircase.

    Parameters
    ----------
    system : System
        The units of the balls' names.
    width : float, optional
        Of the figure (px); None for paper.

    Returns
    -------
    dict
        ``data`` and ``layout``; nothing is drawn where there is no session.
    """
    marks = sorted(lines_of(course), key=lambda one: one.day)
    narrow = width is None or is_narrow(width, theme)
    layout = _layout(theme, narrow)
    if width is None:
        layout |= on_paper(figure_rows(course))
    if not marks:
        return {"data": [], "layout": layout}
    record = course.record
    has_own = any(is_same(ball, record.own_ball) for ball in record.table.balls)
    full = steps_of(record.person, record.table, [(record.own_ball, 1.0)])[0].metrics if has_own else {}
    days = [one.day.isoformat() for one in marks]
    data: list[dict[str, Any]] = []
    shapes, words = _weeks(course, marks, theme), []
    for i, key in enumerate(PANELS, start=1):
        axis = "" if i == 1 else str(i)
        unit = CAP_LIMITS[key][0]
        values = [from_si(one.metrics[key], unit) for one in marks]
        level = from_si(full[key], unit) if key in full else None
        ends = _range([*values, *([level] if level is not None else [])])
        layout[f"yaxis{axis}"]["range"] = ends
        line = {"color": theme.edge, "width": theme.line_scale, "shape": "hv"}
        base = {"type": "scatter", "x": days, "y": values, "xaxis": "x", "yaxis": f"y{axis}"}
        data.append(base | {"mode": "lines", "line": line, "hoverinfo": "skip"})
        data.append(
            base | {"mode": "markers", "marker": _look(marks, theme, narrow), "name": "", **_hover(key, marks, system)}
        )
        words.append(_word(f"{METRICS[key][0]}, {unit}", 0.0, f"y{axis} domain", 1.0, theme))
        if level is not None:
            shapes.append(_across(level, f"y{axis}", theme))
            if i == 1:
                right = abs(values[-1] - level) > abs(values[0] - level)  # the side on which no mark is near the line
                side: dict[str, Any] = {"x": 1.0, "xanchor": "right"} if right else {"x": 0.0, "xanchor": "left"}
                below = {"yanchor": "top"}  # above it, the panel's own words stand close where the figure is low
                words.append(_word("own ball at full speed", 0.0, "y", level, theme) | side | below)
    words += _ball_words(marks, theme, system, narrow)
    layout |= {"shapes": shapes, "annotations": words}
    layout["xaxis"]["range"] = _days(marks, course)
    return {"data": data, "layout": layout}


def is_narrow(width_px: float, theme: Theme) -> bool:
    """Whether a figure of this width takes smaller type and fewer words; in larger type, a wider one does as well."""
    return width_px < NARROW_PX * theme.root_px / THEMES["light"].root_px


def paper_stairs(course: Course, system: System) -> dict[str, Any]:
    """Draw it for the printer; empty where there is no session."""
    return stairs(course, THEMES["print"], system) if course.schedule.sessions or course.record.log else {}


def on_paper(rows: int) -> dict[str, Any]:
    """Size of a figure on paper: the lower, the more rows stand around it on the same page."""
    whole, row = PAPER_PX
    least, most = PAPER_HEIGHTS_PX
    return {"width": PAPER_WIDTH_PX, "height": min(most, max(least, whole - row * rows)), "autosize": False}


def _layout(theme: Theme, narrow: bool) -> dict[str, Any]:
    scale = theme.root_px / THEMES["light"].root_px
    height = (1.0 - GAP * (len(PANELS) - 1)) / len(PANELS)
    layout: dict[str, Any] = {
        "template": template(theme),
        "height": round(HEIGHT_PX[narrow] * scale),
        "margin": {"l": 50 * scale, "r": 10, "t": 26 * scale, "b": 34 * scale},
        "dragmode": False,
        "hovermode": "closest",
        "font": {"size": figure_px(theme, "xs" if narrow else "s")},
        "xaxis": {"type": "date", "anchor": f"y{len(PANELS)}", "fixedrange": True, "nticks": 5 if narrow else 9},
    }
    for i in range(len(PANELS)):
        top = 1.0 - i * (height + GAP)
        layout[f"yaxis{'' if i == 0 else i + 1}"] = {
            "domain": [max(0.0, top - height), top],
            "fixedrange": True,
            "nticks": 4,
        }
    return layout


def _look(marks: Sequence[Line], theme: Theme, narrow: bool) -> dict[str, Any]:
    least, more = (NARROW_MARKS * size for size in MARK_PX) if narrow else MARK_PX
    return {
        "size": [least + more * line_width(one.ball.mass_kg, theme) / theme.line_scale for one in marks],
        "color": [theme.paper if one.one is not None else line_color(one.ball.mass_kg, theme) for one in marks],
        "line": {"color": [line_color(one.ball.mass_kg, theme) for one in marks], "width": 1.0 if narrow else 1.5},
        "opacity": 1,
    }


def _hover(key: str, marks: Sequence[Line], system: System) -> dict[str, Any]:
    unit = CAP_LIMITS[key][0]
    told = [
        f"{one.day}: {system.text(one.ball.mass_kg, 'g')} at "
        f"{system.cap(one.metrics['speed'], 'm/s')}{'' if one.one is None else ', thrown'}<br>"
        f"{METRICS[key][0]} {_short(from_si(one.metrics[key], unit))} {unit}"
        for one in marks
    ]
    return {"hoverinfo": "text", "hovertext": told}


def _short(value: float) -> str:
    return f"{value:.0f}" if abs(value) >= 100.0 else f"{value:.1f}"


def _ball_words(marks: Sequence[Line], theme: Theme, system: System, narrow: bool) -> list[dict[str, Any]]:
    """Name each ball where it begins, in the topmost panel; a name too near to the one before is left out."""
    span = max((marks[-1].day - marks[0].day).days, 1)
    room = span * (0.14 if narrow else 0.065)
    made, last = [], None
    for before, one in zip([None, *marks], marks, strict=False):
        begins = before is None or before.ball != one.ball
        if not begins or (last is not None and (one.day - last).days < room):
            continue
        last = one.day
        made.append(
            {
                "text": system.text(one.ball.mass_kg, "g"),
                "x": one.day.isoformat(),
                "y": from_si(one.metrics[PANELS[0]], CAP_LIMITS[PANELS[0]][0]),
                "xref": "x",
                "yref": "y",
                "yshift": 15 * theme.root_px / THEMES["light"].root_px,
                "xanchor": "center",
                "font": {"size": figure_px(theme, "xs")},
            }
        )
    return made


def _word(text: str, x: float, yref: str, y: float, theme: Theme) -> dict[str, Any]:
    return {
        "text": text,
        "x": x,
        "xref": "paper",
        "xanchor": "left",
        "y": y,
        "yref": yref,
        "yanchor": "bottom",
        "font": {"size": figure_px(theme, "xs"), "color": theme.quiet},
    }


def _across(level: float, yref: str, theme: Theme) -> dict[str, Any]:
    line = {"dash": "dash", "width": 1.5 * theme.line_scale, "color": theme.ink}
    return {"type": "line", "xref": "paper", "x0": 0, "x1": 1, "yref": yref, "y0": level, "y1": level, "line": line}


def _weeks(course: Course, marks: Sequence[Line], theme: Theme) -> list[dict[str, Any]]:
    """The easier weeks as bands, and the target day as an upright."""
    calendar, target = course.calendar, course.record.calendar.target_day
    ends = (marks[0].day, marks[-1].day)
    weeks = range(max(0, (ends[1] - calendar.first_day).days // 7) + 1)
    begins = (calendar.first_day + timedelta(7 * week) for week in weeks if calendar.is_easier(week))
    whole = {"xref": "x", "yref": "paper", "y0": 0, "y1": 1, "layer": "below"}
    made = [
        whole
        | {
            "type": "rect",
            "x0": day.isoformat(),
            "x1": (day + timedelta(6)).isoformat(),
            "line": {"width": 0},
            "fillcolor": theme.wash,
        }
        for day in begins
    ]
    if target is not None:
        x = target.isoformat()
        made.append(whole | {"type": "line", "x0": x, "x1": x, "line": {"color": theme.ink, "width": 1, "dash": "dot"}})
    return made


def _days(marks: Sequence[Line], course: Course) -> list[str]:
    target = course.record.calendar.target_day
    first, last = marks[0].day, max(marks[-1].day, target or marks[-1].day)
    edge = timedelta(days=max(1.0, 0.03 * (last - first).days))
    return [(first - edge).isoformat(), (last + edge).isoformat()]


def _range(values: Sequence[float]) -> list[float]:
    low, high = min(values), max(values)
    room = ROOM * (high - low) or 0.1 * high
    return [low - room, high + 1.4 * room]
