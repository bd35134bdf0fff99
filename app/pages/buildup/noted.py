"""What is noted after a session: the values that the records keep under plan and session until it is kept, and the line
of the log that they come to.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from app.bind.groups import BETWEEN
from app.pages.buildup.course import Course
from app.pages.buildup.rule_words import SITE_WORDS, advice_lines, allowed_decisions
from app.records.field_list import from_kept
from app.records.fields import in_words
from app.records.plan_fields import NOTED, OF_SESSION, ROLE_WORDS, SORE_MORE
from app.records.reads import AthleteData
from app.show.kept import refused_settings, to_mend, value_of
from model.checks import InputError
from model.course import session_before
from model.session_log import NOT_DECIDED, Logged, facts_of, withdrawn_of
from model.session_rules import STOP_SIGNS, URGENT_SIGNS, WHEN, Advice, Facts, JointPain, Notes, Soreness, advise
from model.stop_signs import CLINICIAN

BEFORE = "before"  # of what was thrown: the session before again
NOBODY = "?"  # who fills in a draft
FIELDS = {one.name: one for one in NOTED}
YES = {"yes": True, "no": False}
WORD: dict[bool | None, str] = {True: "yes", False: "no"}
NOTHING_YET = "Enter how it went: what may come next, and by which rules, then stands here."

Noted = Mapping[str, Any]
"""Values (SI) by the names of the fields; `before` to `next_morning` are ratings of pain at a joint, those with `sore_`
soreness of the muscles. What is not known is None or left out."""


def key_of(plan: str, at: int) -> str:
    """Name a session: the plan's uid, and its place in the log, with a slash between."""
    return f"{plan}/{at}"


def path_of(name: str, key: str) -> str:
    """The path of a field of a session."""
    return f"noted.{name}{OF_SESSION}{key}"


def rows_of(data: AthleteData, key: str) -> list[str]:
    """Uids of what was typed for a session and is not kept yet."""
    return [row.uid for path, row in data.setting_rows.items() if path.endswith(f"{OF_SESSION}{key}")]


def noted_of(data: AthleteData, key: str, log: tuple[Logged, ...], at: int) -> Noted:
    """What stands in the fields of a session: as typed, else as the log has it; a refused text is no value."""
    made = values_of(log[at]) if at < len(log) else {}
    rows = ((name, field, data.setting_rows.get(path_of(name, key))) for name, field in FIELDS.items())
    return made | {name: from_kept(field, value_of(row, "value")) for name, field, row in rows if row is not None}


def to_mend_of(data: AthleteData, key: str) -> str:
    """Say which fields of a session were refused."""
    return to_mend(refused_settings(data, [path_of(name, key) for name in FIELDS]))


def values_of(one: Logged) -> dict[str, Any]:
    """A line of the log as its fields have it."""
    notes, more = one.notes, [name for name in SORE_MORE if getattr(one.notes.soreness, name)]
    return {
        "day": one.day,
        "again": BEFORE if one.was_repeat else None,
        "throws": one.throws,
        "top_speed": one.top_speed_m_s,
        "site": notes.pain.site or None,
        **{when: getattr(notes.pain, when) for when in WHEN},
        **{f"sore_{when}": WORD.get(getattr(notes.soreness, when)) for when in WHEN},
        "sore_more": BETWEEN.join(more),
        "painkiller": WORD.get(notes.painkiller),
        "held": WORD.get(notes.speed_held),
        "signs": BETWEEN.join(sign for sign in notes.signs if sign in STOP_SIGNS),
        "urgent": BETWEEN.join(sign for sign in notes.signs if sign in URGENT_SIGNS),
        "decision": one.decision or None,
        "days_off": one.days_off,
        "by": one.by,
        "role": one.role,
        "note": one.note,
    }


@dataclass(frozen=True)
class Draft:
    """What the fields come to so far.

    Attributes
    ----------
    one : Logged
        With nobody's initials.
    problems : tuple of InputError
        What does not fit together.
    """

    course: Course
    at: int
    one: Logged
    facts: Facts
    advice: Advice
    problems: tuple[InputError, ...]

    def decisions(self, role: str | None) -> dict[str, str]:
        """What may be decided by somebody in a role; nothing any more of a session before the last."""
        log = self.course.record.log
        if self.at < len(log) - 1:
            return {}
        return allowed_decisions(self.advice.action, role == CLINICIAN, bool(self.advice.signs), bool(log))

    def lines(self) -> list[str]:
        """What may come next by what is entered, and by which rules."""
        return advice_lines(self.advice, self.facts) if self.one.notes != Notes() else [NOTHING_YET]

    def told(self) -> list[str]:
        """What does not fit together, in words."""
        return [in_words(error) for error in self.problems]


def draft_of(course: Course, at: int, noted: Noted) -> Draft | None:
    """Work out what the values of a session come to.

    Parameters
    ----------
    at : int
        Place of the session in the log; its length for the next one.

    Returns
    -------
    Draft or None
        None where there is no such session.
    """
    base = _base(course, at, noted)
    if base is None:
        return None
    notes = _notes(noted)
    throws = noted.get("throws")
    if throws is None or (throws == 0 and not notes.painful and not notes.signs):
        throws = 0 if (notes.pain.before or 0) > 0 else max(1, base.planned)
    one = replace(base, notes=notes, throws=int(throws), top_speed_m_s=noted.get("top_speed"))
    facts = facts_of((*course.record.log[:at], one), withdrawn_of(course.record.signs, course.record.mark))[at]
    return Draft(course, at, one, facts, advise(facts), tuple(_problems(course, at, noted, one)))


def _problems(course: Course, at: int, noted: Noted, one: Logged) -> Iterator[InputError]:
    if noted.get("again") == BEFORE and at == len(course.record.log) and not one.was_repeat:
        said = "as planned: no session before it can be thrown again"
        yield InputError(FIELDS["again"].label, "the session before", said)
    if one.notes.pain.site == "unknown" and noted.get("site") != "unknown":
        yield InputError(FIELDS["site"].label, "", "elbow or shoulder, as there is pain")
    if noted.get("throws") == 0 and one.throws:
        yield InputError(FIELDS["throws"].label, 0, "1 or more, or 0 where pain came before the first")


def _base(course: Course, at: int, noted: Noted) -> Logged | None:
    """The session as it stands in the log, or as it is planned."""
    log, session = course.record.log, course.next
    if at < len(log):
        return replace(log[at], notes=Notes())  # what is entered anew takes its place
    if session is None or at != len(log):
        return None
    kept = (session.day, session.index, session.place, session.step.ball, session.step.speed_m_s, session.throws)
    base = Logged(*kept, max(1, session.throws), Notes(), NOT_DECIDED, 0, NOBODY, "other")
    if noted.get("again") != BEFORE:
        return base
    most = course.standing.most
    rung = session_before(course.row, log, most)
    if rung is None:
        return base
    planned = log[-1].planned if most is None else min(log[-1].planned, most.throws)
    step = rung.step
    again = replace(base, index=rung.index, place=rung.place, ball=step.ball, speed_m_s=step.speed_m_s)
    return replace(again, planned=planned, was_repeat=True)


def _notes(noted: Noted) -> Notes:
    ratings = {when: None if noted.get(when) is None else int(noted[when]) for when in WHEN}
    site = noted.get("site") if noted.get("site") in SITE_WORDS else "unknown"
    sore = {when: YES.get(noted.get(f"sore_{when}") or "") for when in WHEN}
    more = {name: name in (noted.get("sore_more") or "").split() for name in SORE_MORE}
    ticked = [sign for name in ("urgent", "signs") for sign in (noted.get(name) or "").split()]
    return Notes(
        JointPain(site if any(ratings.values()) else "", **ratings),  # type: ignore[arg-type]
        Soreness(**sore, **more),  # type: ignore[arg-type]
        [sign for sign in ticked if sign in STOP_SIGNS or sign in URGENT_SIGNS],
        YES.get(noted.get("painkiller") or ""),
        YES.get(noted.get("held") or ""),
    )


def logged_of(course: Course, at: int, noted: Noted, today: date) -> Logged:
    """The line of the log that the values of a session make.

    Returns
    -------
    Logged
        Of a session before the last, what was decided stays as it was.

    Raises
    ------
    InputError
        Naming the field that is missing or does not fit.
    """
    draft = draft_of(course, at, noted)
    if draft is None:
        raise InputError("Session", "none", "a plan with a session that is still to come, or one of the log")
    for error in draft.problems:
        raise error
    one, record, by, role = draft.one, course.record, noted.get("by"), noted.get("role")
    if not by or not by.strip():
        raise InputError(FIELDS["by"].label, "", f"1 to {FIELDS['by'].longest} printable characters")
    if role not in ROLE_WORDS:
        raise InputError(FIELDS["role"].label, "", ", ".join(ROLE_WORDS.values()))
    if noted.get("throws") is None and not (one.notes.pain.before or 0) > 0:
        raise InputError(FIELDS["throws"].label, "", f"a whole number; planned are {one.planned}")
    day = noted.get("day")
    if day is not None:
        low = record.made_on - timedelta(366)
        if not low <= day <= today:
            raise InputError(FIELDS["day"].label, day, f"year-month-day from {low} to {today}")
        one = replace(one, day=day)
    elif at == len(record.log):  # none was thrown in the future, nor before the one before
        one = replace(one, day=max(min(one.day, today), *(before.day for before in record.log[-1:]), one.day.min))
    one = replace(one, note=(noted.get("note") or "").strip())
    if at < len(record.log) - 1:
        return one
    decision = noted.get("decision")
    off, asked = noted.get("days_off"), draft.advice.days_off or 0
    if off is None:
        off = asked
    elif role != CLINICIAN:
        off = max(asked, off)
    decided = decision if decision in draft.decisions(role) else NOT_DECIDED
    return replace(one, decision=decided, days_off=int(off), by=by.strip(), role=role)


def default_at(course: Course) -> int:
    """Which session the fields show first: the last one while something of it is to be entered or decided."""
    log = course.record.log
    if not log:
        return 0
    last = len(log) - 1
    lacking = log[-1].notes.pain.next_morning is None or course.closed in ("not_entered", "not_decided")
    return last if lacking or course.next is None else last + 1
