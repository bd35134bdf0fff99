"""What the browser sends is read with distrust: files."""

import base64
import json

import pytest
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import visit_of
from app.pages.teach import callbacks
from app.pages.teach.callbacks import open_file, said_of, save
from app.pages.teach.lessons import added, lesson_shown, session_in
from app.pages.teach.parts import LARGEST_FILE_BYTES
from app.pages.teach.session import Opened, Session, to_file
from app.records.acts import TEAM, Hand
from app.show import ids as shared_ids
from tests.app.pages.teach.conftest import session as session_with


def sent(data: bytes) -> str:
    return f"data:application/json;base64,{base64.b64encode(data).decode()}"


@pytest.fixture
def here(visit):
    return {"athlete": visit.owner, "code": "W01", "tab": "one", "path": "/teach", "asked": {}}


@pytest.fixture
def told(monkeypatch):
    """What is set on the page."""
    made = {}
    monkeypatch.setattr(callbacks, "set_props", lambda part, props: made.update({part: props}))
    return made


def test_the_session_of_a_file_is_kept_and_shown(here, told):
    session = session_with("vote,throw", "360|73", "", "yes")
    assert open_file(sent(to_file("Tuesday", session).encode()), here, {}) == ("", None)
    row = lesson_shown(visit_of("/teach", ""))
    assert (row.name, session_in(row)[0]) == ("Tuesday", session)
    assert told[shared_ids.SHELL_URL] == {"search": f"?athlete=W01&lesson={row.uid}"}
    assert "“Tuesday” was opened" in told[bound.REFRESH]["data"]["said"]


def test_who_came_along_in_a_file_is_named_with_the_way_to_take_them_in():
    said = said_of(Opened(Session(), "Tuesday", ("W05", "W02")))
    assert "W05 and W02" in said
    assert "levelpeak import" in said
    assert "import" not in said_of(Opened(Session(), "Tuesday", ()))


@pytest.mark.parametrize(
    ("contents", "said"),
    [
        ("", "it is no JSON text"),
        ("data:;base64,%%%", "it did not arrive whole"),
        (7, "it is no JSON text"),
        (sent(b"hello"), "it is no JSON text"),
        (sent(json.dumps({"kind": "levelpeak session", "version": "x" * 999}).encode()), "its version is"),
        (sent(b" " * (LARGEST_FILE_BYTES + 1000)), "501 kB given; accepted: up to 500 kB"),
    ],
)
def test_a_file_that_is_none_leaves_everything_as_it_was_and_says_why(here, told, contents, said):
    answer, _ = open_file(contents, here, {})
    assert answer.startswith("The file was not opened: ")
    assert said in answer
    assert len(answer) < 200
    assert told == {}
    assert visit_of("/teach", "").team.lessons == ()


def test_no_file_and_no_press_change_nothing(here):
    with pytest.raises(PreventUpdate):
        open_file(None, here, {})
    with pytest.raises(PreventUpdate):
        save(0, here)


def test_the_session_that_is_shown_is_saved(visit, here):
    visit.store.act(TEAM, added(session_with("vote"), "Tuesday"), Hand("one"))
    steps = "vote,-throw,-hand,-forearm,-clock,-ball,-speed,-three,-athlete,-build,-limits"
    kept = json.loads(save(1, here)["content"])
    assert (kept["name"], kept["session"]["steps"], kept["brought"]) == ("Tuesday", steps, None)
