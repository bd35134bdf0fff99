"""What a person does on a page of fields, and what the browser keeps of it."""

import json


def choose(page, label: str, option: str) -> None:
    """Choose from a list by its label."""
    page.get_by_role("textbox", name=label, exact=True).click()
    page.get_by_role("option", name=option).first.click()


def type_in(box, text: str) -> None:
    """Type into a field and leave it."""
    box.fill(text)
    box.press("Tab")


def kept(page, name: str):
    """What the browser keeps in the page's session."""
    return json.loads(page.evaluate("name => sessionStorage.getItem(name)", name) or "null")
