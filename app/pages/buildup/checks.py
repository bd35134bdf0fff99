"""From the typed form to what the planner is asked: every value is checked in its field; an empty one is the aim's."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from app.pages.buildup.aims import Care, aim_named
from app.pages.buildup.first_limits import COUNT_LIMIT
from app.pages.buildup.form import PlanForm
from app.pages.buildup.record import Asked
from app.pages.buildup.rule_words import CLEARING
from app.records.plan_fields import CAP_LIMITS, HOLDS, PLAN_NUMBERS
from app.records.tables import LONGEST_INITIALS
from app.show.checks import message, read_field
from app.show.form_fields import Field
from app.units.conversion import UNITS, to_si
from app.units.systems import METRIC, System
from model.build_up import METRICS, PlanLimits
from model.calendar_plan import Budget, Calendar
from model.checks import InputError
from model.stop_signs import Signed

LONGEST_AHEAD = timedelta(days=3 * 366)  # of a day in the future
LONGEST_BACK = timedelta(days=366)

CAP_UNITS = CAP_LIMITS
"""Unit and accepted range of a cap, by metric."""

FIELDS = {one.name: Field(one.name, one.label, one.unit, one.of, one.name, False, one.hint) for one in PLAN_NUMBERS}
"""The fields for numbers, by their names in the form."""

WHOLE = frozenset(one.name for one in PLAN_NUMBERS if one.kind == "whole")
DATES = {"first_day": "First day", "target_day": "Target day"}
DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(frozen=True)
class CheckedPlan:
    """The form, read: values in SI by the names of the fields, and a message for each field that could not be read.

    Attributes
    ----------
    values : mapping of str to float
        What was typed, or the aim's; what has neither is left out.
    typed : frozenset of str
        Which of them were typed.
    lead : str
        A key of `METRICS`.
    weekdays : frozenset of int
    first_day : date
    target_day : date or None
    asked : Asked
        What was before.
    holds : str
        How long the limits from Start hold; a key of `HOLDS`, or empty.
    problems : mapping of str to str
    missing : tuple of str
        What is asked for and was not said.
    """

    values: Mapping[str, float]
    typed: frozenset[str]
    lead: str
    weekdays: frozenset[int]
    first_day: date
    target_day: date | None
    asked: Asked = field(default_factory=Asked)
    holds: str = ""
    missing: tuple[str, ...] = ()
    problems: Mapping[str, str] = field(default_factory=dict)

    @property
    def limits(self) -> PlanLimits:
        """Step limits and caps."""
        rises = {key: self.values[f"rise_{key}"] for key in METRICS if f"rise_{key}" in self.values}
        caps = {key: self.values[f"cap_{key}"] for key in METRICS if f"cap_{key}" in self.values}
        return PlanLimits(rises, caps)

    @property
    def steps(self) -> int | None:
        """How many steps are wanted; None for as many as the limits ask for."""
        return int(self.values["steps"]) if "steps" in self.values else None

    @property
    def calendar(self) -> Calendar:
        """Days to throw on; raises `InputError` where there are none."""
        every = int(self.values["easier_every"])
        share = self.values["easier_percent"]
        return Calendar(self.first_day, self.weekdays, every if every > 1 else None, share, self.target_day)

    def budget(self, first_area_nms: float) -> Budget:
        """Budget of a session, by the area of one throw of the first step (N m s); refuses what does not fit."""
        values = self.values
        first = values["first_nms"] if "first_nms" in values else values["first_throws"] * first_area_nms
        return Budget(
            first,
            self.values["weekly_percent"],
            self.values.get("most_nms"),
            int(self.values["least_throws"]),
            int(self.values["most_throws"]),
        )


def default_text(name: str, care: Care, system: System = METRIC) -> str:
    """What stands for an empty field, in the units that are shown; empty if nothing does."""
    text = care.value(name)
    return FIELDS[name].shown(text, system) if text else ""


def check_form(form: PlanForm, today: date, care: Care, limited: bool = False, system: System = METRIC) -> CheckedPlan:
    """Read the form.

    Parameters
    ----------
    form : PlanForm
        As kept.
    today : date
        The first day, if none is typed.
    care : Care
        What is asked for.
    limited : bool
        Whether limits came over from Start.
    system : System
        The units of the messages.
    """
    problems = dict[str, str]()
    values, typed = dict[str, float](), set[str]()
    for name, spec in FIELDS.items():
        text = str(getattr(form, name))
        if not text.strip():
            text = care.value(name)
            if text:
                values[name] = to_si(float(text), spec.unit)
            continue
        value = read_field(text, spec, problems, system)
        if value is not None and name in WHOLE and value != int(value):
            problems[name] = message(InputError(spec.label, text, f"a whole number, {spec.accepted_in(system)}"))
        elif value is not None:
            values[name] = value
            typed.add(name)
    if values.get("easier_every") == 1.0:
        problems["easier_every"] = message(
            InputError(FIELDS["easier_every"].label, form.easier_every, "0 for none, or 2 to 26 weeks")
        )
    days = {name: _day(getattr(form, name), name, today, problems) for name in DATES}
    first = days["first_day"] or today
    target = days["target_day"]
    if target is not None and target < first:
        problems["target_day"] = message(InputError("Target day", form.target_day, f"{first} or later"))
        target = None
    for low, high in (("least_throws", "most_throws"), ("first_nms", "most_nms")):
        if low in values and high in values and values[low] > values[high]:
            name = high if high in typed else low
            least = f"{values[low]:g} or more" if name == high else f"{values[high]:g} or less"
            problems.setdefault(
                name, message(InputError(FIELDS[name].label, getattr(form, name), f"{least}, {FIELDS[name].unit}"))
            )
    weekdays = weekdays_of(form.days or care.value("days"))
    lead = form.lead if form.lead in METRICS else aim_named(form.aim).lead
    asked = _asked(form, values, today, problems)
    holds = form.holds if form.holds in HOLDS else ""
    if holds == "weeks" and values.get("hold_count", 1.0) > COUNT_LIMIT["weeks"].high:
        accepted = f"1 to {COUNT_LIMIT['weeks'].high:g} weeks"
        problems["hold_count"] = message(InputError(FIELDS["hold_count"].label, form.hold_count, accepted))
    found = CheckedPlan(values, frozenset(typed), lead, weekdays, first, target, asked, holds, (), problems)
    return replace(found, missing=tuple(_missing(found, care, limited)))


def _asked(form: PlanForm, values: Mapping[str, float], today: date, problems: dict[str, str]) -> Asked:
    cleared = None
    if form.cleared_by.strip():
        try:
            by = initials(form.cleared_by)
            cleared = Signed(by, form.cleared_role, today) if form.cleared_role in CLEARING else None
        except InputError as error:
            problems["cleared_by"] = message(error)
    weeks, throws = (int(values[name]) if name in values else None for name in ("weeks_off", "throws_week"))
    return Asked(weeks, throws, form.thrown.strip(), cleared)


def _missing(found: CheckedPlan, care: Care, limited: bool) -> Iterator[str]:
    """What is asked for and was not said."""
    wanted = ("weeks_off", "throws_week", "repeats", "first_throws") if care.asks else ()
    for name in wanted:
        instead = name == "first_throws" and "first_nms" in found.values
        if name not in found.values and name not in found.problems and not instead:
            yield f"{FIELDS[name].label}: asked for, and nothing stands for it."
    if not found.weekdays:
        yield "Days to throw on: choose one or more."
    if care.injury and found.asked.cleared is None and "cleared_by" not in found.problems:
        yield "Who cleared the athlete to throw: initials and role."
    if limited and not found.holds:
        yield "The limits from Start: say how long they hold."
    if limited and found.holds in COUNT_LIMIT and "hold_count" not in {*found.values, *found.problems}:
        yield f"The limits from Start: for how many {found.holds} they hold."


def initials(text: object) -> str:
    """Read initials; refuses none, what is too long to be initials, and what cannot be printed."""
    typed = text.strip() if isinstance(text, str) else ""
    if not typed or len(typed) > LONGEST_INITIALS or not typed.isprintable():
        raise InputError("Initials", typed, f"1 to {LONGEST_INITIALS} printable characters")
    return typed


def role_among(text: object, roles: Mapping[str, str]) -> str:
    """Read a role; refuses what is none of those offered."""
    if not isinstance(text, str) or text not in roles:
        raise InputError("Role", "", ", ".join(roles.values()))
    return text


def weekdays_of(text: str) -> frozenset[int]:
    """Read days of the week, Monday 0, with blanks between them; what is none is passed over."""
    return frozenset(int(part) for part in text.split() if part in set("0123456"))


def read_day(text: str, label: str, low: date, high: date) -> date:
    """Read a typed day.

    Parameters
    ----------
    text : str
        Year-month-day.
    label : str
        What the field is called.
    low, high : date
        The first and last day that are accepted.

    Raises
    ------
    InputError
        If it is no such day.
    """
    typed = text.strip()
    try:
        if not _DATE.fullmatch(typed):
            raise ValueError
        day = date.fromisoformat(typed)
        if not low <= day <= high:
            raise ValueError
    except ValueError:
        raise InputError(label, text, f"year-month-day from {low} to {high}") from None
    return day


def _day(text: str, name: str, today: date, problems: dict[str, str]) -> date | None:
    if not text.strip():
        return None
    try:
        return read_day(text, DATES[name], today - LONGEST_BACK, today + LONGEST_AHEAD)
    except InputError as error:
        problems[name] = message(error)
        return None


def unit_of(key: str) -> str:
    """The unit a metric is printed in."""
    return UNITS[CAP_UNITS[key][0]].symbol
