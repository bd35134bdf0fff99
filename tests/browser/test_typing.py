"""Typing that goes on while a page is made anew."""

import pytest

from tests.browser.compare_page import field, open_demo, serve_demo
from tests.browser.settling import settled

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

TAKE_OUT = """() => {
    const field = document.activeElement, place = field.parentElement;
    const again = field.cloneNode();
    field.remove();
    window.levelpeak.putBack = () => place.append(again);
}"""
"""What a page that is made anew does to the field that is typed in: it goes, and one of its name comes."""


def test_keys_between_the_old_page_and_the_new_one_are_not_lost(page, serve_app):
    open_demo(page, serve_demo(serve_app)[0])
    settled(page)
    mass = field(page, "Ball mass", 1)
    mass.click(click_count=3)
    page.keyboard.type("1")
    page.evaluate(TAKE_OUT)
    page.keyboard.type("52")
    page.evaluate("() => window.levelpeak.putBack()")
    expect(mass).to_have_value("152")
