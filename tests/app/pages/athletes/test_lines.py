"""What the line of an athlete says."""

from datetime import date, timedelta

import pytest

from app.pages.athletes.lines import ago, line_of, points_of, trend_words
from app.pages.athletes.table import table_html
from app.records.lines import AthleteLine
from app.units.systems import CUSTOMARY, METRIC
from model.day_speeds import DaySpeed
from model.interval import Interval
from model.speed_trend import Trend

TODAY = date(2026, 3, 2)


def line(**changed) -> AthleteLine:
    """A line of the records."""
    usual = {"uid": "u", "code": "B7", "invented": False, "archived_at": None, "opened_at": None}
    return AthleteLine(
        **(usual | {"last_reading": None, "own_speeds": (), "plans": (), "signs": (), "session": None} | changed)
    )


def day(back: int, mean: float) -> DaySpeed:
    return DaySpeed(TODAY - timedelta(back), 4, mean, mean + 1.0)


@pytest.mark.parametrize(
    ("back", "words"),
    [
        (0, "today"),
        (1, "yesterday"),
        (8, "8 days ago"),
        (28, "4 weeks ago"),
        (304, "10 months ago"),
        (800, "2 years ago"),
    ],
)
def test_how_long_ago_a_day_was(back, words):
    assert ago(TODAY - timedelta(back), TODAY) == words


def test_the_speed_is_the_mean_of_the_last_day_in_the_readers_units():
    known = line(last_reading=TODAY, own_speeds=(day(30, 33.0), day(3, 34.04)))
    made = line_of(known, TODAY, METRIC)
    assert (made.speed, made.speed_day) == ("34.0 m/s", "2026-02-27")
    assert line_of(known, TODAY, CUSTOMARY).speed == "76.1 mph"  # 34.04 / 0.44704


def test_the_day_of_the_speed_goes_without_saying_where_it_is_that_of_the_last_reading():
    made = line_of(line(last_reading=TODAY, own_speeds=(day(0, 34.0),)), TODAY, METRIC)
    assert (made.speed_day, made.trend) == ("", "too few days to say")


def test_only_the_season_that_ends_with_the_last_day_counts_for_the_trend():
    old = tuple(day(back, 20.0) for back in (700, 690, 680))
    made = line_of(line(own_speeds=(*old, day(3, 34.0))), TODAY, METRIC)
    assert made.trend == "too few days to say"
    assert made.points == ()


def test_who_has_no_reading_has_no_speed():
    made = line_of(line(), TODAY, METRIC)
    assert (made.last, made.ago, made.speed_m_s, made.speed, made.trend) == (None, "", None, "", "")


def trend(estimate: float, low: float, high: float) -> Trend:
    return Trend(9, 30, "", Interval(estimate, low, high, 0.9), 0.9)


def test_a_trend_is_told_with_how_sure_it_is():
    assert trend_words(trend(0.8, 0.3, 1.3), METRIC) == "rose, 0.8 m/s in 30 days (90 %: 0.3 to 1.3)"
    assert trend_words(trend(-0.8, -1.3, -0.3), METRIC) == "fell, 0.8 m/s in 30 days (90 %: 0.3 to 1.3)"
    assert trend_words(trend(0.2, -0.4, 0.8), METRIC) == "not clear, 0.2 m/s in 30 days (90 %: −0.4 to 0.8)"


def test_a_small_trend_is_told_with_a_decimal_more():
    assert trend_words(trend(0.04, 0.01, 0.07), METRIC) == "rose, 0.04 m/s in 30 days (90 %: 0.01 to 0.07)"


def test_stop_signs_are_said_in_words():
    made = line_of(line(signs=("swelling",), plans=(("p", "Spring", date(2026, 3, 2)), ("q", "", None))), TODAY, METRIC)
    assert made.signs == ("swelling",)
    assert made.plans == ("Spring", "no name")


def test_a_small_line_has_forty_points_at_most_and_ends_with_the_last_day():
    season = [DaySpeed(TODAY + timedelta(at), 1, 30.0 + at / 100, 31.0) for at in range(170)]
    made = points_of(season)
    assert len(made) <= 40
    assert made[-1] == (169, 31.69)


def test_the_next_session_of_a_plan_stands_with_its_day_but_not_under_a_stop_sign():
    plans = (("p", "Spring", date(2026, 3, 5)), ("q", "Second", date(2026, 3, 3)))
    made = line_of(line(plans=plans), TODAY, METRIC)
    assert made.plans == ("Thu 2026-03-05: Spring", "Tue 2026-03-03: Second")
    assert made.next == date(2026, 3, 3)
    assert line_of(line(signs=("swelling",), plans=plans), TODAY, METRIC).next is None


def test_pain_in_the_last_session_of_a_plan_is_told_with_its_day():
    pain = {"site": "shoulder", "before": 2, "throwing": None, "hour_after": None, "next_morning": None}
    noted = line(session=(date(2026, 2, 26), {"notes": {"pain": pain}}))
    said = "Pain at the shoulder: 2 of 10 before the first throw (Thu 2026-02-26)"
    assert line_of(noted, TODAY, METRIC).pain == said
    assert said in table_html([line_of(noted, TODAY, METRIC)])
    for body in (
        {},
        {"notes": {"pain": pain | {"before": 0}}},
        {"notes": "x"},
        {"notes": {"pain": pain | {"before": "3"}}},
    ):
        assert line_of(line(session=(date(2026, 2, 26), body)), TODAY, METRIC).pain == ""
