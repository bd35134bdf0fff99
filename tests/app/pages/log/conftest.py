"""An app on a demo of its own, in whose records a test writes sessions."""

from datetime import date, timedelta

import pytest

from app.bind.visit import Visit, visit_of
from app.records.acts import Add, Hand, Remove
from app.web.server import Config, create_app

MONDAY = date(2026, 3, 2)
"""Of week 10, by ISO 8601."""


@pytest.fixture
def app():
    """The app on fresh demo records."""
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


class Log:
    """The log of an athlete without sessions, to be written into."""

    def __init__(self, code: str) -> None:
        self.code = code

    @property
    def visit(self) -> Visit:
        """The page as it would be made now."""
        return visit_of("/log", f"?athlete={self.code}")

    def act(self, *acts) -> None:
        """Change the records."""
        visit = self.visit
        assert visit.store.act(visit.owner, list(acts), Hand("one", "AB")).done

    def add(self, day: date, throws: int = 10, top: float | None = 30.0, mass: float = 0.145, **more) -> None:
        """Add a session."""
        plan = more.pop("plan", None)
        body = {"ball": {"mass_kg": mass, "diameter_m": 0.073}, "throws": throws, "top_speed_m_s": top} | more
        self.act(Add("session_log", values={"day": day, "body": body} | ({"plan": plan} if plan else {})))

    def do(self, doer, row: str = ""):
        """Press a button: what came of it was kept."""
        visit = self.visit
        doing = doer(visit, row, 1)
        if doing.acts:
            assert visit.store.act(visit.owner, list(doing.acts), Hand("one"), visit.system).done
        return doing


@pytest.fixture
def log(app) -> Log:
    """The log of a copy of W01 without sessions."""
    made = Log("W01")
    visit = made.visit
    made.act(*(Remove("session_log", one.uid) for one in visit.data.sessions))
    return made


def after(weeks: int, days: int = 0) -> date:
    """A day so many weeks and days after `MONDAY`."""
    return MONDAY + timedelta(7 * weeks + days)
