"""What is shown of the plan, and what the fields for changes by hand are filled with. Pure."""

from datetime import date
from typing import Any

from app.pages.buildup.athlete import Athlete, ball_value
from app.pages.buildup.before import read_plan
from app.pages.buildup.course import Course, course_of
from app.pages.buildup.offers import offers_of
from app.pages.buildup.overlay import overlay, paper_overlay
from app.pages.buildup.recheck import recheck
from app.pages.buildup.record import Record
from app.pages.buildup.stairs import paper_stairs, stairs
from app.pages.buildup.view import PARTS, offer_buttons, view_of
from app.show.axes import BLANK, width_px
from app.show.cautions import is_growing
from app.show.palette import theme_named
from app.units.conversion import plain
from app.units.systems import system_named

UNREAD = "The plan that this browser keeps could not be read, and is not shown. It stays until a plan takes its place."


def drawn(kept: Any, athlete: Athlete, look: dict[str, Any]) -> dict[str, Any]:
    """Show the plan."""
    system, theme, width = system_named(look["units"]), theme_named(look["theme"]), width_px(look["width"])
    record, today, case = read_plan(kept), date.today(), athlete.case
    unread = kept is not None and record is None
    course = None if record is None else course_of(record)
    shown = course is not None and not (is_growing(course.record.person) and course.record.read is None)
    found = None if record is None else recheck(record, case)
    days, offers = offers_of(course, today) if course is not None and shown else ("", ())
    view = view_of(course, found, UNREAD if unread else _other(record, case), days, system, athlete.known.signs)
    drawing = course if shown else None
    return {
        "told": view.told,
        "hidden": {name: view.hidden[name] for name in PARTS},
        "steps": view.steps,
        "balls": view.balls,
        "sessions": view.sessions,
        "signs": view.signs,
        "offers": offer_buttons(offers),
        "away": record is None,
        "open": course is None or course.closed == "plan_anew" or _waits(athlete, course),
        "stairs": BLANK if drawing is None else stairs(drawing, theme, system, width),
        "stairs_paper": {} if drawing is None else paper_stairs(drawing, system),
        "overlay": BLANK if drawing is None else overlay(drawing, theme, system, width),
        "overlay_paper": {} if drawing is None else paper_overlay(drawing, system),
    }


def _waits(athlete: Athlete, course: Course) -> bool:
    """Whether something came over from Start that the plan was not made with."""
    given, first = athlete.given, course.record.first
    if given is None:
        return False
    return first is None or (first.ball, first.share, first.ceilings) != (given.ball, given.share, given.ceilings)


def _other(record: Record | None, case: Any) -> str:
    """What is to be said of the athlete of the other pages, where it is not the plan's."""
    if record is None or not case.code or case.code == record.code:
        return ""
    return (
        f"This plan is of {record.code or 'an athlete without a code'}; above stands {case.code}. It stays as it is, "
        "and is not held against the readings of another."
    )


def picked(step: Any, session: Any, kept: Any) -> dict[str, Any]:
    """Fill the fields of changes by hand with what the chosen step and session have now."""
    record = read_plan(kept)
    texts = dict.fromkeys(("share", "sessions", "day", "throws"), "")
    if record is None:
        return {"ball": None, "texts": texts, "step": None, "session": None}
    course = course_of(record)
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
