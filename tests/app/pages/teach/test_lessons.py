"""The sessions of the records: which one is shown, and what buttons and choices do to them."""

import pytest
from dash.exceptions import PreventUpdate

from app.bind.visit import visit_of
from app.pages.teach.lessons import DOERS, added, lesson_shown, name_of, session_in, step_row
from app.pages.teach.session import STEPS, Session
from app.records.acts import TEAM, Add, Hand, Put
from model.ball import Ball

HAND = Hand("one")


def again(search: str = "?athlete=W01"):
    return visit_of("/teach", search)


def do(visit, name: str, row: str = "", value=1):
    """Press a button, or choose; the page as it is then, and what is to be done."""
    doing = DOERS[f"teach/{name}"](visit, row, value)
    if doing.acts:
        assert visit.store.act(doing.owner, list(doing.acts), HAND).done
    return again(), doing


@pytest.fixture
def kept(visit):
    """The page with a session that is kept."""
    visit.store.act(TEAM, added(Session(), "Tuesday"), HAND)
    return again()


def test_to_look_at_the_page_keeps_nothing_and_the_first_change_keeps_a_session(visit):
    assert lesson_shown(visit) is None
    assert session_in(None) == (Session(), True)
    after, doing = do(visit, "switch", step_row("", "hand"))
    row = lesson_shown(after)
    assert name_of(row) == "Session 1"
    assert session_in(row)[0].shown == tuple(key for key in STEPS if key != "hand")
    assert row.uid in doing.focus


def test_the_session_of_the_address_is_shown_and_without_one_the_newest(kept):
    first = lesson_shown(kept)
    kept.store.act(TEAM, added(Session(), "Wednesday"), HAND)
    assert name_of(lesson_shown(again())) == "Wednesday"
    assert lesson_shown(again(f"?athlete=W01&lesson={first.uid}")).uid == first.uid
    assert name_of(lesson_shown(again("?athlete=W01&lesson=gone"))) == "Wednesday"


def test_a_step_that_moved_to_an_end_leaves_the_focus_on_the_way_back(kept):
    uid = lesson_shown(kept).uid
    after, doing = do(kept, "up", step_row(uid, "hand"))
    assert session_in(lesson_shown(after))[0].shown[:2] == ("hand", "throw")
    assert '"teach/down"' in doing.focus
    with pytest.raises(PreventUpdate):
        do(after, "up", step_row(uid, "hand"))


def test_balls_and_what_the_room_sees_are_kept(kept):
    uid = lesson_shown(kept).uid
    after, _ = do(kept, "second", uid, "360|73")
    after, _ = do(after, "third", uid, "125|73")
    after, _ = do(after, "named", uid, "yes")
    assert session_in(lesson_shown(after))[0] == Session(Ball(0.36), Ball(0.125), named=True)
    after, _ = do(after, "named", uid, "no")
    assert session_in(lesson_shown(after))[0].named is False


@pytest.mark.parametrize("ball", [None, 7, "heavy", "0|73", "275", "2" * 5000 + "|73", "275|73"])
def test_what_is_no_ball_or_stands_there_already_changes_nothing(kept, ball):
    with pytest.raises(PreventUpdate):
        do(kept, "second", lesson_shown(kept).uid, ball)


def test_sessions_are_added_copied_chosen_and_removed(kept):
    first = lesson_shown(kept)
    do(kept, "switch", step_row(first.uid, "vote"))
    copied, doing = do(again(), "copy", first.uid)
    copy = lesson_shown(copied)
    assert (copy.name, session_in(copy)[0].shown) == ("Tuesday, copy", session_in(copied.team.lessons[0])[0].shown)
    assert doing.go == f"/teach?athlete=W01&lesson={copy.uid}"
    new, _ = do(copied, "new")
    assert [one.name for one in new.team.lessons] == ["Tuesday", "Tuesday, copy", "Session 1"]
    assert session_in(lesson_shown(new))[0] == Session()
    assert do(new, "choose", copy.uid, first.uid)[1].go.endswith(first.uid)
    for same in (copy.uid, "nobody's", None, 7):
        with pytest.raises(PreventUpdate):
            do(new, "choose", copy.uid, same)
    left, _ = do(new, "remove", copy.uid)
    assert [one.name for one in left.team.lessons] == ["Tuesday", "Session 1"]


def test_a_long_name_leaves_room_for_the_word_copy(visit):
    visit.store.act(TEAM, added(Session(), "x" * 300), HAND)
    long = lesson_shown(again())
    copied, _ = do(again(), "copy", long.uid)
    assert lesson_shown(copied).name == long.name[: -len(", copy")] + ", copy"


def test_who_changes_a_session_that_another_has_removed_is_told(kept):
    for name, row, value in (("up", "gone/hand", 1), ("second", "gone", "360|73"), ("copy", "gone", 1)):
        _, doing = do(kept, name, row, value)
        assert doing.said == "This session was removed in the meantime."


def test_a_session_that_cannot_be_read_is_told_and_a_change_writes_it_anew(kept):
    uid = lesson_shown(kept).uid
    kept.store.act(TEAM, Put("lesson", "body", {"steps": 7}, uid), HAND)
    assert session_in(lesson_shown(again())) == (Session(), False)
    after, _ = do(again(), "down", step_row(uid, "throw"))
    assert session_in(lesson_shown(after))[1]


def test_an_unnamed_session_can_be_called(kept):
    kept.store.act(TEAM, Add("lesson"), HAND)
    row = lesson_shown(again())
    assert name_of(row) == "unnamed"
    assert session_in(row) == (Session(), True)
