"""The callbacks of what is taken along: the server makes files and links, the browser saves and copies them."""

from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, no_update, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import hand_of, visit_again
from app.pages.compare import ids
from app.pages.compare.along.image import PNG_SCALE, image_of
from app.pages.compare.along.link import LinkError, shared_of, text_of
from app.pages.compare.along.opening import offer_of, open_for
from app.pages.compare.along.tables import curves_table, file_name, readings_table
from app.pages.compare.callbacks import current_again
from app.pages.compare.current import Current
from app.records.faults import RecordsError

BUTTONS = (ids.COMPARE_PNG, ids.COMPARE_SVG, ids.COMPARE_CURVES, ids.COMPARE_READINGS, ids.COMPARE_COPY)

NO_CURVE = "There is no curve yet to take along."


def register(app: Dash) -> None:
    """Give the callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    here, seen = State(bound.HERE, "data"), State(bound.VERSION, "data")
    app.clientside_callback(
        ClientsideFunction("along", "ask"),
        Output(ids.COMPARE_ASKED, "data"),
        *(Input(button, "n_clicks") for button in BUTTONS),
        prevent_initial_call=True,
    )
    app.callback(
        output={
            "table": Output(ids.COMPARE_TABLE_FILE, "data"),
            "image": Output(ids.COMPARE_IMAGE_FILE, "data"),
            "link": Output(ids.COMPARE_LINK_MADE, "data"),
            "said": Output(ids.COMPARE_ALONG_SAID, "children"),
        },
        inputs={
            "asked": Input(ids.COMPARE_ASKED, "data"),
            "every": State(ids.COMPARE_ALL_CURVES, "checked"),
            "with_measures": State(ids.COMPARE_WITH_MEASURES, "checked"),
            "here": here,
        },
        prevent_initial_call=True,
    )(take)
    app.callback(
        output={
            "hidden": Output(ids.COMPARE_OFFER, "hidden"),
            "said": Output(ids.COMPARE_OFFER_SAID, "children"),
            "button": Output(ids.COMPARE_TAKE, "children"),
            "button_hidden": Output(ids.COMPARE_TAKE, "hidden"),
        },
        inputs={"text": Input(ids.COMPARE_LINK_OPENED, "data"), "here": here},
        prevent_initial_call=True,
    )(offered)
    app.callback(
        Output(ids.COMPARE_OFFER_SAID, "children", allow_duplicate=True),
        Input(ids.COMPARE_TAKE, "n_clicks"),
        State(ids.COMPARE_LINK_OPENED, "data"),
        here,
        seen,
        prevent_initial_call=True,
    )(taken)
    app.clientside_callback(
        ClientsideFunction("along", "leave"),
        Output(ids.COMPARE_OFFER, "hidden", allow_duplicate=True),
        Input(ids.COMPARE_LEAVE, "n_clicks"),
        prevent_initial_call=True,
    )
    for function, part, prop in (
        ("print", ids.COMPARE_PRINT, "n_clicks"),
        ("save", ids.COMPARE_IMAGE_FILE, "data"),
        ("copy", ids.COMPARE_LINK_MADE, "data"),
    ):
        app.clientside_callback(ClientsideFunction("along", function), Input(part, prop), prevent_initial_call=True)
    link = ids.COMPARE_LINK_OPENED
    app.clientside_callback(ClientsideFunction("along", "arrive"), Output(link, "data"), Input(link, "id"))


def offered(text: Any, here: Any) -> dict[str, Any]:
    """Say what a link holds that was opened."""
    if text is None:
        raise PreventUpdate
    made = offer_of(text, visit_again(here).code)
    return {"hidden": False, "said": made.said, "button": made.button, "button_hidden": not made.button}


def taken(pressed: Any, text: Any, here: Any, seen: Any) -> str:
    """Take in what the link holds, and go there."""
    if not pressed:
        raise PreventUpdate
    visit = visit_again(here)
    try:
        go = open_for(visit.store, text, visit.owner, visit.code, hand_of(here, seen, None, visit.owner), visit.today)
    except (LinkError, RecordsError) as error:
        return f"The link could not be opened: {error}"
    set_props(bound.REFRESH, {"data": {"go": go}})
    return "Opening it."


def take(asked: Any, every: Any, with_measures: Any, here: Any) -> dict[str, Any]:
    """Make what a button asks for, of what is kept."""
    button = asked.get("button") if isinstance(asked, dict) else None
    if button not in BUTTONS:
        raise PreventUpdate
    nothing = dict.fromkeys(("table", "image", "link"), no_update)
    return nothing | made(button, current_again(here), every is True, with_measures is True)


def made(button: object, current: Current, every: bool, with_measures: bool) -> dict[str, Any]:
    """Make a file or a link.

    Parameters
    ----------
    button : object
        Which one was pressed.
    current : Current
    every : bool
        Whether a table of curves is of all quantities.
    with_measures : bool
        Whether a link brings the body measures.

    Returns
    -------
    dict
        ``said``, what is told; and ``table``, ``image`` or ``link``, what was made.
    """
    comparison, today, invented = current.compared(), current.visit.today, current.invented
    if button == ids.COMPARE_COPY:
        try:
            return {"link": {"text": text_of(shared_of(current, with_measures))}, "said": ""}
        except LinkError as error:
            return {"said": f"No link: {error}."}
    if not comparison.drawn:
        return {"said": NO_CURVE}
    if button in (ids.COMPARE_PNG, ids.COMPARE_SVG):
        kind = "png" if button == ids.COMPARE_PNG else "svg"
        name = file_name(comparison, today, kind)
        image = {"figure": image_of(comparison, today, invented), "format": kind, "scale": PNG_SCALE, "name": name}
        return {"image": image, "said": ""}
    if button == ids.COMPARE_CURVES:
        name = file_name(comparison, today, "csv", "curves", "all" if every else "")
        text = curves_table(comparison, every, invented)
    else:
        name = file_name(comparison, today, "csv", "readings")
        text = readings_table(comparison, invented)
    return {"table": {"content": text, "filename": name, "type": "text/csv;charset=utf-8"}, "said": f"Saved as {name}."}
