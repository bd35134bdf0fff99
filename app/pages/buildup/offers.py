"""What can be done where a target day is too near, or leaves days over. Pure."""

from dataclasses import dataclass
from datetime import date, timedelta

from app.pages.buildup.course import Course
from app.pages.buildup.record import MOST_STEPS
from model.calendar_plan import REPEATS_LIMIT, Calendar


@dataclass(frozen=True)
class Offer:
    """Something that can be done about the days.

    Attributes
    ----------
    key : str
        ``sessions``, ``steps``, ``first_day`` or ``target_day``: what of the plan is changed.
    value : str
        What it becomes, as it would be typed.
    words : str
        What the button says.
    """

    key: str
    value: str
    words: str


def offers_of(course: Course, today: date) -> tuple[str, tuple[Offer, ...]]:
    """Say how a plan stands to its target day, and what can be done.

    Returns
    -------
    str
        In words; empty without a target day or without days.
    tuple of Offer
        Only before the first session was logged: afterwards it is the log that moves the days.
    """
    record, laid = course.record, course.schedule
    calendar, spare = record.calendar, laid.spare_sessions
    if calendar.target_day is None or laid.days_late is None or spare is None or not laid.sessions:
        return "", ()
    target, steps = calendar.target_day, len(record.throws)
    last, each = laid.sessions[-1].day, record.repeats[-1]
    if spare == 0 and laid.days_late <= 0:
        return f"The last session is on {last}, and there is no day over before the target day, {target}.", ()
    made: list[Offer] = []
    if laid.days_late > 0:
        short = -spare
        said = (
            f"The target day, {target}, is too near: the last session is on {last}, {laid.days_late} days after it. "
            f"There is room for {max(len(laid.sessions) - short, 0)} of {len(laid.sessions)} sessions."
        )
        room = len(laid.sessions) - short
        if room >= steps:
            made.append(_spread(room, steps))
        earlier = _back(calendar, short)
        if earlier >= today:
            made.append(Offer("first_day", earlier.isoformat(), f"begin earlier, on {earlier}"))
        made.append(Offer("target_day", last.isoformat(), f"move the target day to {last}"))
        said += " Looser step limits would make fewer steps; an added day of the week, more sessions."
    else:
        said = (
            f"The last session is on {last}; up to the target day, {target}, there is room for {_sessions(spare)} more."
        )
        more = min(spare // each, MOST_STEPS - steps)
        if more > 0 and steps > 1:
            made.append(Offer("steps", str(steps + more), f"smaller steps: {steps + more} of them"))
        if len(laid.sessions) + spare <= REPEATS_LIMIT.high * steps:
            made.append(_spread(len(laid.sessions) + spare, steps))
        later = _on(calendar, spare)
        made.append(Offer("first_day", later.isoformat(), f"begin later, on {later}"))
    return said, tuple(made) if not record.log else ()


def spread(sessions: int, steps: int) -> tuple[int, ...]:
    """Give each step its sessions, as even as can be; the last steps, where most is thrown, get those left over.

    Parameters
    ----------
    sessions : int
        No fewer than there are steps.
    """
    each, more = divmod(sessions, steps)
    return (each,) * (steps - more) + (each + 1,) * more


def _spread(sessions: int, steps: int) -> Offer:
    each, more = divmod(sessions, steps)
    words = f"{_sessions(each)} at each step"
    if more:
        words += f", {each + 1} at the last {more}" if more > 1 else f", {each + 1} at the last"
    return Offer("sessions", str(sessions), words)


def _sessions(count: int) -> str:
    return f"{count} session" if count == 1 else f"{count} sessions"


def _back(calendar: Calendar, sessions: int) -> date:
    """The first day that leaves room for so many sessions more."""
    day = calendar.first_day
    while sessions > 0:
        day -= timedelta(1)
        sessions -= day.weekday() in calendar.weekdays
    return day


def _on(calendar: Calendar, sessions: int) -> date:
    """The first day that leaves out so many sessions."""
    day = calendar.first_day
    while sessions > 0 or day.weekday() not in calendar.weekdays:
        sessions -= day.weekday() in calendar.weekdays
        day += timedelta(1)
    return day
