"""What Build up prints: the sheet of a plan, and its log."""

from datetime import date

import pytest

from app.records.demo import passing_store
from app.web.server import Config, create_app
from tests.browser.buildup_page import PAINLESS, SESSIONS, STEPS, after_injury, ask, do, keep, note, opened, sheets
from tests.browser.by_hand import choose
from tests.browser.compare_page import type_in
from tests.browser.themes import put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def store():
    """Demo records of the test's own."""
    return passing_store(True)


@pytest.fixture
def served(serve_app, store) -> str:
    """The app on them."""
    return serve_app(create_app(Config(demo=True, store=store)))


@pytest.fixture
def injured(page, served, store):
    """The page with the plan of one who was injured."""
    return after_injury(page, served, store)


def test_sheet_and_log_print_on_their_pages_from_a_dark_screen(injured):
    for number in (1, 2):
        note(injured, **PAINLESS)
        choose(injured, "What is decided", "go on to the next session")
        keep(injured, number, then=f"After session {number + 1}")
    put_on(injured, "dark")
    expect(injured.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    for paper in ("A4", "Letter"):
        assert sheets(injured, paper) == 2
    injured.emulate_media(media="print")
    expect(injured.locator("main button:visible, main input:visible")).to_have_count(0)
    expect(injured.locator(f"{SESSIONS} .box").first).to_be_visible()
    expect(injured.locator(f"{SESSIONS}.buildup-past:visible")).to_have_count(2)
    expect(
        injured.get_by_text("Pain, numbness, swelling, or loss of motion or speed ends the session.").last
    ).to_be_visible()
    injured.evaluate("() => { document.documentElement.dataset.sheet = 'log'; }")
    expect(injured.locator(".buildup-log-table tbody tr:visible")).to_have_count(2)
    expect(injured.locator(f"{SESSIONS}:visible, {STEPS}:visible")).to_have_count(0)
    assert sheets(injured, "A4") == 1


@pytest.mark.slow
def test_the_longest_plan_prints_on_two_pages_with_every_cap(page, served):
    opened(page, served, "W04")
    ask(page, Steps="60", **{"Target day": str(date.today())})
    page.get_by_role("button", name="Make the plan").click()
    type_in(page, page.get_by_label("Initials of who has read it"), "CD")
    do(page, "I have read this: show the plan")
    expect(page.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    for paper in ("A4", "Letter"):
        assert sheets(page, paper) == 2
    page.emulate_media(media="print")
    expect(page.locator(".buildup-columns tbody tr:visible")).to_have_count(60)
    expect(page.locator(f"{SESSIONS}:visible")).to_have_count(42)
    smallest = "all => Math.min(...all.map(one => parseFloat(getComputedStyle(one).fontSize)))"
    assert page.locator("#buildup-body :is(td, th, p, span):visible").evaluate_all(smallest) >= 8 * 96 / 72  # 8 pt
