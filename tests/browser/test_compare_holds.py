"""How a throw is held on the Compare page: by its speed, its clock or the speed profile, and when a measure changes."""

import re

import pytest

from app.records.acts import Edit, Hand
from app.records.reads import athlete_data
from tests.browser.by_hand import choose
from tests.browser.compare_page import HEADLINE, field, load_again, open_demo, serve_demo, type_in

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def at(page, serve_app):
    """W01's page on demo records of its own, and those."""
    served, store = serve_demo(serve_app)
    open_demo(page, served)
    return page, store


def hold(page, throw: int, words: str) -> None:
    choose(page, f"Throw {throw} is held at", words)


def test_a_throw_held_otherwise_keeps_its_curve_and_says_what_speed_follows(at):
    demo, _ = at
    before = demo.locator(HEADLINE).inner_text()
    hold(demo, 2, "same clock")
    clock = field(demo, "Joint speeds", 2)
    expect(clock).to_have_value(re.compile(r"^[78]\d\.\d+$"))
    expect(demo.locator(".held").nth(1)).to_contain_text("Released at 28.5 m/s")
    expect(demo.locator(HEADLINE)).to_have_text(before)
    expect(demo.get_by_label("Throw 2 is held at").first).to_be_focused()
    expect(demo.locator(".readings tbody tr").nth(1)).to_contain_text("same clock, ")
    hold(demo, 2, "release speed")
    expect(field(demo, "Release speed", 2)).to_have_value("28.5")
    expect(demo.locator(".held").nth(1)).to_be_hidden()


def test_a_throw_on_the_speed_profile_follows_the_readings(at):
    demo, store = at
    hold(demo, 2, "speed profile")
    share = field(demo, "Share of full speed", 2)
    expect(share).to_have_value(re.compile(r"^(9\d|10\d)(\.\d+)?$"))
    type_in(demo, share, "100")
    expect(demo.locator(".held").nth(1)).to_contain_text("by the readings")
    type_in(demo, field(demo, "Ball mass", 2), "470")
    expect(demo.locator(HEADLINE)).to_contain_text(re.compile(r"^470 g at 2[34]\.\d+ m/s against"))
    before = demo.locator(HEADLINE).inner_text()
    data = athlete_data(store, "W01")
    heavy = next(one for one in data.readings if data.balls[one.ball_id].mass_kg == pytest.approx(0.470))
    store.act(data.athlete.uid, Edit("reading.speed_m_s", "15", heavy.uid), Hand("test"))
    load_again(demo)
    expect(demo.locator(HEADLINE)).to_contain_text("470 g at")
    expect(demo.locator(HEADLINE)).not_to_have_text(before)


def test_another_measure_leaves_the_release_speeds_and_moves_those_held_at_their_clock(at):
    demo, store = at
    hold(demo, 2, "same clock")
    expect(field(demo, "Joint speeds", 2)).to_be_visible()
    data = athlete_data(store, "W01")
    store.act(data.athlete.uid, Edit("measures.stature_m", "192", data.measures[-1].uid), Hand("test"))
    load_again(demo)
    expect(demo.locator(".who")).to_contain_text("192 cm")
    expect(demo.locator(HEADLINE)).to_contain_text(re.compile(r"275 g at 29\.\d+ m/s against 145 g at 33\.0 m/s"))
