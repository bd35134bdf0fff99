"""What becomes of a link: it is said what it holds, and it goes to whom the reader says."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.compare.along.link import LinkError, shared_of, text_of
from app.pages.compare.along.opening import offer_of, open_for
from app.pages.compare.callbacks import draw
from app.pages.compare.current import current_of
from app.records.acts import Hand
from app.show.listed_throw import OTHER

HAND, TODAY = Hand("one"), date(2026, 3, 1)


@pytest.fixture
def bare(current):
    """What goes along of W01's comparison without measures."""
    return shared_of(current, with_measures=False)


@pytest.fixture
def whole(current):
    """The same with measures."""
    return shared_of(current, with_measures=True)


def by_second(shared):
    """The same with two throws, the second of them by a second thrower."""
    return replace(shared, throws=(shared.throws[0], {**shared.throws[1], "thrower": OTHER}))


def named(shared, code):
    """The same with another code of the first thrower."""
    return replace(shared, people=({**shared.people[0], "athlete.code": code}, *shared.people[1:]))


@pytest.fixture
def take_in(open_page):
    """Open the text of a link on W02's page; gives the comparison that is shown then, and its address."""

    def opened(text: str):
        visit = open_page("W02")
        go = open_for(visit.store, text, visit.owner, visit.code, HAND, TODAY)
        code, _, uid = go.removeprefix("/compare?athlete=").partition("&comparison=")
        return current_of(open_page(code, comparison=uid)), go

    return opened


def test_a_link_without_measures_says_so_and_asks_whose_they_are(bare):
    offer = offer_of(text_of(bare), "W02")
    assert offer.said == (
        "This link holds a comparison of 4 throws (145 g, 275 g, 95 g, 470 g): varus torque. "
        "It brings no body measures: the throws are worked out with those of W02."
    )
    assert offer.button == "Open it for W02"


def test_it_is_a_new_comparison_of_that_athlete_and_the_others_stay(take_in, bare, open_page):
    before = len(open_page("W02").data.comparisons)
    made, go = take_in(text_of(replace(bare, headline=2)))
    assert go.startswith("/compare?athlete=W02&comparison=")
    assert made.row.name == "From a link, 2026-03-01"
    assert [throw.speed_m_s for throw in made.throws] == [33.0, 28.5, 35.2, 23.8]
    assert made.place(made.row.headline) == 2
    assert made.throwers[""].code == "W02"
    assert len(open_page("W02").data.comparisons) == before + 1


def test_without_any_athlete_it_asks_for_one(bare):
    offer = offer_of(text_of(bare), "")
    assert offer.said.endswith("choose an athlete above first, then open the link again.")
    assert not offer.button


def test_a_link_with_measures_makes_a_new_athlete_whose_code_is_free(take_in, whole, current):
    text = text_of(whole)
    assert offer_of(text, "W02").said.endswith("It brings the measures of W01.")
    made, go = take_in(text)
    assert go.startswith("/compare?athlete=W01+2&comparison=") or "W01%202" in go
    assert made.throwers[""] == replace(current.throwers[""], code="W01 2")
    assert take_in(text)[0].throwers[""].code == "W01 3"


def test_measures_of_two_throwers_make_two_athletes(take_in, whole):
    second = {**whole.people[0], "athlete.code": "N7", "measures.stature_m": "170"}
    made, _ = take_in(text_of(replace(by_second(whole), people=(whole.people[0], second))))
    assert [throw.thrower for throw in made.throws] == ["", OTHER]
    assert (made.throwers[OTHER].code, made.throwers[OTHER].person.stature_m) == ("N7", 1.7)


def test_throws_of_a_second_thrower_nobody_knows_are_left_out_and_that_is_said(take_in, bare):
    text = text_of(replace(by_second(bare), headline=1))
    assert "Throws of a second thrower, 1, are left out" in offer_of(text, "W02").said
    made, _ = take_in(text)
    assert len(made.rows) == 1
    assert made.row.headline is None


def test_a_reference_from_before_an_injury_stays_one(take_in, bare):
    made, _ = take_in(text_of(replace(bare, asked={**bare.asked, "kind": "before"})))
    assert (made.row.kind, made.row.day) == ("before_injury", date(2026, 1, 13))


def test_what_cannot_be_read_of_a_link_is_left_empty(take_in, bare):
    odd = {**bare.throws[0], "number": "fast"}
    made, _ = take_in(text_of(replace(bare, throws=(odd,), asked={**bare.asked, "day": "yesterday", "above": "much"})))
    assert (made.rows[0].mass_kg, made.rows[0].number, made.row.day, made.row.above) == (0.145, None, None, None)


@pytest.mark.parametrize("code", ["", "x" * 90, "a\u0000b", "  "])
def test_a_code_that_no_athlete_can_have_is_made_one(take_in, whole, code):
    made, _ = take_in(text_of(named(whole, code)))
    assert made.throwers[""].code in ("Link", "x" * 24, "ab")


def test_a_broken_link_makes_nothing(take_in):
    with pytest.raises(LinkError):
        take_in("1.AAAA")


def test_a_code_with_marks_of_a_page_is_text_in_the_figure(take_in, whole):
    code = "<a href=//x.y>N</a>"
    two = named(replace(by_second(whole), people=(whole.people[0],) * 2), code)
    made, _ = take_in(text_of(two))
    assert made.throwers[""].code == code
    here = {"athlete": made.visit.owner, "code": code, "asked": {"comparison": made.row.uid}}
    figure = draw({}, "light", 1000, [[], []], here, None)["figure"]
    texts = [str(trace.get(name, "")) for trace in figure["data"] for name in ("name", "text")]
    assert any("&lt;a href" in text for text in texts)
    assert not any("<a" in text for text in texts)
