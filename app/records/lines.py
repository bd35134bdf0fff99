"""The list of athletes: what stands in the line of each."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, ScalarSelect, Select, func, or_, select
from sqlalchemy.orm import Session

from app.records.store import Store
from app.records.tables import Athlete, Ball, Plan, Reading, SessionLog, StopSign
from model.day_speeds import DaySpeed
from model.speed_readings import SAME_BALL_KG

FULL = 1.0


@dataclass(frozen=True)
class AthleteLine:
    """A line of the list of athletes.

    Attributes
    ----------
    uid, code : str
    invented : bool
    archived_at, opened_at : datetime or None
    last_reading : date or None
    own_speeds : tuple of DaySpeed
        By day, the oldest first.
    plans : tuple of (str, str, date or None)
        uid, name and day of the next session of those that are not archived.
    signs : tuple of str
        Stop signs that stand, the oldest first.
    session : (date, dict) or None
        Day and body of the last session of a plan.
    """

    uid: str
    code: str
    invented: bool
    archived_at: datetime | None
    opened_at: datetime | None
    last_reading: date | None
    own_speeds: tuple[DaySpeed, ...]
    plans: tuple[tuple[str, str, date | None], ...]
    signs: tuple[str, ...]
    session: tuple[date, dict[str, Any]] | None


def _full_effort() -> ColumnElement[bool]:
    return Reading.distance_m.is_(None) & or_(Reading.asked_effort.is_(None), Reading.asked_effort == FULL)


def athlete_lines(store: Store, since: date, archived: bool = False) -> tuple[AthleteLine, ...]:
    """The list of athletes, those looked at last first.

    Parameters
    ----------
    store : Store
    since : date
        The first day of the own-ball speeds.
    archived : bool
        The archived ones instead of the others.

    Returns
    -------
    tuple of AthleteLine
    """
    with store.session() as session:
        last = _last_day()
        kept = Athlete.archived_at.is_not(None) if archived else Athlete.archived_at.is_(None)
        rows = session.execute(select(Athlete, last).where(kept)).all()
        speeds = _own_speeds(session, since)
        plans: dict[int, list[tuple[str, str, date | None]]] = {}
        of = (Plan.athlete_id, Plan.uid, Plan.name, Plan.body["next"].as_string())  # the last: see the plan's page
        for athlete, uid, name, day in session.execute(select(*of).where(Plan.archived_at.is_(None)).order_by(Plan.id)):
            plans.setdefault(athlete, []).append((uid, name, date.fromisoformat(day) if day else None))
        signs: dict[int, list[str]] = {}
        standing = StopSign.cleared_by.is_(None) & StopSign.withdrawn_by.is_(None)
        told = select(StopSign.athlete_id, StopSign.sign).where(standing).order_by(StopSign.since, StopSign.id)
        for athlete, sign in session.execute(told):
            signs.setdefault(athlete, []).append(sign)
        sessions = {athlete: (day, body) for athlete, day, body in session.execute(_last_sessions())}
    made = [
        AthleteLine(
            one.uid,
            one.code,
            one.invented,
            one.archived_at,
            one.opened_at,
            day,
            tuple(speeds.get(one.id, ())),
            tuple(plans.get(one.id, ())),
            tuple(signs.get(one.id, ())),
            sessions.get(one.id),
        )
        for one, day in rows
    ]
    by_code = sorted(made, key=lambda line: line.code.casefold())
    return tuple(sorted(by_code, key=lambda line: -line.opened_at.timestamp() if line.opened_at else 0.0))


def last_days(store: Store) -> tuple[date, ...]:
    """The day of each athlete's last reading, of those who have any."""
    with store.session() as session:
        return tuple(day for day in session.scalars(select(_last_day()).select_from(Athlete)) if day is not None)


def _last_day() -> ScalarSelect[date]:
    """The day of an athlete's last reading: one look into the index, where the largest of all would be many."""
    of = select(Reading.day).where(Reading.athlete_id == Athlete.id)
    return of.order_by(Reading.day.desc()).limit(1).correlate(Athlete).scalar_subquery()


def _last_sessions() -> Select[tuple[int, date, dict[str, Any]]]:
    """The last session of a plan of each athlete."""
    of = select(SessionLog.id).where(SessionLog.athlete_id == Athlete.id, SessionLog.plan_id.is_not(None))
    last = of.order_by(SessionLog.day.desc(), SessionLog.id.desc()).limit(1).correlate(Athlete).scalar_subquery()
    return select(Athlete.id, SessionLog.day, SessionLog.body).join(SessionLog, SessionLog.id == last)


def _own_speeds(session: Session, since: date) -> dict[int, list[DaySpeed]]:
    """By athlete; a ball of the team that weighs as much as the own one counts as it."""
    balls = session.execute(select(Ball.id, Ball.athlete_id, Ball.mass_kg).where(Ball.mass_kg.is_not(None))).all()
    mass = {number: kg for number, _, kg in balls if kg is not None}
    own = {athlete: mass[number] for number, athlete, _ in balls if athlete}
    alike = [one for one, kg in mass.items() if any(abs(kg - of) < SAME_BALL_KG for of in own.values())]
    speed = Reading.speed_m_s
    found = (
        select(Reading.athlete_id, Reading.ball_id, Reading.day, func.count(), func.avg(speed), func.max(speed))
        .where(Reading.ball_id.in_(alike), Reading.day >= since, speed.is_not(None), _full_effort())
        .group_by(Reading.athlete_id, Reading.ball_id, Reading.day)
    )
    days: dict[tuple[int, date], DaySpeed] = {}
    for athlete, ball, day, count, mean, best in session.execute(found):
        if abs(mass[ball] - own.get(athlete, 0.0)) < SAME_BALL_KG:
            one = days.get((athlete, day), DaySpeed(day, 0, 0.0, 0.0))
            total = one.throws + count
            mean = (one.throws * one.mean_m_s + count * mean) / total
            days[athlete, day] = DaySpeed(day, total, mean, max(one.best_m_s, best))
    made: dict[int, list[DaySpeed]] = {}
    for (athlete, _), one in sorted(days.items()):
        made.setdefault(athlete, []).append(one)
    return made
