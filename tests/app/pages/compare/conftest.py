"""Throws with readings of the tests' own choosing, so that words and tables are checked without the mechanics."""

import math
from dataclasses import replace
from datetime import date

import pytest

from app.bind.visit import Visit, visit_of
from app.pages.compare.answers import Answer, Comparison, Thrower, compare
from app.pages.compare.current import Current, current_of
from app.records import tables
from app.show.listed_throw import OTHER, ListedThrow
from app.show.quantities import reading_named
from app.web.server import Config, create_app
from model.ball import Ball
from model.person import Person
from model.readouts import Readouts
from model.throw import Throw, curves

MAN = Person("male", 1.88, 90.0, 25.0)
W01 = Thrower("W01", Person("male", 1.83, 84.0, 20.0))  # demo_data/athletes.csv

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


def line(
    number: int, mass_kg: float = 0.145, speed_m_s: float = 33.0, diameter_m: float = 0.073, **more
) -> ListedThrow:
    """A throw of the list that is held at a release speed."""
    return ListedThrow(f"t{number}", "speed", Ball(mass_kg, diameter_m), speed_m_s, speed_m_s, **more)


THROWN = (line(1), line(2, 0.275, 28.5), line(3, 0.095, 35.2), line(4, 0.470, 23.8))
"""What W01 threw on the last day of the demo's block, behind the reference throw."""


def row_of(**asked) -> tables.Comparison:
    """A comparison as the records keep it."""
    usual = {"reference": "t1", "headline": None, "kind": "measured", "day": date(2026, 1, 13), "quantity": "varus"}
    return tables.Comparison(**({**usual, "above": None, "align": "release", "scale": "plain"} | asked))


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
        throw = line(number, mass_kg, speed_m_s, diameter_m)
        return Answer(
            throw=throw,
            number=number,
            reference=reference,
            curves=curves(Throw(person, throw.ball, speed_m_s)),
            readouts=replace(ROUND, **readings),
            person=person,
        )

    return make


@pytest.fixture
def make_comparison():
    """Put answers together as the page has them."""

    def make(*answers, person=MAN, kind="measured", known="measured 2026-01-13", quantity="varus", level=40.0):
        return Comparison({"": Thrower("X1", person)}, answers, reading_named(quantity), kind, known, level, False)

    return make


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
    """Compare throws: W01's of the demo, and as the records ask first, unless something else is given."""

    def on(*throws, first=W01, second=None, **asked):
        throwers = {"": first} | ({OTHER: second} if second else {})
        return compare(row_of(**asked), throws or THROWN, throwers)

    return on


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
