"""The demo's throwers on the map, and what the tests of the map share."""

import pytest

from app.pages.map.answers import map_of
from app.records.acts import Edit
from app.units.systems import METRIC
from tests.app.kept_demo import kept as kept_data
from tests.app.known import TODAY
from tests.app.pages.claim.conftest import text as text
from tests.app.pages.claim.conftest import text_of as text_of


@pytest.fixture(scope="session")
def kept():
    """What is kept of a demo thrower once settings of the map are typed; `rows` are texts by table and column."""

    def make(code="W01", read=True, rows=None, **typed):
        edits = [Edit(f"map.{name}", text) for name, text in typed.items()]
        return kept_data(code, *edits, read=read, **(rows or {}))

    return make


@pytest.fixture(scope="session")
def make_map(kept):
    """Work out the map of a demo thrower; with `read=False`, of one without any radar reading."""

    def make(code="W01", read=True, rows=None, system=METRIC, **typed):
        return map_of(kept(code, read, rows, **typed), TODAY, system)

    return make
