"""The athlete picker of the strip: the recent ones first, type to find, a new code makes a new athlete."""

from collections.abc import Sequence
from typing import Any

import dash_mantine_components as dmc
from dash import ClientsideFunction, Dash, Input, Output, State, dcc, html, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import address, hand_of, the_store
from app.records.acts import TEAM
from app.records.faults import RecordsError
from app.records.fields import in_words
from app.web import ids
from model.checks import InputError

FIRST_PAGE_OF_NEW = "/athlete"
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
    try:
        the_store().new_athlete(code, hand_of(here, None, None, TEAM))
    except InputError as error:
        return in_words(error)
    except RecordsError as error:
        return str(error)
    set_props(bound.REFRESH, {"data": {"go": address(FIRST_PAGE_OF_NEW, code.strip())}})
    return ""


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
