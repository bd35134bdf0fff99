"""Beside the fields after a session: what may come next by what is typed so far, and what may be decided."""

from dataclasses import dataclass, field
from typing import Any

from dash import html

from app.pages.buildup.checks import DAY_NAMES
from app.pages.buildup.course import Course
from app.pages.buildup.found import Found
from app.pages.buildup.log_form import LogForm, draft_of, form_of, path_of, typed_form
from app.pages.buildup.rule_words import advice_lines
from app.units.systems import METRIC
from model.session_rules import Notes

NOTHING_YET = "Enter how it went: what may come next, and by which rules, then stands here."


@dataclass(frozen=True)
class Advised:
    """What stands beside the fields of a session.

    Attributes
    ----------
    said : list
    decisions : list of dict
        What may be decided.
    decision_said, throws : str
        What stands under the decision and under the throws.
    """

    said: list[Any] = field(default_factory=list)
    decisions: list[dict[str, str]] = field(default_factory=list)
    decision_said: str = ""
    throws: str = "up to the pain"


def typed_so_far(found: Found, at: int) -> LogForm:
    """What stands in the fields of a session: as typed, else as the log has it."""
    log = found.course.record.log if found.course else ()
    noted = form_of(log[at], METRIC) if at < len(log) else LogForm()
    return typed_form(found.data, found.session_key(at), noted)


def advised(found: Found, at: int) -> Advised:
    """Say what may come next by what is entered so far, what may be decided, and what does not fit together."""
    course = found.course
    if course is None:
        return Advised()
    form = typed_so_far(found, at)
    draft = draft_of(course, at, form, found.visit.system)
    if draft is None:
        return Advised()
    past = at < len(course.record.log) - 1
    decisions = {} if past else draft.decisions(course, form.role)
    why = "decided already" if past else "" if decisions else "nothing can be decided yet"
    lines = advice_lines(draft.advice, draft.facts) if draft.one.notes != Notes() else [NOTHING_YET]
    problems = [said for name, said in draft.problems.items() if not _refused(found, name, at)]
    return Advised(
        [
            html.P(html.Strong(lines[0])),
            html.Ul([html.Li(line) for line in lines[1:]]),
            *(html.P(said, className="problem") for said in problems),
        ],
        [{"value": name, "label": words} for name, words in decisions.items()],
        why or "only what the rules allow; a licensed clinician may decide otherwise",
        f"planned: {draft.one.planned}; with pain, those up to it",
    )


def _refused(found: Found, name: str, at: int) -> bool:
    """Whether a text was refused in its field, and so is told there."""
    row = found.data.setting_rows.get(path_of(name, found.session_key(at)))
    return row is not None and bool(row.draft)


def sessions_of(course: Course | None) -> list[dict[str, str]]:
    """The next session and those of the log, to choose one of."""
    if course is None:
        return []
    log = course.record.log
    made = [{"value": str(i), "label": f"{i + 1}: {_day(one.day)}, thrown"} for i, one in enumerate(log)]
    if course.next is not None:
        made.append({"value": str(len(log)), "label": f"{len(log) + 1}: {_day(course.next.day)}, next"})
    return made[::-1]


def _day(day: Any) -> str:
    return f"{DAY_NAMES[day.weekday()]} {day}"


def title_of(course: Course | None, at: int) -> str:
    """What stands over the fields."""
    if course is None or at == len(course.record.log):
        return f"After session {at + 1}"
    return f"Session {at + 1}: fill in or change"


def session_of(value: object, course: Course | None) -> int | None:
    """Which session was chosen; None if it is none of the plan."""
    there = [one["value"] for one in sessions_of(course)]
    return int(value) if isinstance(value, str) and value in there else None
