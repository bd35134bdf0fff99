"""What stands on the page of an answer: the first sentence, the weeks, the sessions, what could not be counted."""

from dash import html
from dash.development.base_component import Component

from app.bind.visit import Visit
from app.pages.log.answers import LogAnswer
from app.pages.log.entering import row_of
from app.pages.log.tables import buttons, entries_list, newest, sessions_table, weeks_table
from app.pages.log.words import HOW, counted, day_words, sentence
from app.records.field_list import field_of
from app.show.noted import sign_words
from app.show.page_parts import page_link

UNREAD_SHOWN = 10


def said(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The first sentence, what keeps the log from being summed, and the newest week."""
    made: list[Component] = []
    if answer.weeks:
        made.append(html.P(sentence(answer), className="sentence"))
    elif answer.read.entries:
        many = counted(sum(one.throws for one in answer.read.entries), "throw")
        days = counted(len({one.day for one in answer.read.entries}), "day")
        made.append(html.P(f"In the log: {many} on {days}.", className="sentence"))
    elif not answer.read.unread:
        made.append(
            html.P(
                "Nothing is in the log yet. Enter a session below, or one of a plan on Build up.", className="sentence"
            )
        )
    if answer.missing and answer.read.entries:
        names = ", ".join(field_of(path).label.lower() for path in answer.missing)
        where = page_link("Enter it on Athlete", visit.address("/athlete"))
        made.append(html.P([f"Torques are summed as soon as these are known: {names}. ", where, "."]))
    made += _signs(visit)
    now = newest(answer)
    return [*made, *([now] if now is not None else []), *_unread(answer, visit)]


def _signs(visit: Visit) -> list[Component]:
    """Stop signs that stand."""
    standing = [
        one
        for one in (visit.data.stop_signs if visit.data else ())
        if one.cleared_by is None and one.withdrawn_by is None
    ]
    if not standing:
        return []
    words = "A stop sign stands" if len(standing) == 1 else f"{len(standing)} stop signs stand"
    signs = "; ".join(f"{sign_words(one.sign)}, since {day_words(one.since)}" for one in standing)
    link = page_link("Build up", visit.address("/build-up"))
    told = [f"{words}: {signs}. What that means, and who can clear it, is on ", link, "."]
    return [html.P(told, className="at-number")]


def _unread(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The sessions that are in no sum, and why."""
    unread = answer.read.unread
    if not unread:
        return []
    head = f"{counted(len(unread), 'session is', 'sessions are')} in no sum here:"
    lines = []
    for one in unread[-UNREAD_SHOWN:][::-1]:
        mine = visit.data is not None and row_of(visit.data, one.row) is not None
        words = f"{day_words(one.day)}, {one.plan_name or 'no plan'}. {visit.system.retold(one.why)}"
        lines.append(html.Li([words, *(buttons(visit, one.row, "session", one.day) if mine else [])]))
    more = len(unread) - len(lines)
    rest = [html.Li(f"and {more} earlier ones")] if more else []
    return [html.Div([html.P(head), html.Ul([*lines, *rest])], className="at-number log-unread")]


def weeks(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The weeks under their heading; nothing where there are none."""
    if not answer.weeks:
        return []
    return [html.H2("Weeks"), *weeks_table(answer, visit), html.P(HOW, className="quiet log-how")]


def sessions(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The sessions under their heading; where nothing can be summed, as a list."""
    if answer.sessions:
        return [html.H2("Sessions"), *sessions_table(answer, visit)]
    if answer.read.entries:
        return [html.H2("Sessions"), *entries_list(answer, visit)]
    return []
