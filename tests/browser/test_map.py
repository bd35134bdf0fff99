"""The Map page as a person meets it: by mouse, by keyboard, on a phone, on paper, and with all typed wrong."""

import re

import pytest

from app.records.acts import Hand
from app.web.server import Config, create_app
from tests.browser.by_hand import choose
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

AREA = ".map-graph .nsewdrag"
LINES = ".map-graph .scatterlayer .trace"


@pytest.fixture
def served(serve_app) -> str:
    """Records of the test's own: what it types is kept."""
    return serve_app(create_app(Config(demo=True)))


@pytest.fixture
def demo(page, served):
    """The page of an athlete of the demo, drawn."""
    page.goto(f"{served}/map?athlete=W01")
    expect(page.locator(".map-throw")).to_have_text("275 g at 28.5 m/s")
    expect(page.locator(AREA)).to_have_count(1)
    return page


def mass(page):
    return page.get_by_label("Ball mass, g")


def speed(page):
    return page.get_by_label("Release speed, m/s")


def at_speed(page, text: str) -> None:
    """Type a speed: an empty field follows the ball."""
    speed(page).fill(text)
    speed(page).press("Tab")
    expect(page.locator(".map-throw")).to_have_text(f"275 g at {text} m/s")


def click_at(page, across: float, down: float) -> None:
    """Click the plotting area at shares of its width and height."""
    area = page.locator(AREA)
    area.scroll_into_view_if_needed()
    box = area.bounding_box()
    page.mouse.click(box["x"] + across * box["width"], box["y"] + down * box["height"])


def test_it_opens_with_map_throw_and_table(demo):
    expect(demo.get_by_role("heading", name="Varus torque at the elbow, peak")).to_be_visible()
    expect(demo.locator(".annotation-text").filter(has_text="level line")).to_have_count(1)
    expect(demo.locator(".map-looked tbody tr")).to_have_count(4)
    expect(demo.locator(".readings tbody tr")).to_have_count(8)
    expect(demo.get_by_text("Invented demo data: nobody here exists")).to_be_visible()
    expect(demo.locator(".modebar-btn")).to_have_count(0)  # nothing on the figure sends it away


@pytest.mark.parametrize("axis", ["even ratios", pytest.param("even masses", marks=pytest.mark.slow)])
def test_a_click_on_empty_map_adds_the_throw_there_to_compare(demo, axis):
    demo.get_by_text(axis, exact=True).click()
    demo.wait_for_function(
        "kind => document.querySelector('.map-graph .js-plotly-plot').layout.xaxis.type === kind",
        arg="log" if axis == "even ratios" else "linear",
    )
    click_at(demo, 0.75, 0.5)
    # the axes run from 80 to 545 g and from 19 to 39 m/s (tests/app/pages/map/test_callbacks.py): by hand
    grams = 80 * (545 / 80) ** 0.75 if axis == "even ratios" else 80 + 0.75 * (545 - 80)
    expect(demo.locator(".map-notice")).to_contain_text("Added to Compare: ")
    assert float(mass(demo).input_value()) == pytest.approx(grams, abs=2)  # a pixel is a gram or less, and rounding
    assert float(speed(demo).input_value()) == pytest.approx(29.0, abs=0.15)
    typed = mass(demo).input_value(), speed(demo).input_value()
    expect(demo.locator(".map-throw")).to_have_text(f"{typed[0]} g at {float(typed[1]):.1f} m/s")
    expect(demo.get_by_role("link", name="See it in Compare")).to_have_attribute("href", "/compare?athlete=W01")


def test_one_click_adds_one_throw_and_undo_takes_it_back(demo):
    click_at(demo, 0.3, 0.3)
    expect(demo.locator(".map-notice")).to_contain_text("throw 5 of at most 8")
    demo.get_by_role("button", name="Undo").click()
    expect(demo.locator(".map-throw")).to_have_text("275 g at 28.5 m/s")
    expect(demo.locator(AREA)).to_be_visible()
    click_at(demo, 0.3, 0.3)
    expect(demo.locator(".map-notice")).to_contain_text("throw 5 of at most 8")


def test_what_was_typed_and_clicked_is_there_after_a_reload_and_in_another_tab(demo):
    click_at(demo, 0.75, 0.5)
    expect(demo.locator(".map-notice")).to_contain_text("Added to Compare: ")
    choose(demo, "Readout", "area under the curve")
    expect(demo.get_by_role("heading", name="area under the curve")).to_be_visible()
    looked = demo.locator(".map-throw").text_content()
    demo.reload()
    other = demo.context.new_page()
    other.goto(demo.url)
    for tab in (demo, other):
        expect(tab.locator(".map-throw")).to_have_text(looked)
        expect(tab.get_by_role("heading", name="area under the curve")).to_be_visible()


def test_by_keyboard_arrows_step_the_throw_the_readings_follow_and_a_button_adds_it(demo):
    at_speed(demo, "28.5")
    mass(demo).focus()
    demo.keyboard.press("ArrowUp")
    expect(demo.locator(".map-throw")).to_have_text("280 g at 28.5 m/s")
    demo.keyboard.press("Shift+ArrowDown")
    expect(demo.locator(".map-throw")).to_have_text("279 g at 28.5 m/s")
    demo.keyboard.press("ArrowDown")  # to the next whole step
    expect(demo.locator(".map-throw")).to_have_text("275 g at 28.5 m/s")
    speed(demo).focus()
    demo.keyboard.press("ArrowDown")
    demo.keyboard.press("Shift+ArrowUp")
    expect(demo.locator(".map-throw")).to_have_text("275 g at 28.1 m/s")
    said = demo.locator("[role=status]").filter(has_text="275 g at 28.1 m/s, varus torque:")
    expect(said).to_have_attribute("aria-live", "polite")
    demo.get_by_role("button", name="Add this throw to Compare").focus()
    demo.keyboard.press("Enter")
    expect(demo.locator(".map-notice")).to_contain_text("Added to Compare: 275 g at 28.1 m/s, throw 5")
    demo.keyboard.press("Enter")
    expect(demo.locator(".map-notice")).to_contain_text("275 g at 28.1 m/s is already in Compare: throw 5.")


def test_a_key_pressed_many_times_at_once_counts_every_time(demo):
    at_speed(demo, "28.5")
    mass(demo).focus()
    for _ in range(6):
        demo.keyboard.press("ArrowUp")
    expect(mass(demo)).to_have_value("305")  # six steps of 5 g
    expect(demo.locator(".map-throw")).to_have_text("305 g at 28.5 m/s")
    for _ in range(4):
        demo.keyboard.press("Shift+ArrowDown")
    expect(demo.locator(".map-throw")).to_have_text("301 g at 28.5 m/s")
    expect(mass(demo)).to_have_value("301")


def test_a_ball_typed_alone_is_thrown_at_full_speed_with_it(demo):
    mass(demo).fill("470")
    mass(demo).press("Enter")
    expect(demo.locator(".map-throw")).to_have_text("470 g at 23.8 m/s")  # the last column of the table
    expect(speed(demo)).to_have_attribute("placeholder", "23.8")


def test_another_quantity_draws_and_reads_another_map(demo):
    choose(demo, "Quantity", "Internal-rotation torque")
    expect(demo.locator(".map-looked caption")).to_have_text("Internal-rotation torque")
    choose(demo, "Readout", "area under the curve")
    expect(demo.get_by_role("heading", name="area under the curve")).to_be_visible()
    expect(demo.locator(".readings caption")).to_contain_text("area under the curve: release speed, m/s")
    expect(demo.locator(".map-looked .chosen")).to_contain_text("Area under the curve")


@pytest.mark.slow
def test_the_hundred_can_be_the_reference_throw(demo):
    choose(demo, "100 % is", "reference throw")
    expect(demo.locator(".map-notes")).to_contain_text("measured 2026-01-13 (the reference throw)")


def test_wrong_values_are_told_at_their_field_and_stay(demo):
    speed(demo).fill("fast")
    speed(demo).press("Tab")
    expect(demo.get_by_text("Release speed: “fast” given; accepted: 1 to 60 m/s")).to_be_visible()
    expect(speed(demo)).to_have_value("fast")
    demo.get_by_text("Ends of the axes").click()
    end = demo.get_by_label("Heaviest ball, g")
    end.fill("9000")
    end.press("Tab")
    expect(demo.get_by_text("Heaviest ball: “9000” given; accepted: 1 to 3000 g")).to_be_visible()
    expect(demo.locator(".readings tbody tr")).to_have_count(8)
    demo.reload()
    expect(speed(demo)).to_have_value("fast")
    expect(demo.get_by_label("Heaviest ball, g")).to_have_value("9000")


@pytest.mark.slow
def test_ends_of_ones_own_are_drawn_and_the_checked_range_is_named(demo):
    demo.get_by_text("Ends of the axes").click()
    end = demo.get_by_label("Heaviest ball, g")
    end.fill("1500")
    end.press("Enter")
    expect(demo.locator(".map-notes")).to_contain_text("Part of the map is outside the range in which two other")


@pytest.mark.slow
def test_another_athlete_of_the_picker_is_the_one_of_the_map(demo):
    demo.get_by_role("textbox", name="Athlete: type a code").click()
    demo.get_by_role("option", name="W04").click()
    expect(demo.locator(".summary")).to_contain_text("W04 · male · 13 years")
    expect(demo.get_by_text("The path comes from adult men; this thrower is 13 years old.")).to_be_visible()
    expect(demo.get_by_text("24 % of the group with weighted balls")).to_be_visible()
    for paper in ("A4", "Letter"):  # with the most cautions
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 1


@pytest.fixture
def newcomer(page, serve_app):
    """The page of an athlete of whom nothing is known."""
    app = create_app(Config(demo=False))
    app.server.config["LEVELPEAK"].store.new_athlete("N1", Hand())
    page.goto(f"{serve_app(app)}/map?athlete=N1")
    expect(page.get_by_text("No map yet.")).to_be_visible()
    return page


def test_without_measures_it_says_what_to_enter_and_where(newcomer):
    expect(newcomer.get_by_text("sex, throwing hand, age, stature, body mass")).to_be_visible()
    expect(newcomer.locator(AREA)).to_be_hidden()
    links = newcomer.get_by_role("link", name="Enter it on Athlete")
    expect(links).to_have_count(2)
    expect(links.first).to_have_attribute("href", "/athlete?athlete=N1")


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes(demo, assert_axe_clean, theme):
    put_on(demo, theme)
    expect(demo.locator(".map-throw")).to_be_visible()
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        assert_axe_clean(demo)
    speed(demo).fill("abc")
    speed(demo).press("Tab")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(1)
    assert_axe_clean(demo)


@pytest.mark.slow
def test_it_passes_wcag_empty_and_with_a_list_open(newcomer, served, assert_axe_clean):
    assert_axe_clean(newcomer)
    page = newcomer
    page.goto(f"{served}/map?athlete=W01")
    expect(page.locator(".map-throw")).to_be_visible()
    page.get_by_role("textbox", name="Quantity", exact=True).click()
    expect(page.get_by_role("option", name="Varus torque")).to_be_visible()
    assert_axe_clean(page)


def test_nothing_is_cut_off_in_a_narrow_window_and_labels_shrink_to_the_per_cent(demo):
    for width in (1023, 390):
        demo.set_viewport_size({"width": width, "height": 844})
        demo.reload()
        expect(demo.locator(".map-throw")).to_be_visible()
        assert demo.evaluate("document.documentElement.scrollWidth") <= width
        tops = [
            demo.locator(part).bounding_box()["y"] for part in (".map-asked", ".picture", ".map-one", ".readings-part")
        ]
        assert tops == sorted(tops)
    expect(demo.locator(".annotation-text").filter(has_text="level line")).to_have_count(0)
    expect(demo.locator(".annotation-text").filter(has_text="100 %")).to_have_count(1)


def test_it_prints_on_one_page_from_a_dark_screen_and_the_screen_is_as_before(demo):
    put_on(demo, "dark")
    expect(demo.locator(".map-throw")).to_be_visible()
    demo.evaluate(
        """() => addEventListener('beforeprint', () => {
            const graph = document.querySelector('.map-graph .js-plotly-plot');
            window.printed = [graph.layout.width, graph.layout.template.layout.paper_bgcolor];
        })"""
    )
    figure = demo.locator(".map-graph .main-svg").first
    before = figure.get_attribute("width")
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 1
        assert demo.evaluate("window.printed") == [690, "#ffffff"]
        expect(figure).to_have_attribute("width", before)
    demo.emulate_media(media="print")
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
    for part in (".map-graph", ".map-looked", ".readings", ".basis"):
        expect(demo.locator(part)).to_be_visible()
