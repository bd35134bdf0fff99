"""The parts that change: sentence, tables, sheet and what is missing."""

import re
from dataclasses import replace

import pytest

from app.compare.form import empty_form
from app.start.answers import start_of
from app.start.form import ABSOLUTE, StartForm
from app.start.table import list_table, ranges_table
from app.start.view import means_of
from app.systems import CUSTOMARY
from app.whose import UNREAD, Whose
from tests.app.start.conftest import TODAY


def test_the_list_has_a_column_for_each_throw_and_a_row_for_each_limit(start, text):
    said = text(list_table(start()))
    for part in ("Share of full speed", "Asked effort", "Distance", "Braking after release", "All limits at once"):
        assert part in said
    assert "at most 70 % of measured, 2026-01-13" in said
    assert "per cent of measured, 2026-01-13" in said
    assert said.count("room") == 3 * 4


def test_without_limits_the_list_has_no_rows_about_them(start, text):
    bare = start(elbow_peak="", shoulder_peak="", rise_rate="", braking="")
    assert "Each limit" not in text(list_table(bare))


def test_the_radars_reading_is_shown_where_the_correction_is_on(arm, text):
    found = arm()
    on = Whose(found.compared, replace(found.profile, radar="on"))
    assert "Radar shows" in text(list_table(start_of(StartForm(), on, TODAY)))
    assert "Radar shows" not in text(list_table(start_of(StartForm(), found, TODAY)))


def test_every_ball_is_told_with_its_range_or_with_what_keeps_it_out(start, text):
    said = text(ranges_table(start(most_loaded="140")))
    assert "470 gnone: elbow peak up to 96 %, most time loaded from 100 %" in said
    assert "360 g90.8 to 94.3 %" in said


def test_the_tables_are_in_the_readers_units(start, text):
    answer = start(system=CUSTOMARY)
    said = text(list_table(answer)) + text(ranges_table(answer))
    assert " mph" in said
    assert " ft" in said
    assert not re.search(r"[0-9] (m/s|g|m)\b", said)


def test_a_field_tells_its_limit_counted_the_other_way(start):
    answer = start(shoulder_peak="50", shoulder_peak_in=ABSOLUTE)
    assert means_of(answer, "elbow_peak").startswith("= 4")
    assert means_of(answer, "elbow_peak").endswith(" N·m")
    said = means_of(answer, "shoulder_peak")
    assert "% of measured, 2026-01-13" in said
    assert said.endswith("by laboratory 37.5 N·m to 62.5 N·m (±25 % and more)")
    assert means_of(answer, "most_loaded") == ""


def test_without_an_athlete_the_way_to_the_other_pages_is_shown(view, text, arm):
    answer = start_of(StartForm(), Whose(empty_form(), arm().profile), TODAY)
    made = view(answer, compared=empty_form())
    assert (made.body_hidden, made.empty_hidden) == (True, False)
    said = text(made.empty)
    for part in ("No answer yet.", "Enter it on Athlete", "reference throw on Compare", "invented thrower above"):
        assert part in said


def test_a_missing_day_of_the_injury_and_wrong_fields_are_named(start, view, text):
    assert "the day of the reference" in text(view(start("W06", compare={"date": ""})).empty)
    assert "to be mended above: elbow, peak at most." in text(view(start(elbow_peak="x")).empty)


@pytest.mark.parametrize(("code", "young"), [("W01", False), ("W04", True), ("W05", False)])
def test_young_and_female_throwers_are_told_at_the_number_whose_path_it_is(start, view, text, arm, code, young):
    made = view(start(code), compared=arm(code).compared)
    assert ("The path comes from adult men" in text(made.sentence)) is (code != "W01")
    assert ("24 % of throwers injured" in text(made.sentence)) is young
    assert ("24 % of throwers injured" in text(made.cautions)) is young
    assert "Pain, numbness" in text(made.cautions)


def test_the_example_says_that_it_is_one_until_it_is_changed(start, view):
    assert "an example, to be changed" in view(start()).example
    assert "example" not in view(start(elbow_peak="81")).example


def test_the_sheet_lists_limits_aim_and_certainty(start, view, text):
    said = text(view(start(aim="nearest_peak")).limits)
    for part in (
        "Elbow, peak at most80 % of measured, 2026-01-13",
        "nearest to a wanted peak",
        "Certainty90 %",
        "75 %",
    ):
        assert part in said


def test_what_could_not_be_read_is_told(start, view, text):
    assert UNREAD in text(view(start(), unread=True).notes)
    assert UNREAD in text(view(start(elbow_peak="x"), unread=True).empty)
