"""The switch of the units, as a person meets it: what is shown changes, what was typed does not."""

import re

import pytest

from app.records.reads import athlete_data
from tests.browser.compare_page import HEADLINE, LINES, drawn, field, load_again, open_demo, serve_demo, type_in

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


def switch(page, label: str) -> None:
    """Choose units."""
    page.get_by_role("radiogroup", name="Units").get_by_text(label, exact=True).click()


def throws_of(store) -> list[tuple[float, float]]:
    """Ball masses and speeds of W01's throws in the records (SI)."""
    return [(throw.mass_kg, throw.number) for throw in athlete_data(store, "W01").throws]


@pytest.mark.slow
def test_readings_in_miles_per_hour_there_and_back(page, served, assert_axe_clean):
    page.goto(f"{served}/athlete?athlete=W01")
    expect(page.get_by_label("Reading 1 with 145 g, m/s", exact=True)).to_have_value("32.7")
    switch(page, "oz, mph")
    first = page.get_by_label("Reading 1 with 5.11 oz, mph", exact=True)
    expect(first).to_have_value("73.1")  # 32.7 / 0.44704 = 73.148
    expect(page.get_by_label("Ball mass, oz", exact=True)).to_have_value("5.11")
    expect(page.get_by_label("Distance, ft", exact=True)).to_have_value("131.2")
    expect(page.get_by_text("own ball", exact=True).first).to_be_visible()
    expect(page.locator(".speeds-table")).to_contain_text("5.11 oz")
    assert_axe_clean(page)

    empty = page.get_by_label("Reading 1 with 4.41 oz, mph", exact=True)
    type_in(page, empty, "760")
    problem = page.locator(".reading-row .cell-problems").filter(has_text="given")
    expect(problem).to_contain_text("2.24 to 134 mph")
    type_in(page, empty, "76.5")
    expect(problem).to_have_count(0)
    page.locator("h1").click()
    page.keyboard.press("u")
    expect(page.get_by_label("Reading 1 with 125 g, m/s", exact=True)).to_have_value("34.2")  # 76.5 * 0.44704 = 34.199
    expect(page.get_by_label("Reading 1 with 145 g, m/s", exact=True)).to_have_value("32.7")
    expect(page.get_by_label("Distance, m", exact=True)).to_have_value("40")


@pytest.mark.slow
def test_the_map_in_ounces_and_back(page, serve_app, assert_axe_clean):
    served, store = serve_demo(serve_app)
    page.goto(f"{served}/map?athlete=W01")
    type_in(page, page.get_by_label("Ball mass, g", exact=True), "275")
    expect(page.locator(".map-throw")).to_contain_text("275 g at")
    switch(page, "oz, mph")
    mass = page.get_by_label("Ball mass, oz", exact=True)
    expect(mass).to_have_value("9.7")
    expect(page.locator(".map-throw")).to_contain_text("9.7 oz at")
    expect(page.locator(".map-graph .xtitle")).to_have_text("ball mass, oz")
    assert_axe_clean(page)
    mass.press("ArrowUp")
    expect(mass).to_have_value("9.75")
    expect(page.locator(".map-throw")).to_contain_text("9.75 oz at")
    area = page.locator(".map-graph .nsewdrag")
    area.scroll_into_view_if_needed()
    box = area.bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(page.locator(".map-notice")).to_contain_text(re.compile(r"Added to Compare: [0-9.]+ oz at [0-9.]+ mph"))
    typed = mass.input_value()
    assert throws_of(store)[-1][0] == pytest.approx(float(typed) * 0.028349523125)
    switch(page, "g, m/s")
    expect(page.locator(".map-throw")).to_contain_text(re.compile(r"[0-9.]+ g at [0-9.]+ m/s"))
    switch(page, "oz, mph")
    expect(mass).to_have_value(typed)


@pytest.mark.slow
def test_a_claim_in_ounces_and_back(page, served, assert_axe_clean):
    page.goto(f"{served}/claim?athlete=W01")
    first = page.get_by_role("group", name="First ball")
    type_in(page, first.get_by_label("Mass, g"), "275")
    expect(page.locator(".sentence")).to_contain_text("“275 g loads the elbow more than 145 g”")
    said = page.locator(".claim-numbers").all_inner_texts()
    switch(page, "oz, mph")
    expect(first.get_by_label("Mass, oz")).to_have_value("9.7")
    expect(page.locator(".sentence")).to_contain_text("“9.7 oz loads the elbow more than 5.11 oz”")
    expect(page.locator(".claim-four")).to_contain_text("9.7 oz at 63.7 mph")
    assert page.locator(".claim-numbers").all_inner_texts() == said
    assert_axe_clean(page)
    type_in(page, first.get_by_label("Mass, oz"), "7")
    expect(page.locator(".sentence")).to_contain_text("“7 oz loads the elbow more than 5.11 oz”")
    page.get_by_role("button", name="Swap the balls").click()
    expect(page.locator(".sentence")).to_contain_text("“5.11 oz loads the elbow more than 7 oz”")
    switch(page, "g, m/s")
    expect(page.locator(".sentence")).to_contain_text("“145 g loads the elbow more than 198.45 g”")  # 7 * 28.3495
    switch(page, "oz, mph")
    expect(page.get_by_role("group", name="Second ball").get_by_label("Mass, oz")).to_have_value("7")


def test_ounces_and_miles_per_hour_there_and_back(page, serve_app, assert_axe_clean):
    served, store = serve_demo(serve_app)
    open_demo(page, served)
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 28.5 m/s against 145 g at 33.0 m/s")
    before, lines = throws_of(store), drawn(page)

    switch(page, "oz, mph")
    expect(page.locator(HEADLINE)).to_contain_text("9.7 oz at 63.8 mph against 5.11 oz at 73.8 mph")
    expect(page.get_by_label("Ball mass of throw 1, oz")).to_have_value("5.11")
    expect(page.locator(".who")).to_contain_text("6 ft 0 in · 185.2 lb")
    expect(page.locator(".readings tbody th").nth(1)).to_contain_text("oz at")
    expect(page.locator(".picture")).not_to_contain_text("m/s")
    assert_axe_clean(page)
    assert throws_of(store) == before
    assert drawn(page) == lines

    type_in(page, field(page, "Ball mass", 2), "5.25")
    type_in(page, field(page, "Release speed", 2), "70")
    expect(page.locator(HEADLINE)).to_contain_text("5.25 oz at 70.0 mph")
    page.get_by_label("Slider, throw 2: release speed, mph").focus()
    page.keyboard.press("ArrowRight")
    expect(field(page, "Release speed", 2)).to_have_value("70.1")
    expect(page.locator(HEADLINE)).to_contain_text("5.25 oz at 70.1 mph")
    changed = throws_of(store)
    assert changed[1] == pytest.approx((5.25 * 0.45359237 / 16, 70.1 * 0.44704), rel=1e-12)
    assert changed[0] == before[0]

    load_again(page)
    expect(page.locator(LINES)).to_have_count(4)
    expect(field(page, "Ball mass", 2)).to_have_value("5.25")
    expect(page.locator(HEADLINE)).to_contain_text("5.25 oz at 70.1 mph")

    page.locator("h1").click()
    page.keyboard.press("u")
    expect(field(page, "Ball mass", 1)).to_have_value("145")
    expect(field(page, "Ball mass", 2)).to_have_value("148.8")  # 5.25 * 28.3495 = 148.835
    expect(field(page, "Release speed", 2)).to_have_value("31.34")  # 70.1 * 0.44704 = 31.3375
    expect(page.locator(HEADLINE)).to_contain_text("148.83 g at 31.34 m/s against 145 g at 33.0 m/s")
    assert throws_of(store) == changed

    type_in(page, field(page, "Release speed", 3), "74 mph")
    expect(page.locator(".readings")).to_contain_text("at 33.08 m/s")  # 74 * 0.44704 = 33.0810
    slider = page.get_by_label("Slider, throw 3: release speed, m/s")
    expect(slider).to_be_enabled()
    assert float(slider.input_value()) == pytest.approx(33.08, abs=0.05)  # half of the slider's step
    assert throws_of(store)[2][1] == pytest.approx(74 * 0.44704, rel=1e-12)
