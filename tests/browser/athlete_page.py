"""The Athlete page as the browser tests use it."""

import pytest

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SENTENCE = ".part-exponent .sentence"
PLOT = ".part-fit .scatterlayer .trace"
SHOWN = "W01 slows down with p"


def ready(page) -> None:
    expect(page.locator(SENTENCE)).to_contain_text(SHOWN)
    expect(page.locator(".caps-table tbody tr")).to_have_count(8)


def cell(page, ball: str, number: int):
    return page.get_by_label(f"Reading {number} with {ball} g, m/s", exact=True)


def count_all(page) -> None:
    """Have all readings count: those of the demo are older than a season, and one of today would stand alone."""
    page.get_by_role("button", name="All readings").click()
    expect(page.get_by_label("Use readings since")).to_have_value("1990-01-01")
    ready(page)


def focused(page) -> str:
    return page.evaluate("document.activeElement.getAttribute('aria-label')")


def type_in(page, label: str, text: str) -> None:
    box = page.get_by_label(label, exact=True)
    box.fill(text)
    box.press("Tab")


def paste(page, box, text: str) -> None:
    box.evaluate(
        """(cell, text) => {
            const data = new DataTransfer();
            data.setData('text/plain', text);
            cell.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
        }""",
        text,
    )


def listed(page):
    """The dated list, opened."""
    fold = page.locator("details:has(> #athlete-list)")
    if fold.get_attribute("open") is None:
        page.get_by_text("By day: change, remove").click()
    return page.locator(".dated tbody tr")
