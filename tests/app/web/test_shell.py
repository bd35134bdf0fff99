"""The shell's parts as component trees."""

from collections import Counter

import pytest
from dash import html

from app import places
from app.bind.page import Page
from app.bind.visit import visit_of
from app.pages import PAGES
from app.show import ids as shared_ids
from app.web import ids, shell
from app.web.server import Config, create_app

FIRST = Page(
    "/",
    "First",
    lambda _visit: html.Div([html.H1("First"), html.Button("Add", **{"data-key": "a"})]),
    lambda _a: None,
    of_athlete=False,
)
SECOND = Page("/second", "Second", lambda _visit: html.H1("Second"), lambda _app: None, of_athlete=False)


def texts(tree) -> list[str]:
    """Every piece of text in a component tree."""
    own = [tree.children] if isinstance(tree.children, str) else []
    return own + [part.children for part in tree._traverse() if isinstance(getattr(part, "children", None), str)]


@pytest.fixture
def shown():
    """What stands at an address: the main part's texts, the table of keys, the title, the athletes, the chosen one."""
    app = create_app(Config(demo=True))

    def show(pages, path, search=""):
        with app.server.test_request_context():
            main, _, keys, title, athletes, chosen = shell.show_page(pages, path, search)
        return texts(html.Div(main)), keys, title, athletes, chosen

    return show


def test_an_address_shows_its_page_whatever_slash_it_ends_in(shown):
    for path in ("/second", "/second/"):
        main, _, title, *_ = shown((FIRST, SECOND), path)
        assert "Second" in main
        assert title == "Second · Levelpeak"


def test_no_address_yet_shows_the_first_page(shown):
    main, _, title, *_ = shown((FIRST, SECOND), None)
    assert "First" in main
    assert title == "First · Levelpeak"


def test_an_unknown_address_is_named_and_leads_back(shown):
    main, _, title, *_ = shown((FIRST, SECOND), "/nowhere")
    assert main == ["No such page", "/nowhere", "To the start"]
    assert title == "No such page · Levelpeak"


def test_the_athlete_of_the_address_is_the_one_of_the_picker_and_is_recent_then(shown):
    *_, chosen = shown((FIRST,), "/", "?athlete=W04")
    assert chosen == "W04"
    _, _, _, athletes, chosen = shown((FIRST,), "/")
    assert athletes[0] == {"value": "W04", "label": "W04"}
    assert chosen == "W04"


def test_a_page_of_an_athlete_says_so_where_there_is_none(shown):
    page = Page("/", "Of one", lambda _visit: html.H1("Of one"), lambda _app: None)
    main, *_, chosen = shown((page,), "/", "?athlete=<b>")
    assert "There is no athlete with the code “<b>” here." in main
    assert chosen is None


def test_a_single_page_needs_no_links():
    assert shell.page_links((FIRST,), "/") == []


def test_the_link_of_the_shown_page_is_marked():
    links = shell.page_links((FIRST, SECOND), "/second")
    assert [link.href for link in links] == ["/", "/second"]
    assert [link.href for link in shell.page_links((FIRST, SECOND), "/", "W 1")][1] == "/second?athlete=W+1"
    assert [getattr(link, "aria-current", None) for link in links] == [None, "page"]


def test_the_keys_of_the_shell_and_of_the_page_are_listed(shown):
    _, table, *_ = shown((FIRST,), "/")
    assert texts(table)[1:] == ["u", "Units", "n", "Decimal mark", "t", "Theme", "?", "Keys", "a", "Add"]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.title)
def test_no_two_controls_of_a_page_share_a_key(page):
    with create_app(Config(demo=True)).server.test_request_context():
        layout = html.Div(shell.main_of(page, visit_of(page.path, "?athlete=W01")))
    keys = [key for key, _ in [*shell.key_names(shell.strip()), *shell.key_names(layout)]]
    assert [key for key, times in Counter(keys).items() if times > 1] == []


def test_the_browser_code_keeps_the_theme_under_the_same_name():
    theme = (places.assets() / "theme.js").read_text(encoding="utf-8")
    assert f"kept('{shared_ids.SHELL_THEME}')" in theme
    assert str(list(shell.THEMES)) in theme
    keyboard = (places.assets() / "keyboard.js").read_text(encoding="utf-8")
    assert f"kept('{ids.SHELL_KEYS}')" in keyboard
    callbacks = (places.assets() / "shell.js").read_text(encoding="utf-8")
    for name in (ids.SHELL_THEME_SWITCH, ids.SHELL_KEYS_SWITCH):
        assert f"'{name}'" in callbacks
    assert f"'{ids.SHELL_NOTICE}'" in (places.assets() / "answers.js").read_text(encoding="utf-8")
