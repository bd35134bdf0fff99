"""The sessions that are left as a calendar (iCalendar, RFC 5545): one event of a whole day for each.

What stands in a calendar that was handed out and no longer holds is in the file as cancelled, under the same name.
"""

from datetime import UTC, date, datetime, timedelta

from icalendar import Calendar, Event

from app.pages.buildup.course import SIGNED, Course
from app.pages.buildup.head_words import closed_words, waits_words
from app.show.cautions import CAUTIONS, GROWING, is_growing
from app.units.systems import METRIC, System
from app.version import VERSION
from model.calendar_plan import Session

NOTE = (
    "Note pain at elbow and shoulder before the first throw, while throwing, an hour after and on the next morning "
    "(0–10), muscle soreness, painkillers, and whether the speed was held."
)


def calendar_text(course: Course, now: datetime, with_code: bool, system: System = METRIC) -> str:
    """Write the calendar.

    Parameters
    ----------
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
    made = Calendar()
    made.add("VERSION", "2.0")
    made.add("PRODID", f"-//Levelpeak//Levelpeak {VERSION}//EN")
    made.add("CALSCALE", "GREGORIAN")
    sessions = list(enumerate(course.schedule.sessions, start=len(record.log) + 1))
    gone = _gone(course)
    if gone and not sessions:
        made.add("METHOD", "CANCEL")
    said = " ".join(part for part in (_flag(course), waits_words(course)) if part)
    if said:
        made.add("X-WR-CALDESC", said)  # what calendars show of a file as a whole
    for number, one in sessions:
        made.add_component(_event(record.mark, number, one, course, now, with_code, system))
    for mark, number in gone:
        made.add_component(_cancelled(mark, number, course, now))
    return made.to_ical().decode("utf-8")


def _flag(course: Course) -> str:
    return closed_words(course) if course.closed in SIGNED else ""


def _gone(course: Course) -> list[tuple[str, int]]:
    """Sessions that were handed out and are neither thrown nor to come: the plan's mark and their number."""
    record = course.record
    last = len(record.log) + len(course.schedule.sessions)
    return [
        (one.mark, number)
        for one in record.handed_out
        for number in range(one.first if one.mark != record.mark else last + 1, one.last + 1)
    ]


def _bare(mark: str, number: int, course: Course, now: datetime, day: date) -> Event:
    event = Event()
    event.add("UID", f"{mark}-{number}@levelpeak.invalid")
    event.add("DTSTAMP", now.astimezone(UTC))
    event.add("SEQUENCE", course.record.calendars)
    event.add("DTSTART", day)
    event.add("DTEND", day + timedelta(1))
    return event


def _cancelled(mark: str, number: int, course: Course, now: datetime) -> Event:
    event = _bare(mark, number, course, now, now.date())
    event.add("STATUS", "CANCELLED")
    event.add("SUMMARY", "Throwing session cancelled")
    why = closed_words(course) or waits_words(course) or "The plan has changed: this session is no longer planned."
    event.add("DESCRIPTION", why)
    event.add("TRANSP", "TRANSPARENT")
    return event


def _event(
    mark: str, number: int, one: Session, course: Course, now: datetime, with_code: bool, system: System
) -> Event:
    record = course.record
    ball, cap = system.text(one.step.ball.mass_kg, "g"), system.cap(one.step.speed_m_s, "m/s")
    code = f"{' '.join(record.code.split())}: " if with_code and record.code else ""
    easier = " Easier week." if one.easier else ""
    growing = f"{GROWING[0]} " if is_growing(record.person) else ""
    event = _bare(mark, number, course, now, one.day)
    event.add("SUMMARY", f"{code}{ball}, up to {cap}, {one.throws} throws")
    event.add(
        "DESCRIPTION",
        f"{growing}Step {one.place + 1} of {len(record.throws)}: {ball} at {100.0 * one.step.share:.0f} % of full "
        f"speed with it, {cap} at most, {one.throws} throws.{easier} {NOTE} {' '.join(CAUTIONS)}",
    )
    event.add("TRANSP", "TRANSPARENT")
    return event
