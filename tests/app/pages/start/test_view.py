"""The parts that change: what is said first, the sheet, whose arm, and what is missing."""

import pytest

from app.demo import load_demo
from app.pages.start import ids
from app.pages.start.address import UNKNOWN
from app.pages.start.answers import start_of
from app.pages.start.form import ABSOLUTE, StartForm
from app.pages.start.page import layout
from app.pages.start.table import FIRST
from app.pages.start.view import means_of, nobody
from app.show.throw_form import empty_form
from app.show.whose import UNREAD, Whose
from tests.app.pages.start.conftest import NONE, TODAY


def test_a_field_tells_its_limit_counted_the_other_way(start):
    answer = start(shoulder_peak="50", shoulder_peak_in=ABSOLUTE)
    assert means_of(answer, "elbow_peak").startswith("= 4")
    assert means_of(answer, "elbow_peak").endswith(" N·m")
    said = means_of(answer, "shoulder_peak")
    assert "% of the reference (measured, 2026-01-13)" in said
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
def test_young_and_female_throwers_are_told_whose_path_it_is_and_the_young_before_any_number(
    start, view, text, arm, code, young
):
    made = view(start(code, aim="least_area"), compared=arm(code).compared)
    assert ("The path comes from adult men" in text([made.growing, made.sentence])) is (code != "W01")
    assert bool(made.growing) is young
    for part in (made.growing, made.cautions):
        assert ("still growing" in text(part)) is young
    assert "Pain, numbness" in text(made.cautions)


def test_the_growth_caution_stands_before_the_form_and_the_answer_on_the_page():
    places = [getattr(part, "id", None) for part in layout()._traverse()]
    assert places.index(ids.START_GROWING) < places.index(ids.START_ATHLETE) < places.index(ids.START_SENTENCE)


def test_the_headlines_button_is_there_only_where_a_ball_stands_first(start, view):
    def buttons(answer):
        return [part.id for part in view(answer).sentence if getattr(part, "id", None)]

    assert buttons(start(aim="own")) == [{"type": ids.START_PLAN, "ball": FIRST}]
    assert buttons(start()) == []
    assert buttons(start(aim="own", **NONE, speed="1.2")) == []


def test_the_reason_for_the_own_ball_is_told_before_an_aim_too_without_a_ball(start, view, text):
    said = text(view(start("W06")).sentence)
    assert "The own ball stands first whatever is chosen, because the reference is from before an injury" in said


def test_a_code_that_nobody_has_is_told_with_who_is_there_and_without_any_number(view, text, arm):
    empty = Whose(empty_form(), arm(read=False).profile)
    unknown = nobody(f"{UNKNOWN}<X9>", "A7", load_demo())
    made = view(start_of(StartForm(), empty, TODAY), compared=empty_form(), unknown=unknown)
    said = text(made.empty)
    assert said.startswith("Nobody here has the code <X9>.")
    assert "A7, the athlete of Compare" in said
    assert all(f"W0{i}, invented" in said for i in range(1, 7))
    assert (made.body_hidden, made.who, made.reference, made.sentence) == (True, "", [], [])
    assert nobody("W04", "A7", load_demo()) == nobody("compare", "", load_demo()) == []


def test_the_example_says_that_it_is_one_until_it_is_changed(start, view):
    assert "an example, to be changed" in view(start()).example
    assert "example" not in view(start(elbow_peak="81")).example


def test_the_sheet_lists_limits_aim_and_certainty(start, view, text):
    said = text(view(start(aim="nearest_peak")).limits)
    for part in (
        "Elbow, peak at most80 %",
        "Not limitedarea, least time loaded, most time loaded, release speed",
        "100 % ismeasured, 2026-01-13",
        "What matters mostnearest to a given peak",
        "Certainty90 %",
        "Wanted peak75 %",
        "Own ball145 g, up to ",
    ):
        assert part in said


def test_the_sheet_has_the_own_ball_also_where_it_fits_at_no_speed(start, view, text):
    said = text(view(start(**NONE, speed="1.2")).limits)
    assert "Own ball145 g, fits at no speed" in said
    assert "What matters mostnot chosen" in said


def test_what_could_not_be_read_is_told(start, view, text):
    assert UNREAD in text(view(start(), unread=True).notes)
    assert UNREAD in text(view(start(elbow_peak="x"), unread=True).empty)
