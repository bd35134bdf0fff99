"""From a kept plan to what is shown of it: every part that changes, as one value."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from dash import html
from dash.development.base_component import Component

from app import ids
from app.buildup import words
from app.buildup.checks import DAY_NAMES
from app.buildup.offers import Offer
from app.buildup.recheck import Recheck
from app.buildup.record import Course
from app.buildup.tables import numbers_table, sessions_table, steps_table
from app.cautions import is_growing, path_note
from app.compare.view import basis_of
from app.markup import to_html
from app.rack import texts_of
from app.systems import System
from app.whose import person_words

NOT_YET = "No plan yet. Say above what is planned, then press “Make the plan”; or open a plan file."


@dataclass(frozen=True)
class View:
    """All that changes when the plan does.

    Attributes
    ----------
    told : dict of str to str
        HTML by the place where it stands.
    hidden : dict of str to bool
        By the name of the part.
    steps, balls, sessions : list of dict
        What can be chosen of, for changes by hand.
    """

    told: dict[str, str] = field(default_factory=dict)
    hidden: dict[str, bool] = field(default_factory=dict)
    steps: list[dict[str, str]] = field(default_factory=list)
    balls: list[dict[str, str]] = field(default_factory=list)
    sessions: list[dict[str, str]] = field(default_factory=list)


PARTS = ("growing", "body", "numbers", "log", "logged", "stopped")


def view_of(course: Course | None, found: Recheck | None, other: str, days: str, system: System) -> View:
    """Put a plan into words and tables.

    Parameters
    ----------
    course : Course or None
    found : Recheck or None
        New numbers for it.
    other : str
        What is to be said of the athlete of the other pages, or of a kept plan that is not shown; empty for nothing.
    days : str
        How the plan stands to its target day.
    system : System

    Returns
    -------
    View
    """
    hidden = dict.fromkeys(PARTS, True)
    if course is None:
        said = [html.P(other)] if other else []
        return View({ids.BUILDUP_SENTENCE: _html([*said, html.P(NOT_YET, className="invitation")])}, hidden)
    record = course.record
    if is_growing(record.person) and record.read is None:
        return View({ids.BUILDUP_SENTENCE: ""}, hidden | {"growing": False})
    told = {
        ids.BUILDUP_SENTENCE: _html(_head(course, other, days, system)),
        ids.BUILDUP_STEPS: _html([steps_table(course, system)]),
        ids.BUILDUP_SESSIONS: _html([sessions_table(course, system)]),
        ids.BUILDUP_NUMBERS: "" if found is None else _html([numbers_table(found, system)]),
        ids.BUILDUP_NUMBERS_SAID: "" if found is None else _numbers_said(found),
        ids.BUILDUP_BASIS: _html(basis_of(record.person)),
        ids.BUILDUP_LOG_TITLE: _log_title(course),
    }
    stopped = course.at is None
    hidden |= {
        "body": False,
        "numbers": found is None,
        "log": stopped or course.done,
        "logged": not record.log,
        "stopped": not stopped,
    }
    return View(told, hidden, _steps(course, system), _balls(course, system), _sessions(course))


def _html(parts: Sequence[Any]) -> str:
    return to_html(list(parts))


def _head(course: Course, other: str, days: str, system: System) -> list[Component]:
    record = course.record
    made: list[Component] = [html.P(words.sentence(course, system), className="sentence")]
    code = f"{person_words(record.code or 'No code', record.person, system)}; made on {record.made_on}"
    if record.invented:
        code += "; invented demo data: nobody here exists"
    made.append(html.P(f"{code}. {_state(course)}", className="quiet"))
    for text in (path_note(record.person), days, words.pace_words(course), course.trouble):
        if text:
            made.append(html.P(text, className="at-number"))
    if other:
        made.append(html.P(other, className="quiet screen-only"))
    broken = words.broken_words(course)
    if broken:
        made.append(html.P(html.Strong(broken), className="at-number"))
    rests = [part for term, text in words.purpose(course, system) for part in (html.Dt(term), html.Dd(text))]
    made.append(html.Dl(rests, className="buildup-purpose"))
    if record.changed:
        lines = html.Ul([html.Li(line) for line in record.changed])
        made.append(html.Details([html.Summary(f"Changed since: {len(record.changed)}"), lines], className="fold"))
    if record.read is not None:
        read = f"The text about growing throwers was read by {record.read.by} on {record.read.on}."
        made.append(html.P(read, className="quiet"))
    games, source = words.game_words(record.person)
    made.append(html.P(f"{games} {words.PRACTICE}", className="quiet"))
    if source:
        made.append(html.P(source, className="source"))
    return made


def _state(course: Course) -> str:
    thrown = len(course.record.log)
    if course.at is None:
        return f"Stopped after {thrown} sessions."
    if course.done:
        return "Every session was thrown."
    if not course.schedule.sessions:
        return ""
    one = course.schedule.sessions[0]
    begun = f"{thrown} thrown; next" if thrown else "First"
    anew = course.calendar.first_day
    after = (
        f" After the break, weeks and budget begin anew on {anew}." if anew > course.record.calendar.first_day else ""
    )
    return f"{begun} session: {DAY_NAMES[one.day.weekday()]} {one.day}, step {one.place + 1}.{after}"


def _numbers_said(found: Recheck) -> str:
    now = sorted({one.step + 1 for one in found.broken_now})
    said = "With the new numbers no limit is broken." if not now else ""
    if now:
        said = f"With the new numbers limits are broken at step{'' if len(now) == 1 else 's'} {words.ranges(now)}."
    return f"Nothing changes until it is accepted; sessions that were thrown stay as they were. {said}"


def _log_title(course: Course) -> str:
    if course.at is None or course.done:
        return "After a session"
    return f"After session {len(course.record.log) + 1}"


def _steps(course: Course, system: System) -> list[dict[str, str]]:
    record = course.record
    return [
        {
            "value": str(i),
            "label": f"{i + 1}: {system.text(step.ball.mass_kg, 'g')} at {words.share_words(step.share)}",
        }
        for i, step in enumerate(record.steps)
        if i >= record.place or course.at is None
    ]


def _balls(course: Course, system: System) -> list[dict[str, str]]:
    record = course.record
    balls = sorted(record.table.balls, key=lambda ball: ball.mass_kg)
    return [{"value": "|".join(texts_of(ball)), "label": words.ball_words(ball, record, system)} for ball in balls]


def _sessions(course: Course) -> list[dict[str, str]]:
    done, at = len(course.record.log), course.at or 0
    return [
        {"value": str(at + i), "label": f"{done + i + 1}: {one.day}, step {one.place + 1}"}
        for i, one in enumerate(course.schedule.sessions)
    ]


def offer_buttons(offers: Sequence[Offer]) -> list[Component]:
    """Make a button for each thing that can be done.

    Parameters
    ----------
    offers : sequence of Offer

    Returns
    -------
    list of Component
    """
    return [
        html.Button(
            one.words, id={"type": ids.BUILDUP_OFFER, "name": f"{one.key}={one.value}"}, type="button", n_clicks=0
        )
        for one in offers
    ]
