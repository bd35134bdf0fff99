"""Cases of the invented throwers, and of people of the tests' own."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.subject import case_of
from app.show.throw_form import Form, ThrowForm
from tests.app.pages.compare.conftest import compare_on as compare_on
from tests.app.pages.compare.conftest import demo_page as demo_page
from tests.app.typed_forms import demo_form, empty_form, readings_form

TODAY = date(2026, 3, 1)
DEMO = load_demo()
MEASURES = {"sex": "male", "handedness": "right", "age_years": "25", "stature_cm": "188", "body_mass_kg": "90"}


@pytest.fixture
def make_case():
    """The case of a demo thrower, with changes to the profile form."""

    def make(code="W01", **changed):
        compared = demo_form(DEMO, DEMO.athlete(code))
        return case_of(compared, replace(readings_form(DEMO, code), **changed), TODAY)

    return make


@pytest.fixture
def man():
    """A Compare form: the reference person with a 145 g ball at 37 m/s."""
    empty = empty_form()
    throws = (ThrowForm("t1", "145", "73", "37"), ThrowForm("t2"))
    return Form({**empty.athlete, "code": "X1", **MEASURES}, throws, "t1")


@pytest.fixture
def form_with():
    """A profile form from readings by ball: mass in g to speeds as typed."""

    def make(readings, **texts):
        rows = tuple(
            BallRow(f"b{i}", mass, "73", tuple(Cell(speed) for speed in speeds))
            for i, (mass, speeds) in enumerate(readings.items(), start=1)
        )
        return ProfileForm(rows, **texts)

    return make


@pytest.fixture
def text():
    """All the text of components, in order."""

    def of(part):
        if part is None:
            return ""
        if isinstance(part, str | int | float):
            return str(part)
        if isinstance(part, list | tuple):
            return "".join(of(one) for one in part)
        return of(getattr(part, "children", None))

    return of
