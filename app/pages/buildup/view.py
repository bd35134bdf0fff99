"""From a kept plan to what is shown of it: every part that changes, as one value."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup import head_words, ids, words
from app.pages.buildup.course import SIGNED, Course
from app.pages.buildup.recheck import Recheck
from app.pages.buildup.rule_words import stop_sign_words
from app.pages.buildup.tables import log_table, numbers_table, sessions_table, steps_table
from app.show.basis import basis_of
from app.show.cautions import GROWING, is_growing, path_note
from app.show.markup import to_html
from app.show.person_words import person_words
from app.show.rack import texts_of
from app.units.systems import System
from model.session_rules import ALL_SIGNS
from model.stop_signs import StopSign, standing

STANDS = "A stop sign stands for this athlete: no plan is made until a licensed clinician clears it."
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
    steps, balls, sessions, signs : list of dict
        What can be chosen of: for changes by hand, and of stop signs to be withdrawn.
    """

    told: dict[str, str] = field(default_factory=dict)
    hidden: dict[str, bool] = field(default_factory=dict)
    steps: list[dict[str, str]] = field(default_factory=list)
    balls: list[dict[str, str]] = field(default_factory=list)
    sessions: list[dict[str, str]] = field(default_factory=list)
    signs: list[dict[str, str]] = field(default_factory=list)


PARTS = (
    "growing", "body", "numbers", "log", "logged", "stopped", "signs", "clear_limits", "log_table", "hand",
)  # fmt: skip


def view_of(
    course: Course | None,
    found: Recheck | None,
    other: str,
    days: str,
    system: System,
    known: tuple[StopSign, ...] = (),
) -> View:
    """Put a plan into words and tables.

    Parameters
    ----------
    found : Recheck or None
        New numbers for it.
    other : str
        What is to be said of the athlete of the other pages, or of a kept plan that is not shown; empty for nothing.
    days : str
        How the plan stands to its target day.
    known : tuple of StopSign
        Those of the athlete above, for where there is no plan.
    """
    hidden = dict.fromkeys(PARTS, True)
    if course is None:
        said = [html.P(other)] if other else []
        told = {
            ids.BUILDUP_SENTENCE: _html([*said, html.P(NOT_YET, className="invitation")]),
            ids.BUILDUP_FLAG: _html(flag_of(known, STANDS, "")),
        }
        return View(told, hidden | {"signs": not standing(known)}, signs=_signs(known))
    record = course.record
    if is_growing(record.person) and record.read is None:
        told = {ids.BUILDUP_SENTENCE: "", ids.BUILDUP_FLAG: _html(flags(course))}
        return View(told, hidden | {"growing": False, "signs": not course.signs}, signs=_signs(record.signs))
    told = {
        ids.BUILDUP_SENTENCE: _html(_head(course, other, days, system)),
        ids.BUILDUP_FLAG: _html(flags(course)),
        ids.BUILDUP_NEXT: _html(_next(course, system)),
        ids.BUILDUP_ABOUT: _html(_about(course, system)),
        ids.BUILDUP_STEPS: _html([steps_table(course, system)]),
        ids.BUILDUP_SESSIONS: _html([sessions_table(course, system)]),
        ids.BUILDUP_LOG_TABLE: _html([log_table(course, system)]),
        ids.BUILDUP_NUMBERS: "" if found is None else _html([numbers_table(found, system)]),
        ids.BUILDUP_NUMBERS_SAID: "" if found is None else _numbers_said(found),
        ids.BUILDUP_BASIS: _html(basis_of(record.person)),
    }
    still = course.closed in SIGNED
    hidden |= {
        "body": False,
        "numbers": found is None or still,
        "log": not record.log and course.next is None,
        "logged": not record.log,
        "stopped": course.closed != "stopped",
        "signs": not course.signs,
        "clear_limits": course.closed != "limits" and not course.waits,
        "log_table": not (record.log or record.signs or record.earlier),
        "hand": still,
    }
    choices = (_steps(course, system), _balls(course, system), _sessions(course), _signs(record.signs))
    return View(told, hidden, *choices)


def _html(parts: Sequence[Any]) -> str:
    return to_html(list(parts))


def flags(course: Course) -> list[Component]:
    """Say that a stop sign stands or was cleared: the urgent ones first, and what is to be done."""
    record = course.record
    late = ""
    if course.late:
        numbers = words.ranges(sorted(i + 1 for i in course.late))
        late = f"Thrown since a stop sign that was entered late: session {numbers}."
    said = head_words.closed_words(course) if course.closed in SIGNED else ""
    return flag_of(record.signs, said, record.mark, late)


def flag_of(signs: tuple[StopSign, ...], said: str, mark: str, late: str = "") -> list[Component]:
    """A flag with all stop signs and what became of them; nothing where all were withdrawn."""
    if not any(one.withdrawn is None for one in signs) and not late:
        return []
    made: list[Component] = []
    if any(one.urgent for one in standing(signs)):
        made.append(html.P("Urgent care now.", className="buildup-urgent"))
    if said and (mark or standing(signs)):
        made.append(html.P(said, className="buildup-stop"))
    shown = [*standing(signs), *(one for one in signs if not one.stands)]
    made.append(html.Ul([html.Li(stop_sign_words(one, mark)) for one in shown]))
    return [html.Div([*made, *([html.P(late)] if late else [])], className="buildup-flag")]


def _head(course: Course, other: str, days: str, system: System) -> list[Component]:
    record = course.record
    made: list[Component] = []
    if is_growing(record.person):
        made.append(html.P(GROWING[0], className="buildup-growing-text"))
        made.append(html.P(GROWING[1], className="source screen-only"))  # on paper it stands below, with the cautions
    made.append(html.P(words.sentence(course, system), className="sentence"))
    reference = head_words.reference_words(record, system)
    if reference:
        made.append(html.P(reference, className="at-number"))
    code = f"{person_words(record.code or 'No code', record.person, system)}; made on {record.made_on}"
    if record.invented:
        code += "; invented demo data: nobody here exists"
    made.append(html.P(f"{code}.", className="quiet"))
    for text in (path_note(record.person), days, words.pace_words(course), *record.notes):
        if text:
            made.append(html.P(text, className="at-number"))
    if other:
        made.append(html.P(other, className="quiet screen-only"))
    broken = words.broken_words(course)
    if broken:
        made.append(html.P(html.Strong(broken), className="at-number"))
    return made


def _next(course: Course, system: System) -> list[Component]:
    """What comes next, as it is read beside the field; or why nothing does."""
    one, record = course.next, course.record
    if one is None:
        said = "" if course.closed in SIGNED else head_words.closed_words(course)
        return [html.H2("Next session"), html.P(said, className="buildup-stop")] if said else []
    step = one.step
    ball, cap = words.ball_words(step.ball, record, system), system.cap(step.speed_m_s, "m/s")
    day = words.day_words(one.day)
    lowered = ", slower than the step" if one.lowered else ""
    below = [
        f"Session {len(record.log) + 1}, step {one.place + 1} of {len(record.throws)}: {words.share_words(step.share)} "
        f"of full speed with it{lowered}; {one.area_nms:.0f} N·m·s in all{', an easier week' if one.easier else ''}.",
        head_words.most_words(course, system),
        head_words.waits_words(course),
        _anew(course),
    ]
    throws = words.count_words(one.throws, "throw")
    head = html.P([html.Strong(day), f": {ball}, at most ", html.Strong(cap), ", ", html.Strong(throws)])
    return [
        html.H2("Next session"),
        html.Div(head, className="buildup-next-line"),
        *(html.P(text) for text in below if text),
    ]


def _anew(course: Course) -> str:
    anew, since = course.calendar.first_day, course.standing.since_pain
    if since is not None and anew == since.day:
        return f"Throws and budget climb from {anew}, the first session without pain."
    if anew > course.record.calendar.first_day:
        return f"After the break, weeks and budget begin anew on {anew}."
    return ""


def _about(course: Course, system: System) -> list[Component]:
    """What the plan is for and what it rests on."""
    record = course.record
    rests = [part for term, text in head_words.purpose(course, system) for part in (html.Dt(term), html.Dd(text))]
    made: list[Component] = [html.Dl(rests, className="buildup-purpose")]
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


def _numbers_said(found: Recheck) -> str:
    now = sorted({one.step + 1 for one in found.broken_now})
    said = "With the new numbers no limit is broken." if not now else ""
    if now:
        said = f"With the new numbers limits are broken at step{'' if len(now) == 1 else 's'} {words.ranges(now)}."
    return f"Nothing changes until it is accepted; sessions that were thrown stay as they were. {said}"


def _steps(course: Course, system: System) -> list[dict[str, str]]:
    record = course.record
    return [
        {
            "value": str(i),
            "label": f"{i + 1}: {system.text(step.ball.mass_kg, 'g')} at {words.share_words(step.share)}",
        }
        for i, step in enumerate(record.steps)
        if i >= course.place
    ]


def _balls(course: Course, system: System) -> list[dict[str, str]]:
    record = course.record
    balls = sorted(record.table.balls, key=lambda ball: ball.mass_kg)
    return [{"value": "|".join(texts_of(ball)), "label": words.ball_words(ball, record, system)} for ball in balls]


def _sessions(course: Course) -> list[dict[str, str]]:
    done = len(course.record.log)
    return [
        {"value": str(one.index), "label": f"{done + i + 1}: {one.day}, step {one.place + 1}"}
        for i, one in enumerate(course.schedule.sessions)
        if not one.lowered
    ]


def _signs(signs: tuple[StopSign, ...]) -> list[dict[str, str]]:
    def label(one: StopSign) -> str:
        return f"{ALL_SIGNS[one.sign]}, {one.since}"

    return [{"value": str(i), "label": label(one)} for i, one in enumerate(signs) if one.stands]
