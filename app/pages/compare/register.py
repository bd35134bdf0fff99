"""What of the Compare page calls which function, and what the answers are put into."""

from dash import ClientsideFunction, Dash, Input, Output, State

from app.pages.compare import ids
from app.pages.compare.callbacks import change, draw, draw_every, rest_on, tell
from app.pages.compare.on_page import CHOSEN, HELD, HOLD, MEASURE, MOVE, SAMPLE, THROW, VIEW_OUTPUTS, fields_of
from app.show import ids as shared_ids
from app.show.drawn import drawn

BUTTONS = (
    ids.COMPARE_ADD,
    ids.COMPARE_EXAMPLE,
    ids.COMPARE_CLEAR,
    ids.COMPARE_PUT_BACK,
    ids.COMPARE_KEEP_SPEEDS,
    ids.COMPARE_DISMISS,
    ids.COMPARE_EXCHANGE,
    ids.COMPARE_ALONE,
    ids.COMPARE_JOIN,
)


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "athlete": Output(ids.COMPARE_ATHLETE, "children"),
            "other": Output(ids.COMPARE_OTHER, "children"),
            "second_hidden": Output(ids.COMPARE_SECOND, "hidden"),
            "join_hidden": Output(ids.COMPARE_JOIN, "hidden"),
            "rows": Output(ids.COMPARE_ROWS, "children"),
            "chosen": {name: Output(part, "value") for name, part in CHOSEN.items()},
            "notice": Output(ids.COMPARE_NOTICE, "children"),
            "put_back_hidden": Output(ids.COMPARE_PUT_BACK, "hidden"),
            "speeds_hidden": Output(ids.COMPARE_KEEP_SPEEDS, "hidden"),
            "before": Output(ids.COMPARE_BEFORE, "data"),
            "focus": Output(ids.COMPARE_FOCUS, "data"),
            "choose": Output(ids.COMPARE_CHOOSE, "value"),
            "choose_other": Output(ids.COMPARE_CHOOSE_OTHER, "value"),
            "rack": Output(ids.COMPARE_RACK, "value"),
            "ready": Output(ids.COMPARE_READY, "value"),
            "balls": Output(ids.COMPARE_RACK, "data"),
            "written": Output(ids.COMPARE_WRITTEN, "data"),
        },
        inputs={
            "pressed": {
                "moves": Input(MOVE, "n_clicks"),
                "holds": Input(HOLD, "value"),
                "measures": Input(MEASURE, "value"),
                "choose": Input(ids.COMPARE_CHOOSE, "value"),
                "choose_other": Input(ids.COMPARE_CHOOSE_OTHER, "value"),
                "rack": Input(ids.COMPARE_RACK, "value"),
                "link": Input(ids.COMPARE_LINK_OPENED, "data"),
                "ready": Input(ids.COMPARE_READY, "value"),
                "restored": Input(ids.COMPARE_RESTORE, "data"),
                "buttons": [Input(button, "n_clicks") for button in BUTTONS],
            },
            "fields": fields_of(State),
            "saved": State(ids.COMPARE_SAVED, "data"),
            "before": State(ids.COMPARE_BEFORE, "data"),
            "profiles": State(ids.COMPARE_PROFILES, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
        },
    )(change)
    app.callback(
        output={
            "figure": Output(ids.COMPARE_FIGURE, "figure"),
            "samples": Output(SAMPLE, "style"),
            "identity": Output(ids.COMPARE_IDENTITY, "data"),
        },
        inputs={
            "fields": fields_of(Input),
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "width": Input(ids.COMPARE_WIDTH, "data"),
            "samples": [State(SAMPLE, "id"), State(SAMPLE, "style")],
            "saved": State(ids.COMPARE_SAVED, "data"),
            "profiles": State(ids.COMPARE_PROFILES, "data"),
            "identity": State(ids.COMPARE_IDENTITY, "data"),
        },
    )(draw)
    app.callback(
        output={
            "view": VIEW_OUTPUTS,
            "paper": Output(ids.COMPARE_PAPER, "data"),
            "invented": Output(ids.COMPARE_INVENTED, "children"),
            "invented_hidden": Output(ids.COMPARE_INVENTED, "hidden"),
            "measure_errors": Output(MEASURE, "error"),
            "throw_errors": Output(THROW, "error"),
            "held": Output(HELD, "children"),
            "told": Output(ids.COMPARE_TOLD, "data"),
        },
        inputs={
            "saved": Input(ids.COMPARE_SAVED, "data"),
            "measures": [State(MEASURE, "id"), State(MEASURE, "error")],
            "throws": [State(THROW, "id"), State(THROW, "error")],
            "held": [State(HELD, "id"), State(HELD, "children")],
            "profiles": State(ids.COMPARE_PROFILES, "data"),
            "written": State(ids.COMPARE_WRITTEN, "data"),
        },
    )(tell)
    app.callback(
        Output(ids.COMPARE_BASIS, "children"),
        Output(ids.COMPARE_CHAIN, "data"),
        Input(MEASURE, "value"),
        State(MEASURE, "id"),
        State(ids.COMPARE_WRITTEN, "data"),
    )(rest_on)
    drawn(app, width=ids.COMPARE_WIDTH)
    app.clientside_callback(
        ClientsideFunction("compare", "profiles"),
        Output(ids.COMPARE_PROFILES, "data"),
        Input(ids.COMPARE_PROFILES, "id"),
    )
    app.clientside_callback(
        ClientsideFunction("compare", "drawn"),
        Output(ids.COMPARE_SAVED, "data"),
        Input(ids.COMPARE_FIGURE, "figure"),
        prevent_initial_call=True,
    )
    app.clientside_callback(ClientsideFunction("shell", "fill"), Input(ids.COMPARE_TOLD, "data"))
    app.callback(
        Output(ids.COMPARE_MULTIPLES, "figure"),
        Input(ids.COMPARE_EVERY_OPEN, "data"),
        Input(ids.COMPARE_SAVED, "data"),
        Input(shared_ids.SHELL_THEME, "data"),
        Input(ids.COMPARE_WIDTH, "data"),
        State(ids.COMPARE_PROFILES, "data"),
    )(draw_every)
    for kept in (ids.COMPARE_IDENTITY, ids.COMPARE_CHAIN):
        app.clientside_callback(ClientsideFunction("curves", kept.removeprefix("compare-")), Input(kept, "data"))
    app.clientside_callback(ClientsideFunction("compare", "paper"), Input(ids.COMPARE_PAPER, "data"))
    app.clientside_callback(
        ClientsideFunction("compare", "step"),
        Output(ids.COMPARE_RESTORE, "data"),
        Input(ids.COMPARE_UNDO, "n_clicks"),
        Input(ids.COMPARE_REDO, "n_clicks"),
        prevent_initial_call=True,
    )
    app.clientside_callback(ClientsideFunction("compare", "noticed"), Input(ids.COMPARE_NOTICE, "children"))
    app.clientside_callback(ClientsideFunction("compare", "focus"), Input(ids.COMPARE_FOCUS, "data"))
