"""The list of an athlete's plans: which there are, how far they are, and which is shown."""

from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.edit import Doing
from app.bind.fields import act_button, bound
from app.bind.visit import Visit
from app.pages.buildup.found import ASKED_PLAN, Found
from app.pages.buildup.head_words import closed_words
from app.pages.buildup.rows import KeptPlan
from app.records.acts import Put
from app.records.tables import now

AWAY = "The plan was put away; Undo brings it back. Stop signs stay with the athlete."
IN_CALENDAR = "Its sessions that stand in a calendar stay there."


def away(visit: Visit, row: str, _: Any) -> Doing:
    """Put a plan away."""
    plan = Found(visit).plans.shown(row)
    handed = plan is not None and plan.record is not None and plan.record.handed_out
    go = visit.address(visit.path) if visit.asked.get(ASKED_PLAN) == row else ""
    return Doing([Put("plan", "archived_at", now(), row)], said=f"{AWAY} {IN_CALENDAR}" if handed else AWAY, go=go)


def brought_back(visit: Visit, row: str, _: Any) -> Doing:
    """Bring a plan back that was put away, and show it."""
    asked = visit.asked | {ASKED_PLAN: row}  # type: ignore[operator]
    return Doing([Put("plan", "archived_at", None, row)], go=visit.address(visit.path, **asked))


def plans_list(found: Found) -> Component | None:
    """Make the list; None where there is none to choose from."""
    plans, shown = found.plans.plans, found.shown
    if not plans:
        return None
    rows = [_line(found, one, one is shown) for one in reversed(plans)]
    name = bound(found.visit, "plan.name", shown.row) if shown is not None else None
    heads = html.Tr([html.Th(words, scope="col") for words in ("Plan", "First day", "How far", "")])
    table = html.Table([html.Thead(heads), html.Tbody(rows)], className="plain-table buildup-plans")
    return html.Details(
        [
            html.Summary(f"Plans: {len(plans)}"),
            html.Div(table, className="scrolls", tabIndex=0, role="region", **{"aria-label": "Plans"}),
            html.Div(name, className="buildup-row"),
        ],
        className="fold buildup-list",
        open=shown is None or len(plans) > 1,
    )


def _line(found: Found, one: KeptPlan, shown: bool) -> Component:
    visit, row = found.visit, one.row
    name = row.name or "without a name"
    link = html.A(name, href=visit.address(visit.path, **{ASKED_PLAN: row.uid}))
    act = act_button(visit, "Bring back", "buildup/back", row.uid, **{"aria-label": f"Bring back {name}"})
    if not one.away:
        act = act_button(visit, "Put away", "buildup/away", row.uid, **{"aria-label": f"Put away {name}"})
    cells = [
        html.Th(html.Strong(name, **{"aria-current": "true"}) if shown else link, scope="row"),
        html.Td(str(row.start or "–")),
        html.Td(state_of(one)),
        html.Td(act),
    ]
    return html.Tr(cells, className="buildup-now" if shown else "")


def state_of(one: KeptPlan) -> str:
    """How far a plan is: what comes next, or why nothing does."""
    course = one.course
    if course is None:
        return "cannot be read"
    thrown = f"{len(course.record.log)} thrown"
    if one.away:
        return f"put away; {thrown}"
    if course.next is not None:
        return f"next {course.next.day}; {thrown}, {len(course.schedule.sessions)} to come"
    return f"{closed_words(course)} {thrown}".strip()
