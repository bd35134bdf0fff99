"""The shell around the pages, as a person meets it."""

import re

import pytest
from dash import Dash, Input, Output, html

from app.bind.page import Page
from app.web.server import Config, create_app
from tests.browser.compare_page import load_again
from tests.browser.themes import THEMES

playwright = pytest.importorskip("playwright.sync_api")
expect = playwright.expect


def first_layout(_visit=None) -> html.Div:
    """A page with a control that a key works, a field to write in, and a callback that fails."""
    return html.Div(
        [
            html.H1("First"),
            html.Button("Count", id="count", type="button", **{"data-key": "c"}),
            html.P(id="counted"),
            html.Label("Note", htmlFor="note"),
            html.Textarea(id="note"),
            html.Button("Break", id="break", type="button"),
            html.P("as it was", id="broken"),
        ]
    )


def first_register(app: Dash) -> None:
    """One callback that counts and one that fails."""

    @app.callback(Output("counted", "children"), Input("count", "n_clicks"), prevent_initial_call=True)
    def count(clicks: int) -> str:
        return f"counted {clicks}"

    @app.callback(Output("broken", "children"), Input("break", "n_clicks"), prevent_initial_call=True)
    def fail(_clicks: int) -> str:
        raise RuntimeError("a secret of the program")


@pytest.fixture(scope="module")
def two_pages(serve_app) -> str:
    first = Page("/", "First", first_layout, first_register, of_athlete=False)
    second = Page("/second", "Second", lambda _visit: html.H1("Second"), lambda _app: None, of_athlete=False)
    return serve_app(create_app(Config(), pages=(first, second)))


def choose_theme(page, name: str) -> None:
    page.get_by_role("radiogroup", name="Theme").get_by_text(name.title(), exact=True).click()
    expect(page.locator("html")).to_have_attribute("data-theme", name)


def test_the_theme_switch_changes_the_page_and_its_components(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    grounds = []
    for name in ("light", "dark", "projector"):
        choose_theme(page, name)
        scheme = "dark" if name == "dark" else "light"
        expect(page.locator("html")).to_have_attribute("data-mantine-color-scheme", scheme)
        grounds.append(page.evaluate("getComputedStyle(document.body).backgroundColor"))
    assert grounds[0] != grounds[1], "the dark page has the light page's ground"


def test_the_theme_is_remembered_and_on_before_the_first_paint(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    choose_theme(page, "dark")
    page.add_init_script("""
        new MutationObserver((_, watcher) => {
            if (!document.body) return;
            window.themeAtBody = document.documentElement.dataset.theme;
            watcher.disconnect();
        }).observe(document, {childList: true, subtree: true});
    """)
    load_again(page)
    page.get_by_role("heading", name="First").wait_for()
    assert page.evaluate("window.themeAtBody") == "dark"
    expect(page.get_by_role("radio", name="Dark")).to_be_checked()
    expect(page.locator("html")).to_have_attribute("data-mantine-color-scheme", "dark")
    page.get_by_role("heading", name="First").wait_for()
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")


@pytest.mark.slow
def test_a_spoilt_entry_in_the_browsers_storage_gives_the_light_theme(page, two_pages):
    page.add_init_script("localStorage.setItem('shell-theme', '\"plaid\"')")
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    expect(page.locator("html")).to_have_attribute("data-theme", "light")


def test_the_first_tab_stop_skips_to_the_content(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    page.keyboard.press("Tab")
    skip = page.get_by_role("link", name="Skip to the content")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    page.keyboard.press("Enter")
    expect(page.get_by_role("main")).to_be_focused()


def test_the_question_mark_opens_the_keys_and_escape_closes_them(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    page.keyboard.press("?")
    keys = page.get_by_role("dialog", name="Keys")
    expect(keys).to_be_visible()
    for key, name in (("?", "Keys"), ("t", "Theme"), ("c", "Count")):
        expect(keys.get_by_role("row", name=re.compile(f"^{re.escape(key)}.*{name}$"))).to_be_visible()
    page.keyboard.press("Escape")
    expect(keys).to_be_hidden()


def test_a_key_works_its_control_but_not_while_one_writes_or_a_dialog_is_open(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    page.keyboard.press("c")
    expect(page.get_by_text("counted 1")).to_be_visible()
    page.get_by_label("Note").press_sequentially("cct?")
    expect(page.get_by_label("Note")).to_have_value("cct?")
    expect(page.get_by_role("dialog")).to_have_count(0)
    page.get_by_role("button", name="Keys").click()
    expect(page.get_by_role("dialog", name="Keys")).to_be_visible()
    page.keyboard.press("c")
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    page.get_by_role("button", name="Count").click()
    expect(page.get_by_text("counted 2")).to_be_visible()
    page.keyboard.press("t")
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")


@pytest.mark.slow
def test_single_keys_can_be_switched_off_and_stay_off(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    page.get_by_role("button", name="Keys").click()
    page.get_by_role("switch", name="Single keys work").click()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    load_again(page)
    page.get_by_role("heading", name="First").wait_for()
    page.keyboard.press("t")
    page.keyboard.press("c")
    page.get_by_role("button", name="Count").click()
    expect(page.get_by_text("counted 1")).to_be_visible()
    expect(page.locator("html")).to_have_attribute("data-theme", "light")
    page.get_by_role("button", name="Keys").click()
    expect(page.get_by_role("switch", name="Single keys work")).not_to_be_checked()


def test_a_link_goes_to_another_page_and_says_which_one_is_shown(page, two_pages):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    links = page.get_by_role("navigation", name="Pages")
    expect(links.get_by_role("link", name="First")).to_have_attribute("aria-current", "page")
    links.get_by_role("link", name="Second").click()
    expect(page.get_by_role("heading", name="Second")).to_be_visible()
    expect(page).to_have_title("Second · Levelpeak")
    expect(links.get_by_role("link", name="Second")).to_have_attribute("aria-current", "page")
    expect(links.get_by_role("link", name="First")).not_to_have_attribute("aria-current", "page")
    page.go_back()
    expect(page.get_by_role("heading", name="First")).to_be_visible()


def test_an_address_that_leads_nowhere_says_so(page, two_pages):
    page.goto(f"{two_pages}/nowhere")
    expect(page.get_by_role("heading", name="No such page")).to_be_visible()
    expect(page.get_by_text("/nowhere")).to_be_visible()


def test_a_failed_callback_gives_a_calm_notice_and_changes_nothing(page, two_pages, caplog):
    page.goto(two_pages)
    page.get_by_label("Note").fill("kept")
    page.get_by_role("button", name="Break").click()
    notice = page.get_by_role("alert").filter(has_text="Not changed")
    expect(notice).to_contain_text("Everything you entered is still there.")
    expect(page.get_by_text("as it was")).to_be_visible()
    expect(page.get_by_label("Note")).to_have_value("kept")
    assert "secret" not in page.content()
    assert "Traceback" not in page.content()
    assert "a secret of the program" in caplog.text


@pytest.mark.slow
def test_the_notice_comes_back_when_it_fails_again(page, two_pages):
    page.goto(two_pages)
    notice = page.get_by_role("alert").filter(has_text="Not changed")
    for _ in range(2):
        page.get_by_role("button", name="Break").click()
        notice.get_by_role("button", name="Close").click()
        expect(notice).to_have_count(0)


@pytest.fixture
def unguarded(browser):
    """A page whose console may show errors: the browser itself reports a request that failed."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


@pytest.mark.parametrize(
    ("answer", "told"),
    [
        (None, "Levelpeak does not answer."),
        (413, "That was more than Levelpeak takes at once."),
        (500, "Levelpeak could not work this out;"),
    ],
)
def test_a_question_without_a_good_answer_is_told(unguarded, two_pages, answer, told):
    unguarded.goto(two_pages)
    unguarded.get_by_label("Note").fill("kept")
    asked = "**/_dash-update-component*"
    unguarded.route(asked, lambda route: route.fulfill(status=answer, json={}) if answer else route.abort())
    unguarded.get_by_role("button", name="Count").click()
    notice = unguarded.get_by_role("alert").filter(has_text="Not changed")
    expect(notice).to_contain_text(f"{told} ")
    expect(unguarded.get_by_label("Note")).to_have_value("kept")
    unguarded.unroute(asked)
    unguarded.get_by_role("button", name="Count").click()
    expect(unguarded.get_by_text("counted 2")).to_be_visible()


@pytest.mark.parametrize("theme", THEMES)
def test_the_shell_breaks_no_wcag_rule(page, two_pages, assert_axe_clean, theme):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    choose_theme(page, theme)
    page.get_by_role("button", name="Break").click()
    page.get_by_role("alert").filter(has_text="Not changed").wait_for()
    assert_axe_clean(page)
    page.get_by_role("button", name="Keys").click()
    page.get_by_role("dialog", name="Keys").wait_for()
    assert_axe_clean(page)


def test_the_check_for_wcag_rules_finds_a_breach(page, two_pages, assert_axe_clean):
    page.goto(two_pages)
    page.get_by_role("heading", name="First").wait_for()
    page.evaluate("document.querySelector('label[for=note]').remove()")
    with pytest.raises(AssertionError, match="label"):
        assert_axe_clean(page)


def test_figures_are_drawn_by_the_small_library_alone(page, served):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{served}/compare")
    page.locator(".js-plotly-plot").first.wait_for()
    assert any("/assets/plotly-basic.min.js" in url for url in asked)
    assert not [url for url in asked if re.search(r"plotly[^/]*\.js", url) and "/assets/" not in url]
