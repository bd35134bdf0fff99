"""A coach's hour: fourteen athletes with readings of five balls, two plans, a week's log; the browser is closed twice.

At its end every value that was typed stands there, and each under its own athlete.
"""

import re

import pytest

from app.web.server import Config, create_app
from tests.browser.by_hand import choose

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

pytestmark = pytest.mark.slow

ATHLETES = 14
OWN_BALL = ("145", "73")
BALLS = (("light", "120", "73"), ("middle", "200", "73"), ("heavy", "300", "76"), ("heaviest", "450", "82"))
SESSIONS = (("20", "31"), ("22", "30.5"), ("18", "31.5"))
PLANNED = ("C01", "C02")


def code_of(place: int) -> str:
    return f"C{place + 1:02d}"


def measures_of(place: int) -> dict[str, str]:
    """Of an invented thrower; each has their own."""
    return {
        "Age, years": f"{19 + place % 7}",
        "Stature, cm": f"{172 + place}",
        "Body mass, kg": f"{70.5 + place}",
    }


def speeds_of(place: int) -> list[str]:
    """A reading with each ball, the own one first among its weight: the heavier, the slower."""
    return [f"{36 - 2.5 * ball + 0.1 * place:.1f}" for ball in range(1 + len(BALLS))]


@pytest.fixture
def address(serve_app) -> str:
    return serve_app(create_app(Config()))


@pytest.fixture
def opened(browser):
    """Open a browser of one's own, as often as wanted."""
    contexts = []

    def make():
        contexts.append(browser.new_context(viewport={"width": 1440, "height": 900}))
        contexts[-1].set_default_timeout(60_000)
        return contexts[-1].new_page()

    yield make
    for context in contexts:
        context.close()


def kept(page) -> None:
    """Wait until nothing that was typed is still on its way."""
    page.wait_for_load_state("networkidle")


def write(page, label: str, text: str) -> None:
    field = page.get_by_label(label, exact=True)
    field.fill(text)
    field.press("Tab")


def add_balls(page, address: str) -> None:
    page.goto(f"{address}/balls")
    for place, ball in enumerate(BALLS):
        page.get_by_role("button", name="Add a ball").click()
        row = page.locator(".team-ball").nth(place)
        expect(row.get_by_label("Name of the ball")).to_be_focused()
        for label, text in zip(("Name of the ball", "Ball mass, g", "Ball diameter, mm"), ball, strict=True):
            row.get_by_label(label, exact=True).fill(text)
            row.get_by_label(label, exact=True).press("Tab")
        kept(page)


def add_athlete(page, address: str, place: int) -> None:
    page.goto(address)
    kept(page)
    page.get_by_label("New athlete").fill(code_of(place))
    page.get_by_role("button", name="Add", exact=True).click()
    page.wait_for_url(re.compile(f"/athlete.athlete={code_of(place)}"), wait_until="commit")
    expect(page.get_by_label("Code", exact=True)).to_have_value(code_of(place))
    kept(page)
    choose(page, "Sex", "female" if place % 2 else "male", exact=True)
    choose(page, "Throwing hand", "right")
    for label, text in measures_of(place).items():
        write(page, label, text)
    kept(page)
    page.get_by_role("button", name="Add the own ball").click()
    expect(page.get_by_label("Ball mass, g", exact=True).first).to_be_visible()
    for label, text in zip(("Ball mass, g", "Ball diameter, mm"), OWN_BALL, strict=True):
        write(page, label, text)
    kept(page)
    page.reload()  # the grid has the own ball's line now
    rows = page.locator(".reading-row")
    expect(rows).to_have_count(1 + len(BALLS))
    for row, speed in zip(rows.all(), speeds_of(place), strict=True):
        cell = row.locator(".ball-cells input").first
        cell.fill(speed)
        cell.press("Enter")
    kept(page)


def readings_on(page) -> list[str]:
    return [row.locator(".ball-cells input").first.input_value() for row in page.locator(".reading-row").all()]


def log_week(page, address: str, code: str) -> None:
    page.goto(f"{address}/log?athlete={code}")
    for throws, speed in SESSIONS:
        choose(page, "Ball", "own ball, 145 g")
        write(page, "Throws", throws)
        write(page, "Highest speed read, m/s", speed)
        page.get_by_role("button", name="Keep the session").click()
        expect(page.locator("#log-sessions")).to_contain_text(f"{throws} × own ball")


def make_plan(page, address: str, code: str) -> None:
    page.goto(f"{address}/build-up?athlete={code}")
    choose(page, "Aim", "into a block of fast throwing")
    page.get_by_role("radio", name="The own ball,").check()
    page.get_by_role("button", name="Make the plan").click()
    expect(page.locator("#buildup-sentence .sentence")).to_be_visible(timeout=60_000)


def test_a_coachs_hour_ends_with_every_value_there(opened, address):
    page = opened()
    add_balls(page, address)
    for place in range(ATHLETES // 2):
        add_athlete(page, address, place)
    page.context.close()
    page = opened()
    for place in range(ATHLETES // 2, ATHLETES):
        add_athlete(page, address, place)
    for code in PLANNED:
        make_plan(page, address, code)
    log_week(page, address, PLANNED[0])
    page.context.close()

    page = opened()
    page.goto(address)
    expect(page.locator(".athletes-table tbody th a")).to_have_count(ATHLETES)
    shown = page.locator(".athletes-table tbody th a").all_inner_texts()
    assert sorted(shown) == [code_of(place) for place in range(ATHLETES)]
    for place in range(ATHLETES):
        page.goto(f"{address}/athlete?athlete={code_of(place)}")
        for label, text in measures_of(place).items():
            expect(page.get_by_label(label, exact=True)).to_have_value(text)
        expect(page.locator(".reading-row")).to_have_count(1 + len(BALLS))
        assert sorted(readings_on(page)) == sorted(speeds_of(place))
    for code in PLANNED:
        page.goto(f"{address}/build-up?athlete={code}")
        expect(page.locator("#buildup-sentence .sentence")).to_be_visible()
    page.goto(f"{address}/build-up?athlete={code_of(2)}")
    expect(page.locator("#buildup-sentence .sentence")).to_have_count(0)  # nobody else got a plan
    page.goto(f"{address}/log?athlete={PLANNED[0]}")
    for throws, _ in SESSIONS:
        expect(page.locator("#log-sessions")).to_contain_text(f"{throws} × own ball")
    page.goto(f"{address}/log?athlete={PLANNED[1]}")
    expect(page.locator("#log-sessions")).not_to_contain_text("× own ball")
