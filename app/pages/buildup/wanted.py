"""What is asked for before a plan is made: values of the settings, and those that stand for empty ones (SI)."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cached_property
from typing import Any

from app.pages.buildup.aims import Care, aim_named
from app.pages.buildup.athlete import Athlete
from app.pages.buildup.first_limits import COUNT_LIMIT
from app.pages.buildup.record import Asked
from app.records.field_list import field_of
from app.records.fields import Field, in_words
from app.records.plan_fields import BY_AIM, PLAN_SETTINGS
from app.records.reads import AthleteData
from app.show.kept import refused_settings, setting_of, to_mend
from app.units.systems import METRIC, System
from model.build_up import METRICS, PlanLimits
from model.calendar_plan import Budget, Calendar
from model.checks import InputError
from model.stop_signs import Signed

AHEAD = timedelta(days=3 * 366)  # of a day in the future
BACK = timedelta(days=366)
NO_DAYS = "-"  # every day of the week was unticked; empty stands for the aim's
NAMES = tuple(one.name for one in PLAN_SETTINGS)
COUNTS = ("steps", "repeats", "hold_count", "least_throws", "most_throws", "easier_every", "weeks_off", "throws_week")


def spec(name: str) -> Field:
    """The field of a setting."""
    return field_of(f"plan.{name}")


@dataclass(frozen=True)
class Wanted:
    """What is asked for.

    Attributes
    ----------
    given : mapping of str to object
        What was said, by the names of the fields; what was not is None, empty or left out.
    care : Care
        What stands for what was not said, and what is asked for.
    today : date
        The first day, unless another was said.
    limited : bool
        Whether limits came over from Start.
    refused : tuple of str
        Labels of the fields of which a text was refused.
    """

    given: Mapping[str, Any]
    care: Care
    today: date
    limited: bool = False
    refused: tuple[str, ...] = ()
    system: System = field(default=METRIC, compare=False)

    def said(self, name: str) -> bool:
        """Whether a field was filled in."""
        return self.given.get(name) not in (None, "")

    def __getitem__(self, name: str) -> Any:
        """The value of a field: what was said, else the aim's; None for neither. Counts are whole numbers."""
        value = self.given[name] if self.said(name) else self.care.value(name)
        return int(value) if name in COUNTS and value is not None else value

    def but(self, **changes: Any) -> "Wanted":
        """The same with other values."""
        return replace(self, given={**self.given, **changes})

    @property
    def lead(self) -> str:
        """The lead readout: a key of `METRICS`."""
        lead = self["lead"]
        return lead if lead in METRICS and lead != BY_AIM else aim_named(self.care.aim).lead

    @property
    def weekdays(self) -> frozenset[int]:
        """The days of the week, Monday 0."""
        return frozenset(int(part) for part in (self["days"] or "").split() if part in set("0123456"))

    @property
    def limits(self) -> PlanLimits:
        """Step limits and caps."""
        rises, caps = (
            {key: self[f"{kind}_{key}"] for key in METRICS if self[f"{kind}_{key}"] is not None}
            for kind in ("rise", "cap")
        )
        return PlanLimits(rises, caps)

    @property
    def calendar(self) -> Calendar:
        """Days to throw on; raises `InputError` where there are none."""
        every, first = self["easier_every"], self["first_day"] or self.today
        return Calendar(first, self.weekdays, every if every > 1 else None, self["easier_percent"], self["target_day"])

    def budget(self, first_area_nms: float) -> Budget:
        """Budget of a session, by the area of one throw of the first step (N m s); refuses what does not fit."""
        first = self["first_nms"] if self.said("first_nms") else self["first_throws"] * first_area_nms
        return Budget(first, self["weekly_percent"], self["most_nms"], self["least_throws"], self["most_throws"])

    @property
    def asked(self) -> Asked:
        """What was before."""
        by, role = self["cleared_by"], self["cleared_role"]
        cleared = Signed(by, role, self.today) if by and role and self.care.asks else None
        return Asked(self["weeks_off"], self["throws_week"], self["thrown"] or "", cleared)

    @cached_property
    def wrong(self) -> tuple[str, ...]:
        """What does not fit together, in words."""
        return tuple(in_words(error) for error in self._wrong())

    def _wrong(self) -> Iterator[InputError]:
        for name in ("first_day", "target_day"):
            day, low, high = self[name], self.today - BACK, self.today + AHEAD
            if day is not None and not low <= day <= high:
                yield self._refused(name, f"year-month-day from {low} to {high}")
        first, target = self["first_day"] or self.today, self["target_day"]
        if target is not None and target < first:
            yield self._refused("target_day", f"{first} or later")
        if self["easier_every"] == 1:
            yield self._refused("easier_every", "0 for none, or 2 to 26 weeks")
        for lower, upper in (("least_throws", "most_throws"), ("first_nms", "most_nms")):
            least, most = self[lower], self[upper]
            if least is not None and most is not None and least > most:
                unit = spec(lower).unit
                if self.said(upper):
                    yield self._refused(upper, f"{least:g} or more, {unit}")
                else:
                    yield self._refused(lower, f"{most:g} or less, {unit}")
        weeks = COUNT_LIMIT["weeks"].high
        if self["holds"] == "weeks" and (self["hold_count"] or 1) > weeks:
            yield self._refused("hold_count", f"1 to {weeks:g} weeks")

    def _refused(self, name: str, accepted: str) -> InputError:
        return InputError(spec(name).label, spec(name).shown(self[name], "", self.system), accepted)

    @property
    def missing(self) -> tuple[str, ...]:
        """All that is in the way of a plan, in words: what was refused, does not fit together, or was not said."""
        mend = to_mend(self.refused)
        return (*([mend] if mend else []), *self.wrong, *self._unsaid())

    def _unsaid(self) -> Iterator[str]:
        for name in ("weeks_off", "throws_week", "repeats", "first_throws") if self.care.asks else ():
            instead = name == "first_throws" and self.said("first_nms")
            if self[name] is None and spec(name).label not in self.refused and not instead:
                yield f"{spec(name).label}: asked for, and nothing stands for it."
        if not self.weekdays:
            yield "Days to throw on: choose one or more."
        if self.care.injury and self.asked.cleared is None and spec("cleared_by").label not in self.refused:
            yield "Who cleared the athlete to throw: initials and role."
        if self.limited and not self["holds"]:
            yield "The limits from Start: say how long they hold."
        if self.limited and self["holds"] in COUNT_LIMIT and self["hold_count"] is None:
            yield f"The limits from Start: for how many {self['holds']} they hold."


def wanted_of(data: AthleteData, athlete: Athlete, today: date, system: System = METRIC) -> Wanted:
    """What the records say is asked for."""
    given = {name: setting_of(data, f"plan.{name}") for name in NAMES}
    refused = refused_settings(data, [f"plan.{name}" for name in NAMES])
    return Wanted(given, athlete.care(given["aim"]), today, athlete.given is not None, tuple(refused), system)
