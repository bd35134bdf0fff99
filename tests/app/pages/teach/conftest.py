"""A lesson for each invented thrower."""

from datetime import date

import pytest

from app.demo import load_demo
from app.pages.teach.answers import lesson_of
from app.pages.teach.form import Session
from app.show.kept import form_for
from app.show.throw_form import demo_form
from app.units.systems import METRIC

TODAY = date(2026, 3, 1)


@pytest.fixture(scope="session")
def lesson_for():
    """Make the lesson of an invented thrower by code."""

    def make(code="W01", session=None, system=METRIC):
        demo = load_demo()
        compared = demo_form(demo, demo.athlete(code))
        lesson = lesson_of(session or Session(), compared, form_for({}, code, demo, True), TODAY, system)[1]
        assert lesson is not None
        return lesson

    return make


@pytest.fixture(scope="session")
def lesson(lesson_for):
    """The lesson of the first one."""
    return lesson_for()
