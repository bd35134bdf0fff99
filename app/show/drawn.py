"""What `assets/drawn.js` does in the browser for the pages that ask for it, with no question to the server."""

from collections.abc import Sequence

from dash import ClientsideFunction, Dash, Input, Output, State
from dash.dependencies import DashDependency


def drawn(
    app: Dash,
    *,
    read: str = "",
    width: str = "",
    papers: Sequence[str] = (),
    write: str = "",
    printing: DashDependency | None = None,
) -> None:
    """Give a page what it asks for.

    Parameters
    ----------
    app : Dash
    read, width, write : str, optional
        Ids of stores: for what other pages keep, read when the page opens; for the figure's width (px); and from which
        a form of Compare is written where that page finds it.
    papers : sequence of str, optional
        Ids of stores with figures as they are printed.
    printing : Input, optional
        What was pressed to print the page.
    """
    for name, store in (("read", read), ("width", width)):
        if store:
            app.clientside_callback(_does(name), Output(store, "data"), Input(store, "id"))
    for store in papers:
        app.clientside_callback(_does("paper"), Input(store, "data"), State(store, "id"))
    if write:
        app.clientside_callback(_does("write"), Input(write, "data"))
    if printing is not None:
        app.clientside_callback(_does("print"), printing, prevent_initial_call=True)


def _does(name: str) -> ClientsideFunction:
    return ClientsideFunction("drawn", name)
