"""Two athletes on the Compare page: the second joins, throws the same ball, and goes again."""

import numpy as np
import pytest

from app.demo import load_demo
from app.show.checks import check_athlete
from app.show.throw_form import measures_of
from model.ball import Ball
from model.throw import Throw, curves
from tests.browser.compare_page import HEADLINE, LINES, choose, field, load_again, open_demo, type_in, wait_until

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect

SECOND = "section.second"


@pytest.fixture
def two(page, served):
    """W01 and the woman W05, each with the same ball."""
    open_demo(page, served)
    page.get_by_role("button", name="Add a second thrower").click()
    expect(page.get_by_label("Code of the second thrower")).to_be_focused()
    choose(page, "Demo thrower, as the second", "W05")
    expect(page.get_by_label("Code of the second thrower")).to_have_value("W05")
    choose(page, "Ready comparison", "two athletes with the same ball")
    expect(page.locator(LINES)).to_have_count(3)
    return page


def test_two_athletes_throw_the_same_ball_and_each_number_says_whose_it_is(two, assert_axe_clean):
    expect(two.locator(HEADLINE)).to_contain_text("W05 with 145 g at 33.0 m/s against W01 with 145 g at 33.0 m/s")
    expect(two.locator(".at-number")).to_have_text("The path comes from adult men; W05 is female.")
    expect(two.locator(".readings tbody th").nth(2)).to_contain_text("W05 with 145 g at 28")
    assert_axe_clean(two)

    # the second's curve under a slider is the model's of the second
    person = check_athlete(measures_of(load_demo().athletes[4])).person
    truth = curves(Throw(person, Ball(0.145), 24.0))
    made = two.evaluate("window.levelpeak.curve('other_73', 0.145, 24, 'release', 1)")
    every_third = [*range(0, truth.phase.size - 1, 3), truth.phase.size - 1]
    peak = np.abs(truth.values["varus"]).max()
    assert np.asarray(made["y"]) == pytest.approx(truth.values["varus"][every_third], abs=1e-6 * peak)

    # a longer arm keeps its joint speeds, and only that thrower's
    type_in(two, two.get_by_label("Stature of the second thrower, cm"), "180")
    expect(two.locator(".notice")).to_contain_text("keep their joint speeds")
    expect(field(two, "Joint speeds", 2)).to_be_visible()
    expect(field(two, "Release speed", 1)).to_have_value("33.0")

    two.get_by_role("button", name="Remove the second").click()
    expect(two.locator(LINES)).to_have_count(1)
    expect(two.locator(SECOND)).to_be_hidden()
    two.get_by_role("button", name="Put back").click()
    expect(two.locator(LINES)).to_have_count(3)
    expect(two.get_by_label("Stature of the second thrower, cm")).to_have_value("180")


def test_a_thrower_is_marked_as_still_growing_and_the_mark_stays_through_undo_units_reload_and_exchange(page, served):
    open_demo(page, served)
    caution, mark = page.get_by_text("24 % of the group with weighted balls"), "Still growing"
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("by age")
    expect(caution).to_have_count(0)  # W01 is 20
    choose(page, mark, "yes")
    expect(caution).to_have_count(1)
    expect(page.locator(".at-number")).to_have_text("The path comes from adult men; this thrower is still growing.")
    expect(page.locator(".notice")).not_to_contain_text("measures changed")  # the mechanics do not use it
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("by age")
    expect(caution).to_have_count(0)
    page.get_by_role("button", name="Redo").click()
    expect(caution).to_have_count(1)
    page.get_by_text("oz, mph", exact=True).click()
    expect(page.get_by_label("Body mass, lb")).to_be_visible()
    load_again(page)
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("yes")
    page.get_by_role("button", name="Add a second thrower").click()
    choose(page, "Demo thrower, as the second", "W02")
    expect(page.get_by_label("Code of the second thrower")).to_have_value("W02")
    page.get_by_role("button", name="Exchange the two").click()
    expect(page.get_by_label("Code", exact=True)).to_have_value("W02")
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("by age")
    expect(page.get_by_role("textbox", name=f"{mark} of the second thrower")).to_have_value("yes")
    expect(caution).to_have_count(1)
    load_again(page)
    choose(page, mark, "yes")
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("yes")
    load_again(page)  # what was changed is kept, as it is for somebody who has seen the answer
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("yes")
    page.get_by_role("link", name="Athlete").click()
    expect(page.get_by_role("textbox", name=mark, exact=True)).to_have_value("yes")
    expect(page.locator(".part-caps .cautions-beside")).to_contain_text("a published editorial")


@pytest.mark.slow
def test_a_throw_changes_hands_and_the_two_exchange_places(two):
    choose(two, "Throw 2 is by", "W01")
    expect(two.locator(HEADLINE)).to_contain_text("W01 with 145 g at 33.0 m/s against W01 with 145 g at 33.0 m/s")
    two.get_by_role("button", name="Exchange the two").click()
    expect(two.get_by_label("Code", exact=True)).to_have_value("W05")
    expect(two.locator(HEADLINE)).to_contain_text("W01 with 145 g at 33.0 m/s against W01 with 145 g at 33.0 m/s")
    choose(two, "Measured in", "%BW·H")
    wait_until(two, "document.querySelector('.picture').textContent.includes('%BW·H')")
    expect(two.get_by_role("slider", name="Level line, N·m")).to_be_hidden()


@pytest.mark.slow
def test_on_a_phone_two_throwers_fit(two, assert_axe_clean):
    two.set_viewport_size({"width": 390, "height": 900})
    expect(two.locator(LINES)).to_have_count(3)
    wait_until(two, "document.documentElement.scrollWidth <= 390")
    assert_axe_clean(two)
