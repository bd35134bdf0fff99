"""Sessions of the records are read with distrust, and none is left out unsaid."""

import json
from dataclasses import asdict
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest

from app.show.sessions import sessions_of
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.person import Person
from model.session_log import Logged
from model.session_rules import JointPain, Notes
from model.tally import done_of, planned_of

OLD = Path(__file__).parent.parent / "records" / "old"

DAY = date(2026, 3, 2)
OWN = {"ball": {"mass_kg": 0.145, "diameter_m": 0.07}, "throws": 12, "top_speed_m_s": 31.5}
OF_A_PLAN = {
    "day": "2026-03-02",
    "index": 3,
    "place": 1,
    "ball": {"mass_kg": 0.2, "diameter_m": 0.073},
    "speed_m_s": 27.0,
    "planned": 20,
    "throws": 18,
    "notes": {"pain": {"site": ""}, "signs": []},
    "decision": "go_on",
    "days_off": 0,
    "by": "AB",
    "role": "coach",
    "top_speed_m_s": None,
    "was_repeat": False,
    "note": "windy",
}


def read(*bodies, plan_id=None):
    """Read the sessions of an athlete with one plan and one ball."""
    rows = [
        SimpleNamespace(uid=f"row{i}", id=i, day=DAY, plan_id=plan_id, position=i, body=body)
        for i, body in enumerate(bodies)
    ]
    plan = SimpleNamespace(id=7, uid="plan7", name="Spring")
    ball = SimpleNamespace(id=1, uid="ball1", mass_kg=0.16, diameter_m=None)
    return sessions_of(SimpleNamespace(sessions=rows, plans=(plan,), balls={1: ball}))


def test_a_session_outside_a_plan_has_ball_throws_and_highest_speed():
    (one,) = read(OWN).entries
    assert (one.ball, one.throws, one.speed_m_s, one.was_read) == (Ball(0.145, 0.07), 12, 31.5, True)
    assert (one.plan, one.session, one.has_plan) == ("", "", False)


def test_a_session_of_a_plan_has_what_was_planned_and_counts_at_the_planned_speed_where_none_was_read():
    (one,) = read(OF_A_PLAN, plan_id=7).entries
    assert (one.throws, one.planned, one.speed_m_s, one.planned_m_s, one.was_read) == (18, 20, 27.0, 27.0, False)
    assert (one.plan, one.plan_name, one.session, one.note) == ("plan7", "Spring", "plan7 row0", "windy")


def test_a_highest_speed_above_the_planned_one_counts():
    (one,) = read(OF_A_PLAN | {"top_speed_m_s": 29.0}, plan_id=7).entries
    assert (one.speed_m_s, one.planned_m_s) == (29.0, 27.0)


@pytest.mark.parametrize(
    "ball",
    [
        {"ball": "ball1"},
        {"ball": {"mass_kg": 0.16}},
        {"ball": {"mass_kg": 0.16, "diameter_m": None}},
        {"ball": None, "ball_mass_kg": 0.16, "ball_diameter_m": DEFAULT_DIAMETER_M},
    ],
)
def test_the_ball_may_be_written_out_or_be_one_of_the_records(ball):
    (one,) = read(OWN | ball).entries
    assert one.ball == Ball(0.16)


@pytest.mark.parametrize(
    ("body", "why"),
    [
        ({}, "Throws: nothing given; accepted: a whole number from 0 to 10000 throws."),
        (OWN | {"throws": "many"}, "Throws: “many” given; accepted: a number from 0 to 10000 throws."),
        (OWN | {"throws": 2.5}, "Throws: “2.5” given; accepted: a whole number from 0 to 10000 throws."),
        (OWN | {"throws": -1}, "Throws: “-1” given; accepted: a number from 0 to 10000 throws."),
        (OWN | {"top_speed_m_s": None}, "Highest speed: nothing given; accepted: a number from 1 to 60 m/s."),
        (OWN | {"top_speed_m_s": 400}, "Highest speed: “400” given; accepted: a number from 1 to 60 m/s."),
        (OWN | {"ball": None}, "Ball: nothing given; accepted: a ball with a mass."),
        (OWN | {"ball": "gone"}, "Ball: nothing given; accepted: a ball with a mass."),
        (OWN | {"ball": {"mass_kg": True}}, "Ball: “True” given; accepted: a number from 0.001 to 3 kg."),
        (OWN | {"planned": [1]}, "Planned throws: “[1]” given; accepted: a number from 0 to 10000 throws."),
        ("no body", "Throws: nothing given; accepted: a whole number from 0 to 10000 throws."),
    ],
)
def test_what_cannot_be_read_is_listed_with_its_reason(body, why):
    found = read(body, OWN)
    assert len(found.entries) == 1
    (unread,) = found.unread
    assert (unread.row, unread.day, unread.why) == ("row0", DAY, why)


def test_sessions_come_by_day():
    days = [date(2026, 3, 5), date(2026, 3, 1)]
    rows = [
        SimpleNamespace(uid=str(i), id=i, day=day, plan_id=None, position=i, body=OWN) for i, day in enumerate(days)
    ]
    found = sessions_of(SimpleNamespace(sessions=rows, plans=(), balls={}))
    assert [one.day for one in found.entries] == sorted(days)


def test_the_sessions_of_a_plan_of_the_first_version_are_read_as_thrown_as_planned():
    log = json.loads((OLD / "plan.json").read_text(encoding="utf-8"))["log"]
    found = read(*log, plan_id=7)
    assert found.unread == ()
    assert [(one.throws, one.planned) for one in found.entries] == [(one["throws"], one["throws"]) for one in log]
    assert [one.planned_m_s for one in found.entries] == [one["speed_m_s"] for one in log]


def test_what_the_model_keeps_of_a_session_is_read():
    notes = Notes(JointPain(before=0))
    logged = Logged(DAY, 3, 1, Ball(0.2), 27.0, 20, 18, notes, "go_on", 0, "AB", "coach", 28.5, False, "windy")
    (one,) = read(asdict(logged), plan_id=7).entries
    person = Person("male", 1.8, 80.0, 25.0)
    assert one.done_by(person) == done_of(person, logged, one.session)
    assert one.planned_for(person) == planned_of(person, logged, one.session)
