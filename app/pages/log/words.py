"""What the page says of weeks and sessions."""

from datetime import date
from typing import Any

from app.pages.log.answers import LogAnswer, WeekLine
from app.show.ball_words import value_words
from app.show.numbers import number
from app.show.sessions import Entry
from app.units.systems import System
from model.tally import Ratios, Tally, Week

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

NUMBERS = {
    "throws": ("Throws", "throws", ""),
    "peak": ("Highest peak", "peak_nm", "N·m"),
    "area": ("Summed area", "area_nm_s", "N·m·s"),
    "area_above": ("Area above the level", "area_above_nm_s", "N·m·s"),
}
"""The four numbers: how each is headed, its name in a tally and its unit; the keys are those of `Ratios`."""

NO_FOUR = "no four weeks yet"
NOT_OVER = "not over yet"

HOW = (
    "All throws of an entry are taken to have been thrown at its highest speed, so sums and peaks are upper bounds. "
    "Weeks run from Monday to Sunday. Planned is what the plans had for the sessions that were thrown of them; "
    "a session outside a plan has none. A week is set beside the mean of the four before it, empty ones counted as "
    "zero. What was thrown before the log began is not known, so its first four weeks are set beside none. This is "
    "bookkeeping: no ratio here is known to be safe or harmful."
)


def counted(count: int, one: str, many: str = "") -> str:
    """Write a number of things."""
    return f"{number(count, 0)} {one if count == 1 else many or one + 's'}"


def day_words(day: date) -> str:
    """Write a day with its weekday."""
    return f"{DAYS[day.weekday()]} {day.isoformat()}"


def week_name(week: Week) -> str:
    """Name a week by year and number."""
    return f"{week.year}, week {week.number}"


def days_of(first: date, last: date) -> str:
    """Write the days of a week, or of several."""
    start = f"{first.day} {MONTHS[first.month - 1]}" if first.month != last.month else str(first.day)
    start += f" {first.year}" if first.year != last.year else ""
    return f"{start} to {last.day} {MONTHS[last.month - 1]} {last.year}"


def value_of(tally: Tally, key: str) -> float | None:
    """One of the four numbers."""
    found: float | None = getattr(tally, NUMBERS[key][1])
    return found


def number_words(value: float | None, key: str) -> str:
    """Write one of the four numbers with its unit."""
    unit = NUMBERS[key][2]
    if value is None:
        return "no level set"
    if value == 0.0:
        return f"0 {unit}".strip()
    if not unit:
        return number(value, 0 if value == int(value) else 1)
    return value_words(value, unit)


def beside(week: Week, key: str) -> str:
    """Set a number of a week beside the mean of the four weeks before."""
    if week.before is None:
        return NO_FOUR
    then = value_of(week.before, key)
    ratio: float | None = getattr(week.ratios, key) if isinstance(week.ratios, Ratios) else None
    if then is None:
        return ""
    if ratio is None:
        return "nothing in the four weeks before"
    return f"{number(ratio, 2)} times the mean of the four weeks before, {number_words(then, key)}"


def planned_words(planned: Tally | None, key: str) -> str:
    """Say what was planned."""
    return "" if planned is None else f"planned {number_words(value_of(planned, key), key)}"


def sentence(answer: LogAnswer) -> str:
    """Say what of this week is in the log, or when the last session was."""
    if not answer.weeks:
        return ""
    now, last = answer.weeks[-1], answer.last
    if not now.empty:
        throws, sessions = counted(int(now.week.tally.throws), "throw"), counted(now.week.sessions, "session")
        planned = ""
        if now.planned is not None:
            planned = f" Planned were {number(now.planned.throws, 0)}"
            planned += f"; thrown outside a plan: {number(now.outside, 0)}." if now.outside else "."
        return f"This week so far: {throws} in {sessions}.{planned}"
    day = max(one.day for one in answer.read.entries)
    named = f", in week {last.week.number} of {last.week.year}" if last is not None else ""
    return f"Nothing of this week is in the log. The last session was on {day_words(day)}{named}."


def week_head(line: WeekLine) -> str:
    """Head the numbers of the newest week."""
    sure = "" if line.over else f", {NOT_OVER}"
    return f"Week {line.week.number} of {line.week.year}{sure}"


def entry_words(entry: Entry, system: System, ball: str) -> str:
    """Say what was thrown: how often, which ball, how fast."""
    read = f"up to {system.text(entry.speed_m_s, 'm/s', least=1, most=1)}"
    how = read if entry.was_read else f"as planned, {system.cap(entry.speed_m_s, 'm/s')}"
    return f"{number(entry.throws, 0)} × {ball}, {how}"


def entry_planned(entry: Entry, system: System) -> str:
    """Say what was planned for an entry."""
    if entry.planned is None or entry.planned_m_s is None:
        return ""
    return f"planned {number(entry.planned, 0)} × up to {system.cap(entry.planned_m_s, 'm/s')}"


def figure_note(bars: str, weeks: list[WeekLine], answer: LogAnswer) -> str:
    """Say what the bars are."""
    what = "throws" if bars == "throws" else "summed area (N·m·s)"
    said: list[Any] = [f"A bar is a calendar week: {what}."]
    if any(line.planned is not None for line in weeks):
        said.append("The outline is what was planned for the sessions of plans.")
    if weeks and not weeks[-1].over and not weeks[-1].empty:
        said.append("The hatched week is not over yet.")
    if weeks and weeks[-1].week.monday < answer.weeks[-1].week.monday:
        said.append("Since then nothing is in the log.")
    said.append("The table below says the same in numbers.")
    return " ".join(said)
