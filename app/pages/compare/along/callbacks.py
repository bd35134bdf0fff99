"""The callbacks of what is taken along: the server makes files and links, the browser saves and copies them."""

from datetime import date
from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate

from app.demo import load_demo
from app.pages.compare import ids
from app.pages.compare.along.image import PNG_SCALE, image_of
from app.pages.compare.along.link import LinkError, sendable, text_of
from app.pages.compare.along.tables import curves_table, file_name, readings_table
from app.pages.compare.answers import Comparison, compare
from app.pages.compare.on_page import FIELDS, as_drawn
from app.show.invented import invented_throwers
from app.show.throw_form import Form

BUTTONS = (ids.COMPARE_PNG, ids.COMPARE_SVG, ids.COMPARE_CURVES, ids.COMPARE_READINGS, ids.COMPARE_COPY)

NO_CURVE = "There is no curve yet to take along."


def register(app: Dash) -> None:
    """Give the callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "table": Output(ids.COMPARE_TABLE_FILE, "data"),
            "image": Output(ids.COMPARE_IMAGE_FILE, "data"),
            "link": Output(ids.COMPARE_LINK_MADE, "data"),
            "said": Output(ids.COMPARE_ALONG_SAID, "children"),
        },
        inputs={
            "pressed": [Input(button, "n_clicks") for button in BUTTONS],
            "every": State(ids.COMPARE_ALL_CURVES, "checked"),
            "with_measures": State(ids.COMPARE_WITH_MEASURES, "checked"),
            "fields": FIELDS,
            "saved": State(ids.COMPARE_SAVED, "data"),
            "profiles": State(ids.COMPARE_PROFILES, "data"),
        },
        prevent_initial_call=True,
    )(take)
    for function, part, prop in (
        ("print", ids.COMPARE_PRINT, "n_clicks"),
        ("save", ids.COMPARE_IMAGE_FILE, "data"),
        ("copy", ids.COMPARE_LINK_MADE, "data"),
        ("arrive", ids.COMPARE_SAVED, "data"),
    ):
        app.clientside_callback(ClientsideFunction("along", function), Input(part, prop), prevent_initial_call=True)


def take(
    pressed: list[int | None], every: Any, with_measures: Any, fields: dict[str, Any], saved: Any, profiles: Any
) -> dict[str, Any]:
    """Make what a button asks for, of what is on the page."""
    if not any(pressed):
        raise PreventUpdate  # buttons that were just made
    form, known, system = as_drawn(fields, saved, profiles)
    comparison = compare(form, date.today(), known, system)
    nothing = dict.fromkeys(("table", "image", "link"), no_update)
    return nothing | made(ctx.triggered_id, form, comparison, every is True, with_measures is True)


def made(button: object, form: Form, comparison: Comparison, every: bool, with_measures: bool) -> dict[str, Any]:
    """Make a file or a link.

    Parameters
    ----------
    button : object
        Which one was pressed.
    form : Form
    comparison : Comparison
        What was worked out from it.
    every : bool
        Whether a table of curves is of all quantities.
    with_measures : bool
        Whether a link brings the body measures.

    Returns
    -------
    dict
        ``said``, what is told; and ``table``, ``image`` or ``link``, what was made.
    """
    if button == ids.COMPARE_COPY:
        try:
            return {"link": {"text": text_of(sendable(form, comparison), with_measures)}, "said": ""}
        except LinkError as error:
            return {"said": f"No link: {error}."}
    if not comparison.drawn:
        return {"said": NO_CURVE}
    today, invented = date.today(), invented_throwers(form, load_demo())
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
