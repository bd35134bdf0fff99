"""What the page's buttons do to the records; whose readings are whose."""

from datetime import date, timedelta

import pytest

from app.bind import ids
from app.bind.edit import dom_id
from app.bind.visit import visit_of
from app.pages.athlete import acts, callbacks
from app.pages.athlete.page import layout
from app.pages.athlete.paste import Pasted, PastedReading, Place, pasted
from app.pages.athlete.putting import acts_of, dropped, masses_of
from app.records.acts import TEAM, Add, Edit, Hand
from app.records.fields import EARLIEST_DAY
from app.show.from_records import case_of
from app.units.systems import METRIC

ONE = Hand("one")


def again(code: str = "W01"):
    return visit_of("/athlete", f"?athlete={code}")


def press(visit, do, row="", value=1):
    doing = acts.DOERS[do](visit, row, value)
    visit.store.act(doing.owner or visit.owner, list(doing.acts), ONE)
    return doing


def test_new_measures_start_with_the_old_ones_and_the_age_goes_on(visit):
    old = visit.data.measures[-1]
    assert press(visit, acts.NEW_MEASURES).said == "The measures of today are already there: change them."
    assert len(again().data.measures) == 1
    earlier = visit.today - timedelta(days=366)
    visit.store.act(visit.owner, Edit("measures.day", earlier.isoformat(), old.uid), ONE)
    doing = press(again(), acts.NEW_MEASURES)
    new = again().data.measures[-1]
    assert (new.day, new.stature_m, new.body_mass_kg) == (visit.today, old.stature_m, old.body_mass_kg)
    assert new.age_years == pytest.approx(old.age_years + 1.0)
    assert doing.focus == dom_id(ids.field_id(visit.owner, "measures.age_years", new.uid, "metric"))


def test_first_measures_own_ball_and_reference_of_a_new_athlete(visit):
    visit.store.new_athlete("X1", ONE)
    new = again("X1")
    assert "measures" in str(layout(new))
    press(new, acts.NEW_MEASURES)
    press(new, acts.OWN_BALL)
    press(again("X1"), acts.NEW_REFERENCE)
    data = again("X1").data
    assert data.measures[-1].day == visit.today
    assert data.own_ball.mass_kg is None
    assert (data.reference.ball_id, data.reference.day) == (data.own_ball.id, visit.today)


def test_the_own_ball_counts_also_before_there_is_a_speed_with_it(visit):
    visit.store.new_athlete("X1", ONE)
    press(again("X1"), acts.OWN_BALL)
    visit.store.act(again("X1").owner, Edit("ball.mass_kg", "150", again("X1").data.own_ball.uid), ONE)
    case = case_of(again("X1").data, visit.today)
    assert case.own_ball.mass_kg == pytest.approx(0.150)
    assert case.reference.speed_m_s is None


def test_a_new_athlete_has_no_readings_of_anybody_else(visit):
    assert visit.data.readings
    visit.store.new_athlete("X1", ONE)
    assert again("X1").data.readings == ()
    visit.store.act(again("X1").owner, [Add("reading", {"speed_m_s": "31"}, {"ball": visit.team.balls[0].uid})], ONE)
    assert len(again("X1").data.readings) == 1
    assert len(again().data.readings) == len(visit.data.readings)


def test_a_ball_is_added_to_the_teams_and_its_field_gets_the_focus(visit):
    doing = press(visit, acts.ADD_BALL)
    (new,) = [ball for ball in again().team.balls if ball.mass_kg is None]
    assert doing.focus == acts.mass_cell(new.uid)
    assert doing.focus in str(layout(again()))
    press(again(), acts.REMOVE_BALL, value=new.uid)
    assert new.uid not in [ball.uid for ball in again().team.balls]


def test_cleared_readings_come_back_with_one_step(visit):
    before = [one.uid for one in visit.data.readings]
    press(visit, acts.CLEAR)
    assert again().data.readings == ()
    assert press(again(), acts.CLEAR).said == "There are no readings to clear."
    visit.store.step(visit.owner, ONE, True)
    assert sorted(one.uid for one in again().data.readings) == sorted(before)


def test_which_readings_count_can_be_all_or_a_season(visit):
    press(visit, acts.ALL_READINGS)
    assert again().data.settings["profile.since"] == EARLIEST_DAY
    press(visit, acts.A_SEASON)
    assert again().data.settings["profile.since"] is None


def test_a_pasted_table_is_one_act_and_its_new_ball_is_the_teams(visit, here, monkeypatch):
    found = pasted("360\t26.1\t26.3\n230\t30.4\tmisread", masses_of(visit.data), "", None, METRIC)
    before, balls = len(visit.data.readings), len(visit.team.balls)
    said = callbacks.put(visit, found, here, {visit.owner: visit.data.version, TEAM: visit.team.version})
    assert said.startswith("Put in: 4 readings. 1 new in the team’s balls. Reading: “misread” given;")
    now = again()
    assert len(now.data.readings) == before + 4
    assert [ball.mass_kg for ball in now.team.balls][balls:] == [pytest.approx(0.230)]
    visit.store.step(visit.owner, ONE, True)
    assert len(again().data.readings) == before


def test_a_block_in_the_grid_changes_what_stands_there_and_adds_the_rest(visit):
    own = visit.data.own_ball.uid
    rows = [one.uid for one in visit.data.readings if one.ball_id == visit.data.own_ball.id]
    found = pasted("31.1\n31.2", masses_of(visit.data), "", Place((own,), ((rows[-1], ""),)), METRIC)
    assert len(found.readings) == 2
    _, todo = acts_of(found.readings, date(2026, 2, 3))
    new = Add("reading", {"speed_m_s": "31.2", "day": "2026-02-03"}, {"ball": own})
    assert todo == [Edit("reading.speed_m_s", "31.1", rows[-1]), new]


def test_days_and_efforts_of_a_file_are_kept(visit, here):
    one = PastedReading("", "360", "24.0", "2026-02-01", "50")
    callbacks.put(visit, Pasted((one,), "", METRIC), here, {})
    (made,) = [row for row in again().data.readings if row.day == date(2026, 2, 1)]
    assert (made.speed_m_s, made.asked_effort) == (24.0, 0.5)


@pytest.mark.parametrize("sent", [None, "", "{", "7", '{"text": 3}', '{"rows": []}'])
def test_what_is_no_pasted_table_is_none(sent):
    assert dropped(sent) == ("", None)


def test_the_place_of_a_pasted_table_is_read_with_distrust():
    text, place = dropped('{"text": "1", "rows": [{"ball": "b", "cells": ["r", 7]}, 3, {"ball": 1, "cells": "x"}]}')
    assert text == "1"
    assert place == Place(("b", ""), (("r", ""), ()))


def test_pasted_numbers_stand_with_a_point_as_all_others_do_and_keep_their_places():
    found = [PastedReading("b", "", "33,10", "2026-03-01"), PastedReading("b", "", "30,5", row="r")]
    _, (new, old) = acts_of(found)
    assert new.texts["speed_m_s"] == "33.10"
    assert old.text == "30.5"
