"""All athletes: who is here, when they were last measured, and how fast they throw their own ball."""

from typing import Any

import dash_mantine_components as dmc
from dash import ClientsideFunction, Dash, Input, Output, State, dcc, html, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.new_athlete import make_athlete
from app.bind.page import Page
from app.bind.visit import Visit, hand_of, visit_again
from app.pages.athletes import ids, old_tab
from app.pages.athletes.lines import lines_of
from app.pages.athletes.table import table_html
from app.records.acts import Put
from app.records.faults import GoneError, RecordsError
from app.records.tables import LONGEST_CODE, now
from model.day_speeds import SEASON_DAYS

ARCHIVED = "archived"
DOES = (
    "Levelpeak turns the mass of a ball and the speed of the hand into the torque at elbow and shoulder over time, for "
    "one athlete and several balls.",
    "It compares throws, finds speeds that load alike, plans a build-up from session to session and keeps what was "
    "thrown.",
)
READ_SO = (
    "Own-ball speed: the mean of the last day with full-effort readings. Speed over the season: a straight line "
    f"through the days of the {SEASON_DAYS} days up to that one, with how sure it is; another radar or another place "
    "looks like a change. Flags are what people have entered: who may throw is decided by people."
)


def layout(visit: Visit) -> Component:
    """Make the page."""
    archived = bool(visit.asked.get(ARCHIVED))
    lines = lines_of(visit.store, visit.today, visit.system, archived)
    away = len(lines) if archived else visit.store.count_archived()
    parts: list[Component] = [html.Div(html.H1("Archived athletes" if archived else "Athletes"), className="page-head")]
    if not lines and not away:
        parts.append(html.Div([html.P(said) for said in DOES], className="what-for"))
    parts.append(old_tab.offer())
    tools = ([] if archived else [new_athlete()]) + ([find()] if lines else [])
    parts.append(html.Div(tools, className="athletes-tools"))
    if lines:
        parts += table(visit, table_html(lines, mark=not visit.store.invented))
    elif archived:
        parts.append(html.P("Nobody is archived."))
    if archived:
        parts.append(html.P(html.A("Show the athletes who are not archived", href=visit.address("/"))))
    elif away:
        parts.append(html.P(html.A(f"Show the archived ({away})", href=visit.address("/", **{ARCHIVED: "1"}))))
    where = [html.A("Take in a file", href="/records"), html.A("Balls of the team", href="/balls")]
    parts.append(html.P([where[0], " · ", where[1]]))
    return html.Div([*parts, dcc.Store(id=ids.ATHLETES_ASKED)], className="athletes")


def new_athlete() -> Component:
    """Make the field and the button of a new athlete."""
    code = dmc.TextInput(
        id=ids.ATHLETES_NEW_CODE,
        label="New athlete",
        description="a code; no name is needed",
        inputWrapperOrder=["label", "input", "description", "error"],
        attributes={"input": {"maxLength": LONGEST_CODE}},
        debounce=True,  # so that Enter brings the code along
        spellCheck=False,
        className="field",
        **{"data-as-is": ""},
    )
    return html.Div([code, html.Button("Add", id=ids.ATHLETES_NEW, type="button", n_clicks=0)], className="new-athlete")


def find() -> Component:
    """Make the field that leaves only those in the table whose code has these letters."""
    return dmc.TextInput(
        id=ids.ATHLETES_FILTER,
        label="Find",
        description="a part of the code",
        inputWrapperOrder=["label", "input", "description", "error"],
        attributes={"input": {"maxLength": LONGEST_CODE}},
        spellCheck=False,
        className="field find",
        **{"data-as-is": ""},
    )


def table(visit: Visit, written: str) -> list[Component]:
    """Make the place of the table, and what fills it."""
    place = {"role": "region", "aria-label": "Athletes", "aria-busy": "true"}
    return [
        html.Div(id=ids.ATHLETES_PLACE, className="scrolls", tabIndex=0, **place),
        html.P(READ_SO, className="quiet"),
        dcc.Store(id=ids.ATHLETES_TABLE, data={"html": written, "tab": visit.tab}),
    ]


def add(pressed: Any, entered: Any, code: Any, here: Any) -> str:
    """Make the athlete of the code, and go there."""
    if not pressed and not entered:
        raise PreventUpdate
    return make_athlete(str(code or ""), here)


def put_away(asked: Any, here: Any) -> None:
    """Archive an athlete, or bring one back."""
    if not isinstance(asked, dict) or asked.get("do") not in ("archive", "back"):
        raise PreventUpdate
    visit, uid, away = visit_again(here), str(asked.get("athlete", "")), asked["do"] == "archive"
    try:
        code = visit.store.code_of(uid)
        if code is None:
            raise GoneError("This athlete was erased.")
        act = Put("athlete", "archived_at", now() if away else None)
        done = visit.store.act(uid, act, hand_of(here, None, None, uid))
    except RecordsError as error:
        set_props(bound.REFRESH, {"data": {"said": str(error)}})
        return
    said = f"{code} is archived: kept, and left out of the lists." if away else f"{code} is back in the lists."
    data = {"said": said, "focus": ids.ATHLETES_FILTER, "version": {uid: done.version}}
    set_props(bound.REFRESH, {"data": data})


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    here = State(bound.HERE, "data")
    app.clientside_callback(
        ClientsideFunction("athletes", "fill"),
        Output(ids.ATHLETES_PLACE, "aria-busy"),
        Input(ids.ATHLETES_TABLE, "data"),
    )
    app.clientside_callback(ClientsideFunction("athletes", "find"), Input(ids.ATHLETES_FILTER, "value"))
    app.callback(
        Output(ids.ATHLETES_NEW_CODE, "error"),
        Input(ids.ATHLETES_NEW, "n_clicks"),
        Input(ids.ATHLETES_NEW_CODE, "n_submit"),
        State(ids.ATHLETES_NEW_CODE, "value"),
        here,
        prevent_initial_call=True,
    )(add)
    app.callback(Input(ids.ATHLETES_ASKED, "data"), here, prevent_initial_call=True)(put_away)
    old_tab.register(app)


PAGE = Page("/", "Athletes", layout, register, of_athlete=False)
