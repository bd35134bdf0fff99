"""What goes out comes in again unchanged; twice adds nothing; nothing is mixed or overwritten without a say."""

import json
from datetime import date

import pytest

from app.records.acts import TEAM, Add, Edit, Remove
from app.records.document import ExchangeError, read_document
from app.records.incoming import take_in
from app.records.looking import Choices, look_through
from app.records.opening import open_store
from app.records.outgoing import export
from app.records.place import Place
from app.records.reads import athlete_data, team_data
from app.records.stop_signs import Signed, enter
from tests.app.records.hands import HAND, OTHER, TODAY


@pytest.fixture
def elsewhere(tmp_path, empty_file):
    """Other records, with nothing in them."""
    opened = open_store(Place(tmp_path / "elsewhere"))
    yield opened
    opened.close()


def out(store, code=None) -> dict:
    return json.loads("".join(export(store, code)))


def taken(store, document, **choices):
    read = read_document(json.dumps(document).encode())
    return take_in(store, look_through(store, read, Choices(**choices)), OTHER)


@pytest.fixture
def filled(store, act, added, ball, reading):
    """An athlete with something in every table, and a second one who throws in a comparison of the first."""
    second = store.new_athlete("C3", HAND)
    act(Edit("athlete.sex", "female"), Edit("athlete.handedness", "left"), Edit("athlete.still_growing", "yes"))
    own = added("ball", name="own", mass_kg="5 oz", diameter_m="73")
    act(Edit("reading.ball", own, reading), Edit("reading.asked_effort", "75", reading))
    measures = added("measures", age_years="13", stature_m="5 ft 3 in", body_mass_kg="48,5")
    act(Edit("measures.body_mass_kg", "heavy", measures))
    added("reference", ball=own, speed_m_s="24.6", kind="measured", day="2026-01-16", relative_sd="10")
    kept = added("comparison", name="Älter & <b>", above="40")
    mine = added("throw", values={"comparison": kept, "thrower": second}, mass_kg="145", diameter_m="73", number="33")
    added("throw", values={"comparison": kept}, mass_kg="275", hold="profile", number="80")
    act(Edit("comparison.reference", mine, kept))
    act(Edit("limits.amount", "80", "elbow_peak"), Edit("start.certainty", "95"), Edit("profile.throw_ball", own))
    plan = added(
        "plan", values={"body": {"steps": [{"share": 0.5}], "why": "\u2028 ü"}}, name="Spring", start="2026-03-09"
    )
    session = added("session_log", values={"plan": plan, "body": {"throws": 12, "ball": {"mass_kg": 0.145}}})
    act(Add("session_log", values={"body": {"throws": 3}}))
    enter(store, store.find("B12").uid, "swelling", TODAY, Signed("AB", "coach", TODAY, "after the 9th"), HAND, session)
    act(Add("note", {"text": "threw well\nin the rain", "day": "2026-02-28"}))
    act(Remove("reading", added("reading", speed_m_s="30", ball=ball)))
    store.step(store.find("B12").uid, HAND)
    act(Add("lesson", values={"body": {"steps": "throw,-vote"}, "name": "First"}), owner=TEAM)
    return store


def test_everything_goes_out_and_comes_in_unchanged(filled, elsewhere):
    document = out(filled)
    coming = taken(elsewhere, document)
    assert coming.refused == ()
    assert out(elsewhere) == document
    data = athlete_data(elsewhere, "B12")
    assert data.measures[0].typed["stature_m"] == "5 ft 3 in"
    assert data.measures[0].draft == {"body_mass_kg": "heavy"}
    assert data.codes[data.throws[0].thrower_id] == "C3"
    assert data.own_ball.id == data.readings[0].ball_id == data.references[0].ball_id


def test_what_came_in_can_be_taken_back_step_by_step_as_where_it_came_from(filled, elsewhere):
    taken(elsewhere, out(filled))
    for store in (filled, elsewhere):
        for _ in range(9):
            store.step(store.find("B12").uid, HAND)
    here, there = athlete_data(filled, "B12"), athlete_data(elsewhere, "B12")
    assert len(here.sessions) == len(there.sessions) == 0
    assert [one.body for one in here.plans] == [one.body for one in there.plans]
    assert {key: row.value for key, row in here.setting_rows.items()} == {
        key: row.value for key, row in there.setting_rows.items()
    }


def test_twice_taken_in_adds_nothing_and_is_no_version(filled, elsewhere):
    document = out(filled)
    taken(elsewhere, document)
    before = out(elsewhere)
    again = taken(elsewhere, document)
    assert again.adds == 0
    assert out(elsewhere) == before


def test_one_athlete_goes_alone_without_the_throws_of_others(filled, elsewhere):
    document = out(filled, "B12")
    assert [one["code"] for one in document["athletes"]] == ["B12"]
    assert "C3" not in json.dumps(document)
    assert [len(one["throws"]) for one in document["athletes"][0]["comparisons"]] == [1]
    assert all(ball["name"] != "unused" for ball in document["team"]["balls"])
    taken(elsewhere, document)
    assert out(elsewhere, "B12") == document
    assert team_data(elsewhere).lessons == ()


def test_what_the_file_has_more_is_added_and_can_be_taken_back(filled, elsewhere, act, added, ball):
    taken(elsewhere, out(filled))
    added("reading", speed_m_s="31.5", ball=ball)
    act(Edit("limits.amount", "70", "rise_rate"))
    uid = elsewhere.find("B12").uid
    before = out(elsewhere)["athletes"][0]["readings"]
    coming = taken(elsewhere, out(filled))
    merge = coming.athletes[0]
    assert (merge.new, merge.counts) == (False, "1 reading, 1 limit")
    assert len(athlete_data(elsewhere, "B12").readings) == len(before) + 1
    elsewhere.step(uid, HAND)
    assert out(elsewhere)["athletes"][0]["readings"] == before


@pytest.mark.parametrize("take_file", [False, True])
def test_a_field_that_differs_stays_as_it_is_here_unless_the_files_is_asked_for(
    filled, elsewhere, act, reading, take_file
):
    taken(elsewhere, out(filled))
    act(Edit("reading.speed_m_s", "34", reading), Edit("athlete.sex", "male"))
    coming = taken(elsewhere, out(filled), take_file=take_file)
    assert {one.column for one in coming.athletes[0].differs} == {"speed_m_s", "sex"}
    assert ("as the file has it" if take_file else "kept as it is here") in coming.lines[0]
    data = athlete_data(elsewhere, "B12")
    assert (data.readings[0].speed_m_s, data.athlete.sex) == ((34.0, "male") if take_file else (33.1, "female"))


def test_a_row_that_was_entered_here_and_there_is_known_by_its_values(filled, elsewhere):
    document = out(filled, "B12")
    taken(elsewhere, document)
    text = json.dumps(document).replace(document["athletes"][0]["readings"][0]["uid"], "0123456789abcdef0123")
    assert taken(elsewhere, json.loads(text)).adds == 0


def test_two_athletes_of_one_code_are_not_mixed_without_a_say(filled, elsewhere):
    elsewhere.new_athlete("B12", HAND)
    document = out(filled, "B12")
    coming = taken(elsewhere, document)
    assert coming.refused == (
        "B12: the code B12 is another athlete’s here: take this one in under another code, "
        "or say that both are the same.",
    )
    assert athlete_data(elsewhere, "B12").readings == ()
    taken(elsewhere, document, codes={"B12": "B12 (2)"})
    assert len(athlete_data(elsewhere, "B12 (2)").readings) == 2
    taken(elsewhere, document, same=frozenset({"B12"}))
    assert len(athlete_data(elsewhere, "B12").readings) == 2


def test_a_copy_under_another_code_stands_beside_the_athlete(filled):
    document = out(filled, "B12")
    taken(filled, document, codes={"B12": "Copy"})
    here, copy = athlete_data(filled, "B12"), athlete_data(filled, "Copy")
    assert [one.speed_m_s for one in here.readings] == [one.speed_m_s for one in copy.readings]
    assert {one.uid for one in here.readings}.isdisjoint(one.uid for one in copy.readings)
    assert copy.comparisons[0].uid != here.comparisons[0].uid
    assert [one.comparison_id for one in copy.throws] == [copy.comparisons[0].id]
    assert copy.stop_signs[0].session == copy.sessions_of(copy.plans[0])[0].uid


def test_readings_with_another_own_ball_keep_their_mass(filled, elsewhere):
    document = out(filled, "B12")
    other = elsewhere.new_athlete("B12", HAND)
    elsewhere.act(other, Add("ball", {"mass_kg": "160", "diameter_m": "73"}), HAND)
    taken(elsewhere, document, same=frozenset({"B12"}))
    data = athlete_data(elsewhere, "B12")
    assert data.own_ball.mass_kg == 0.16
    assert data.balls[data.readings[0].ball_id].mass_kg == pytest.approx(5 * 0.028349523125)  # 5 oz, avoirdupois


def test_an_invented_athlete_keeps_the_mark_and_is_never_mixed_with_a_real_one(filled, elsewhere):
    document = out(filled, "B12")
    document["athletes"][0]["invented"] = True
    taken(elsewhere, document)
    assert athlete_data(elsewhere, "B12").athlete.invented is True
    document["athletes"][0]["invented"] = False
    assert "invented and the other is not" in taken(elsewhere, document).refused[0]


def test_nothing_is_written_by_looking_through(filled, elsewhere):
    before = out(elsewhere)
    look_through(elsewhere, read_document(json.dumps(out(filled)).encode()))
    assert out(elsewhere) == before


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"version": 2}, "made by a newer version"),
        ({"kind": "other"}, "kind"),
        ({"more": 1}, "more"),
        (
            {"athletes": [{"uid": "0123456789", "code": "A", "created": "2026-01-01T00:00:00"}] * 2},
            "the code “A” stands in it twice",
        ),
    ],
)
def test_what_is_no_such_document_is_refused_and_told(filled, change, words):
    with pytest.raises(ExchangeError, match=words):
        read_document(json.dumps(out(filled) | change).encode())


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("speed_m_s", 99.0),
        ("speed_m_s", "33"),
        ("speed_m_s", True),
        ("speed_is", "guess"),
        ("day", "2026-02-30"),
        ("uid", "x"),
        ("asked_effort", 75),
    ],
)
def test_a_value_that_nobody_could_have_entered_is_refused_by_its_place(filled, column, value):
    document = out(filled)
    document["athletes"][0]["readings"][0][column] = value
    with pytest.raises(ExchangeError, match="athletes 1, readings 1"):
        read_document(json.dumps(document).encode())


def test_days_before_today_are_not_asked_of_a_file(filled, elsewhere):
    assert athlete_data(filled, "B12").plans[0].start == date(2026, 3, 9)
    taken(elsewhere, out(filled))
    assert athlete_data(elsewhere, "B12").plans[0].start == date(2026, 3, 9)
