"""Plans for the demo's throwers, and what the tests of the page share."""

from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from app.demo import load_demo
from app.pages.buildup import log_edits
from app.pages.buildup.answers import make
from app.pages.buildup.athlete import Athlete, reference_of
from app.pages.buildup.checks import check_form
from app.pages.buildup.course import course_of
from app.pages.buildup.form import PlanForm
from app.pages.buildup.log_form import LogForm
from app.pages.buildup.making import Page
from app.pages.buildup.signs import NOTHING_KNOWN
from app.show.from_start import FromStart
from app.show.kept import form_for
from app.show.profile_form import ProfileForm
from app.show.subject import case_of
from app.show.throw_form import demo_form
from model.ball import Ball
from model.ceilings import Amount, Ceilings, Reference
from model.session_log import Logged
from model.session_rules import JointPain, Notes, Soreness
from model.stop_signs import Signed

TODAY = date(2026, 3, 2)  # a Monday
LATER = date(2027, 3, 2)
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

FINE = Notes(JointPain("", 0, 0, 0, 0), Soreness(False, False, False, False), painkiller=False)
COACH = Signed("AB", "coach", TODAY)
CLINICIAN = Signed("PT", "clinician", LATER)

GIVEN = FromStart(
    "W06",
    "W06",
    Ball(0.470, 0.073),
    0.418,
    Ceilings(elbow_peak=Amount(0.40), rise_rate=Amount(0.30)),
    0.95,
    Reference("before_injury", 35.1, date(2025, 9, 2)),
    "from before an injury, 2025-09-02",
)
"""A first throw as Start hands it over."""


def pain(before=0, throwing=0, hour_after=0, next_morning=0, **more) -> Notes:
    """Notes with pain at the elbow."""
    joint = JointPain("elbow", before, throwing, hour_after, next_morning)
    return Notes(joint, Soreness(False, False, False, False), painkiller=False, **more)


def case_for(code="W01", read=True):
    """The athlete of the demo; with `read=False` without any radar reading."""
    demo = load_demo()
    profile = form_for({}, code, demo, True) if read else ProfileForm()
    return case_of(demo_form(demo, demo.athlete(code)), profile, TODAY)


def athlete_for(code="W01", read=True, given=None, known=NOTHING_KNOWN) -> Athlete:
    """Who a plan is for."""
    case, demo = case_for(code, read), load_demo()
    return Athlete(case, True, reference_of(case, demo_form(demo, demo.athlete(code)), TODAY), given, known)


@pytest.fixture
def case():
    return case_for


@cache
def plan_for(code, read, given, fields):
    form, athlete = PlanForm(**ASKED | dict(fields)), athlete_for(code, read, GIVEN if given else None)
    checked = check_form(form, TODAY, athlete.care(form.aim), athlete.given is not None)
    assert not checked.problems
    assert not checked.missing
    return make(form, checked, athlete, TODAY)


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
        form = PlanForm(**ASKED | fields)
        return Page(form, athlete, record, LATER, hand or {}, log or LogForm(), at, chosen or {})

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
