"""Athletes, balls and records, as somebody uses them in the browser."""

import json
import re
from pathlib import Path

import pytest

from app.web.server import Config, create_app

OLD = Path(__file__).parents[1] / "app" / "records" / "old"


@pytest.fixture
def base(serve_app) -> str:
    """The address of an app on a demo of this test's own."""
    return serve_app(create_app(Config(demo=True)))


@pytest.fixture
def fresh(serve_app) -> str:
    """The address of an app with empty records of this test's own."""
    return serve_app(create_app(Config()))


def codes(page) -> list[str]:
    """The codes that the table shows, from top to bottom."""
    return page.locator(".athletes-table tbody tr:visible th a").all_inner_texts()


def opened(page, address: str):
    page.goto(address)
    page.locator("h1").wait_for()


def test_a_new_athlete_is_made_in_one_act(page, fresh):
    opened(page, fresh)
    page.get_by_label("New athlete").fill("B7")
    page.keyboard.press("Enter")
    page.wait_for_url("**/athlete?athlete=B7")
    opened(page, fresh)
    page.locator(".athletes-table tbody th", has_text="B7").wait_for()
    page.get_by_label("New athlete").fill("B7")
    page.get_by_role("button", name="Add").click()
    page.get_by_text("it is another athlete’s here").wait_for()


def test_the_list_is_sorted_and_filtered_by_keyboard(page, base):
    opened(page, base)
    page.locator(".athletes-table").wait_for()
    assert codes(page) == ["W01", "W02", "W03", "W04", "W05", "W06"]
    page.get_by_role("button", name="Own-ball speed").focus()
    page.keyboard.press("Enter")
    assert codes(page) == ["W02", "W01", "W03", "W05", "W04", "W06"]  # who has none comes last
    head = page.get_by_role("columnheader", name="Own-ball speed")
    assert head.get_attribute("aria-sort") == "descending"
    page.keyboard.press("Enter")
    assert codes(page) == ["W04", "W05", "W03", "W01", "W02", "W06"]
    assert head.get_attribute("aria-sort") == "ascending"
    page.get_by_label("Find", exact=True).focus()
    page.keyboard.type("w05")
    page.get_by_text("1 of 6 athletes").wait_for()
    assert codes(page) == ["W05"]


def test_an_athlete_is_archived_and_brought_back(page, base):
    opened(page, base)
    page.get_by_role("button", name="Archive W03").click()
    page.get_by_text("W03 is archived").wait_for()
    page.get_by_text("5 athletes").wait_for()
    assert "W03" not in codes(page)
    page.get_by_role("link", name="Show the archived (1)").click()
    page.get_by_role("button", name="Bring back W03").click()
    page.get_by_text("W03 is back in the lists").wait_for()


def test_a_ball_is_added_named_and_still_there_after_a_reload_and_in_a_second_tab(page, base):
    opened(page, f"{base}/balls")
    count = page.locator(".team-ball").count()
    page.get_by_role("button", name="Add a ball").click()
    from playwright.sync_api import expect

    expect(page.locator(".team-ball").nth(count).get_by_label("Name of the ball")).to_be_focused()
    page.keyboard.type("soft")
    page.keyboard.press("Tab")
    page.keyboard.type("200")
    page.keyboard.press("Tab")
    page.get_by_role("button", name="Undo").and_(page.locator(":enabled")).wait_for()
    page.wait_for_timeout(300)
    for tab in (page, page.context.new_page()):
        opened(tab, f"{base}/balls")
        row = tab.locator(".team-ball").nth(count)
        assert [one.input_value() for one in row.locator("input").all()] == ["soft", "200", ""]
    page.get_by_role("button", name="soft, 200 g: further up").click()
    page.locator(".team-ball").nth(count - 1).get_by_role("textbox").first.and_(page.locator("[value=soft]")).wait_for()
    page.get_by_role("button", name="Undo").click()
    page.locator(".team-ball").nth(count).get_by_role("textbox").first.and_(page.locator("[value=soft]")).wait_for()


def brought(page, name: str, text: str):
    file = {"name": name, "mimeType": "text/plain", "buffer": text.encode()}
    page.locator("#keeping-file").set_input_files(file)


def test_a_file_is_looked_at_then_kept_and_twice_adds_nothing(page, fresh):
    opened(page, f"{fresh}/records")
    table = "athlete,date,ball_mass_g,speed\n<a href=x>,2026-01-10,145,76\nB7,soon,145,33\n"
    brought(page, "speeds.csv", table)
    page.get_by_text("is refused: date: “soon” given").wait_for()
    page.get_by_text("is refused: speed: “76” given; accepted: 1 to 60 m/s").wait_for()
    page.get_by_label("Unit of speed").select_option("mph")
    page.get_by_text("1 reading to be added.").wait_for()
    page.get_by_role("button", name="Keep this").click()
    page.get_by_text("speeds.csv: 1 entry added").wait_for()
    opened(page, fresh)
    assert codes(page) == ["<a href=x>"]
    opened(page, f"{fresh}/records")
    brought(page, "again.csv", table)
    page.get_by_label("Unit of speed").select_option("mph")
    page.get_by_text("There is nothing in it that could be added.").wait_for()
    page.get_by_role("button", name="Leave it").click()
    page.get_by_text("Nothing was kept of the file.").wait_for()


def test_the_document_of_one_athlete_goes_out_of_one_program_and_into_another(page, base, fresh):
    opened(page, f"{base}/records?athlete=W04")
    with page.expect_download() as found:
        page.get_by_role("link", name="document (JSON) of W04").click()
    text = Path(found.value.path()).read_text(encoding="utf-8")
    opened(page, f"{fresh}/records")
    brought(page, "w04.json", text)
    page.get_by_text("W04 (invented): a new athlete").wait_for()
    page.get_by_role("button", name="Keep this").click()
    page.get_by_text(re.compile("w04.json: \\d+ entries added")).wait_for()
    opened(page, f"{fresh}/athlete?athlete=W04")
    page.get_by_text("nobody here exists").first.wait_for()


def test_initials_are_kept_in_this_browser(page, base):
    opened(page, f"{base}/records")
    page.get_by_label("Your initials").fill("ÄB")
    page.keyboard.press("Enter")
    page.get_by_text("Kept in this browser.").wait_for()
    opened(page, f"{base}/records")
    assert page.get_by_label("Your initials").input_value() == "ÄB"


def test_an_athlete_is_erased_by_typing_the_code(page, base):
    opened(page, f"{base}/records?athlete=W05")
    page.get_by_role("button", name="Erase W05 for good").click()
    page.get_by_text("the code of the athlete who is to be erased").wait_for()
    page.get_by_label("Type the code W05").fill("W05")
    page.get_by_role("button", name="Erase W05 for good").click()
    page.get_by_text("W05 is erased").wait_for()
    opened(page, base)
    assert "W05" not in codes(page)


def test_what_the_tab_of_an_earlier_version_holds_is_offered_once(page, fresh):
    opened(page, f"{fresh}/words")
    kept = json.loads((OLD / "tab.json").read_text(encoding="utf-8"))
    plan = (OLD / "plan.json").read_text(encoding="utf-8")
    page.evaluate(
        """([compare, athlete, plan]) => {
            sessionStorage.setItem('compare-saved', compare);
            sessionStorage.setItem('athlete-saved', athlete);
            localStorage.setItem('buildup-plan', plan);
        }""",
        [json.dumps(kept["compare"]), json.dumps(kept["athlete"]), plan],
    )
    opened(page, fresh)
    page.get_by_text("From an earlier version").wait_for()
    page.get_by_role("button", name="Take it in").click()
    page.get_by_text("Taken in, and deleted from this browser.").wait_for()
    assert {"W04", "W05", "Z9"} <= set(codes(page))
    held = page.evaluate("() => [sessionStorage['compare-saved'], localStorage['buildup-plan']]")
    assert held == [None, None]
    opened(page, fresh)
    page.locator(".athletes-table").wait_for()
    assert page.get_by_text("From an earlier version").count() == 0


@pytest.mark.parametrize("path", ["/", "/balls", "/records"])
def test_the_pages_are_clean_for_those_who_see_or_hear_them_otherwise(page, base, assert_axe_clean, path):
    opened(page, f"{base}{path}")
    page.wait_for_timeout(500)
    assert_axe_clean(page)
    page.set_viewport_size({"width": 390, "height": 844})
    assert page.evaluate("document.documentElement.scrollWidth") == 390


def test_the_preview_of_a_file_is_clean_too(page, fresh, assert_axe_clean):
    opened(page, f"{fresh}/records")
    brought(page, "speeds.csv", "athlete,date,ball_mass_g,speed\nB7,2026-01-10,145,33\n")
    page.get_by_role("button", name="Keep this").wait_for()
    assert_axe_clean(page)
    page.set_viewport_size({"width": 390, "height": 844})
    assert page.evaluate("document.documentElement.scrollWidth") == 390
