"""How sure the differences of Compare are: the sentence after the headline, and the interval under each."""

import pytest

from app.pages.compare import sure
from app.pages.compare.current import current_of
from app.pages.compare.sizes import sizes
from app.pages.compare.view import view_of
from app.records.acts import Edit, Hand
from app.records.reads import athlete_data
from tests.app.pages.compare.conftest import text_of

HAND = Hand("one")


def sure_of(current):
    return sure.sure_of(current, current.compared())


def again(current):
    visit = current.visit
    visit.__dict__.pop("data", None)
    return current_of(visit)


def test_every_throw_but_the_reference_is_held_against_it(current):
    found = sure_of(current)
    first, *others = current.throws
    assert set(found) == {one.uid for one in others}
    heavier = found[others[0].uid].found["peak"]
    shown = current.compared().answers[1].readouts.peak / current.compared().answers[0].readouts.peak - 1.0
    assert heavier.best == pytest.approx(shown, abs=0.002)  # the band's best estimate is what the cards show
    assert heavier.low < shown < heavier.high
    assert first.uid not in found


def test_the_sentence_after_the_headline_says_in_tenths_how_sure_it_is(current):
    said = text_of(view_of(current.row, current.compared(), sure_of(current)).sentence)
    assert "That is if he moves the same with both balls. People change how they move with a heavy ball" in said
    assert "peak lower with about nine in ten" in said
    assert "area larger with about seven in ten" in said


def test_the_interval_stands_under_each_difference_and_not_under_the_reference(current):
    comparison, found = current.compared(), sure_of(current)
    reference, heavier = comparison.answers[:2]
    assert text_of(sizes(heavier, comparison, found[heavier.key])).count("90 %: ") == 4
    assert "90 %: " not in text_of(sizes(reference, comparison, found.get(reference.key)))


def test_a_quantity_without_a_band_has_neither(current):
    current.visit.store.act(current.visit.owner, Edit("comparison.quantity", "ball_x", current.row.uid), HAND)
    now = again(current)
    assert now.row.quantity == "ball_x"
    assert "in ten" not in text_of(view_of(now.row, now.compared(), sure_of(now)).sentence)


def test_two_athletes_share_nothing_so_that_their_interval_is_wider(current):
    visit, heavier = current.visit, current.rows[1]
    alone = sure_of(current)[heavier.uid].found["peak"]
    other = athlete_data(visit.store, "W02").athlete.uid
    visit.store.act(visit.owner, Edit("throw.thrower", other, heavier.uid), HAND)
    two = sure_of(again(current))[heavier.uid]
    assert two.where.alike == "both move the same"
    assert two.found["peak"].high - two.found["peak"].low > alone.high - alone.low


def test_without_a_reference_nothing_is_held_against_it(current):
    current.visit.store.act(current.visit.owner, Edit("comparison.reference", "", current.row.uid), HAND)
    assert sure_of(again(current)) == {}
