"""The comparison that a page shows is what the records say of the athlete in its address."""

from dataclasses import replace

import pytest

from app.pages.compare.acts import comparison_acts
from app.pages.compare.current import current_of, first_form
from app.records.acts import Edit, Hand
from app.records.tables import new_uid
from app.show.throw_form import OTHER

HAND = Hand("one")


def test_the_demos_comparison_is_the_form_it_was(current, demo_page):
    made = current.form
    keys = [throw.uid for throw in current.throws]
    numbers = [(t.ball_mass_g, t.ball_diameter_mm, float(t.speed_m_s)) for t in demo_page.throws]
    assert [(t.ball_mass_g, t.ball_diameter_mm, float(t.speed_m_s)) for t in made.throws] == numbers
    assert [t.key for t in made.throws] == keys
    assert made.athlete == demo_page.athlete
    assert (made.reference, made.kind, made.date) == (keys[0], demo_page.kind, demo_page.date)
    assert (made.quantity, made.align, made.scale, made.above) == ("varus", "release", "plain", "")


def test_another_comparison_is_asked_for_by_its_uid_and_else_the_newest_is_shown(open_page, current):
    visit, uid = open_page(), new_uid()
    visit.store.act(visit.owner, comparison_acts(first_form(visit), uid, "Second"), HAND)
    assert current_of(open_page()).row.name == "Second"
    assert current_of(open_page(comparison=current.row.uid)).row.uid == current.row.uid
    assert current_of(open_page(comparison="gone")).row.uid == uid


def test_a_first_comparison_begins_with_the_reference_throw_and_an_empty_one(open_page):
    own, empty = first_form(open_page()).throws
    assert (own.ball_mass_g, float(own.speed_m_s)) == ("145", 33.0)
    assert empty.blank


def test_of_a_new_athlete_nothing_is_known_and_two_throws_are_empty(open_page):
    open_page().store.new_athlete("X1", HAND)
    form = first_form(open_page("X1"))
    assert [throw.blank for throw in form.throws] == [True, True]
    assert current_of(open_page("X1")) is None


def test_who_is_not_there_has_no_comparison(open_page):
    assert current_of(open_page("nobody")) is None


def test_a_refused_text_leaves_the_value_that_was_accepted(current, open_page):
    uid = current.throws[1].uid
    current.visit.store.act(current.visit.owner, Edit("throw.number", "fast", uid), HAND)
    assert float(current_of(open_page()).form.throws[1].speed_m_s) == 28.5


@pytest.fixture
def with_two(current, open_page):
    """W01's comparison with its second throw by W05."""
    visit = current.visit
    other = visit.store.find("W05").uid
    visit.store.act(visit.owner, Edit("throw.thrower", other, current.throws[1].uid), HAND)
    return current_of(open_page())


def test_a_second_thrower_is_an_athlete_of_the_records_with_measures_and_readings(with_two):
    form = with_two.form
    assert [throw.thrower for throw in form.throws] == ["", OTHER, "", ""]
    assert (form.other["code"], form.other["sex"]) == ("W05", "female")
    assert set(with_two.all_profiles) == {"", OTHER}
    assert with_two.invented == {"", OTHER}


def test_a_throw_of_a_third_athlete_is_not_drawn_with_the_body_of_the_second(with_two, open_page):
    visit = with_two.visit
    third = visit.store.find("W06").uid
    visit.store.act(visit.owner, Edit("throw.thrower", third, with_two.throws[2].uid), HAND)
    compared = current_of(open_page()).compared()
    assert [answer.curves is None for answer in compared.answers] == [False, False, True, False]


def test_the_words_of_the_records_for_a_kind_are_those_of_the_form(current, open_page):
    visit = current.visit
    visit.store.act(visit.owner, Edit("comparison.kind", "before_injury", current.row.uid), HAND)
    assert current_of(open_page()).form.kind == "before"


def test_a_form_comes_back_from_the_records_as_it_went_in(current, open_page):
    visit, uid = current.visit, new_uid()
    form = replace(current.form, headline=current.throws[2].uid, kind="before", above="40", quantity="abduction")
    visit.store.act(visit.owner, comparison_acts(form, uid), HAND)
    made = current_of(open_page(comparison=uid)).form
    names = ("kind", "date", "quantity", "above", "align", "scale", "athlete")
    assert [getattr(made, name) for name in names] == [getattr(form, name) for name in names]
    assert (made.place(made.reference), made.place(made.headline)) == (0, 2)
    bare = [replace(throw, key="") for throw in form.throws]
    assert [replace(throw, key="") for throw in made.throws] == bare
