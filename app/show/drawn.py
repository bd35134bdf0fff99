"""What `assets/drawn.js` does in the browser for the pages that ask for it, with no question to the server."""

from collections.abc import Sequence

from dash import ClientsideFunction, Dash, Input, Output, State
from dash.dependencies import DashDependency


def drawn(app: Dash, *, width: str = "", papers: Sequence[str] = (), printing: DashDependency | None = None) -> None:
    """Give a page what it asks for.

    Parameters
    ----------
    app : Dash
    width : str, optional
        Id of the store for the figure's width (px).
    papers : sequence of str, optional
        Ids of stores with figures as they are printed.
    printing : Input, optional
        What was pressed to print the page.
    """
    if width:
        app.clientside_callback(_does("width"), Output(width, "data"), Input(width, "id"))
    for store in papers:
        app.clientside_callback(_does("paper"), Input(store, "data"), State(store, "id"))
    if printing is not None:
        app.clientside_callback(_does("print"), printing, prevent_initial_call=True)


def _does(name: str) -> ClientsideFunction:
    return ClientsideFunction("drawn", name)
