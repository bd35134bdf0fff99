"""Own-ball speed over time: each day's mean, the line through the days that count, and whether it rose, how sure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from html import escape
from typing import Any

import numpy as np
from dash import html
from dash.development.base_component import Component

from app.pages.athlete.drawing import LINE, MARKERS, band, layout_of, rounded, scale_of, unit_above
from app.records.reads import AthleteData
from app.records.rows import counted
from app.records.tables import Reading
from app.show.certainty_words import tenths
from app.show.counted import can_count, counts
from app.show.numbers import difference
from app.show.palette import Theme, figure_px
from app.show.subject import Case, radar_factor
from app.units.systems import METRIC, System
from model.ball import Ball
from model.day_speeds import DatedSpeed, DaySpeed, by_day
from model.interval import Interval
from model.speed_readings import SAME_BALL_KG
from model.speed_trend import LEAST_DAYS, STEP_DAYS, Trend, day_means, trend_of
from model.throw import SPEED_LIMIT

BAND_POINTS = 25
HEIGHT_PX, NARROW_HEIGHT_PX, PAPER_PX = 300, 280, (690, 150)
PHASE_PX = 18
SAME_RADAR = (
    "Taken for granted: the same radar in the same place. Another radar, or another place, looks like a change and is "
    "not in the interval. Warm-up, weather and how hard the throws were asked for are not told apart from training."
)


@dataclass(frozen=True)
class Phase:
    """A stretch of a plan: its name, first and last day."""

    name: str
    first: date
    last: date


@dataclass(frozen=True)
class OverTime:
    """Own-ball speeds by day.

    Attributes
    ----------
    days, older : tuple of DaySpeed
        Those that count, and those of before; the oldest first.
    means, older_means : tuple of Interval
        Mean of each (m/s).
    trend : Trend
        Of the days that count.
    phases : tuple of Phase
    system : System
    """

    days: tuple[DaySpeed, ...] = ()
    older: tuple[DaySpeed, ...] = ()
    means: tuple[Interval, ...] = ()
    older_means: tuple[Interval, ...] = ()
    trend: Trend = field(default_factory=lambda: trend_of(()))
    phases: tuple[Phase, ...] = ()
    system: System = METRIC


def over_time_of(data: AthleteData, case: Case, since: date | None) -> OverTime:
    """Gather an athlete's full-effort readings with the own ball, or one of its mass, by day."""
    own = [one for one in data.readings if can_count(one) and _is_own(one, data, case)]
    days, older = (by_day(dated(one, data, case) for one in own if counts(one, since) is now) for now in (True, False))
    return OverTime(days, older, day_means(days), day_means(older), trend_of(days), tuple(phases_of(data)), case.system)


def older_speeds(data: AthleteData, case: Case, since: date | None) -> list[tuple[float, float]]:
    """Ball mass (kg) and release speed (m/s) of the full-effort readings that no longer count."""
    found = []
    for one in data.readings:
        mass_kg = mass_of(one, data)
        if mass_kg is not None and can_count(one) and not counts(one, since):
            speed = dated(one, data, case)
            found += [(mass_kg, speed.speed_m_s)] if speed.full_effort else []
    return found


def mass_of(one: Reading, data: AthleteData) -> float | None:
    """Mass of a reading's ball (kg)."""
    ball = data.balls.get(one.ball_id) if one.ball_id is not None else None
    return None if ball is None else ball.mass_kg


def _is_own(one: Reading, data: AthleteData, case: Case) -> bool:
    mass_kg = mass_of(one, data)
    return mass_kg is not None and abs(mass_kg - case.own_ball.mass_kg) < SAME_BALL_KG


def dated(one: Reading, data: AthleteData, case: Case) -> DatedSpeed:
    """A reading as a release speed (m/s): corrected as those of the speed profile are."""
    speed, ball = float(one.speed_m_s or 0.0), data.balls[int(one.ball_id or 0)]
    if one.speed_is == "radar" and ball.mass_kg is not None:
        speed *= radar_factor(Ball(ball.mass_kg, ball.diameter_m or case.own_ball.diameter_m), case)
    return DatedSpeed(one.day, min(speed, SPEED_LIMIT.high), one.asked_effort)


def phases_of(data: AthleteData) -> Iterator[Phase]:
    """The stretches of the athlete's plans: from each one's first day to the last day of its log."""
    for plan in data.plans:
        logged = [one.day for one in data.sessions_of(plan)]
        first = plan.start or min(logged, default=None)
        if first is not None and plan.archived_at is None:
            yield Phase(plan.name or "Plan", first, max([first, *logged]))


def words(over: OverTime) -> list[Component]:
    """Say whether the speed rose, by how much, and how sure that is."""
    trend, system = over.trend, over.system
    if not over.days:
        more = " Older ones are drawn in grey and do not count." if over.older else ""
        return [html.P(f"No full-effort reading with the own ball counts yet.{more}", className="invitation")]
    first, last, throws = over.days[0].day, over.days[-1].day, counted(trend.throws, "reading")
    on = f"{throws} on {first}" if first == last else f"{throws} on {trend.days} days, from {first} to {last}"
    if trend.slope_m_s is None or trend.probability_rose is None:
        said = f"{on}. Whether the speed rose can be told from {LEAST_DAYS} days on."
        return [html.P(said, className="told")]
    slope, chance = trend.slope_m_s, trend.probability_rose
    unit, step = system.unit("m/s"), f"{STEP_DAYS:.0f} days"
    low, high = (_signed(value, system) for value in (slope.low, slope.high))
    lead = f"{_changed(slope)}: {_signed(slope.estimate, system)} {unit} in {step}"
    rest = (
        f" ({100 * slope.level:.0f} % interval {low} to {high}). That it rose at all: "
        f"{tenths(chance)}. {on}, at full effort with the own ball."
    )
    return [
        html.P([html.Strong(lead), rest], className="told", role="status"),
        html.P(SAME_RADAR, className="quiet"),
    ]


def _changed(slope: Interval) -> str:
    if slope.low > 0.0:
        return "The own-ball speed rose"
    if slope.high < 0.0:
        return "The own-ball speed fell"
    return "Whether the own-ball speed rose or fell is not settled"


def _signed(speed_m_s: float, system: System) -> str:
    return difference(system.value(speed_m_s, "m/s"), 1)


def figure(over: OverTime, theme: Theme, narrow: bool, paper: bool = False) -> dict[str, Any]:
    """Draw the speeds over the days as a plain dict."""
    scale = scale_of(theme)
    height = PAPER_PX[1] if paper else round((NARROW_HEIGHT_PX if narrow else HEIGHT_PX) * scale)
    below = PHASE_PX * scale * len(over.phases)
    unit = unit_above(over.system.unit("m/s"), theme, xanchor="left", xshift=-40 * scale)
    layout = layout_of(
        theme,
        narrow,
        PAPER_PX if paper else None,
        "over-time",
        height=height + below,
        margin={"l": 44 * scale, "r": 12, "t": 24 * scale, "b": 46 * scale + below},
        xaxis={"type": "date", "ticks": "outside", "showgrid": False, "nticks": 4 if narrow else 9} | _range(over),
        yaxis={"nticks": 6},
        annotations=[unit, *_phase_words(over, theme, height)],
        shapes=_phase_bars(over, theme, height),
    )
    return {"data": [*_line(over, theme), *_dots(over, theme)], "layout": layout}


def _days(over: OverTime) -> list[date]:
    """All days of readings, and the first and last ones of plans."""
    return [one.day for one in (*over.older, *over.days)] + [
        day for phase in over.phases for day in (phase.first, phase.last)
    ]


def _range(over: OverTime) -> dict[str, Any]:
    """All days of readings and plans, with some room; a day or two alone are not drawn as hours."""
    days = _days(over)
    if not days:
        return {}
    first, last = min(days), max(days)
    room = timedelta(days=max(3, round(0.04 * (last - first).days)))
    return {"range": [(first - room).isoformat(), (last + room).isoformat()]}


def _speeds(values: Sequence[float], system: System) -> list[float | None]:
    return rounded([system.value(value, "m/s") for value in values])


def _line(over: OverTime, theme: Theme) -> list[dict[str, Any]]:
    line = over.trend.line
    if line is None:
        return []
    steps = np.linspace(0, (line.last - line.first).days, BAND_POINTS).round().astype(int)
    days = [line.first + timedelta(days=int(step)) for step in dict.fromkeys(steps.tolist())]
    at = [line.at(day) for day in days]
    x = [day.isoformat() for day in days]
    low, middle, high = (
        _speeds([getattr(one, name) for one in at], over.system) for name in ("low", "estimate", "high")
    )
    drawn = {"name": "line through the days", "x": x, "y": middle, "hoverinfo": "skip"}
    return [
        *band(x, low, high, theme),
        LINE | drawn | {"line": {"color": theme.accent, "width": 2.4 * theme.line_scale}},
    ]


def _dots(over: OverTime, theme: Theme) -> Iterator[dict[str, Any]]:
    unit = over.system.unit("m/s")
    for days, means, color in ((over.older, over.older_means, theme.edge), (over.days, over.means, theme.ink)):
        if days:
            reach = _speeds([mean.high - mean.estimate for mean in means], over.system)
            yield MARKERS | {
                "x": [one.day.isoformat() for one in days],
                "y": _speeds([one.mean_m_s for one in days], over.system),
                "error_y": {"type": "data", "array": reach, "color": color, "thickness": 1.3, "width": 0},
                "text": [counted(one.throws, "reading") for one in days],
                "marker": {"size": 8 * theme.line_scale, "color": color},
                "hovertemplate": f"%{{x}}: mean %{{y:.1f}} {unit}, %{{text}}<extra></extra>",
            }


def _phase_place(number: int, height: float) -> float:
    """How far below the axis a plan's bar stands, as a share of the figure's height without them."""
    return -(42 + PHASE_PX * (number + 0.5)) / max(height - 70, 1.0)


def _phase_bars(over: OverTime, theme: Theme, height: float) -> list[dict[str, Any]]:
    shape = {
        "type": "line",
        "xref": "x",
        "yref": "paper",
        "line": {"color": theme.quiet, "width": 4 * theme.line_scale},
    }
    bars = []
    for i, phase in enumerate(over.phases):
        place, end = _phase_place(i, height), phase.last + timedelta(days=1)
        bars.append(shape | {"x0": phase.first.isoformat(), "x1": end.isoformat(), "y0": place, "y1": place})
    return bars


def _phase_words(over: OverTime, theme: Theme, height: float) -> list[dict[str, Any]]:
    """The plans' names, each on the side of its bar where there is more room."""
    days = _days(over)
    middle = min(days) + (max(days) - min(days)) / 2 if days else date.min
    font = {"size": figure_px(theme, "xs"), "color": theme.quiet}
    words = []
    for i, phase in enumerate(over.phases):
        before = phase.last > middle
        at = phase.first if before else phase.last + timedelta(days=1)
        place = {"xref": "x", "yref": "paper", "x": at.isoformat(), "y": _phase_place(i, height), "yanchor": "middle"}
        place |= {"xanchor": "right", "xshift": -6} if before else {"xanchor": "left", "xshift": 6}
        words.append(place | {"text": escape(phase.name), "showarrow": False, "font": font})
    return words


def note(over: OverTime) -> str:
    """Say what the figure shows and how it is read."""
    if not over.days and not over.older:
        return ""
    level = f"{100 * (over.means or over.older_means)[0].level:.0f} %"
    older = " In grey: days before those that count." if over.older else ""
    line = f" Line and band: the straight line through the days, {level} of it." if over.trend.line else ""
    plans = " Beneath: plans, from the first day to the last that was logged." if over.phases else ""
    return f"Dots: the mean of a day’s full-effort readings, with its {level} interval.{line}{older}{plans}"


def section(over: OverTime) -> list[Component]:
    """What stands above the figure, and how it is read."""
    said = note(over)
    return [*words(over), *([html.P(said, className="quiet")] if said else [])]
