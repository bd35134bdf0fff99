"""Waiting for what is on its way."""


def settled(page) -> None:
    """Wait until what was typed and chosen is kept, and what follows from it is answered."""
    page.wait_for_timeout(100)  # ms; until the browser asks
    page.evaluate("() => window.levelpeak.settled()")
