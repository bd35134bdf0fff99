"""Answers about the demo's throwers, and what the tests of the page share."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.start.answers import start_of
from app.pages.start.form import StartForm
from app.pages.start.view import view_of
from app.show.checks import check_athlete
from app.show.from_records import Subject
from app.show.profile_form import ProfileForm
from app.units.systems import METRIC
from tests.app.pages.claim.conftest import text as text
from tests.app.typed_forms import demo_form, readings_form

TODAY = date(2026, 3, 1)
NONE = dict.fromkeys(("elbow_peak", "shoulder_peak", "rise_rate", "braking"), "")
"""The example's limits, emptied."""


@pytest.fixture(scope="session")
def arm():
    """A demo thrower; with `read=False`, without any radar reading; the rest are changes to measures and reference."""

    def make(code="W01", read=True, **compare) -> Subject:
        demo = load_demo()
        profile = readings_form(demo, code)
        if not read:
            profile = ProfileForm(tuple(replace(row, cells=()) for row in profile.rows))
        return Subject(replace(demo_form(demo, demo.athlete(code)), **compare), profile)

    return make


@pytest.fixture(scope="session")
def start(arm):
    """Answer for a demo thrower; what is not of the form goes to `arm`."""

    def make(code="W01", read=True, system=METRIC, compare=None, **changes):
        return start_of(StartForm(**changes), arm(code, read, **(compare or {})), TODAY, system)

    return make


@pytest.fixture(scope="session")
def view(arm):
    """Put an answer into words."""

    def make(answer, compared=None):
        form = compared or arm().compared
        return view_of(answer, check_athlete(form.athlete, answer.case.system))

    return make
