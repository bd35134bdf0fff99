"""The form of the page: what was before, aim, order of the balls, days, limits. Functions that make components."""

from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.demo import Demo
from app.pages.buildup import ids
from app.pages.buildup.aims import AIMS, MORE_STEPS, Care
from app.pages.buildup.checks import DATES, DAY_NAMES, FIELDS, LONGEST_INITIALS, default_text
from app.pages.buildup.first_limits import HOLDS
from app.pages.buildup.form import ORDER_SAID, ORDERS, OWN, USUAL
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.rule_words import CLEARING
from app.show.cautions import CAUTIONS
from app.show.controls import choice, number_field, text_field
from app.show.whose import OF_COMPARE, people
from app.units.systems import METRIC, System
from model.build_up import METRICS

SHORT = {f"rise_{key}": label for key, (label, _) in METRICS.items()} | {
    f"cap_{key}": label for key, (label, _) in METRICS.items()
}
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


def asked(demo: Demo) -> Component:
    """Make the form."""
    aims = [{"value": key, "label": aim.label} for key, aim in AIMS.items()]
    make = _button(MAKE, ids.BUILDUP_MAKE, "buildup-make", **{"data-key": "m"})
    return html.Details(
        [
            html.Summary("What is planned"),
            html.Div(
                [
                    html.Div(id=ids.BUILDUP_GROWS, className="buildup-grows", hidden=True),
                    html.Ul([html.Li(text) for text in CAUTIONS], className="buildup-cautions"),
                    html.Div(
                        [
                            _pick("Whose arm", people(demo), OF_COMPARE, ids.BUILDUP_ATHLETE),
                            _pick("Aim", aims, next(iter(AIMS)), ids.BUILDUP_AIM),
                            _pick("Lead readout", [], "", ids.BUILDUP_LEAD, "it rises as evenly as the limits allow"),
                        ],
                        className="buildup-row",
                    ),
                    html.Div(id=ids.BUILDUP_AIM_SAID, className="quiet"),
                    _before(),
                    _from_start(),
                    html.Div(
                        [
                            _field("start_percent"),
                            html.Div(
                                _pick("To the ball", [], OWN, ids.BUILDUP_GOAL_BALL), id=f"{ids.BUILDUP_GOAL_BALL}-part"
                            ),
                            _field("goal_percent"),
                            _field("steps"),
                        ],
                        className="buildup-row ends",
                    ),
                    html.Div(
                        [
                            _date("first_day", SINCE),
                            _date("target_day", BY),
                            _days(),
                            _field("repeats"),
                            _field("first_throws"),
                        ],
                        className="buildup-row five",
                    ),
                    *_folds(),
                    _order(),
                    html.Div([make, html.Div(id=ids.BUILDUP_MISSING, role="status")], className="buildup-making"),
                ],
                className="buildup-form",
            ),
        ],
        id=ids.BUILDUP_ASKED,
        open=True,
        className="buildup-asked",
    )


def _before() -> Component:
    cleared = [_text("cleared_by"), _role()]
    return html.Section(
        [
            html.H2("Asked first"),
            html.Div(
                [
                    _field("weeks_off"),
                    _field("throws_week"),
                    _text("thrown", longest=LONGEST_NOTE),
                    html.Div(cleared, id=ids.BUILDUP_CLEARED, className="buildup-row two", hidden=True),
                ],
                className="buildup-row three-two",
            ),
        ],
        className="buildup-part",
    )


def _role() -> Component:
    data = [{"value": key, "label": words} for key, words in CLEARING.items()]
    label, said = TEXTS["cleared_role"]
    part = {"type": ids.BUILDUP_FIELD, "name": "cleared_role"}
    return choice(label, data, "", said, id=part, searchable=False, clearable=True)


def _from_start() -> Component:
    holds = dmc.RadioGroup(
        html.Div([dmc.Radio(value=key, label=words) for key, words in HOLDS.items()], className="boxes"),
        id=ids.BUILDUP_HOLDS,
        value="",
        label="How long the limits hold",
        className="field",
    )
    return html.Section(
        [
            html.H2("From Start"),
            html.Div(id=ids.BUILDUP_GIVEN),
            html.Div(
                [
                    holds,
                    html.Div(_field("hold_count"), id=f"{ids.BUILDUP_HOLDS}-count"),
                    _button("Plan without what came from Start", ids.BUILDUP_DROP),
                ],
                id=f"{ids.BUILDUP_GIVEN}-fields",
                className="buildup-row two-one",
            ),
        ],
        id=f"{ids.BUILDUP_GIVEN}-part",
        className="buildup-part",
        hidden=True,
    )


def _order() -> Component:
    return html.Section(
        [
            html.H2("Order of the balls", id=f"{ids.BUILDUP_ORDER}-title"),
            html.Div(
                [
                    dmc.RadioGroup(
                        [],
                        id=ids.BUILDUP_ORDER,
                        value="",
                        className="field",
                        **{"aria-labelledby": f"{ids.BUILDUP_ORDER}-title"},
                    ),
                    html.Div(
                        _pick("The ball in between", [], USUAL, ids.BUILDUP_BETWEEN), id=f"{ids.BUILDUP_BETWEEN}-part"
                    ),
                    _button(COMPARE, ids.BUILDUP_COMPARE, **{"data-key": "o"}),
                ],
                className="buildup-row two-one",
            ),
            html.Div(id=ids.BUILDUP_ORDERS, role="status"),
        ],
        className="buildup-part",
    )


def order_choices(orders: list[str]) -> list[Component]:
    """The orders to choose from."""
    return [
        dmc.Radio(value=key, label=ORDERS[key], description=ORDER_SAID.get(key), className="buildup-order")
        for key in orders
    ]


def _folds() -> list[Component]:
    return [
        _fold(
            "Step limits: the most that each may rise from one step to the next",
            "Falls are free. Common practice, no source: a tenth, and half more for the rise rate, which goes as the "
            "cube of the speed where the peak goes as its square. The weekly tenth is tradition, not established for "
            "throwing.",
            [f"rise_{key}" for key in METRICS],
        ),
        _fold(
            "Caps: the most that each may be in any step",
            "Empty: no cap. A limit in N·m differs between laboratories by ±25 % and more.",
            [f"cap_{key}" for key in METRICS],
        ),
        _fold(
            "Budget and easier weeks",
            "A session may sum up to its week’s budget: throws times the area under the curve of one. From one week to "
            "the next that is no easier one, the budget climbs by no more than its rise. Common practice, no source. "
            "Published daily limits on throws are limits for games and are not used here.",
            [
                "first_nms",
                "weekly_percent",
                "most_nms",
                "least_throws",
                "most_throws",
                "easier_every",
                "easier_percent",
            ],
        ),
        html.Details(
            [
                html.Summary("Balls on the rack"),
                dmc.CheckboxGroup([], id=ids.BUILDUP_BALLS, value=[], label="Balls that may be thrown"),
            ],
            className="fold",
        ),
    ]


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


def _button(words: str, part: str, name: str = "", **props: str) -> Component:
    return html.Button(words, id=part, type="button", n_clicks=0, className=name, **props)


def _pick(label: str, data: list[dict[str, str]], value: str, part: str, description: str = "") -> Component:
    return choice(label, data, value, description, id=part, searchable=False)


def _field(name: str) -> Component:
    return number_field(FIELDS[name], "", field_label(name), id={"type": ids.BUILDUP_FIELD, "name": name})


def _text(name: str, **props: Any) -> Component:
    label, said = TEXTS[name]
    return text_field(label, said, value="", id={"type": ids.BUILDUP_FIELD, "name": name}, **props)


def _date(name: str, said: str) -> Component:
    return text_field(DATES[name], f"year-month-day. {said}", value="", id={"type": ids.BUILDUP_FIELD, "name": name})


def _days() -> Component:
    boxes = html.Div([dmc.Checkbox(label=name, value=str(i)) for i, name in enumerate(DAY_NAMES)], className="boxes")
    return dmc.CheckboxGroup(boxes, id=ids.BUILDUP_DAYS, value=[], label="Days to throw on", className="field")


def _fold(head: str, said: str, names: list[str]) -> Component:
    fields = html.Div([_field(name) for name in names], className="buildup-row seven")
    return html.Details([html.Summary(head), html.P(said, className="quiet"), fields], className="fold")


def missing() -> Component:
    """Make the place where it is said what happened, with what can be done about it."""
    return html.Div(
        [html.Div(id=ids.BUILDUP_NOTICE), html.Div(id=ids.BUILDUP_OFFERS)], className="buildup-notice", role="status"
    )
