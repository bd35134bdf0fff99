"""The sessions of a plan in a row, thrown and to come: what screen, sheet and file print of them."""

from dataclasses import dataclass
from datetime import date

from app.pages.buildup.course import Course, thrown_metrics
from model.ball import Ball
from model.calendar_plan import Session
from model.session_log import Logged

AFTER_A_SIGN = "thrown after a stop sign"


@dataclass(frozen=True)
class Line:
    """A session.

    Attributes
    ----------
    number : int
        From 1.
    share : float or None
        Of full speed with the ball; None where the plan has another rack since.
    speed_m_s : float
        The most that is to be thrown.
    area_nms : float
        Summed over its throws.
    metrics : dict of str to float
        Of one throw, in SI.
    one : Logged or None
        What was noted of it, if it was thrown.
    session : Session or None
        What is planned, if it is to come.
    late : bool
        Whether it was thrown since a stop sign that was entered late.
    """

    number: int
    day: date
    place: int
    ball: Ball
    share: float | None
    speed_m_s: float
    throws: int
    area_nms: float
    metrics: dict[str, float]
    one: Logged | None = None
    session: Session | None = None
    late: bool = False

    @property
    def state(self) -> str:
        """Whether it was thrown."""
        return "to come" if self.one is None else AFTER_A_SIGN if self.late else "thrown"


def lines_of(course: Course) -> list[Line]:
    """All sessions, those thrown first."""
    record, made = course.record, []
    full = dict(zip(record.table.balls, record.table.speeds_m_s, strict=True))
    for i, (one, metrics) in enumerate(zip(record.log, thrown_metrics(course), strict=True)):
        share = one.speed_m_s / full[one.ball] if one.ball in full else None
        area, late = one.throws * metrics["area"], i in course.late
        planned = (one.day, one.place, one.ball, share, one.speed_m_s, one.throws)
        made.append(Line(i + 1, *planned, area, metrics, one, late=late))
    for session in course.schedule.sessions:
        step = session.step
        planned = (session.day, session.place, step.ball, step.share, step.speed_m_s, session.throws)
        made.append(Line(len(made) + 1, *planned, session.area_nms, step.metrics, session=session))
    return made
