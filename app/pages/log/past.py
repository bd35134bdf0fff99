"""The history of the athlete's records in words: who, when, and what from what."""

from collections.abc import Sequence
from itertools import groupby

from dash import html
from dash.development.base_component import Component

from app.bind.visit import Visit
from app.pages.log import ids
from app.pages.log.entering import FIELDS
from app.records.history import Line, history, in_words, who_and_when

LINES_SHOWN, CHANGES_SHOWN = 60, 8  # on a page; of one act
ENTERED = (*FIELDS, "log.changed")
BEFORE = "before"
"""What the address calls the version before which the history is shown."""


def past(visit: Visit) -> Component:
    """Make the fold with the history; its lines are filled in when the page is drawn."""
    return html.Details(
        [
            html.Summary(f"History of the records of {visit.code}"),
            html.P(
                "Every change, the newest first, by the clock of this machine. Undo and Redo, above, take the last "
                "act back and do it again.",
                className="quiet",
            ),
            html.Div(id=ids.LOG_HISTORY_LINES),
        ],
        id=ids.LOG_HISTORY,
        className="fold log-history",
        open=BEFORE in visit.asked,
    )


def lines_of(visit: Visit) -> list[Component]:
    """The lines of a page of the history, and the way to earlier ones."""
    asked = visit.asked.get(BEFORE, "")
    until = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 10 else None
    lines, more = whole_acts(history(visit.store, visit.owner, most=LINES_SHOWN + 1, until=until))
    if not lines:
        return [html.P("Nothing was changed yet." if until is None else "Nothing was changed before that.")]
    rest = {key: text for key, text in visit.asked.items() if key != BEFORE}
    links = []
    if more:
        earlier = visit.address("/log", **rest, **{BEFORE: str(lines[-1].version)})
        links.append(html.A("Earlier", href=f"{earlier}#{ids.LOG_HISTORY}"))
    if until is not None:
        links.append(html.A("The newest", href=f"{visit.address('/log', **rest)}#{ids.LOG_HISTORY}"))
    made: list[Component] = [html.Ol([_act(list(act), visit) for _, act in groupby(lines, lambda one: one.version)])]
    return [
        *made,
        *([html.Nav(links, className="log-pages", **{"aria-label": "Pages of the history"})] if links else []),
    ]


def whole_acts(lines: Sequence[Line]) -> tuple[list[Line], bool]:
    """The lines of whole acts, and whether there are more: an act that may go on beyond the last line comes next."""
    if len(lines) <= LINES_SHOWN:
        return list(lines), False
    kept = [line for line in lines if line.version != lines[-1].version]
    return (kept, True) if kept else (list(lines), True)


def _keeps_a_session(lines: Sequence[Line]) -> bool:
    """Whether an act kept a session: that its fields are empty again goes without saying."""
    return any(line.table == "session_log" for line in lines)


def _act(lines: Sequence[Line], visit: Visit) -> Component:
    when = html.Span(who_and_when(lines[0], visit.tab), className="log-when")
    told = [line for line in lines if line.field not in ENTERED] if _keeps_a_session(lines) else lines
    said = list(dict.fromkeys(in_words(line, visit.system) for line in told))
    more = len(said) - CHANGES_SHOWN
    rest = [f"and {more} more"] if more > 0 else []
    return html.Li([when, html.Span("; ".join([*said[:CHANGES_SHOWN], *rest]))])
