"""The session: steps in order, what the browser keeps, and the file that opens again."""

import json

import pytest

from app.demo import load_demo
from app.pages.teach.form import OF_FILE, STEPS, Kept, Session, from_file, from_json, moved, switched, to_file, to_json
from app.show.kept import form_for
from app.show.throw_form import FormError, demo_form
from app.show.whose import OF_COMPARE, Whose


@pytest.fixture
def forms():
    demo = load_demo()
    return demo_form(demo, demo.athletes[0]), form_for({}, "W01", demo, True)


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


def test_steps_that_are_unknown_or_double_are_left_out_and_lacking_ones_come_last_dropped():
    session = Session(steps="limits,-throw,limits,<b>,throw")
    assert session.shown == ("limits",)
    assert session.order[:2] == (("limits", True), ("throw", False))
    assert {key for key, _ in session.order} == set(STEPS)


def test_what_the_browser_keeps_is_read_back_the_same(forms):
    for kept in (Kept(), Kept(Session("W02", "275|73", "", "throw", "yes"), Whose(*forms))):
        assert from_json(json.loads(json.dumps(to_json(kept)))) == kept


@pytest.mark.parametrize(
    "kept",
    [
        None,
        [],
        {},
        {"session": {}, "brought": None},
        {"session": to_json(Kept())["session"] | {"version": 99}, "brought": None},
        {"session": to_json(Kept())["session"] | {"steps": 7}, "brought": None},
        {"session": to_json(Kept())["session"] | {"steps": "x" * 5000}, "brought": None},
        {"session": to_json(Kept())["session"] | {"steps": ""}, "brought": None},
        {"session": to_json(Kept())["session"] | {"steps": "-throw,-limits"}, "brought": None},
        {"session": to_json(Kept())["session"], "brought": {"compare": {}}},
        {"session": to_json(Kept())["session"], "brought": {"compare": {}, "athlete": {}}},
    ],
)
def test_anything_else_is_refused(kept):
    with pytest.raises(FormError):
        from_json(kept)


def test_a_session_of_a_file_that_is_gone_shows_the_athlete_of_compare():
    kept = from_json({"session": to_json(Kept(Session(OF_FILE)))["session"], "brought": None})
    assert kept.session.who == OF_COMPARE


def test_a_file_opens_with_the_same_steps_balls_and_athlete(forms):
    session = Session("W01", "360|73", "95|73", "vote,throw,-hand", "")
    kept = from_file(to_file(session, *forms).encode())
    assert kept.session == Session(OF_FILE, "360|73", "95|73", "vote,throw,-hand", "")
    assert kept.brought == Whose(*forms)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "no JSON"),
        (b"\xff\xfe\x00", "no JSON"),
        (b"[" * 100_000, "no JSON"),
        (b"[]", "holds no session"),
        (b'{"kind": "other"}', "holds no session"),
        (b'{"kind": "levelpeak session", "version": 2}', "its version is 2; accepted: 1"),
        (b'{"kind": "levelpeak session", "version": 1}', "not as this page writes it"),
        (b'{"kind": "levelpeak session", "version": 1, "session": NaN, "brought": null}', "not as this page writes it"),
    ],
)
def test_another_file_is_refused_in_words(data, said):
    with pytest.raises(FormError, match=said):
        from_file(data)
