"""The sessions that are left as a calendar (iCalendar, RFC 5545): one event of a whole day for each."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta

from app.buildup.record import Course
from app.cautions import CAUTIONS
from app.systems import METRIC, System
from app.version import VERSION

LINE_END = "\r\n"
LONGEST_LINE = 75  # octets, without the end of the line: RFC 5545, 3.1
STAMP = "%Y%m%dT%H%M%SZ"


def calendar_text(course: Course, now: datetime, with_code: bool, system: System = METRIC) -> str:
    """Write the calendar.

    Parameters
    ----------
    course : Course
    now : datetime
        With its time zone; when the file was made.
    with_code : bool
        Whether the athlete's code stands in it. No name ever does.
    system : System
        The units of ball and speed.

    Returns
    -------
    str
        An event's UID stays the same when the file is made again, so that a calendar changes it and adds none.
    """
    record = course.record
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:-//Levelpeak//Levelpeak {VERSION}//EN", "CALSCALE:GREGORIAN"]
    for i, one in enumerate(course.schedule.sessions, start=len(record.log)):
        ball = system.text(one.step.ball.mass_kg, "g")
        cap = system.cap(one.step.speed_m_s, "m/s")
        code = f"{record.code}: " if with_code and record.code else ""
        easier = " Easier week." if one.easier else ""
        said = (
            f"Step {one.place + 1} of {len(record.throws)}: {ball} at {100.0 * one.step.share:.0f} % of full speed "
            f"with it, {cap} at most, {one.throws} throws.{easier} Note pain before, after and on the next morning "
            f"(0–10), and whether the speed was held. {' '.join(CAUTIONS[1:])}"
        )
        lines += [
            "BEGIN:VEVENT",
            f"UID:{record.mark}-{i + 1}@levelpeak.invalid",
            f"DTSTAMP:{now.astimezone(UTC).strftime(STAMP)}",
            f"DTSTART;VALUE=DATE:{_day(one.day)}",
            f"DTEND;VALUE=DATE:{_day(one.day + timedelta(1))}",
            f"SUMMARY:{_escaped(f'{code}{ball}, up to {cap}, {one.throws} throws')}",
            f"DESCRIPTION:{_escaped(said)}",
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return LINE_END.join(_folded(lines)) + LINE_END


def _day(day: date) -> str:
    return day.strftime("%Y%m%d")


def _escaped(text: str) -> str:
    for mark in ("\\", ";", ","):
        text = text.replace(mark, f"\\{mark}")
    return " ".join(text.split())  # a code may hold no line's end, and none would be readable here


def _folded(lines: Iterable[str]) -> Iterable[str]:
    """Break lines that are too long, between characters: the rest begins with a blank."""
    for line in lines:
        part = ""
        for letter in line:
            if len((part + letter).encode()) > LONGEST_LINE:
                yield part
                part = " "
            part += letter
        yield part
