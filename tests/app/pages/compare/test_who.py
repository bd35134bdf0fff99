"""Who throws, in a line each, with the way to the measures."""

from dash import html

from app.pages.compare.current import current_of
from app.pages.compare.who import who
from app.records.acts import Edit, Hand
from tests.app.pages.compare.conftest import text_of

HAND = Hand("one")


def links(part) -> list[tuple[str, str]]:
    return [(one.href, getattr(one, "aria-label")) for one in part._traverse() if isinstance(one, html.A)]


def test_it_says_code_and_measures_and_leads_to_where_they_are_entered(current):
    made = who(current)
    assert text_of(made) == "Who is throwingW01 · male · 20 years · 183 cm · 84 kg · right-handed Measures"
    assert links(made) == [("/athlete?athlete=W01", "Measures of W01")]


def test_the_mark_of_who_is_still_growing_is_said(current, open_page):
    current.visit.store.act(current.visit.owner, Edit("athlete.still_growing", "yes"), HAND)
    assert "marked as still growing" in text_of(who(current_of(open_page())))


def test_missing_measures_are_named(current, open_page):
    row = current.data.measures[-1].uid
    current.visit.store.act(current.visit.owner, Edit("measures.stature_m", "", row), HAND)
    assert "W01 · Missing or to be mended: stature Measures" in text_of(who(current_of(open_page())))


def test_a_second_thrower_has_a_line_and_a_way_out(current, open_page):
    visit = current.visit
    visit.store.act(visit.owner, Edit("throw.thrower", visit.store.find("W05").uid, current.rows[1].uid), HAND)
    made = who(current_of(open_page()))
    assert "W05 · female" in text_of(made)
    assert text_of(made).endswith("Remove the second")
    assert ("/athlete?athlete=W05", "Measures of W05") in links(made)
