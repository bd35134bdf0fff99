"""How far to trust it: the page stands, is filled, can be read on a narrow screen, and prints."""

import pytest

from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.mark.parametrize("theme", THEMES)
def test_the_page_is_filled_and_can_be_read(page, served, assert_axe_clean, theme):
    page.goto(f"{served}/trust")
    put_on(page, theme)
    expect(page.get_by_role("heading", name="How far to trust it", level=1)).to_be_visible()
    expect(page.locator(".sentence")).to_contain_text("within 1 SD of print")
    row = page.get_by_role("row", name="Shoulder proximal force the reference throw")
    expect(row).to_contain_text("1\u202f090 ± 110 N")
    expect(page.get_by_text("throws were solved anew")).to_be_visible()
    expect(page.get_by_role("img", name="Elbow flexion, seen from above")).to_be_visible()
    assert_axe_clean(page)


def test_on_a_narrow_screen_every_cell_says_what_it_is_and_nothing_is_cut_off(page, served, assert_axe_clean):
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{served}/trust")
    expect(page.get_by_text("throws were solved anew")).to_be_visible()
    cell = page.locator(".trust-rows td").first
    expect(cell.locator(".trust-head")).to_be_visible()
    expect(cell.locator(".trust-head")).to_have_text("In print")
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert_axe_clean(page)
