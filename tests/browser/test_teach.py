"""The Teach page as a presenter meets it: by hand, by key, on a projector, on paper, and with reduced motion."""

import re

import pytest

from app.pages.teach.words import TITLES
from app.web.server import Config, create_app
from tests.browser.by_hand import choose
from tests.browser.compare_page import wait_until
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

TITLE = "#teach-title"
COUNT = "#teach-count"
STEPS = len(TITLES)


@pytest.fixture
def teach(page, served):
    """W01's page, its first step on the stage."""
    return opened(page, served, "W01")


def opened(page, served: str, code: str):
    page.goto(f"{served}/teach?athlete={code}")
    expect(page.locator(TITLE)).to_have_text("One throw and its curve")
    return page


def set_up(page) -> None:
    page.get_by_text("Set up: session, balls, steps").click()


def hand(page) -> tuple[float, float]:
    """Where the ball's end of the hand is drawn."""
    line = page.locator("#teach-picture .thrower .link.ball")
    return float(line.get_attribute("x2")), float(line.get_attribute("y2"))


def phase(page) -> float:
    return float(page.locator("#teach-instant").input_value())


def go_to(page, title: str) -> None:
    for _ in range(STEPS):
        if page.locator(TITLE).inner_text() == title:
            return
        page.keyboard.press("ArrowRight")
    raise AssertionError(f"no step {title}")


def test_a_presenter_goes_through_the_story_by_key_and_everything_on_it_can_be_moved(teach):
    expect(teach.locator("#teach-when")).to_contain_text("maximum external rotation")
    before = hand(teach)
    box = teach.locator(".pane-curve").bounding_box()
    teach.mouse.move(box["x"] + 0.6 * box["width"], box["y"] + 0.5 * box["height"])
    teach.mouse.down()
    teach.mouse.move(box["x"] + 0.25 * box["width"], box["y"] + 0.5 * box["height"], steps=3)
    teach.mouse.up()
    assert hand(teach) != before
    assert phase(teach) < 0.6
    teach.locator("#teach-instant").press("End")
    expect(teach.locator("#teach-when")).to_contain_text("after release: the hand is empty")
    expect(teach.locator("#teach-picture .the-ball")).to_have_count(0)
    teach.get_by_label("Slowed to").select_option("100")
    teach.keyboard.press("Escape")
    teach.locator("#teach-stage").focus()
    teach.keyboard.press("p")
    wait_until(teach, "(at => at > 0.05 && at < 1)(Number(document.querySelector('#teach-instant').value))")
    teach.keyboard.press("p")
    stopped = phase(teach)
    teach.wait_for_timeout(100)
    assert phase(teach) == stopped < 1.0
    side = hand(teach)
    teach.get_by_label("Seen from").select_option("front")
    assert hand(teach) != side
    box = teach.locator(".pane-arm").bounding_box()
    teach.mouse.move(box["x"] + 100, box["y"] + 100)
    teach.mouse.down()
    teach.mouse.move(box["x"] + 180, box["y"] + 140, steps=3)
    teach.mouse.up()
    expect(teach.get_by_label("Seen from")).to_have_value("turn")
    teach.locator("#teach-stage").focus()
    go_to(teach, "A longer forearm")
    expect(teach.locator(".stage-said")).to_contain_text("unchanged")
    curve = teach.locator("#teach-picture .graph-of .curve:not(.dashed)").first
    drawn, held = curve.get_attribute("d"), hand(teach)
    teach.locator("#teach-slide").press("End")  # arrows and End belong to the slider that has the focus
    expect(teach.locator(TITLE)).to_have_text("A longer forearm")
    expect(teach.locator(".stage-said")).to_contain_text("+20 %")
    assert curve.get_attribute("d") != drawn
    assert hand(teach) != held
    teach.locator("#teach-stage").focus()
    go_to(teach, "Which of the four numbers grew?")
    for name, count in (("Peak", "7"), ("Time loaded", "2"), ("Rise rate", "0"), ("Area under the curve", "5")):
        teach.get_by_label(f"{name}: hands raised").fill(count)
    expect(teach.locator(".answer-of:visible")).to_have_count(0)
    teach.get_by_role("button", name="Show the numbers").click()
    # as Compare reads of the same two throws
    expect(teach.locator(".answer-of").first).to_have_text("did not grow, −8 % 61.5 N·m → 56.6 N·m")
    teach.locator("#teach-stage").focus()
    teach.keyboard.press("ArrowRight")
    teach.keyboard.press("ArrowLeft")
    expect(teach.get_by_label("Peak: hands raised")).to_have_value("")
    expect(teach.locator(COUNT)).to_have_text("8 / 11")
    go_to(teach, "What it is good for")
    teach.set_viewport_size({"width": 1024, "height": 768})
    right = "text.getBBox().x + text.getBBox().width"
    cut = f"texts => texts.some(text => {right} > text.ownerSVGElement.viewBox.baseVal.width + 1)"
    wait_until(teach, "document.querySelector('#teach-picture svg').viewBox.baseVal.width < 400")
    assert not teach.locator("#teach-picture text").evaluate_all(cut)
    go_to(teach, "What the model does not know")
    expect(teach.locator("#teach-notes")).to_contain_text("calibrated, not evidence")
    expect(teach.locator("#teach-on")).to_have_attribute("aria-disabled", "true")


def test_a_session_is_set_up_and_stands_there_after_a_reload_and_in_another_tab(page, served, assert_axe_clean):
    teach = opened(page, served, "W02")
    set_up(teach)
    teach.get_by_role("button", name="Drop: A heavier hand").click()
    expect(teach.locator(COUNT)).to_have_text("1 / 10")
    expect(teach.get_by_role("button", name="Take in: A heavier hand")).to_be_focused()
    choose(teach, "Ball beside the own one", "360 g")
    expect(teach.locator("#teach-picture .graph-of .name").first).to_have_text("145 g at 36.2 m/s")  # by the readings
    expect(teach.get_by_role("textbox", name="Ball beside the own one")).to_have_value("360 g, 73 mm")
    expect(teach.get_by_role("textbox", name="Ball beside the own one")).to_be_focused()  # the page stands again
    teach.get_by_role("button", name="Move up: A longer forearm").press("Enter")
    expect(teach.locator(".teach-steps li").nth(1)).to_contain_text("A longer forearm")
    expect(teach.get_by_role("button", name="Move up: A longer forearm")).to_be_focused()
    name = teach.get_by_role("textbox", name="Name of the session")
    name.fill("Tuesday")
    name.press("Enter")
    expect(teach.get_by_role("textbox", name="Session", exact=True)).to_have_value("Tuesday")
    assert_axe_clean(teach)
    with teach.context.new_page() as other:
        opened(other, served, "W01")  # the session is the team's
        expect(other.locator(COUNT)).to_have_text("1 / 10")
    teach.reload()
    expect(teach.locator(COUNT)).to_have_text("1 / 10")
    set_up(teach)
    expect(teach.locator(".teach-steps li").nth(1)).to_contain_text("A longer forearm")
    # a left-hander, seen from the throwing side, throws to the left: laid back, the hand is to the right of the elbow
    elbow = float(teach.locator("#teach-picture .thrower .link.wrist").get_attribute("x1"))
    assert hand(teach)[0] > elbow
    for _ in range(2):
        teach.get_by_role("button", name="Undo").click()
        expect(teach.get_by_role("textbox", name="Session", exact=True)).to_have_value("Session 1")
    expect(teach.locator(".teach-steps li").nth(1)).to_contain_text("A heavier hand")
    teach.get_by_role("button", name="New session").click()
    expect(teach.locator(COUNT)).to_have_text("1 / 11")
    set_up(teach)
    choose(teach, "Session", "Session 1")
    expect(teach.locator(COUNT)).to_have_text("1 / 10")
    set_up(teach)
    teach.get_by_role("button", name="Remove it").click()
    expect(teach.get_by_text("The session was removed; Undo brings it back.")).to_be_visible()
    expect(teach.locator(COUNT)).to_have_text("1 / 11")


def test_a_session_is_saved_as_a_file_and_opens_elsewhere_for_the_athlete_who_is_there(teach, tmp_path, serve_app):
    set_up(teach)
    teach.get_by_role("button", name="Drop: A heavier hand").click()
    expect(teach.locator(COUNT)).to_have_text("1 / 10")
    with teach.expect_download() as saved:
        teach.get_by_role("button", name="Save this session as a file").click()
    path = tmp_path / "session.json"
    saved.value.save_as(path)
    assert "W01" not in path.read_text(encoding="utf-8")
    elsewhere = serve_app(create_app(Config(demo=True)))
    opened(teach, elsewhere, "W03")
    set_up(teach)
    teach.locator("#teach-open input[type=file]").set_input_files(path)
    expect(teach.get_by_text("“Session 1” was opened")).to_be_visible()
    expect(teach.locator(COUNT)).to_have_text("1 / 10")
    expect(teach).to_have_url(re.compile(r"athlete=W03&lesson=\w+$"))
    other = tmp_path / "other.json"
    other.write_text("{}", encoding="utf-8")
    teach.locator("#teach-open input[type=file]").set_input_files(other)
    expect(teach.get_by_text("The file was not opened: it holds no session")).to_be_visible()
    expect(teach.locator(COUNT)).to_have_text("1 / 10")


def test_where_no_athlete_is_yet_it_says_so_and_a_session_can_be_set_up(page, served_empty):
    page.goto(f"{served_empty}/teach")
    expect(page.get_by_text("No athlete is chosen.")).to_be_visible()
    expect(page.locator("#teach-stage")).to_be_hidden()
    set_up(page)
    page.get_by_role("button", name="Drop: A heavier hand").click()
    expect(page.get_by_role("textbox", name="Session", exact=True)).to_have_value("Session 1")


TOO_SMALL = """() => {
  const [text, line] = [innerHeight / 40, innerHeight / 250];
  const found = [];
  const seen = (node) => node.getClientRects().length && getComputedStyle(node).visibility !== 'hidden';
  for (const node of document.querySelectorAll('#teach-stage *')) {
    if (!seen(node) || node.closest('.hidden')) continue;
    const style = getComputedStyle(node);
    const words = [...node.childNodes].some((one) => one.nodeType === 3 && one.textContent.trim());
    const name = `${node.tagName} ${node.className.baseVal ?? node.className}`;
    if (words && parseFloat(style.fontSize) < text) found.push(`${name} ${style.fontSize}: ${node.textContent}`);
    const drawn = ['line', 'path', 'polyline'].includes(node.tagName) && style.stroke !== 'none';
    if (drawn && parseFloat(style.strokeWidth) < line) found.push(`${name} stroke ${style.strokeWidth}`);
    for (const side of ['Top', 'Right', 'Bottom', 'Left']) {
      const width = parseFloat(style[`border${side}Width`]);
      if (width > 0 && width < line && style[`border${side}Style`] !== 'none') found.push(`${name} border ${width}`);
    }
  }
  return found;
}"""


def test_a_projector_shows_text_of_a_fortieth_and_lines_of_a_250th_of_the_height_and_no_secrets(page, served):
    teach = opened(page, served, "W04")  # the one with the most on the stage: the caution for those who are growing
    put_on(teach, "projector")
    expect(teach.locator("#teach-growing")).to_contain_text("24 % of the group with weighted balls")
    expect(teach.locator(TITLE)).to_have_text("One throw and its curve")
    teach.locator("#teach-stage").focus()
    teach.keyboard.press("f")
    expect(teach.locator("body")).to_have_class(re.compile("presenting"))
    expect(teach.locator(".strip, .foot, .teach-below, #teach-setup").locator("visible=true")).to_have_count(0)
    teach.keyboard.press("p")  # it plays by itself
    for _ in range(STEPS):
        assert teach.evaluate(TOO_SMALL) == []
        assert teach.evaluate("document.querySelector('#teach-stage').scrollHeight <= innerHeight")
        shown = teach.locator("body").inner_text()
        assert not re.search(r"W04|13 years|48 kg", shown)
        step = teach.locator("#teach-stage").get_attribute("data-step")
        assert ("a published editorial" in shown) == (step not in {"throw", "hand", "forearm", "clock"}), step
        teach.keyboard.press("PageDown")
        teach.keyboard.press("p")
    expect(teach.locator(COUNT)).to_have_text("11 / 11")
    teach.keyboard.press("Escape")
    expect(teach.locator(".strip")).to_be_visible()
    teach.get_by_role("button", name="Present", exact=True).click()
    expect(teach.locator(".strip")).not_to_be_visible()
    wait_until(teach, "document.fullscreenElement !== null")
    teach.evaluate("() => { for (const id of ['leave', 'present']) document.getElementById(`teach-${id}`).click() }")
    teach.wait_for_timeout(300)  # the browser leaves the full screen, and tells it, only now
    expect(teach.locator(".strip")).not_to_be_visible()
    teach.get_by_role("button", name="Leave the presentation").click()
    expect(teach.locator(".strip")).to_be_visible()
    wait_until(teach, "document.fullscreenElement === null")


def test_with_reduced_motion_nothing_plays_and_each_press_goes_on_a_little(page, served):
    page.emulate_media(reduced_motion="reduce")
    page.goto(f"{served}/teach")
    expect(page.locator("#teach-play")).to_have_text("Step on")
    page.keyboard.press("f")
    before = phase(page)
    page.wait_for_timeout(150)
    assert phase(page) == before
    page.keyboard.press("p")
    assert phase(page) == pytest.approx(before + 0.02, abs=0.006)  # the slider's step


def test_the_handout_is_two_pages_of_either_paper_from_a_dark_screen(page, served):
    teach = opened(page, served, "W04")  # the one with the most cautions
    put_on(teach, "dark")
    expect(teach.locator(".sheet", has_text="24 % of the group with weighted balls")).to_have_count(1)
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", teach.pdf(format=paper))) == 2
    teach.emulate_media(media="print")
    expect(teach.locator("button:visible, input:visible")).to_have_count(0)
    expect(teach.locator(".sheet")).to_have_count(2)
    expect(teach.locator(".poses svg")).to_have_count(3)
    expect(teach.locator(".sheet-picture .curve")).to_have_count(
        7
    )  # one, two and three throws, and the line of this one


@pytest.mark.slow
def test_notes_follow_in_a_second_window(teach):
    with teach.expect_popup() as opened:
        teach.get_by_role("button", name="Notes in a second window").click()
    notes = opened.value
    expect(notes.locator("h1")).to_have_text("1 of 11: One throw and its curve")
    teach.keyboard.press("ArrowRight")
    expect(notes.locator("h1")).to_have_text("2 of 11: A heavier hand")
    expect(notes.locator("body")).to_contain_text("exactly linear in this mass")
    notes.keyboard.press("ArrowLeft")
    expect(teach.locator(TITLE)).to_have_text("One throw and its curve")


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme(teach, assert_axe_clean, theme):
    put_on(teach, theme)
    expect(teach.locator(TITLE)).to_have_text("One throw and its curve")
    set_up(teach)
    teach.get_by_text("Why do published studies differ?").click()
    go_to(teach, "Let the speed change as well")
    teach.get_by_label("Seen from").select_option("turn")
    assert_axe_clean(teach)


@pytest.mark.slow
@pytest.mark.parametrize(("theme", "width"), [("light", 390), ("projector", 390), ("dark", 1024), ("projector", 1024)])
def test_every_step_fits_every_width_and_passes_wcag(teach, assert_axe_clean, theme, width):
    put_on(teach, theme)
    expect(teach.locator(TITLE)).to_have_text("One throw and its curve")
    teach.set_viewport_size({"width": width, "height": 844})
    set_up(teach)
    for title in TITLES.values():
        teach.locator("#teach-stage").focus()
        go_to(teach, title)
        assert teach.evaluate("document.documentElement.scrollWidth") <= width
        if (theme, width) == ("projector", 390):
            assert_axe_clean(teach)
