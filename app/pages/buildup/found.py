"""What a visit finds: the athlete, the form, the plans, and which of them is shown."""

from dataclasses import dataclass
from functools import cached_property

from app.bind.visit import Visit
from app.pages.buildup.athlete import Athlete, reference_of
from app.pages.buildup.course import Course
from app.pages.buildup.given import given_of
from app.pages.buildup.known import known_of
from app.pages.buildup.noted import key_of
from app.pages.buildup.record import Record
from app.pages.buildup.rows import KeptPlan, Plans, plans_of
from app.pages.buildup.wanted import Wanted, wanted_of
from app.records.reads import AthleteData
from app.show.from_records import case_of
from model.checks import InputError

ASKED_PLAN = "plan"
"""What a plan's uid is called in an address."""


@dataclass(frozen=True)
class Found:
    """What is kept of the athlete of a visit, as this page sees it.

    Attributes
    ----------
    visit : Visit
        Of an athlete.
    """

    visit: Visit

    @cached_property
    def data(self) -> AthleteData:
        """All that is kept."""
        if self.visit.data is None:
            raise InputError("athlete", self.visit.code, "one that is kept here")
        return self.visit.data

    @cached_property
    def wanted(self) -> Wanted:
        """What is asked for."""
        return wanted_of(self.data, self.athlete, self.visit.today, self.visit.system)

    @cached_property
    def plans(self) -> Plans:
        """All plans and stop signs."""
        return plans_of(self.data)

    @cached_property
    def athlete(self) -> Athlete:
        """Who a plan is for."""
        visit = self.visit
        case = case_of(self.data, visit.today, visit.system)
        known = known_of(self.plans.signs.values(), [one.record for one in self.plans.plans if one.record is not None])
        given = given_of(self.data, case)
        return Athlete(case, self.data.athlete.invented, reference_of(case), given, known)

    @cached_property
    def shown(self) -> KeptPlan | None:
        """The plan of the address, else the newest."""
        return self.plans.shown(self.visit.asked.get(ASKED_PLAN, ""))

    @cached_property
    def course(self) -> Course | None:
        """What follows from the plan that is shown; None without one that can be worked out."""
        return self.shown.course if self.shown else None

    @property
    def record(self) -> Record | None:
        """The plan that is shown."""
        return self.course.record if self.course else None

    @property
    def unread(self) -> bool:
        """Whether there is a plan that cannot be read."""
        return self.shown is not None and self.course is None

    def session_key(self, at: int) -> str:
        """Names a session of the plan that is shown."""
        return key_of(self.shown.row.uid, at) if self.shown else ""
