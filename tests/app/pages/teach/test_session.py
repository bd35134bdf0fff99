"""The session: steps in order, what the records keep, and the file that opens again."""

import json
from pathlib import Path

import pytest

from app.pages.teach.session import (
    STEPS,
    Opened,
    Session,
    ball_of,
    body_of,
    from_file,
    moved,
    session_of,
    switched,
    text_of,
    to_file,
)
from app.records.document import ExchangeError
from model.ball import Ball
from tests.app.known import TODAY
from tests.app.pages.teach.conftest import session as session_with

OLD = Path(__file__).parents[2] / "records" / "old" / "session.json"


@pytest.mark.parametrize(
    "text", ["", "275", "|", "x|73", "275|x", "-5|73", "nan|73", "1e999|73", "275|73|1", "275|9e9", None, 7]
)
def test_what_is_no_ball_is_none(text):
    assert ball_of(text) is None


def test_a_ball_is_written_as_it_is_read():
    assert ball_of(text_of(Ball(0.1425, 0.0745))) == Ball(0.1425, 0.0745)


def test_a_new_session_shows_every_step_once_in_order():
    assert Session().shown == STEPS


def test_a_step_moves_one_place_and_stays_at_an_end():
    session = moved(Session(), "hand", -1)
    assert session.shown[:3] == ("hand", "throw", "forearm")
    assert moved(session, "hand", -1) == session
    assert moved(Session(), STEPS[-1], 1) == Session()
    assert moved(Session(), "no step", 1) == Session()


def test_a_dropped_step_keeps_its_place_and_comes_back_there():
    without = switched(Session(), "clock")
    assert "clock" not in without.shown
    assert [key for key, _ in without.order] == list(STEPS)
    assert switched(without, "clock") == Session()


def test_the_last_step_that_is_shown_cannot_be_dropped():
    assert switched(session_with("vote"), "vote") == session_with("vote")


def test_steps_that_are_unknown_or_double_are_left_out_and_lacking_ones_come_last_dropped():
    session = session_with("limits,-throw,limits,<b>,throw")
    assert session.shown == ("limits",)
    assert session.order[:2] == (("limits", True), ("throw", False))
    assert {key for key, _ in session.order} == set(STEPS)


def test_what_the_records_keep_is_read_back_the_same():
    for session in (Session(), session_with("throw", "275|73", "", "yes")):
        assert session_of(json.loads(json.dumps(body_of(session)))) == session


@pytest.mark.parametrize(
    "body",
    [
        None,
        [],
        {},
        body_of(Session()) | {"steps": 7},
        body_of(Session()) | {"steps": "x" * 5000},
        body_of(Session()) | {"steps": ""},
        body_of(Session()) | {"steps": "-throw,-limits"},
        body_of(Session()) | {"second": None},
    ],
)
def test_anything_else_is_no_session(body):
    assert session_of(body) is None


def test_a_file_opens_with_the_same_name_steps_and_balls_and_holds_nobody():
    session = session_with("vote,throw,-hand", "360|73", "95|73")
    text = to_file("Parents’ evening", session)
    assert from_file(text.encode(), TODAY) == Opened(session, "Parents’ evening", ())
    assert "W0" not in text


def test_a_file_of_the_time_before_there_were_records_opens_and_says_who_came_along():
    opened = from_file(OLD.read_bytes(), TODAY)
    assert opened.session.second == Ball(0.275)
    assert "vote" not in opened.session.shown
    assert opened.name == "Session of 2026-03-01"
    assert "W05" in opened.codes


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "no JSON"),
        (b"\xff\xfe\x00", "no JSON"),
        (b"[" * 100_000, "no JSON"),
        (b"[]", "holds no session"),
        (b'{"kind": "other"}', "holds no session"),
        (b'{"kind": "levelpeak session", "version": 2}', "its version is 2; accepted: 1"),
        (b'{"kind": "levelpeak session", "version": 1}', "cannot be read"),
        (b'{"kind": "levelpeak session", "version": 1, "session": NaN, "brought": null}', "cannot be read"),
        (b'{"kind": "levelpeak session", "version": 1, "session": {}, "brought": null}', "not as this page writes"),
        (b'{"kind": "levelpeak session", "version": 1, "session": {}, "brought": {"compare": 1}}', "cannot be read"),
        (b'{"kind": "levelpeak session", "version": 1, "name": 7, "session": {}, "brought": null}', "cannot be read"),
    ],
)
def test_another_file_is_refused_in_words(data, said):
    with pytest.raises(ExchangeError, match=said):
        from_file(data, TODAY)
