"""Making a plan from the form, or why there is none and what would open one. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup import edits, log_edits, words
from app.pages.buildup.answers import make
from app.pages.buildup.athlete import Athlete
from app.pages.buildup.hand import FIELDS, buttons, offer_buttons
from app.pages.buildup.noted import Noted
from app.pages.buildup.offers import Offer, spread
from app.pages.buildup.record import Record
from app.pages.buildup.rule_words import stop_sign_words
from app.pages.buildup.wanted import AHEAD, BACK, NAMES, Wanted, spec
from app.records.fields import in_words
from app.show.page_parts import page_link
from app.units.conversion import from_si, plain
from app.units.systems import METRIC, System
from model.build_up import Loosening, NoPlan
from model.checks import InputError
from model.stop_signs import Signed, StopSign

FORM = "form:"  # an offer that changes the form, and not the plan
MOST_OFFERED = 3  # single changes that would open a plan


@dataclass(frozen=True)
class Page:
    """What is on the page when a button is pressed.

    Attributes
    ----------
    wanted : Wanted
    athlete : Athlete
    record : Record or None
        The plan that is shown.
    today : date
    hand : mapping of str to object
        Values of the fields beside the plan.
    noted : Noted
        The fields after a session.
    to_mend : str
        Which of them were refused.
    at : int
        Which session they are of.
    chosen : mapping of str to object
        ``step``, ``ball`` and ``session``.
    system : System
    """

    wanted: Wanted
    athlete: Athlete
    record: Record | None
    today: date
    hand: Mapping[str, Any] = field(default_factory=dict)
    noted: Noted = field(default_factory=dict)
    at: int = 0
    chosen: Mapping[str, Any] = field(default_factory=dict)
    system: System = METRIC
    to_mend: str = ""

    def typed(self, name: str) -> Any:
        """The value of a field beside the plan; None where it is empty and may be."""
        text = self.hand.get(name)
        return FIELDS[name].parse(text if isinstance(text, str) else "", self.system, today=self.today).value

    def day(self, name: str, low: date, high: date) -> date | None:
        """A day between two."""
        day: date | None = self.typed(name)
        if day is not None and not low <= day <= high:
            raise InputError(FIELDS[name].label, day, f"year-month-day from {low} to {high}")
        return day

    def signed(self, name: str) -> Signed:
        """Who decides or records something."""
        by, role, words = (self.typed(f"{name}_{part}") for part in ("by", "role", "words"))
        return Signed(by, role, self.today, words)


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
    signs : tuple of StopSign or None
        The athlete's, where they changed and there is no plan.
    fresh : bool
        Whether the plan was made now, and is another one than that before.
    """

    record: Record | None
    said: list[Any] = field(default_factory=list)
    form: dict[str, str] = field(default_factory=dict)
    signs: tuple[StopSign, ...] | None = None
    fresh: bool = False


def made(page: Page, changes: Mapping[str, str] | None = None) -> Act:
    """Make a plan from the form.

    Parameters
    ----------
    changes : mapping of str to str, optional
        Fields that are changed first.

    Returns
    -------
    Act
        With the plan of before, and the reason, where none can be made.
    """
    given = dict(changes or {})
    wanted = page.wanted.but(**{name: spec(name).parse(text).value for name, text in given.items()})
    if said := refused(page):
        return Act(page.record, said, given)
    wanted = wanted.but(order=wanted["order"] or wanted.care.order)
    order = () if wanted["order"] else ("Order of the balls: choose one, or compare them first.",)
    if missing := missing_parts(page.athlete, (*wanted.missing, *order)):
        return Act(page.record, missing, given)
    try:
        found = make(wanted, page.athlete, page.today)
    except InputError as error:
        return Act(page.record, [html.P(f"No plan: {in_words(named(error))}")], given)
    if isinstance(found, NoPlan):
        return Act(page.record, no_plan_parts(found, page.system), given)
    before = "" if page.record is None else " The one before was put away; Undo brings it back."
    return Act(log_edits.took_over(found, page.record), [html.P(f"Plan made.{before}")], given, fresh=True)


def refused(page: Page) -> list[Component]:
    """Say why no plan is made while a stop sign of the athlete stands; nothing where none does."""
    signs = page.athlete.known.standing
    if not signs:
        return []
    mark = page.record.mark if page.record is not None else ""
    listed = [html.Li(stop_sign_words(one, mark)) for one in signs]
    return [html.P("No plan is made: a stop sign stands for this athlete.", className="sentence"), html.Ul(listed)]


def named(error: InputError) -> InputError:
    """The same refusal with the field's name as it stands on the page."""
    label = spec(error.field).label if error.field in NAMES else error.field
    return InputError(label, error.given, error.accepted)


def missing_parts(athlete: Athlete, reasons: tuple[str, ...]) -> list[Component]:
    """Say what is missing for a plan, and where it is entered; nothing where nothing is."""
    lines: list[Component] = []
    profile = athlete.case.profile
    if athlete.case.person is None:
        lines.append(
            html.Li(["Missing: the athlete’s measures. ", page_link("Enter them on Athlete", "/athlete"), "."])
        )
    if profile is not None and profile.posterior.own is None:
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
    if not lines:
        return []
    return [html.P("No plan yet.", className="sentence invitation"), html.Ul(lines, className="claim-missing")]


def no_plan_parts(found: NoPlan, system: System) -> list[Component]:
    """Say why there is no plan, and offer what would open one."""
    offers = [Offer(f"{FORM}{one.kind}_{one.key}", _needed(one), _allow(one, system)) for one in found.loosenings]
    chosen = offers[:MOST_OFFERED]
    if found.fewest_steps is not None and found.fewest_steps != found.steps:
        count = str(found.fewest_steps)
        chosen.insert(0, Offer(f"{FORM}steps", count, f"plan {count} steps"))
    return [
        html.P(words.no_plan_words(found, system), className="sentence"),
        buttons(*offer_buttons(chosen)),
    ]


def _needed(one: Loosening) -> str:
    """The least value that would do, rounded so that it does, as it would be typed."""
    shown = from_si(one.needed, spec(f"{one.kind}_{one.key}").unit)
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
    name : str
        Of its button: what is changed, an equals sign, and what it becomes.

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
    given, today, steps = {key: value[:20]}, page.today, len(record.throws)
    if key == "sessions" and value.isdecimal():
        count = int(value[:4])
        if count < steps:
            raise InputError("Sessions", count, f"{steps} or more, one for each step")
        spread_out = replace(record, repeats=spread(count, steps), by_hand={})
        return Act(edits.told(spread_out, f"{today}: {count} sessions"))
    if key == "steps":
        return planned(edits.plan_rest(record, 0, int(spec(key).parse(value).value or 0), today), page, given)
    if key in ("first_day", "target_day"):
        day = spec(key).parse(value).value
        if day is None or not record.made_on - BACK <= day <= today + AHEAD:
            raise InputError("Day", value, f"year-month-day from {record.made_on - BACK} to {today + AHEAD}")
        return Act(replace(record, calendar=replace(record.calendar, **{key: day})), form=given)
    return Act(record)


def planned(found: Record | NoPlan, page: Page, form: dict[str, str]) -> Act:
    """Take what was planned again, or say why nothing could be."""
    if isinstance(found, NoPlan):
        return Act(page.record, [html.P(words.no_plan_words(found, page.system), className="sentence")])
    return Act(found, form=form)
