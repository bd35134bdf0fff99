"""The build-up page as a person meets it: from what is asked first to a plan, its log and its files."""

import json
import re

import pytest

from app.records.acts import Edit, Hand
from app.records.demo import passing_store
from app.records.reads import athlete_data
from app.web.server import Config, create_app
from tests.browser.buildup_page import (
    BROKEN,
    PAINLESS,
    SESSIONS,
    STEPS,
    after_injury,
    ask,
    do,
    fast_block,
    field,
    hand,
    keep,
    kept,
    note,
    opened,
    sentence,
    tick,
)
from tests.browser.by_hand import choose
from tests.browser.compare_page import load_again, type_in, wait_until
from tests.browser.settling import settled
from tests.browser.themes import THEMES, put_on

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


@pytest.fixture
def store():
    """Demo records of the test's own."""
    return passing_store(True)


@pytest.fixture
def served(serve_app, store) -> str:
    """The app on them."""
    return serve_app(create_app(Config(demo=True, store=store)))


@pytest.fixture
def demo(page, served):
    """The page on its demo data, with a plan into a block of fast throwing."""
    return fast_block(page, served)


@pytest.fixture
def injured(page, served, store):
    """The page with the plan of one who was injured."""
    return after_injury(page, served, store)


def test_from_start_to_orders_compared_to_a_plan_under_its_limits(page, served, store):
    uid = athlete_data(store, "W06").athlete.uid
    given = {"mass_kg": "470", "diameter_m": "73", "speed_m_s": "11.93", "on": "2026-03-02"}
    limits = [Edit("limits.amount", "40", "elbow_peak"), Edit("limits.amount", "30", "rise_rate")]
    certain = [Edit("start.certainty", "95"), *limits]
    store.act(uid, [*(Edit(f"plan.given_{name}", text) for name, text in given.items()), *certain], Hand("start"))
    opened(page, served, "W06")
    choose(page, "Aim", "back after an injury")
    expect(page.locator("#buildup-given")).to_contain_text("470 g, 73 mm, at 41.8 % of full speed with it")
    expect(page.locator("#buildup-order input:checked")).to_have_count(0)
    ask(page)
    page.get_by_role("radio", name="for the first weeks").check()
    type_in(page, page.get_by_label("How many of them"), "4")
    do(page, "Compare the orders")
    orders = page.locator(".buildup-orders")
    expect(orders.locator("thead th")).to_have_count(3)
    expect(orders).to_contain_text(re.compile("Passing a limit: peak at the elbow .varus torque. at steps"))
    orders.get_by_role("button", name="Make this plan").nth(1).click()
    expect(sentence(page)).to_contain_text("from 470 g at 11.9 m/s (41.8 %)")
    expect(page.locator("#buildup-sentence")).to_contain_text("35.1 m/s, from before an injury, 2025-09-02")
    expect(page.locator("#buildup-next")).to_contain_text("15 throws")
    assert kept(store, "W06")["order"] == "heavy"
    page.get_by_text("What is planned").click()
    do(page, "Plan without what came from Start")
    expect(page.get_by_role("heading", name="From Start")).to_be_hidden()


def test_what_was_asked_stands_after_a_reload_and_in_another_tab_and_nothing_is_empty_while_it_loads(page, served):
    opened(page, served)
    type_in(page, page.get_by_label("Weeks without throwing", exact=True), "12")
    choose(page, "Aim", "into a block of fast throwing")
    type_in(page, page.get_by_label("Goal at, %"), "95")
    load_again(page)
    other = page.context.new_page()
    for tab in (page, other):
        opened(tab, served)
        expect(tab.get_by_role("textbox", name="Aim", exact=True)).to_have_value("into a block of fast throwing")
        # the form comes filled: no field is set by a later answer
        assert tab.get_by_label("Weeks without throwing", exact=True).input_value() == "12"
        assert tab.get_by_label("Goal at, %").input_value() == "95"
    other.close()


def test_several_plans_are_kept_one_is_put_away_and_brought_back(demo):
    first = sentence(demo).inner_text()
    demo.get_by_text("What is planned").click()
    choose(demo, "Aim", "ease off")
    settled(demo)
    do(demo, "Make the plan")
    expect(demo.locator("#buildup-notice")).to_contain_text("The one before was put away; Undo brings it back.")
    rows = demo.locator(".buildup-plans tbody tr")
    expect(rows).to_have_count(2)
    expect(rows.last).to_contain_text("put away")
    second = sentence(demo).inner_text()
    rows.last.get_by_role("button").click()
    expect(sentence(demo)).to_have_text(first)
    expect(demo).to_have_url(re.compile("plan="))
    rows.first.get_by_role("link").click()
    expect(sentence(demo)).to_have_text(second)


def test_pain_holds_the_plan_down_and_a_stop_sign_shuts_it_until_it_is_cleared_and_made_anew(injured):
    page, following = injured, injured.locator("#buildup-next")
    note(page, **PAINLESS)
    choose(page, "What is decided", "go on to the next session")
    keep(page, 1, then="After session 2")
    note(page, **PAINLESS | {"throws": "8", "throwing": "4"})
    tick(page, "site", "elbow")
    suggested = page.locator("#buildup-suggested")
    expect(suggested).to_contain_text("this session again, with no more than up to the pain, after 2 days off")
    expect(suggested).to_contain_text("our own judgement")
    choose(page, "What is decided", "throw this session again")
    keep(page, 2, then="After session 3")
    expect(following).to_contain_text("no more than 8 throws")
    expect(page.locator(SESSIONS)).to_have_count(3)  # two thrown, and the next alone
    note(page, **PAINLESS | {"throws": "8"})
    tick(page, "signs", "swelling")
    keep(page, 3)
    flag = page.locator("#buildup-flag")
    expect(flag).to_contain_text("A stop sign stands: no throwing until a licensed clinician clears it.")
    expect(following).to_be_empty()
    do(page, "Undo")
    expect(page.locator(f"{SESSIONS}:has-text('thrown')")).to_have_count(2)
    expect(flag).to_contain_text("Swelling")  # undo takes none back
    load_again(page)
    expect(flag).to_contain_text("Swelling")
    do(page, "Put this plan away")
    expect(flag).to_contain_text("no plan is made until a licensed clinician clears it")
    do(page, "Make the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("a stop sign stands for this athlete")
    do(page, "Undo")
    expect(sentence(page)).to_be_visible()
    type_in(page, hand(page, "clear_by"), "PT")
    hand(page, "clear_role").click()
    page.get_by_role("option", name="licensed clinician", exact=True).click()
    do(page, "Clear the stop signs")
    expect(flag).to_contain_text("make it anew")
    expect(page.get_by_label("Weeks without throwing", exact=True)).to_have_value("")
    ask(page)
    page.get_by_role("radio", name="The own ball,").check()
    do(page, "Make the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("up to 10 throws after the stop sign")
    type_in(page, page.get_by_label("Throws in the first session", exact=True), "10")
    do(page, "Make the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("Plan made.")
    expect(following).to_contain_text("10 throws")
    expect(flag).to_be_empty()


def test_what_is_typed_after_a_session_is_there_again_until_it_is_kept_and_after_undo(demo):
    note(demo, throws="9", before="0", throwing="3", note="stopped")
    tick(demo, "site", "shoulder")
    tick(demo, "sore_more", "one_spot")

    def shows() -> None:
        for name, text in {"throws": "9", "before": "0", "throwing": "3", "note": "stopped", "by": "AB"}.items():
            expect(field(demo, name)).to_have_value(text)
        expect(demo.get_by_role("checkbox", name="in one spot")).to_be_checked()
        expect(demo.get_by_role("radio", name="shoulder")).to_be_checked()
        expect(field(demo, "role")).to_have_value("coach")

    demo.get_by_role("link", name="Words", exact=True).click()
    expect(demo.get_by_role("heading", name="Words", exact=True)).to_be_visible()
    demo.get_by_role("link", name="Build up", exact=True).click()
    shows()
    load_again(demo)
    shows()
    keep(demo, 1)
    do(demo, "Undo")
    expect(demo.locator("#buildup-log-title")).to_have_text("After session 1")
    shows()


@pytest.mark.slow
def test_changes_by_hand_name_what_they_break_and_are_undone(demo):
    expect(demo.get_by_text("Invented demo data: nobody here exists and nothing was measured.")).to_be_visible()
    expect(demo.locator("#buildup-stairs-figure .scatterlayer .trace")).to_have_count(6)
    demo.get_by_text("Change steps and sessions by hand").click()
    choose(demo, "Step", "4: ")
    share = demo.get_by_label("Of full speed with it, %")
    expect(share).not_to_have_value("85")
    type_in(demo, share, "99")
    do(demo, "Change this step")
    expect(demo.locator(BROKEN).first).to_contain_text(re.compile(r"Step 4 breaks: .*% above step 3; limit", re.S))
    expect(demo.locator("#buildup-notice-hand")).to_have_text(
        re.compile("^Step 4 changed by hand. Limits are broken at")
    )
    demo.get_by_role("button", name="Undo").focus()
    demo.keyboard.press("Enter")
    expect(demo.locator(BROKEN)).to_have_count(0)


@pytest.mark.slow
def test_a_file_that_is_too_large_is_refused_with_its_size_before_it_is_sent(page, served, tmp_path):
    opened(page, served)
    large = tmp_path / "large.json"
    large.write_bytes(b" " * 10_000_001)
    page.set_input_files("input[type=file]", large)
    told = page.get_by_role("alert").filter(has_text="Not changed")
    expect(told).to_contain_text("“large.json” given, with 10001 kB; accepted: up to 800 kB.")
    page.set_input_files("input[type=file]", {"name": "x.txt", "mimeType": "text/plain", "buffer": b"{}"})
    expect(told).to_contain_text("“x.txt” given; accepted: a file whose name ends in .json.")


@pytest.mark.slow
def test_no_such_plan_names_what_blocks_and_a_target_day_offers_what_can_be_done(page, served):
    opened(page, served)
    choose(page, "Aim", "into a block of fast throwing")
    page.get_by_role("radio", name="The own ball,").check()
    type_in(page, page.get_by_label("Steps", exact=True), "3")
    do(page, "Make the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("No such plan exists: no 3 steps keep every limit.")
    do(page, "plan 5 steps")
    expect(sentence(page)).to_contain_text("5 steps")
    page.get_by_text("What is planned").click()
    expect(page.get_by_label("Steps", exact=True)).to_have_value("5")
    do(page, "Undo")
    expect(page.get_by_label("Steps", exact=True)).to_have_value("3")
    expect(page.get_by_text("No plan yet. Say above")).to_be_visible()
    type_in(page, page.get_by_label("Target day"), "2026-13-45")
    expect(page.get_by_text("Target day: “2026-13-45” given")).to_be_visible()


@pytest.mark.slow
def test_one_who_is_still_growing_reads_the_caution_before_the_form_and_before_the_plan(page, served, store):
    opened(page, served, "W04")
    expect(page.locator("#buildup-grows")).to_contain_text("still growing")
    choose(page, "Aim", "into a block of fast throwing")
    expect(page.get_by_role("radio", name="The own ball,")).to_be_checked()
    settled(page)
    page.get_by_role("button", name="Make the plan").click()
    expect(page.get_by_role("heading", name="Read this before the plan is shown")).to_be_visible()
    expect(page.locator("#buildup-body")).to_be_hidden()
    do(page, "I have read this: show the plan")
    expect(page.locator("#buildup-notice")).to_contain_text("Initials of who has read it: nothing given")
    type_in(page, page.get_by_label("Initials of who has read it"), "CD")
    do(page, "I have read this: show the plan")
    expect(sentence(page)).to_be_visible()
    expect(page.locator("#buildup-about")).to_contain_text("was read by CD")
    assert kept(store, "W04")["read"]["by"] == "CD"


@pytest.mark.slow
def test_files_are_saved_and_a_plan_opens_again_where_nothing_was_entered(demo, serve_app, store, tmp_path):
    said = sentence(demo).inner_text()
    for name, ending, begins in (
        ("Save the table (CSV)", "csv", "athlete,session"),
        ("Save the calendar (iCalendar)", "ics", "BEGIN:VCALENDAR"),
        ("Save the plan as a file", "json", "{"),
    ):
        with demo.expect_download() as download:
            do(demo, name)
        assert download.value.suggested_filename.endswith(ending)
        download.value.save_as(tmp_path / ending)
        assert (tmp_path / ending).read_text(encoding="utf-8").startswith(begins)
    assert kept(store)["calendars"] == 1  # handed out, and known so
    plan = json.loads((tmp_path / "json").read_text(encoding="utf-8")) | {"invented": False}
    (tmp_path / "plan.json").write_text(json.dumps(plan), encoding="utf-8")
    said = said.replace("; invented demo data: nobody here exists", "")
    empty = passing_store(False)
    empty.new_athlete("W01", Hand("before"))
    demo.goto(f"{serve_app(create_app(Config(store=empty)))}/build-up?athlete=W01")
    expect(demo.get_by_text("Missing: the athlete’s measures.")).to_be_visible()
    demo.set_input_files("input[type=file]", tmp_path / "plan.json")
    expect(sentence(demo)).to_have_text(said)
    (tmp_path / "wrong.json").write_text("{}", encoding="utf-8")
    demo.set_input_files("input[type=file]", tmp_path / "wrong.json")
    expect(demo.locator("#buildup-notice")).to_contain_text("this is no build-up plan. The plan on the page stays.")
    do(demo, "Put this plan away")
    expect(demo.get_by_text("No plan yet. Say above")).to_be_visible()
    do(demo, "Undo")
    expect(sentence(demo)).to_have_text(said)


@pytest.mark.slow
def test_new_readings_are_held_against_the_plan_and_nothing_changes_until_they_are_taken(demo, store):
    first = kept(store)["full_speeds_m_s"]
    data = athlete_data(store, "W01")
    store.act(data.athlete.uid, Edit("measures.body_mass_kg", "95", data.measures[-1].uid), Hand("other"))
    load_again(demo)
    expect(demo.get_by_role("heading", name="Measures or readings have changed since")).to_be_visible()
    expect(demo.locator("#buildup-numbers tbody tr")).to_have_count(len(kept(store)["steps"]))
    demo.set_viewport_size({"width": 390, "height": 900})
    wait_until(demo, "document.documentElement.scrollWidth <= 390")  # the wide table scrolls in its own frame
    assert kept(store)["full_speeds_m_s"] == first
    assert kept(store)["person"]["body_mass_kg"] == 84
    do(demo, "Take the new numbers")
    expect(demo.get_by_role("heading", name="Measures or readings have changed since")).to_be_hidden()
    assert kept(store)["person"]["body_mass_kg"] == 95


@pytest.mark.parametrize("theme", THEMES)
def test_it_passes_wcag_in_every_theme_and_width_also_with_mistakes_and_under_a_stop_sign(
    demo, assert_axe_clean, theme
):
    put_on(demo, theme)
    expect(demo.locator(SESSIONS).first).to_be_attached()
    note(demo, throws="9", before="0", throwing="3")
    tick(demo, "site", "elbow")
    tick(demo, "urgent", "cold_hand")
    keep(demo, 1)
    expect(demo.locator("#buildup-flag")).to_contain_text("Urgent care now.")
    demo.get_by_text("What is planned").click()
    demo.get_by_text("Step limits:").click()
    demo.get_by_text("Balls on the rack").click()
    demo.get_by_text("A stop sign outside of a session").click()
    demo.get_by_text("It was entered by mistake").click()
    for width in (1440, 1024, 390):
        demo.set_viewport_size({"width": width, "height": 900})
        wait_until(demo, f"document.documentElement.scrollWidth <= {width}")  # the figures come to rest a little later
    type_in(demo, demo.get_by_label("Rise rate at the elbow, %"), "abc")
    expect(demo.locator(".mantine-InputWrapper-error")).to_have_count(1)
    assert_axe_clean(demo)


@pytest.mark.slow
def test_it_speaks_ounces_and_miles_an_hour(demo):
    demo.get_by_text("oz, mph", exact=True).click()
    expect(sentence(demo)).to_contain_text("5.11 oz, own ball at 73.8 mph")  # 145 g / 28.3495 g; 32.999 / 0.44704, down
    expect(demo.locator(STEPS).last).to_contain_text("73.8")
    expect(demo.get_by_label("Highest speed read, mph")).to_be_visible()
