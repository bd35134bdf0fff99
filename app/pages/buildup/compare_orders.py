"""All orders of the balls beside one another: what each comes to, before a plan is made. Pure."""

from dataclasses import dataclass, replace
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup import words
from app.pages.buildup.aims import aim_named
from app.pages.buildup.answers import make
from app.pages.buildup.course import Course, course_of
from app.pages.buildup.hand import offer_buttons
from app.pages.buildup.head_words import passes_words
from app.pages.buildup.making import FORM, Page, missing_parts, named, refused
from app.pages.buildup.offers import Offer
from app.pages.buildup.orders import ORDER_SAID, orders_of
from app.pages.buildup.record import Record
from app.records.fields import in_words
from app.records.plan_fields import ORDERS
from app.show.subject import is_same
from app.units.systems import System
from model.build_up import NoPlan
from model.calendar_plan import WEEK
from model.checks import InputError
from model.stop_signs import CLINICIAN, Signed

NO_BALL = {
    "heavy": "No ball on the rack is heavier than the own one.",
    "between": "No ball on the rack lies in between.",
}


@dataclass(frozen=True)
class Found:
    """What an order comes to: the course of its plan, or why there is none."""

    key: str
    course: Course | None
    why: str = ""


def compare(page: Page) -> list[Component]:
    """Work out every order that an aim has, and show what each comes to."""
    if said := refused(page):
        return said
    return missing_parts(page.athlete, page.wanted.missing) or [table(found_orders(page), page.system)]


def found_orders(page: Page) -> list[Found]:
    """Work out every order: its plan, or why there is none."""
    there = orders_of(page.wanted, page.athlete)
    found = []
    for key in ORDERS:
        if key not in there:
            if not aim_named(page.wanted.care.aim).only_own:
                found.append(Found(key, None, NO_BALL[key]))
            continue
        try:
            made = make(page.wanted.but(order=key), page.athlete, page.today)
        except InputError as error:
            found.append(Found(key, None, in_words(named(error))))
            continue
        if isinstance(made, NoPlan):
            found.append(Found(key, None, words.no_plan_words(made, page.system)))
        else:
            found.append(Found(key, course_of(whole_way(made))))
    return found


def whole_way(record: Record) -> Record:
    """A plan as if limits from Start that wait to be cleared were: all its sessions are laid out."""
    if record.first is None or not record.first.most_share:
        return record
    somebody = Signed("?", CLINICIAN, record.made_on)
    return replace(record, first=replace(record.first, cleared=somebody))


def table(found: list[Found], system: System) -> Component:
    """Put the orders beside one another."""
    heads = [html.Td(), *(html.Th(_head(one), scope="col") for one in found)]
    shown = [_facts(one.course, system) if one.course is not None else {} for one in found]
    rows = []
    for label in dict.fromkeys(label for facts in shown for label in facts):
        cells = [html.Td(facts.get(label, "–")) for facts in shown]
        rows.append(html.Tr([html.Th(label, scope="row"), *cells]))
    last = [html.Td(_make(one) if one.course is not None else one.why) for one in found]
    rows.append(html.Tr([html.Td(), *last], className="buildup-make-this"))
    made = html.Table(
        [html.Caption(CAPTION), html.Thead(html.Tr(heads)), html.Tbody(rows)],
        className="plain-table buildup-orders",
    )
    return html.Div(made, className="scrolls", tabIndex=0, role="region", **{"aria-label": "The orders compared"})


CAPTION = "What each order comes to. Nothing is kept until a plan is made."


def _head(one: Found) -> list[Any]:
    said = ORDER_SAID.get(one.key)
    return [ORDERS[one.key], *([html.Span(said, className="unit")] if said else [])]


def _make(one: Found) -> list[Component]:
    return offer_buttons([Offer(f"{FORM}order", one.key, "Make this plan")])


def _facts(course: Course, system: System) -> dict[str, Any]:
    """What an order comes to, by what it is called."""
    record, sessions = course.record, course.schedule.sessions
    steps = record.steps
    if not sessions:
        return {"Begins with": words.throw_words(steps[0], record, system), "Days": course.trouble}
    weeks = (sessions[-1].day - sessions[0].day).days // WEEK + 1
    highest = max(range(len(steps)), key=lambda i: steps[i].metrics["peak"])
    own = next((i for i, step in enumerate(steps) if is_same(step.ball, record.own_ball)), None)
    others = [step.share for step in steps if not is_same(step.ball, record.own_ball)]
    first_own = next((one for one in sessions if one.place == own), None)
    early = "not at all"
    if own is not None and first_own is not None:
        week = (first_own.day - sessions[0].day).days // WEEK + 1
        early = f"step {own + 1} of {len(steps)}, week {week}, at {words.share_words(steps[own].share)}"
    peak = words.metric_words("peak", steps[highest].metrics["peak"], system)
    greatest = max(step.share for step in steps)
    with_others = f"; with other balls {words.share_words(max(others))}" if others else ""
    notes = [html.P(note) for note in record.notes]
    return {
        "Begins with": [words.throw_words(steps[0], record, system), *notes],
        "Weeks": f"{weeks} ({words.count_words(len(steps), 'step')}, {words.count_words(len(sessions), 'session')})",
        "Highest peak at the elbow": f"{peak}, step {highest + 1}",
        "Summed area": f"{sum(one.area_nms for one in sessions):.0f} N·m·s",
        "Greatest share of full speed": f"{words.share_words(greatest)}{with_others}",
        "Own ball first": early,
        **({"Limits from Start": _passes(course)} if record.first is not None else {}),
    }


def _passes(course: Course) -> str:
    first = course.record.first
    waits = " The first of them waits until the limits are cleared." if first and first.holds == "cleared" else ""
    said = passes_words(course)
    return f"{said}{waits}" if said else "No step passes one."
