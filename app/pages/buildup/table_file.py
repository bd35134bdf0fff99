"""The sessions of a plan as a table (CSV), in SI units; those that were thrown with all that was noted of them."""

import math
import re
from datetime import date

from app.csv_files import csv_line
from app.pages.buildup.course import Course, thrown_metrics
from app.pages.buildup.head_words import closed_words
from app.pages.buildup.record import Record
from app.pages.buildup.tables import AFTER_A_SIGN, area_of
from app.show.cautions import cautions
from app.units.conversion import from_si
from model.build_up import METRICS
from model.session_log import Logged
from model.session_rules import WHEN, Soreness

LINE_END = "\r\n"
INVENTED = "invented demo data"

METRIC_COLUMNS = {
    "rise_rate": "elbow_rise_rate_nm_s",
    "peak": "elbow_peak_nm",
    "shoulder_peak": "shoulder_peak_nm",
    "loaded_s": "time_loaded_s",
    "area": "elbow_area_nms",
    "braking": "braking_peak_nm",
}
"""Columns of the metrics of a throw; its speed is its cap, and of a session thrown no more than was read."""

SESSION_COLUMNS = (
    "athlete",
    "session",
    "day",
    "state",
    "step",
    "ball_mass_g",
    "ball_diameter_mm",
    "share_percent",
    "speed_cap_m_s",
    "throws",
    "area_nms",
    "budget_nms",
)
NOTED_COLUMNS = (
    "throws_planned",
    "highest_speed_m_s",
    "pain_site",
    *(f"pain_{when}" for when in WHEN),
    *(f"soreness_{when}" for when in WHEN),
    "soreness_over_three_days",
    "soreness_one_spot",
    "painkiller",
    "speed_held",
    "stop_signs",
    "decision",
    "days_off",
    "by",
    "role",
    "note",
)
PLAN_COLUMNS = ("reference_kind", "reference_date", "plan_state", "data", "cautions")
YES_NO = {True: "yes", False: "no", None: ""}


def sessions_table(course: Course) -> str:
    """Write all sessions, those thrown first.

    Returns
    -------
    str
        UTF-8 text as RFC 4180 has it: `SESSION_COLUMNS`, those of `METRIC_COLUMNS`, `NOTED_COLUMNS` and `PLAN_COLUMNS`.
        What was thrown has its own throws and area; what is not known is left empty, which is not none. While a plan
        stands still and nothing was thrown, one line says so.
    """
    record = course.record
    reference, said = record.reference, closed_words(course) or "open"
    tail = [reference.kind, str(reference.on or ""), said, INVENTED if record.invented else ""]
    tail.append(" ".join(cautions(record.person)))
    lines = [csv_line([*SESSION_COLUMNS, *METRIC_COLUMNS.values(), *NOTED_COLUMNS, *PLAN_COLUMNS])]
    for i, one in enumerate(record.log):
        lines.append(csv_line([*_thrown_cells(course, i, one), *tail]))
    for i, session in enumerate(course.schedule.sessions):
        step = session.step
        ball = (from_si(step.ball.mass_kg, "g"), from_si(step.ball.diameter_m, "mm"))
        cells = [
            record.code,
            str(len(record.log) + i + 1),
            session.day.isoformat(),
            "to come",
            str(session.place + 1),
            *_numbers(*ball, 100.0 * step.share, step.speed_m_s),
            str(session.throws),
            *_numbers(session.area_nms, session.budget_nms),
            *_metrics(step.metrics),
        ]
        lines.append(csv_line([*cells, *[""] * len(NOTED_COLUMNS), *tail]))
    if len(lines) == 1:
        empty = [""] * (len(SESSION_COLUMNS) - 4 + len(METRIC_COLUMNS) + len(NOTED_COLUMNS))
        lines.append(csv_line([record.code, "", "", "closed", *empty, *tail]))
    return LINE_END.join(lines) + LINE_END


def file_name(record: Record, today: date, ending: str) -> str:
    """Name a file after the athlete's code and the day, of letters, digits, ``-`` and ``_`` whatever the code holds."""
    code = re.sub(r"[^\w-]+", "-", record.code).strip("-_")
    return f"{'_'.join(part for part in ('levelpeak', code, 'build-up', today.isoformat()) if part)}.{ending}"


def _thrown_cells(course: Course, i: int, one: Logged) -> list[str]:
    notes, sore = one.notes, one.notes.soreness
    ratings = (getattr(notes.pain, when) for when in WHEN)
    state = AFTER_A_SIGN if i in course.late else "thrown"
    return [
        course.record.code,
        str(i + 1),
        one.day.isoformat(),
        state,
        str(one.place + 1),
        *_numbers(from_si(one.ball.mass_kg, "g"), from_si(one.ball.diameter_m, "mm")),
        *_share(course.record, one),
        *_numbers(one.speed_m_s),
        str(one.throws),
        *_numbers(area_of(course, i)),
        "",
        *_metrics(thrown_metrics(course)[i]),
        str(one.planned),
        "" if one.top_speed_m_s is None else f"{one.top_speed_m_s:.6g}",
        notes.pain.site,
        *("" if rating is None else str(rating) for rating in ratings),
        *(YES_NO[getattr(sore, when)] for when in WHEN),
        *_more(sore),
        YES_NO[notes.painkiller],
        YES_NO[notes.speed_held],
        " and ".join(notes.signs),
        one.decision,
        str(one.days_off),
        one.by,
        one.role,
        one.note,
    ]


def _share(record: Record, one: Logged) -> list[str]:
    """The share of full speed with its ball, in per cent; empty where the plan has another rack since."""
    full = dict(zip(record.table.balls, record.table.speeds_m_s, strict=True)).get(one.ball)
    return _numbers(100.0 * one.speed_m_s / full) if full else [""]


def _more(sore: Soreness) -> list[str]:
    return [YES_NO[sore.over_three_days], YES_NO[sore.one_spot]]


def _metrics(metrics: dict[str, float]) -> list[str]:
    return _numbers(*(metrics[key] for key in METRICS if key in METRIC_COLUMNS))


def _numbers(*numbers: float) -> list[str]:
    return [f"{number:.6g}" if math.isfinite(number) else "" for number in numbers]
