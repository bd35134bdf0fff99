"""What a button does to the plan: pure functions from what is on the page to a new plan and what is said of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.athlete.answers import Case
from app.athlete.checks import typed_number
from app.buildup import edits, words
from app.buildup.advice import otherwise_words, thrown_of
from app.buildup.answers import ball_among, make, missing_of
from app.buildup.checks import FIELDS, check_form, read_day
from app.buildup.file import FileError, read_upload
from app.buildup.form import NAMES, PlanForm
from app.buildup.offers import Offer, spread
from app.buildup.recheck import recheck
from app.buildup.record import Record, course_of
from app.buildup.view import offer_buttons
from app.compare.checks import message
from app.page_parts import page_link
from app.systems import METRIC, System
from app.units import from_si, plain
from model.build_up import SHARE_LIMIT, STEPS_LIMIT, Loosening, NoPlan
from model.calendar_plan import REPEATS_LIMIT, THROWS_LIMIT
from model.checks import InputError, Limit

FORM = "form:"  # an offer that changes the form, and not the plan
MOST_OFFERED = 3  # single changes that would open a plan
ALREADY = "Nothing was changed: so it stands already."
AHEAD = timedelta(days=3 * 366)


@dataclass(frozen=True)
class Page:
    """What is on the page when a button is pressed.

    Attributes
    ----------
    form : PlanForm
    case : Case
    invented : bool
        Whether the athlete is of the demo data.
    record : Record or None
        The plan that is shown.
    today : date
    hand, pains : mapping of str to object
        Texts of the fields beside the plan.
    chosen : mapping of str to object
        ``step``, ``ball``, ``session``, ``held``, ``signs`` and ``decision``.
    system : System
    """

    form: PlanForm
    case: Case
    invented: bool
    record: Record | None
    today: date
    hand: Mapping[str, Any] = field(default_factory=dict)
    pains: Mapping[str, Any] = field(default_factory=dict)
    chosen: Mapping[str, Any] = field(default_factory=dict)
    system: System = METRIC


@dataclass(frozen=True)
class Act:
    """What came of it.

    Attributes
    ----------
    record : Record or None
        The plan now.
    said : list
        What is told; texts and components.
    form : dict of str to str
        Fields of the form that changed with it.
    """

    record: Record | None
    said: list[Any] = field(default_factory=list)
    form: dict[str, str] = field(default_factory=dict)


def made(page: Page, changes: Mapping[str, str] | None = None) -> Act:
    """Make a plan from the form.

    Parameters
    ----------
    page : Page
    changes : mapping of str to str, optional
        Fields that are changed first.

    Returns
    -------
    Act
        With the plan of before, and the reason, where none can be made.
    """
    form = replace(page.form, **(changes or {}))
    checked = check_form(form, page.today, page.system)
    given = dict(changes or {})
    missing = missing_of(page.case, checked)
    if missing:
        return Act(page.record, missing_parts(missing.measures, missing.speed, missing.reasons), given)
    try:
        found = make(form, checked, page.case, page.invented, page.today)
    except InputError as error:
        return Act(page.record, [html.P(f"No plan: {message(error)}")], given)
    if isinstance(found, NoPlan):
        return Act(page.record, no_plan_parts(found, page.system), given)
    before = "" if page.record is None else " It took the place of the one before; Undo brings that back."
    return Act(found, [html.P(f"Plan made.{before}")], given)


def missing_parts(measures: bool, speed: bool, reasons: tuple[str, ...]) -> list[Component]:
    """Say what is missing for a plan, and where it is entered.

    Parameters
    ----------
    measures, speed : bool
    reasons : tuple of str

    Returns
    -------
    list of Component
    """
    lines: list[Component] = []
    if measures:
        lines.append(
            html.Li(["Missing: the athlete’s measures. ", page_link("Enter them on Athlete", "/athlete"), "."])
        )
    if speed:
        lines.append(
            html.Li(
                [
                    "Missing: a full-effort speed of this athlete. ",
                    page_link("Enter radar readings on Athlete", "/athlete"),
                    ", or ",
                    page_link("the reference throw on Compare", "/"),
                    ".",
                ]
            )
        )
    lines += [html.Li(text) for text in reasons]
    if measures or speed:
        lines.append(html.Li("To see how it works, choose an invented thrower: nothing of yours is overwritten."))
    return [html.P("No plan yet.", className="sentence invitation"), html.Ul(lines, className="claim-missing")]


def no_plan_parts(found: NoPlan, system: System) -> list[Component]:
    """Say why there is no plan, and offer what would open one.

    Parameters
    ----------
    found : NoPlan
    system : System

    Returns
    -------
    list of Component
    """
    offers = [Offer(f"{FORM}{one.kind}_{one.key}", _needed(one), _allow(one, system)) for one in found.loosenings]
    chosen = offers[:MOST_OFFERED]
    if found.fewest_steps is not None and found.fewest_steps != found.steps:
        count = str(found.fewest_steps)
        chosen.insert(0, Offer(f"{FORM}steps", count, f"plan {count} steps"))
    return [
        html.P(words.no_plan_words(found, system), className="sentence"),
        html.Div(offer_buttons(chosen), className="buildup-buttons"),
    ]


def _needed(one: Loosening) -> str:
    """The least value that would do, rounded so that it does, as it would be typed."""
    shown = from_si(one.needed, FIELDS[f"{one.kind}_{one.key}"].unit)
    size = max(abs(shown), 1e-6)
    return plain(shown + 5e-5 * max(1.0, size), most=4)


def _allow(one: Loosening, system: System) -> str:
    if one.kind == "rise":
        return f"allow {one.label} to rise {100.0 * one.needed:.1f} % a step"
    return f"set the cap on {one.label} to {words.metric_words(one.key, one.needed, system)}"


def offered(page: Page, name: str) -> Act:
    """Do what an offer says.

    Parameters
    ----------
    page : Page
    name : str
        Of its button: what is changed, an equals sign, and what it becomes.

    Returns
    -------
    Act

    Raises
    ------
    InputError
        If the value is not accepted.
    """
    key, _, value = name.partition("=")
    if key.startswith(FORM):
        key = key.removeprefix(FORM)
        return made(page, {key: value[:20]}) if key in NAMES else Act(page.record)
    record = page.record
    if record is None or record.log:
        return Act(record)
    given = {key: value[:20]}
    if key == "sessions":
        count, steps = _whole(value, "Sessions", Limit(1, 2000, "sessions")), len(record.throws)
        if count < steps:
            raise InputError("Sessions", count, f"{steps} or more, one for each step")
        return Act(
            edits.told(replace(record, repeats=spread(count, steps), by_hand={}), f"{page.today}: {count} sessions")
        )
    if key == "steps":
        return _found(edits.plan_rest(record, 0, _whole(value, "Steps", STEPS_LIMIT), page.today), page, given)
    if key in ("first_day", "target_day"):
        day = read_day(value, "Day", record.made_on - timedelta(366), page.today + AHEAD)
        calendar = record.calendar
        moved = replace(calendar, first_day=day) if key == "first_day" else replace(calendar, target_day=day)
        return Act(replace(record, calendar=moved), form=given)
    return Act(record)


def done(page: Page, name: str) -> Act:
    """Do to the plan what a button says.

    Parameters
    ----------
    page : Page
    name : str
        Of the button.

    Returns
    -------
    Act

    Raises
    ------
    InputError
        Naming the field that does not do.
    """
    record, today = page.record, page.today
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
    before = "" if page.record is None else " It took the place of the one before; Undo brings that back."
    return Act(record, [html.P(f"Opened: the plan of {record.code or 'an athlete without a code'}.{before}")])


def _step(page: Page, record: Record, today: date) -> Act:
    ball = ball_among(page.chosen.get("ball"), record.table.balls)
    if ball is None:
        raise InputError("Ball", "", "a ball of the plan’s rack")
    percents = Limit(100.0 * SHARE_LIMIT.low, 100.0 * SHARE_LIMIT.high, "%")
    share = typed_number(_text(page, "share"), "Of full speed with it", percents) / 100.0
    count = _whole(_text(page, "sessions"), "Sessions at this step", REPEATS_LIMIT)
    return Act(edits.change_step(record, _place(page), ball, share, count, today))


def _session(page: Page, record: Record, today: date) -> Act:
    index = page.chosen.get("session")
    if not isinstance(index, str) or not index.isdecimal():
        raise InputError("Session", "", "one of the list")
    day, throws = _text(page, "day"), _text(page, "throws")
    typed_day = read_day(day, "Day", record.made_on - timedelta(366), today + AHEAD) if day else None
    return Act(
        edits.change_session(
            record, int(index[:6]), typed_day, _whole(throws, "Throws", THROWS_LIMIT) if throws else None, today
        )
    )


def _rest(page: Page, record: Record, today: date) -> Act:
    steps = _text(page, "rest")
    count = _whole(steps, "Steps from this one on", STEPS_LIMIT) if steps else None
    return _found(edits.plan_rest(record, _place(page), count, today), page, {})


def _found(found: Record | NoPlan, page: Page, form: dict[str, str]) -> Act:
    if isinstance(found, NoPlan):
        return Act(page.record, [html.P(words.no_plan_words(found, page.system), className="sentence")])
    return Act(found, form=form)


def _take_numbers(page: Page, record: Record, today: date) -> Act:
    found = recheck(record, page.case)
    if found is None:
        return Act(record)
    return Act(edits.take_numbers(record, found.person, found.table, found.rests_on, today))


def _keep_numbers(page: Page, record: Record, _: date) -> Act:
    found = recheck(record, page.case)
    return Act(record if found is None else replace(record, refused=found.mark))


def _log(page: Page, record: Record, today: date) -> Act:
    chosen = page.chosen
    thrown = thrown_of(
        course_of(record), page.pains, chosen.get("held"), chosen.get("signs"), chosen.get("decision"), page.hand, today
    )
    kept = edits.log_session(record, thrown)
    return Act(kept, [html.P(f"Session {len(kept.log)} kept.{otherwise_words(thrown)}")])


def _reopen(record: Record) -> Act:
    said = [html.P(f"Session {len(record.log)} is open again.")] if record.log else []
    return Act(edits.reopened(record), said)


def _again(page: Page, record: Record, today: date) -> Act:
    day = read_day(_text(page, "again"), "Go on from", record.made_on, today + AHEAD)
    return Act(edits.take_up_again(record, day, today))


DOES = {
    "step": _step,
    "leave_out": lambda page, record, today: Act(edits.leave_out(record, _place(page), today)),
    "put_in": lambda page, record, today: Act(edits.put_in(record, _place(page), today)),
    "rest": _rest,
    "session": _session,
    "take_numbers": _take_numbers,
    "keep_numbers": _keep_numbers,
    "log": _log,
    "reopen": lambda _, record, __: _reopen(record),
    "again": _again,
    "read": lambda page, record, today: Act(edits.acknowledge(record, _text(page, "read_by"), today)),
    "away": lambda *_: Act(None, [html.P("The plan was put away; Undo brings it back.")]),
}
"""What each button does, by its name."""


def _text(page: Page, name: str) -> str:
    text = page.hand.get(name)
    return text.strip() if isinstance(text, str) else ""


def _place(page: Page) -> int:
    chosen = page.chosen.get("step")
    if not isinstance(chosen, str) or not chosen.isdecimal():
        raise InputError("Step", "", "one of the list")
    return int(chosen[:4])


def _whole(text: str, label: str, limit: Limit) -> int:
    number = typed_number(text, label, limit)
    if number != int(number):
        raise InputError(label, text, f"a whole number, {limit}")
    return int(number)
