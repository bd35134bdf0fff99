"""What a forged file or request must not come to: another athlete's rows, signed rows, values beyond their fields."""

import contextlib
import json

import pytest

from app.records.acts import REFUSED, Add, Edit, Hand, Put
from app.records.demo import passing_store
from app.records.document import ExchangeError, read_document
from app.records.incoming import take_in
from app.records.lines import athlete_lines
from app.records.looking import look_through
from app.records.outgoing import export
from app.records.reads import athlete_data
from app.records.steps import StepError
from model.checks import InputError

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
        {"limits": [{"uid": "a1b2c3d4e5", "key": "zork", "amount": 0.8}]},
        {"notes": [{"uid": "n0ten0ten0te", "day": "2026-03-01"}] * 2},
        {"settings": [{"uid": f"s3ttings3tt{one}", "key": "log.level_nm", "value": 50.0} for one in "ab"]},
        {"limits": [{"uid": f"l1mitl1mitl{one}", "key": "area", "amount": 0.8} for one in "ab"]},
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
    assert mine.own_speeds[0].throws == 4
    assert mine.own_speeds[0].mean_m_s == pytest.approx((33.0 * 3 + 35.0) / 4, abs=1e-9)


def test_a_row_that_stands_twice_in_a_file_is_named(demo):
    one = {"uid": "n0ten0ten0te", "day": "2026-03-01"}
    with pytest.raises(ExchangeError, match=r"the uid “n0ten0ten0te \(note\)” stands in it twice"):
        bring(demo, notes=[one, one])


@pytest.mark.parametrize(("typed", "kept"), [("33,10", {"speed_m_s": "33,10"}), ("44", {}), ("fast", {})])
def test_a_typed_text_that_says_another_number_than_the_value_does_not_come_in(demo, typed, kept):
    bring(
        demo,
        readings=[{"uid": "r1r1r1r1r1", "day": "2026-03-01", "speed_m_s": 33.1, "typed": {"speed_m_s": typed}}],
        settings=[{"uid": "s1s1s1s1s1", "key": "log.level_nm", "value": 33.1, "typed": {"value": typed}}],
    )
    data = athlete_data(demo, "F1")
    assert data.readings[0].typed == kept
    assert list(data.setting_rows["log.level_nm"].typed.values()) == list(kept.values())


def test_an_undo_puts_no_typed_text_back_that_says_another_number(demo):
    lied = {"value": 33.0, "typed": "44"}
    told = line(table="reading", kind="set", row="r1r1r1r1r1", field="speed_m_s", before=lied, after=30.0)
    uid = bring(demo, readings=[{"uid": "r1r1r1r1r1", "day": "2026-03-01", "speed_m_s": 30.0}], history=[told])
    demo.step(uid, HAND)
    (row,) = athlete_data(demo, "F1").readings
    assert (row.speed_m_s, row.typed) == (33.0, {})


@pytest.mark.parametrize("name", ["reference", "headline"])
def test_a_comparison_leads_to_none_but_its_own_throws_so_that_it_can_be_taken_in_again(demo, name):
    data = athlete_data(demo, "W01")
    (row,) = data.comparisons
    before, other = getattr(row, name), athlete_data(demo, "W02").throws[0].uid
    for uid in (other, "no uid at all"):
        acted = demo.act(data.athlete.uid, Edit(f"comparison.{name}", uid, row.uid), HAND)
        assert (acted.done, acted.outcomes[0].message) == (
            False,
            f"{'Reference throw' if name == 'reference' else 'Throw of the first sentence'}: “{uid}” given; "
            "accepted: a throw of this comparison.",
        )
        made = demo.act(data.athlete.uid, Add("comparison", values={name: uid}), HAND)
        assert not made.done
    (row,) = athlete_data(demo, "W01").comparisons
    assert getattr(row, name) == before
    throw = data.throws[1].uid
    assert demo.act(data.athlete.uid, Edit(f"comparison.{name}", throw, row.uid), HAND).done
    read_document("".join(export(demo, "W01")).encode())


def test_a_comparison_may_be_added_before_the_throws_that_it_leads_to(demo):
    uid = athlete_data(demo, "W01").athlete.uid
    acts = [
        Add("comparison", values={"reference": "thr0wthr0wthr0w"}, uid="c0mparec0mpare"),
        Add("throw", {"mass_kg": "145"}, {"comparison": "c0mparec0mpare"}, "thr0wthr0wthr0w"),
    ]
    assert demo.act(uid, acts, HAND).done


def test_a_limit_has_one_of_the_known_keys(demo):
    uid = athlete_data(demo, "W01").athlete.uid
    with pytest.raises(InputError, match="Limit: 'zork' given"):
        demo.act(uid, Add("limits", values={"key": "zork"}), HAND)
    demo.act(uid, Edit("limits.amount", "80", "area"), HAND)
    assert demo.act(uid, Edit("limits.key", "zork", "area"), HAND).outcomes[0].state == REFUSED
    assert list(athlete_data(demo, "W01").limits) == ["area"]


@pytest.mark.parametrize("act", [Edit("stop_sign.sign", "swelling", "x"), Put("stop_sign", "cleared_by", "AB", "x")])
def test_a_stop_sign_is_no_field_and_the_message_says_where_it_is_signed(demo, act):
    with pytest.raises(InputError, match="a stop sign is entered, cleared and withdrawn on Build up"):
        demo.act(athlete_data(demo, "W01").athlete.uid, act, HAND)
