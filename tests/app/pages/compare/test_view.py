"""The words around the figure, as the page shows them."""

from dataclasses import replace

from app.pages.compare.view import view_of
from app.show.basis import basis_of
from model.person import Person
from tests.app.typed_forms import empty_form


def view(form, compare_on):
    return view_of(form, compare_on(form))


def test_the_demo_opens_with_a_sentence_for_every_throw_but_the_reference(demo_page, compare_on, text):
    shown = view(demo_page, compare_on)
    assert text(shown.sentence).startswith("275 g at 28.5 m/s against 145 g at 33.0 m/s (measured): peak ")
    others = [text(line) for line in shown.others.children]
    assert [line.split(" against ")[0] for line in others] == ["95 g at 35.2 m/s", "470 g at 23.8 m/s"]
    assert shown.table is not None
    assert shown.warnings is None


def test_the_chosen_throw_has_the_first_sentence(demo_page, compare_on, text):
    shown = view(replace(demo_page, headline="t4"), compare_on)
    assert text(shown.sentence).startswith("470 g at 23.8 m/s against")
    assert [choice["value"] for choice in shown.headline_choices] == ["t2", "t3", "t4"]


def test_for_a_child_the_path_is_named_at_the_number_and_over_the_figure(demo_page, compare_on, text):
    shown = view(replace(demo_page, athlete={**demo_page.athlete, "age_years": "13"}), compare_on)
    assert "The path comes from adult men; this thrower is 13 years old." in text(shown.sentence)
    assert "path from adult men" in text(shown.figure_title)


def test_what_a_throw_lacks_stands_beside_it_and_the_other_throws_stay(demo_page, compare_on):
    first, second, *rest = demo_page.throws
    shown = view(replace(demo_page, throws=(first, replace(second, speed_m_s=""), *rest)), compare_on)
    assert shown.held == {
        "t1": "",
        "t2": "Release speed: nothing given; accepted: 1 to 60 m/s.",
        "t3": "",
        "t4": "",
    }
    assert [choice["value"] for choice in shown.headline_choices] == ["t3", "t4"]


def test_an_empty_form_shows_an_invitation_and_no_message(compare_on, text):
    shown = view(empty_form(), compare_on)
    assert text(shown.sentence).startswith("Enter a thrower’s measures")
    assert shown.table is None
    assert shown.others is None
    assert shown.figure_note == ""


def test_the_level_field_shows_what_it_stands_for_when_left_empty(demo_page, compare_on):
    shown = view(demo_page, compare_on)
    half = compare_on(demo_page).reference.readouts.peak / 2
    assert shown.level_placeholder == f"{half:.1f}"


def test_an_estimated_reference_has_no_date_to_type(demo_page, compare_on):
    assert view(replace(demo_page, kind="estimated"), compare_on).date_off
    assert not view(replace(demo_page, kind="before"), compare_on).date_off


def test_what_is_held_at_its_clock_was_not_measured_and_asks_for_no_kind(demo_page, compare_on):
    held = replace(demo_page, throws=(demo_page.throws[0].holding("clock", "90"), *demo_page.throws[1:]))
    assert view(held, compare_on).kind_off
    assert view(held, compare_on).date_off
    assert not view(demo_page, compare_on).kind_off


def test_the_note_says_that_the_hand_is_empty_torque_is_not_calibrated(demo_page, compare_on):
    assert "varus torque after release is not calibrated" in view(demo_page, compare_on).figure_note
    other = view(replace(demo_page, quantity="abduction"), compare_on).figure_note
    assert "not calibrated" not in other
    assert "Below zero: adduction torque" in other


def test_for_a_growing_thrower_the_caution_comes_with_its_source(text):
    said = text(basis_of(Person("male", 1.6, 48.0, 13.0)))
    assert "24 % of the group with weighted balls" in said
    assert "Reinold MM" in said
    assert "Sports Health 2018" in said
    assert "Reinold" not in text(basis_of(Person("male", 1.88, 90.0, 25.0)))
