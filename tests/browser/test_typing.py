"""Typing that goes on while a page is made anew."""

import pytest

from app.records.reads import athlete_data
from tests.browser.compare_page import field, open_demo, serve_demo
from tests.browser.settling import settled

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

TAKE_OUT = """() => {
    const field = document.activeElement, place = field.parentElement;
    const again = field.cloneNode();
    field.remove();
    window.levelpeak.putBack = () => place.append(again);
}"""
"""What a page that is made anew does to the field that is typed in: it goes, and one of its name comes."""


def test_keys_between_the_old_page_and_the_new_one_are_not_lost(page, serve_app):
    open_demo(page, serve_demo(serve_app)[0])
    settled(page)
    mass = field(page, "Ball mass", 1)
    mass.click(click_count=3)
    page.keyboard.type("1")
    page.evaluate(TAKE_OUT)
    page.keyboard.type("52")
    page.evaluate("() => window.levelpeak.putBack()")
    expect(mass).to_have_value("152")
    expect(mass).to_be_focused()
    page.keyboard.type("0")
    expect(mass).to_have_value("1520")


@pytest.mark.parametrize("pause_ms", [0, 400])
def test_a_reading_that_is_typed_while_the_page_is_made_anew_is_kept_and_stands_there(page, serve_app, pause_ms):
    def late(route) -> None:  # the page was read before what is typed now is kept, and comes after it
        if (route.request.post_data_json or {}).get("changedPropIds") != ["bind-refresh.data"]:
            return route.continue_()
        answer = route.fetch()
        page.wait_for_timeout(300)
        return route.fulfill(response=answer)

    served, store = serve_demo(serve_app)
    page.goto(f"{served}/athlete?athlete=W01")
    reading = page.get_by_label("Reading 1 with 210 g, m/s", exact=True)
    expect(reading).to_be_visible()
    settled(page)
    page.route("**/_dash-update-component", late)
    mass = page.get_by_label("Ball mass, g")
    mass.fill("146")
    mass.press("Tab")
    reading.focus()
    page.keyboard.type("30.2")
    page.wait_for_timeout(pause_ms)
    page.keyboard.press("Tab")
    expect(page.get_by_label("Reading 1 with 146 g, m/s", exact=True)).to_be_visible()
    settled(page)
    expect(reading).to_have_value("30.2")
    assert 30.2 in [one.speed_m_s for one in athlete_data(store, "W01").readings]
    page.unroute_all(behavior="wait")
