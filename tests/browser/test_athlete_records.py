"""What is typed on the Athlete page is kept, of each athlete on their own: reloads, tabs, new athletes and measures."""

import re

import pytest

from tests.browser.athlete_page import SENTENCE, cell, listed, ready, type_in
from tests.browser.by_hand import choose
from tests.browser.compare_page import load_again
from tests.browser.settling import settled

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def athlete(page, served):
    """The page on its demo data, drawn."""
    page.goto(f"{served}/athlete?athlete=W01")
    ready(page)
    return page


def test_grid_and_dated_list_show_the_same_readings(athlete):
    rows = listed(athlete)
    expect(rows).to_have_count(15)
    speed = athlete.get_by_label("Speed of 2026-02-20, 275 g, m/s").last  # the first that was thrown
    expect(speed).to_have_value("28.3")
    speed.fill("28.4")
    speed.press("Tab")
    expect(cell(athlete, "275", 1)).to_have_value("28.4")
    cell(athlete, "210", 1).fill("30.2")
    cell(athlete, "210", 1).press("Enter")
    expect(rows).to_have_count(16)
    expect(athlete.locator(".used")).to_contain_text("Readings since")  # one of today: those of a year ago are older
    expect(cell(athlete, "275", 1)).to_have_attribute("data-older", "")
    load_again(athlete)
    expect(cell(athlete, "210", 1)).to_have_value("30.2")
    expect(cell(athlete, "275", 1)).to_have_attribute("data-older", "")
    athlete.get_by_role("button", name="All readings").click()
    expect(athlete.get_by_text("13 full-effort readings.")).to_be_visible()
    expect(cell(athlete, "275", 1)).not_to_have_attribute("data-older", "")
    rows = listed(athlete)
    athlete.get_by_role("button", name=re.compile("Remove the reading of .*, 210 g")).click()
    expect(rows.or_(athlete.locator("#none"))).to_have_count(15)
    expect(cell(athlete, "210", 1)).to_have_value("")


def test_a_day_above_the_grid_is_that_of_new_readings(athlete):
    day = athlete.get_by_label("Day of new readings")
    day.fill("2026-02-03")
    day.press("Enter")
    expect(athlete).to_have_url(re.compile("day=2026-02-03"))
    settled(athlete)
    cell(athlete, "210", 1).fill("30.2")
    cell(athlete, "210", 1).press("Enter")
    settled(athlete)
    listed(athlete)
    expect(athlete.get_by_label("Speed of 2026-02-03, 210 g, m/s")).to_have_value("30.2")
    day.fill("no day")
    day.press("Enter")
    expect(athlete.locator(".readings-day")).to_contain_text("“no day” given")
    expect(day).to_have_value("no day")


def test_what_is_typed_is_there_after_a_reload_and_in_a_second_tab(athlete, served):
    cell(athlete, "360", 1).fill("26.2")
    cell(athlete, "360", 1).press("Enter")
    type_in(athlete, "Stature, cm", "190")
    other = athlete.context.new_page()
    expect(athlete.get_by_role("button", name="Undo")).to_be_enabled()
    other.goto(f"{served}/athlete?athlete=W01")
    for tab in (athlete, other):
        if tab is athlete:
            load_again(tab)
        expect(cell(tab, "360", 1)).to_have_value("26.2")
        expect(tab.get_by_label("Stature, cm")).to_have_value("190")


def test_each_athlete_has_readings_of_their_own_also_a_new_one(athlete, served):
    cell(athlete, "360", 1).fill("26.2")
    cell(athlete, "360", 1).press("Enter")
    expect(athlete.get_by_role("button", name="Undo")).to_be_enabled()
    picker = athlete.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("X77")
    athlete.get_by_role("option", name="X77: new athlete").click()
    expect(athlete.locator("#athlete-strip")).to_contain_text("until the measures above are complete")
    expect(athlete.get_by_label("Code", exact=True)).to_have_value("X77")
    expect(cell(athlete, "360", 1)).to_have_value("")
    expect(athlete.get_by_text("No readings yet.")).to_be_attached()


def test_a_new_code_renames_and_says_so(athlete, served):
    expect(athlete.get_by_text("a new one renames this athlete")).to_be_visible()
    type_in(athlete, "Code", "K5")
    expect(athlete.locator(SENTENCE)).to_contain_text("K5 slows down with p")
    expect(cell(athlete, "275", 1)).to_have_value("28.3")
    expect(athlete).to_have_url(re.compile("athlete=K5"))
    athlete.goto(f"{served}/athlete?athlete=W01")
    expect(athlete.get_by_text("There is no athlete with the code “W01” here.")).to_be_visible()


def test_an_athlete_begins_empty_and_what_is_missing_is_said(page, served_empty):
    page.goto(f"{served_empty}/athlete")
    expect(page.get_by_text("No athlete is chosen.")).to_be_visible()
    picker = page.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("A1")
    page.get_by_role("option", name="A1: new athlete").click()
    expect(page.locator("#athlete-strip")).to_contain_text("until the measures above are complete")
    for label, value in (("Age, years", "25"), ("Stature, cm", "188"), ("Body mass, kg", "90")):
        type_in(page, label, value)
    choose(page, "Sex", "male")
    choose(page, "Throwing hand", "right")
    expect(page.locator(SENTENCE)).to_contain_text("is not known")
    expect(page.locator(".part-next")).to_contain_text("Begin with the own ball, 145 g")
    page.get_by_role("button", name="Add the own ball").click()
    expect(page.get_by_label("Ball mass, g", exact=True)).to_be_focused()
    expect(page.get_by_label("Age, years")).to_have_value("25")
    page.keyboard.type("150")
    page.keyboard.press("Enter")
    expect(page.locator(".part-next")).to_contain_text("Begin with the own ball, 150 g")
    page.get_by_role("button", name="New reference throw").click()
    expect(page.get_by_label("Speed of the reference throw, m/s")).to_be_focused()
    box = cell(page, "150", 1)
    box.fill("36")
    box.press("Enter")
    expect(page.locator(".speeds-table tbody tr")).to_have_count(1)
    page.get_by_role("button", name="Add a ball").click()
    mass = page.get_by_label("Ball mass, g, 1 to 3000 g")
    expect(mass).to_be_focused()
    page.keyboard.type("275")
    page.keyboard.press("Enter")
    expect(cell(page, "275", 1)).to_be_focused()
    page.keyboard.type("31")
    page.keyboard.press("Enter")
    expect(page.locator(SENTENCE)).to_contain_text("A1 slows down with p")


def test_new_measures_start_with_the_old_ones_which_stay(page, served_empty):
    page.goto(f"{served_empty}/athlete")
    picker = page.get_by_role("textbox", name="Athlete: type a code to find or to add one")
    picker.click()
    picker.fill("A1")
    page.get_by_role("option", name="A1: new athlete").click()
    type_in(page, "Stature, cm", "170")
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()
    load_again(page)
    type_in(page, "Measured on", "2026-01-02")
    page.get_by_role("button", name="New measures today").click()
    expect(page.get_by_text("Earlier measures: 1")).to_be_visible()
    type_in(page, "Stature, cm", "174")
    page.get_by_text("Earlier measures: 1").click()
    expect(page.get_by_text("2026-01-02: stature 170 cm")).to_be_visible()
    expect(page.get_by_label("Stature, cm")).to_have_value("174")
