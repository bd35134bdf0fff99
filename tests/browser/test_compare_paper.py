"""The Compare page on paper: one sheet, from whatever the screen wears."""

import re

import pytest

from tests.browser.compare_page import HEADLINE, LINES, ROWS, open_demo, serve_demo
from tests.browser.themes import put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def demo(page, serve_app):
    """The page on demo records of its own, drawn."""
    open_demo(page, serve_demo(serve_app)[0])
    return page


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
    for part in (".who", ".throws", ".asked", ".strip", ".saved"):
        expect(demo.locator(part)).to_be_hidden()
    expect(demo.locator("button:visible, input:visible")).to_have_count(0)
