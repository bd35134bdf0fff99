"""The Compare page in a browser test: where its parts are, and what a hand does there."""

from app.web.server import Config, create_app

LINES = ".picture .scatterlayer path.js-line"
HEADLINE = ".sentence"
ROWS = ".rows .throw"


def serve_demo(serve_app):
    """Serve demo records of the test's own; gives the address, and the records."""
    app = create_app(Config(demo=True))
    return serve_app(app), app.server.config["LEVELPEAK"].store


def open_demo(page, served: str, code: str = "W01") -> None:
    """Open the page of an invented athlete and wait until it is drawn."""
    from playwright.sync_api import expect  # where there is none, the tests skip before they come here

    page.goto(f"{served}/compare?athlete={code}")
    expect(page.locator(LINES)).to_have_count(4)
    expect(page.locator(".readings tbody tr")).to_have_count(4)


def field(page, name: str, throw: int):
    """A field of a throw."""
    return page.get_by_label(f"{name} of throw {throw}")


def type_in(page, box, text: str) -> None:
    """Type into a field and leave it."""
    box.fill(text)
    box.press("Tab")


def drawn(page) -> list[str]:
    """The curves as they are drawn, by the path of each line."""
    return page.locator(LINES).evaluate_all("lines => lines.map(line => line.getAttribute('d'))")


def wait_until(page, question: str, wait_ms: int = 30_000) -> None:
    """Wait until the browser says yes; asked from here, because the page's policy lets no text run there."""
    for _ in range(wait_ms // 50):
        if page.evaluate(question):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never true: {question}")


def load_again(page) -> None:
    """Load the page again, as somebody does who has seen the answer to what was changed, and so what was kept."""
    page.evaluate("() => window.levelpeak.settled()")
    page.wait_for_timeout(100)  # what the browser keeps by itself, without a question
    page.reload()
