"""The demo's first thrower on the map, and what the tests of the map share."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.map.answers import map_of
from app.pages.map.form import MapForm
from app.show.checks import check_throw
from app.show.from_records import case_from_forms
from app.show.profile_form import ProfileForm
from app.units.systems import METRIC
from tests.app.typed_forms import demo_form, readings_form

TODAY = date(2026, 3, 1)


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
def make_map(compared, readings):
    """Work out the map of a demo thrower; with `read=False`, of one without any radar reading."""

    def make(code="W01", form=None, read=True, compare=None, profile=None, system=METRIC, **changes):
        asked = replace(form or MapForm(ball_mass_g="275", speed_m_s="28.5"), **changes)
        known = profile or readings(code)
        known = known if read else ProfileForm(tuple(replace(row, cells=()) for row in known.rows))
        throws = compare or compared(code)
        case = case_from_forms(throws, known, TODAY, system)
        lines = [check_throw(throw, case.person, case.profile) for throw in throws.throws]
        thrown = [(place, one.ball, one.speed_m_s) for place, one in enumerate(lines, 1) if one.speed_m_s is not None]
        return map_of(asked, case, tuple(thrown))

    return make


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
