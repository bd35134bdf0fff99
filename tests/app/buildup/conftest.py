"""Plans for the demo's throwers, and what the tests of the page share."""

from datetime import date
from functools import cache

import pytest

from app.athlete.answers import case_of
from app.athlete.form import ProfileForm
from app.athlete.kept import form_for
from app.buildup.acts import Page
from app.buildup.answers import make
from app.buildup.checks import check_form
from app.buildup.form import PlanForm
from app.compare.form import demo_form
from app.demo import load_demo

TODAY = date(2026, 3, 2)  # a Monday


def case_for(code="W01", read=True):
    """The athlete of the demo; with `read=False` without any radar reading."""
    demo = load_demo()
    profile = form_for({}, code, demo, True) if read else ProfileForm()
    return case_of(demo_form(demo, demo.athlete(code)), profile, TODAY)


@pytest.fixture
def case():
    return case_for


@cache
def _made(code, read, fields):
    form = PlanForm(**dict(fields))
    return make(form, check_form(form, TODAY), case_for(code, read), True, TODAY)


@pytest.fixture
def made():
    """Make a plan, or learn why there is none, for a demo thrower; each is searched for once."""
    return lambda code="W01", read=True, **fields: _made(code, read, tuple(sorted(fields.items())))


@pytest.fixture
def page():
    """What is on the page when a button is pressed."""

    def run(record, code="W01", hand=None, pains=None, chosen=None, **fields):
        return Page(PlanForm(**fields), case_for(code), True, record, TODAY, hand or {}, pains or {}, chosen or {})

    return run


def text_of(part) -> str:
    """All the text of a component, in order."""
    if part is None:
        return ""
    if isinstance(part, str | int | float):
        return str(part)
    if isinstance(part, list | tuple):
        return " ".join(text_of(one) for one in part)
    return text_of(getattr(part, "children", None))
