"""What the browser sends is read with distrust: choices, steps, files."""

import base64
import json

import pytest
from dash.exceptions import PreventUpdate

from app.demo import load_demo
from app.pages.teach.callbacks import chosen, in_place, opened_file, people_of
from app.pages.teach.form import OF_FILE, Kept, Session, to_file
from app.pages.teach.parts import LARGEST_FILE_BYTES
from app.show.kept import form_for
from app.show.throw_form import demo_form
from app.show.whose import Whose


def sent(data: bytes) -> str:
    return f"data:application/json;base64,{base64.b64encode(data).decode()}"


@pytest.fixture
def forms():
    demo = load_demo()
    return demo_form(demo, demo.athletes[1]), form_for({}, "W02", demo, True)


def test_another_athlete_brings_other_balls():
    session = chosen(Kept(Session(second="470|73")), "W02", ["470|73", "95|73"], False)
    assert (session.who, session.second, session.third) == ("W02", "", "")


@pytest.mark.parametrize("who", [None, 7, "nobody", OF_FILE, "<script>", ["W01"]])
def test_whom_nobody_offered_is_not_shown(who):
    assert chosen(Kept(), who, [None, None], None) == Session()


@pytest.mark.parametrize("ball", [None, 7, "heavy", "0|73", "275", "2" * 5000 + "|73"])
def test_what_is_no_ball_leaves_the_one_that_was(ball):
    kept = Kept(Session(second="360|73"))
    assert chosen(kept, "compare", [ball, ball], False) == kept.session


def test_balls_and_the_switch_are_taken_over():
    session = chosen(Kept(), "compare", ["360|73", "125|73"], True)
    assert (session.second, session.third, session.named) == ("360|73", "125|73", "yes")


def test_each_control_gets_its_own_ball_and_what_is_none_gets_none():
    parts = [{"which": "third"}, {"which": "second"}, {"which": ["second"]}, {}, 5, None]
    assert in_place({"second": "275|73", "third": "95|73"}, parts) == ["95|73", "275|73", None, None, None, None]


def test_a_file_is_opened_and_its_athlete_can_be_chosen(forms):
    kept, said = opened_file(Kept(), sent(to_file(Session(), *forms).encode()))
    assert kept.session.who == OF_FILE
    assert kept.brought == Whose(*forms)
    assert said == "The session was opened. Compare and Athlete stay as they are."
    assert OF_FILE in {one["value"] for one in people_of(kept, load_demo())}


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
def test_a_file_that_is_none_leaves_everything_as_it_was_and_says_why(contents, said):
    kept = Kept(Session("W03"))
    after, told = opened_file(kept, contents)
    assert after == kept
    assert told.startswith("The file was not opened: ")
    assert said in told
    assert len(told) < 200


def test_no_file_changes_nothing():
    with pytest.raises(PreventUpdate):
        opened_file(Kept(), None)
