"""The page of the records: what it says, and erasing for good."""

import pytest

from app.bind.visit import visit_of
from app.pages.keeping import page
from app.web.server import Config, create_app


@pytest.fixture
def visit():
    made = create_app(Config(demo=True))
    with made.server.test_request_context(headers={"Cookie": "levelpeak-initials=%C3%84B"}):
        yield visit_of("/records", "?athlete=W02")


def texts(tree) -> list[str]:
    return [one.children for one in tree._traverse() if isinstance(getattr(one, "children", None), str)]


def here(visit) -> dict[str, str]:
    return {"athlete": visit.owner, "tab": "one", "path": "/records"}


def test_it_says_where_the_records_lie_and_shows_the_initials_of_this_browser(visit):
    made = page.layout(visit)
    assert visit.store.place.who in texts(made)
    field = next(one for one in made._traverse() if getattr(one, "id", None) == "keeping-initials")
    assert field.value == "ÄB"


def test_an_athlete_is_erased_only_by_the_typed_code(visit, monkeypatch):
    told = []
    monkeypatch.setattr(page, "set_props", lambda _, props: told.append(props["data"]["said"]))
    assert page.erase_athlete(1, "W01", here(visit)) == (
        "“W01” given; accepted: W02, the code of the athlete who is to be erased."
    )
    assert "W02" in visit.store.codes()
    assert page.erase_athlete(1, " W02 ", here(visit)) == ""
    assert "W02" not in visit.store.codes()
    assert told[0].startswith("W02 is erased: ")
    assert "printed sheets" in told[0]


def test_where_nobody_is_chosen_there_is_nothing_to_erase():
    made = create_app(Config())
    with made.server.test_request_context():
        assert "Choose the athlete above." in texts(page.layout(visit_of("/records", "")))
