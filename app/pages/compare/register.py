"""What of the Compare page calls which function, and what the answers are put into."""

from dash import ALL, ClientsideFunction, Dash, Input, Output, State

from app.bind import ids as bound
from app.pages.compare import ids
from app.pages.compare.callbacks import draw, draw_every, tell
from app.show import ids as shared_ids
from app.show.drawn import drawn

SAMPLE = {"type": ids.COMPARE_SAMPLE, "throw": ALL}
HELD = {"type": ids.COMPARE_HELD, "throw": ALL}

WORDS = {
    "summary": ids.COMPARE_SUMMARY,
    "sentence": ids.COMPARE_SENTENCE,
    "others": ids.COMPARE_OTHERS,
    "warnings": ids.COMPARE_WARNINGS,
    "figure_title": ids.COMPARE_FIGURE_TITLE,
    "figure_note": ids.COMPARE_FIGURE_NOTE,
    "table": ids.COMPARE_TABLE,
    "day_missing": ids.COMPARE_DAY_SAID,
}


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    here, version = State(bound.HERE, "data"), Input(ids.COMPARE_DRAWN, "data")
    theme, width = Input(shared_ids.SHELL_THEME, "data"), Input(ids.COMPARE_WIDTH, "data")
    app.callback(
        output={
            "figure": Output(ids.COMPARE_FIGURE, "figure"),
            "samples": Output(SAMPLE, "style"),
            "identity": Output(ids.COMPARE_IDENTITY, "data"),
        },
        inputs={
            "version": Input(bound.VERSION, "data"),
            "theme": theme,
            "width": width,
            "samples": [State(SAMPLE, "id"), State(SAMPLE, "style")],
            "here": here,
            "identity": State(ids.COMPARE_IDENTITY, "data"),
        },
    )(draw)
    app.callback(
        output={
            "view": {name: Output(part, "children") for name, part in WORDS.items()},
            "paper": Output(ids.COMPARE_PAPER, "data"),
            "told": Output(ids.COMPARE_TOLD, "data"),
            "held": Output(HELD, "children"),
        },
        inputs={"drawn": version, "held": [State(HELD, "id"), State(HELD, "children")], "here": here},
        prevent_initial_call=True,
    )(tell)
    app.callback(
        Output(ids.COMPARE_MULTIPLES, "figure"),
        Input(ids.COMPARE_EVERY_OPEN, "data"),
        theme,
        width,
        here,
        prevent_initial_call=True,
    )(draw_every)
    drawn(app, width=ids.COMPARE_WIDTH)
    app.clientside_callback(
        ClientsideFunction("compare", "drawn"),
        Output(ids.COMPARE_DRAWN, "data"),
        Input(ids.COMPARE_FIGURE, "figure"),
        prevent_initial_call=True,
    )
    app.clientside_callback(ClientsideFunction("shell", "fill"), Input(ids.COMPARE_TOLD, "data"))
    app.clientside_callback(ClientsideFunction("curves", "identity"), Input(ids.COMPARE_IDENTITY, "data"))
    app.clientside_callback(ClientsideFunction("compare", "paper"), Input(ids.COMPARE_PAPER, "data"))
