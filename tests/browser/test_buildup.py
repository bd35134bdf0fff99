"""The build-up page as a person meets it: from a plan to its log, its files and its sheet."""

import json
import re
from datetime import date

import pytest

from app.server import Config, create_app
from tests.browser.compare_page import choose, load_again, type_in, wait_until
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SESSIONS = ".buildup-sheet tbody tr"
STEPS = "#buildup-steps tbody tr"
BROKEN = ".buildup-broken"


def opened(page, served: str, query: str = ""):
    page.goto(f"{served}/build-up{query}")
    expect(page.get_by_role("textbox", name="Lead readout")).to_have_value(re.compile("by the aim"))
    return page


def make(page) -> None:
    page.get_by_role("button", name="Make the plan").click()
    expect(page.locator("#buildup-notice")).to_contain_text("Plan made.")
    expect(page.locator(SESSIONS).first).to_be_attached()


def do(page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def sentence(page):
    return page.locator("#buildup-sentence .sentence")


def kept(page):
    return json.loads(page.evaluate("localStorage.getItem('buildup-plan')") or "null")


@pytest.fixture
def demo(page, served):
    """The page on its demo data, with a plan."""
    opened(page, served)
    make(page)
    return page


@pytest.fixture(scope="module")
def served_empty(serve_app) -> str:
    return serve_app(create_app(Config(demo=False)))


def test_from_a_plan_to_changes_by_hand_to_the_log_and_there_again_after_a_reload(demo):
    expect(demo.get_by_text("Invented demo data: nobody here exists and nothing was measured.")).to_be_visible()
    expect(sentence(demo)).to_contain_text("Back after time off: 17 steps in 34 sessions")
    expect(demo.locator("#buildup-sentence")).to_contain_text("heavier is lower here")
    expect(demo.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    demo.get_by_text("Change steps and sessions by hand").click()
    choose(demo, "Step", "6: ")
    share = demo.get_by_label("Of full speed with it, %")
    expect(share).not_to_have_value("70")
    type_in(demo, share, "95")
    do(demo, "Change this step")
    expect(demo.locator(BROKEN).first).to_contain_text(re.compile(r"Step 6 breaks: .*% above step 5; limit 15 %", re.S))
    expect(demo.locator("#buildup-notice-hand")).to_have_text(
        re.compile("^Step 6 changed by hand. Limits are broken at")
    )
    expect(demo.locator("#buildup-sentence")).to_contain_text("Limits are broken at steps 6, 7")
    demo.get_by_role("button", name="Undo").focus()
    demo.keyboard.press("Enter")
    expect(demo.locator(BROKEN)).to_have_count(0)

    type_in(demo, demo.get_by_label("Pain before"), "0")
    type_in(demo, demo.get_by_label("Pain after"), "2")
    suggested = demo.locator("#buildup-suggested")
    expect(suggested).to_contain_text("Suggested: repeat this step, 1 day off first.")
    expect(suggested).to_contain_text("9-load-rules-12")
    do(demo, "Keep this session")
    expect(demo.locator("#buildup-notice-log")).to_contain_text("What is decided: nothing given")
    expect(demo.get_by_label("Pain after")).to_have_value("2")
    choose(demo, "What is decided", "throw this session again")
    type_in(demo, demo.get_by_label("Initials of who decides"), "AB")
    do(demo, "Keep this session")
    expect(demo.locator("#buildup-log-title")).to_have_text("After session 2")
    expect(demo.locator(SESSIONS)).to_have_count(35)
    expect(demo.locator(SESSIONS).first).to_contain_text("AB: repeated")
    load_again(demo)
    expect(demo.locator(SESSIONS).first).to_contain_text("AB: repeated")
    expect(sentence(demo)).to_contain_text("17 steps")


def test_what_is_typed_after_a_session_is_there_again_until_it_is_kept(demo):
    fill_in = {"Pain before": "1", "Pain after": "3", "Note": "sore", "Initials of who decides": "AB"}
    for label, text in fill_in.items():
        type_in(demo, demo.get_by_label(label, exact=True), text)
    demo.get_by_role("radio", name="no", exact=True).check()
    demo.get_by_role("checkbox", name="swelling").check()
    choose(demo, "What is decided", "throw this session again")

    def shows(texts, held, swelling, decision):
        for label, text in texts.items():
            expect(demo.get_by_label(label, exact=True)).to_have_value(text)
        expect(demo.get_by_role("radio", name=held, exact=True)).to_be_checked()
        expect(demo.get_by_role("checkbox", name="swelling")).to_be_checked(checked=swelling)
        expect(demo.get_by_role("textbox", name="What is decided")).to_have_value(decision)

    demo.get_by_role("link", name="Words", exact=True).click()
    expect(demo.get_by_role("heading", name="Words", exact=True)).to_be_visible()
    demo.get_by_role("link", name="Build up", exact=True).click()
    shows(fill_in, "no", True, "throw this session again")
    load_again(demo)
    shows(fill_in, "no", True, "throw this session again")
    emptied = dict.fromkeys(fill_in, "") | {"Initials of who decides": "AB"}
    do(demo, "Keep this session")
    expect(demo.locator("#buildup-log-title")).to_have_text("After session 2")
    shows(emptied, "not measured", False, "")
    load_again(demo)
    expect(demo.locator("#buildup-log-title")).to_have_text("After session 2")
    shows(emptied, "not measured", False, "")
    do(demo, "Undo")
    shows(fill_in, "no", True, "throw this session again")


@pytest.mark.slow
def test_a_file_that_is_too_large_is_refused_with_its_size_before_it_is_sent(page, served, tmp_path):
    opened(page, served)
    large = tmp_path / "large.json"
    large.write_bytes(b" " * 10_000_001)
    page.set_input_files("input[type=file]", large)
    told = page.get_by_role("alert").filter(has_text="Not changed")
    expect(told).to_contain_text("“large.json” given, with 10001 kB; accepted: up to 500 kB.")
    page.set_input_files("input[type=file]", {"name": "x.txt", "mimeType": "text/plain", "buffer": b"{}"})
    expect(told).to_contain_text("“x.txt” given; accepted: a file whose name ends in .json.")


@pytest.mark.slow
def test_no_such_plan_names_what_blocks_and_a_target_day_offers_what_can_be_done(page, served):
    opened(page, served)
    type_in(page, page.get_by_label("Steps", exact=True), "6")
    do(page, "Make the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("No such plan exists: no 6 steps keep every limit.")
    do(page, "plan 15 steps")
    expect(sentence(page)).to_contain_text("15 steps")
    page.get_by_text("What is planned").click()
    expect(page.get_by_label("Steps", exact=True)).to_have_value("15")
    do(page, "Undo")
    expect(page.get_by_label("Steps", exact=True)).to_have_value("6")
    expect(page.get_by_text("No plan yet. Say above")).to_be_visible()
    type_in(page, page.get_by_label("Target day"), "2026-13-45")
    expect(page.get_by_text("Target day: “2026-13-45” given")).to_be_visible()


@pytest.mark.slow
def test_one_who_is_still_growing_sees_the_plan_after_the_text_was_read_and_it_is_kept_with_it(page, served):
    opened(page, served)
    choose(page, "Whose arm", "W04")
    expect(page.locator(".summary")).to_contain_text("W04")
    page.get_by_role("button", name="Make the plan").click()
    expect(page.get_by_role("heading", name="Read this before the plan is shown")).to_be_visible()
    expect(page.locator("#buildup-body")).to_be_hidden()
    do(page, "I have read this: show the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("Initials: nothing given")
    type_in(page, page.get_by_label("Initials of who has read it"), "CD")
    do(page, "I have read this: show the plan")
    expect(sentence(page)).to_be_visible()
    expect(page.locator("#buildup-sentence")).to_contain_text("was read by CD")
    expect(page.locator("#buildup-sentence")).to_contain_text("heavier is not lower here; along the plan the mass only")
    assert kept(page)["read"]["by"] == "CD"


@pytest.mark.slow
def test_files_are_saved_and_a_plan_opens_again_where_nobody_was_entered(demo, served_empty, tmp_path):
    for name, ending, begins in (
        ("Save the table (CSV)", "csv", "athlete,session"),
        ("Save the calendar (iCalendar)", "ics", "BEGIN:VCALENDAR"),
        ("Save the plan as a file", "json", "{"),
    ):
        with demo.expect_download() as download:
            do(demo, name)
        assert download.value.suggested_filename.endswith(ending)
        download.value.save_as(tmp_path / ending)
        assert (tmp_path / ending).read_text(encoding="utf-8").startswith(begins)
    (tmp_path / "plan.json").write_text((tmp_path / "json").read_text(encoding="utf-8"), encoding="utf-8")
    demo.goto(f"{served_empty}/build-up")
    expect(demo.get_by_text("Missing: the athlete’s measures.")).to_be_visible()
    demo.set_input_files("input[type=file]", tmp_path / "plan.json")
    expect(sentence(demo)).to_contain_text("17 steps in 34 sessions")
    (tmp_path / "wrong.json").write_text("{}", encoding="utf-8")
    demo.set_input_files("input[type=file]", tmp_path / "wrong.json")
    expect(demo.locator("#buildup-notice")).to_contain_text("this is no build-up plan. The plan on the page stays.")
    do(demo, "Put this plan away")
    expect(demo.get_by_text("No plan yet. Say above")).to_be_visible()
    do(demo, "Undo")
    expect(sentence(demo)).to_contain_text("17 steps in 34 sessions")


@pytest.mark.slow
def test_new_readings_are_held_against_the_plan_and_nothing_changes_until_they_are_taken(demo, served):
    first = kept(demo)["full_speeds_m_s"]
    demo.get_by_role("link", name="Athlete", exact=True).click()
    box = demo.get_by_label("Full speed with the own ball").or_(demo.get_by_label("Body mass, kg")).first
    expect(box).to_be_visible()
    mass = demo.get_by_label("Body mass, kg")
    type_in(demo, mass, "95")
    wait_until(demo, "JSON.parse(sessionStorage.getItem('compare-saved') || '{}').athlete?.body_mass_kg === '95'")
    demo.get_by_role("link", name="Build up", exact=True).click()
    expect(demo.get_by_role("heading", name="Measures or readings have changed since")).to_be_visible()
    expect(demo.locator("#buildup-numbers tbody tr")).to_have_count(17)
    demo.set_viewport_size({"width": 390, "height": 900})
    wait_until(demo, "document.documentElement.scrollWidth <= 390")  # the wide table scrolls in its own frame
    assert kept(demo)["full_speeds_m_s"] == first
    assert kept(demo)["person"]["body_mass_kg"] == 84
    do(demo, "Take the new numbers")
    expect(demo.get_by_role("heading", name="Measures or readings have changed since")).to_be_hidden()
    wait_until(demo, "JSON.parse(localStorage.getItem('buildup-plan')).person.body_mass_kg === 95")


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes(demo, assert_axe_clean, theme):
    put_on(demo, theme)
    expect(demo.locator(SESSIONS).first).to_be_attached()
    demo.get_by_text("What is planned").click()
    demo.get_by_text("Step limits:").click()
    demo.get_by_text("Balls on the rack").click()
    demo.get_by_text("Change steps and sessions by hand").click()
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        wait_until(demo, f"document.documentElement.scrollWidth <= {width}")  # the figures come to rest a little later
    type_in(demo, demo.get_by_label("Rise rate at the elbow, %"), "abc")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(1)
    assert_axe_clean(demo)


def test_the_sheet_prints_on_two_pages_from_a_dark_screen_with_boxes_to_fill_in(demo):
    put_on(demo, "dark")
    expect(demo.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", demo.pdf(format=paper))) == 2
    demo.emulate_media(media="print")
    expect(demo.locator("main button:visible, main input:visible")).to_have_count(0)
    expect(demo.locator(f"{SESSIONS} .box").first).to_be_visible()
    expect(
        demo.get_by_text("Pain, numbness, swelling, or loss of motion or speed ends the session.").last
    ).to_be_visible()


@pytest.mark.slow
def test_the_longest_plan_prints_on_two_pages_with_every_cap(page, served):
    opened(page, served)
    for label, text in {"Steps": "60", "Sessions at each step": "3", "Target day": str(date.today())}.items():
        type_in(page, page.get_by_label(label, exact=True), text)
    make(page)
    expect(page.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    for paper in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 2
    page.emulate_media(media="print")
    expect(page.locator(".buildup-columns tbody tr:visible")).to_have_count(60)
    expect(page.locator(f"{SESSIONS}:visible")).to_have_count(44)
    smallest = "all => Math.min(...all.map(one => parseFloat(getComputedStyle(one).fontSize)))"
    assert page.locator("#buildup-body :is(td, th, p, span):visible").evaluate_all(smallest) >= 8 * 96 / 72  # 8 pt


@pytest.mark.slow
def test_it_speaks_ounces_and_miles_an_hour(demo):
    demo.get_by_text("oz, mph", exact=True).click()
    expect(sentence(demo)).to_contain_text("5.11 oz, own ball at 73.7 mph")  # 145 g / 28.3495 g; 32.99 / 0.44704, down
    expect(demo.locator(STEPS).last).to_contain_text("73.7")
