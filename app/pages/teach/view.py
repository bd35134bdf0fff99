"""From the lesson to what is shown: every part that changes, as one value."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.teach.answers import Lesson
from app.pages.teach.form import OF_FILE, Session
from app.pages.teach.handout import handout, sheet_pictures
from app.pages.teach.notes import NOTES, note_parts
from app.pages.teach.pictures import story_of
from app.pages.teach.words import told, who_words
from app.show.cautions import CAUTIONS, GROWING, is_growing, path_note
from app.show.markup import to_html
from app.show.page_parts import missing_measures, page_link
from app.show.strip import picture_alone
from app.show.subject import Case
from app.show.whose import measures_missing


@dataclass(frozen=True)
class View:
    """All that changes when the set-up does."""

    story: dict[str, Any]
    empty: list[Component]
    empty_hidden: bool
    body_hidden: bool
    who: str
    caution: list[Component]
    growing: list[Component]


def view_of(
    session: Session, case: Case, lesson: Lesson | None, problems: Mapping[str, str], invented: bool, today: date
) -> View:
    """Put the lesson into words and pictures.

    Parameters
    ----------
    session : Session
    case : Case
    lesson : Lesson or None
    problems : mapping of str to str
        Messages of the athlete's fields.
    invented : bool
        Whether the athlete is one of the demo data.
    today : date

    Returns
    -------
    View
    """
    if lesson is None:
        return View({}, _empty(session, case, dict(problems)), False, True, "", [], [])
    words, named = told(lesson), session.named == "yes"
    story = story_of(session, lesson, words)
    for step in story["steps"]:
        step["notes"] = to_html(note_parts(NOTES[step["key"]]))
        if step["picture"]["kind"] == "strip":
            # An athlete's code stands in the words of a picture too
            step["picture"]["html"] = to_html(picture_alone(case if named else replace(case, code="")))
    story["sheet"] = sheet_pictures(lesson, words)
    story["handout"] = to_html(handout(lesson, words, named, invented, today.isoformat()))
    person = lesson.own.throw.person
    whose_path = ["path from adult men"] if path_note(person) else []
    return View(
        story=story,
        empty=[],
        empty_hidden=True,
        body_hidden=False,
        who=" · ".join([*([who_words(lesson)] if named else []), *whose_path]),
        caution=[html.Span(f"{line} ") for line in CAUTIONS],
        growing=[html.P(GROWING[0])] if is_growing(person) else [],
    )


def _empty(session: Session, case: Case, problems: dict[str, str]) -> list[Component]:
    wanted: list[Any] = []
    if case.person is None:
        wanted.append(missing_measures(measures_missing(case, problems)))
    elif case.full_speed_m_s is None:
        wanted.append(
            html.Li(
                [
                    "Missing: a full-effort speed with the own ball. ",
                    page_link("Enter radar readings on Athlete", "/athlete"),
                    ", or ",
                    page_link("the reference throw on Compare", "/"),
                    ".",
                ]
            )
        )
    else:
        wanted.append(
            html.Li(
                [
                    "A throw of the story is faster or slower than is accepted. ",
                    page_link("See Athlete", "/athlete"),
                    ".",
                ]
            )
        )
    if session.who == OF_FILE:
        chosen = "What is entered on Athlete is shown once the athlete of Compare is chosen in the set-up."
        wanted.append(html.Li(f"This is the athlete of the opened file. {chosen}"))
    wanted.append(html.Li("Or choose an invented thrower in the set-up: nothing of yours is overwritten."))
    return [
        html.P("No story yet: it needs one athlete and one speed.", className="sentence invitation"),
        html.Ul(wanted, className="claim-missing"),
    ]
