"""The sessions of a plan as a table (CSV), in SI units; those that were thrown with what was said of them."""

import math
import re
from datetime import date

from app.buildup.record import Course, Record
from app.csv_files import csv_line
from app.units import from_si
from model.build_up import METRICS
from model.course import Thrown

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
"""Columns of the metrics of a step; its speed is its cap."""

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
SAID_COLUMNS = ("pain_before", "pain_after", "pain_next_morning", "speed_held", "signs", "decision", "by", "note")


def sessions_table(course: Course) -> str:
    """Write all sessions, those thrown first.

    Parameters
    ----------
    course : Course

    Returns
    -------
    str
        UTF-8 text as RFC 4180 has it: `SESSION_COLUMNS`, those of `METRIC_COLUMNS`, `SAID_COLUMNS` and a note on the
        data. A thrown session has the ball, the speed cap and the throws of its day; what is not known is left empty.
    """
    record = course.record
    note = INVENTED if record.invented else ""
    lines = [csv_line([*SESSION_COLUMNS, *METRIC_COLUMNS.values(), *SAID_COLUMNS, "data"])]
    for i, one in enumerate(record.log):
        lines.append(csv_line([*_thrown_cells(record, i, one), note]))
    for i, session in enumerate(course.schedule.sessions):
        step = session.step
        cells = [
            record.code,
            str(len(record.log) + i + 1),
            session.day.isoformat(),
            "to come",
            str(session.place + 1),
            *_numbers(
                from_si(step.ball.mass_kg, "g"),
                from_si(step.ball.diameter_m, "mm"),
                100.0 * step.share,
                step.speed_m_s,
            ),
            str(session.throws),
            *_numbers(session.area_nms, session.budget_nms),
            *_numbers(*(step.metrics[key] for key in METRICS if key in METRIC_COLUMNS)),
        ]
        lines.append(csv_line([*cells, *[""] * len(SAID_COLUMNS), note]))
    return LINE_END.join(lines) + LINE_END


def file_name(record: Record, today: date, ending: str) -> str:
    """Name a file after the athlete's code and the day.

    Parameters
    ----------
    record : Record
    today : date
    ending : str
        Such as "csv".

    Returns
    -------
    str
        Of letters, digits, ``-`` and ``_``, whatever the code holds.
    """
    code = re.sub(r"[^\w-]+", "-", record.code).strip("-_")
    return f"{'_'.join(part for part in ('levelpeak', code, 'build-up', today.isoformat()) if part)}.{ending}"


def _thrown_cells(record: Record, i: int, one: Thrown) -> list[str]:
    after = one.after
    held = {True: "yes", False: "no", None: ""}[after.speed_held]
    morning = "" if after.pain_next_morning is None else str(after.pain_next_morning)
    return [
        record.code,
        str(i + 1),
        one.day.isoformat(),
        "thrown",
        str(one.place + 1),
        *_numbers(from_si(one.ball.mass_kg, "g"), from_si(one.ball.diameter_m, "mm")),
        "",
        *_numbers(one.speed_m_s),
        str(one.throws),
        *[""] * (2 + len(METRIC_COLUMNS)),
        str(after.pain_before),
        str(after.pain_after),
        morning,
        held,
        " and ".join(after.signs),
        one.decision,
        one.by,
        one.note,
    ]


def _numbers(*numbers: float) -> list[str]:
    return [f"{number:.6g}" if math.isfinite(number) else "" for number in numbers]
