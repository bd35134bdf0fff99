"""Which readings count."""

from datetime import date, timedelta

import pytest

from app.bind.visit import visit_of
from app.records.acts import Add, Edit, Hand
from app.show.counted import readings_since
from app.show.from_records import case_of
from model.day_speeds import SEASON_DAYS
from tests.app.bind.conftest import app as app
from tests.app.bind.conftest import visit as visit

ONE = Hand("one")


def data():
    return visit_of("/athlete", "?athlete=W01").data


def counted(today):
    return len(case_of(data(), today).found.used)


def read(visit, day, **more):
    values = {"ball": visit.data.own_ball.uid, "day": day, "speed_m_s": 33.0} | more
    visit.store.act(visit.owner, [Add("reading", values=values)], ONE)


def test_where_no_reading_lies_in_the_season_all_count(visit):
    assert readings_since(visit.data, visit.today) is None
    assert counted(visit.today) == len(visit.data.readings) == 15


def test_where_one_lies_in_the_season_older_ones_do_not_count(visit):
    read(visit, visit.today)
    assert readings_since(data(), visit.today) == visit.today - timedelta(SEASON_DAYS)
    assert counted(visit.today) == 1


def test_a_throw_over_a_distance_makes_no_season(visit):
    read(visit, visit.today, distance_m=40.0)
    assert readings_since(data(), visit.today) is None


@pytest.mark.parametrize(("since", "left"), [("2026-02-01", 9), ("1990-01-01", 15)])
def test_a_chosen_day_counts_whatever_lies_in_the_season(visit, since, left):
    visit.store.act(visit.owner, Edit("profile.since", since), ONE)
    assert readings_since(data(), visit.today) == date.fromisoformat(since)
    assert counted(visit.today) == left
