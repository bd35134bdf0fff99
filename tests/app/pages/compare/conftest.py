"""Throws with readings of the tests' own choosing, so that words and tables are checked without the mechanics."""

import math
from dataclasses import replace

import pytest

from app.bind.visit import Visit, visit_of
from app.demo import load_demo
from app.pages.compare.answers import Answer, Comparison, compare
from app.pages.compare.current import Current, current_of
from app.show.checks import CheckedAthlete, CheckedThrow
from app.show.quantities import reading_named
from app.show.throw_form import OTHER, ThrowForm
from app.web.server import Config, create_app
from model.ball import Ball
from model.person import Person
from model.readouts import Readouts
from model.throw import Throw, curves
from tests.app.typed_forms import demo_form

MAN = Person("male", 1.88, 90.0, 25.0)

ROUND = Readouts(
    peak=80.0,
    peak_before_release_s=0.026,
    loaded_s=0.100,
    above_s=0.060,
    half_height_s=0.067,
    area=5.0,
    rise_rate=1000.0,
    work_in_j=math.nan,
    work_out_j=math.nan,
    peak_at_edge=False,
)

"""A reference throw in round numbers."""


@pytest.fixture
def man():
    return MAN


@pytest.fixture
def round_readouts():
    return ROUND


@pytest.fixture
def make_answer():
    """Make a throw with given readings; its curve is the model's, its readings are not."""

    def make(number=1, mass_kg=0.145, speed_m_s=33.0, *, reference=False, person=MAN, diameter_m=0.073, **readings):
        ball = Ball(mass_kg, diameter_m)
        form = ThrowForm(f"t{number}", f"{1000 * mass_kg:g}", "73", f"{speed_m_s}")
        return Answer(
            key=form.key,
            number=number,
            reference=reference,
            checked=CheckedThrow(form, ball, speed_m_s),
            curves=curves(Throw(person, ball, speed_m_s)),
            readouts=replace(ROUND, **readings),
            person=person,
        )

    return make


@pytest.fixture
def make_comparison():
    """Put answers together as the page has them."""

    def make(*answers, person=MAN, kind="measured", known="measured 2026-01-13", quantity="varus", level=40.0):
        throwers = {"": CheckedAthlete(person, "X1"), OTHER: CheckedAthlete(None, "")}
        return Comparison(throwers, answers, reading_named(quantity), kind, known, level, False, "", "")

    return make


@pytest.fixture
def demo_page():
    """W01's comparison as a form."""
    return demo_form(load_demo(), load_demo().athletes[0])


@pytest.fixture
def app():
    """The app on demo records of its own, with a request as a callback finds it."""
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def open_page(app):
    """Open the page of an athlete; what stands in the records then."""

    def visit(code="W01", **asked) -> Visit:
        search = "&".join(f"{name}={value}" for name, value in {"athlete": code, **asked}.items())
        return visit_of("/compare", f"?{search}")

    return visit


@pytest.fixture
def current(open_page) -> Current:
    """W01's comparison."""
    return current_of(open_page())


@pytest.fixture
def compare_on():
    """Work out a form on a fixed day."""
    from datetime import date

    return lambda form: compare(form, date(2026, 3, 1))


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
