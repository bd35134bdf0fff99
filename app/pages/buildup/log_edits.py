"""What is done to a kept plan after sessions: its log, stop signs outside of it, and what holds until it is cleared."""

from dataclasses import replace
from datetime import date

from app.pages.buildup.course import course_of
from app.pages.buildup.edits import told
from app.pages.buildup.known import with_signs
from app.pages.buildup.record import MOST_LOGGED, HandedOut, Record
from app.records.plan_fields import ROLE_WORDS
from model.checks import InputError
from model.session_log import Logged
from model.stop_signs import Signed, StopSign, together


def keep_session(record: Record, at: int, one: Logged, by: Signed, today: date) -> Record:
    """Keep what was noted of a session: of the next one, or of one that stands in the log.

    Parameters
    ----------
    at : int
        Its place in the log, from 0; the length of the log for the next one.
    by : Signed
        Who fills it in.

    Returns
    -------
    Record
        With the stop signs that follow. After another decision than to go on, days that were set by hand are the
        calendar's again, and after pain throws are as well.

    Raises
    ------
    InputError
        If no session is open, or its day does not follow that of the one before.
    """
    new = at == len(record.log)
    if new and course_of(record).next is None:
        raise InputError("Session", "none", "a plan with a session that is still to come")
    if at >= MOST_LOGGED:
        raise InputError("Log", at + 1, f"up to {MOST_LOGGED} sessions")
    if at and one.day < record.log[at - 1].day:
        raise InputError(
            "Day", one.day.isoformat(), f"{record.log[at - 1].day} or later, the day of the session before"
        )
    if not new and at + 1 < len(record.log) and one.day > record.log[at + 1].day:
        raise InputError(
            "Day", one.day.isoformat(), f"{record.log[at + 1].day} or earlier, the day of the session after"
        )
    if not new and record.log[at] == one:
        return record
    by_hand = record.by_hand
    if one.notes.painful:
        by_hand = {}
    elif one.decision != "go_on":
        by_hand = {i: replace(hand, day=None) for i, hand in by_hand.items() if hand.throws is not None}
    kept = replace(record, log=(*record.log[:at], one, *record.log[at + 1 :]), by_hand=by_hand)
    if not new:
        kept = told(kept, f"{today}: session {at + 1} filled in by {by.by}")
    return with_signs(kept, {at: by})


def reopened(record: Record, today: date) -> Record:
    """Take the last session out of the log; its stop signs stay."""
    log = record.log[:-1]
    made = replace(record, log=log, lifted=min(record.lifted, len(log)))
    return told(made, f"{today}: session {len(record.log)} taken out of the log")


def enter_sign(record: Record, sign: str, since: date, by: Signed) -> Record:
    """Enter a stop sign outside of a session; the same one again only with other words than one that was withdrawn."""
    made = StopSign(sign, since, None, by)
    if any(one.mark == made.mark and not one.stands for one in record.signs):
        raise InputError("Words", by.words, "what is new: the same sign was cleared or withdrawn before")
    return replace(record, signs=together(record.signs, [made]))


def take_up_again(record: Record, day: date, today: date) -> Record:
    """Go on after a stop, with the session at which it was stopped.

    Parameters
    ----------
    day : date
        Of the next session, at the earliest.

    Raises
    ------
    InputError
        If the plan was not stopped.
    """
    if course_of(record).closed != "stopped":
        raise InputError("Plan", "not stopped", "a plan that was stopped")
    return told(
        replace(record, lifted=len(record.log), not_before=day),
        f"{today}: taken up again from {day}; after a break weeks and budget begin anew",
    )


def clear_limits(record: Record, by: Signed, today: date) -> Record:
    """Clear the limits from Start: the steps that pass them are open from now on."""
    first = record.first
    if first is None or not first.most_share:
        raise InputError("Limits from Start", "", "limits that wait to be cleared")
    made = replace(record, first=replace(first, cleared=by))
    return told(made, f"{today}: limits from Start cleared by {by.by}, {ROLE_WORDS[by.role]}")


def handed_out(record: Record, last: int) -> Record:
    """Keep that a calendar file was made, whose last session has that number."""
    own = [one for one in record.handed_out if one.mark == record.mark]
    others = tuple(one for one in record.handed_out if one.mark != record.mark)
    last = max(last, *(one.last for one in own), 0)
    mine = (HandedOut(record.mark, 1, last),) if last else ()
    return replace(record, handed_out=(*others, *mine), calendars=record.calendars + 1)


def took_over(record: Record, before: Record | None) -> Record:
    """Have a new plan know which sessions of the one before stand in a calendar, so that its own file cancels them."""
    if before is None or (before.code, before.invented) != (record.code, record.invented):
        return record
    left = [replace(one, first=len(before.log) + 1) if one.mark == before.mark else one for one in before.handed_out]
    return replace(record, handed_out=tuple(one for one in left if one.first <= one.last and one.mark != record.mark))
