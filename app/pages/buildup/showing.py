"""What is shown of the plan, and what the fields for changes by hand are filled with. Pure."""

from typing import Any

from app.pages.buildup.athlete import Athlete, ball_value
from app.pages.buildup.course import Course
from app.pages.buildup.found import Found
from app.pages.buildup.offers import Offer, offers_of
from app.pages.buildup.overlay import overlay, paper_overlay
from app.pages.buildup.recheck import recheck
from app.pages.buildup.stairs import paper_stairs, stairs
from app.pages.buildup.view import View, view_of
from app.show.axes import BLANK, width_px
from app.show.cautions import is_growing
from app.show.palette import theme_named
from app.units.conversion import plain

UNREAD = "This plan could not be read, and is not shown. It stays as it is in the records."


def seen(found: Found) -> Course | None:
    """The plan that may be shown: not before the text about growing throwers was read."""
    course = found.course
    hidden = course is not None and is_growing(course.record.person) and course.record.read is None
    return None if hidden else course


def view_for(found: Found) -> tuple[View, tuple[Offer, ...]]:
    """What is shown of the plan, and what can be done about its days."""
    course, athlete, visit = found.course, found.athlete, found.visit
    checked = None if course is None else recheck(course.record, athlete.case)
    shown = seen(found)
    days, offers = ("", ()) if shown is None else offers_of(shown, visit.today)
    other = UNREAD if found.unread else ""
    return view_of(course, checked, other, days, visit.system, athlete.known.signs), offers


def form_is_open(found: Found) -> bool:
    """Whether the form stands unfolded: there is no plan, a new one is needed, or something came from Start since."""
    course = found.course
    return course is None or course.closed == "plan_anew" or _waits(found.athlete, course)


def _waits(athlete: Athlete, course: Course) -> bool:
    """Whether something came over from Start that the plan was not made with."""
    given, first = athlete.given, course.record.first
    if given is None:
        return False
    return first is None or (first.ball, first.share, first.ceilings) != (given.ball, given.share, given.ceilings)


def figures(found: Found, theme: Any, width: Any) -> dict[str, Any]:
    """Draw the plan, for the screen and for paper."""
    course, look, system = seen(found), theme_named(theme), found.visit.system
    if course is None:
        return {"stairs": BLANK, "stairs_paper": {}, "overlay": BLANK, "overlay_paper": {}}
    return {
        "stairs": stairs(course, look, system, width_px(width)),
        "stairs_paper": paper_stairs(course, system),
        "overlay": overlay(course, look, system, width_px(width)),
        "overlay_paper": paper_overlay(course, system),
    }


def picked(found: Found, step: Any, session: Any) -> dict[str, Any]:
    """Fill the fields of changes by hand with what the chosen step and session have now."""
    texts = dict.fromkeys(("share", "sessions", "day", "throws"), "")
    course = found.course
    if course is None:
        return {"ball": None, "texts": texts, "step": None, "session": None}
    record = course.record
    first, last = min(course.place, len(record.throws) - 1), len(record.throws) - 1
    place = int(step[:4]) if isinstance(step, str) and step.isdecimal() else first
    place = place if first <= place <= last else first
    ball, share = record.throws[place]
    there = [one.index for one in course.schedule.sessions if not one.lowered]
    index = int(session[:6]) if isinstance(session, str) and session.isdecimal() else -1
    index = index if index in there else there[0] if there else -1
    by_hand = record.by_hand.get(index)
    texts |= {"share": plain(100.0 * share, most=1), "sessions": str(record.repeats[place])}
    if by_hand is not None:
        texts["day"] = by_hand.day.isoformat() if by_hand.day else ""
        texts["throws"] = str(by_hand.throws) if by_hand.throws else ""
    return {
        "ball": ball_value(ball),
        "texts": texts,
        "step": str(place),
        "session": str(index) if there else None,
    }
