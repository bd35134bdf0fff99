"""The Claim page as a person meets it: by mouse, by keyboard, on a phone, on paper, and with all typed wrong."""

import re

import pytest

from tests.browser.by_hand import choose, kept, type_in
from tests.browser.compare_page import load_again
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

ROWS = ".claim-row"


@pytest.fixture
def demo(page, served):
    """The page on its demo data, answered."""
    page.goto(f"{served}/claim")
    expect(page.locator(ROWS)).to_have_count(4)
    return page


def field(page, ball: str, name: str):
    return page.get_by_role("group", name=f"{ball} ball").get_by_label(name)


def sentence(page):
    return page.locator(".claim .sentence")


def test_a_claim_is_settled_from_opening_to_typed_speeds_and_is_there_again_after_another_page(demo):
    expect(demo.get_by_text("Invented demo data: nobody here exists")).to_be_visible()
    expect(sentence(demo)).to_have_text(
        "“275 g loads the elbow more than 145 g”: holds for time loaded and area; does not hold for peak and rise rate."
    )
    demo.get_by_text("less", exact=True).click()
    expect(sentence(demo)).to_contain_text("less than 145 g”: holds for peak and rise rate")
    demo.get_by_role("button", name="Swap the balls").focus()
    demo.keyboard.press("Enter")
    expect(sentence(demo)).to_contain_text("“145 g loads the elbow less than 275 g”: holds for time loaded and area")
    choose(demo, "First ball from the rack", "360 g")
    expect(field(demo, "First", "Mass, g")).to_have_value("360")
    expect(sentence(demo)).to_contain_text("“360 g loads the elbow less than 275 g”")
    expect(demo.get_by_role("textbox", name="First ball from the rack")).to_have_value("")
    choose(demo, "How they are thrown", "each at a typed speed")
    expect(demo.get_by_text("No answer yet.")).to_be_visible()
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(0)
    type_in(field(demo, "First", "Release speed"), "20")
    type_in(field(demo, "Second", "Release speed"), "20")
    choose(demo, "What is loaded", "Horizontal-abduction torque")
    expect(sentence(demo)).to_contain_text("does not hold for all four.")
    expect(demo.locator(".claim-numbers").first).to_contain_text("no difference to speak of, under 0.5 %")
    expect(demo.locator(".claim-notes")).to_contain_text("A typed speed is taken as exact")
    demo.get_by_role("link", name="Map", exact=True).click()
    expect(demo.locator(".map-throw")).to_be_visible()
    demo.get_by_role("link", name="Claim", exact=True).click()
    expect(sentence(demo)).to_contain_text("“360 g loads the shoulder, in braking, less than 275 g”")
    expect(field(demo, "First", "Release speed")).to_have_value("20")


@pytest.mark.slow
def test_an_invented_thrower_stands_in_and_overwrites_nothing(page, served_empty):
    page.goto(f"{served_empty}/claim")
    expect(page.get_by_text("sex, throwing hand, age, stature and body mass")).to_be_visible()
    before = kept(page, "compare-saved"), kept(page, "athlete-saved")
    choose(page, "Whose arm", "W06")  # has no radar reading
    expect(page.locator(ROWS)).to_have_count(4)
    expect(page.locator(".summary")).to_contain_text("W06 · male")
    expect(page.locator(ROWS).first).to_contain_text("cannot tell from these readings")
    expect(page.locator(".claim-notes")).to_contain_text("No radar readings")
    choose(page, "Whose arm", "W04")
    expect(page.get_by_text("The path comes from adult men; this thrower is 13 years old.")).to_be_visible()
    expect(page.get_by_text("24 % of the group with weighted balls")).to_be_visible()
    assert (kept(page, "compare-saved"), kept(page, "athlete-saved")) == before
    choose(page, "Whose arm", "athlete of Compare")
    expect(page.get_by_text("No answer yet.")).to_be_visible()
    page.get_by_role("link", name="Enter it on Athlete").click()
    expect(page.get_by_role("heading", name="Radar readings")).to_be_visible()


def test_wrong_values_are_told_at_their_field_and_stay_and_a_broken_kept_form_is_told(demo):
    type_in(field(demo, "First", "Mass, g"), "heavy")
    expect(demo.get_by_text("Mass of the first ball: “heavy” given; accepted: 1 to 3000 g")).to_be_visible()
    expect(demo.get_by_text("Missing or to be mended above: first ball.")).to_be_visible()
    demo.evaluate("sessionStorage.setItem('compare-saved', '{\"version\": 99}')")
    load_again(demo)
    expect(field(demo, "First", "Mass, g")).to_have_value("heavy")
    type_in(field(demo, "First", "Mass, g"), "1200")
    expect(demo.locator(".claim-notes")).to_contain_text("could not be read")
    expect(demo.locator(".claim-notes")).to_contain_text("give the same torques: balls from 50 to 1000 g")
    assert kept(demo, "compare-saved") == {"version": 99}


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes(demo, assert_axe_clean, theme):
    put_on(demo, theme)
    expect(demo.locator(ROWS)).to_have_count(4)
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        assert demo.evaluate("document.documentElement.scrollWidth") <= width
        assert_axe_clean(demo)
    type_in(field(demo, "Second", "Diameter, mm"), "abc")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(1)
    assert_axe_clean(demo)


def test_it_prints_on_one_page_from_a_dark_screen(demo):
    put_on(demo, "dark")
    choose(demo, "Whose arm", "W04")  # the one with the most notes and cautions
    expect(demo.get_by_text("24 % of the group with weighted balls")).to_be_visible()
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 1
    demo.emulate_media(media="print")
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
    for part in (".claim .sentence", ".claim-rows", ".claim-notes", ".basis"):
        expect(demo.locator(part)).to_be_visible()
