"""The tables of a plan: its steps, its sessions with boxes to fill in, and old numbers beside new ones."""

from collections.abc import Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup import words
from app.pages.buildup.course import Course
from app.pages.buildup.head_words import closed_words, waits_words
from app.pages.buildup.lines import AFTER_A_SIGN, Line, lines_of
from app.pages.buildup.paper import columns, rows_on_paper, step_rows
from app.pages.buildup.recheck import Recheck
from app.pages.buildup.rule_words import (
    SOURCES_TOLD,
    decided_words,
    ratings_words,
    sign_words,
    soreness_words,
    stop_sign_words,
)
from app.records.plan_fields import CAP_LIMITS
from app.show.glossary import explained
from app.units.systems import System
from model.build_up import METRICS, Breach, Step
from model.session_rules import WHEN

HEADS = {
    "rise_rate": "Rise rate",
    "peak": "Elbow peak",
    "shoulder_peak": "Shoulder peak",
    "loaded_s": "Time loaded",
    "area": "Area",
    "braking": "Braking",
}
BOXES = ("Pain before", "While", "Hour after", "Next morning", "Speed held", "Decided, by")
ROWS_IN_FRAME = 12  # of sessions, that the frame on the screen shows at once
HELD = {True: "yes", False: "no", None: "–"}
SAME = 0.0005  # relative: a smaller difference prints as none


def steps_table(course: Course, system: System) -> Component:
    """Make the table of steps: each with its metrics, how much they rise, and the limits it breaks."""
    record = course.record
    by_place: dict[int, list[Breach]] = {}
    for breach in course.breaches:
        by_place.setdefault(breach.step, []).append(breach)
    heads = _step_heads(course, system, tuple(HEADS))
    rows: list[Component] = []
    steps = record.steps
    for i, step in enumerate(steps):
        metrics = [html.Td(_value(key, step, steps[i - 1] if i else None, system)) for key in HEADS]
        rows.append(_step_row(course, i, system, metrics))
        if i in by_place:
            told = [html.Li(words.breach_words(one, system)) for one in by_place[i]]
            said = [html.Strong(f"Step {i + 1} breaks: "), html.Ul(told)]
            rows.append(html.Tr(html.Td(said, colSpan=len(heads)), className="buildup-broken"))
    caption = (
        f"Under each number its change from the step before. Lead readout: {METRICS[record.lead][0]}. Braking: "
        "horizontal-abduction torque after release, the hand empty, so that only the speed counts."
    )
    made = table(caption, heads, rows, "buildup-table")
    if columns(course) == 1:
        return made
    return html.Div([html.Div(made, className="screen-only"), _steps_in_columns(course, by_place, system)])


def _step_heads(course: Course, system: System, keys: Sequence[str]) -> list[Component]:
    heads = [_head("Step"), _head("Ball"), _head("Of full speed"), _head("Speed cap", system.unit("m/s"))]
    return [*heads, _head("Sessions"), *(_head(_lead(key, course), CAP_LIMITS[key][0]) for key in keys)]


def _step_row(course: Course, place: int, system: System, metrics: Sequence[Component]) -> Component:
    step = course.record.steps[place]
    cells = [
        html.Th(str(place + 1), scope="row"),
        html.Td(system.text(step.ball.mass_kg, "g")),
        html.Td(words.share_words(step.share)),
        html.Td(html.Strong(words.metric_number("speed", step.speed_m_s, system))),
        html.Td(_sessions(course, place)),
    ]
    return html.Tr([*cells, *metrics], className=_state(course, place))


def _steps_in_columns(course: Course, broken: dict[int, list[Breach]], system: System) -> Component:
    """The steps on paper where they are many: tables beside one another, with what is needed on the field."""
    steps, count, rows_each = course.record.steps, columns(course), step_rows(course)
    keys = [key for key in dict.fromkeys((course.record.lead, "peak")) if key in HEADS] if count == 2 else []
    heads = _step_heads(course, system, keys) + ([_head("Limits broken")] if broken else [])
    rows = []
    for i, step in enumerate(steps):
        metrics = [html.Td(words.metric_number(key, step.metrics[key], system)) for key in keys]
        metrics += [html.Td(str(len(broken[i])) if i in broken else "")] if broken else []
        rows.append(_step_row(course, i, system, metrics))
    tables = [
        table(f"Steps {i + 1} to {min(i + rows_each, len(rows))}", heads, rows[i : i + rows_each], "buildup-table")
        for i in range(0, len(rows), rows_each)
    ]
    said = "All readouts" + (", and which limits are broken," if broken else "") + " stand on the screen."
    return html.Div([*tables, html.P(said, className="quiet")], className=f"paper-only buildup-columns of-{count}")


def sessions_table(course: Course, system: System) -> Component:
    """Make the table of sessions: those thrown with what was noted of them, those to come with boxes."""
    broken: dict[int, list[str]] = {}
    for one in course.session_breaches:
        broken.setdefault(one.session, []).append(words.session_breach_words(one))
    heads = [_head("No."), _head("Day"), _head("Step"), _head("Ball"), _head("Speed cap", system.unit("m/s"))]
    heads += [_head("Throws"), _head("Summed area", "N·m·s"), *(_head(box) for box in BOXES)]
    done, left, (past, on_paper) = len(course.record.log), course.schedule.sessions, rows_on_paper(course)
    rows = []
    for place, line in enumerate(lines_of(course), start=-done):
        later = "" if -past <= place < on_paper else "buildup-later"
        rows.append(_session_row(line, course, system, later))
        if place in broken:
            told = [html.Strong("Breaks: "), "; ".join(broken[place])]
            rows.append(html.Tr(html.Td(told, colSpan=len(heads)), className=f"buildup-broken {later}"))
    caption = "Summed area: throws times area under the curve of one, of this week’s budget. Pain at a joint 0 to 10."
    made = table(caption, heads, rows, "buildup-table buildup-sheet")
    notes = [html.P(text, className="quiet") for text in (closed_words(course), waits_words(course)) if text]
    more = []
    if done > past:
        more.append(f"The last {past} of {done} sessions thrown; the log has all.")
    if len(left) > on_paper:
        more.append(
            f"The next {on_paper} of {len(left)} sessions; print again for those after {left[on_paper - 1].day}."
        )
    notes += [html.P(text, className="paper-only quiet") for text in more]
    return html.Div([*_scrolls(done, len(left)), made, *notes])


def _session_row(line: Line, course: Course, system: System, later: str) -> Component:
    one, session, open_pain = line.one, line.session, course.standing.most is not None
    cap, throws = words.metric_number("speed", line.speed_m_s, system), str(line.throws)
    cells: list[Any]
    if session is not None:
        by_hand = course.record.by_hand.get(session.index) is not None and not session.lowered and not open_pain
        budget = "" if open_pain else f" of {session.budget_nms:.0f}"
        marks = {"easier week": session.easier, "by hand": by_hand, "slower than the step": session.lowered}
        cells = [html.Strong(cap), html.Strong(throws), f"{line.area_nms:.0f}{budget}"]
        boxes = [html.Td("", className="box") for _ in BOXES]
    elif one is not None:
        marks = {"thrown": True, AFTER_A_SIGN: line.late}
        cells = [cap, f"{throws} of {one.planned}", f"{line.area_nms:.0f}"]
        ratings = [getattr(one.notes.pain, when) for when in WHEN]
        boxes = [html.Td("–" if rating is None else str(rating)) for rating in ratings]
        boxes += [html.Td(HELD[one.notes.speed_held]), html.Td(decided_words(one), className="buildup-words")]
    shown = [html.Td([words.day_words(line.day), *_marks(marks)]), html.Td(str(line.place + 1))]
    shown += [html.Td(system.text(line.ball.mass_kg, "g")), *map(html.Td, cells), *boxes]
    return html.Tr(
        [html.Th(str(line.number), scope="row"), *shown], className=later if one is None else f"buildup-past {later}"
    )


def _marks(marks: dict[str, bool]) -> list[Component]:
    return [html.Span(word, className="unit") for word, holds in marks.items() if holds]


def _scrolls(done: int, left: int) -> list[Component]:
    """Say that a long table scrolls in its frame, and how many sessions there are."""
    if done + left <= ROWS_IN_FRAME:
        return []
    said = (
        f"{words.count_words(done + left, 'session')}: {done} thrown, {left} to come. The table scrolls in its frame."
    )
    return [html.P(said, className="screen-only quiet")]


def log_table(course: Course, system: System) -> Component:
    """Make the table of all that was noted: the sheet for a chart."""
    record = course.record
    heads = [_head("No."), _head("Day"), _head("Ball, speed cap"), _head("Thrown"), _head("Area", "N·m·s")]
    heads += [_head("Highest read", system.unit("m/s")), _head("Pain at a joint", "before / while / hour / morning")]
    heads += [_head("Muscle soreness"), _head("Painkiller"), _head("Speed held"), _head("Stop signs")]
    heads += [_head("Decided"), _head("Note")]
    rows = []
    for line in lines_of(course):
        one = line.one
        if one is None:
            break
        top = "–" if one.top_speed_m_s is None else system.number(one.top_speed_m_s, "m/s", least=1, most=1)
        marks = _marks({"session before again": one.was_repeat, AFTER_A_SIGN: line.late})
        cells = [
            html.Th(str(line.number), scope="row"),
            html.Td([words.day_words(line.day), *marks]),
            html.Td(f"{system.text(line.ball.mass_kg, 'g')}, {system.cap(line.speed_m_s, 'm/s')}"),
            html.Td(f"{one.throws} of {one.planned}"),
            html.Td(f"{line.area_nms:.0f}"),
            html.Td(top),
            html.Td(ratings_words(one)),
            html.Td(soreness_words(one), className="buildup-words"),
            html.Td(HELD[one.notes.painkiller]),
            html.Td(HELD[one.notes.speed_held]),
            html.Td(sign_words(tuple(one.notes.signs)) or "–", className="buildup-words"),
            html.Td(decided_words(one), className="buildup-words"),
            html.Td(one.note or "–", className="buildup-words", **{"data-as-is": ""}),
        ]
        rows.append(html.Tr(cells))
    signs = [html.Li(stop_sign_words(one, record.mark)) for one in (*record.earlier, *record.signs)]
    listed = [html.H3("Stop signs"), html.Ul(signs)] if signs else []
    caption = "All that was thrown and noted. Pain 0 (none) to 10; a dash: not entered, which is not none."
    sources = html.P(SOURCES_TOLD, className="quiet")
    return html.Div([table(caption, heads, rows, "buildup-table buildup-log-table"), *listed, sources])


def numbers_table(found: Recheck, system: System) -> Component:
    """Put old numbers beside new ones, for the steps that are left."""
    keys = ("speed", "rise_rate", "peak", "loaded_s", "area", "braking")
    names = {"speed": "Speed cap", **HEADS}
    heads = [
        _head("Step"),
        *(_head(names[key], system.unit(CAP_LIMITS[key][0])) for key in keys),
        html.Th("Breaks now", scope="col", className="buildup-words"),
    ]
    rows = []
    for i, (then, now) in enumerate(zip(found.then, found.now, strict=True)):
        place = found.first + i
        told = [words.breach_words(one, system) for one in found.broken_now if one.step == place]
        cells = [
            html.Th(f"{place + 1}: {system.text(then.ball.mass_kg, 'g')}", scope="row"),
            *(html.Td(_then_and_now(key, then, now, system)) for key in keys),
            html.Td("; ".join(told) or "nothing", className="buildup-words"),
        ]
        rows.append(html.Tr(cells))
    return table("Old → new, by the new measures and readings.", heads, rows, "buildup-table")


def _then_and_now(key: str, then: Step, now: Step, system: System) -> list[Any]:
    old, new = (words.metric_number(key, step.metrics[key], system) for step in (then, now))
    change = now.metrics[key] / then.metrics[key] - 1.0
    return [f"{old} → ", html.Strong(new), html.Span(_signed(change), className="unit")]


def table(caption: str, heads: Sequence[Component], rows: Sequence[Component], name: str) -> Component:
    """Make a table that scrolls in its frame; its caption's first sentence names it."""
    said = html.Caption(html.Span(caption, className="caption"))
    made = html.Table([said, html.Thead(html.Tr(list(heads))), html.Tbody(list(rows))], className=f"plain-table {name}")
    return html.Div(made, className="scrolls", tabIndex=0, role="region", **{"aria-label": caption.split(".")[0]})


def _head(text: str, unit: str = "") -> Component:
    return html.Th([*explained(text), *([html.Span(unit, className="unit")] if unit else [])], scope="col")


def _lead(key: str, course: Course) -> str:
    return f"{HEADS[key]}, lead" if key == course.record.lead else HEADS[key]


def _value(key: str, step: Step, before: Step | None, system: System) -> list[Any]:
    said: list[Any] = [words.metric_number(key, step.metrics[key], system)]
    if before is not None:
        said.append(html.Span(_signed(step.metrics[key] / before.metrics[key] - 1.0), className="unit"))
    return said


def _signed(change: float) -> str:
    percent = 100.0 * change
    return "0 %" if abs(change) < SAME else f"{'+' if percent > 0.0 else '−'}{abs(percent):.1f} %"


def _sessions(course: Course, place: int) -> str:
    thrown = sum(one.place == place for one in course.record.log)
    wanted = course.record.repeats[place]
    return f"{wanted}, {thrown} thrown" if thrown else str(wanted)


def _state(course: Course, place: int) -> str:
    at = course.place
    return "buildup-now" if place == at and not course.done else "buildup-past" if place < at else ""
