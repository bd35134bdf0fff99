"""The form of the page: aim, from and to, days, limits, budget. Functions that make components and do no work."""

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app import ids
from app.buildup.aims import AIMS, MORE_STEPS
from app.buildup.checks import DATES, DAY_NAMES, FIELDS, default_text
from app.buildup.form import BY_AIM, LOWEST
from app.compare.parts import choice, number_field, text_field
from app.demo import Demo
from app.systems import METRIC, System
from app.whose import OF_COMPARE, people
from model.build_up import METRICS

SHORT = {f"rise_{key}": label for key, (label, _) in METRICS.items()} | {
    f"cap_{key}": label for key, (label, _) in METRICS.items()
}
"""Labels of fields that stand under a heading which says the rest."""

MAKE = "Make the plan"
SINCE = "The first session is not before it; empty: today"
BY = "The last session is wanted by then; may stay empty"


def asked(demo: Demo) -> Component:
    """Make the form.

    Parameters
    ----------
    demo : Demo

    Returns
    -------
    Component
    """
    aims = [{"value": key, "label": aim.label} for key, aim in AIMS.items()]
    make = html.Button(
        MAKE, id=ids.BUILDUP_MAKE, type="button", n_clicks=0, className="buildup-make", **{"data-key": "m"}
    )
    return html.Details(
        [
            html.Summary("What is planned"),
            html.Div(
                [
                    html.Div(
                        [
                            _pick("Whose arm", people(demo), OF_COMPARE, ids.BUILDUP_ATHLETE),
                            _pick("Aim", aims, next(iter(AIMS)), ids.BUILDUP_AIM),
                            _pick("Lead readout", [], "", ids.BUILDUP_LEAD, "it rises as evenly as the limits allow"),
                        ],
                        className="buildup-row",
                    ),
                    html.Div(id=ids.BUILDUP_AIM_SAID, className="quiet"),
                    html.Div(
                        [
                            _pick("From the ball", [], "", ids.BUILDUP_START_BALL),
                            _field("start_percent"),
                            _pick("To the ball", [], "", ids.BUILDUP_GOAL_BALL),
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
                    _fold(
                        "Step limits: the most that each may rise from one step to the next",
                        "Falls are free. Common practice, no source: a tenth, and half more for the rise rate, which "
                        "goes as the cube of the speed where the peak goes as its square. The weekly tenth is "
                        "tradition, not established for throwing.",
                        [f"rise_{key}" for key in METRICS],
                    ),
                    _fold(
                        "Caps: the most that each may be in any step",
                        "Empty: no cap. A limit in N·m differs between laboratories by ±25 % and more.",
                        [f"cap_{key}" for key in METRICS],
                    ),
                    _fold(
                        "Budget and easier weeks",
                        "A session may sum up to its week’s budget: throws times the area under the curve of one. From "
                        "one week to the next that is no easier one, the budget climbs by no more than its rise. "
                        "Common practice, no source. Published daily limits on throws are limits for games and are "
                        "not used here.",
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
                    html.Div([make, html.Div(id=ids.BUILDUP_MISSING, role="status")], className="buildup-making"),
                ],
                className="buildup-form",
            ),
        ],
        id=ids.BUILDUP_ASKED,
        open=True,
        className="buildup-asked",
    )


def field_label(name: str, system: System = METRIC) -> str:
    """What stands over a field, by its name in the form."""
    if name in DATES:
        return DATES[name]
    spec = FIELDS[name]
    label = SHORT.get(name, spec.label)
    unit = spec.unit_in(system)
    return f"{label[:1].upper()}{label[1:]}" + ("" if unit in spec.label.lower() else f", {unit}")


def field_description(name: str, aim: str = "", system: System = METRIC) -> str:
    """What stands under it: what is accepted, and what stands for an empty field."""
    if name in DATES:
        return f"year-month-day. {SINCE if name == 'first_day' else BY}"
    spec = FIELDS[name]
    said = spec.described(system)
    if spec.hint:
        said += f"; {spec.hint}"
    empty = default_text(name, aim, system)
    if name == "steps":
        return f"{said}; empty: {empty or f'the fewest within the limits, and {MORE_STEPS} more'}"
    return f"{said}; empty: {empty}" if empty else said


def ball_choices(rack: list[dict[str, str]], by_aim: str, lead: str) -> list[dict[str, str]]:
    """The balls a start or a goal can be.

    Parameters
    ----------
    rack : list of dict
        As `app.rack.rack_of` has it.
    by_aim : str
        What the aim has, in words.
    lead : str
        The lead readout, in words; empty where the ball cannot be left to the planner.

    Returns
    -------
    list of dict
    """
    made = [{"value": BY_AIM, "label": f"by the aim: {by_aim}"}]
    if lead:
        made.append({"value": LOWEST, "label": f"lowest {lead}"})
    return [*made, *rack]


def _pick(label: str, data: list[dict[str, str]], value: str, part: str, description: str = "") -> Component:
    return choice(label, data, value, description, id=part, searchable=False)


def _field(name: str) -> Component:
    return number_field(FIELDS[name], "", field_label(name), id={"type": ids.BUILDUP_FIELD, "name": name})


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
