"""How long from a changed number to the new curve on the Compare page: in the browser, and the server's share of it.

Not run with the tests (a time depends on the machine and on what else it does):
    python -m pytest tests/benchmarks/bench_compare.py -s

It serves the app on its demo data, opens it in Chromium, types release speeds one after the other and waits for Plotly
to have drawn. It prints medians and 95th percentiles for four and eight throws. Wanted: drawn in under 100 ms.
"""

import os
import shutil
import statistics
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Page, sync_playwright
from werkzeug.serving import WSGIRequestHandler, make_server

from app.pages.compare.answers import compare
from app.pages.compare.picture import figure_of, paper_of
from app.pages.compare.view import view_of
from app.show.palette import THEMES
from app.web.server import Config, create_app
from tests.app.pages.compare.conftest import THROWN, W01, line, row_of

RUNS = 55
CHROMIUM_ARGS = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]

# From the moment Enter is pressed to Plotly's own word that it has drawn, to the second frame after it, and to the new
# sentence. A person looks before typing on, so a pause follows.
CHANGE = """([id, value, pause]) => new Promise((resolve) => {
  const field = document.getElementById(id);
  const graph = document.querySelector('.js-plotly-plot');
  const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
  const times = {};
  field.focus();
  set.call(field, value);
  field.dispatchEvent(new Event('input', { bubbles: true }));
  requestAnimationFrame(() => {
    const start = performance.now();
    const mark = (what) => {
      times[what] = performance.now() - start;
      if (Object.keys(times).length === 3) setTimeout(() => resolve(times), pause);
    };
    graph.once('plotly_afterplot', () => {
      mark('drawn');
      requestAnimationFrame(() => requestAnimationFrame(() => mark('painted')));
    });
    const observer = new MutationObserver(() => {
      observer.disconnect();
      mark('words');
    });
    const anything = { subtree: true, childList: true, characterData: true };
    observer.observe(document.getElementById('compare-sentence'), anything);
    field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', code: 'Enter', keyCode: 13, bubbles: true }));
  });
})"""
PAUSE_MS = 200
WARM_UP = 10
SPEEDS = [f"{27 + 0.05 * run:.2f}" for run in range(WARM_UP + RUNS)]
LAST_SPEED = SPEEDS[-1].rstrip("0")


# Drags so many sliders at once, one step in each frame; milliseconds from the input to the drawn path, and to painted.
DRAG = """async ([count, frames]) => {
  const sliders = [...document.querySelectorAll('.slide input')].slice(0, count);
  const paths = () => [...document.querySelectorAll('.picture .js-line')].map((line) => line.getAttribute('d')).join();
  const times = [];
  const began = performance.now();
  let changed = 0;
  let last = paths();
  for (let frame = 0; frame < frames; frame += 1) {
    const start = performance.now();
    sliders.forEach((slider, i) => {
      slider.value = 25 + i / 4 + (frame % 20) * 0.3;
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await new Promise((done) => requestAnimationFrame(done));
    const drawn = performance.now() - start;
    await new Promise((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = done;
      channel.port2.postMessage(0);
    });
    times.push({ drawn, painted: performance.now() - start });
    const now = paths();
    changed += now !== last;
    last = now;
  }
  return { times, changed, per_second: (1000 * frames) / (performance.now() - began) };
}"""
FRAMES = 240


def dragged(page: Page, count: int) -> None:
    """Drag so many sliders and report the frames."""
    found = page.evaluate(DRAG, [count, FRAMES])
    for what in ("drawn", "painted"):
        report(f"{count} dragged: input to {what}", [time[what] for time in found["times"]])
    print(
        f"{count} dragged: {found['changed']} of {FRAMES} frames drew another curve, {found['per_second']:.0f} a second"
    )
    assert found["changed"] > 0.95 * FRAMES


def in_browser(page: Page) -> list[dict[str, float]]:
    """Change the second throw's speed `RUNS` times, after some to warm up; milliseconds to drawn, painted and words."""
    field = page.get_by_label("Release speed of throw 2").first.get_attribute("id")
    return [page.evaluate(CHANGE, [field, speed, PAUSE_MS]) for speed in SPEEDS][WARM_UP:]


def on_server(count: int) -> list[tuple[float, float]]:
    """Change one of so many throws `RUNS` times; milliseconds for the figure, and for the words after it."""
    row, before = row_of(), [*THROWN, *(line(number, 0.275, 28.5) for number in range(5, 9))][: count - 1]
    times = []
    for run in range(RUNS):
        throws = [*before, line(count, 0.275, 20 + 0.05 * run)]
        start = time.perf_counter()
        comparison = compare(row, throws, {"": W01})
        figure_of(comparison, THEMES["light"], narrow=False)
        drawn = time.perf_counter()
        comparison = compare(row, throws, {"": W01})
        view_of(row, comparison)
        paper_of(comparison)
        times.append((1000.0 * (drawn - start), 1000.0 * (time.perf_counter() - drawn)))
    return times


class Quiet(WSGIRequestHandler):
    """Writes no line for each request between the figures."""

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        """Log nothing."""


def report(what: str, times: list[float]) -> None:
    """Print the median and the 95th percentile."""
    print(f"{what:<44} median {statistics.median(times):6.1f} ms   p95 {statistics.quantiles(times, n=20)[-1]:6.1f} ms")


@contextmanager
def demo_tab(width: int = 1440, height: int = 900) -> Iterator[tuple[Page, str]]:
    """Serve the demo data and open a browser's tab; gives the tab and the address, without a slash at its end."""
    server = make_server("127.0.0.1", 0, create_app(Config(demo=True)).server, threaded=True, request_handler=Quiet)
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    found = (
        os.environ.get("CHROMIUM")
        or shutil.which("chromium-headless-shell")
        or shutil.which("chromium")
        or shutil.which("google-chrome")
    )
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=CHROMIUM_ARGS)
        yield chromium.new_page(viewport={"width": width, "height": height}), f"http://127.0.0.1:{server.server_port}"
        chromium.close()
    server.shutdown()


def test_from_a_changed_number_to_the_new_curve():
    """Measure and print; what fails is only a run in which nothing was drawn."""
    with demo_tab() as (page, address):
        page.goto(f"{address}/compare?athlete=W01")
        page.locator(".readings").wait_for()
        for count in (4, 8):
            while page.locator(".throw").count() < count:
                before = page.locator(".throw").count()
                page.get_by_role("button", name="Copy throw 2").click()
                page.locator(".throw").nth(before).wait_for()
            page.wait_for_timeout(500)
            times = in_browser(page)
            for what in ("drawn", "painted", "words"):
                report(f"{count} throws: Enter to {what}", [time[what] for time in times])
            assert page.locator(".sentence").inner_text().startswith(f"275 g at {LAST_SPEED} m/s")
        dragged(page, 1)
        dragged(page, 8)


@pytest.mark.parametrize("count", [1, 4, 8])
def test_the_servers_work(count):
    """The same without a browser."""
    shares = on_server(count)
    report(f"{count} throws: the server's work, figure", [figure for figure, _ in shares])
    report(f"{count} throws: the server's work, words", [words for _, words in shares])
    assert len(shares) == RUNS
