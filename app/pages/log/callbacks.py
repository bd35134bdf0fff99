"""The page's callback: whatever is kept, everything that follows from the log is made anew."""

from typing import Any

from dash import Dash, Input, Output, State

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.log import ids, view
from app.pages.log.answers import answer_of
from app.pages.log.figure import drawn_weeks, paper_figure, weeks_figure
from app.pages.log.past import lines_of
from app.pages.log.words import figure_note
from app.show import ids as shared_ids
from app.show.axes import BLANK, width_px
from app.show.drawn import drawn
from app.show.palette import theme_named
from app.show.quantities import title
from model.channels import READINGS

OUTPUTS = {
    "figure": Output(ids.LOG_FIGURE, "figure"),
    "paper": Output(ids.LOG_PAPER, "data"),
    "picture_hidden": Output(ids.LOG_PICTURE, "hidden"),
    "figure_title": Output(ids.LOG_FIGURE_TITLE, "children"),
    "figure_note": Output(ids.LOG_FIGURE_NOTE, "children"),
    "said": Output(ids.LOG_SAID, "children"),
    "weeks": Output(ids.LOG_WEEKS, "children"),
    "sessions": Output(ids.LOG_SESSIONS, "children"),
    "history": Output(ids.LOG_HISTORY_LINES, "children"),
}


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    app.callback(
        output=OUTPUTS,
        inputs={
            "version": Input(bound.VERSION, "data"),
            "theme": Input(shared_ids.SHELL_THEME, "data"),
            "width": Input(ids.LOG_WIDTH, "data"),
            "here": State(bound.HERE, "data"),
        },
    )(draw)
    drawn(app, width=ids.LOG_WIDTH, papers=[ids.LOG_PAPER])


def draw(version: Any, theme: Any, width: Any, here: Any) -> dict[str, Any]:  # noqa: ARG001
    """Draw the weeks and write all that follows from the log."""
    visit = visit_again(here)
    blank = dict.fromkeys(OUTPUTS, None) | {"figure": BLANK, "picture_hidden": True}
    if visit.data is None:
        return blank
    answer, bars = answer_of(visit.data, visit.today), visit.data.settings["log.bars"]
    made = blank | {
        "said": view.said(answer, visit),
        "weeks": view.weeks(answer, visit),
        "sessions": view.sessions(answer, visit),
        "history": lines_of(visit),
    }
    if not answer.weeks:
        return made
    what = "Throws by week" if bars == "throws" else f"{title(READINGS[answer.reading])}: summed area by week"
    return made | {
        "figure": weeks_figure(answer, bars, theme_named(theme), width_px(width)),
        "paper": paper_figure(answer, bars),
        "picture_hidden": False,
        "figure_title": what,
        "figure_note": figure_note(bars, drawn_weeks(answer), answer),
    }
