"""What becomes of a link: it is said what it holds, and it goes to whom the reader says."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.compare.along.link import LinkError, text_of
from app.pages.compare.along.opening import offer_of, open_for
from app.pages.compare.callbacks import draw
from app.pages.compare.current import current_of
from app.records.acts import Hand
from app.show.throw_form import OTHER

HAND, TODAY = Hand("one"), date(2026, 3, 1)


@pytest.fixture
def take_in(open_page):
    """Open the text of a link on W02's page; gives the comparison that is shown then, and its address."""

    def opened(text: str):
        visit = open_page("W02")
        go = open_for(visit.store, text, visit.owner, visit.code, HAND, TODAY)
        code, _, uid = go.removeprefix("/compare?athlete=").partition("&comparison=")
        return current_of(open_page(code, comparison=uid)), go

    return opened


def test_a_link_without_measures_says_so_and_asks_whose_they_are(demo_page):
    offer = offer_of(text_of(demo_page, False), "W02")
    assert offer.said == (
        "This link holds a comparison of 4 throws (145 g, 275 g, 95 g, 470 g): varus torque. "
        "It brings no body measures: the throws are worked out with those of W02."
    )
    assert offer.button == "Open it for W02"


def test_it_is_a_new_comparison_of_that_athlete_and_the_others_stay(take_in, demo_page, open_page):
    before = len(open_page("W02").data.comparisons)
    made, go = take_in(text_of(replace(demo_page, headline="t3"), False))
    assert go.startswith("/compare?athlete=W02&comparison=")
    assert made.row.name == "From a link, 2026-03-01"
    assert [float(throw.typed) for throw in made.form.throws] == [33.0, 28.5, 35.2, 23.8]
    assert made.form.place(made.form.headline) == 2
    assert made.form.athlete["code"] == "W02"
    assert len(open_page("W02").data.comparisons) == before + 1


def test_without_any_athlete_it_asks_for_one(demo_page):
    offer = offer_of(text_of(demo_page, False), "")
    assert offer.said.endswith("choose an athlete above first, then open the link again.")
    assert not offer.button


def test_a_link_with_measures_makes_a_new_athlete_whose_code_is_free(take_in, demo_page):
    text = text_of(demo_page, True)
    assert offer_of(text, "W02").said.endswith("It brings the measures of W01.")
    made, go = take_in(text)
    assert go.startswith("/compare?athlete=W01+2&comparison=") or "W01%202" in go
    assert made.form.athlete == demo_page.athlete | {"code": "W01 2"}
    again, _ = take_in(text)
    assert again.form.athlete["code"] == "W01 3"


def test_measures_of_two_throwers_make_two_athletes(take_in, demo_page):
    throws = (demo_page.throws[0], replace(demo_page.throws[1], by=OTHER))
    two = replace(demo_page, throws=throws, other=demo_page.athlete | {"code": "N7", "stature_cm": "170"})
    made, _ = take_in(text_of(two, True))
    assert [throw.thrower for throw in made.form.throws] == ["", OTHER]
    assert (made.form.other["code"], made.form.other["stature_cm"]) == ("N7", "170")


def test_throws_of_a_second_thrower_nobody_knows_are_left_out_and_that_is_said(take_in, demo_page):
    throws = (demo_page.throws[0], replace(demo_page.throws[1], by=OTHER))
    text = text_of(replace(demo_page, throws=throws), False)
    assert "Throws of a second thrower, 1, are left out" in offer_of(text, "W02").said
    assert len(take_in(text)[0].throws) == 1


def test_what_cannot_be_read_of_a_link_is_left_empty(take_in, demo_page):
    odd = replace(demo_page.throws[0], speed_m_s="fast")
    made, _ = take_in(text_of(replace(demo_page, throws=(odd,), date="yesterday", above="much"), False))
    assert (made.form.throws[0].speed_m_s, made.form.date, made.form.above) == ("", "", "")


@pytest.mark.parametrize("code", ["", "x" * 90, "a\u0000b", "  "])
def test_a_code_that_no_athlete_can_have_is_made_one(take_in, demo_page, code):
    made, _ = take_in(text_of(replace(demo_page, athlete=demo_page.athlete | {"code": code}), True))
    assert made.form.athlete["code"] in ("Link", "x" * 24, "ab")


def test_a_broken_link_makes_nothing(take_in):
    with pytest.raises(LinkError):
        take_in("1.AAAA")


def test_a_code_with_marks_of_a_page_is_text_in_the_figure(take_in, demo_page):
    code = "<a href=//x.y>N</a>"
    throws = (demo_page.throws[0], replace(demo_page.throws[1], by=OTHER))
    two = replace(demo_page, throws=throws, athlete=demo_page.athlete | {"code": code}, other=demo_page.athlete)
    made, _ = take_in(text_of(two, True))
    assert made.form.athlete["code"] == code
    visit = made.visit
    here = {"athlete": visit.owner, "code": code, "asked": {"comparison": made.row.uid}}
    figure = draw({}, "light", 1000, [[], []], here, None)["figure"]
    texts = [str(trace.get(name, "")) for trace in figure["data"] for name in ("name", "text")]
    assert any("&lt;a href" in text for text in texts)
    assert not any("<a" in text for text in texts)
