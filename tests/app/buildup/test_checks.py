"""What is typed into the form: read in its field, refused there, and an empty one is the aim's."""

from datetime import date

import pytest

from app.buildup.aims import AIMS, DEFAULTS, aim_named
from app.buildup.checks import FIELDS, check_form, default_text
from app.buildup.form import PlanForm
from app.systems import CUSTOMARY
from model.build_up import METRICS, RISES
from tests.app.buildup.conftest import TODAY


def test_an_empty_form_is_the_aims_own_values():
    found = check_form(PlanForm(), TODAY)
    assert found.problems == {}
    assert found.limits.rises == pytest.approx(RISES)
    assert found.limits.caps == {}
    assert (found.steps, found.lead, found.weekdays) == (None, "rise_rate", frozenset({0, 2, 4}))
    assert (found.first_day, found.target_day) == (TODAY, None)
    assert found.values["start_percent"] == pytest.approx(0.7)


@pytest.mark.parametrize("aim", AIMS)
def test_every_aim_has_values_that_its_own_fields_accept(aim):
    typed = {name: aim_named(aim).value(name) for name in FIELDS}
    by_hand, empty = check_form(PlanForm(aim=aim, **typed), TODAY), check_form(PlanForm(aim=aim), TODAY)
    assert by_hand.problems == empty.problems == {}
    assert by_hand.values == pytest.approx(empty.values)


def test_what_is_typed_takes_the_place_of_the_aims_value():
    found = check_form(PlanForm(aim="after_injury", start_percent="62,5", rise_peak="7", repeats="4"), TODAY)
    assert found.values["start_percent"] == pytest.approx(0.625)
    assert found.limits.rises["peak"] == pytest.approx(0.07)
    assert found.values["repeats"] == 4.0


def test_a_cap_is_read_in_the_unit_it_was_typed_in():
    found = check_form(PlanForm(cap_speed="70 mph", cap_loaded_s="150", cap_peak="60"), TODAY)
    assert found.limits.caps["speed"] == pytest.approx(70 * 0.44704)  # one mile is 1609.344 m by definition
    assert found.limits.caps["loaded_s"] == pytest.approx(0.150)
    assert found.limits.caps["peak"] == pytest.approx(60.0)


@pytest.mark.parametrize("name", [*FIELDS, "first_day", "target_day"])
@pytest.mark.parametrize("bad", ["abc", "-3", "NaN", "1e400", "1e9", "9" * 80])
def test_what_is_no_accepted_value_is_told_at_its_field_by_name_and_range(name, bad):
    problem = check_form(PlanForm(**{name: bad}), TODAY).problems[name]
    assert "given; accepted:" in problem


@pytest.mark.parametrize("name", ["steps", "repeats", "easier_every", "first_throws", "least_throws", "most_throws"])
def test_a_count_is_whole(name):
    assert "a whole number" in check_form(PlanForm(**{name: "2.5"}), TODAY).problems[name]


def test_a_target_day_before_the_first_is_told():
    found = check_form(PlanForm(first_day="2026-04-01", target_day="2026-03-30"), TODAY)
    assert found.problems["target_day"].endswith("accepted: 2026-04-01 or later.")
    assert found.target_day is None


@pytest.mark.parametrize("day", ["2026-02-30", "1.4.2026", "2031-01-01", "20260401"])
def test_a_day_that_is_none_or_far_away_is_told(day):
    assert "year-month-day" in check_form(PlanForm(first_day=day), TODAY).problems["first_day"]


def test_least_above_most_is_told_at_the_one_that_was_typed():
    assert "most_throws" in check_form(PlanForm(least_throws="20", most_throws="10"), TODAY).problems
    assert "least_throws" in check_form(PlanForm(least_throws="80"), TODAY).problems
    assert "most_nms" in check_form(PlanForm(first_nms="100", most_nms="50"), TODAY).problems


def test_one_week_is_no_row_of_easier_ones_and_nought_is_none_at_all():
    assert "easier_every" in check_form(PlanForm(easier_every="1"), TODAY).problems
    assert check_form(PlanForm(easier_every="0"), TODAY).calendar.easier_every is None


def test_the_first_budget_is_so_many_throws_of_the_first_step_unless_an_area_is_typed():
    assert check_form(PlanForm(first_throws="20"), TODAY).budget(4.0).first_nms == pytest.approx(80.0)
    assert check_form(PlanForm(first_nms="90"), TODAY).budget(4.0).first_nms == pytest.approx(90.0)


def test_defaults_are_shown_in_the_readers_units_and_say_what_they_rest_on():
    assert default_text("start_percent", "after_injury") == "50"
    assert default_text("steps", "after_off", CUSTOMARY) == ""
    assert {f"rise_{key}" for key in METRICS} <= set(DEFAULTS)


def test_today_is_the_first_day_unless_one_is_typed():
    assert check_form(PlanForm(first_day="2026-03-05"), TODAY).first_day == date(2026, 3, 5)
