"""The records themselves: where they lie and who can read them, out and in, dated copies, and erasing for good."""

from typing import Any
from urllib.parse import urlencode

import dash_mantine_components as dmc
from dash import ClientsideFunction, Dash, Input, Output, State, html, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.page import Page
from app.bind.visit import ATHLETE, Visit, reader_initials, visit_again
from app.csv_files import LARGEST_BYTES
from app.pages.keeping import ids, routes
from app.records.copies import copies
from app.records.erase import LEFT_BY_FILE, LEFT_BY_SERVER, erase
from app.records.faults import RecordsError
from app.records.rows import counted
from app.records.tables import LONGEST_CODE, LONGEST_INITIALS

ORDER = ["label", "input", "description", "error"]
PERSONAL = "These files hold personal data: whoever gets them can read them."


def layout(visit: Visit) -> Component:
    """Make the page."""
    parts = [who_you_are(), out(visit), brought_in(), dated_copies(visit), erasing(visit)]
    head = [html.H1("Records"), html.P(visit.store.place.who, className="quiet", **{"data-as-is": ""})]
    return html.Div([html.Div(head), *parts], className="keeping")


def who_you_are() -> Component:
    """Make the field of the initials."""
    field = dmc.TextInput(
        id=ids.KEEPING_INITIALS,
        label="Your initials",
        description="who you are, for the history; kept in this browser",
        inputWrapperOrder=ORDER,
        value=reader_initials(),
        attributes={"input": {"maxLength": LONGEST_INITIALS}},
        debounce=True,
        spellCheck=False,
        className="field short",
        **{"data-as-is": ""},
    )
    return html.Section([field, html.P(id=ids.KEEPING_INITIALS_SAID, role="status", className="quiet")])


def out(visit: Visit) -> Component:
    """Make the links by which the records go out."""
    rows = [html.Li(["Everything: ", *_links("")])]
    if visit.athlete is not None:
        rows.append(html.Li([f"{visit.code} alone: ", *_links(visit.code)]))
    told = html.P(f"The document comes in again here or on another machine, and loses nothing. {PERSONAL}")
    return html.Section([html.H2("Out"), html.Ul(rows), told])


def _links(code: str) -> list[Component | str]:
    asked = f"?{urlencode({ATHLETE: code})}" if code else ""
    named = {"records.json": "document (JSON)", "readings.csv": "readings (CSV)", "sessions.csv": "sessions (CSV)"}
    made: list[Component | str] = []
    for name, words in named.items():
        whose = f" of {code}" if code else " of everybody"
        link = html.A(words, href=f"{routes.OUT}/{name}{asked}", download="", **{"aria-label": words + whose})
        made += [link, " · "]
    return made[:-1]


def brought_in() -> Component:
    """Make the field for a file, and the place of what would come of it."""
    told = (
        "A document from here or from another machine, a plan or a teaching session of an earlier version (JSON), or a "
        f"table of readings or sessions (CSV), up to {LARGEST_BYTES // 2**20} MB. First you see what would come of it: "
        "nothing is kept before you say so, and the same file twice adds nothing."
    )
    field = html.Label(
        ["Choose a file ", html.Span(id=ids.KEEPING_PLACE)],
        htmlFor=ids.KEEPING_FILE,
        className="file-label",
    )
    return html.Section(
        [
            html.H2("In"),
            html.P(told),
            field,
            html.P(id=ids.KEEPING_PROGRESS, role="status"),
            html.Div(id=ids.KEEPING_PREVIEW, className="preview"),
        ]
    )


def dated_copies(visit: Visit) -> Component:
    """Make the list of the dated copies, with the command that puts one back."""
    try:
        found = copies(visit.store.database)
    except RecordsError as error:
        return html.Section([html.H2("Dated copies"), html.P(str(error))])
    rows = [html.Li([one.made, ": ", html.Code(f"levelpeak restore {one.name}")]) for one in found]
    none = html.P("There is none yet: one is made before the tables of the records change.")
    told = html.P(
        "To put one back, end Levelpeak and give its command in a terminal; what stands there now is kept beside the "
        "copies."
    )
    return html.Section(
        [html.H2("Dated copies"), html.Ul(rows, **{"data-as-is": ""}) if rows else none, *([told] if rows else [])]
    )


def erasing(visit: Visit) -> Component:
    """Make what erases an athlete for good: the code is typed, so that it happens to no one else."""
    said: list[Component] = [html.H2("Erase an athlete for good")]
    if visit.athlete is None:
        return html.Section([*said, html.P("Choose the athlete above."), html.Div(id=ids.KEEPING_ERASED)])
    left = LEFT_BY_SERVER if visit.store.place.on_server else LEFT_BY_FILE
    field = dmc.TextInput(
        id=ids.KEEPING_ERASE_CODE,
        label=f"Type the code {visit.code}",
        description="as a sign that it is meant",
        inputWrapperOrder=ORDER,
        attributes={"input": {"maxLength": LONGEST_CODE}},
        spellCheck=False,
        className="field",
        **{"data-as-is": ""},
    )
    told = (
        f"All that is kept of {visit.code} goes: measures, readings, comparisons, plans, sessions, stop signs, notes "
        "and the history, here and in the dated copies. It cannot be taken back. To leave an athlete out of the lists, "
        "archive them on Athletes."
    )
    button = html.Button(f"Erase {visit.code} for good", id=ids.KEEPING_ERASE, type="button", n_clicks=0)
    more = [html.P(told), html.Ul([html.Li(one) for one in left]), html.Div([field, button], className="new-athlete")]
    return html.Section([*said, *more, html.Div(id=ids.KEEPING_ERASED, role="status")])


def erase_athlete(pressed: Any, typed: Any, here: Any) -> Any:
    """Erase the page's athlete if the code was typed; what is wrong with it else."""
    if not pressed:
        raise PreventUpdate
    visit = visit_again(here)
    if visit.athlete is None:
        raise PreventUpdate
    if str(typed or "").strip() != visit.code:
        return f"“{typed or ''}” given; accepted: {visit.code}, the code of the athlete who is to be erased."
    try:
        done = erase(visit.store, visit.owner)
    except RecordsError as error:
        return str(error)
    copied = f" and taken out of {counted(done.copies, 'dated copy', 'dated copies')}" if done.copies else ""
    said = f"{done.code} is erased: {counted(done.rows, 'row')} gone{copied}. {' '.join(done.left)}"
    set_props(bound.REFRESH, {"data": {"said": said, "erased": done.rows}})
    return ""


def register(app: Dash) -> None:
    """Give the page's callbacks and addresses to the app."""
    routes.register(app.server)
    app.clientside_callback(
        ClientsideFunction("keeping", "initials"),
        Output(ids.KEEPING_INITIALS_SAID, "children"),
        Input(ids.KEEPING_INITIALS, "value"),
        prevent_initial_call=True,
    )
    app.clientside_callback(
        ClientsideFunction("keeping", "ready"), Output(ids.KEEPING_PLACE, "aria-busy"), Input(ids.KEEPING_PLACE, "id")
    )
    app.callback(
        Output(ids.KEEPING_ERASE_CODE, "error"),
        Input(ids.KEEPING_ERASE, "n_clicks"),
        State(ids.KEEPING_ERASE_CODE, "value"),
        State(bound.HERE, "data"),
        prevent_initial_call=True,
    )(erase_athlete)


PAGE = Page("/records", "Records", layout, register, of_athlete=False)
