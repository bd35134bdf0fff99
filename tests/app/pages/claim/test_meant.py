"""A claim in the reader's units: what is typed is kept, what is said follows, and the answer is the same."""

from dataclasses import replace
from datetime import date

import pytest

from app.demo import load_demo
from app.pages.claim.answers import claim_of
from app.pages.claim.checks import check_claim
from app.pages.claim.form import ClaimForm
from app.pages.claim.meant import meant, read_written, written
from app.pages.claim.parts import field_description, field_label
from app.pages.claim.view import view_of
from app.pages.claim.words import claim_words, throws_words
from app.show.checks import check_athlete
from app.show.kept import form_for
from app.show.rack import rack_of
from app.show.throw_form import demo_form
from app.units.systems import CUSTOMARY, METRIC

FORM = ClaimForm(first_mass_g="275", second_mass_g="145", thrown="typed", first_speed_m_s="28.5", second_speed_m_s="33")


@pytest.fixture(scope="module")
def answers():
    """The same claim in both systems."""
    demo = load_demo()
    compared, profile = demo_form(demo, demo.athlete("W01")), form_for({}, "W01", demo, True)
    return [claim_of(FORM, compared, profile, date(2026, 3, 1), system) for system in (METRIC, CUSTOMARY)]


def test_a_claim_shown_in_other_units_is_still_the_claim():
    page = replace(FORM, first_mass_g="9.7", second_mass_g="5.11", first_speed_m_s="63.8", second_speed_m_s="73.8")
    page = replace(page, first_diameter_mm="2.87", second_diameter_mm="2.87")
    assert meant(page, FORM, CUSTOMARY) == FORM
    assert meant(replace(page, second_mass_g="5"), FORM, CUSTOMARY) == replace(FORM, second_mass_g="5\u00a0oz")


def test_what_the_fields_are_made_from_comes_back_from_the_browser():
    assert read_written(written(FORM, CUSTOMARY)) == (FORM, CUSTOMARY)
    for broken in (None, 4, {"units": None, "form": []}):
        form, system = read_written(broken)
        assert system is METRIC
        assert form.no_balls


def test_words_are_in_the_readers_units_and_the_answer_is_the_same(answers):
    metric, customary = answers
    assert customary.settled == metric.settled
    assert claim_words(customary) == "9.7 oz loads the elbow more than 5.11 oz"
    assert throws_words(customary) == "9.7 oz at 63.8 mph against 5.11 oz at 73.8 mph."
    demo = load_demo()
    view = view_of(customary, check_athlete(demo_form(demo, demo.athlete("W01")).athlete), False)
    words = f"{view.who}{view.sentence}{view.readouts}{view.notes}".replace("N·m/s", "")
    assert not any(unit in words for unit in (" m/s", " g ", " cm", " kg", " mm"))
    assert view.who.endswith("6 ft 0 in · 185.2 lb")


def test_the_rack_is_listed_in_the_readers_units_and_put_in_as_it_was(answers):
    metric, customary = (rack_of(answer.case) for answer in answers)
    assert [ball["value"] for ball in customary] == [ball["value"] for ball in metric]
    assert {"value": "145|73", "label": "5.11 oz, 2.87 in, own ball"} in customary


def test_labels_ranges_and_messages_are_in_the_readers_units():
    assert field_label("first_mass_g", CUSTOMARY) == "Mass, oz"
    assert field_label("same_speed_m_s", CUSTOMARY) == "Speed of both, mph"
    assert field_description("same_speed_m_s", CUSTOMARY) == "2.24 to 134; empty: full speed with the own ball"
    form = replace(FORM, first_mass_g="200\u00a0oz")
    said = check_claim(form, CUSTOMARY).problems["first_mass_g"]
    assert said == "Mass of the first ball: “200” given; accepted: 0.0353 to 105 oz."
