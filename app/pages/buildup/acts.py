"""What a button does to the plan: pure functions from what is on the page to a new plan and what is said of it."""

from dataclasses import replace
from datetime import date

from dash import html

from app.pages.buildup import edits, log_edits, words
from app.pages.buildup.athlete import ball_among
from app.pages.buildup.course import course_of
from app.pages.buildup.file import FileError, read_upload
from app.pages.buildup.given import GIVEN_PATHS
from app.pages.buildup.making import Act, Page, planned
from app.pages.buildup.noted import logged_of
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import Acknowledgement, Record
from app.pages.buildup.rule_words import sign_words
from app.pages.buildup.wanted import AHEAD, BACK
from model.checks import InputError
from model.stop_signs import Signed, StopSign, cleared, withdrawn

ALREADY = "Nothing was changed: so it stands already."
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
        return _of_signs(page, name)
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
    share, count = page.typed("share"), int(page.typed("sessions"))
    return Act(edits.change_step(record, _place(page), ball, share, count, today))


def _session(page: Page, record: Record, today: date) -> Act:
    index, throws = _number(page.chosen.get("session"), "Session"), page.typed("throws")
    day = page.day("day", record.made_on - BACK, today + AHEAD)
    return Act(edits.change_session(record, index, day, None if throws is None else int(throws), today))


def _rest(page: Page, record: Record, today: date) -> Act:
    steps = page.typed("rest")
    return planned(edits.plan_rest(record, _place(page), None if steps is None else int(steps), today), page, {})


def _take_numbers(page: Page, record: Record, today: date) -> Act:
    found = recheck(record, page.athlete.case)
    if found is None:
        return Act(record)
    return Act(edits.take_numbers(record, found.person, found.table, found.rests_on, found.limits, today))


def _keep_numbers(page: Page, record: Record, _: date) -> Act:
    found = recheck(record, page.athlete.case)
    return Act(record if found is None else replace(record, refused=found.mark))


def _log(page: Page, record: Record, today: date) -> Act:
    if page.to_mend:
        return Act(record, [html.P(page.to_mend)])
    one = logged_of(course_of(record), page.at, page.noted, today)
    by = Signed(page.noted["by"].strip(), page.noted["role"], today)
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
    sign, since = page.typed("sign_what"), page.day("sign_since", today - BACK, today) or today
    kept = log_edits.enter_sign(record, sign, since, page.signed("sign"))
    return Act(kept, [html.P(f"Stop sign kept: {sign_words([sign])}. The plan stands still.")])


def _of_signs(page: Page, name: str) -> Act:
    """Clear or withdraw stop signs: of the plan, or where there is none of the athlete."""
    record = page.record
    signs, said, form = SIGNS[name](page, page.athlete.known.signs if record is None else record.signs)
    if record is None:
        return Act(None, [html.P(said)], form, signs)
    return Act(replace(record, signs=signs), [html.P(said)], form)


def _clear(page: Page, signs: Signs) -> tuple[Signs, str, dict[str, str]]:
    today = page.today
    on = page.day("clear_on", today - BACK, today) or today
    try:
        done = cleared(signs, replace(page.signed("clear"), on=on))
    except InputError as error:
        label = {"words": "Whose decision it was", "on": "Day"}.get(error.field, error.field)
        raise InputError(label, error.given, error.accepted) from None
    return done, "The stop signs were cleared. Say above what is planned, and make the plan anew.", REASKED


def _withdraw(page: Page, signs: Signs) -> tuple[Signs, str, dict[str, str]]:
    done = withdrawn(signs, _number(page.hand.get("withdraw_what"), "Stop sign"), page.signed("withdraw"))
    return done, "The stop sign was withdrawn; it stays in the list with your words.", {}


SIGNS = {"clear": _clear, "withdraw": _withdraw}


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
    "clear_limits": lambda page, record, today: Act(log_edits.clear_limits(record, page.signed("limits"), today)),
    "again": lambda page, record, today: Act(
        log_edits.take_up_again(record, page.day("again", record.made_on, today + AHEAD) or today, today)
    ),
    "read": lambda page, record, today: Act(replace(record, read=Acknowledgement(page.typed("read_by"), today))),
    "reopen": _reopen,
}
"""What each button does, by its name."""


def _place(page: Page) -> int:
    return _number(page.chosen.get("step"), "Step")


def _number(chosen: object, label: str) -> int:
    if not isinstance(chosen, str) or not chosen.isdecimal():
        raise InputError(label, "", "one of the list")
    return int(chosen[:4])
