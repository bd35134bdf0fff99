"""What stands around every page: name, page links, units, theme, keys, and the line at the foot."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any

import dash_mantine_components as dmc
from dash import ClientsideFunction, Dash, Input, Output, State, dcc, html
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import cells, edit, steps
from app.bind import ids as bound
from app.bind.page import Page
from app.bind.visit import Visit, address, nobody, reader_system, stores, visit_of
from app.show import ids as shared_ids
from app.show.glossary import meanings
from app.show.invented import INVENTED
from app.units.systems import SYSTEMS
from app.version import VERSION
from app.web import ids, picker

THEMES = ("light", "dark", "projector")
DECIMALS = {"point": "1.5", "comma": "1,5"}
ARROWS = {"ArrowLeft": "←", "ArrowRight": "→"}
"""How keys are shown that have no letter."""

ABOUT = "A model of joint torque, not of tissue: it does not predict injury."


def layout() -> Component:
    """Return the shell with an empty main part; the callback of `register` fills it."""
    return dmc.MantineProvider(
        id=ids.SHELL_PROVIDER,
        forceColorScheme="light",
        children=html.Div(
            className="shell",
            children=[
                dcc.Location(id=shared_ids.SHELL_URL, refresh=False),
                dcc.Store(id=ids.SHELL_TITLE),
                dcc.Store(id=bound.REFRESH),
                dcc.Store(id=shared_ids.SHELL_THEME, storage_type="local", data=THEMES[0]),
                dcc.Store(id=shared_ids.SHELL_UNITS, data=reader_system().key),
                dcc.Store(id=ids.SHELL_DECIMAL, storage_type="local"),  # none: as the browser's language has it
                dcc.Store(id=ids.SHELL_KEYS, storage_type="local", data=True),
                html.A("Skip to the content", href=f"#{ids.SHELL_MAIN}", className="skip"),
                strip(),
                html.Main(id=ids.SHELL_MAIN, tabIndex=-1),
                html.Footer([html.Span(ABOUT), " ", html.Span(f"Levelpeak {VERSION}")], className="foot"),
                key_help(),
                meanings(),
                dmc.NotificationContainer(id=ids.SHELL_NOTICE, position="bottom-right"),
            ],
        ),
    )


def strip() -> Component:
    """Return the top strip: name, links, units, decimal mark, theme, keys."""
    units = dmc.SegmentedControl(
        id=ids.SHELL_UNITS_SWITCH,
        data=[{"value": system.key, "label": system.label} for system in SYSTEMS],
        value=reader_system().key,
        size="xs",
        **{"aria-label": "Units", "data-key": "u"},
    )
    decimal = dmc.SegmentedControl(
        id=ids.SHELL_DECIMAL_SWITCH,
        data=[{"value": mark, "label": label} for mark, label in DECIMALS.items()],
        value="point",
        size="xs",
        **{"aria-label": "Decimal mark", "data-key": "n", "data-as-is": ""},
    )
    theme = dmc.SegmentedControl(
        id=ids.SHELL_THEME_SWITCH,
        data=[{"value": theme, "label": theme.capitalize()} for theme in THEMES],
        value=THEMES[0],
        size="xs",
        **{"aria-label": "Theme", "data-key": "t"},
    )
    keys = html.Button("Keys", id=ids.SHELL_HELP_OPEN, type="button", **{"aria-haspopup": "dialog", "data-key": "?"})
    return html.Header(
        className="strip",
        children=[
            html.A("Levelpeak", href="/", className="strip-name"),
            picker.picker(),
            html.Nav(id=ids.SHELL_NAV, className="strip-pages", **{"aria-label": "Pages"}),
            html.Div([units, decimal, theme, keys], className="strip-tools"),
        ],
    )


def key_help() -> Component:
    """Return the dialog that lists the keys and can switch them off."""
    return dmc.Modal(
        id=ids.SHELL_HELP,
        title="Keys",
        closeButtonProps={"aria-label": "Close"},
        transitionProps={"duration": 0},
        children=[
            html.Div(id=ids.SHELL_HELP_LIST, className="keys"),
            html.P("Tab goes from one control to the next. Arrow keys move a slider or a choice. Escape closes this."),
            dmc.Switch(id=ids.SHELL_KEYS_SWITCH, label="Single keys work", checked=True),
        ],
    )


def key_names(tree: Component) -> Iterator[tuple[str, str]]:
    """Find the controls that a key works.

    Parameters
    ----------
    tree : Component
        The component to look through.

    Yields
    ------
    tuple of str
        Key and name of each control with a ``data-key``: its ``aria-label``, else its text.
    """
    for part in tree._traverse():
        key = getattr(part, "data-key", None)
        if key:
            yield key, getattr(part, "aria-label", None) or str(part.children)


def key_table(pairs: Sequence[tuple[str, str]]) -> Component:
    """Return the table of keys.

    Parameters
    ----------
    pairs : sequence of tuple of str
        Key and name of each control.

    Returns
    -------
    Component
        A table with one row for each.
    """
    rows = [html.Tr([html.Th(html.Kbd(ARROWS.get(key, key)), scope="row"), html.Td(name)]) for key, name in pairs]
    return html.Table([html.Caption("A key, and the control it works"), html.Tbody(rows)])


def page_links(pages: Sequence[Page], path: str, code: str = "") -> list[Component]:
    """Return the links to the pages, for the same athlete: none where there is only one; the shown page's is marked."""
    if len(pages) < 2:
        return []
    current = {"aria-current": "page"}
    return [
        html.A(page.title, href=address(page.path, code), **(current if page.path == path else {})) for page in pages
    ]


def no_page(path: str) -> Component:
    """Return what stands in the main part where an address leads nowhere.

    Parameters
    ----------
    path : str
        The address.

    Returns
    -------
    Component
        A heading, the address and a way back.
    """
    return html.Div(
        [
            html.H1("No such page"),
            html.P(["Nothing is kept at ", html.Code(path), "."]),
            html.A("To the start", href="/"),
        ]
    )


def show_page(pages: Sequence[Page], path: str | None, search: str | None = "", anew: Any = None) -> tuple[Any, ...]:
    """Make the page at an address.

    Parameters
    ----------
    pages : sequence of Page
        All pages.
    path : str or None
        The address asked for; a slash at its end does not matter.
    search : str or None
        The address from its question mark on.
    anew : object
        Why the page is made anew, from the store `app.bind.ids.REFRESH`.

    Returns
    -------
    tuple
        Main part, page links, table of keys, the browser tab's title, and the picker's athletes and the one chosen.
    """
    if isinstance(anew, dict) and anew.get("go"):
        raise PreventUpdate  # the browser is on its way to another page
    visit = visit_of("/" + (path or "").strip("/"), search)
    page = next((page for page in pages if page.path == visit.path), None)
    said = anew.get("said") if isinstance(anew, dict) else ""
    main = [*([html.P(said, role="status", className="page-said")] if said else []), *main_of(page, visit)]
    title = f"{page.title if page else 'No such page'} · Levelpeak"
    links = page_links(pages, visit.path, visit.code)
    keys = key_table([*key_names(strip()), *key_names(html.Div(main))])
    chosen = visit.code if visit.athlete else None
    if visit.athlete:
        visit.store.opened(visit.owner)
    return main, links, keys, title, picker.offered(visit.store.codes()), chosen


def main_of(page: Page | None, visit: Visit) -> list[Component]:
    """Make the main part: the page's stores, the sign that what it shows is invented, then the page."""
    if page is None:
        return [*stores(visit), no_page(visit.path)]
    said = [html.P(INVENTED, className="quiet invented")] if is_invented(page, visit) else []
    if page.of_athlete and visit.athlete is None:
        return [*stores(visit), *said, html.Div([html.H1(page.title), nobody(visit)])]
    return [*stores(visit), *said, page.layout(visit)]


def is_invented(page: Page, visit: Visit) -> bool:
    """Whether all that a page shows is invented: every page of the demo's records, and those of an invented athlete."""
    of_one = page.of_athlete and visit.athlete is not None and visit.athlete.invented
    return visit.store.invented or of_one


def register(app: Dash, pages: Sequence[Page]) -> None:
    """Give the shell's callbacks to the app.

    Parameters
    ----------
    app : Dash
        The app.
    pages : sequence of Page
        All pages.
    """
    app.callback(
        Output(ids.SHELL_MAIN, "children"),
        Output(ids.SHELL_NAV, "children"),
        Output(ids.SHELL_HELP_LIST, "children"),
        Output(ids.SHELL_TITLE, "data"),
        Output(ids.SHELL_ATHLETE, "data"),
        Output(ids.SHELL_ATHLETE, "value"),
        Input(shared_ids.SHELL_URL, "pathname"),
        Input(shared_ids.SHELL_URL, "search"),
        Input(bound.REFRESH, "data"),
    )(partial(show_page, pages))
    picker.register(app)
    steps.register(app)
    cells.register(app)
    edit.register(app, {name: doer for page in pages for name, doer in page.doers.items()})
    app.clientside_callback(ClientsideFunction("bind", "again"), Input(bound.REFRESH, "data"))
    # A callback with an output is also asked when its store comes with the page; one without is not.
    app.clientside_callback(
        ClientsideFunction("bind", "here"), Output(bound.HERE, "modified_timestamp"), Input(bound.HERE, "data")
    )
    app.clientside_callback(ClientsideFunction("shell", "arrive"), Input(ids.SHELL_TITLE, "data"))
    app.clientside_callback(
        ClientsideFunction("shell", "theme"),
        Output(shared_ids.SHELL_THEME, "data"),
        Output(ids.SHELL_THEME_SWITCH, "value"),
        Output(ids.SHELL_PROVIDER, "forceColorScheme"),
        Input(shared_ids.SHELL_THEME, "data"),
        Input(ids.SHELL_THEME_SWITCH, "value"),
    )
    app.clientside_callback(
        ClientsideFunction("bind", "units"),
        Output(shared_ids.SHELL_UNITS, "data"),
        Input(ids.SHELL_UNITS_SWITCH, "value"),
        prevent_initial_call=True,
    )
    for function, store, control, shows in (
        ("decimal", ids.SHELL_DECIMAL, ids.SHELL_DECIMAL_SWITCH, "value"),
        ("keys", ids.SHELL_KEYS, ids.SHELL_KEYS_SWITCH, "checked"),
    ):
        app.clientside_callback(
            ClientsideFunction("shell", function),
            Output(store, "data"),
            Output(control, shows),
            Input(store, "data"),
            Input(control, shows),
        )
    app.clientside_callback(
        ClientsideFunction("shell", "help"),
        Output(ids.SHELL_HELP, "opened"),
        Input(ids.SHELL_HELP_OPEN, "n_clicks"),
        State(ids.SHELL_HELP, "opened"),
        prevent_initial_call=True,
    )
