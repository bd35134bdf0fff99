"""The weeks as bars, what was planned as outlines around them: a plain dict, as Plotly takes it."""

from datetime import timedelta
from typing import Any

from app.pages.log.answers import LogAnswer, WeekLine
from app.pages.log.words import MONTHS, days_of, number_words, planned_words, value_of, week_name
from app.show.axes import BLANK, NARROW_PX, WIDTH_PX
from app.show.palette import THEMES, Theme, figure_px, template
from model.tally import WEEK

MOST_WEEKS, FEWEST_WEEKS = 26, 10  # that the axis has room for
DAY_MS = 86_400_000
MIDDLE = timedelta(3)  # from Monday to Thursday: the middle of the bar
HEIGHT_PX, PAPER_PX = 280.0, (690.0, 220.0)
LABELS = {"throws": "throws a week", "area": "summed area a week, N·m·s"}


def drawn_weeks(answer: LogAnswer) -> list[WeekLine]:
    """The weeks that are drawn: the newest, or, where nothing of them is in the log, those up to the last session."""
    weeks = list(answer.weeks)
    if all(line.empty for line in weeks[-MOST_WEEKS:]):
        while weeks and weeks[-1].empty:
            weeks.pop()
    return weeks[-MOST_WEEKS:]


def weeks_figure(answer: LogAnswer, bars: str, theme: Theme, width: float = WIDTH_PX) -> dict[str, Any]:
    """Draw the weeks.

    Parameters
    ----------
    answer : LogAnswer
    bars : str
        "throws" or "area".
    theme : Theme
    width : float
        Of the figure (px).
    """
    made = _figure(answer, bars, theme)
    if made is not BLANK:
        scale = theme.root_px / THEMES["light"].root_px
        made["layout"] |= {"height": round(HEIGHT_PX * scale)}
        made["layout"]["xaxis"] |= _ticks(drawn_weeks(answer), 4 if width < NARROW_PX else 12)
    return made


def paper_figure(answer: LogAnswer, bars: str) -> dict[str, Any]:
    """Draw the weeks for the printer; empty where there are none."""
    made = _figure(answer, bars, THEMES["print"])
    if made is BLANK:
        return {}
    made["layout"] |= {"width": PAPER_PX[0], "height": PAPER_PX[1], "autosize": False}
    made["layout"]["xaxis"] |= _ticks(drawn_weeks(answer), 12)
    return made


def _ticks(weeks: list[WeekLine], most: int) -> dict[str, Any]:
    """The Mondays, each in the middle below its bar; no more than there is room for, the newest among them."""
    every = -(-len(weeks) // most)
    shown = [line.week.monday for line in weeks][::-1][::every][::-1]
    text = [f"{day.day} {MONTHS[day.month - 1]}" for day in shown]
    for i, day in enumerate(shown):
        if i == 0 or day.year != shown[i - 1].year:
            text[i] += f"<br>{day.year}"
    return {"tickmode": "array", "tickvals": [(day + MIDDLE).isoformat() for day in shown], "ticktext": text}


def _figure(answer: LogAnswer, bars: str, theme: Theme) -> dict[str, Any]:
    weeks = drawn_weeks(answer)
    if not weeks:
        return BLANK
    places = [(line.week.monday + MIDDLE).isoformat() for line in weeks]
    last = weeks[-1].week.monday + WEEK
    first = min(weeks[0].week.monday, last - FEWEST_WEEKS * WEEK)
    fill = {
        "color": theme.edge,
        "line": {"width": 0},
        "pattern": {
            "shape": ["" if line.over else "/" for line in weeks],
            "fgcolor": theme.edge,
            "bgcolor": theme.wash,
            "fillmode": "replace",
        },
    }
    done = _bars(places, [value_of(line.week.tally, bars) for line in weeks], 5.0, fill)
    done |= {"hoverinfo": "text", "hovertext": [_told(line, bars) for line in weeks]}
    outline = {"color": "rgba(0,0,0,0)", "line": {"color": theme.ink, "width": 1.5 * theme.line_scale}}
    planned_values = [None if line.planned is None else value_of(line.planned, bars) for line in weeks]
    planned = _bars(places, planned_values, 6.0, outline) | {"hoverinfo": "skip"}
    scale = theme.root_px / THEMES["light"].root_px
    layout = {
        "template": template(theme),
        "margin": {"l": 52 * scale, "r": 10, "t": 12 * scale, "b": 40 * scale},
        "barmode": "overlay",
        "dragmode": False,
        "hovermode": "closest",
        "font": {"size": figure_px(theme, "xs")},
        "xaxis": {
            "type": "date",
            "range": [first.isoformat(), last.isoformat()],
            "fixedrange": True,
            "showgrid": False,
            "ticks": "outside",
        },
        "yaxis": {
            "rangemode": "tozero",
            "fixedrange": True,
            "nticks": 6,
            "title": {"text": LABELS[bars], "standoff": 8},
        },
    }
    return {"data": [done, planned], "layout": layout}


def _bars(places: list[str], values: list[float | None], days: float, marker: dict[str, Any]) -> dict[str, Any]:
    heights = [None if value is None else round(value, 3) for value in values]
    return {"type": "bar", "x": places, "y": heights, "width": days * DAY_MS, "marker": marker, "name": ""}


def _told(line: WeekLine, bars: str) -> str:
    """What is said of a bar under the pointer."""
    said = [f"{week_name(line.week)}, {days_of(line.week.monday, line.week.sunday)}"]
    said += [number_words(value_of(line.week.tally, bars), bars) + (" throws" if bars == "throws" else "")]
    said += [planned_words(line.planned, bars)] if line.planned is not None else []
    return "<br>".join(said)
