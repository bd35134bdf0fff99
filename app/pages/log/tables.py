"""The tables of the log: the newest week, the weeks, the sessions."""

from collections.abc import Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.fields import act_button
from app.bind.visit import Visit
from app.pages.log import ids
from app.pages.log.answers import Gap, LogAnswer, SessionLine, WeekLine, with_gaps
from app.pages.log.words import (
    NOT_OVER,
    NUMBERS,
    beside,
    counted,
    day_words,
    days_of,
    entry_planned,
    entry_words,
    number_words,
    planned_words,
    value_of,
    week_head,
    week_name,
)
from app.show.ball_words import ball_words
from app.show.glossary import explained
from app.show.noted import signed_words
from app.show.page_parts import page_link
from app.show.sessions import Entry
from model.ball import Ball
from model.tally import Tally, Week

WEEKS_SHOWN, SESSIONS_SHOWN = 12, 20


def columns(answer: LogAnswer) -> tuple[str, ...]:
    """The numbers that have a column: the area above a level only where one is set."""
    return tuple(key for key in NUMBERS if key != "area_above" or answer.level_nm is not None)


def heading(key: str, answer: LogAnswer) -> str:
    """Head a column."""
    if key == "area_above" and answer.level_nm is not None:
        return f"Area above {number_words(answer.level_nm, 'peak')}"
    return NUMBERS[key][0]


def bar(done: float | None, planned: float | None, most: float) -> Component:
    """A small bar: what was done, and around it the outline of what was planned."""
    parts = []
    for name, value in (("log-done", done), ("log-planned", planned)):
        if value and most > 0.0:
            parts.append(html.Span(className=name, style={"width": f"{100.0 * value / most:.1f}%"}))
    return html.Div(parts, className="log-bar", **{"aria-hidden": "true"})


def newest(answer: LogAnswer) -> Component | None:
    """The newest week of which something is in the log, number by number."""
    line = answer.last
    if line is None:
        return None
    cells = []
    for key in columns(answer):
        done = value_of(line.week.tally, key)
        planned = None if line.planned is None else value_of(line.planned, key)
        most = max(done or 0.0, planned or 0.0, (value_of(line.week.before, key) or 0.0) if line.week.before else 0.0)
        told = [words for words in (planned_words(line.planned, key), beside(line.week, key)) if words]
        cells.append(
            html.Div(
                [
                    html.Dt(explained(heading(key, answer))),
                    html.Dd(html.Strong(number_words(done, key))),
                    html.Dd(bar(done, planned, most)),
                    *(html.Dd(words, className="quiet") for words in told),
                ]
            )
        )
    head = html.H2([week_head(line), html.Span(days_of(line.week.monday, line.week.sunday), className="unit")])
    return html.Section([head, html.Dl(cells, className="log-now")], className="log-newest")


def weeks_table(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The weeks, the newest first, a page of them."""
    lines = with_gaps(answer.weeks)
    page, pages = page_of(visit, "weeks", len(lines), WEEKS_SHOWN)
    shown = lines[page * WEEKS_SHOWN : (page + 1) * WEEKS_SHOWN]
    keys = columns(answer)
    most = {key: _most(shown, key) for key in keys}
    heads = [html.Th("Week", scope="col"), html.Th("Sessions", scope="col")]
    heads += [html.Th(explained(heading(key, answer)), scope="col") for key in keys]
    rows = [_gap(one, len(heads)) if isinstance(one, Gap) else _week(one, keys, most) for one in shown]
    said = "By calendar week, the newest first: done, planned, and beside the mean of the four weeks before."
    made = _table(said, heads, rows, "log-weeks")
    return [made, *_pages(visit, "weeks", page, pages, "weeks")]


def _most(lines: Sequence[WeekLine | Gap], key: str) -> float:
    """The longest bar."""
    tallies: list[Tally | None] = []
    for one in lines:
        tallies += [] if isinstance(one, Gap) else [one.week.tally, one.planned]
    return max((value_of(one, key) or 0.0 for one in tallies if one is not None), default=0.0)


def _named(week: Week) -> list[Any]:
    return [week_name(week), html.Span(days_of(week.monday, week.sunday), className="unit")]


def _week(line: WeekLine, keys: Sequence[str], most: dict[str, float]) -> Component:
    sure = [] if line.over else [html.Span(NOT_OVER, className="unit")]
    outside = ""
    if line.outside:
        outside = "all outside a plan" if line.planned is None else f"{counted(line.outside, 'throw')} outside a plan"
    cells = []
    for key in keys:
        done = value_of(line.week.tally, key)
        planned = None if line.planned is None else value_of(line.planned, key)
        told = [planned_words(line.planned, key), outside if key == "throws" else "", beside(line.week, key)]
        cells.append(
            html.Td(
                [
                    html.Strong(number_words(done, key)),
                    bar(done, planned, most[key]),
                    *(html.Span(words, className="unit") for words in told if words),
                ]
            )
        )
    head = html.Th([*_named(line.week), *sure], scope="row")
    return html.Tr([head, html.Td(str(line.week.sessions)), *cells])


def _gap(gap: Gap, width: int) -> Component:
    dates = html.Span(days_of(gap.first.monday, gap.last.sunday), className="unit")
    named = html.Th([f"{counted(gap.weeks, 'week')}", dates], scope="row")
    return html.Tr([named, html.Td("Nothing of these weeks is in the log.", colSpan=width - 1)], className="log-gap")


def sessions_table(answer: LogAnswer, visit: Visit) -> list[Component]:
    """The sessions, the newest first, a page of them; those of no plan can be changed and removed."""
    page, pages = page_of(visit, "sessions", len(answer.sessions), SESSIONS_SHOWN)
    shown = answer.session_lines(page * SESSIONS_SHOWN, (page + 1) * SESSIONS_SHOWN)
    keys = columns(answer)
    heads = [html.Th("Day", scope="col"), html.Th("Thrown", scope="col")]
    heads += [html.Th(explained(heading(key, answer)), scope="col") for key in keys]
    rows = [_session(one, keys, visit) for one in shown]
    said = "By session, the newest first. What was thrown outside a plan on a day counts as one session."
    return [_table(said, heads, rows, "log-table"), *_pages(visit, "sessions", page, pages, "sessions")]


def entries_list(answer: LogAnswer, visit: Visit) -> list[Component]:
    """What was thrown, the newest first, where nothing can be summed yet."""
    lines = answer.read.entries[::-1]
    page, pages = page_of(visit, "sessions", len(lines), SESSIONS_SHOWN)
    names = ball_names(visit)
    rows = []
    for one in lines[page * SESSIONS_SHOWN : (page + 1) * SESSIONS_SHOWN]:
        head = html.Th([day_words(one.day), html.Span(one.plan_name or "no plan", className="unit")], scope="row")
        rows.append(html.Tr([head, html.Td(html.Ul(_entry(one, visit, names)), className="log-thrown")]))
    heads = [html.Th("Day", scope="col"), html.Th("Thrown", scope="col")]
    made = _table("What was thrown, the newest first.", heads, rows, "log-table")
    return [made, *_pages(visit, "sessions", page, pages, "sessions")]


def _session(line: SessionLine, keys: Sequence[str], visit: Visit) -> Component:
    names = ball_names(visit)
    of = [page_link(line.plan_name, visit.address("/build-up"))] if line.plan_name else "no plan"
    head = html.Th([day_words(line.session.day), html.Span(of, className="unit")], scope="row")
    cells = []
    for key in keys:
        told = planned_words(line.planned, key)
        small = [html.Span(told, className="unit")] if told else []
        cells.append(html.Td([number_words(value_of(line.session.tally, key), key), *small]))
    thrown = html.Td(html.Ul([_entry(one, visit, names) for one in line.entries]), className="log-thrown")
    return html.Tr([head, thrown, *cells])


def _entry(entry: Entry, visit: Visit, names: dict[Ball, str]) -> Component:
    said = entry_words(entry, visit.system, _ball(entry.ball, names, visit))
    planned = entry_planned(entry, visit.system)
    signs = [signed_words(one) for one in (visit.data.stop_signs if visit.data else ()) if one.session == entry.row]
    small = [html.Span(text, className="unit") for text in (planned, entry.pain, *signs, entry.note) if text]
    return html.Li([html.Span(said), *([] if entry.plan else buttons(visit, entry.row, said, entry.day)), *small])


def buttons(visit: Visit, row: str, said: str, day: Any) -> list[Component]:
    """The two buttons of a session of no plan."""
    return [
        act_button(visit, words, do, row, className="log-press", **{"aria-label": f"{words}: {said}, {day_words(day)}"})
        for words, do in (("Change", ids.CHANGE), ("Remove", ids.REMOVE))
    ]


def ball_names(visit: Visit) -> dict[Ball, str]:
    """What the balls of the records are called; of two alike the first."""
    made: dict[Ball, str] = {}
    for one in visit.data.balls.values() if visit.data else ():
        if one.mass_kg is not None and one.diameter_m is not None and one.athlete_id is not None:
            made.setdefault(Ball(one.mass_kg, one.diameter_m), "own ball")
    return made


def _ball(ball: Ball, names: dict[Ball, str], visit: Visit) -> str:
    named = names.get(ball)
    return f"{named}, {ball_words(ball, visit.system)}" if named else ball_words(ball, visit.system)


def page_of(visit: Visit, name: str, count: int, size: int) -> tuple[int, int]:
    """Which page of a list the address asks for, from 0, and how many there are."""
    pages = max(1, -(-count // size))
    asked = visit.asked.get(name, "1")
    wanted = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 6 else 1
    return min(max(wanted, 1), pages) - 1, pages


def _pages(visit: Visit, name: str, page: int, pages: int, what: str) -> list[Component]:
    if pages == 1:
        return []
    asked = dict(visit.asked)
    links: list[Any] = []
    if page + 1 < pages:
        links.append(html.A(f"Earlier {what}", href=visit.address("/log", **(asked | {name: str(page + 2)}))))
    if page:
        links.append(html.A(f"Later {what}", href=visit.address("/log", **(asked | {name: str(page)}))))
    where = html.Span(f"Page {page + 1} of {pages}", className="quiet")
    return [html.Nav([*links, where], className="log-pages", **{"aria-label": f"Pages of the {what}"})]


def _table(caption: str, heads: list[Component], rows: list[Component], name: str) -> Component:
    said = html.Caption(html.Span(caption, className="caption"))
    table = html.Table([said, html.Thead(html.Tr(heads)), html.Tbody(rows)], className=f"plain-table {name}")
    return html.Div(table, className="scrolls", tabIndex=0, role="region", **{"aria-label": caption.split(",")[0]})
