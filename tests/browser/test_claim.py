"""The Claim page as a person meets it: by mouse, by keyboard, on a phone, on paper, and with all typed wrong."""

import re

import pytest

from app.records.acts import Hand
from app.web.server import Config, create_app
from tests.browser.by_hand import choose, type_in
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

ROWS = ".claim-row"


@pytest.fixture
def served(serve_app) -> str:
    """Records of the test's own: what it types is kept."""
    return serve_app(create_app(Config(demo=True)))


@pytest.fixture
def demo(page, served):
    """The page of an athlete of the demo, answered."""
    page.goto(f"{served}/claim?athlete=W01")
    expect(page.locator(ROWS)).to_have_count(4)
    return page


def field(page, ball: str, name: str):
    return page.get_by_role("group", name=f"{ball} ball").get_by_label(name)


def sentence(page):
    return page.locator(".claim .sentence")


def test_a_claim_is_settled_from_opening_to_typed_speeds_and_is_there_again_after_a_reload_and_in_another_tab(demo):
    expect(demo.get_by_text("Invented demo data: nobody here exists")).to_be_visible()
    expect(sentence(demo)).to_have_text(
        "“275 g loads the elbow more than 145 g”: supported for time loaded; not supported for rise rate; cannot tell "
        "for peak (but close to not supported) and area."
    )
    expect(demo.locator(".claim-sure")).to_have_text(
        "If he moves the same with both balls: peak 8 % lower. People change how they move with a heavy ball; allowing "
        "for that, lower with about nine in ten."
    )
    demo.get_by_text("less", exact=True).click()
    expect(sentence(demo)).to_contain_text("less than 145 g”: supported for rise rate")
    demo.get_by_role("button", name="Swap the balls").focus()
    demo.keyboard.press("Enter")
    expect(sentence(demo)).to_contain_text("“145 g loads the elbow less than 275 g”: supported for time loaded")
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
    expect(sentence(demo)).to_contain_text("no claim for all four.")
    expect(demo.locator(".claim-numbers").first).to_contain_text("is known too little to say more")
    expect(demo.locator(".claim-notes")).to_contain_text("A typed speed is taken as exact")
    demo.reload()
    other = demo.context.new_page()
    other.goto(demo.url)
    for tab in (demo, other):
        expect(sentence(tab)).to_contain_text("“360 g loads the shoulder, in braking, less than 275 g”")
        expect(field(tab, "First", "Release speed")).to_have_value("20")


def test_of_an_athlete_without_measures_it_says_what_to_enter_and_where(page, serve_app):
    app = create_app(Config(demo=False))
    app.server.config["LEVELPEAK"].store.new_athlete("N1", Hand())
    page.goto(f"{serve_app(app)}/claim?athlete=N1")
    expect(page.get_by_text("sex, throwing hand, age, stature, body mass")).to_be_visible()
    expect(page.get_by_role("link", name="Enter it on Athlete")).to_have_attribute("href", "/athlete?athlete=N1")
    expect(page.get_by_text("Invented demo data")).to_have_count(0)


@pytest.mark.slow
def test_another_athlete_of_the_picker_is_the_one_of_the_claim(demo, served):
    demo.get_by_role("textbox", name="Athlete: type a code").click()
    demo.get_by_role("option", name="W06").click()  # has no radar reading
    expect(demo.locator(".summary")).to_contain_text("W06 · male")
    expect(demo.locator(ROWS).first).to_contain_text("more radar readings could settle it")
    expect(demo.locator(".claim-notes")).to_contain_text("No radar readings")


def test_wrong_values_are_told_at_their_field_and_stay(demo):
    type_in(field(demo, "First", "Mass, g"), "heavy")
    expect(demo.get_by_text("Mass of the first ball: “heavy” given; accepted: 1 to 3000 g")).to_be_visible()
    expect(demo.get_by_text("Missing or to be mended above: mass of the first ball.")).to_be_visible()
    demo.reload()
    expect(field(demo, "First", "Mass, g")).to_have_value("heavy")
    type_in(field(demo, "First", "Mass, g"), "1200")
    expect(demo.locator(".claim-notes")).to_contain_text("give the same torques: balls from 50 to 1000 g")


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


def test_it_prints_on_one_page_from_a_dark_screen(demo, served):
    put_on(demo, "dark")
    demo.goto(f"{served}/claim?athlete=W04")  # the one with the most notes and cautions
    expect(demo.get_by_text("24 % of the group with weighted balls")).to_be_visible()
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 1
    demo.emulate_media(media="print")
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
    for part in (".claim-sure", ".claim .sentence", ".claim-rows", ".claim-notes", ".basis"):
        expect(demo.locator(part)).to_be_visible()
