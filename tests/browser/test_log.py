"""The Log page in the browser: a session outside a plan is entered, stands after a reload, is changed and removed."""

import pytest

from tests.browser.by_hand import choose

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


def open_log(page, served, asked=""):
    page.goto(f"{served}/log?athlete=W02{asked}")
    expect(page.locator("#log-said .sentence")).to_be_visible()


def write(page, label: str, text: str) -> None:
    page.get_by_label(label, exact=True).fill(text)
    page.get_by_label(label, exact=True).press("Tab")


def enter(page, throws: str = "25") -> None:
    choose(page, "Ball", "own ball")
    write(page, "Throws", throws)
    write(page, "Highest speed read, m/s", "31.5")
    write(page, "Note", "shoulder a little sore")


def press(page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def sessions(page):
    return page.locator("#log-sessions")


def test_a_session_outside_a_plan_is_counted_and_is_there_after_a_reload_and_in_another_tab(page, served):
    open_log(page, served)
    enter(page)
    page.reload()
    expect(page.get_by_label("Throws", exact=True)).to_have_value("25")  # what is half entered stands too
    press(page, "Keep the session")
    expect(page.locator("#log-said .sentence")).to_have_text("This week so far: 25 throws in 1 session.")
    expect(page.get_by_label("Throws", exact=True)).to_have_value("")
    expect(page.get_by_label("Day", exact=True)).to_be_focused()
    page.reload()
    expect(sessions(page)).to_contain_text("shoulder a little sore")
    other = page.context.new_page()
    open_log(other, served)
    expect(sessions(other)).to_contain_text("25 × own ball")
    other.close()


def test_a_session_is_changed_removed_and_brought_back_and_the_history_says_so(page, served):
    open_log(page, served)
    enter(page)
    press(page, "Keep the session")
    expect(sessions(page)).to_contain_text("25 × own ball")
    sessions(page).get_by_role("button", name="Change: 25").click()
    expect(page.get_by_label("Throws", exact=True)).to_have_value("25")
    write(page, "Throws", "28")
    press(page, "Keep the change")
    expect(sessions(page)).to_contain_text("28 × own ball")
    sessions(page).get_by_role("button", name="Remove: 28").click()
    expect(sessions(page)).not_to_contain_text("28 × own ball")
    page.locator("#bind-undo").click()
    expect(sessions(page)).to_contain_text("28 × own ball")
    page.locator("#log-history summary").click()
    expect(page.locator("#log-history-lines")).to_contain_text("Taken back: session")


def test_what_is_missing_is_said_and_its_field_gets_the_focus(page, served):
    open_log(page, served)
    choose(page, "Ball", "own ball")
    write(page, "Highest speed read, m/s", "31")
    press(page, "Keep the session")
    expect(page.get_by_label("Throws", exact=True)).to_be_focused()
    expect(page.get_by_text("Not kept yet. Throws thrown: nothing given")).to_be_visible()
    expect(page.get_by_label("Highest speed read, m/s", exact=True)).to_have_value("31")


def test_a_level_gives_its_column_and_other_bars_another_heading(page, served):
    open_log(page, served)
    write(page, "Level, N·m", "30")
    expect(page.locator("#log-weeks thead")).to_contain_text("Area above 30.0 N·m")
    choose(page, "Bars show", "throws")
    expect(page.locator("#log-figure-title")).to_have_text("Throws by week")
    expect(page.locator("#log-figure .bars path").first).to_be_visible()


def test_units_are_switched_and_the_speed_means_the_same(page, served):
    open_log(page, served)
    write(page, "Highest speed read, m/s", "31.2928")
    page.locator("#shell-units-switch").get_by_text("oz, mph").click()
    expect(page.get_by_label("Highest speed read, mph", exact=True)).to_have_value("70.0")
    expect(sessions(page)).to_contain_text("mph")


@pytest.mark.parametrize("width", [1440, 390])
def test_the_page_is_within_the_guidelines_at_every_width(page, served, assert_axe_clean, width):
    page.set_viewport_size({"width": width, "height": 900})
    open_log(page, served, "&before=999999")
    expect(page.locator("#log-figure .bars path").first).to_be_visible()
    assert_axe_clean(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
