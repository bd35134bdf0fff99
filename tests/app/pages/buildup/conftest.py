"""Plans for the demo's throwers, and what the tests of the page share."""

from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from app.bind.visit import Visit
from app.pages.buildup import acting, acts, keeping, log_edits, making, plans
from app.pages.buildup.answers import make
from app.pages.buildup.athlete import Athlete, reference_of
from app.pages.buildup.course import course_of
from app.pages.buildup.found import Found
from app.pages.buildup.given import Given
from app.pages.buildup.known import NOTHING_KNOWN
from app.pages.buildup.making import Act, Page
from app.pages.buildup.noted import FIELDS, path_of
from app.pages.buildup.wanted import Wanted, spec
from app.records.acts import Edit, Hand
from app.records.demo import passing_store
from app.records.reads import athlete_data
from app.show.from_records import case_of
from app.units.systems import METRIC
from model.ball import Ball
from model.ceilings import Amount, Ceilings, Reference
from model.session_log import Logged
from model.session_rules import JointPain, Notes, Soreness
from model.stop_signs import Signed

TODAY = date(2026, 3, 2)  # a Monday
LATER = date(2027, 3, 2)
SINCE = date(2026, 6, 1)
"""When plans in the records are worked with: nothing is signed for ahead of the clock."""
ASKED = {
    "weeks_off": "8",
    "throws_week": "90",
    "cleared_by": "PT",
    "cleared_role": "clinician",
    "first_throws": "25",
    "repeats": "2",
    "days": "0 2 4",
    "order": "own",
}
"""What is asked for after time off or an injury, and an order."""

WHOLE = {
    "throws": "20", "before": "0", "throwing": "0", "hour_after": "0", "next_morning": "0", "painkiller": "no",
    "sore_before": "no", "sore_throwing": "no", "sore_hour_after": "no", "sore_next_morning": "no",
    "decision": "go_on", "by": "AB", "role": "coach",
}  # fmt: skip
"""A painless session, all of it entered, as texts."""

FINE = Notes(JointPain("", 0, 0, 0, 0), Soreness(False, False, False, False), painkiller=False)
COACH = Signed("AB", "coach", TODAY)
CLINICIAN = Signed("PT", "clinician", LATER)

GIVEN = Given(
    Ball(0.470, 0.073),
    0.418,
    Ceilings(elbow_peak=Amount(0.40), rise_rate=Amount(0.30)),
    0.95,
    Reference("before_injury", 35.1, date(2025, 9, 2)),
    "from before an injury, 2025-09-02",
)
"""A first throw as it comes over from Start."""


def pain(before=0, throwing=0, hour_after=0, next_morning=0, **more) -> Notes:
    """Notes with pain at the elbow."""
    joint = JointPain("elbow", before, throwing, hour_after, next_morning)
    return Notes(joint, Soreness(False, False, False, False), painkiller=False, **more)


@cache
def data_of(code):
    """What is kept of an athlete of the demo."""
    return athlete_data(demo_store(), code)


@cache
def demo_store():
    """Records of the demo that nobody changes."""
    return passing_store(True)


def case_for(code="W01", read=True):
    """The athlete of the demo; with `read=False` without any radar reading."""
    return case_of(data_of(code) if read else replace(data_of(code), readings=()), TODAY)


def athlete_for(code="W01", read=True, given=None, known=NOTHING_KNOWN) -> Athlete:
    """Who a plan is for."""
    case = case_for(code, read)
    return Athlete(case, True, reference_of(case), given, known)


@pytest.fixture
def case():
    return case_for


def wanted_for(athlete, today=TODAY, **texts) -> Wanted:
    """What is asked for where these texts were typed."""
    given = {name: spec(name).parse(text).value for name, text in texts.items()}
    return Wanted(given, athlete.care(given.get("aim") or "after_off"), today, athlete.given is not None)


def noted_for(**texts):
    """The values of a session whose fields have these texts."""
    return {name: FIELDS[name].parse(text).value for name, text in texts.items()}


@cache
def plan_for(code, read, given, fields):
    athlete = athlete_for(code, read, GIVEN if given else None)
    wanted = wanted_for(athlete, **ASKED | dict(fields))
    assert not wanted.missing
    return make(wanted, athlete, TODAY)


@pytest.fixture
def made():
    """Make a plan, or learn why there is none, for a demo thrower; each is searched for once."""
    return lambda code="W01", read=True, given=False, **fields: plan_for(
        code, read, given, tuple(sorted(fields.items()))
    )


@pytest.fixture
def page():
    """What is on the page when a button is pressed."""

    def run(record, code="W01", hand=None, log=None, at=0, chosen=None, known=NOTHING_KNOWN, given=None, **fields):
        athlete = athlete_for(code, True, given, known)
        wanted = wanted_for(athlete, LATER, **ASKED | fields)
        return Page(wanted, athlete, record, LATER, hand or {}, noted_for(**log or {}), at, chosen or {})

    return run


def thrown(record, decision="go_on", notes=FINE, **more) -> Logged:
    """The next session as planned, with what is told otherwise."""
    one = course_of(record).next
    step = one.step
    made = Logged(
        one.day,
        one.index,
        one.place,
        step.ball,
        step.speed_m_s,
        one.throws,
        one.throws,
        notes,
        decision,
        0,
        "AB",
        "coach",
    )
    return replace(made, **more)


def keep(record, one, by=COACH):
    """Keep a session at the end of the log."""
    return log_edits.keep_session(record, len(record.log), one, by, TODAY)


def logged(record, *decisions, notes=FINE):
    """Throw sessions as planned, one for each decision."""
    for decision in decisions:
        record = keep(record, thrown(record, decision, notes))
    return record


def text_of(part) -> str:
    """All the text of a component, in order."""
    if part is None:
        return ""
    if isinstance(part, str | int | float):
        return str(part)
    if isinstance(part, list | tuple):
        return " ".join(text_of(one) for one in part)
    return text_of(getattr(part, "children", None))


class Desk:
    """An athlete of fresh demo records, and what the page's buttons do there."""

    def __init__(self, code: str = "W01", store=None, today: date = SINCE) -> None:
        self.store, self.code, self.today, self.asked = store or passing_store(True), code, today, {}

    @property
    def found(self) -> Found:
        """The page as it would be made now."""
        return Found(Visit(self.store, "/build-up", self.asked, self.code, "one", self.today, METRIC))

    @property
    def record(self):
        """The plan that is shown."""
        return self.found.record

    @property
    def course(self):
        return self.found.course

    def type(self, **texts) -> None:
        """Type into fields of the form."""
        acts = [Edit(f"plan.{name}", text) for name, text in texts.items()]
        self.store.act(self.found.visit.owner, acts, HAND_ONE, METRIC, self.today)

    def note(self, at: int, **texts) -> None:
        """Type into fields of a session."""
        key = self.found.session_key(at)
        acts = [Edit(path_of(name, key), text) for name, text in texts.items()]
        self.store.act(self.found.visit.owner, acts, HAND_ONE, METRIC, self.today)

    def keep(self, record) -> None:
        """Keep a plan as it is."""
        keeping.keep(self.found, Act(record, fresh=not record.log), HAND_ONE)

    def press(self, name: str, at: int | None = None, hand=None, chosen=None, upload=None) -> Act:
        """Press a button; what is refused changes nothing."""
        found = self.found
        at = len(found.record.log) if at is None and found.record else at or 0
        page = acting.page_of(found, hand or {}, at, chosen or {})
        if name == "away" and found.shown is None:
            return Act(None)  # there is no such button
        if name == "away":
            doing = plans.away(found.visit, found.shown.row.uid, None)
            self.store.act(found.visit.owner, list(doing.acts), HAND_ONE, METRIC)
            return Act(None, [doing.said])
        act = making.made(page) if name == "make" else acts.opened(page, upload) if upload else acts.done(page, name)
        if acting.changes(act, found):
            keeping.keep(found, act, HAND_ONE, at if name == "log" else None)
        return act

    def undo(self) -> None:
        self.store.step(self.found.visit.owner, HAND_ONE, True)

    def redo(self) -> None:
        self.store.step(self.found.visit.owner, HAND_ONE, False)


HAND_ONE = Hand("one", "AB")


@pytest.fixture
def desk() -> Desk:
    """W01 with the form filled in, and no plan yet."""
    one = Desk()
    one.type(**ASKED)
    return one
