"""What is typed after a session, as the records keep it under plan and session, and as a line of the log. Pure."""

from dataclasses import asdict, dataclass, replace
from datetime import date, timedelta

from app.bind.groups import BETWEEN
from app.pages.buildup.checks import initials, read_day, role_among
from app.pages.buildup.course import Course
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.rule_words import SITE_WORDS, WHEN_WORDS, allowed_decisions
from app.records.field_list import field_of, from_kept
from app.records.plan_fields import OF_SESSION, ROLE_WORDS, SORE_MORE
from app.records.reads import AthleteData
from app.show.checks import message, read_field
from app.show.form_fields import Field
from app.show.profile_checks import typed_number
from app.units.systems import System
from model.checks import InputError, Limit
from model.course import session_before
from model.session_log import DAYS_OFF_LIMIT, NOT_DECIDED, THROWN_LIMIT, Logged, facts_of, withdrawn_of
from model.session_rules import (
    PAIN_LIMIT,
    STOP_SIGNS,
    URGENT_SIGNS,
    WHEN,
    Advice,
    Facts,
    JointPain,
    Notes,
    Soreness,
    advise,
)
from model.stop_signs import CLINICIAN
from model.throw import SPEED_LIMIT

YES_NO = {"yes": True, "no": False}
BEFORE = "before"  # of what was thrown: the session before again
TOP_SPEED = Field("top_speed", "Highest speed read", "m/s", SPEED_LIMIT, "top_speed_m_s", False)
NOBODY = "?"  # who fills in a draft

LABELS = {
    "day": "Day",
    "again": "Thrown",
    "throws": "Throws thrown",
    "top_speed": TOP_SPEED.label,
    "site": "Pain at which joint",
    **{when: f"Pain {words}" for when, words in WHEN_WORDS.items()},
    "days_off": "Days off first",
    "by": "Initials",
    "role": "Role",
    "note": "Note",
    "decision": "What is decided",
}


@dataclass(frozen=True)
class LogForm:
    """The fields after a session, as typed; several that are ticked with a blank between them.

    `before` to `next_morning` are ratings of pain at a joint, those with `sore_` soreness of the muscles.
    """

    day: str = ""
    again: str = ""
    throws: str = ""
    top_speed: str = ""
    site: str = ""
    before: str = ""
    throwing: str = ""
    hour_after: str = ""
    next_morning: str = ""
    sore_before: str = ""
    sore_throwing: str = ""
    sore_hour_after: str = ""
    sore_next_morning: str = ""
    sore_more: str = ""
    painkiller: str = ""
    held: str = ""
    signs: str = ""
    urgent: str = ""
    decision: str = ""
    days_off: str = ""
    by: str = ""
    role: str = ""
    note: str = ""


NAMES = tuple(asdict(LogForm()))


def key_of(plan: str, at: int) -> str:
    """Name a session: the plan's uid, and its place in the log, with a slash between."""
    return f"{plan}/{at}"


def path_of(name: str, key: str) -> str:
    """The path of a field of a session."""
    return f"noted.{name}{OF_SESSION}{key}"


def rows_of(data: AthleteData, key: str) -> list[str]:
    """Uids of what was typed for a session and is not kept yet."""
    return [row.uid for path, row in data.setting_rows.items() if path.endswith(f"{OF_SESSION}{key}")]


def typed_form(data: AthleteData, key: str, otherwise: "LogForm") -> "LogForm":
    """What stands in the fields of a session, each text in its metric unit or with its own.

    Parameters
    ----------
    data : AthleteData
    key : str
    otherwise : LogForm
        What stands in those that were not typed into.
    """
    found = {}
    for name in NAMES:
        row = data.setting_rows.get(path_of(name, key))
        if row is not None:
            field, draft = field_of(row.key), row.draft.get("value")
            found[name] = (
                field.kept(from_kept(field, row.value), row.typed.get("value", "")) if draft is None else draft
            )
    return replace(otherwise, **found)


def form_of(one: Logged, system: System) -> LogForm:
    """Write a line of the log as its fields have it."""
    notes, yes = one.notes, {True: "yes", False: "no", None: ""}
    ratings = {when: getattr(notes.pain, when) for when in WHEN}
    speed = "" if one.top_speed_m_s is None else system.number(one.top_speed_m_s, "m/s", most=2)
    return LogForm(
        day=one.day.isoformat(),
        again=BEFORE if one.was_repeat else "",
        throws=str(one.throws),
        top_speed=speed,
        site=notes.pain.site,
        **{when: "" if rating is None else str(rating) for when, rating in ratings.items()},
        **{f"sore_{when}": yes[getattr(notes.soreness, when)] for when in WHEN},
        sore_more=BETWEEN.join(name for name in SORE_MORE if getattr(notes.soreness, name)),
        painkiller=yes[notes.painkiller],
        held=yes[notes.speed_held],
        signs=BETWEEN.join(sign for sign in notes.signs if sign in STOP_SIGNS),
        urgent=BETWEEN.join(sign for sign in notes.signs if sign in URGENT_SIGNS),
        decision=one.decision,
        days_off=str(one.days_off),
        by=one.by,
        role=one.role,
        note=one.note,
    )


@dataclass(frozen=True)
class Draft:
    """What the fields come to so far.

    Attributes
    ----------
    one : Logged
        With what cannot be read left out, and nobody's initials.
    facts : Facts
    advice : Advice
    problems : dict of str to str
        Messages by the names of the fields.
    """

    one: Logged
    facts: Facts
    advice: Advice
    problems: dict[str, str]

    def decisions(self, course: Course, role: str) -> dict[str, str]:
        """What may be decided by somebody in a role."""
        before = bool(course.record.log)
        return allowed_decisions(self.advice.action, role == CLINICIAN, bool(self.advice.signs), before)


def draft_of(course: Course, at: int, form: LogForm, system: System) -> Draft | None:
    """Read the fields as far as they can be read.

    Parameters
    ----------
    at : int
        Place of the session in the log; its length for the next one.
    system : System
        The units of the messages.

    Returns
    -------
    Draft or None
        None where there is no such session.
    """
    found = _base(course, at, form)
    if found is None:
        return None
    base, problems = found, dict[str, str]()
    if form.again == BEFORE and at == len(course.record.log) and not base.was_repeat:
        said = "as planned: no session before it can be thrown again"
        problems["again"] = message(InputError(LABELS["again"], "the session before", said))
    throws = _whole(form.throws, "throws", THROWN_LIMIT, problems)
    notes = _notes(form, problems)
    speed = read_field(form.top_speed, TOP_SPEED, problems, system)
    if throws == 0 and not notes.painful and not notes.signs:
        problems["throws"] = message(
            InputError(LABELS["throws"], 0, "1 or more, or 0 where pain came before the first")
        )
        throws = None
    if throws is None:
        throws = 0 if (notes.pain.before or 0) > 0 else max(1, base.planned)
    one = replace(base, notes=notes, throws=throws, top_speed_m_s=speed)
    log = (*course.record.log[:at], one)
    facts = facts_of(log, withdrawn_of(course.record.signs, course.record.mark))[at]
    return Draft(one, facts, advise(facts), problems)


def _base(course: Course, at: int, form: LogForm) -> Logged | None:
    """The session as it stands in the log, or as it is planned."""
    log, session = course.record.log, course.next
    if at < len(log):
        return replace(log[at], notes=Notes())  # what is entered anew takes its place
    if session is None or at != len(log):
        return None
    kept = (session.day, session.index, session.place, session.step.ball, session.step.speed_m_s, session.throws)
    base = Logged(*kept, max(1, session.throws), Notes(), NOT_DECIDED, 0, NOBODY, "other")
    if form.again != BEFORE:
        return base
    most = course.standing.most
    rung = session_before(course.row, log, most)
    if rung is None:
        return base
    planned = log[-1].planned if most is None else min(log[-1].planned, most.throws)
    step = rung.step
    again = replace(base, index=rung.index, place=rung.place, ball=step.ball, speed_m_s=step.speed_m_s)
    return replace(again, planned=planned, was_repeat=True)


def logged_of(course: Course, at: int, form: LogForm, system: System, today: date) -> Logged:
    """Read a line of the log.

    Parameters
    ----------
    at : int
        As for `draft_of`.

    Returns
    -------
    Logged
        Of a session before the last, what was decided stays as it was.

    Raises
    ------
    InputError
        Naming the field.
    """
    draft = draft_of(course, at, form, system)
    if draft is None:
        raise InputError("Session", "none", "a plan with a session that is still to come, or one of the log")
    for name, said in draft.problems.items():
        raise InputError(LABELS[name], getattr(form, name), said.partition("accepted: ")[2].rstrip("."))
    one, record = draft.one, course.record
    by, role = initials(form.by), role_among(form.role, ROLE_WORDS)
    if not form.throws.strip() and not (one.notes.pain.before or 0) > 0:
        raise InputError(LABELS["throws"], "", f"a whole number; planned are {one.planned}")
    if form.day.strip():
        one = replace(one, day=read_day(form.day, LABELS["day"], record.made_on - timedelta(366), today))
    elif at == len(record.log):  # none was thrown in the future, nor before the one before
        one = replace(one, day=max(min(one.day, today), *(before.day for before in record.log[-1:]), one.day.min))
    if len(form.note) > LONGEST_NOTE or not form.note.strip().isprintable():
        raise InputError(LABELS["note"], form.note, f"up to {LONGEST_NOTE} printable characters")
    one = replace(one, note=form.note.strip())
    if at < len(record.log) - 1:
        return one
    decision = form.decision if form.decision in draft.decisions(course, role) else NOT_DECIDED
    asked = draft.advice.days_off or 0
    off = asked
    if form.days_off.strip():
        typed = typed_number(form.days_off, LABELS["days_off"], DAYS_OFF_LIMIT)
        if typed != int(typed):
            raise InputError(LABELS["days_off"], form.days_off, f"a whole number, {DAYS_OFF_LIMIT}")
        off = int(typed) if role == CLINICIAN else max(asked, int(typed))
    return replace(one, decision=decision, days_off=off, by=by, role=role)


def _notes(form: LogForm, problems: dict[str, str]) -> Notes:
    ratings = {when: _whole(getattr(form, when), when, PAIN_LIMIT, problems) for when in WHEN}
    site = form.site if form.site in SITE_WORDS else ""
    if any(ratings.values()) and not site:
        problems["site"] = message(InputError(LABELS["site"], "", "elbow or shoulder, as there is pain"))
        site = "unknown"
    sore = {when: YES_NO.get(getattr(form, f"sore_{when}")) for when in WHEN}
    more = {name: name in form.sore_more.split() for name in SORE_MORE}
    ticked = (*form.urgent.split(), *form.signs.split())
    return Notes(
        JointPain(site if any(ratings.values()) else "", **ratings),
        Soreness(**sore, **more),  # type: ignore[arg-type]
        [sign for sign in ticked if sign in STOP_SIGNS or sign in URGENT_SIGNS],
        YES_NO.get(form.painkiller),
        YES_NO.get(form.held),
    )


def _whole(text: str, name: str, limit: Limit, problems: dict[str, str]) -> int | None:
    if not text.strip():
        return None
    try:
        number = typed_number(text, LABELS[name], limit)
        if number != int(number):
            raise InputError(LABELS[name], text, f"a whole number, {limit}")
    except InputError as error:
        problems[name] = message(error)
        return None
    return int(number)


def default_at(course: Course) -> int:
    """Which session the fields show first: the last one while something of it is to be entered or decided."""
    log = course.record.log
    if not log:
        return 0
    last = len(log) - 1
    lacking = log[-1].notes.pain.next_morning is None or course.closed in ("not_entered", "not_decided")
    return last if lacking or course.next is None else last + 1
