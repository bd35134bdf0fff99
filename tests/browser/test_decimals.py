"""Numbers in the reader's form: a comma for the decimals where the reader has it so, on everything that is shown."""

import re

import pytest

from tests.browser.compare_page import HEADLINE, field, load_again, open_demo, serve_demo, type_in

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

POINT = re.compile(r"(?<![\d.])\d+\.\d+(?!\.)")


def shown(page) -> str:
    """All the text on the page but the switch itself and the version."""
    return page.evaluate(
        "() => ['main', '.picture'].map((part) => document.querySelector(part).innerText).join(' ')"
        " + [...document.querySelectorAll('.picture text')].map((text) => text.textContent).join(' ')"
    )


def test_every_number_has_the_readers_mark_typed_ones_stay_and_it_is_remembered(page, serve_app, assert_axe_clean):
    open_demo(page, serve_demo(serve_app)[0])
    expect(page.locator(HEADLINE)).to_contain_text("28.5 m/s")
    marks = page.get_by_label("Decimal mark")
    marks.get_by_text("1,5").click()
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 28,5 m/s against 145 g at 33,0 m/s")
    assert POINT.findall(shown(page)) == []
    assert_axe_clean(page)
    expect(field(page, "Release speed", 2)).to_have_value("28.5")  # as it was typed
    type_in(page, field(page, "Release speed", 2), "27,25")
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 27,25 m/s")
    type_in(page, field(page, "Release speed", 2), "271.5")  # the message quotes it as it was typed
    expect(page.locator(".mantine-InputWrapper-error")).to_contain_text("“271.5” given")
    type_in(page, field(page, "Release speed", 2), "27,25")
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 27,25 m/s")
    figure = {"data": [{"text": ["61.5 N·m", ""]}], "layout": {"annotations": [{"text": "Levelpeak 0.1.0 · 1.25"}]}}
    told = page.evaluate("(figure) => window.levelpeak.figureTold(figure)", figure)
    assert told["data"][0]["text"] == ["61,5 N·m", ""]
    assert told["layout"]["annotations"][0]["text"] == "Levelpeak 0.1.0 · 1,25"
    load_again(page)
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 27,25 m/s")
    marks.get_by_text("1.5").click()
    expect(page.locator(HEADLINE)).to_contain_text("275 g at 27.25 m/s against 145 g at 33.0 m/s")


def test_without_a_choice_it_is_as_the_browsers_language_has_it(browser, served):
    context = browser.new_context(locale="de-DE")
    page = context.new_page()
    open_demo(page, served)
    expect(page.locator(HEADLINE)).to_contain_text("28,5 m/s")
    context.close()
