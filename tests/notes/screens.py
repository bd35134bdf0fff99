"""Screenshots of every page in every theme, at three widths and as it is printed, made by one command to be looked at.

    python -m tests.notes.screens FOLDER [PAGE ...]

It serves the demo data, needs Playwright and a Chromium (the variable CHROMIUM names another one), and writes
``page_athlete_width_theme.png`` and ``page_athlete_print.pdf`` for a grown thrower and one who is still growing; with
pages, such as ``teach``, of those alone.
"""

import os
import shutil
import sys
import threading
from collections.abc import Sequence
from pathlib import Path

from playwright.sync_api import Page as Tab
from playwright.sync_api import sync_playwright
from werkzeug.serving import make_server

from app.bind.page import Page
from app.bind.visit import address as address_of
from app.pages import PAGES
from app.show.palette import SCREEN_THEMES
from app.web.server import Config, create_app

ATHLETES = ("W01", "W04")
WIDTHS = (1440, 1024, 390)
HEIGHT = 900
SETTLED_MS = 1_200  # after the first curve, until words and tables stand
CHROMIUM_ARGS = ("--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage")


def main(folder: Path, names: Sequence[str] = ()) -> None:
    """Make them all.

    Parameters
    ----------
    folder : Path
        Where they go; made if it is not there.
    names : sequence of str
        Of the pages; without any, all.
    """
    wanted = [(page, code) for page in PAGES if not names or name_of(page) in names for code in ATHLETES]
    folder.mkdir(parents=True, exist_ok=True)
    found = os.environ.get("CHROMIUM") or shutil.which("chromium-headless-shell") or shutil.which("chromium")
    server = make_server("127.0.0.1", 0, create_app(Config(demo=True)).server, threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    address = f"http://127.0.0.1:{server.server_port}"
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=list(CHROMIUM_ARGS))
        for theme in SCREEN_THEMES:
            for width in WIDTHS:
                tab = chromium.new_context(viewport={"width": width, "height": HEIGHT}).new_page()
                tab.add_init_script(f"localStorage.setItem('shell-theme', '\"{theme}\"')")
                for page, code in wanted:
                    visit(tab, address, page, code)
                    tab.screenshot(path=folder / f"{name_of(page)}_{code}_{width}_{theme}.png", full_page=True)
                tab.context.close()
        tab = chromium.new_page()
        for page, code in wanted:
            visit(tab, address, page, code)
            tab.pdf(path=folder / f"{name_of(page)}_{code}_print.pdf", prefer_css_page_size=True)
        chromium.close()
    server.shutdown()


def visit(tab: Tab, address: str, page: Page, code: str) -> None:
    """Open an athlete's page and wait until it stands."""
    tab.goto(address + address_of(page.path, code))
    tab.locator("main h1").wait_for()
    tab.wait_for_load_state("networkidle")
    make = tab.get_by_role("button", name="Make the plan")
    if make.is_visible():  # the build-up page has little to look at before
        tab.get_by_role("textbox", name="Aim", exact=True).click()
        tab.get_by_role("option", name="into a block of fast throwing").click()
        tab.get_by_role("radio", name="The heaviest ball slow").check()
        make.click()
    tab.wait_for_timeout(SETTLED_MS)


def name_of(page: Page) -> str:
    """A page's name in a file name."""
    return page.path.strip("/") or "compare"


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
