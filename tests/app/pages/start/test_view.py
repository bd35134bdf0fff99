"""The parts that change: what is said first, the sheet, and what is missing."""

import pytest

from app.bind.ids import act_id
from app.pages.start import ids
from app.pages.start.limits import ABSOLUTE
from app.pages.start.table import FIRST
from app.pages.start.view import growing_part, means_of
from tests.app.pages.start.conftest import NONE


def test_a_field_tells_its_limit_counted_the_other_way(start):
    answer = start(shoulder_peak="50", shoulder_peak_in=ABSOLUTE)
    assert means_of(answer, "elbow_peak").startswith("= 4")
    assert means_of(answer, "elbow_peak").endswith(" N·m")
    said = means_of(answer, "shoulder_peak")
    assert "% of the reference (full speed by the readings, 2026-01-13)" in said
    assert said.endswith("by laboratory 37.5 N·m to 62.5 N·m (±25 % and more)")
    assert means_of(answer, "most_loaded") == ""


def test_without_an_athlete_the_way_to_the_other_pages_is_shown(start, view, text):
    made = view(start(rows={"measures": {"stature_m": ""}}))
    said = text(made[ids.START_EMPTY])
    for part in ("No answer yet.", "Enter it on Athlete", "Enter the reference throw or radar readings on Athlete"):
        assert part in said


def test_a_missing_day_of_the_injury_and_wrong_fields_are_named(start, view, text):
    assert "the day of the reference" in text(view(start("W06", rows={"reference": {"day": ""}}))[ids.START_EMPTY])
    assert "to be mended above: elbow, peak at most." in text(view(start(elbow_peak="x"))[ids.START_EMPTY])


@pytest.mark.parametrize(("code", "young"), [("W01", False), ("W04", True), ("W05", False)])
def test_young_and_female_throwers_are_told_whose_path_it_is_and_the_young_before_any_number(
    start, view, text, code, young
):
    answer = start(code, aim="least_area")
    made, growing = view(answer), growing_part(answer.case.person)
    assert ("The path comes from adult men" in text([growing, made[ids.START_SENTENCE]])) is (code != "W01")
    assert bool(growing) is young
    assert ("still growing" in text(growing)) is young


def test_two_limits_that_contradict_each_other_are_told_beneath_one_of_them(start):
    answer = start(least_loaded="150", most_loaded="120")
    assert means_of(answer, "least_loaded").startswith("Time loaded at least: “150 %” given; accepted: no more than")
    assert means_of(start(elbow_peak="x"), "elbow_peak") == ""  # the field says it itself


def test_the_headlines_button_is_there_only_where_a_ball_stands_first(start, view):
    def buttons(answer):
        return [part.id for part in view(answer)[ids.START_SENTENCE] if getattr(part, "id", None)]

    assert buttons(start(aim="own")) == [act_id(start().owner, ids.PLAN, FIRST)]
    assert buttons(start()) == []
    assert buttons(start(aim="own", **NONE, speed="1.2")) == []


def test_the_reason_for_the_own_ball_is_told_before_an_aim_too_without_a_ball(start, view, text):
    said = text(view(start("W06"))[ids.START_SENTENCE])
    assert "The own ball stands first whatever is chosen, because the reference is from before an injury" in said


def test_the_example_says_that_it_is_one_until_it_is_changed(start, view):
    assert "an example, to be changed" in view(start())[ids.START_EXAMPLE_NOTE]
    assert "example" not in view(start(elbow_peak="81"))[ids.START_EXAMPLE_NOTE]


def test_the_sheet_lists_limits_aim_and_certainty(start, view, text):
    said = text(view(start(aim="nearest_peak"))[ids.START_LIMITS])
    for part in (
        "Elbow, peak at most80 %",
        "Not limitedarea, least time loaded, most time loaded, release speed",
        "100 % isfull speed by the readings, 2026-01-13",
        "What matters mostnearest to a given peak",
        "Certainty90 %",
        "Wanted peak75 %",
        "Own ball145 g, up to ",
    ):
        assert part in said


def test_the_sheet_has_the_own_ball_also_where_it_fits_at_no_speed(start, view, text):
    said = text(view(start(**NONE, speed="1.2"))[ids.START_LIMITS])
    assert "Own ball145 g, fits at no speed" in said
    assert "What matters mostnot chosen" in said
