"""How many frames a second the Teach page's moving arm is drawn in while it plays; and the server's share of a story.

Not run with the tests (a time depends on the machine and on what else it does):
    python -m pytest -n 0 -s tests/benchmarks/bench_teach.py

It serves the app on its demo data, presents the first step in Chromium, plays it, and counts the frames in which the
arm stands elsewhere than in the one before. Wanted: 30 a second.
"""

import statistics
import time
from datetime import date

import pytest

from app.pages.teach.answers import lesson_of
from app.pages.teach.session import Session
from app.pages.teach.view import view_of
from app.records.demo import passing_store
from app.records.reads import athlete_data
from app.show.from_records import case_of
from model.ball import Ball
from tests.benchmarks.bench_compare import demo_tab

SECONDS = 3
RUNS = 15

COUNT = """(seconds) => new Promise((resolve) => {
  const place = () => document.querySelector('#teach-picture .link.ball').getAttribute('x2');
  const [began, gaps] = [performance.now(), []];
  let [frames, moved, before, last] = [0, 0, place(), began];
  const frame = (now) => {
    frames += 1;
    if (place() !== before) moved += 1;
    before = place();
    gaps.push(now - last);
    last = now;
    if (now - began < 1000 * seconds) return requestAnimationFrame(frame);
    resolve({ frames: frames / seconds, moved: moved / seconds, longest: Math.max(...gaps) });
  };
  requestAnimationFrame(frame);
})"""


@pytest.mark.parametrize("theme", ["light", "projector"])
@pytest.mark.parametrize("size", [(1440, 900), (1920, 1080)], ids=["1440", "1920"])
def test_frames_of_the_moving_arm(theme, size):
    """Measure and print; what fails is only a run in which nothing moved."""
    with demo_tab(*size) as (page, address):
        page.add_init_script(f"localStorage.setItem('shell-theme', '\"{theme}\"')")
        page.goto(f"{address}/teach")
        page.locator("#teach-picture .link.ball").wait_for(state="attached")
        for view in ("side", "front", "top", "turn"):
            page.get_by_label("Seen from").select_option(view)
            if view == "side":
                page.locator("#teach-stage").focus()
                page.keyboard.press("f")  # presenting, it plays by itself
            page.wait_for_timeout(300)
            counted = page.evaluate(COUNT, SECONDS)
            moved = f"arm moved in {counted['moved']:5.1f} of {counted['frames']:5.1f} frames a second"
            print(f"{theme} {size[0]} px, {view:<5} {moved}, longest gap {counted['longest']:5.1f} ms")
            assert counted["moved"] > 0


def test_the_servers_work():
    """The story of each invented thrower in turn, so that little is kept from before."""
    store, today, times = passing_store(True), date(2026, 3, 1), []
    codes = store.codes()
    for run in range(RUNS):
        data = athlete_data(store, codes[run % len(codes)])
        session = Session(Ball(0.2 + 0.01 * run))
        start = time.perf_counter()
        case = case_of(data, today)
        view = view_of(session, case, lesson_of(session, case), True, today)
        times.append(1000.0 * (time.perf_counter() - start))
        assert view.story
    print(f"the server's work for a story: median {statistics.median(times):.0f} ms, longest {max(times):.0f} ms")
