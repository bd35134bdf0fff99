"""The Start page as a person meets it: limits, what matters most, on paper, with mistakes."""

import re

import pytest

from app.pages.start import ids
from app.pages.start.limits import ABSOLUTE
from app.records.acts import Edit, Hand
from app.records.reads import athlete_data
from app.units.systems import METRIC
from app.web.server import Config, create_app
from tests.browser.by_hand import choose, type_in
from tests.browser.compare_page import wait_until
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

COLUMNS = ".start-table thead th"
MATTERS = "What matters most"


@pytest.fixture
def app():
    """Records of the test's own: what it types is kept."""
    return create_app(Config(demo=True))


@pytest.fixture
def served(app, serve_app) -> str:
    return serve_app(app)


@pytest.fixture
def demo(page, served):
    """The page of an athlete of the demo, answered."""
    page.goto(f"{served}/start?athlete=W01")
    expect(page.locator(COLUMNS)).to_have_count(8)
    return page


def field(page, label: str):
    return page.get_by_role("textbox", name=label)


def sentence(page):
    return page.locator(".start .sentence")


def test_a_clinician_sets_limits_says_what_matters_and_takes_the_first_to_compare(demo):
    expect(demo.get_by_text("These limits are an example, to be changed")).to_be_visible()
    expect(sentence(demo)).to_contain_text("8 of 8 balls keep every limit")
    expect(demo.get_by_role("checkbox", name="145 g, own ball")).to_be_disabled()
    choose(demo, MATTERS, "longest time loaded")
    expect(sentence(demo)).to_contain_text("470 g at up to 96.7 % of full speed with it, 23.0 m/s")
    type_in(field(demo, "Time loaded at most"), "140")
    expect(sentence(demo)).to_contain_text("360 g at up to 94.3 %")
    expect(sentence(demo)).to_contain_text("7 of 8 balls keep every limit")
    expect(demo.locator(".start-closed")).to_contain_text("470 g fits at no speed")
    count = demo.get_by_role("radiogroup", name="Time loaded at most: counted in")
    count.get_by_text("ms").click()
    expect(field(demo, "Time loaded at most, ms")).to_have_value(re.compile(r"^1[0-9]{2}$"))
    expect(sentence(demo)).to_contain_text("360 g at up to 94.3 %")
    demo.get_by_role("checkbox", name="360 g").uncheck()
    expect(sentence(demo)).to_contain_text("275 g at up to")
    demo.get_by_role("radiogroup", name="Upright axis").get_by_text("speed", exact=True).click()
    expect(demo.locator(".start-graph")).to_contain_text("release speed, m/s")
    demo.get_by_role("button", name="Add the first to Compare").focus()
    demo.keyboard.press("Enter")
    expect(demo.get_by_text("Added to Compare: 275 g at")).to_be_visible()
    demo.get_by_text("oz, mph").click()
    expect(sentence(demo)).to_contain_text("9.7 oz at up to")
    link = demo.get_by_role("link", name="See it in Compare")
    expect(link).to_have_attribute("href", "/compare?athlete=W01")
    demo.reload()
    other = demo.context.new_page()
    other.goto(demo.url)
    for tab in (demo, other):
        expect(sentence(tab)).to_contain_text("9.7 oz at up to")
        expect(tab.get_by_role("checkbox", name="12.7 oz")).not_to_be_checked()
    demo.get_by_role("button", name="Example limits").click()
    expect(field(demo, "Time loaded at most")).to_have_value("")
    field(demo, MATTERS).focus()
    for key in ("Enter", "Enter"):  # the list opens on what is chosen, which is chosen once more: then nothing is
        demo.keyboard.press(key)
    expect(sentence(demo)).to_contain_text("7 of 7 balls keep every limit")


def test_nothing_fits_is_told_with_what_closes_each_ball_and_wrong_values_at_their_field(demo):
    demo.get_by_role("button", name="Empty all limits").click()
    type_in(field(demo, "Elbow, area at most"), "20")
    expect(sentence(demo)).to_contain_text("Nothing fits")
    expect(demo.locator(".start-closed")).to_contain_text("All 8 balls fit at no speed: area at most 20 %")
    type_in(field(demo, "Elbow, peak at most"), "a lot")
    expect(demo.get_by_text("Elbow, peak at most: “a lot” given; accepted: 1 to 500 %")).to_be_visible()
    expect(demo.get_by_text("Missing or to be mended above: elbow, peak at most.")).to_be_visible()
    demo.reload()
    expect(field(demo, "Elbow, peak at most")).to_have_value("a lot")
    expect(demo.get_by_text("Missing or to be mended above: elbow, peak at most.")).to_be_visible()
    demo.get_by_role("button", name="Undo").click()  # the area, the last that was kept
    expect(field(demo, "Elbow, area at most")).to_have_value("")


def test_the_throw_that_is_pressed_goes_to_build_up_with_the_athlete(page, app, served):
    page.goto(f"{served}/start?athlete=W04")
    expect(page.locator(".start-growing")).to_contain_text("still growing")
    page.get_by_role("textbox", name="Athlete: type a code").click()
    page.get_by_role("option", name="W06").click()
    expect(page.locator(".start-reference")).to_contain_text("from before an injury, 2025-09-02")
    page.get_by_role("button", name="Plan from this: 275 g").click()
    expect(page).to_have_url(re.compile(r"/build-up\?athlete=W06$"))
    page.go_back()
    expect(page.locator(".start-reference")).to_contain_text("2025-09-02")
    page.get_by_role("button", name="Plan from this: 275 g").click()  # the same once more
    expect(page).to_have_url(re.compile(r"/build-up\?athlete=W06$"))


def test_counting_a_limit_another_way_by_keyboard_keeps_the_focus_there(demo):
    group = demo.get_by_role("radiogroup", name="Elbow, peak at most: counted in")
    group.get_by_role("radio", name="%").focus()
    demo.keyboard.press("ArrowRight")
    expect(field(demo, "Elbow, peak at most, N·m")).to_have_value(re.compile(r"^49[.]2$"))  # 80 % of 61.5 N·m
    expect(group.get_by_role("radio", name="N·m")).to_be_focused()


def test_of_two_limits_typed_at_once_the_slower_older_answer_does_not_stand_over_the_newer(demo):
    held = []

    def hold_the_first(route):
        if f"{ids.START_SENTENCE}.children" not in (route.request.post_data or "") or held:
            route.continue_()
        else:
            held.append(route)

    demo.route("**/_dash-update-component*", hold_the_first)
    with demo.expect_response(
        lambda answer: held and f"{ids.START_SENTENCE}.children" in (answer.request.post_data or "")
    ):
        type_in(field(demo, "Time loaded at most"), "110")
        wait_until(demo, f"document.querySelector('#{ids.START_BUSY}').hidden === false")
        type_in(field(demo, "Elbow, peak at most"), "60")
    held[0].continue_()
    demo.evaluate("() => window.levelpeak.settled()")
    expect(sentence(demo)).to_contain_text("Nothing fits")


def test_of_an_athlete_without_measures_it_says_what_to_enter_and_where(page, serve_app):
    app = create_app(Config(demo=False))
    app.server.config["LEVELPEAK"].store.new_athlete("N1", Hand())
    page.goto(f"{serve_app(app)}/start?athlete=N1")
    expect(page.get_by_text("sex, throwing hand, age, stature, body mass")).to_be_visible()
    expect(page.get_by_role("link", name="Enter it on Athlete")).to_have_attribute("href", "/athlete?athlete=N1")


@pytest.mark.slow
def test_a_wanted_peak_is_typed_for_one_still_growing_and_stays(page, served):
    page.goto(f"{served}/start?athlete=W04")
    expect(page.get_by_text("this thrower is 13 years old")).to_be_visible()
    choose(page, MATTERS, "nearest")
    type_in(field(page, "Wanted peak at the elbow"), "70")
    expect(page.locator(".start-table")).to_contain_text("Speed nearest to a peak of 70 %")
    expect(sentence(page)).to_contain_text("145 g, the own ball, at ")
    page.reload()
    expect(field(page, "Wanted peak at the elbow")).to_have_value("70")


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes(demo, assert_axe_clean, theme):
    put_on(demo, theme)
    choose(demo, MATTERS, "gentlest rise")
    type_in(field(demo, "Time loaded at most"), "140")
    expect(demo.locator(".start-closed")).to_be_visible()
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        assert demo.evaluate("document.documentElement.scrollWidth") <= width
        assert_axe_clean(demo)
    type_in(field(demo, "Certainty, %"), "abc")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(1)
    assert_axe_clean(demo)


def test_the_sheet_prints_on_one_page_from_a_dark_screen_even_with_every_limit_and_caution(page, app, served):
    limits = {"least_loaded": "80", "most_loaded": "260", "speed": "30"}
    absolute = {"elbow_peak": "23", "shoulder_peak": "24", "rise_rate": "194", "braking": "15.9", "area": "3.2"}
    store = app.server.config["LEVELPEAK"].store
    edits = [Edit("limits.counted", ABSOLUTE, name) for name in absolute]
    edits += [Edit("limits.amount", text, name) for name, text in (absolute | limits).items()]
    w04 = athlete_data(store, "W04").athlete.uid  # the thrower with the most cautions
    store.act(w04, [*edits, Edit("start.aim", "nearest_peak")], Hand("one"), METRIC)
    demo = page
    demo.goto(f"{served}/start?athlete=W04")
    put_on(demo, "dark")
    expect(demo.get_by_text("this thrower is 13 years old")).to_be_visible()
    expect(demo.locator(COLUMNS)).not_to_have_count(0)
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 1
    demo.emulate_media(media="print")
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
    for part in (".start-growing", ".start-sheet-limits", ".start-order", ".start-table", ".start-notes"):
        expect(demo.locator(part)).to_be_visible()
    for part in (".start-cautions", ".start-by-hand"):
        expect(demo.locator(part)).to_be_visible()
    right = demo.locator(".start-table").bounding_box()
    assert right["x"] + right["width"] <= demo.viewport_size["width"]


@pytest.mark.parametrize("pause_ms", [0, 400])
def test_what_is_typed_while_the_page_is_made_anew_is_kept_and_stands_there(demo, pause_ms):
    def late(route) -> None:  # the page was read before what is typed now is kept, and comes after it
        asked = (route.request.post_data_json or {}).get("changedPropIds")
        if asked != ["bind-refresh.data"]:
            return route.continue_()
        answer = route.fetch()
        demo.wait_for_timeout(300)
        return route.fulfill(response=answer)

    demo.route("**/_dash-update-component", late)
    demo.get_by_role("button", name="Empty all limits").click()
    field(demo, "Elbow, area at most").fill("20")
    demo.wait_for_timeout(pause_ms)
    demo.keyboard.press("Tab")
    expect(sentence(demo)).to_contain_text("Nothing fits")
    expect(field(demo, "Elbow, area at most")).to_have_value("20")
    demo.unroute_all(behavior="wait")
