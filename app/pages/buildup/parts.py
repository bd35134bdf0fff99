"""The form of the page: what was before, aim, order of the balls, days, limits. Functions that make components."""

from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.groups import boxes, emptied, listed, radios, typed
from app.pages.buildup import form_words, ids
from app.pages.buildup.aims import AIMS, MORE_STEPS, Care, aim_named
from app.pages.buildup.checks import DATES, DAY_NAMES, FIELDS, default_text
from app.pages.buildup.form import NO_DAYS, ORDER_SAID, ORDERS
from app.pages.buildup.found import Found
from app.pages.buildup.orders import orders_of
from app.pages.buildup.rule_words import CLEARING
from app.records.plan_fields import HOLDS
from app.records.tables import LONGEST_INITIALS
from app.show.cautions import CAUTIONS
from app.show.controls import choice
from app.show.glossary import explained
from app.show.rack import boxes_of, masses_of
from app.units.systems import METRIC, System
from model.build_up import METRICS

SHORT = {f"{kind}_{key}": label for kind in ("rise", "cap") for key, (label, _) in METRICS.items()}
"""Labels of fields that stand under a heading which says the rest."""

TEXTS = {
    "thrown": ("What was thrown then", "which ball, how hard; may stay empty"),
    "cleared_by": ("Initials of who cleared", f"up to {LONGEST_INITIALS} characters, no names"),
    "cleared_role": ("Role", "of whoever cleared the athlete to throw"),
}
"""Fields for words: label and description."""

MAKE = "Make the plan"
COMPARE = "Compare the orders"
ASKED_FOR = "asked for"
SINCE = "The first session is not before it; empty: today"
BY = "The last session is wanted by then; may stay empty"


class Asked:
    """Makes the form for what a visit found."""

    def __init__(self, found: Found) -> None:
        self.visit, self.form, self.athlete = found.visit, found.form, found.athlete
        self.case, self.care = self.athlete.case, self.athlete.care(self.form.aim)
        self.system, self.aim = found.visit.system, aim_named(self.form.aim)

    def whole(self, opened: bool) -> Component:
        """Make the form.

        Parameters
        ----------
        opened : bool
            Whether it stands unfolded.
        """
        make = _button(MAKE, ids.BUILDUP_MAKE, "buildup-make", **{"data-key": "m"})
        grows = form_words.grows(self.case.person) if self.care.growing else []
        return html.Details(
            [
                html.Summary("What is planned"),
                html.Div(
                    [
                        html.Div(grows, id=ids.BUILDUP_GROWS, className="buildup-grows", hidden=not grows),
                        html.Ul([html.Li(text) for text in CAUTIONS], className="buildup-cautions"),
                        html.Div([self._aim(), self._lead()], className="buildup-row two"),
                        html.Div(
                            html.P([html.Strong("Improves: "), *explained(self.aim.improves), " ", self.aim.ends]),
                            id=ids.BUILDUP_AIM_SAID,
                            className="quiet",
                        ),
                        self._before(),
                        self._from_start(),
                        html.Div(
                            [
                                self._field("start_percent"),
                                *self._goal(),
                                self._field("goal_percent"),
                                self._field("steps"),
                            ],
                            className="buildup-row ends",
                        ),
                        html.Div(
                            [
                                self._date("first_day"),
                                self._date("target_day"),
                                self._days(),
                                self._field("repeats"),
                                self._field("first_throws"),
                            ],
                            className="buildup-row five",
                        ),
                        *self._folds(),
                        self._order(),
                        html.Div([make, html.Div(id=ids.BUILDUP_MISSING, role="status")], className="buildup-making"),
                    ],
                    className="buildup-form",
                ),
            ],
            id=ids.BUILDUP_ASKED,
            open=opened,
            className="buildup-asked",
            **{"data-open": "page"},
        )

    def _aim(self) -> Component:
        data = [{"value": key, "label": aim.label} for key, aim in AIMS.items()]
        part = bound.act_id(self.visit.owner, "buildup/aim", kind=bound.PICK)
        return choice("Aim", data, self.form.aim, id=part, searchable=False)

    def _lead(self) -> Component:
        data = form_words.lead_choices(self.form.aim)
        return listed(self.visit, "plan.lead", "Lead readout", data, "it rises as evenly as the limits allow")

    def _goal(self) -> list[Component]:
        if self.care.guarded or self.aim.only_own:
            return []
        return [listed(self.visit, "plan.goal_ball", "To the ball", form_words.goal_choices(self.case))]

    def _before(self) -> Component:
        role = [{"value": key, "label": words} for key, words in CLEARING.items()]
        label, said = TEXTS["cleared_role"]
        cleared = [
            self._text("cleared_by"),
            emptied(self.visit, "plan.cleared_role", label, role, said),
        ]
        injury = [html.Div(cleared, id=ids.BUILDUP_CLEARED, className="buildup-row two")] if self.care.injury else []
        return html.Section(
            [
                html.H2("Asked first"),
                html.Div(
                    [self._field("weeks_off"), self._field("throws_week"), self._text("thrown"), *injury],
                    className="buildup-row three-two",
                ),
            ],
            className="buildup-part",
        )

    def _from_start(self) -> Component:
        fields = [
            radios(self.visit, "plan.holds", "How long the limits hold", HOLDS),
            html.Div(self._field("hold_count"), id=ids.BUILDUP_COUNT, hidden=self.form.holds not in ("steps", "weeks")),
            _do("drop", "Plan without what came from Start"),
        ]
        return html.Section(
            [
                html.H2("From Start"),
                html.Div(form_words.given_parts(self.athlete, self.system), id=ids.BUILDUP_GIVEN),
                html.Div(fields, className="buildup-row two-one"),
            ],
            className="buildup-part",
            hidden=self.athlete.given is None,
        )

    def _order(self) -> Component:
        between = listed(
            self.visit, "plan.between_ball", "The ball in between", form_words.between_choices(self.form, self.athlete)
        )
        orders = radios(
            self.visit,
            "plan.order",
            "",
            {},
            self.care.order,
            children=html.Div(order_choices(list(orders_of(self.form, self.athlete))), id=ids.BUILDUP_ORDER_CHOICES),
            **{"aria-labelledby": f"{ids.BUILDUP_ORDER}-title"},
        )
        compare = _button(COMPARE, ids.BUILDUP_COMPARE, hidden=self.aim.only_own, **{"data-key": "o"})
        return html.Section(
            [
                html.H2("Order of the balls", id=f"{ids.BUILDUP_ORDER}-title"),
                html.Div(
                    [
                        html.Div(orders, id=ids.BUILDUP_ORDER),
                        html.Div(between, id=ids.BUILDUP_BETWEEN, hidden=self.form.order != "between"),
                        compare,
                    ],
                    className="buildup-row two-one",
                ),
                html.Div(id=ids.BUILDUP_ORDERS, role="status"),
            ],
            className="buildup-part",
        )

    def _days(self) -> Component:
        names = {str(place): name for place, name in enumerate(DAY_NAMES)}
        ticked = [NO_DAYS, *(self.form.days or self.care.value("days")).replace(NO_DAYS, "").split()]
        return boxes(self.visit, "plan.days", "Days to throw on", names, value=ticked)

    def _folds(self) -> list[Component]:
        balls = html.Div(boxes_of(self.case), className="boxes")
        out = [mass for mass in masses_of(self.case) if mass in self.form.left_out.split()]
        left = boxes(self.visit, "plan.left_out", "Balls that are left out", {}, children=balls, value=out)
        return [
            *(
                html.Details(
                    [
                        html.Summary(head),
                        html.P(said, className="quiet"),
                        html.Div([self._field(name) for name in names], className="buildup-row seven"),
                    ],
                    className="fold",
                )
                for head, said, names in FOLDS
            ),
            html.Details([html.Summary("Balls on the rack"), left], className="fold"),
        ]

    def _field(self, name: str) -> Component:
        label, said = field_label(name, self.system), field_description(name, self.care, self.system)
        asked = ASKED_FOR if form_words.is_asked(name, self.care) else ""
        hint = default_text(name, self.care, self.system) or asked
        return typed(self.visit, f"plan.{name}", label, said, numeric=True, placeholder=hint)

    def _text(self, name: str) -> Component:
        label, said = TEXTS[name]
        hint = ASKED_FOR if form_words.is_asked(name, self.care) else ""
        return typed(self.visit, f"plan.{name}", label, said, placeholder=hint)

    def _date(self, name: str) -> Component:
        return typed(self.visit, f"plan.{name}", DATES[name], field_description(name, self.care, self.system))


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
        (
            "first_nms",
            "weekly_percent",
            "most_nms",
            "least_throws",
            "most_throws",
            "easier_every",
            "easier_percent",
        ),
    ),
)
"""What is folded away: head, what is said of it, and the names of its fields."""


def field_label(name: str, system: System = METRIC) -> str:
    """What stands over a field, by its name in the form."""
    if name in DATES or name in TEXTS:
        return DATES.get(name) or TEXTS[name][0]
    spec = FIELDS[name]
    if name == "hold_count":
        return spec.label  # of steps or of weeks, as was chosen beside it
    label = SHORT.get(name, spec.label)
    unit = spec.unit_in(system)
    return f"{label[:1].upper()}{label[1:]}" + ("" if unit in spec.label.lower() else f", {unit}")


def field_description(name: str, care: Care, system: System = METRIC) -> str:
    """What stands under it: what is accepted, and what stands for an empty field."""
    if name in DATES:
        return f"year-month-day. {SINCE if name == 'first_day' else BY}"
    if name in TEXTS:
        return TEXTS[name][1]
    spec = FIELDS[name]
    said = spec.described(system)
    if spec.hint:
        said += f"; {spec.hint}"
    empty = default_text(name, care, system)
    if name == "steps":
        return f"{said}; empty: {empty or f'the fewest within the limits, and {MORE_STEPS} more'}"
    return f"{said}; empty: {empty}" if empty else said


def _button(words: str, part: str, name: str = "", **props: Any) -> Component:
    return html.Button(words, id=part, type="button", n_clicks=0, className=name, **props)


def _do(name: str, words: str) -> Component:
    return html.Button(words, id={"type": ids.BUILDUP_DO, "name": name}, type="button", n_clicks=0)


def missing(offers: list[Component]) -> Component:
    """Make the place where it is said what happened, with what can be done about it."""
    return html.Div(
        [html.Div(id=ids.BUILDUP_NOTICE), html.Div(offers, id=ids.BUILDUP_OFFERS)],
        className="buildup-notice",
        role="status",
    )
