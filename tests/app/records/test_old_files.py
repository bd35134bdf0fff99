"""Plans, teaching sessions and forms from before there were records are read, and twice adds nothing.

The files in `old/` were saved by the version before: a build-up plan of W04 with three sessions, a teaching session of
W05, and what a browser's tab held.
"""

import json
from datetime import date
from pathlib import Path

import pytest

from app.records.acts import TEAM, Edit, Remove
from app.records.document import ExchangeError
from app.records.incoming import take_in
from app.records.looking import look_through
from app.records.old_files import forms_document, session_document
from app.records.old_plans import plan_document, upgraded
from app.records.opening import open_store
from app.records.reads import athlete_data, person_on, team_data
from tests.app.records.hands import HAND, TODAY

OLD = Path(__file__).parent / "old"


def old(name: str) -> dict:
    return json.loads((OLD / name).read_text(encoding="utf-8"))


@pytest.fixture
def records(in_file):
    opened = open_store(in_file)
    yield opened
    opened.close()


def taken(store, document):
    return take_in(store, look_through(store, document, by_code=True), HAND)


def test_a_plan_comes_in_with_its_athlete_its_sessions_and_the_mark_that_it_is_invented(records):
    kept = old("plan.json")
    taken(records, plan_document(kept))
    data = athlete_data(records, "W04")
    assert data.athlete.invented
    assert (data.athlete.sex, data.own_ball.mass_kg, data.measures[0].stature_m) == ("male", 0.145, 1.6)
    (plan,) = data.plans
    assert (plan.name, plan.start) == ("Build-up of 2026-03-02", date(2026, 3, 2))
    assert [one.body["decision"] for one in data.sessions_of(plan)] == ["go_on", "repeat", "stop"]


def test_stop_signs_of_a_plan_come_in_as_rows_of_their_own_and_know_their_session(records):
    signed = {"by": "PT", "role": "clinician", "on": "2026-03-09", "words": ""}
    sign = {"sign": "swelling", "since": "2026-03-06", "entered": signed, "withdrawn": None}
    kept = upgraded(old("plan.json")) | {"version": 2}
    own = sign | {"session": 1, "plan": kept["mark"], "cleared": None}
    before = sign | {"session": None, "plan": "", "cleared": signed}
    kept |= {"signs": [own], "earlier": [before]}
    taken(records, plan_document(kept))
    assert taken(records, plan_document(kept)).adds == 0
    data = athlete_data(records, "W04")
    (plan,) = data.plans
    rows = {row.session: row for row in data.stop_signs}
    assert set(rows) == {None, data.sessions_of(plan)[1].uid}
    assert plan.body["earlier"] == [rows[None].uid]
    assert rows[None].cleared_by == "PT"
    assert not {"log", "signs", "code"} & set(plan.body)


def test_the_same_plan_twice_adds_nothing_and_a_longer_log_adds_its_sessions(records):
    kept = old("plan.json")
    shorter = kept | {"log": kept["log"][:2]}
    taken(records, plan_document(shorter))
    assert taken(records, plan_document(shorter)).adds == 0
    assert taken(records, plan_document(kept)).athletes[0].counts == "1 session"
    data = athlete_data(records, "W04")
    assert (len(data.plans), len(data.sessions), len(data.measures)) == (1, 3, 1)


def test_a_plan_without_a_code_takes_the_one_that_is_given(records):
    taken(records, plan_document(old("plan.json") | {"code": ""}, code="B7"))
    assert len(athlete_data(records, "B7").plans) == 1


def test_a_teaching_session_comes_in_with_the_athlete_it_brought(records):
    taken(records, session_document(old("session.json"), TODAY))
    team = team_data(records)
    data = athlete_data(records, "W05")
    (lesson,) = team.lessons
    assert (lesson.athlete_id, lesson.name, lesson.body["second"]) == (
        data.athlete.id,
        "Session of 2026-03-02",
        "275|73",
    )
    assert "who" not in lesson.body
    assert data.athlete.invented  # the file does not say so: it is known by the demo's own values
    person, missing = person_on(data, TODAY)
    assert (person.sex, person.stature_m, missing) == ("female", 68 * 0.0254, ())
    assert data.measures[0].typed["stature_m"] == "5 ft 8 in"


def test_the_team_changes_and_removes_a_session_that_leads_to_an_athlete_and_the_athlete_does_not(records):
    taken(records, session_document(old("session.json"), TODAY))
    (lesson,) = team_data(records).lessons
    whose = athlete_data(records, "W05").athlete.uid
    assert records.act(TEAM, Edit("lesson.name", "Tuesday", lesson.uid), HAND).done
    assert not records.act(whose, Remove("lesson", lesson.uid), HAND).done
    assert records.act(TEAM, Remove("lesson", lesson.uid), HAND).done
    assert team_data(records).lessons == ()
    records.step(TEAM, HAND)
    assert [one.name for one in team_data(records).lessons] == ["Tuesday"]


def test_readings_choices_and_throws_come_with_it_as_they_were_typed(records):
    taken(records, session_document(old("session.json"), TODAY))
    data = athlete_data(records, "W05")
    own = [one for one in data.readings if one.ball_id == data.own_ball.id]
    assert own
    assert {one.day for one in own} == {date(2026, 1, 13)}
    added = [one for one in data.readings if one.day == TODAY]  # two without a day: they got that of taking in
    assert [(one.day, one.typed, one.draft) for one in added] == [
        (TODAY, {"speed_m_s": "75\u00a0mph"}, {}),
        (TODAY, {}, {"speed_m_s": "fast"}),
    ]
    assert data.settings["profile.own_speed_m_s"] == 28.5
    assert data.settings["profile.radar"] is True
    assert data.settings["profile.cap_share"] == 0.8
    assert data.setting_rows["profile.cap_share"].draft == {"value": "soon"}
    assert data.balls[next(one.id for one in data.balls.values() if one.uid == data.settings["profile.throw_ball"])]
    (comparison,) = data.comparisons
    throws = data.throws_of(comparison)
    assert [(one.hold, one.number, one.mass_kg) for one in throws[:3]] == [
        ("speed", 28.3, 0.145),
        ("speed", 25.2, 0.275),
        ("clock", 0.95, 0.095),
    ]
    assert (throws[3].draft, throws[3].typed) == ({"number": "3x"}, {"mass_kg": "5\u00a0oz"})
    assert comparison.reference == throws[0].uid
    assert comparison.headline == throws[1].uid
    assert (comparison.above, comparison.align, comparison.kind) == (40.0, "contact", "measured")
    assert data.codes[throws[2].thrower_id] == "W02"
    assert (data.reference.kind, data.reference.speed_m_s) == ("measured", 28.3)


def test_what_a_tab_of_the_version_before_holds_comes_in_athlete_by_athlete(records):
    kept = old("tab.json")
    document = forms_document(kept["compare"], dict(kept["athlete"]["forms"]), TODAY)
    taken(records, document)
    assert len(athlete_data(records, "Z9").readings) == len(athlete_data(records, "W05").readings) > 5
    assert taken(records, forms_document(kept["compare"], dict(kept["athlete"]["forms"]), TODAY)).adds == 0


def test_readings_that_were_kept_without_a_code_go_to_nobody_who_has_one(records):
    kept = old("tab.json")
    named = dict(kept["athlete"]["forms"])
    taken(records, forms_document(kept["compare"], {"": named["W05"]}, TODAY))
    assert athlete_data(records, "W05").readings == ()
    assert len(athlete_data(records, "unnamed").readings) > 5


@pytest.mark.parametrize("read", [plan_document, lambda kept: session_document(kept, TODAY)])
@pytest.mark.parametrize("kept", [{}, {"log": 1, "mark": "x"}, {"session": 1}, {"session": {}, "brought": {}}])
def test_what_is_no_such_file_is_refused_in_words(read, kept):
    with pytest.raises(ExchangeError, match="cannot be read"):
        read(kept)
