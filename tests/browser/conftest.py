"""What a browser test needs: Chromium, a served app, and a page that fails its test on any error or outside request.

A test asks for `served` (the address of an app of its own on the demo data, whose records it may change as it likes)
and `page`; with `assert_axe_clean(page)` it has the page checked against WCAG 2.2 A and AA. `serve_app` serves an app
of the test's own making.
"""

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path

import pytest
from dash import Dash
from werkzeug.serving import WSGIRequestHandler, make_server

from app.web.server import Config, create_app

HERE = Path(__file__).parent
AXE = HERE / "vendor" / "axe.min.js"
AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PATIENCE_MS = 30_000
# The shell has no toolbars to draw and renders the same: a page opens in two thirds of the time.
CHROMIUM_NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
CHROMIUM_ARGS = [
    "--no-sandbox",  # root, as in a container, has no sandbox
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]


REQUIRED = bool(os.environ.get("LEVELPEAK_REQUIRE_BROWSER"))

if REQUIRED and find_spec("playwright") is None:
    raise pytest.UsageError("LEVELPEAK_REQUIRE_BROWSER is set, and Playwright is not installed")


class Quiet(WSGIRequestHandler):
    """Writes no line for each request, so that the log a failed test shows is short."""

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        """Log nothing."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark everything in this folder as a browser test."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.browser)


def do_without(reason: str) -> None:
    """Skip; but where a browser is required, as in CI, fail."""
    if REQUIRED:
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser():
    """One Chromium for the whole run."""
    if find_spec("playwright") is None:
        do_without("Playwright is not installed: pip install -e '.[test]'")
    from playwright.sync_api import sync_playwright

    found = os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, CHROMIUM_NAMES)), None)
    if not found:
        do_without("No Chromium: install it (Debian: apt-get install chromium) or name its file in CHROMIUM")
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=CHROMIUM_ARGS)
        yield chromium
        chromium.close()


@contextmanager
def serving() -> Iterator[Callable[[Dash], str]]:
    """Give what serves an app until the block ends, and returns its address, without a slash at the end."""
    servers = []

    def serve(app: Dash) -> str:
        server = make_server("127.0.0.1", 0, app.server, threaded=True, request_handler=Quiet)
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        servers.append((server, thread))
        return f"http://127.0.0.1:{server.server_port}"

    yield serve
    for server, _ in servers:
        server.shutdown()
    for server, thread in servers:
        thread.join()
        server.server_close()


@pytest.fixture(scope="session")
def serve_app() -> Iterator[Callable[[Dash], str]]:
    """Serve an app until the run ends."""
    with serving() as serve:
        yield serve


def leave(request: pytest.FixtureRequest) -> None:
    """Close the test's page before its server ends: what it still asks would be refused."""
    if "page" in request.fixturenames:
        request.getfixturevalue("page").context.close()


@pytest.fixture
def served(request) -> Iterator[str]:
    """The address of an app on its demo data, this test's own."""
    with serving() as serve:
        yield serve(create_app(Config(demo=True)))
        leave(request)


@pytest.fixture
def served_empty(request) -> Iterator[str]:
    """The address of an app as it is without demo data, this test's own."""
    with serving() as serve:
        yield serve(create_app(Config(demo=False)))
        leave(request)


@pytest.fixture
def page(browser):
    """A fresh page, with nothing remembered. Its test fails if the console shows an error or a request leaves here."""
    from playwright.sync_api import expect

    expect.set_options(timeout=PATIENCE_MS)
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PATIENCE_MS)
    fresh = context.new_page()
    errors: list[str] = []
    outside: list[str] = []

    def asked(request) -> None:
        if not request.url.startswith(("http://127.0.0.1:", "data:", "blob:")):
            outside.append(request.url)

    context.on("request", asked)
    fresh.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    fresh.on("pageerror", lambda error: errors.append(str(error)))
    yield fresh
    context.close()
    assert errors == [], "the browser's console shows errors"
    assert outside == [], "requests left this machine"


@pytest.fixture(scope="session")
def assert_axe_clean() -> Callable[..., None]:
    """Fail if axe-core finds a breach of WCAG 2.2 A or AA on the page as it stands."""
    source = AXE.read_text(encoding="utf-8")

    def check(page) -> None:
        page.evaluate(source)
        values = {"runOnly": {"type": "tag", "values": AXE_TAGS}}
        found = page.evaluate("options => axe.run(document, options)", values)
        assert found["passes"], "axe-core looked at nothing"
        breaches = []
        for breach in found["violations"]:
            breaches.append(f"{breach['id']} ({breach['impact']}): {breach['help']}")
            breaches += [f"    {node['html'][:150]}\n  {node['failureSummary'][:300]}" for node in breach["nodes"][:4]]
        assert not breaches, "\n" + "\n".join(breaches)

    return check
