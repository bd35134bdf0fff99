"""A lesson for each invented thrower, as the demo records have them."""

import pytest

from app.bind.visit import Visit, visit_of
from app.pages.teach.answers import lesson_of
from app.pages.teach.session import STEPS, Session, session_of
from app.show.from_records import case_of
from app.units.systems import METRIC
from app.web.server import Config, create_app
from tests.app.kept_demo import kept
from tests.app.known import TODAY


def session(steps: str = ",".join(STEPS), second: str = "", third: str = "", named: str = "") -> Session:
    """A session as the records keep it: its steps in order, `-` before one that is left out."""
    return session_of({"second": second, "third": third, "steps": steps, "named": named})


@pytest.fixture(scope="session")
def lesson_for():
    """Make the lesson of an invented thrower by code."""

    def make(code="W01", session=None, system=METRIC):
        lesson = lesson_of(session or Session(), case_of(kept(code), TODAY, system))
        assert lesson is not None
        return lesson

    return make


@pytest.fixture(scope="session")
def lesson(lesson_for):
    """The lesson of the first one."""
    return lesson_for()


@pytest.fixture
def app():
    """The app on fresh demo records."""
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def visit(app) -> Visit:
    """W01's Teach page."""
    return visit_of("/teach", "?athlete=W01")
