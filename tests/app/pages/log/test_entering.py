"""A session outside a plan is entered, changed and removed."""

from datetime import timedelta

import pytest

from app.pages.log import entering
from app.records.acts import Add, Edit, Hand, Remove
from app.units.systems import CUSTOMARY
from tests.app.pages.log.conftest import MONDAY, after


def fill(log, **texts) -> None:
    """Type into the fields; the ball is W01's own unless another is named."""
    texts = {"ball": log.visit.data.own_ball.uid} | texts
    log.act(*(Edit(f"log.{name}", text) for name, text in texts.items()))


def only(log):
    """The one session that is kept."""
    (row,) = log.visit.data.sessions
    return row


def test_a_session_is_kept_of_today_where_no_day_is_given_and_its_fields_are_empty_again(log):
    fill(log, throws="25", top_speed_m_s="31,5", note="elbow a little sore")
    doing = log.do(entering.keep)
    row, visit = only(log), log.visit
    assert row.day == visit.today
    assert row.plan_id is None
    own = visit.data.own_ball
    assert row.body == {
        "ball": {"mass_kg": own.mass_kg, "diameter_m": own.diameter_m},
        "throws": 25,
        "top_speed_m_s": 31.5,
        "note": "elbow a little sore",
    }
    assert doing.said.startswith("Kept: 25 throws on ")
    assert [visit.data.settings[path] for path in entering.FIELDS] == [None, None, None, None, ""]


def test_a_speed_typed_in_miles_per_hour_is_kept_as_it_was(log):
    visit = log.visit
    visit.store.act(visit.owner, [Edit("log.top_speed_m_s", "70")], Hand("one"), CUSTOMARY)
    fill(log, throws="1", day=str(MONDAY))
    log.do(entering.keep)
    assert only(log).body["top_speed_m_s"] == pytest.approx(31.2928)  # 1 mph = 0.44704 m/s
    assert only(log).day == MONDAY


@pytest.mark.parametrize(
    ("texts", "said", "field"),
    [
        ({"throws": ""}, "Throws thrown: nothing given; accepted: a whole number, 1 to 500 throws.", "log.throws"),
        ({"top_speed_m_s": ""}, "Highest speed read: nothing given; accepted: 1 to 60 m/s.", "log.top_speed_m_s"),
        ({"ball": ""}, "Ball thrown: nothing given; accepted: one of the balls in the list.", "log.ball"),
        ({"throws": "2.5"}, "Throws thrown: “2.5” given; accepted: a whole number, 1 to 500 throws.", "log.throws"),
    ],
)
def test_what_is_missing_or_refused_is_named_gets_the_focus_and_nothing_typed_is_lost(log, texts, said, field):
    fill(log, **({"throws": "25", "top_speed_m_s": "30", "note": "windy"} | {"day": str(MONDAY)}))
    visit = log.visit
    visit.store.act(visit.owner, [Edit(f"log.{name}", text) for name, text in texts.items()], Hand("one"))
    doing = log.do(entering.keep)
    assert doing.acts == ()
    assert said in doing.said
    assert f'"path":"{field}"' in doing.focus
    assert log.visit.data.sessions == ()
    assert log.visit.data.settings["log.note"] == "windy"


def test_a_session_is_taken_into_the_fields_changed_and_keeps_what_else_it_holds(log):
    log.add(after(0), throws=10, top=30.123, note="before", more=[1, 2])
    log.do(entering.change, only(log).uid)
    settings = log.visit.data.settings
    assert (settings["log.throws"], settings["log.top_speed_m_s"], settings["log.note"]) == (10, 30.123, "before")
    fill(log, throws="12", note="")
    log.do(entering.keep)
    row = only(log)
    assert row.body["throws"] == 12
    assert row.body["more"] == [1, 2]
    assert "note" not in row.body
    assert row.day == after(0)
    assert log.visit.data.settings["log.changed"] is None


def test_a_ball_that_is_none_of_the_records_stays_where_no_other_is_chosen(log):
    log.add(after(0), mass=0.1234)
    log.do(entering.change, only(log).uid)
    assert not log.visit.data.settings["log.ball"]
    assert entering.as_it_was(log.visit, only(log)) == {"placeholder": "as entered: 123.4 g"}
    log.do(entering.keep)
    assert only(log).body["ball"]["mass_kg"] == 0.1234


def test_a_session_can_be_left_as_it_was(log):
    log.add(after(0), throws=10)
    log.do(entering.change, only(log).uid)
    log.act(Edit("log.throws", "99"))
    log.do(entering.leave)
    assert only(log).body["throws"] == 10
    assert log.visit.data.settings["log.throws"] is None


def test_a_session_is_removed_and_undo_brings_it_back(log):
    log.add(after(0))
    doing = log.do(entering.remove, only(log).uid)
    assert doing.said == "Removed: the session of Mon 2026-03-02. Undo brings it back."
    assert log.visit.data.sessions == ()
    log.visit.store.step(log.visit.owner, Hand("one"))
    assert only(log).body["throws"] == 10


def test_the_session_of_a_plan_is_neither_changed_nor_removed_here(log):
    log.act(Add("plan", {"name": "Spring"}, uid="spring"))
    log.add(after(0), plan="spring")
    for doer in (entering.change, entering.remove):
        doing = log.do(doer, only(log).uid)
        assert doing.acts == ()
        assert doing.said == entering.GONE


def test_what_was_typed_still_stands_where_the_session_that_was_being_changed_is_gone(log):
    log.add(after(0))
    log.do(entering.change, only(log).uid)
    log.act(Remove("session_log", only(log).uid))
    doing = log.do(entering.keep)
    assert doing.said.startswith(entering.GONE)
    assert log.visit.data.settings["log.throws"] == 10
    log.do(entering.keep)
    assert only(log).body["throws"] == 10


def test_a_day_in_the_future_is_refused(log):
    fill(log, throws="5", top_speed_m_s="30")
    visit = log.visit
    late = visit.today + timedelta(9)
    visit.store.act(visit.owner, [Edit("log.day", late.isoformat())], Hand("one"))
    assert "Day of the session" in log.do(entering.keep).said
    assert log.visit.data.sessions == ()


def test_the_balls_to_choose_from_are_the_own_one_and_then_the_teams(log):
    labels = [one["label"] for one in entering.ball_choices(log.visit)]
    assert labels[0].startswith("own ball, ")
    assert len(labels) == len(set(labels)) > 3
