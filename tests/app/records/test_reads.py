"""What pages read: the list of athletes, all of one, and the measures that count on a day."""

from datetime import date, timedelta

import pytest

from app.records.acts import Add, Edit, Put
from app.records.lines import athlete_lines
from app.records.reads import age_on, athlete_data, in_field, measures_on, person_on
from app.records.stop_signs import Signed, enter
from app.records.tables import Measures, Note, now
from app.units.systems import CUSTOMARY
from tests.app.records.hands import HAND, TODAY

SINCE = TODAY - timedelta(days=365)


def test_a_line_of_the_list_says_what_is_known_of_an_athlete(store, act, added, athlete, ball):
    own = added("ball", mass_kg="145", diameter_m="73")
    for day, speed in (("2026-01-10", "33"), ("2026-01-10", "34"), ("2026-02-10", "35"), ("2024-01-01", "20")):
        added("reading", speed_m_s=speed, ball=own, day=day)
    added("reading", speed_m_s="10", ball=own, day="2026-02-20", asked_effort="50")
    added("reading", speed_m_s="11", ball=own, day="2026-02-20", distance_m="30")
    added("reading", speed_m_s="28", ball=ball, day="2026-02-25")
    plan = added("plan", name="Spring")
    enter(store, athlete, "swelling", TODAY, Signed("AB", "coach", TODAY), HAND)
    (line,) = athlete_lines(store, SINCE)
    assert (line.code, line.last_reading, line.plans, line.signs) == (
        "B12",
        date(2026, 2, 25),
        ((plan, "Spring", None),),
        ("swelling",),
    )
    assert [(one.day, one.throws, one.mean_m_s, one.best_m_s) for one in line.own_speeds] == [
        (date(2026, 1, 10), 2, 33.5, 34.0),
        (date(2026, 2, 10), 1, 35.0, 35.0),
    ]


def test_a_line_of_the_list_has_the_last_session_of_a_plan(store, act, added, athlete):
    plan = added("plan", name="Spring")
    for day, body, of in (("2026-02-01", {"a": 1}, plan), ("2026-02-03", {"a": 2}, plan), ("2026-02-05", {}, None)):
        values = {"day": date.fromisoformat(day), "body": body} | ({"plan": of} if of else {})
        act(Add("session_log", values=values))
    store.new_athlete("C3", HAND)
    assert [one.session for one in athlete_lines(store, SINCE)] == [(date(2026, 2, 3), {"a": 2}), None]


def test_those_looked_at_last_come_first_and_the_archived_ones_stand_apart(store):
    uids = {code: store.new_athlete(code, HAND) for code in ("C", "a", "B")}
    assert [one.code for one in athlete_lines(store, SINCE)] == ["a", "B", "C"]
    store.opened(uids["C"])
    assert [one.code for one in athlete_lines(store, SINCE)] == ["C", "a", "B"]
    store.act(uids["a"], Put("athlete", "archived_at", now()), HAND)
    assert [one.code for one in athlete_lines(store, SINCE)] == ["C", "B"]
    assert [one.code for one in athlete_lines(store, SINCE, archived=True)] == ["a"]
    store.step(uids["a"], HAND)
    assert [one.code for one in athlete_lines(store, SINCE)] == ["C", "a", "B"]


def test_of_each_measure_the_newest_counts_and_age_goes_on(act, added, store):
    added("measures", age_years="13", stature_m="160", body_mass_kg="48", day="2025-03-02")
    added("measures", body_mass_kg="52", day="2026-01-02")
    act(Edit("athlete.sex", "male"))
    data = athlete_data(store, "B12")
    found = measures_on(data.measures, TODAY)
    assert (found["stature_m"], found["body_mass_kg"]) == (1.6, 52.0)
    assert found["age_years"] == pytest.approx(14.0, abs=0.002)  # a year of 365 days, of 365.2425 on average
    before = measures_on(data.measures, date(2025, 6, 1))
    assert before["body_mass_kg"] == 48.0
    assert measures_on(data.measures, date(2024, 3, 2))["age_years"] == pytest.approx(12.0, abs=0.002)
    assert person_on(data, TODAY) == (None, ["athlete.handedness"])
    act(Edit("athlete.handedness", "left"))
    person, missing = person_on(athlete_data(store, "B12"), TODAY)
    assert (person.handedness, person.body_mass_kg, missing) == ("left", 52.0, ())


def test_what_is_missing_for_a_person_is_listed(store, athlete):
    assert person_on(athlete_data(store, "B12"), TODAY)[1] == [
        "athlete.sex",
        "athlete.handedness",
        "measures.stature_m",
        "measures.body_mass_kg",
        "measures.age_years",
    ]


def test_age_is_none_where_it_was_never_typed():
    assert age_on(Measures(day=TODAY), TODAY) is None


def test_only_what_is_asked_for_is_read(store, added):
    for day in ("2025-01-01", "2026-01-01"):
        added("reading", speed_m_s="30", day=day)
    added("note", text="x")
    assert len(athlete_data(store, "B12").readings) == 2
    data = athlete_data(store, "B12", only=(Note,))
    assert (data.athlete.code, len(data.readings), len(data.notes), dict(data.balls)) == ("B12", 0, 1, {})


def test_rows_can_be_read_on_after_the_store_is_closed(store, act):
    act(Add("note", {"text": "x"}))
    data = athlete_data(store, "B12")
    store.close()
    assert (data.notes[0].text, data.athlete.code, data.version) == ("x", "B12", 2)


def test_a_field_shows_what_was_refused_with_the_reason_and_else_what_was_typed(store, act, added):
    row = added("measures", stature_m="6 ft 2 in", body_mass_kg="84,5")
    act(Edit("measures.body_mass_kg", "9", row), Edit("profile.cap_share", "soon"))
    data = athlete_data(store, "B12")
    (measures,) = data.measures
    assert in_field("measures.stature_m", measures) == ("188", "")
    assert in_field("measures.stature_m", measures, CUSTOMARY) == ("6 ft 2 in", "")
    refused = ("9", "Body mass: “9” given; accepted: 12 to 200 kg.")
    assert in_field("measures.body_mass_kg", measures, today=TODAY) == refused
    share = in_field("profile.cap_share", data.setting_rows["profile.cap_share"])
    assert share[0] == "soon"
    assert share[1].startswith("Share of full speed: “soon” given; accepted: 10 to 120 %")
    assert in_field("profile.radar_distance_m", None) == ("2", "")
    act(Edit("measures.body_mass_kg", "85", row))
    assert in_field("measures.body_mass_kg", athlete_data(store, "B12").measures[0]) == ("85", "")
