"""What this browser still holds of a version without records: offered once to be taken in, then put away."""

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, dcc, html
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import hand_of, visit_again
from app.pages.athletes import ids
from app.records.acts import TEAM
from app.records.document import Document, ExchangeError
from app.records.faults import RecordsError
from app.records.incoming import take_in
from app.records.looking import Coming, look_through
from app.records.old_files import forms_document
from app.records.old_plans import plan_document
from app.records.store import Store


def offer() -> Component:
    """Make the place of the offer; the browser says whether there is one."""
    return html.Div([html.Div(id=ids.ATHLETES_OLD), dcc.Store(id=ids.ATHLETES_OLD_HELD)])


def documents(held: Mapping[str, Any], today: date) -> list[Document]:
    """Read what the browser holds: throws and profiles, and a plan.

    Parameters
    ----------
    held : mapping
        Texts of the browser's storage, by what they are: compare, athlete, plan.
    today : date
        The day of readings that have none.

    Returns
    -------
    list of Document

    Raises
    ------
    ExchangeError
        If a text is no such form.
    """
    compared, profiles, plan = (_plain(held.get(name)) for name in ("compare", "athlete", "plan"))
    forms = profiles.get("forms") if isinstance(profiles, dict) else None
    pairs = [one for one in forms or () if isinstance(one, list) and len(one) == 2] if isinstance(forms, list) else []
    made = []
    if isinstance(compared, dict) or pairs:
        form = compared if isinstance(compared, dict) else NO_THROWS
        made.append(forms_document(form, {str(code): form for code, form in pairs}, today))
    if isinstance(plan, dict):
        made.append(plan_document(plan))
    return [one for one in made if one.athletes]


NO_THROWS: Mapping[str, Any] = {"athlete": {}, "throws": [], "reference": "", "kind": "measured", "quantity": "varus"}


def _plain(text: object) -> Any:
    try:
        return json.loads(text) if isinstance(text, str) else None
    except (ValueError, RecursionError):
        return None


def comings(store: Store, held: Any, today: date) -> list[Coming]:
    """What would come of it."""
    found = documents(held, today) if isinstance(held, dict) else []
    return [look_through(store, one, by_code=True) for one in found]


def show(held: Any, here: Any) -> Any:
    """Offer what the browser holds, with what would come of it."""
    if not isinstance(held, dict) or held.get("forget"):
        return None
    visit = visit_again(here)
    leave = html.Button("Delete it", id=ids.ATHLETES_OLD_LEAVE, type="button", n_clicks=0)
    try:
        found = comings(visit.store, held, visit.today)
    except (ExchangeError, RecordsError) as error:
        words = [html.P(f"This browser holds something of an earlier version that cannot be taken in: {error}.")]
        return html.Section([*words, leave], className="old-tab")
    if not found:
        return None
    lines = [html.Li(line) for one in found for line in one.lines]
    take = html.Button("Take it in", id=ids.ATHLETES_OLD_TAKE, type="button", n_clicks=0)
    return html.Section(
        [
            html.H2("From an earlier version"),
            *([html.P(str(held["trouble"]), role="alert")] if held.get("trouble") else []),
            html.P("This browser holds what was typed before there were records. Of it would come:"),
            html.Ul(lines),
            html.P("Either way it is then deleted from the browser.", className="quiet"),
            html.Div([take, leave], className="row-of-buttons"),
        ],
        className="old-tab",
    )


def take(pressed: Any, held: Any, here: Any) -> Any:
    """Take it in; then the browser forgets it."""
    if not pressed:
        raise PreventUpdate
    visit = visit_again(here)
    hand = hand_of(here, None, None, TEAM)
    try:
        done = [take_in(visit.store, one, hand) for one in comings(visit.store, held, visit.today)]
    except (ExchangeError, RecordsError) as error:
        return {**held, "trouble": str(error)}
    refused = [line for one in done for line in one.refused]
    if refused:  # nothing is deleted of what nobody has taken
        return {**held, "trouble": f"Not all of it was taken. {' '.join(refused)}"}
    return {"forget": True, "said": "Taken in, and deleted from this browser."}


def leave(pressed: Any) -> Any:
    """Delete it without taking it in."""
    if not pressed:
        raise PreventUpdate
    return {"forget": True, "said": "Deleted from this browser."}


def register(app: Dash) -> None:
    """Give the callbacks of the offer to the app."""
    here = State(bound.HERE, "data")
    app.clientside_callback(
        ClientsideFunction("oldTab", "held"), Output(ids.ATHLETES_OLD_HELD, "data"), Input(ids.ATHLETES_OLD, "id")
    )
    app.callback(
        Output(ids.ATHLETES_OLD, "children"), Input(ids.ATHLETES_OLD_HELD, "data"), here, prevent_initial_call=True
    )(show)
    app.callback(
        Output(ids.ATHLETES_OLD_HELD, "data", allow_duplicate=True),
        Input(ids.ATHLETES_OLD_TAKE, "n_clicks"),
        State(ids.ATHLETES_OLD_HELD, "data"),
        here,
        prevent_initial_call=True,
    )(take)
    app.callback(
        Output(ids.ATHLETES_OLD_HELD, "data", allow_duplicate=True),
        Input(ids.ATHLETES_OLD_LEAVE, "n_clicks"),
        prevent_initial_call=True,
    )(leave)
    app.clientside_callback(ClientsideFunction("oldTab", "forget"), Input(ids.ATHLETES_OLD_HELD, "data"))
