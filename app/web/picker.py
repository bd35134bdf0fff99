"""The athlete picker of the strip: the recent ones first, type to find, a new code makes a new athlete."""

from collections.abc import Sequence
from typing import Any

import dash_mantine_components as dmc
from dash import ClientsideFunction, Dash, Input, Output, State, dcc, html
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.new_athlete import make_athlete
from app.web import ids

NEW = "new:"
"""What stands before a code, in the value of the choice that makes a new athlete."""


def picker() -> Component:
    """Make the picker; `offered` fills it."""
    return html.Div(
        [
            dmc.Select(
                id=ids.SHELL_ATHLETE,
                data=[],
                searchable=True,
                clearable=False,
                allowDeselect=False,
                placeholder="Athlete",
                nothingFoundMessage="No such code",
                size="xs",
                comboboxProps={"withinPortal": True, "transitionProps": {"duration": 0}},
                attributes={"input": {"maxLength": 24}},
                className="picker",
                **{"aria-label": "Athlete: type a code to find or to add one", "data-as-is": ""},
            ),
            dcc.Store(id=ids.SHELL_NEW),
            html.Span(id=ids.SHELL_NEW_SAID, role="status", className="picker-said"),
        ],
        className="strip-athlete",
    )


def offered(codes: Sequence[str]) -> list[dict[str, str]]:
    """The athletes to choose from."""
    return [{"value": code, "label": code} for code in codes]


def make(asked: Any, here: Any) -> str:
    """Make the athlete of a new code, and go there."""
    code = asked.get("code") if isinstance(asked, dict) else None
    if not isinstance(code, str):
        raise PreventUpdate
    return make_athlete(code, here)


def register(app: Dash) -> None:
    """Give the picker's callbacks to the app."""
    app.clientside_callback(
        ClientsideFunction("bind", "offer"),
        Output(ids.SHELL_ATHLETE, "data", allow_duplicate=True),
        Input(ids.SHELL_ATHLETE, "searchValue"),
        State(ids.SHELL_ATHLETE, "data"),
        prevent_initial_call=True,
    )
    app.clientside_callback(
        ClientsideFunction("bind", "choose"),
        Output(ids.SHELL_NEW, "data"),
        Input(ids.SHELL_ATHLETE, "value"),
        State(bound.HERE, "data"),
        prevent_initial_call=True,
    )
    app.callback(
        Output(ids.SHELL_NEW_SAID, "children"),
        Input(ids.SHELL_NEW, "data"),
        State(bound.HERE, "data"),
        prevent_initial_call=True,
    )(make)
