"""Answers about the demo's throwers, and what the tests of the page share."""

import pytest

from app.pages.start.answers import start_of
from app.pages.start.view import view_of
from app.records.acts import Edit
from app.units.systems import METRIC
from model.ceilings import BOUNDS
from tests.app.kept_demo import kept as kept_data
from tests.app.known import TODAY
from tests.app.pages.claim.conftest import text as text

NONE = dict.fromkeys(("elbow_peak", "shoulder_peak", "rise_rate", "braking"), "")
"""The example's limits, emptied."""


def edits_of(**typed: str) -> list[Edit]:
    """What is typed: limits by their keys, `area_in` how one is counted, and settings of the page by their names."""
    ways = {name.removesuffix("_in"): way for name, way in typed.items() if name.endswith("_in")}
    edits = [
        Edit("start.wanted_peak_counted", way) if name == "wanted_peak" else Edit("limits.counted", way, name)
        for name, way in ways.items()
    ]
    texts = {name: text for name, text in typed.items() if not name.endswith("_in")}
    limits = [Edit("limits.amount", text, name) for name, text in texts.items() if name in BOUNDS]
    return [*edits, *limits, *(Edit(f"start.{name}", text) for name, text in texts.items() if name not in BOUNDS)]


@pytest.fixture(scope="session")
def kept():
    """What is kept of a demo thrower; `rows` are texts by table and column."""

    def make(code="W01", read=True, rows=None, **typed):
        return kept_data(code, *edits_of(**typed), read=read, **(rows or {}))

    return make


@pytest.fixture(scope="session")
def start(kept):
    """Answer for a demo thrower."""

    def make(code="W01", read=True, system=METRIC, rows=None, **typed):
        return start_of(kept(code, read, rows, **typed), TODAY, system)

    return make


@pytest.fixture(scope="session")
def view():
    """Put an answer into words."""
    return view_of
