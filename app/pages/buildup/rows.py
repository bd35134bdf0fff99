"""A plan and its rows: its body, the sessions thrown, the athlete's stop signs. From the rows to the plan, and back."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Any

from app.pages.buildup.course import Course, course_of
from app.pages.buildup.file import FileError, logged_json, read_bare, to_json
from app.pages.buildup.known import with_signs
from app.pages.buildup.record import MOST_LOGGED, Record
from app.records.acts import Act, Add, Put, Remove
from app.records.old_plans import PLAN_KIND, plan_body, session_uid
from app.records.reads import AthleteData
from app.records.tables import Plan
from app.records.tables import StopSign as SignRow
from model.checks import InputError
from model.stop_signs import Signed, StopSign

NEXT = "next"
"""In a plan's body: the day of the next session, or None. It follows from the rest, and is not read here."""


@dataclass(frozen=True)
class KeptPlan:
    """A plan of an athlete.

    Attributes
    ----------
    row : Plan
    record : Record or None
        None where it cannot be read.
    """

    row: Plan
    record: Record | None

    @cached_property
    def course(self) -> Course | None:
        """What follows from it; None where it cannot be worked out."""
        try:
            return None if self.record is None else course_of(self.record)
        except (InputError, ValueError, IndexError):
            return None

    @property
    def away(self) -> bool:
        """Whether it was put away."""
        return self.row.archived_at is not None


@dataclass(frozen=True)
class Plans:
    """The plans of an athlete, the oldest first, and the stop signs.

    Attributes
    ----------
    plans : tuple of KeptPlan
    signs : mapping of str to StopSign
        By the uid of their rows.
    """

    plans: tuple[KeptPlan, ...]
    signs: Mapping[str, StopSign]

    def shown(self, uid: str = "") -> KeptPlan | None:
        """The plan of that uid, else the newest that was not put away."""
        named = next((one for one in self.plans if one.row.uid == uid), None)
        return named or next((one for one in reversed(self.plans) if not one.away), None)


def plans_of(data: AthleteData) -> Plans:
    """Read all plans of an athlete."""
    bare = [(row, _bare(data, row)) for row in data.plans]
    signs = _signs(data, [(row, record) for row, record in bare if record is not None])
    return Plans(tuple(KeptPlan(row, record and _whole(row, record, signs)) for row, record in bare), signs)


def _bare(data: AthleteData, row: Plan) -> Record | None:
    """A plan without stop signs."""
    athlete, log = data.athlete, [one.body for one in data.sessions_of(row)]
    body = {name: one for name, one in row.body.items() if name != NEXT}
    kept = body | {"kind": PLAN_KIND, "log": log, "code": athlete.code, "invented": athlete.invented}
    return _read(json.dumps(kept | {"signs": [], "earlier": []}, sort_keys=True))


@lru_cache(maxsize=128)
def _read(text: str) -> Record | None:
    try:
        return read_bare(json.loads(text))
    except FileError:
        return None


def _signs(data: AthleteData, plans: Iterable[tuple[Plan, Record]]) -> dict[str, StopSign]:
    """The stop signs by uid; one of a session knows its plan and place there, also where the session was taken out."""
    places: dict[str, tuple[str, int | None]] = {}
    wanted = {row.session for row in data.stop_signs if row.session}
    for plan, record in plans:
        for place, session in enumerate(data.sessions_of(plan)):
            places[session.uid] = (record.mark, place)
        for place in range(MOST_LOGGED) if wanted - set(places) else ():
            places.setdefault(session_uid(plan.uid, place), (record.mark, place))
    made = {}
    for row in data.stop_signs:
        mark, at = places.get(row.session or "", ("", None))
        entered = _signed(row, "entered")
        if entered is not None:
            more = (_signed(row, "cleared"), _signed(row, "withdrawn"), mark)
            made[row.uid] = StopSign(row.sign, row.since, at, entered, *more)
    return made


def _signed(row: SignRow, act: str) -> Signed | None:
    by, role, on, words = (getattr(row, f"{act}_{name}") for name in ("by", "role", "on", "words"))
    return Signed(by, role, on, words or "") if by else None


def _whole(row: Plan, record: Record, signs: Mapping[str, StopSign]) -> Record | None:
    """A plan with the athlete's stop signs: those that it was made after close it no longer, unless they stand."""
    before = set(row.body.get("earlier") or ())
    earlier = tuple(one for uid, one in signs.items() if uid in before)
    own = tuple(one for uid, one in signs.items() if uid not in before or one.stands)
    try:
        return with_signs(replace(record, signs=own, earlier=earlier))
    except InputError:
        return None


def body_of(record: Record, signs: Mapping[str, StopSign]) -> dict[str, Any]:
    """What is kept of a plan in its own row; with the day of the next session, for the list of athletes."""
    before, following = {one.mark for one in record.earlier}, course_of(record).next
    earlier = [uid for uid, one in signs.items() if one.mark in before]
    day = following.day.isoformat() if following is not None else None
    return plan_body(to_json(record)) | {"earlier": earlier, NEXT: day}


def new_plan(record: Record, signs: Mapping[str, StopSign], uid: str) -> list[Act]:
    """Acts that keep a plan in a new row, with the sessions of its log."""
    values = {"name": f"Build-up of {record.made_on}", "start": record.calendar.first_day}
    made: list[Act] = [Add("plan", {}, values | {"body": body_of(record, signs)}, uid)]
    return made + [_session(uid, place, one) for place, one in enumerate(record.log)]


def changed_plan(
    before: Record, after: Record, data: AthleteData, plan: Plan, signs: Mapping[str, StopSign]
) -> list[Act]:
    """Acts that make the second plan of the first: its body, and sessions added, changed or taken out."""
    made: list[Act] = [Put("plan", "body", body_of(after, signs), plan.uid)]
    if plan.start != after.calendar.first_day:
        made.append(Put("plan", "start", after.calendar.first_day, plan.uid))
    rows = data.sessions_of(plan)
    for place, one in enumerate(after.log):
        if place >= len(rows):
            made.append(_session(plan.uid, place, one))
        elif before.log[place] != one:
            made.append(Put("session_log", "body", logged_json(one), rows[place].uid))
            made.append(Put("session_log", "day", one.day, rows[place].uid))
    return made + [Remove("session_log", row.uid) for row in rows[len(after.log) :]]


def _session(plan: str, place: int, one: Any) -> Act:
    values = {"plan": plan, "position": place, "day": one.day, "body": logged_json(one)}
    return Add("session_log", {}, values, session_uid(plan, place))
