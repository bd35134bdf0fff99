"""Words that can be asked for: on every page, by mouse and by keyboard, and on a page of their own."""

import pytest

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

PAGES = (
    ("/compare", "Varus torque"),
    ("/athlete", "Asked effort"),
    ("/map", "peak"),
    ("/claim", "Time loaded"),
    ("/start", "Release speed"),
)


def test_a_word_says_what_it_means_where_the_reader_is(page, served, assert_axe_clean):
    page.goto(f"{served}/compare")
    word = page.locator("h2 .term", has_text="Varus torque").first
    expect(word).to_be_visible()
    word.focus()
    page.keyboard.press("Enter")
    shown = page.locator("#term-shown")
    expect(shown).to_be_visible()
    expect(shown).to_contain_text("keeps it from being bent outward")
    page.keyboard.press("Escape")
    expect(shown).not_to_be_visible()
    expect(word).to_be_focused()
    field = page.locator(".throw .term", has_text="Release speed").first
    field.click()
    expect(shown).to_contain_text("A radar reads a moment later")
    page.get_by_role("link", name="All words").click()
    expect(page.get_by_role("heading", name="Words")).to_be_visible()
    expect(page.locator("dt#speed")).to_be_visible()
    assert_axe_clean(page)


@pytest.mark.slow
@pytest.mark.parametrize(("path", "words"), PAGES)
def test_every_page_has_words_that_can_be_asked_for(page, served, path, words):
    page.goto(served + path)
    word = page.locator(".term", has_text=words).locator("visible=true").first
    word.click()
    expect(page.locator("#term-shown")).to_be_visible()
    page.get_by_role("button", name="Close", exact=True).click()
    expect(page.locator("#term-shown")).not_to_be_visible()
