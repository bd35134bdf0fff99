"""What a person does on a page of fields, and what the browser keeps of it."""

import json

from tests.browser.settling import settled


def choose(page, label: str, option: str, exact: bool = False) -> None:
    """Choose from a list by its label, once nothing moves under it any more."""
    settled(page)
    page.get_by_role("textbox", name=label, exact=True).click()
    page.get_by_role("option", name=option, exact=exact).first.click()


def type_in(box, text: str) -> None:
    """Type into a field and leave it."""
    box.fill(text)
    box.press("Tab")


def kept(page, name: str):
    """What the browser keeps in the page's session."""
    return json.loads(page.evaluate("name => sessionStorage.getItem(name)", name) or "null")
