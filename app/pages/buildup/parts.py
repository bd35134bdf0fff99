"""The form of the page: what was before, aim, order of the balls, days, limits. Functions that make components."""

from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.groups import boxes, emptied, listed, radios, typed
from app.pages.buildup import form_words, ids
from app.pages.buildup.aims import AIMS, MORE_STEPS, Care, aim_named
from app.pages.buildup.found import Found
from app.pages.buildup.hand import do, row
from app.pages.buildup.orders import ORDER_SAID, orders_of
from app.pages.buildup.rule_words import CLEARING
from app.pages.buildup.wanted import NO_DAYS, spec
from app.pages.buildup.words import DAY_NAMES
from app.records.plan_fields import HOLDS, ORDERS
from app.records.tables import LONGEST_INITIALS
from app.show.cautions import CAUTIONS
from app.show.controls import choice
from app.show.glossary import explained
from app.show.numbers import capital
from app.show.rack import boxes_of, masses_of
from app.units.conversion import range_in
from app.units.systems import METRIC, System
from model.build_up import METRICS

SHORT = {f"{kind}_{key}": label for kind in ("rise", "cap") for key, (label, _) in METRICS.items()}
"""Labels of fields that stand under a heading which says the rest."""

SAID = {
    "thrown": "which ball, how hard; may stay empty",
    "cleared_by": f"up to {LONGEST_INITIALS} characters, no names",
    "cleared_role": "of whoever cleared the athlete to throw",
    "first_day": "year-month-day. The first session is not before it; empty: today",
    "target_day": "year-month-day. The last session is wanted by then; may stay empty",
}
"""What stands under the fields that are for no number."""

MAKE = "Make the plan"
COMPARE = "Compare the orders"
ASKED_FOR = "asked for"


class Asked:
    """Makes the form for what a visit found."""

    def __init__(self, found: Found) -> None:
        self.visit, self.wanted, self.athlete = found.visit, found.wanted, found.athlete
        self.case, self.care, self.system = self.athlete.case, self.wanted.care, found.visit.system
        self.aim, self.plan = aim_named(self.care.aim), found.shown.row.uid if found.shown else ""

    def whole(self, opened: bool) -> Component:
        """Make the form; it stands unfolded or not."""
        make = _button(MAKE, ids.BUILDUP_MAKE, className="buildup-make", **{"data-key": "m"})
        grows = form_words.grows(self.case.person) if self.care.growing else []
        improves = html.P([html.Strong("Improves: "), *explained(self.aim.improves), " ", self.aim.ends])
        days = (
            self._field("first_day"),
            self._field("target_day"),
            self._days(),
            *self._fields("repeats", "first_throws"),
        )
        form = [
            html.Div(grows, id=ids.BUILDUP_GROWS, className="buildup-grows", hidden=not grows),
            html.Ul([html.Li(text) for text in CAUTIONS], className="buildup-cautions"),
            row("two", self._aim(), self._lead()),
            html.Div(improves, id=ids.BUILDUP_AIM_SAID, className="quiet"),
            self._before(),
            self._from_start(),
            row("ends", self._field("start_percent"), *self._goal(), *self._fields("goal_percent", "steps")),
            row("five", *days),
            *self._folds(),
            self._order(),
            html.Div([make, html.Div(id=ids.BUILDUP_MISSING, role="status")], className="buildup-making"),
        ]
        parts = [html.Summary("What is planned"), html.Div(form, className="buildup-form")]
        kept = {"data-open": f"{opened} {self.plan}"}  # folded by hand or not, another plan folds it
        return html.Details(parts, id=ids.BUILDUP_ASKED, open=opened, className="buildup-asked", **kept)

    def _aim(self) -> Component:
        data = [{"value": key, "label": aim.label} for key, aim in AIMS.items()]
        part = bound.act_id(self.visit.owner, "buildup/aim", kind=bound.PICK)
        return choice("Aim", data, self.care.aim, id=part, searchable=False)

    def _lead(self) -> Component:
        data = form_words.lead_choices(self.care.aim)
        return listed(self.visit, "plan.lead", "Lead readout", data, "it rises as evenly as the limits allow")

    def _goal(self) -> list[Component]:
        if self.care.guarded or self.aim.only_own:
            return []
        return [listed(self.visit, "plan.goal_ball", "To the ball", form_words.goal_choices(self.case))]

    def _before(self) -> Component:
        role = [{"value": key, "label": words} for key, words in CLEARING.items()]
        cleared = [
            self._field("cleared_by"),
            emptied(self.visit, "plan.cleared_role", "Role", role, SAID["cleared_role"]),
        ]
        injury = [html.Div(cleared, id=ids.BUILDUP_CLEARED, className="buildup-row two")] if self.care.injury else []
        fields = row("three-two", *self._fields("weeks_off", "throws_week", "thrown"), *injury)
        return html.Section([html.H2("Asked first"), fields], className="buildup-part")

    def _from_start(self) -> Component:
        count = html.Div(self._field("hold_count"), id=ids.BUILDUP_COUNT, hidden=self.wanted["holds"] not in COUNTED)
        fields = [
            radios(self.visit, "plan.holds", "How long the limits hold", HOLDS),
            count,
            do("drop", "Plan without what came from Start"),
        ]
        given = html.Div(form_words.given_parts(self.athlete, self.system), id=ids.BUILDUP_GIVEN)
        parts = [html.H2("From Start"), given, row("two-one", *fields)]
        return html.Section(parts, className="buildup-part", hidden=self.athlete.given is None)

    def _order(self) -> Component:
        between = form_words.between_choices(self.wanted, self.athlete)
        orders = radios(
            self.visit,
            "plan.order",
            "",
            {},
            self.care.order,
            children=html.Div(order_choices(list(orders_of(self.wanted, self.athlete))), id=ids.BUILDUP_ORDER_CHOICES),
            **{"aria-labelledby": f"{ids.BUILDUP_ORDER}-title"},
        )
        parts = [
            html.Div(orders, id=ids.BUILDUP_ORDER),
            html.Div(
                listed(self.visit, "plan.between_ball", "The ball in between", between),
                id=ids.BUILDUP_BETWEEN,
                hidden=self.wanted["order"] != "between",
            ),
            _button(COMPARE, ids.BUILDUP_COMPARE, hidden=self.aim.only_own, **{"data-key": "o"}),
        ]
        head = html.H2("Order of the balls", id=f"{ids.BUILDUP_ORDER}-title")
        compared = html.Div(id=ids.BUILDUP_ORDERS, role="status")
        return html.Section([head, row("two-one", *parts), compared], className="buildup-part")

    def _days(self) -> Component:
        names = {str(place): name for place, name in enumerate(DAY_NAMES)}
        ticked = [NO_DAYS, *sorted(map(str, self.wanted.weekdays))]
        return boxes(self.visit, "plan.days", "Days to throw on", names, value=ticked)

    def _folds(self) -> list[Component]:
        balls = html.Div(boxes_of(self.case), className="boxes")
        out = [mass for mass in masses_of(self.case) if mass in (self.wanted["left_out"] or "").split()]
        left = boxes(self.visit, "plan.left_out", "Balls that are left out", {}, children=balls, value=out)
        folds = [
            _fold(head, html.P(said, className="quiet"), row("seven", *self._fields(*names)))
            for head, said, names in FOLDS
        ]
        return [*folds, _fold("Balls on the rack", left)]

    def _fields(self, *names: str) -> list[Component]:
        return [self._field(name) for name in names]

    def _field(self, name: str) -> Component:
        numeric = spec(name).kind in ("number", "whole")
        hint = ASKED_FOR if form_words.is_asked(name, self.care) else ""
        if numeric:
            hint = default_text(name, self.care, self.system) or hint
        label, said = field_label(name, self.system), field_description(name, self.care, self.system)
        return typed(self.visit, f"plan.{name}", label, said, numeric=numeric, placeholder=hint)


COUNTED = ("steps", "weeks")
"""How the limits from Start hold, where it is asked for how many."""


def order_choices(orders: list[str]) -> list[Component]:
    """The orders to choose from."""
    return [
        dmc.Radio(value=key, label=ORDERS[key], description=ORDER_SAID.get(key), className="buildup-order")
        for key in orders
    ]


FOLDS = (
    (
        "Step limits: the most that each may rise from one step to the next",
        "Falls are free. Common practice, no source: a tenth, and half more for the rise rate, which goes as the "
        "cube of the speed where the peak goes as its square. The weekly tenth is tradition, not established for "
        "throwing.",
        tuple(f"rise_{key}" for key in METRICS),
    ),
    (
        "Caps: the most that each may be in any step",
        "Empty: no cap. A limit in N·m differs between laboratories by ±25 % and more.",
        tuple(f"cap_{key}" for key in METRICS),
    ),
    (
        "Budget and easier weeks",
        "A session may sum up to its week’s budget: throws times the area under the curve of one. From one week to "
        "the next that is no easier one, the budget climbs by no more than its rise. Common practice, no source. "
        "Published daily limits on throws are limits for games and are not used here.",
        ("first_nms", "weekly_percent", "most_nms", "least_throws", "most_throws", "easier_every", "easier_percent"),
    ),
)
"""What is folded away: head, what is said of it, and the names of its fields."""


def field_label(name: str, system: System = METRIC) -> str:
    """What stands over a field, by its name in the form."""
    one = spec(name)
    if one.kind not in ("number", "whole") or name == "hold_count":  # of steps or of weeks, as was chosen beside it
        return one.label
    unit = one.unit_in(system)
    return capital(SHORT.get(name, one.label)) + ("" if unit in one.label.lower() else f", {unit}")


def default_text(name: str, care: Care, system: System = METRIC) -> str:
    """What stands for an empty field, in the units that are shown; empty if nothing does."""
    return spec(name).shown(care.value(name), "", system)


def field_description(name: str, care: Care, system: System = METRIC) -> str:
    """What stands under it: what is accepted, and what stands for an empty field."""
    if name in SAID:
        return SAID[name]
    one = spec(name)
    unit, empty = one.unit_in(system), default_text(name, care, system)
    said = range_in(one.of, unit).removesuffix(unit).strip() + (f"; {one.hint}" if one.hint else "")
    if name == "steps":
        return f"{said}; empty: {empty or f'the fewest within the limits, and {MORE_STEPS} more'}"
    return f"{said}; empty: {empty}" if empty else said


def _fold(head: str, *parts: Component) -> Component:
    return html.Details([html.Summary(head), *parts], className="fold")


def _button(words: str, part: Any, **props: Any) -> Component:
    return html.Button(words, id=part, type="button", n_clicks=0, **props)


def missing(offers: list[Component]) -> Component:
    """Make the place where it is said what happened, with what can be done about it."""
    places = [html.Div(id=ids.BUILDUP_NOTICE), html.Div(offers, id=ids.BUILDUP_OFFERS)]
    return html.Div(places, className="buildup-notice", role="status")
