"""What is asked for before a plan: the values of the settings, those of the aim for empty ones, and what is missing."""

from datetime import date

import pytest

from app.pages.buildup.aims import AIMS, DEFAULTS, Care, aim_named
from app.pages.buildup.parts import default_text
from app.pages.buildup.wanted import NAMES, Wanted, spec
from app.records.plan_fields import PLAN_NUMBERS
from app.units.systems import CUSTOMARY
from model.build_up import METRICS, RISES
from tests.app.pages.buildup.conftest import ASKED, TODAY

FREE = Care("fast_block", False, False)
OFF = Care("after_off", False, False)
INJURED = Care("after_injury", True, False)


def wanted(care=FREE, limited=False, **texts) -> Wanted:
    return Wanted({name: spec(name).parse(text).value for name, text in texts.items()}, care, TODAY, limited)


def test_an_empty_form_is_the_aims_own_values():
    found = wanted()
    assert found.missing == ()
    assert found.limits.rises == pytest.approx(RISES)
    assert found.limits.caps == {}
    assert (found["steps"], found.lead, found.weekdays) == (None, "speed", frozenset({1, 4}))
    assert (found.calendar.first_day, found.calendar.target_day) == (TODAY, None)
    assert found["start_percent"] == pytest.approx(0.85)


def test_no_default_adds_up_to_a_widely_printed_programme():
    for aim in AIMS:
        care = Care(aim, False, False)
        together = (care.value("first_throws"), care.value("days"), care.value("repeats"))
        assert together[0] != 25
        assert together[1] not in ("0 2 4", "1 3 5")
        assert together != (25, "0 2 4", 2)


@pytest.mark.parametrize("care", [OFF, INJURED, Care("fast_block", True, False)])
def test_after_time_off_or_an_injury_throws_days_and_sessions_are_asked_and_have_no_default(care):
    found = wanted(care)
    assert [found[name] for name in ("repeats", "first_throws", "weeks_off", "throws_week")] == [None] * 4
    assert found.weekdays == frozenset()
    assert len(found.missing) == 5 + care.injury
    filled = wanted(care, **ASKED)
    assert filled.missing == ()
    assert (filled.asked.weeks_off, filled.asked.throws_a_week, filled.asked.cleared.by) == (8, 90, "PT")
    assert wanted(care, **ASKED | {"first_throws": "", "first_nms": "80"}).missing == ()


def test_who_cleared_the_athlete_is_asked_with_initials_and_role():
    for lacking in ("cleared_by", "cleared_role"):
        assert "Who cleared the athlete" in wanted(INJURED, **ASKED | {lacking: ""}).missing[0]


def test_how_long_the_limits_from_start_hold_is_asked_where_there_are_any():
    for fields, lacking in (
        ({}, 1),
        ({"holds": "steps"}, 1),
        ({"holds": "weeks", "hold_count": "4"}, 0),
        ({"holds": "cleared"}, 0),
    ):
        assert len(wanted(limited=True, **fields).missing) == lacking
    assert "52 weeks" in wanted(limited=True, holds="weeks", hold_count="60").missing[0]


@pytest.mark.parametrize("aim", AIMS)
def test_every_aim_has_values_that_its_own_fields_accept(aim):
    for one in PLAN_NUMBERS:
        assert one.check(aim_named(aim).value(one.name)) == aim_named(aim).value(one.name)


def test_what_is_typed_takes_the_place_of_the_aims_value():
    found = wanted(INJURED, start_percent="62,5", rise_peak="7", repeats="4")
    assert found["start_percent"] == pytest.approx(0.625)
    assert found.limits.rises["peak"] == pytest.approx(0.07)
    assert found["repeats"] == 4


def test_a_cap_is_read_in_the_unit_it_was_typed_in():
    found = wanted(cap_speed="70 mph", cap_loaded_s="150", cap_peak="60")
    assert found.limits.caps["speed"] == pytest.approx(70 * 0.44704)  # one mile is 1609.344 m by definition
    assert found.limits.caps["loaded_s"] == pytest.approx(0.150)
    assert found.limits.caps["peak"] == pytest.approx(60.0)


@pytest.mark.parametrize("name", [*(one.name for one in PLAN_NUMBERS), "first_day", "target_day"])
@pytest.mark.parametrize("bad", ["abc", "-3", "NaN", "1e400", "1e9", "9" * 80])
def test_what_is_no_accepted_value_is_refused_at_its_field_and_stands_in_the_way_of_a_plan(desk, name, bad):
    desk.type(**{name: bad})
    assert spec(name).label in desk.found.wanted.refused
    assert desk.found.wanted.given[name] is None
    assert desk.found.wanted.missing[0].startswith("Missing or to be mended above: ")


def test_a_target_day_before_the_first_is_told():
    found = wanted(first_day="2026-04-01", target_day="2026-03-30")
    assert found.wrong == ("Target day: “2026-03-30” given; accepted: 2026-04-01 or later.",)


@pytest.mark.parametrize("day", ["2031-01-01", "1999-04-01"])
def test_a_day_that_is_far_away_is_told(day):
    assert "year-month-day from 2025-03-01 to" in wanted(first_day=day).wrong[0]


def test_least_above_most_is_told_at_the_one_that_was_typed():
    assert wanted(least_throws="20", most_throws="10").wrong[0].startswith("Throws at most: “10” given")
    assert wanted(least_throws="80").wrong[0].startswith("Throws at least: “80” given")
    assert wanted(first_nms="100", most_nms="50").wrong[0].startswith("Budget at most: “50” given")


def test_one_week_is_no_row_of_easier_ones_and_nought_is_none_at_all():
    assert "0 for none, or 2 to 26 weeks" in wanted(easier_every="1").wrong[0]
    assert wanted(easier_every="0").calendar.easier_every is None


def test_the_first_budget_is_so_many_throws_of_the_first_step_unless_an_area_is_typed():
    assert wanted(first_throws="20").budget(4.0).first_nms == pytest.approx(80.0)
    assert wanted(first_nms="90").budget(4.0).first_nms == pytest.approx(90.0)


def test_defaults_are_shown_in_the_readers_units_and_say_what_they_rest_on():
    assert default_text("start_percent", INJURED) == "50"
    assert default_text("steps", OFF, CUSTOMARY) == ""
    assert {f"rise_{key}" for key in METRICS} <= set(DEFAULTS) <= set(NAMES)


def test_today_is_the_first_day_unless_one_is_typed():
    assert wanted(first_day="2026-03-05").calendar.first_day == date(2026, 3, 5)
