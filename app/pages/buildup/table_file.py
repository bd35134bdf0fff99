"""The sessions of a plan as a table (CSV), in SI units; those that were thrown with all that was noted of them."""

import math
import re
from datetime import date
from typing import Any

from app.csv_files import csv_line
from app.pages.buildup.course import Course
from app.pages.buildup.head_words import closed_words
from app.pages.buildup.lines import Line, lines_of
from app.pages.buildup.record import Record
from app.show.cautions import cautions
from app.units.conversion import from_si
from model.session_log import Logged
from model.session_rules import WHEN

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


def sessions_table(course: Course) -> str:
    """Write all sessions, those thrown first.

    Returns
    -------
    str
        UTF-8 text as RFC 4180 has it: `SESSION_COLUMNS`, those of `METRIC_COLUMNS`, `NOTED_COLUMNS` and `PLAN_COLUMNS`.
        What was thrown has its own throws and area; what is not known is left empty, which is not none. While a plan
        stands still and nothing was thrown, one line says so.
    """
    record, reference = course.record, course.record.reference
    of_plan = {
        "athlete": record.code,
        "reference_kind": reference.kind,
        "reference_date": reference.on,
        "plan_state": closed_words(course) or "open",
        "data": INVENTED if record.invented else "",
        "cautions": " ".join(cautions(record.person)),
    }
    rows = [of_plan | _cells(line) for line in lines_of(course)] or [of_plan | {"state": "closed"}]
    columns = [*SESSION_COLUMNS, *METRIC_COLUMNS.values(), *NOTED_COLUMNS, *PLAN_COLUMNS]
    lines = [csv_line(columns), *(csv_line([_text(row.get(name)) for name in columns]) for row in rows)]
    return LINE_END.join(lines) + LINE_END


def _cells(line: Line) -> dict[str, Any]:
    cells = {
        "session": line.number,
        "day": line.day,
        "state": line.state,
        "step": line.place + 1,
        "ball_mass_g": from_si(line.ball.mass_kg, "g"),
        "ball_diameter_mm": from_si(line.ball.diameter_m, "mm"),
        "share_percent": None if line.share is None else 100.0 * line.share,
        "speed_cap_m_s": line.speed_m_s,
        "throws": line.throws,
        "area_nms": line.area_nms,
        "budget_nms": None if line.session is None else line.session.budget_nms,
        **{column: line.metrics[key] for key, column in METRIC_COLUMNS.items()},
    }
    return cells if line.one is None else cells | _noted(line.one)


def _noted(one: Logged) -> dict[str, Any]:
    notes, sore = one.notes, one.notes.soreness
    return {
        "throws_planned": one.planned,
        "highest_speed_m_s": one.top_speed_m_s,
        "pain_site": notes.pain.site,
        **{f"pain_{when}": getattr(notes.pain, when) for when in WHEN},
        **{f"soreness_{when}": getattr(sore, when) for when in (*WHEN, "over_three_days", "one_spot")},
        "painkiller": notes.painkiller,
        "speed_held": notes.speed_held,
        "stop_signs": " and ".join(notes.signs),
        **{name: getattr(one, name) for name in ("decision", "days_off", "by", "role", "note")},
    }


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.6g}" if math.isfinite(value) else ""
    return "" if value is None else str(value)


def file_name(record: Record, today: date, ending: str) -> str:
    """Name a file after the athlete's code and the day, of letters, digits, ``-`` and ``_`` whatever the code holds."""
    code = re.sub(r"[^\w-]+", "-", record.code).strip("-_")
    return f"{'_'.join(part for part in ('levelpeak', code, 'build-up', today.isoformat()) if part)}.{ending}"
