"""Two athletes on the Compare page: the second joins, throws the same ball, and goes again."""

import numpy as np
import pytest

from app.records.acts import Edit, Hand
from app.show.from_records import person_of
from model.ball import Ball
from model.throw import Throw, curves
from tests.app.kept_demo import kept
from tests.app.known import TODAY
from tests.browser.by_hand import choose
from tests.browser.compare_page import HEADLINE, LINES, load_again, open_demo, serve_demo, wait_until

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def two(page, serve_app):
    """W01 and the woman W05, each with the same ball."""
    open_demo(page, serve_demo(serve_app)[0])
    choose(page, "Throw 2 is by", "W05")
    expect(page.locator(".who")).to_contain_text("W05 · female")
    choose(page, "Ready comparison", "two athletes with the same ball")
    expect(page.locator(LINES)).to_have_count(3)
    return page


def test_two_athletes_throw_the_same_ball_and_each_number_says_whose_it_is(two, assert_axe_clean):
    expect(two.locator(HEADLINE)).to_contain_text("W05 with 145 g at 33.0 m/s against W01 with 145 g at 33.0 m/s")
    expect(two.locator(".at-number")).to_have_text("The path comes from adult men; W05 is female.")
    expect(two.locator(".readings tbody th").nth(2)).to_contain_text("W05 with 145 g at 28")
    assert_axe_clean(two)

    # the second's curve under a slider is the model's of the second
    person, _ = person_of(kept("W05"), TODAY)
    truth = curves(Throw(person, Ball(0.145), 24.0))
    made = two.evaluate("window.levelpeak.curve('other_73', 0.145, 24, 'release', 1)")
    every_third = [*range(0, truth.phase.size - 1, 3), truth.phase.size - 1]
    peak = np.abs(truth.values["varus"]).max()
    assert np.asarray(made["y"]) == pytest.approx(truth.values["varus"][every_third], abs=1e-6 * peak)

    two.get_by_role("button", name="Remove the second").click()
    expect(two.locator(LINES)).to_have_count(1)
    expect(two.locator(".who")).not_to_contain_text("W05")
    two.get_by_role("button", name="Undo").click()
    expect(two.locator(LINES)).to_have_count(3)
    expect(two.locator(".who")).to_contain_text("W05")
    load_again(two)
    expect(two.locator(HEADLINE)).to_contain_text("W05 with 145 g at 33.0 m/s against W01 with 145 g at 33.0 m/s")


def test_the_mark_of_who_is_still_growing_brings_the_caution(page, serve_app):
    served, store = serve_demo(serve_app)
    open_demo(page, served)
    caution = page.get_by_text("24 % of the group with weighted balls")
    expect(caution).to_have_count(0)  # W01 is 20
    store.act(store.find("W01").uid, Edit("athlete.still_growing", "yes"), Hand("test"))
    load_again(page)
    expect(caution).to_have_count(1)
    expect(page.locator(".who")).to_contain_text("marked as still growing")
    expect(page.locator(".at-number")).to_have_text("The path comes from adult men; this thrower is still growing.")
    open_demo(page, served, "W02")
    expect(caution).to_have_count(0)
    choose(page, "Throw 2 is by", "W01")
    expect(caution).to_have_count(1)


@pytest.mark.slow
def test_a_throw_changes_hands(two):
    choose(two, "Throw 2 is by", "W01")
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
