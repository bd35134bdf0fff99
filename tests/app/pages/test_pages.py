"""Every page's layout can be made, and names each of its parts once."""

import json

import pytest

from app.bind.visit import visit_of
from app.pages import PAGES
from app.web.server import Config, create_app


def ids_in(part) -> list[str]:
    """Every id in a layout, as plain data."""
    if isinstance(part, dict):
        own = [json.dumps(part["id"])] if isinstance(part.get("id"), str | dict) else []
        return own + [one for inner in part.values() for one in ids_in(inner)]
    return [one for inner in part for one in ids_in(inner)] if isinstance(part, list) else []


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.title)
def test_the_layout_can_be_made_and_has_no_id_twice(page):
    with create_app(Config(demo=True)).server.test_request_context():
        laid = page.layout(visit_of(page.path, "?athlete=W01"))
        made = json.loads(json.dumps(laid.to_plotly_json(), default=lambda part: part.to_plotly_json()))
    found = ids_in(made)
    assert len(found) > 5
    assert len(found) == len(set(found))
