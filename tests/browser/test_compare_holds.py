"""How a throw is held on the Compare page: by its speed, its clock or the speed profile, and when a measure changes."""

import re

import pytest

from tests.browser.compare_page import HEADLINE, choose, drawn, field, open_demo, type_in, wait_until

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def demo(page, served):
    open_demo(page, served)
    return page


def hold(page, throw: int, words: str) -> None:
    choose(page, f"Throw {throw} is held at", words)


def test_a_throw_held_otherwise_keeps_its_curve_and_says_what_speed_follows(demo):
    before = demo.locator(HEADLINE).inner_text()
    hold(demo, 2, "same clock")
    clock = field(demo, "Joint speeds", 2)
    expect(clock).to_have_value(re.compile(r"^[78]\d\.\d+$"))
    expect(demo.locator(".held").nth(1)).to_contain_text("Released at 28.5 m/s")
    expect(demo.locator(HEADLINE)).to_have_text(before)
    expect(demo.get_by_label("Throw 2 is held at").first).to_be_focused()
    expect(demo.locator(".readings tbody tr").nth(1)).to_contain_text("same clock, ")
    hold(demo, 2, "release speed")
    expect(field(demo, "Release speed", 2)).to_have_value("28.5")
    expect(demo.locator(".held").nth(1)).to_be_hidden()


def test_a_throw_on_the_speed_profile_follows_the_readings_of_the_athlete_page(demo, served):
    hold(demo, 2, "speed profile")
    share = field(demo, "Share of full speed", 2)
    expect(share).to_have_value(re.compile(r"^(9\d|10\d)(\.\d+)?$"))
    type_in(demo, share, "100")
    expect(demo.locator(".held").nth(1)).to_contain_text("by the readings")
    type_in(demo, field(demo, "Ball mass", 2), "470")
    expect(demo.locator(HEADLINE)).to_contain_text(re.compile(r"^470 g at 2[34]\.\d+ m/s against"))
    before = demo.locator(HEADLINE).inner_text()
    demo.get_by_role("link", name="Athlete").click()
    cell = demo.get_by_label("Reading 1 with 470 g, m/s")
    cell.fill("15")
    cell.press("Enter")
    wait_until(demo, """sessionStorage.getItem('athlete-saved')?.includes('"15"')""")
    demo.get_by_role("link", name="Compare").click()
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at")
    expect(demo.locator(HEADLINE)).not_to_have_text(before)


def test_a_changed_measure_keeps_the_clocks_and_the_release_speeds_are_one_press_away(demo):
    stature = demo.get_by_label("Stature, cm")
    before = drawn(demo)
    type_in(demo, stature, "192")
    notice = demo.locator(".notice")
    expect(notice).to_contain_text("the throws keep their joint speeds")
    expect(demo.locator(HEADLINE)).to_contain_text(re.compile(r"275 g at 29\.\d+ m/s against 145 g at 34\.\d+ m/s"))
    expect(field(demo, "Joint speeds", 1)).to_be_visible()
    assert drawn(demo) != before
    demo.get_by_role("button", name="Keep the release speeds").click()
    expect(field(demo, "Release speed", 2)).to_have_value("28.5")
    expect(stature).to_have_value("192")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 28.5 m/s against 145 g at 33.0 m/s (measured)")


@pytest.mark.slow
def test_a_changed_measure_can_be_put_back_with_its_speeds(demo):
    type_in(demo, demo.get_by_label("Stature, cm"), "192")
    expect(field(demo, "Joint speeds", 1)).to_be_visible()
    demo.get_by_role("button", name="Put back").click()
    expect(demo.get_by_label("Stature, cm")).to_have_value("183")
    expect(field(demo, "Release speed", 1)).to_have_value("33.0")
