"""What a forged file or request must not come to: another athlete's rows, signed rows, values beyond their fields."""

import contextlib
import json

import pytest

from app.records.acts import Add, Edit, Hand
from app.records.demo import passing_store
from app.records.document import ExchangeError, read_document
from app.records.incoming import take_in
from app.records.lines import athlete_lines
from app.records.looking import look_through
from app.records.outgoing import export
from app.records.reads import athlete_data
from app.records.steps import StepError

HAND = Hand("forger")
AT = "2026-03-01T10:00:00Z"


@pytest.fixture
def demo():
    return passing_store(True)


def line(**more) -> dict[str, object]:
    return {"version": 1, "at": AT, "table": "note", "kind": "add", "row": "", "after": [], **more}


def bring(store, **more) -> str:
    """Take in a document with one new athlete, and what is forged of it."""
    one = {"uid": "f0rgedf0rgedf0rged", "code": "F1", "created": AT, "version": 1, "invented": True, **more}
    template = json.loads("".join(export(store, "W01")))
    document = template | {"athletes": [one], "whole": False}
    document.pop("team", None)
    take_in(store, look_through(store, read_document(json.dumps(document).encode())), HAND)
    return str(one["uid"])


@pytest.mark.parametrize("table", ["reading", "athlete", "stop_sign"])
def test_an_undo_takes_out_no_row_of_another_athlete_and_none_that_is_signed(demo, table):
    w02 = athlete_data(demo, "W02")
    target = {"reading": w02.readings[0].uid, "athlete": w02.athlete.uid, "stop_sign": "s1gns1gns1gn"}[table]
    uid = bring(demo, history=[line(after=[{"table": table, "uid": target}])])
    with contextlib.suppress(StepError):
        demo.step(uid, HAND)
    assert len(athlete_data(demo, "W02").readings) == len(w02.readings)


def test_an_undo_makes_no_stop_sign_out_of_nothing(demo):
    made = {"table": "stop_sign", "uid": "s1gns1gns1gn", "sign": "swelling", "since": "2026-03-01", "entered_by": "X"}
    uid = bring(demo, history=[line(kind="remove", before=[made], after=None)])
    with pytest.raises(StepError):
        demo.step(uid, HAND)
    assert athlete_data(demo, "F1").stop_signs == ()


@pytest.mark.parametrize(
    "forged",
    [
        {"history": [line(table="zork")]},
        {"history": [line(version=2**70)]},
        {"history": [line(after=[{"table": "zork", "uid": "a"}])]},
        {"version": 2**70},
        {"settings": [{"uid": "a1b2c3d4e5", "key": "profile.since", "value": "zork"}]},
        {"settings": [{"uid": "a1b2c3d4e5", "key": "profile.cap_share", "value": "x"}]},
        {"settings": [{"uid": "a1b2c3d4e5", "key": "start.wanted_peak", "value": "x"}]},
    ],
)
def test_what_the_records_do_not_know_is_refused_before_anything_is_kept(demo, forged):
    with pytest.raises(ExchangeError):
        bring(demo, **forged)
    assert demo.find("F1") is None


def test_a_reading_leads_to_no_ball_of_another_athlete(demo):
    ball = athlete_data(demo, "W02").own_ball.uid
    with pytest.raises(Exception, match=r"somebody else"):
        bring(demo, readings=[{"uid": "r1r1r1r1r1", "ball": ball, "day": "2026-03-01", "speed_m_s": 20.0}])
    assert demo.find("F1") is None


def test_half_a_character_in_a_field_does_not_break_the_export(demo):
    uid = athlete_data(demo, "W01").athlete.uid
    demo.act(uid, [Edit("athlete.code", "W01\ud83d"), Add("note", {"text": "a\ud800b"})], HAND)
    "".join(export(demo, "W01")).encode("utf-8")


def test_a_setting_leads_to_no_ball_of_another_athlete(demo):
    uid, ball = athlete_data(demo, "W01").athlete.uid, athlete_data(demo, "W02").own_ball.uid
    demo.act(uid, Edit("profile.throw_ball", ball), HAND)
    assert athlete_data(demo, "W01").settings["profile.throw_ball"] != ball


def test_readings_with_a_ball_of_the_team_that_weighs_the_same_are_speeds_with_the_own_ball(demo):
    uid = athlete_data(demo, "W01").athlete.uid
    demo.act("team", Add("ball", {"name": "game", "mass_kg": "145", "diameter_m": "73"}, {}, "g4meb4ll01"), HAND)
    demo.act(uid, Add("reading", {"speed_m_s": "35", "day": "2026-01-13"}, {"ball": "g4meb4ll01"}), HAND)
    (mine,) = [one for one in athlete_lines(demo, athlete_data(demo, "W01").readings[0].day) if one.code == "W01"]
    assert mine.own_speeds[0].readings == 4
    assert mine.own_speeds[0].mean_m_s == pytest.approx((33.0 * 3 + 35.0) / 4, abs=1e-9)
