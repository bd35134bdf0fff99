"""From what was typed after a session to what the soreness rules suggest, and to a line of the log. Pure."""

from collections.abc import Mapping
from datetime import date, timedelta

from app.athlete.checks import typed_number
from app.buildup.checks import read_day
from app.buildup.edits import LONGEST_NOTE, initials
from app.buildup.plan_parts import PAINS
from app.buildup.record import Course
from model.checks import InputError
from model.course import DAYS_OFF_LIMIT, DECISIONS, Thrown
from model.soreness import ACTIONS, COMMON, PAIN_LIMIT, After, Suggestion, suggest

DECISION_OF = {"rest_and_refer": "stop"}
"""What is decided where a suggestion is followed, if it is not called the same."""

SOURCE = (
    "soreness rules of Axe, Wickham and Snyder-Mackler 2001, Sports Med Arthrosc 9:24–34 (values.csv 9-load-rules-12: "
    "from memory; as two clinics print them: 9-load-rules-15)"
)


def read_pains(pains: Mapping[str, object]) -> tuple[dict[str, int | None], dict[str, str]]:
    """Read the ratings of pain.

    Parameters
    ----------
    pains : mapping of str to object
        As typed, by the keys of `PAINS`.

    Returns
    -------
    dict of str to (int or None)
        None where nothing was typed, or nothing that is a rating.
    dict of str to str
        Messages by the same keys.
    """
    found: dict[str, int | None] = {}
    problems: dict[str, str] = {}
    for name, label in PAINS.items():
        text = pains.get(name)
        found[name] = None
        if not isinstance(text, str) or not text.strip():
            continue
        try:
            rating = typed_number(text, label, PAIN_LIMIT)
            if rating != int(rating):
                raise InputError(label, text, f"a whole number from {PAIN_LIMIT}")
            found[name] = int(rating)
        except InputError as error:
            problems[name] = f"{label}: “{str(error.given)[:24]}” given; accepted: whole numbers, 0 to 10."
    return found, problems


def after_of(pains: Mapping[str, object], held: object, signs: object) -> After:
    """Read what was said of a session.

    Parameters
    ----------
    pains : mapping of str to object
        As typed.
    held : object
        ``yes``, ``no``, or anything else for not measured.
    signs : object
        A list of `STOP_SIGNS`.

    Returns
    -------
    After

    Raises
    ------
    InputError
        Naming the field.
    """
    found, problems = read_pains(pains)
    for name, text in problems.items():
        raise InputError(PAINS[name], pains[name], text.split("accepted: ")[1].rstrip("."))
    before, after = found["before"], found["after"]
    if before is None or after is None:
        raise InputError(PAINS["before" if before is None else "after"], "", "a whole number, 0 to 10")
    chosen = [sign for sign in signs if isinstance(sign, str)] if isinstance(signs, list) else []
    known = {"yes": True, "no": False}.get(held) if isinstance(held, str) else None
    return After(before, after, found["morning"], known, chosen)


def suggested_words(one: Suggestion) -> str:
    """Say what is suggested, by which rule, from which source.

    Parameters
    ----------
    one : Suggestion

    Returns
    -------
    str
    """
    days = "" if not one.days_off else f", {one.days_off} day{'' if one.days_off == 1 else 's'} off first"
    provisional = " What the next morning brings can only make this more cautious." if one.provisional else ""
    source = COMMON if one.source == COMMON else SOURCE
    return f"Suggested: {ACTIONS[one.action]}{days}. Why: {one.reason}. Source: {source}.{provisional}"


def thrown_of(
    course: Course,
    pains: Mapping[str, object],
    held: object,
    signs: object,
    decision: object,
    typed: Mapping[str, object],
    today: date,
) -> Thrown:
    """Read a line of the log, of the session that is next.

    Parameters
    ----------
    course : Course
    pains, held, signs
        As for `after_of`.
    decision : object
        A key of `DECISIONS`.
    typed : mapping of str to object
        Texts of ``log_day``, ``days_off``, ``by`` and ``note``.
    today : date

    Returns
    -------
    Thrown

    Raises
    ------
    InputError
        Naming the field.
    """
    if not course.schedule.sessions:
        raise InputError("Session", "none", "a plan with a session that is still to come")
    session = course.schedule.sessions[0]
    after = after_of(pains, held, signs)
    if not isinstance(decision, str) or decision not in DECISIONS:
        raise InputError("What is decided", "", " or ".join(DECISIONS.values()))
    texts = {name: text.strip() if isinstance(text, str) else "" for name, text in typed.items()}
    day = session.day
    if texts.get("log_day"):
        day = read_day(texts["log_day"], "Day", course.record.made_on - timedelta(366), today + timedelta(366))
    off = suggest(after).days_off or 0
    if texts.get("days_off"):
        number = typed_number(texts["days_off"], "Days off first", DAYS_OFF_LIMIT)
        if number != int(number):
            raise InputError("Days off first", texts["days_off"], f"a whole number from {DAYS_OFF_LIMIT}")
        off = int(number)
    note = texts.get("note", "")
    if len(note) > LONGEST_NOTE or not note.isprintable():
        raise InputError("Note", note, f"up to {LONGEST_NOTE} printable characters")
    return Thrown(
        day,
        session.place,
        session.step.ball,
        session.step.speed_m_s,
        session.throws,
        after,
        decision,
        off,
        initials(texts.get("by")),
        note,
    )


def otherwise_words(thrown: Thrown) -> str:
    """Say that something else was decided than the rules suggest; empty where it was not."""
    action = suggest(thrown.after).action
    return "" if DECISION_OF.get(action, action) == thrown.decision else f" Suggested was: {ACTIONS[action]}."
