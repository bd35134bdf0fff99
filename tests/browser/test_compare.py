"""The Compare page as a person meets it: with mouse and keyboard, on a phone, on paper, and with all typed wrong."""

import re

import pytest

from tests.browser.compare_page import HEADLINE, LINES, ROWS, choose, drawn, field, load_again, open_demo, type_in
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def demo(page, served):
    """The page on its demo data, drawn."""
    open_demo(page, served)
    return page


def test_it_opens_on_the_demo_with_sentence_figure_and_table(demo):
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 28.5 m/s against 145 g at 33.0 m/s (measured): peak ")
    expect(demo.get_by_text("Invented demo data: nobody here exists")).to_be_visible()
    expect(demo.get_by_role("heading", name="Varus torque at the elbow")).to_be_visible()
    sizes = demo.evaluate("[...document.querySelectorAll('main *')].map(e => parseFloat(getComputedStyle(e).fontSize))")
    own = demo.locator(HEADLINE).evaluate("e => parseFloat(getComputedStyle(e).fontSize)")
    assert own == max(sizes)  # the design page, section 6: the sentence is the largest type on the page
    expect(demo.locator(".modebar-btn")).to_have_count(0)  # nothing on the figure sends it away


def test_a_changed_speed_changes_the_curve_the_sentence_and_the_table(demo):
    before = drawn(demo)
    type_in(demo, field(demo, "Release speed", 2), "30")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 30.0 m/s against")
    expect(demo.locator(".readings")).to_contain_text("275 g at 30.0 m/s")
    assert drawn(demo) != before


def test_enter_is_enough_and_a_comma_marks_decimals_and_stays_as_typed(demo):
    box = field(demo, "Release speed", 2)
    box.fill("29,5")
    box.press("Enter")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 29.5 m/s against")
    expect(box).to_have_value("29,5")


def test_a_wrong_value_gets_its_message_keeps_its_text_and_leaves_the_other_curves(demo):
    box = field(demo, "Release speed", 2)
    for typed in ("abc", "1e400", "NaN", "0", "-5", "9" * 38):
        type_in(demo, box, typed)
        told = demo.locator(".rows").get_by_text(f"Release speed: “{typed[:23]}")
        expect(told).to_contain_text("given; accepted: 1 to 60 m/s")
        expect(demo.locator(LINES)).to_have_count(3)
        expect(box).to_have_value(typed)
        expect(box).to_have_attribute("aria-invalid", "true")
        assert told.get_attribute("id") in box.get_attribute("aria-describedby")
    type_in(demo, box, "28.5")
    expect(demo.locator(LINES)).to_have_count(4)
    expect(demo.locator(".rows").get_by_text("Release speed: “")).to_have_count(0)


def test_a_wrong_measure_says_which_and_nothing_typed_is_lost(demo):
    type_in(demo, demo.get_by_label("Stature, cm"), "1.88")
    expect(demo.get_by_text("Stature: “1.88” given; accepted: 90 to 230 cm.")).to_be_visible()
    expect(demo.locator(HEADLINE)).to_have_text("No curves until this is mended: stature.")
    expect(field(demo, "Release speed", 4)).to_have_value("23.8")
    type_in(demo, demo.get_by_label("Stature, cm"), "188")
    expect(demo.locator(LINES)).to_have_count(4)


def test_a_value_typed_right_before_a_button_is_pressed_is_not_lost(demo):
    field(demo, "Release speed", 2).fill("27.7")
    demo.get_by_role("button", name="Add a throw").click()
    expect(demo.locator(ROWS)).to_have_count(5)
    expect(field(demo, "Release speed", 2)).to_have_value("27.7")
    expect(demo.locator(HEADLINE)).to_contain_text("275 g at 27.7 m/s against")


def test_whoever_types_while_the_list_is_made_anew_types_on(demo):
    field(demo, "Release speed", 1).scroll_into_view_if_needed()
    demo.get_by_role("textbox", name="Stature, cm").fill("190")
    field(demo, "Ball mass", 1).click(click_count=3)  # leaves the stature: throws are held at their clock from then on
    demo.keyboard.type("15")
    expect(demo.get_by_text("The measures changed; the throws keep their joint speeds")).to_be_visible()
    expect(field(demo, "Ball mass", 1)).to_have_value("15")
    demo.keyboard.type("2")
    demo.keyboard.press("Tab")
    expect(demo.locator(HEADLINE)).to_contain_text("against 152 g")


def test_copy_move_remove_and_put_back_by_keyboard_with_the_focus_following(demo):
    demo.get_by_role("button", name="Copy throw 2").focus()
    demo.keyboard.press("Enter")
    expect(field(demo, "Release speed", 3)).to_be_focused()
    expect(field(demo, "Ball mass", 3)).to_have_value("275")
    demo.get_by_role("button", name="Move throw 3 down").focus()
    demo.keyboard.press("Enter")
    expect(demo.get_by_role("button", name="Move throw 4 down")).to_be_focused()
    expect(field(demo, "Ball mass", 3)).to_have_value("95")
    demo.get_by_role("button", name="Remove throw 1").focus()
    demo.keyboard.press("Enter")
    expect(demo.locator(ROWS)).to_have_count(4)
    expect(demo.get_by_role("button", name="Remove throw 1")).to_be_focused()
    expect(demo.get_by_role("radio", name="Throw 1 is the reference")).to_be_checked()
    demo.get_by_role("button", name="Put back").focus()
    demo.keyboard.press("Enter")
    expect(demo.locator(ROWS)).to_have_count(5)
    expect(field(demo, "Ball mass", 1)).to_have_value("145")


@pytest.mark.slow
def test_a_ball_of_the_rack_is_added_ready_for_its_speed(demo):
    choose(demo, "Add a ball from the rack", "rack 210 g")
    expect(field(demo, "Release speed", 5)).to_be_focused()
    demo.keyboard.type("30.5")
    demo.keyboard.press("Enter")
    expect(demo.locator(LINES)).to_have_count(5)
    expect(demo.locator(".others")).to_contain_text("210 g at 30.5 m/s against")


def test_eight_throws_are_the_most(demo):
    for count in range(5, 9):
        demo.get_by_role("button", name="Copy throw 1").click()
        expect(demo.locator(ROWS)).to_have_count(count)
    demo.get_by_role("button", name="Add a throw").click()
    expect(demo.get_by_text("The list is full: 8 throws.")).to_be_visible()
    expect(demo.get_by_role("button", name="Copy throw 1")).to_be_disabled()
    expect(demo.locator(LINES)).to_have_count(8)


def test_another_reference_is_the_dashed_line_and_its_kind_stands_beside_every_per_cent(demo):
    demo.get_by_role("radio", name="Throw 2 is the reference").check()
    expect(demo.locator(HEADLINE)).to_contain_text("145 g at 33.0 m/s against 275 g at 28.5 m/s (measured)")
    choose(demo, "Reference is", "from before an injury")
    expect(demo.locator(HEADLINE)).to_contain_text("(from before an injury, 2026-01-13)")
    cells = demo.locator(".readings td").filter(has_text=" % of ")
    expect(cells.first).to_contain_text("% of pre-injury")
    assert all(text.endswith(" % of pre-injury") for text in cells.all_inner_texts())
    dashed = demo.locator(LINES).evaluate_all(
        "lines => lines.filter(line => line.style.strokeDasharray && line.style.strokeDasharray !== 'none').length"
    )
    assert dashed == 1


@pytest.mark.slow
def test_the_first_sentence_is_about_the_chosen_throw(demo):
    choose(demo, "First sentence about", "470 g at 23.8 m/s")
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at 23.8 m/s against")
    expect(demo.locator(".others")).to_contain_text("275 g at 28.5 m/s against")


@pytest.mark.slow
def test_another_quantity_is_named_drawn_and_read(demo):
    before = drawn(demo)
    choose(demo, "Quantity", "Shoulder proximal force")
    expect(demo.get_by_role("heading", name="Shoulder proximal force")).to_be_visible()
    expect(demo.locator(".readings caption")).to_contain_text("to the end of the follow-through")
    expect(demo.locator(".readings")).to_contain_text(" after")
    assert drawn(demo) != before


@pytest.mark.slow
def test_a_level_of_ones_own_is_used_and_a_wrong_one_told(demo):
    level = demo.get_by_label("Time above, N·m")
    type_in(demo, level, "50")
    expect(demo.locator(".readings")).to_contain_text("above 50 N·m")
    type_in(demo, level, "fifty")
    expect(demo.get_by_text("Level: “fifty” given; accepted: 0.1 to 2000 N·m")).to_be_visible()
    expect(demo.locator(LINES)).to_have_count(4)


def test_for_a_child_the_page_says_whose_path_it_is_and_brings_the_caution_with_its_source(demo):
    choose(demo, "Demo thrower", "W04")
    expect(demo.get_by_text("The path comes from adult men; this thrower is 13 years old.")).to_be_visible()
    expect(demo.get_by_text("24 % of the group with weighted balls")).to_be_visible()
    expect(demo.get_by_text("Reinold MM")).to_be_visible()
    demo.get_by_role("button", name="Put back").click()
    expect(demo.get_by_label("Code")).to_have_value("W01")
    expect(demo.get_by_text("24 % of the group with weighted balls")).to_have_count(0)


def test_a_throw_outside_the_checked_range_is_drawn_and_named(demo):
    type_in(demo, field(demo, "Ball mass", 2), "5")
    expect(demo.locator(".beyond li")).to_have_text(
        [
            "5 g at 28.5 m/s is outside the range in which two other mechanics programs give the same torques: "
            "balls from 50 to 1000 g.",
            "That is a check of the calculation, not of throwers.",
        ]
    )
    expect(demo.locator(LINES)).to_have_count(4)


def test_a_reload_keeps_everything_as_it_was_typed_right_or_wrong(demo):
    type_in(demo, field(demo, "Release speed", 2), "28,50")
    type_in(demo, field(demo, "Release speed", 3), "fast")
    choose(demo, "Quantity", "Abduction torque")
    expect(demo.get_by_role("heading", name="Abduction torque at the shoulder")).to_be_visible()
    expect(demo.locator(LINES)).to_have_count(3)
    load_again(demo)
    expect(demo.locator(LINES)).to_have_count(3)
    expect(field(demo, "Release speed", 2)).to_have_value("28,50")
    expect(field(demo, "Release speed", 3)).to_have_value("fast")
    expect(demo.get_by_text("Release speed: “fast” given")).to_be_visible()
    expect(demo.get_by_role("heading", name="Abduction torque at the shoulder")).to_be_visible()


@pytest.mark.slow
def test_a_broken_kept_form_falls_back_to_the_demo(demo):
    # what is no JSON at all, the browser's part of Dash takes for nothing kept: then nothing is said
    for kept, said in (('{"version": 9}', 1), ('[{"a": 1}]', 1), ("{not json", 0)):
        demo.evaluate("kept => sessionStorage.setItem('compare-saved', kept)", kept)
        load_again(demo)
        expect(demo.locator(LINES)).to_have_count(4)
        expect(demo.get_by_label("Code")).to_have_value("W01")
        expect(demo.get_by_text("What was kept from last time could not be read")).to_have_count(said)


@pytest.mark.slow
def test_what_no_keyboard_could_type_breaks_nothing(demo):
    part = "{type: 'compare-throw', throw: 't2', name: 'speed_m_s'}"
    for sent, curves in (("[1, 2]", 3), ("12.5", 4), ("{a: 1}", 3), ("true", 3), ("null", 3)):
        demo.evaluate(f"() => dash_clientside.set_props({part}, {{value: {sent}}})")
        expect(demo.locator(LINES)).to_have_count(curves)
        expect(demo.get_by_text("Traceback")).to_have_count(0)


def test_without_the_demo_it_invites_and_answers_once_all_is_typed(page, served_empty):
    page.goto(served_empty)
    expect(page.locator(HEADLINE)).to_contain_text("Enter a thrower’s measures and two throws")
    expect(page.locator(".readings")).to_have_count(0)
    expect(page.locator(".mantine-InputWrapper-error")).to_have_count(0)
    choose(page, "Sex", "female")
    choose(page, "Throwing hand", "left")
    for label, typed in (("Age, years", "22"), ("Stature, cm", "172"), ("Body mass, kg", "68")):
        type_in(page, page.get_by_label(label), typed)
    for throw, (mass, speed) in enumerate((("145", "28.3"), ("275", "25.2")), start=1):
        type_in(page, field(page, "Ball mass", throw), mass)
        type_in(page, field(page, "Release speed", throw), speed)
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 25.2 m/s against 145 g at 28.3 m/s (measured): peak ")
    expect(page.get_by_text("The path comes from adult men; this thrower is female.")).to_be_visible()
    expect(page.locator(".mantine-InputWrapper-error")).to_have_count(0)


@pytest.mark.slow
def test_without_the_demo_an_invented_example_is_one_click_away(page, served_empty):
    page.goto(served_empty)
    page.get_by_role("button", name="See an invented example").click()
    expect(page.locator(LINES)).to_have_count(4)


@pytest.mark.slow
def test_after_start_empty_nothing_is_called_invented_and_the_notice_goes_once_something_is_typed(demo):
    demo.get_by_role("button", name="Start empty").click()
    notice = demo.get_by_text("The form was emptied.")
    expect(notice).to_be_visible()
    expect(demo.get_by_text("Invented demo data")).to_be_hidden()
    type_in(demo, demo.get_by_label("Age, years"), "22")
    expect(notice).to_be_hidden()
    expect(demo.get_by_role("button", name="Put back")).to_be_hidden()
    demo.get_by_role("button", name="See an invented example").click()
    expect(demo.get_by_text("Invented demo data")).to_be_visible()
    expect(demo.get_by_role("button", name="Put back")).to_be_visible()


@pytest.mark.slow
def test_an_emptied_list_says_what_to_do(demo):
    for left in (3, 2, 1, 0):
        demo.get_by_role("button", name="Remove throw 1").click()
        expect(demo.locator(ROWS)).to_have_count(left)
    expect(demo.locator(HEADLINE)).to_have_text("No throws in the list: add one.")
    demo.get_by_role("button", name="Add a throw").click()
    expect(demo.locator(ROWS)).to_have_count(1)


def test_every_control_can_be_reached_with_the_tab_key_in_reading_order(demo):
    demo.get_by_label("Code").focus()
    names = []
    for _ in range(70):  # words that can be asked for are stops too
        names.append(
            demo.evaluate(
                """() => {
                  const at = document.activeElement;
                  const label = at.labels && at.labels[0] ? at.labels[0].textContent : '';
                  return at.getAttribute('aria-label') || label || at.textContent;
                }"""
            )
        )
        ringed = demo.evaluate("getComputedStyle(document.activeElement).outlineStyle !== 'none'")
        assert ringed, f"no focus to be seen on {names[-1]}"
        if names[-1].startswith("Readings"):
            break
        demo.keyboard.press("Tab")
    wanted = ["Code", "Stature, cm", "Measured arm lengths", "Quantity", "Ball mass of throw 1, g", "Copy throw 1"]
    wanted += ["Remove throw 4", "Add a throw", "Reference is", "Time above, N·m", "Readings, scrolls sideways"]
    places = [names.index(name) for name in wanted]
    assert places == sorted(places)


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes(demo, assert_axe_clean, theme):
    put_on(demo, theme)
    expect(demo.locator(LINES)).to_have_count(4)
    demo.locator("summary", has_text="Take along").click()
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        expect(demo.locator("html")).to_have_js_property("scrollWidth", width)
        if width != 1024:
            assert_axe_clean(demo)
    type_in(demo, field(demo, "Release speed", 2), "abc")
    type_in(demo, demo.get_by_label("Body mass, kg"), "")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(2)
    assert_axe_clean(demo)


@pytest.mark.slow
def test_it_passes_wcag_empty_and_with_a_list_open(demo, assert_axe_clean):
    demo.get_by_role("textbox", name="Quantity", exact=True).click()
    expect(demo.get_by_role("option", name="Varus torque")).to_be_visible()
    assert_axe_clean(demo)
    demo.keyboard.press("Escape")
    demo.get_by_role("button", name="Start empty").click()
    expect(demo.locator(HEADLINE)).to_contain_text("Enter a thrower’s measures")
    assert_axe_clean(demo)


@pytest.mark.slow
def test_a_dark_page_has_a_dark_figure(demo):
    put_on(demo, "dark")
    expect(demo.locator(LINES)).to_have_count(4)
    ground = demo.locator(".picture .main-svg").first.evaluate("e => getComputedStyle(e).backgroundColor")
    paper = demo.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground == paper == "rgb(21, 24, 28)"  # the palette's dark paper, #15181c


def test_a_narrow_window_is_one_column_in_the_designs_order_and_nothing_is_cut_off(demo):
    for width in (1023, 390):
        demo.set_viewport_size({"width": width, "height": 844})
        load_again(demo)
        expect(demo.locator(LINES)).to_have_count(4)
        expect(demo.locator(".readings")).to_be_visible()
        parts = [".who", ".answer", ".picture", ".throws", ".readings-part", ".basis"]
        boxes = [demo.locator(part).bounding_box() for part in parts]
        tops = [box["y"] for box in boxes]
        assert tops == sorted(tops)
        assert all(box["x"] >= 0 and box["x"] + box["width"] <= width for box in boxes)
        assert demo.evaluate("document.documentElement.scrollWidth") <= width
    assert demo.locator(".scrolls").evaluate("e => e.scrollWidth > e.clientWidth")  # the table scrolls by itself


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize("count", [pytest.param(4, marks=pytest.mark.slow), 8])
def test_it_prints_on_one_page_from_a_dark_screen_and_the_screen_is_as_before(demo, count):
    put_on(demo, "dark")
    expect(demo.locator(LINES)).to_have_count(4)
    for more in range(5, count + 1):
        demo.get_by_role("button", name="Copy throw 2").click()
        expect(demo.locator(ROWS)).to_have_count(more)
    expect(demo.locator(LINES)).to_have_count(count)
    expect(demo.locator(".readings tbody tr")).to_have_count(count)
    demo.evaluate(
        """() => addEventListener('beforeprint', () => {
            const graph = document.querySelector('.js-plotly-plot');
            window.printed = [graph.layout.width, graph.layout.template.layout.paper_bgcolor];
        })"""
    )
    figure = demo.locator(".picture .main-svg").first
    before = figure.get_attribute("width"), figure.evaluate("e => e.style.background")
    for paper in ("A4", "Letter"):
        assert pages_of(demo.pdf(format=paper)) == 1
        assert demo.evaluate("window.printed") == [690, "#ffffff"]
        expect(figure).to_have_attribute("width", before[0])
        assert figure.evaluate("e => e.style.background") == before[1]


@pytest.mark.slow
def test_what_is_printed_is_what_is_shown_and_nothing_to_press(demo):
    demo.emulate_media(media="print")
    for part in (HEADLINE, ".picture", ".readings", ".basis", ".summary"):
        expect(demo.locator(part)).to_be_visible()
    expect(demo.get_by_text(re.compile(r"Levelpeak .* · printed \d{4}-\d{2}-\d{2}"))).to_be_visible()
    for part in (".who", ".throws", ".asked", ".strip", ".notice"):
        expect(demo.locator(part)).to_be_hidden()
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
