"""What the line of an athlete says, in words and as values to sort by."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app.records.lines import AthleteLine, athlete_lines, last_days
from app.records.store import Store
from app.show.noted import pain_words, sign_words
from app.show.numbers import number
from app.units.systems import System
from model.day_speeds import DaySpeed, season_start
from model.speed_trend import STEP_DAYS, Trend, trend_of

FEW_DAYS, FEW_WEEKS, FEW_MONTHS = 21, 90, 730
DAYS_PER_MONTH, DAYS_PER_YEAR = 30.44, 365.25
COARSE = 0.2  # m/s or mph: a change that is nowhere larger is told with a decimal more
MOST_POINTS = 40
"""Of a small line of the speeds."""


@dataclass(frozen=True)
class Line:
    """A line of the list.

    Attributes
    ----------
    uid, code : str
    invented, archived : bool
    signs : tuple of str
        Stop signs that stand, in words.
    pain : str
        What was noted of the last session of a plan, with its day; empty for none.
    last : date or None
        Day of the last reading.
    ago : str
        How long ago that was.
    speed_m_s : float or None
        Mean of the last day with full-effort readings of the own ball.
    speed, speed_day : str
        That speed with its unit, and its day where it is not the day of the last reading.
    trend_m_s : float or None
        Change of that speed in 30 days.
    trend : str
        In words, with how sure it is.
    points : tuple of (int, float)
        Day after the first, and mean speed (m/s): of the season.
    plans : tuple of str
        The next session of each, and its plan's name; under a stop sign there is none.
    next : date or None
        Day of the first of them.
    """

    uid: str
    code: str
    invented: bool
    archived: bool
    signs: tuple[str, ...]
    pain: str
    last: date | None
    ago: str
    speed_m_s: float | None
    speed: str
    speed_day: str
    trend_m_s: float | None
    trend: str
    points: tuple[tuple[int, float], ...]
    plans: tuple[str, ...]
    next: date | None = None


def lines_of(store: Store, today: date, system: System, archived: bool = False) -> tuple[Line, ...]:
    """The lines of the list, those looked at last first; archived ones instead of the others where asked for."""
    since = min((season_start(day) for day in last_days(store)), default=season_start(today))
    return tuple(line_of(one, today, system) for one in athlete_lines(store, since, archived))


def line_of(one: AthleteLine, today: date, system: System) -> Line:
    """What the line of an athlete says.

    Parameters
    ----------
    one : AthleteLine
    today : date
    system : System
        The reader's units.

    Returns
    -------
    Line
        Its season ends with the last day of own-ball readings.
    """
    days = one.own_speeds
    last = days[-1] if days else None
    first = season_start(last.day) if last else today
    season = [day for day in days if day.day >= first]
    trend = trend_of(season)
    return Line(
        one.uid,
        one.code,
        one.invented,
        one.archived_at is not None,
        tuple(sign_words(sign) for sign in one.signs),
        _pain(one),
        one.last_reading,
        ago(one.last_reading, today) if one.last_reading else "",
        last.mean_m_s if last else None,
        system.text(last.mean_m_s, "m/s", 1, 1) if last else "",
        last.day.isoformat() if last and last.day != one.last_reading else "",
        trend.slope_m_s.estimate if trend.slope_m_s else None,
        trend_words(trend, system),
        points_of(season),
        tuple(plan_words(name, None if one.signs else day) for _, name, day in one.plans),
        None if one.signs else min((day for _, _, day in one.plans if day), default=None),
    )


def _pain(one: AthleteLine) -> str:
    day, body = one.session or (None, {})
    words = pain_words(body)
    return f"{words} ({day:%a} {day})" if words else ""


def plan_words(name: str, day: date | None) -> str:
    """Say a plan's next session; without one its name alone."""
    name = name or "no name"
    return f"{day:%a} {day.isoformat()}: {name}" if day else name


def ago(day: date, today: date) -> str:
    """How long ago a day was."""
    days = (today - day).days
    if days <= 0:
        return "today"
    if days == 1:
        return "yesterday"
    for most, unit, length in ((FEW_DAYS, "days", 1), (FEW_WEEKS, "weeks", 7), (FEW_MONTHS, "months", DAYS_PER_MONTH)):
        if days < most:
            return f"{round(days / length)} {unit} ago"
    return f"{round(days / DAYS_PER_YEAR)} years ago"


def trend_words(trend: Trend, system: System) -> str:
    """Whether the own-ball speed rose over the season, with how sure that is; empty where there is no reading."""
    if trend.lacking == "no_reading":
        return ""
    slope = trend.slope_m_s
    if slope is None:
        return "too few days to say"
    change, low, high = (system.value(one, "m/s") for one in (slope.estimate, slope.low, slope.high))
    over = f"{system.unit('m/s')} in {STEP_DAYS:.0f} days ({100 * slope.level:.0f} %:"
    places = 1 if max(abs(low), abs(high)) >= COARSE else 2
    if slope.low <= 0.0 <= slope.high:
        return f"not clear, {number(change, places)} {over} {number(low, places)} to {number(high, places)})"
    way, sized = "rose" if change > 0.0 else "fell", sorted((abs(low), abs(high)))
    return f"{way}, {number(abs(change), places)} {over} {number(sized[0], places)} to {number(sized[1], places)})"


def points_of(season: Sequence[DaySpeed]) -> tuple[tuple[int, float], ...]:
    """Day after the first and mean speed (m/s), for a small line: not more than can be seen in it."""
    if len(season) < 2:
        return ()
    step = -(-len(season) // MOST_POINTS)
    kept = season[::-1][::step][::-1]  # the last day is among them
    return tuple(((one.day - season[0].day).days, round(one.mean_m_s, 2)) for one in kept)
