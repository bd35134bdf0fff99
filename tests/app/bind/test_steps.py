"""Undo and redo from a page."""

from app.bind import steps
from app.bind.edit import keep_edit
from app.bind.ids import field_id
from app.bind.visit import visit_of
from app.records.acts import TEAM, Add, Hand


def test_the_buttons_say_what_they_would_take_back(visit):
    made = steps.steps(visit)
    assert [one.disabled for one in made.children[:2]] == [True, True]  # who made an athlete archives or erases
    row = visit.data.measures[-1]
    keep_edit(field_id(visit.owner, "measures.stature_m", row.uid, "metric"), "181", Hand("one"))
    again = steps.steps(visit_of("/athlete", "?athlete=W01"))
    assert not again.children[0].disabled
    assert "181 cm" in again.children[0].title


def test_undo_gives_back_what_was(visit, here, monkeypatch):
    told = []
    monkeypatch.setattr(steps, "set_props", lambda part, _: told.append(part))
    row = visit.data.measures[-1]
    keep_edit(field_id(visit.owner, "measures.stature_m", row.uid, "metric"), "181", Hand("one"))
    assert steps._stepped(True)(1, here, {}, visit.owner) == ""
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == row.stature_m
    steps._stepped(False)(1, here, {}, visit.owner)
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == 1.81
    assert told == ["bind-refresh", "bind-refresh"]


def test_of_the_team_it_takes_back_what_the_team_has_done_and_leaves_the_athlete_alone(visit, here, monkeypatch):
    monkeypatch.setattr(steps, "set_props", lambda *_: None)
    row = visit.data.measures[-1]
    keep_edit(field_id(visit.owner, "measures.stature_m", row.uid, "metric"), "181", Hand("one"))
    visit.store.act(TEAM, Add("lesson", {"name": "Tuesday"}), Hand("one"))
    assert "Tuesday" in steps.steps(visit, TEAM).children[0].title
    steps._stepped(True)(1, here, {}, TEAM)
    again = visit_of("/teach", "?athlete=W01")
    assert again.team.lessons == ()
    assert again.data.measures[-1].stature_m == 1.81
