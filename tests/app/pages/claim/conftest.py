"""Claims about the demo's throwers, and what the tests of the page share."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.claim.answers import claim_of
from app.pages.claim.form import ClaimForm
from app.pages.claim.view import view_of
from app.show.checks import check_athlete
from app.show.from_records import case_from_forms
from app.show.profile_form import ProfileForm
from app.units.systems import METRIC
from tests.app.typed_forms import demo_form, readings_form

TODAY = date(2026, 3, 1)
FORM = ClaimForm(first_mass_g="275", first_diameter_mm="73", second_mass_g="145", second_diameter_mm="73")


@pytest.fixture
def compared():
    """Make the measures and throws of a demo thrower."""
    demo = load_demo()
    return lambda code="W01": demo_form(demo, demo.athlete(code))


@pytest.fixture
def readings():
    """Make the profile form of a demo thrower."""
    return lambda code="W01": readings_form(load_demo(), code)


@pytest.fixture
def make_claim(compared, readings):
    """Answer a claim about a demo thrower; with `read=False`, about one without any radar reading."""

    def make(code="W01", read=True, compare=None, system=METRIC, **changes):
        profile = readings(code)
        if not read:
            profile = ProfileForm(tuple(replace(row, cells=()) for row in profile.rows))
        return claim_of(replace(FORM, **changes), case_from_forms(compare or compared(code), profile, TODAY, system))

    return make


@pytest.fixture
def view(compared):
    """Put an answer into words."""
    return lambda answer, form=None: view_of(answer, check_athlete((form or compared()).athlete))


def text_of(part) -> str:
    """All the text of a component, in order."""
    if part is None:
        return ""
    if isinstance(part, str | int | float):
        return str(part)
    if isinstance(part, list | tuple):
        return "".join(text_of(one) for one in part)
    return text_of(getattr(part, "children", None))


@pytest.fixture
def text():
    return text_of
