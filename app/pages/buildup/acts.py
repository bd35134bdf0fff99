"""What a button does to the plan: pure functions from what is on the page to a new plan and what is said of it."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from dash import html

from app.pages.buildup import edits, log_edits, words
from app.pages.buildup.athlete import ball_among
from app.pages.buildup.checks import initials, read_day, role_among
from app.pages.buildup.course import course_of
from app.pages.buildup.file import FileError, read_upload
from app.pages.buildup.given import GIVEN_PATHS
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.log_form import logged_of
from app.pages.buildup.making import AHEAD, Act, Page, planned, whole
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import Record
from app.pages.buildup.rule_words import CLEARING, sign_words
from app.records.plan_fields import ROLE_WORDS
from app.show.profile_checks import typed_number
from model.build_up import SHARE_LIMIT, STEPS_LIMIT
from model.calendar_plan import REPEATS_LIMIT, THROWS_LIMIT
from model.checks import InputError, Limit
from model.session_rules import STOP_SIGNS, URGENT_SIGNS
from model.stop_signs import Signed, StopSign, cleared, withdrawn

ALREADY = "Nothing was changed: so it stands already."
AWAY = "The plan was put away; Undo brings it back. Stop signs stay with the athlete."
IN_CALENDAR = "Its sessions that stand in a calendar stay there."
REASKED = dict.fromkeys(
    (
        "weeks_off", "throws_week", "thrown", "cleared_by", "cleared_role",
        "first_day", "days", "repeats", "first_throws", "order",
    ), "",
)  # fmt: skip
"""Fields that are asked anew once a stop sign was cleared."""
GIVEN_NAMES = tuple(path.partition(".")[2] for path in GIVEN_PATHS)
Signs = tuple[StopSign, ...]


def done(page: Page, name: str) -> Act:
    """Do to the plan what a button says.

    Parameters
    ----------
    name : str
        Of the button.

    Raises
    ------
    InputError
        Naming the field that does not do.
    """
    record, today = page.record, page.today
    if name in SIGNS:
        return _of_signs(page, name, today)
    if name == "drop":
        return Act(record, form=dict.fromkeys(GIVEN_NAMES, ""))
    if record is None or name not in DOES:
        return Act(record)
    act = DOES[name](page, record, today)
    if act.said or act.record is None:
        return act
    if act.record.changed != record.changed:
        return replace(act, said=[html.P(words.changed_words(course_of(act.record)))])
    return replace(act, said=[html.P(ALREADY)]) if act.record == record else act


def opened(page: Page, contents: object) -> Act:
    """Open a plan file; the plan on the page stays if it cannot be read."""
    try:
        record = read_upload(contents)
    except FileError as error:
        stays = "" if page.record is None else " The plan on the page stays."
        return Act(page.record, [html.P(f"The file could not be opened: {error}.{stays}")])
    case = page.athlete.case
    if record.code and record.code != case.code:
        said = f"The file is of {record.code}, and this is {case.code}: nothing was opened."
        return Act(page.record, [html.P(f"{said} Choose {record.code} at the top, or type it there.")])
    if record.invented and not page.athlete.invented:
        said = f"The file is of an invented athlete, and {case.code} is not: nothing was opened."
        return Act(page.record, [html.P(said)])
    record = replace(record, code=case.code, invented=page.athlete.invented)
    before = "" if page.record is None else " The one before was put away; Undo brings it back."
    return Act(record, [html.P(f"Opened: the plan of {record.code or 'an athlete without a code'}.{before}")])


def _step(page: Page, record: Record, today: date) -> Act:
    ball = ball_among(page.chosen.get("ball"), record.table.balls)
    if ball is None:
        raise InputError("Ball", "", "a ball of the plan’s rack")
    percents = Limit(100.0 * SHARE_LIMIT.low, 100.0 * SHARE_LIMIT.high, "%")
    share = typed_number(_text(page, "share"), "Of full speed with it", percents) / 100.0
    count = whole(_text(page, "sessions"), "Sessions at this step", REPEATS_LIMIT)
    return Act(edits.change_step(record, _place(page), ball, share, count, today))


def _session(page: Page, record: Record, today: date) -> Act:
    index = _number(page.chosen.get("session"), "Session")
    day, throws = _text(page, "day"), _text(page, "throws")
    typed_day = read_day(day, "Day", record.made_on - timedelta(366), today + AHEAD) if day else None
    return Act(
        edits.change_session(record, index, typed_day, whole(throws, "Throws", THROWS_LIMIT) if throws else None, today)
    )


def _rest(page: Page, record: Record, today: date) -> Act:
    steps = _text(page, "rest")
    count = whole(steps, "Steps from this one on", STEPS_LIMIT) if steps else None
    return planned(edits.plan_rest(record, _place(page), count, today), page, {})


def _take_numbers(page: Page, record: Record, today: date) -> Act:
    found = recheck(record, page.athlete.case)
    if found is None:
        return Act(record)
    return Act(edits.take_numbers(record, found.person, found.table, found.rests_on, found.limits, today))


def _keep_numbers(page: Page, record: Record, _: date) -> Act:
    found = recheck(record, page.athlete.case)
    return Act(record if found is None else replace(record, refused=found.mark))


def _log(page: Page, record: Record, today: date) -> Act:
    one = logged_of(course_of(record), page.at, page.log, page.system, today)
    by = Signed(initials(page.log.by), role_among(page.log.role, ROLE_WORDS), today)
    kept = log_edits.keep_session(record, page.at, one, by, today)
    new = [sign.sign for sign in kept.signs[len(record.signs) :]] if len(kept.signs) > len(record.signs) else []
    told = f"Session {page.at + 1} kept."
    if new:
        told += f" Stop sign: {sign_words(new)}. The plan stands still."
    return Act(kept, [html.P(told)])


def _reopen(_: Page, record: Record, today: date) -> Act:
    if not record.log:
        return Act(record)
    return Act(log_edits.reopened(record, today), [html.P(f"Session {len(record.log)} was taken out of the log.")])


def _sign(page: Page, record: Record, today: date) -> Act:
    sign = page.hand.get("sign_what")
    if not isinstance(sign, str) or sign not in {**STOP_SIGNS, **URGENT_SIGNS}:
        raise InputError("Stop sign", "", "one of the list")
    since = (
        read_day(_text(page, "sign_since"), "Since", today - timedelta(366), today)
        if _text(page, "sign_since")
        else today
    )
    kept = log_edits.enter_sign(record, sign, since, _signed(page, "sign", ROLE_WORDS, today))
    return Act(kept, [html.P(f"Stop sign kept: {sign_words([sign])}. The plan stands still.")])


def _of_signs(page: Page, name: str, today: date) -> Act:
    """Clear or withdraw stop signs: of the plan, or where there is none of the athlete."""
    record = page.record
    signs, said, form = SIGNS[name](page, page.athlete.known.signs if record is None else record.signs, today)
    if record is None:
        return Act(None, [html.P(said)], form, signs)
    return Act(replace(record, signs=signs), [html.P(said)], form)


def _clear(page: Page, signs: Signs, today: date) -> tuple[Signs, str, dict[str, str]]:
    on = read_day(_text(page, "clear_on"), "Day", today - timedelta(366), today) if _text(page, "clear_on") else today
    try:
        done = cleared(signs, replace(_signed(page, "clear", CLEARING, today), on=on))
    except InputError as error:
        label = {"words": "Whose decision it was", "on": "Day"}.get(error.field, error.field)
        raise InputError(label, error.given, error.accepted) from None
    return done, "The stop signs were cleared. Say above what is planned, and make the plan anew.", REASKED


def _withdraw(page: Page, signs: Signs, today: date) -> tuple[Signs, str, dict[str, str]]:
    place = _number(page.hand.get("withdraw_what"), "Stop sign")
    by = _signed(page, "withdraw", ROLE_WORDS, today)
    if not by.words:
        raise InputError("Why it is withdrawn", "", "words")
    return withdrawn(signs, place, by), "The stop sign was withdrawn; it stays in the list with your words.", {}


SIGNS = {"clear": _clear, "withdraw": _withdraw}


def _clear_limits(page: Page, record: Record, today: date) -> Act:
    return Act(log_edits.clear_limits(record, _signed(page, "limits", CLEARING, today), today))


def _signed(page: Page, name: str, roles: Mapping[str, str], on: date) -> Signed:
    said = _text(page, f"{name}_words")
    if len(said) > LONGEST_NOTE or not said.isprintable():
        raise InputError("Words", said, f"up to {LONGEST_NOTE} printable characters")
    return Signed(initials(page.hand.get(f"{name}_by")), role_among(page.hand.get(f"{name}_role"), roles), on, said)


def _again(page: Page, record: Record, today: date) -> Act:
    day = read_day(_text(page, "again"), "Go on from", record.made_on, today + AHEAD)
    return Act(log_edits.take_up_again(record, day, today))


DOES = {
    "step": _step,
    "leave_out": lambda page, record, today: Act(edits.leave_out(record, _place(page), today)),
    "put_in": lambda page, record, today: Act(edits.put_in(record, _place(page), today)),
    "rest": _rest,
    "session": _session,
    "take_numbers": _take_numbers,
    "keep_numbers": _keep_numbers,
    "log": _log,
    "sign": _sign,
    "clear_limits": _clear_limits,
    "again": _again,
    "read": lambda page, record, today: Act(edits.acknowledge(record, _text(page, "read_by"), today)),
    "reopen": _reopen,
    "away": lambda _, record, __: Act(None, [html.P(AWAY + (f" {IN_CALENDAR}" if record.handed_out else ""))]),
}
"""What each button does, by its name."""


def _text(page: Page, name: str) -> str:
    text = page.hand.get(name)
    return text.strip() if isinstance(text, str) else ""


def _place(page: Page) -> int:
    return _number(page.chosen.get("step"), "Step")


def _number(chosen: object, label: str) -> int:
    if not isinstance(chosen, str) or not chosen.isdecimal():
        raise InputError(label, "", "one of the list")
    return int(chosen[:4])
