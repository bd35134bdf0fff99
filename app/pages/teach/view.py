"""From the lesson to what is shown: every part that changes, as one value."""

from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.teach.answers import Lesson
from app.pages.teach.handout import handout, sheet_pictures
from app.pages.teach.notes import note_of, note_parts
from app.pages.teach.pictures import story_of
from app.pages.teach.session import Session
from app.pages.teach.words import told, who_words
from app.show.cautions import GROWING, is_growing, path_note
from app.show.markup import to_html
from app.show.page_parts import missing_measures, page_link
from app.show.person_words import measures_missing
from app.show.strip import picture_alone
from app.show.subject import Case


@dataclass(frozen=True)
class View:
    """All that changes with athlete and set-up.

    Attributes
    ----------
    story : dict
        All that the browser needs to tell the story; empty without a lesson.
    empty : list of Component
        What is missing, and where it is entered.
    who : str
        Who throws, as far as the room is to see it.
    growing : list of Component
        The caution for a thrower who is still growing.
    """

    story: dict[str, Any] = field(default_factory=dict)
    empty: list[Component] = field(default_factory=list)
    who: str = ""
    growing: list[Component] = field(default_factory=list)


def view_of(session: Session, case: Case, lesson: Lesson | None, invented: bool, today: date) -> View:
    """Put the lesson into words and pictures; `invented` says that the athlete is an invented one."""
    if lesson is None:
        return View(empty=_empty(case))
    words, named, growing = told(lesson), session.named, is_growing(lesson.own.throw.person)
    story = story_of(session, lesson, words)
    for step in story["steps"]:
        step["notes"] = to_html(note_parts(note_of(step["key"], growing)))
        if step["picture"]["kind"] == "strip":
            # An athlete's code stands in the words of a picture too
            step["picture"]["html"] = to_html(picture_alone(case if named else replace(case, code="")))
    story["sheet"] = sheet_pictures(lesson, words)
    story["handout"] = to_html(handout(lesson, words, named, invented, today.isoformat()))
    path = ["path from adult men"] if path_note(lesson.own.throw.person) else []
    return View(
        story=story,
        who=" · ".join([*([who_words(lesson)] if named else []), *path]),
        growing=[html.P(GROWING[0])] if growing else [],
    )


def _empty(case: Case) -> list[Component]:
    if case.person is None:
        wanted = missing_measures(measures_missing(case))
    elif case.full_speed_m_s is None:
        said = "Missing: a full-effort speed with the own ball. "
        wanted = html.Li([said, page_link("Enter a reading or a reference throw on Athlete", "/athlete"), "."])
    else:
        said = "A throw of the story is faster or slower than is accepted. "
        wanted = html.Li([said, page_link("See Athlete", "/athlete"), "."])
    return [
        html.P("No story yet: it needs one athlete and one speed.", className="sentence invitation"),
        html.Ul([wanted], className="claim-missing"),
    ]
