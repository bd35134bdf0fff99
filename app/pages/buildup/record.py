"""A plan as it is kept: all it was made from, its steps and days, what was changed by hand, its log and stop signs.

It stands by itself: nothing in it is read from another page, so that it opens on another machine. What follows from it
(`course`) is never kept.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from typing import Annotated

from pydantic import ConfigDict, Field, with_config

from app.pages.buildup.aims import AIMS
from app.pages.buildup.first_limits import FirstLimits
from app.records.plan_fields import LONGEST_WORDS, ORDERS
from app.records.tables import LONGEST_CODE, LONGEST_INITIALS
from model.ball import Ball
from model.build_up import METRICS, SHARE_LIMIT, Plan, PlanLimits, Step, steps_of
from model.calendar_plan import REPEATS_LIMIT, Budget, ByHand, Calendar, order_of
from model.ceilings import KINDS
from model.checks import InputError, check_choice, check_number
from model.full_speeds import SpeedTable
from model.ladder import Most, Row
from model.person import Person
from model.plan_nodes import Order
from model.session_log import Logged
from model.stop_signs import Signed, StopSign

MOST_STEPS, MOST_BALLS, MOST_LOGGED = 60, 24, 400
MOST_CHANGES = 100  # lines that are kept of them; the oldest go

Mark = Annotated[str, Field(pattern=r"^[0-9a-f]{0,64}$")]
Place = Annotated[int, Field(ge=0, le=10_000)]
Throws = tuple[tuple[Ball, float], ...]
"""Steps as they are kept: ball and share of full speed with it."""


@dataclass(frozen=True)
class Acknowledgement:
    """That the text about growing throwers was read: by whom (initials) and when."""

    by: Annotated[str, Field(max_length=LONGEST_INITIALS)]
    on: date


@dataclass(frozen=True)
class Asked:
    """What was asked before the plan was made; what was not answered is None or empty.

    Attributes
    ----------
    weeks_off : int or None
        Without throwing.
    throws_a_week : int or None
        Before that.
    thrown : str
        What was thrown then, in words.
    cleared : Signed or None
        Who cleared the athlete after an injury.
    """

    weeks_off: int | None = None
    throws_a_week: int | None = None
    thrown: Annotated[str, Field(max_length=LONGEST_WORDS)] = ""
    cleared: Signed | None = None


@dataclass(frozen=True)
class KnownReference:
    """The reference throw: its kind (a key of `KINDS`, empty if not known), when it was measured, its speed (m/s)."""

    kind: str = ""
    on: date | None = None
    speed_m_s: float | None = None

    @property
    def words(self) -> str:
        """Its kind and day."""
        dated = f", {self.on or 'date not given'}" if self.kind in ("measured", "before_injury") else ""
        return f"{KINDS.get(self.kind, 'not known')}{dated}"


@dataclass(frozen=True)
class HandedOut:
    """Sessions that stand in a calendar somewhere: the plan's mark, and their numbers from first to last."""

    mark: Mark
    first: Place
    last: Place


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True)
class Record:
    """A plan as it is kept.

    Attributes
    ----------
    code : str
        The athlete's.
    invented : bool
        Whether the athlete is of the demo data.
    person : Person
    own_ball : Ball
    table : SpeedTable
        Full speed with each ball, as known when the plan was made or new numbers were last taken.
    rests_on : str
        Where these speeds come from, in words.
    aim, lead : str
        Keys of `AIMS` and of `METRICS`.
    limits : PlanLimits
    throws : tuple of (Ball, float)
        The steps.
    repeats : tuple of int
        Sessions at each.
    why : str
        Why the balls come in this order.
    calendar : Calendar
    budget : Budget
    made_on : date
    mark : str
        What tells the plan from others: made of all it started from, and the same as long as it is kept.
    way : str
        The order of the balls; a key of `form.ORDERS`, or empty in plans made before there was a choice.
    own_early : bool
        Whether the goal's ball has to come within two thirds of the steps.
    own_first : float
        The most of full speed with it at which it may come first.
    reference : KnownReference
    asked : Asked
    first : FirstLimits or None
        What came over from Start.
    by_hand : mapping of int to ByHand
        What was set of single sessions, by their place in the whole row.
    notes : tuple of str
        What was lowered while it was made, and why.
    changed : tuple of str
        What was changed since, one line each.
    read : Acknowledgement or None
    log : tuple of Logged
    signs : tuple of StopSign
        The athlete's, those aside that the plan was made after.
    earlier : tuple of StopSign
        Those.
    start_most : Most or None
        What it was to start no higher than, where it was made after a stop sign.
    lifted : int
        A decision to stop among so many first sessions of the log no longer holds.
    not_before : date or None
        No session that is left is before it.
    refused : str
        Mark of the new numbers that were last refused; they are not asked about again.
    handed_out : tuple of HandedOut
        Of this plan and of those in whose place it came.
    calendars : int
        How many calendar files were made of it.
    """

    code: Annotated[str, Field(max_length=LONGEST_CODE)]
    invented: bool
    person: Person
    own_ball: Ball
    table: SpeedTable
    rests_on: str
    aim: str
    lead: str
    limits: PlanLimits
    throws: Throws
    repeats: tuple[int, ...]
    why: str
    calendar: Calendar
    budget: Budget
    made_on: date
    mark: Mark
    way: str = ""
    own_early: bool = False
    own_first: float = 1.0
    reference: KnownReference = field(default_factory=KnownReference)
    asked: Asked = field(default_factory=Asked)
    first: FirstLimits | None = None
    notes: tuple[str, ...] = ()
    by_hand: Mapping[int, ByHand] = field(default_factory=dict)
    changed: tuple[str, ...] = ()
    read: Acknowledgement | None = None
    log: tuple[Logged, ...] = ()
    signs: tuple[StopSign, ...] = ()
    earlier: tuple[StopSign, ...] = ()
    start_most: Most | None = None
    lifted: Place = 0
    not_before: date | None = None
    refused: Annotated[str, Field(max_length=LONGEST_CODE)] = ""
    handed_out: tuple[HandedOut, ...] = ()
    calendars: Place = 0

    def __post_init__(self) -> None:
        check_choice("aim", self.aim, AIMS)
        check_choice("lead", self.lead, METRICS)
        check_choice("order", self.way, ("", *ORDERS))
        check_choice("reference", self.reference.kind, ("", *KINDS))
        check_number("own_first", self.own_first, SHARE_LIMIT)
        if not 1 <= len(self.throws) == len(self.repeats) <= MOST_STEPS:
            raise InputError("steps", len(self.throws), f"1 to {MOST_STEPS}")
        for (_, share), count in zip(self.throws, self.repeats, strict=True):
            check_number("share", share, SHARE_LIMIT)
            check_number("sessions", count, REPEATS_LIMIT)
        if len(self.table.balls) > MOST_BALLS or any(one.place >= MOST_STEPS for one in self.log):
            raise InputError("plan", "balls or steps beyond it", f"up to {MOST_BALLS} and {MOST_STEPS}")

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps with their metrics."""
        return steps_with(self.person, self.table, self.throws)

    @property
    def plan(self) -> Plan:
        """The plan, as the model has it."""
        return Plan(self.person, self.steps, self.limits, self.lead, 0.0, self.why)

    @property
    def row(self) -> Row:
        """Its sessions in a row, as the model has them."""
        full = dict(zip(self.table.balls, self.table.speeds_m_s, strict=True))
        return Row(self.person, full, self.steps, order_of(self.repeats), self.limits.rises)

    @property
    def balls_order(self) -> Order:
        """Which balls it may go through, and when; the first steps' limits aside."""
        return Order(self.throws[-1][0] if self.own_early else None, self.own_first)


@lru_cache(maxsize=64)
def steps_with(person: Person, table: SpeedTable, throws: Throws) -> tuple[Step, ...]:
    """Steps with their metrics; kept for all that ask."""
    return steps_of(person, table, throws)
