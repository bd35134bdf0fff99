"""What the page says of a plan: its sentence, what it is for, which limits a step breaks, why there is none."""

import math
import re
from collections import Counter
from datetime import date
from itertools import pairwise

from app.pages.buildup.aims import AIMS
from app.pages.buildup.course import Course
from app.pages.buildup.games import game_limit
from app.pages.buildup.record import Record
from app.records.plan_fields import CAP_LIMITS
from app.show.numbers import capital
from app.show.subject import is_same
from app.units.conversion import from_si, plain, rounded_down
from app.units.systems import METRIC, System
from model.ball import Ball
from model.build_up import Breach, Loosening, NoPlan, Step
from model.calendar_plan import SessionBreach
from model.person import Person

GAMES = (
    "Published daily limits on throws are limits for games: they do not cover these throws, and are not a budget for "
    "them. Local rules count both."
)
PRACTICE = (
    "Step limits, budget, easier weeks and repeats: common practice, no source; the weekly tenth is tradition, not "
    "established for throwing."
)

DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MOST_STEPS_A_WEEK = 2  # values.csv 9-load-rules-15


def game_words(person: Person) -> tuple[str, str]:
    """Say that published daily limits are limits for games, with that of the person's age where there is one.

    Returns
    -------
    str
    str
        Its source; empty without one.
    """
    limit = game_limit(person)
    if limit is None:
        return GAMES, ""
    age = f"{limit.low_years} to {limit.high_years} years"
    return f"{GAMES} For games, at {age}: {limit.throws} pitches a day at most.", f"Limit for games: {limit.source}."


def metric_words(key: str, value: float, system: System = METRIC) -> str:
    """Write a metric with its unit, in three figures or so.

    Parameters
    ----------
    key : str
        A key of `METRICS`.
    value : float
        In SI.
    """
    return f"{metric_number(key, value, system)} {system.unit(CAP_LIMITS[key][0])}"


def metric_number(key: str, value: float, system: System = METRIC) -> str:
    """The same without the unit."""
    if not math.isfinite(value):
        return "–"
    unit = CAP_LIMITS[key][0]
    if key == "speed":
        return f"{rounded_down(system.value(value, unit), 1):.1f}"  # not to be gone beyond
    shown = system.value(value, unit)
    return f"{shown:.0f}" if abs(shown) >= 100.0 else f"{shown:.1f}" if abs(shown) >= 10.0 else f"{shown:.2f}"


def ball_words(ball: Ball, record: Record, system: System) -> str:
    """Call a ball by its mass, and say if it is the own one."""
    own = ", own ball" if is_same(ball, record.own_ball) else ""
    return f"{system.text(ball.mass_kg, 'g')}{own}"


def sentence(course: Course, system: System) -> str:
    """Say the plan in a sentence: aim, steps, sessions, days, from what to what."""
    record = course.record
    count, sessions = len(record.throws), len(course.row.order)
    first, last = record.steps[0], record.steps[-1]
    said = f"{capital(AIMS[record.aim].label)}: {count_words(count, 'step')} in {count_words(sessions, 'session')}"
    days = [one.day for one in record.log] + [one.day for one in course.schedule.sessions]
    if days and (course.next is None or course.standing.most is not None or course.waits):
        said += f", from {min(days)} on"  # what comes after is not planned yet
    elif days:
        said += f", {min(days)} to {max(days)}"
    if count == 1:
        return f"{said}; {throw_words(first, record, system)} all along."
    return f"{said}; from {throw_words(first, record, system)} to {throw_words(last, record, system)}."


def throw_words(step: Step, record: Record, system: System) -> str:
    """Say a step: ball, speed and share."""
    speed = system.cap(step.speed_m_s, "m/s")
    return f"{ball_words(step.ball, record, system)} at {speed} ({share_words(step.share)})"


def share_words(share: float) -> str:
    """Write a share in per cent, with a decimal where it was typed with one."""
    return f"{plain(100.0 * share, most=1)} %"


def why_words(record: Record, system: System) -> str:
    """Say why the balls come in this order, in the units that are shown.

    Parameters
    ----------
    record : Record
        Its reason is kept as the model wrote it: balls in whole grams, shares without a blank.
    """
    why = re.sub(r"(?<=[0-9])%", " %", record.why)
    for ball in record.table.balls:
        why = why.replace(f"the {from_si(ball.mass_kg, 'g'):.0f} g ball", f"the {system.text(ball.mass_kg, 'g')} ball")
    return why


def pace_words(course: Course) -> str:
    """Say in which weeks a plan goes on by more steps than the soreness rules do.

    Returns
    -------
    str
        Empty if in none. A step of which the lead readout is no higher than before is no step on.
    """
    lead = course.record.lead
    on = Counter(
        now.week + 1
        for before, now in pairwise(course.schedule.sessions)
        if now.place > before.place and now.step.metrics[lead] > before.step.metrics[lead] * (1.0 + 1e-3)
    )
    weeks = [week for week, steps in sorted(on.items()) if steps > MOST_STEPS_A_WEEK]
    if not weeks:
        return ""
    week = "Week" if len(weeks) == 1 else "Weeks"
    return (
        f"{week} {ranges(weeks)}: more than {MOST_STEPS_A_WEEK} steps on in a week; "
        "the soreness rules, as clinics print them, go on by no more. More sessions at "
        "each step, or fewer days, would keep to that."
    )


def breach_words(breach: Breach, system: System) -> str:
    """Name a limit that a step breaks.

    Returns
    -------
    str
        For example "rise rate at the elbow 18 % above step 3; limit 15 %".
    """
    if breach.kind == "rise":
        return f"{breach.label} {_percent(breach.value)} above step {breach.step}; limit {_percent(breach.limit)}"
    return (
        f"{breach.label} {metric_words(breach.key, breach.value, system)}; "
        f"cap {metric_words(breach.key, breach.limit, system)}"
    )


def session_breach_words(breach: SessionBreach) -> str:
    """Name what a session breaks."""
    if breach.kind == "budget":
        return f"summed area {breach.value:.0f} N·m·s; this week’s budget {breach.limit:.0f}"
    if breach.kind in ("most_throws", "least_throws"):
        word = "most" if breach.kind == "most_throws" else "least"
        return f"{breach.value:.0f} throws; at {word} {breach.limit:.0f}"
    return {
        "weekday": "not one of the days to throw on",
        "order": "not after the session before",
        "first_day": "before the first day",
    }[breach.kind]


def no_plan_words(found: NoPlan, system: System) -> str:
    """Say that no such plan exists, and which limit blocks."""
    said = f"No such plan exists: no {count_words(found.steps, 'step')} keep every limit."
    if found.loosenings:
        said += f" {loosening_words(found.loosenings[0], system)}"
    else:
        said += " No change of a single limit is enough"
        if found.together is not None:
            factor = f"{found.together.factor:.2f} times"
            said += f": {found.together.label} blocks until every rise allowed is {factor} as large"
        said += "."
        for breach in found.shut:
            end = "goal" if breach.step else "start"
            said += f" The {end} itself is above a cap: {breach_words(breach, system)}."
    if found.fewest_steps is not None and found.fewest_steps != found.steps:
        said += f" With the limits as they are, {count_words(found.fewest_steps, 'step')} would do."
    return said


def loosening_words(one: Loosening, system: System) -> str:
    """Say which limit blocks and what would do instead."""
    if one.kind == "rise":
        needed, given = _percent(one.needed, up=True), _percent(one.given)
        return f"The limit that blocks: {one.label} may rise {given} a step; {needed} would do."
    return (
        f"The limit that blocks: the cap on {one.label}, {metric_words(one.key, one.given, system)}; "
        f"{metric_words(one.key, one.needed, system)} would do."
    )


def _percent(share: float, up: bool = False) -> str:
    percent = 100.0 * share
    return f"{math.ceil(10.0 * percent - 1e-9) / 10.0 if up else round(percent, 1):g} %"


def day_words(day: date) -> str:
    """A day with its name, such as "Mon 2026-03-02"."""
    return f"{DAY_NAMES[day.weekday()]} {day}"


def count_words(number: int, word: str) -> str:
    """A number with its word, such as "1 step"."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def broken_words(course: Course) -> str:
    """Say where limits are broken; empty if none is."""
    steps = sorted({one.step + 1 for one in course.breaches})
    sessions = len({one.session for one in course.session_breaches})
    told = []
    if steps:
        told.append(f"step{'' if len(steps) == 1 else 's'} {ranges(steps)}")
    if sessions:
        told.append(f"{sessions} session{'' if sessions == 1 else 's'}")
    if not told:
        return ""
    return f"Limits are broken at {' and '.join(told)}; each is named in its table."


def ranges(numbers: list[int]) -> str:
    """Numbers in rising order; three or more that follow one another as from–to."""
    rows: list[list[int]] = []
    for number in numbers:
        if rows and number == rows[-1][-1] + 1:
            rows[-1].append(number)
        else:
            rows.append([number])
    return ", ".join(f"{row[0]}–{row[-1]}" if len(row) > 2 else ", ".join(map(str, row)) for row in rows)


def changed_words(course: Course) -> str:
    """Say what the last change by hand did, and where limits are broken now."""
    line = course.record.changed[-1].partition(": ")[2]
    return f"{capital(line)}. {broken_words(course) or 'No limit is broken.'}"
