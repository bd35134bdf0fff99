"""The comparison that a page shows is what the records say of the athlete in its address."""

import pytest

from app.pages.compare.acts import CHOICES, comparison_acts, first_acts, values_of
from app.pages.compare.current import A_THIRD, current_of
from app.records.acts import Edit, Hand, Remove
from app.records.tables import new_uid
from app.show.listed_throw import OTHER
from tests.app.pages.compare.conftest import THROWN

HAND = Hand("one")


def test_the_demos_comparison_is_what_was_thrown_on_the_blocks_last_day(current):
    assert [(one.ball, one.speed_m_s) for one in current.throws] == [(one.ball, one.speed_m_s) for one in THROWN]
    assert current.row.reference == current.throws[0].uid
    assert (current.row.kind, current.row.day.isoformat()) == ("measured", "2026-01-13")  # demo_data/athletes.csv
    assert current.throwers[""].person.stature_m == 1.83


def test_another_comparison_is_asked_for_by_its_uid_and_else_the_newest_is_shown(open_page, current):
    visit, uid = open_page(), new_uid()
    visit.store.act(visit.owner, comparison_acts({"name": "Second"}, [], uid), HAND)
    assert current_of(open_page()).row.name == "Second"
    assert current_of(open_page(comparison=current.row.uid)).row.uid == current.row.uid
    assert current_of(open_page(comparison="gone")).row.uid == uid


def test_a_first_comparison_begins_with_the_reference_throw_and_an_empty_one(current, open_page):
    visit = open_page()
    visit.store.act(visit.owner, [Remove("comparison", current.row.uid), *first_acts(visit.data, new_uid())], HAND)
    made = current_of(open_page())
    own, empty = made.throws
    assert (own.ball.mass_kg, own.speed_m_s) == (0.145, 33.0)
    assert (empty.ball, empty.missing) == (None, "")
    assert (made.row.reference, made.row.kind, made.row.day) == (own.uid, "measured", current.row.day)


def test_of_a_new_athlete_nothing_is_known_and_two_throws_are_empty(open_page):
    uid = open_page().store.new_athlete("X1", HAND)
    assert current_of(open_page("X1")) is None
    open_page().store.act(uid, first_acts(open_page("X1").data, new_uid()), HAND)
    made = current_of(open_page("X1"))
    assert [(one.ball, one.missing) for one in made.throws] == [(None, "")] * 2
    assert made.row.reference == made.throws[0].uid


def test_who_is_not_there_has_no_comparison(open_page):
    assert current_of(open_page("nobody")) is None


def test_a_refused_text_leaves_the_value_that_was_accepted(current, open_page):
    uid = current.throws[1].uid
    current.visit.store.act(current.visit.owner, Edit("throw.number", "fast", uid), HAND)
    assert current_of(open_page()).throws[1].speed_m_s == 28.5


@pytest.fixture
def with_two(current, open_page):
    """W01's comparison with its second throw by W05."""
    visit = current.visit
    other = visit.store.find("W05").uid
    visit.store.act(visit.owner, Edit("throw.thrower", other, current.throws[1].uid), HAND)
    return current_of(open_page())


def test_a_second_thrower_is_an_athlete_of_the_records_with_measures_and_readings(with_two):
    assert [throw.thrower for throw in with_two.throws] == ["", OTHER, "", ""]
    second = with_two.throwers[OTHER]
    assert (second.code, second.person.sex) == ("W05", "female")
    assert all(with_two.profile(by) is not None for by in ("", OTHER))
    assert with_two.invented == {"", OTHER}


def test_no_reading_is_read_for_a_curve_unless_a_throw_is_held_on_the_profile(current, open_page):
    assert current.compared().drawn
    assert "cases" not in current.__dict__
    uid = current.throws[1].uid
    current.visit.store.act(
        current.visit.owner, [Edit("throw.hold", "profile", uid), Edit("throw.number", "90", uid)], HAND
    )
    held = current_of(open_page())
    assert held.throws[1].full_speed_m_s is not None
    assert "cases" in held.__dict__


def test_a_throw_of_a_third_athlete_is_not_drawn_with_the_body_of_the_second(with_two, open_page):
    visit = with_two.visit
    third = visit.store.find("W06").uid
    visit.store.act(visit.owner, Edit("throw.thrower", third, with_two.throws[2].uid), HAND)
    made = current_of(open_page())
    compared = made.compared()
    assert [answer.curves is None for answer in compared.answers] == [False, False, True, False]
    assert made.throws[2].missing == A_THIRD
    assert made.thrower_uid(made.rows[2]) == third


def test_a_comparison_comes_back_from_the_records_as_it_went_in(current, open_page):
    visit, uid = current.visit, new_uid()
    asked = {"kind": "before_injury", "day": current.row.day, "quantity": "abduction", "above": 40.0}
    asked |= {"align": "contact", "scale": "bwh"}
    throws = [values_of(row) for row in current.rows]
    visit.store.act(visit.owner, comparison_acts(asked, throws, uid, reference=1, headline=2), HAND)
    made = current_of(open_page(comparison=uid))
    assert {name: getattr(made.row, name) for name in CHOICES} == asked
    assert (made.place(made.row.reference), made.place(made.row.headline)) == (1, 2)
    assert [values_of(row) for row in made.rows] == throws
