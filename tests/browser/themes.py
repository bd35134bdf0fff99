"""The themes a page is looked at in, and how a test puts one on."""

import pytest

# The first in every run, the others with the slow tests.
THEMES = ("light", pytest.param("dark", marks=pytest.mark.slow), pytest.param("projector", marks=pytest.mark.slow))


def put_on(page, theme: str) -> None:
    """Have an open page remember a theme, and load it again in it; the one it wears already it keeps."""
    if page.locator("html").get_attribute("data-theme") == theme:
        return
    page.evaluate("theme => localStorage.setItem('shell-theme', JSON.stringify(theme))", theme)
    page.reload()
    page.locator(f"html[data-theme={theme}]").wait_for()
