"""What is typed into the form: read in its field, refused there, and an empty one is the aim's."""

from datetime import date

import pytest

from app.pages.buildup.aims import AIMS, DEFAULTS, Care, aim_named
from app.pages.buildup.checks import FIELDS, check_form, default_text
from app.pages.buildup.form import PlanForm
from app.units.systems import CUSTOMARY
from model.build_up import METRICS, RISES
from tests.app.pages.buildup.conftest import ASKED, TODAY

FREE = Care("fast_block", False, False)
OFF = Care("after_off", False, False)
INJURED = Care("after_injury", True, False)


def test_an_empty_form_is_the_aims_own_values():
    found = check_form(PlanForm(aim="fast_block"), TODAY, FREE)
    assert (found.problems, found.missing) == ({}, ())
    assert found.limits.rises == pytest.approx(RISES)
    assert found.limits.caps == {}
    assert (found.steps, found.lead, found.weekdays) == (None, "speed", frozenset({1, 4}))
    assert (found.first_day, found.target_day) == (TODAY, None)
    assert found.values["start_percent"] == pytest.approx(0.85)


def test_no_default_adds_up_to_a_widely_printed_programme():
    for aim in AIMS:
        care = Care(aim, False, False)
        together = (care.value("first_throws"), care.value("days"), care.value("repeats"))
        assert together[0] != "25"
        assert together[1] not in ("0 2 4", "1 3 5")
        assert together != ("25", "0 2 4", "2")


@pytest.mark.parametrize("care", [OFF, INJURED, Care("fast_block", True, False)])
def test_after_time_off_or_an_injury_throws_days_and_sessions_are_asked_and_have_no_default(care):
    found = check_form(PlanForm(aim=care.aim), TODAY, care)
    assert not {"repeats", "first_throws", "weeks_off", "throws_week"} & set(found.values)
    assert found.weekdays == frozenset()
    assert len(found.missing) == 5 + care.injury
    asked = check_form(PlanForm(aim=care.aim, **ASKED), TODAY, care)
    assert (asked.problems, asked.missing) == ({}, ())
    assert (asked.asked.weeks_off, asked.asked.throws_a_week, asked.asked.cleared.by) == (8, 90, "PT")
    area = ASKED | {"first_throws": "", "first_nms": "80"}
    assert check_form(PlanForm(aim=care.aim, **area), TODAY, care).missing == ()


def test_who_cleared_the_athlete_is_not_the_athlete():
    form = PlanForm(aim="after_injury", **ASKED | {"cleared_role": "athlete"})
    assert "Who cleared the athlete" in check_form(form, TODAY, INJURED).missing[0]
    assert "cleared_by" in check_form(PlanForm(cleared_by="x" * 9), TODAY, FREE).problems


def test_how_long_the_limits_from_start_hold_is_asked_where_there_are_any():
    for fields, lacking in (
        ({}, 1),
        ({"holds": "steps"}, 1),
        ({"holds": "weeks", "hold_count": "4"}, 0),
        ({"holds": "cleared"}, 0),
    ):
        assert len(check_form(PlanForm(**fields), TODAY, FREE, limited=True).missing) == lacking
    assert "hold_count" in check_form(PlanForm(holds="weeks", hold_count="60"), TODAY, FREE, limited=True).problems


@pytest.mark.parametrize("aim", AIMS)
def test_every_aim_has_values_that_its_own_fields_accept(aim):
    care = Care(aim, False, False)
    typed = {name: aim_named(aim).value(name) for name in FIELDS}
    by_hand, empty = (check_form(PlanForm(aim=aim, **fields), TODAY, care) for fields in (typed, {}))
    assert by_hand.problems == empty.problems == {}
    assert by_hand.values == pytest.approx(empty.values)


def test_what_is_typed_takes_the_place_of_the_aims_value():
    found = check_form(PlanForm(aim="after_injury", start_percent="62,5", rise_peak="7", repeats="4"), TODAY, INJURED)
    assert found.values["start_percent"] == pytest.approx(0.625)
    assert found.limits.rises["peak"] == pytest.approx(0.07)
    assert found.values["repeats"] == 4.0


def test_a_cap_is_read_in_the_unit_it_was_typed_in():
    found = check_form(PlanForm(cap_speed="70 mph", cap_loaded_s="150", cap_peak="60"), TODAY, FREE)
    assert found.limits.caps["speed"] == pytest.approx(70 * 0.44704)  # one mile is 1609.344 m by definition
    assert found.limits.caps["loaded_s"] == pytest.approx(0.150)
    assert found.limits.caps["peak"] == pytest.approx(60.0)


@pytest.mark.parametrize("name", [*FIELDS, "first_day", "target_day"])
@pytest.mark.parametrize("bad", ["abc", "-3", "NaN", "1e400", "1e9", "9" * 80])
def test_what_is_no_accepted_value_is_told_at_its_field_by_name_and_range(name, bad):
    problem = check_form(PlanForm(**{name: bad}), TODAY, FREE).problems[name]
    assert "given; accepted:" in problem


@pytest.mark.parametrize("name", ["steps", "repeats", "easier_every", "first_throws", "least_throws", "most_throws"])
def test_a_count_is_whole(name):
    assert "a whole number" in check_form(PlanForm(**{name: "2.5"}), TODAY, FREE).problems[name]


def test_a_target_day_before_the_first_is_told():
    found = check_form(PlanForm(first_day="2026-04-01", target_day="2026-03-30"), TODAY, FREE)
    assert found.problems["target_day"].endswith("accepted: 2026-04-01 or later.")
    assert found.target_day is None


@pytest.mark.parametrize("day", ["2026-02-30", "1.4.2026", "2031-01-01", "20260401"])
def test_a_day_that_is_none_or_far_away_is_told(day):
    assert "year-month-day" in check_form(PlanForm(first_day=day), TODAY, FREE).problems["first_day"]


def test_least_above_most_is_told_at_the_one_that_was_typed():
    assert "most_throws" in check_form(PlanForm(least_throws="20", most_throws="10"), TODAY, FREE).problems
    assert "least_throws" in check_form(PlanForm(least_throws="80"), TODAY, FREE).problems
    assert "most_nms" in check_form(PlanForm(first_nms="100", most_nms="50"), TODAY, FREE).problems


def test_one_week_is_no_row_of_easier_ones_and_nought_is_none_at_all():
    assert "easier_every" in check_form(PlanForm(easier_every="1"), TODAY, FREE).problems
    assert check_form(PlanForm(easier_every="0"), TODAY, FREE).calendar.easier_every is None


def test_the_first_budget_is_so_many_throws_of_the_first_step_unless_an_area_is_typed():
    assert check_form(PlanForm(first_throws="20"), TODAY, FREE).budget(4.0).first_nms == pytest.approx(80.0)
    assert check_form(PlanForm(first_nms="90"), TODAY, FREE).budget(4.0).first_nms == pytest.approx(90.0)


def test_defaults_are_shown_in_the_readers_units_and_say_what_they_rest_on():
    assert default_text("start_percent", INJURED) == "50"
    assert default_text("steps", OFF, CUSTOMARY) == ""
    assert {f"rise_{key}" for key in METRICS} <= set(DEFAULTS)


def test_today_is_the_first_day_unless_one_is_typed():
    assert check_form(PlanForm(first_day="2026-03-05"), TODAY, FREE).first_day == date(2026, 3, 5)
