"""The words around the figure, as the page shows them."""

from dataclasses import replace

import pytest

from app.pages.compare.view import view_of
from app.show.basis import basis_of
from app.show.listed_throw import ListedThrow
from model.ball import Ball
from model.person import Person
from tests.app.pages.compare.conftest import THROWN, W01, row_of


@pytest.fixture
def view(compare_on):
    """What is said of throws, W01's of the demo unless others are given."""
    return lambda *throws, first=W01, **asked: view_of(row_of(**asked), compare_on(*throws, first=first, **asked))


def test_the_demo_opens_with_a_sentence_for_every_throw_but_the_reference(view, text):
    shown = view()
    assert text(shown.sentence).startswith("275 g at 28.5 m/s against 145 g at 33.0 m/s (measured): peak ")
    others = [text(line) for line in shown.others.children]
    assert [line.split(" against ")[0] for line in others] == ["95 g at 35.2 m/s", "470 g at 23.8 m/s"]
    assert shown.table is not None
    assert shown.warnings is None


def test_the_chosen_throw_has_the_first_sentence(view, text):
    shown = view(headline="t4")
    assert text(shown.sentence).startswith("470 g at 23.8 m/s against")
    assert [choice["value"] for choice in shown.headline_choices] == ["t2", "t3", "t4"]


def test_for_a_child_the_path_is_named_at_the_number_and_over_the_figure(view, text):
    shown = view(first=replace(W01, person=replace(W01.person, age_years=13.0)))
    assert "The path comes from adult men; this thrower is 13 years old." in text(shown.sentence)
    assert "path from adult men" in text(shown.figure_title)


def test_what_a_throw_lacks_stands_beside_it_and_the_other_throws_stay(view):
    lacking = ListedThrow("t2", ball=Ball(0.275), missing="Missing or to be mended above: release speed.")
    shown = view(THROWN[0], lacking, *THROWN[2:])
    assert shown.held == {"t1": "", "t2": lacking.missing, "t3": "", "t4": ""}
    assert [choice["value"] for choice in shown.headline_choices] == ["t3", "t4"]


def test_empty_lines_show_what_to_give_and_nothing_else(view, text):
    shown = view(ListedThrow("t1"), ListedThrow("t2"))
    assert text(shown.sentence) == "No throw is complete yet: give ball mass and release speed."
    assert shown.table is None
    assert shown.others is None
    assert shown.figure_note == ""


def test_the_level_field_shows_what_it_stands_for_when_left_empty(view, compare_on):
    half = compare_on().reference.readouts.peak / 2
    assert view().level_placeholder == f"{half:.1f}"


def test_an_estimated_reference_has_no_day_to_type(view):
    assert view(kind="estimated").day_off
    assert not view(kind="before_injury").day_off


def test_what_is_held_at_its_clock_was_not_measured_and_asks_for_no_kind(view):
    held = view(replace(THROWN[0], hold="clock", value=0.9), *THROWN[1:])
    assert held.kind_off
    assert held.day_off
    assert not view().kind_off


def test_the_note_says_that_the_hand_is_empty_torque_is_not_calibrated(view):
    assert "varus torque after release is not calibrated" in view().figure_note
    other = view(quantity="abduction").figure_note
    assert "not calibrated" not in other
    assert "Below zero: adduction torque" in other


def test_for_a_growing_thrower_the_caution_comes_with_its_source(text):
    said = text(basis_of(Person("male", 1.6, 48.0, 13.0)))
    assert "24 % of the group with weighted balls" in said
    assert "Reinold MM" in said
    assert "Sports Health 2018" in said
    assert "Reinold" not in text(basis_of(Person("male", 1.88, 90.0, 25.0)))
