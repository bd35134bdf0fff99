"""Sessions of the records, read with distrust: what was thrown in each, and what was planned.

The body of a session is written by more than one page and comes in from tables and files. What all of these have in
common is read here: ball, throws, speeds, note. What cannot be read is listed with its reason, never left out unsaid.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.records.fields import in_words
from app.records.reads import AthleteData
from app.records.tables import SessionLog
from app.show.noted import pain_words
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.checks import InputError, Limit, check_number
from model.person import Person
from model.tally import COUNT_LIMIT, Thrown
from model.throw import SPEED_LIMIT, Throw

NO_PLAN = ""


@dataclass(frozen=True)
class Entry:
    """Throws alike, of one row of the records.

    Attributes
    ----------
    row : str
        uid of the row.
    day : date
    plan, plan_name : str
        uid and name of its plan; `NO_PLAN` for a session of none.
    ball : Ball
    throws : int
    speed_m_s : float
        The highest that was read; the planned one where none was.
    was_read : bool
        Whether it was read.
    planned : int or None
        Planned throws.
    planned_m_s : float or None
        Planned speed.
    note : str
    pain : str
        What was noted of it, in words.
    """

    row: str
    day: date
    plan: str
    plan_name: str
    ball: Ball
    throws: int
    speed_m_s: float
    was_read: bool
    planned: int | None = None
    planned_m_s: float | None = None
    note: str = ""
    pain: str = ""

    @property
    def session(self) -> str:
        """What tells the day's sessions apart: each of a plan is one; all that was thrown in no plan is one."""
        return f"{self.plan} {self.row}" if self.plan else NO_PLAN

    @property
    def has_plan(self) -> bool:
        """Whether it is known how many throws were planned, and how fast."""
        return self.planned is not None and self.planned_m_s is not None

    def done_by(self, person: Person) -> Thrown:
        """What was thrown, at the highest speed that is known of it."""
        return Thrown(self.day, Throw(person, self.ball, self.speed_m_s), self.throws, self.session)

    def planned_for(self, person: Person) -> Thrown:
        """What was planned for it."""
        if self.planned is None or self.planned_m_s is None:
            raise ValueError("nothing was planned")
        return Thrown(self.day, Throw(person, self.ball, self.planned_m_s), self.planned, self.session)


@dataclass(frozen=True)
class Unread:
    """A session that cannot be counted: its row, its day, the name of its plan, and why."""

    row: str
    day: date
    plan_name: str
    why: str


@dataclass(frozen=True)
class Sessions:
    """The sessions of an athlete: those that were read, by day, and those that could not be."""

    entries: tuple[Entry, ...]
    unread: tuple[Unread, ...]


def sessions_of(data: AthleteData) -> Sessions:
    """Read the sessions of an athlete, those of plans and of none."""
    plans = {plan.id: (plan.uid, plan.name or "a plan") for plan in data.plans}
    entries, unread = [], []
    for row in sorted(data.sessions, key=lambda one: (one.day, one.plan_id or 0, one.position, one.id)):
        plan, name = plans.get(row.plan_id, (NO_PLAN, "")) if row.plan_id else (NO_PLAN, "")
        try:
            entries.append(_entry(row, plan, name, data))
        except InputError as error:
            unread.append(Unread(row.uid, row.day, name, in_words(error)))
    return Sessions(tuple(entries), tuple(unread))


def _entry(row: SessionLog, plan: str, name: str, data: AthleteData) -> Entry:
    body = row.body if isinstance(row.body, dict) else {}
    throws = _whole(body, "throws", "Throws")
    top, planned_m_s = (_number(body, key, label, SPEED_LIMIT) for key, label in _SPEEDS)
    speed = planned_m_s if top is None else top
    if throws is None:
        raise InputError("Throws", "", f"a whole number from {COUNT_LIMIT}")
    if speed is None:
        raise InputError("Highest speed", "", f"a number from {SPEED_LIMIT}")
    planned = _whole(body, "planned", "Planned throws")
    if planned is None and plan and planned_m_s is not None:
        planned = throws  # plans of the first version kept no other number
    note = body.get("note")
    note = note if isinstance(note, str) else ""
    ball = ball_in(body, data)
    thrown = (ball, throws, speed, top is not None, planned, planned_m_s)
    return Entry(row.uid, row.day, plan, name, *thrown, note, pain_words(body))


_SPEEDS = (("top_speed_m_s", "Highest speed"), ("speed_m_s", "Planned speed"))


def ball_in(body: Mapping[str, Any], data: AthleteData) -> Ball:
    """The ball of a session: written out, or as a ball of the records."""
    found = body.get("ball")
    if isinstance(found, str):
        kept = next((one for one in data.balls.values() if one.uid == found), None)
        found = {"mass_kg": kept.mass_kg, "diameter_m": kept.diameter_m} if kept else None
    if not isinstance(found, Mapping):
        found = {"mass_kg": body.get("ball_mass_kg"), "diameter_m": body.get("ball_diameter_m")}
    mass, diameter = found.get("mass_kg"), found.get("diameter_m")
    if mass is None:
        raise InputError("Ball", "", "a ball with a mass")
    try:
        return Ball(mass, DEFAULT_DIAMETER_M if diameter is None else diameter)
    except InputError as error:
        raise InputError("Ball", error.given, error.accepted) from None


def _number(body: Mapping[str, Any], key: str, label: str, limit: Limit) -> float | None:
    given = body.get(key)
    return None if given is None else check_number(label, given, limit)


def _whole(body: Mapping[str, Any], key: str, label: str) -> int | None:
    found = _number(body, key, label, COUNT_LIMIT)
    if found is not None and found != int(found):
        raise InputError(label, body.get(key), f"a whole number from {COUNT_LIMIT}")
    return None if found is None else int(found)
