"""An app on a demo of its own, its request context pushed, as a callback finds it."""

import pytest

from app.bind.visit import Visit, visit_of
from app.web.server import Config, create_app


@pytest.fixture
def app():
    """The app on fresh demo records."""
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def visit(app) -> Visit:
    """W01's Athlete page."""
    return visit_of("/athlete", "?athlete=W01")


@pytest.fixture
def here(visit) -> dict[str, object]:
    """What the page tells with each question."""
    return {"athlete": visit.owner, "code": visit.code, "tab": "one", "path": visit.path, "asked": {}}
