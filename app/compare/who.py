"""The strip of who throws: the measures of the first thrower, and folded in those of a second."""

from collections.abc import Mapping

from dash import html
from dash.development.base_component import Component

from app import ids
from app.compare.parts import choice, number_field, text_field
from app.demo import Demo
from app.show.form_fields import BY_AGE, LENGTHS, MARK, MARKS, MEASURES, Field
from app.show.throw_form import measure_name
from app.units.systems import METRIC, System


def who(demo: Demo, on_demo: bool) -> Component:
    """Make the strip of who throws; its fields come from `athlete_fields`."""
    children: list[Component] = [html.H2("Who is throwing", id="who-title", className="eyebrow")]
    data = [{"value": a.athlete, "label": f"{a.athlete}, {a.note}"} for a in demo.athletes]
    choose = choice("Demo thrower", data, "", "invented", id=ids.COMPARE_CHOOSE, placeholder="choose", searchable=False)
    fields = html.Div(id=ids.COMPARE_ATHLETE, className="measures")
    children.append(
        html.Div([html.Div(choose, className="choose", hidden=not on_demo), fields], className="who-fields")
    )
    children += _second(data, on_demo)
    return html.Section(children, className="who", **{"aria-labelledby": "who-title"})


def _second(demo_throwers: list[dict[str, str]], on_demo: bool) -> list[Component]:
    """Make the place of the second thrower, of whom a page mostly has none: its fields are made when one is added."""
    words = "Demo thrower, as the second"
    choose = choice(
        words, demo_throwers, "", "invented", id=ids.COMPARE_CHOOSE_OTHER, placeholder="choose", searchable=False
    )
    fields = html.Div(id=ids.COMPARE_OTHER, className="measures")
    said = "Each throw says now who throws it. The other pages are about the first thrower."
    swap = html.Button("Exchange the two", id=ids.COMPARE_EXCHANGE, type="button", n_clicks=0)
    away = html.Button("Remove the second", id=ids.COMPARE_ALONE, type="button", n_clicks=0)
    return [
        html.Button("Add a second thrower", id=ids.COMPARE_JOIN, type="button", n_clicks=0, className="join"),
        html.Section(
            [
                html.H3("Second thrower", id="second-title", className="eyebrow"),
                html.Div([html.Div(choose, className="choose", hidden=not on_demo), fields], className="who-fields"),
                html.Div([html.P(said, className="quiet"), swap, away], className="whole"),
            ],
            id=ids.COMPARE_SECOND,
            className="second",
            hidden=True,
            **{"aria-labelledby": "second-title"},
        ),
    ]


def athlete_fields(athlete: Mapping[str, str], system: System = METRIC, thrower: str = "") -> list[Component]:
    """Make the fields of a thrower.

    Parameters
    ----------
    athlete : mapping of str to str
        As kept.
    system : System
        The units they are shown in.
    thrower : str
        The first ("") or the second (`OTHER`).

    Returns
    -------
    list of Component
    """

    def measure(name: str) -> dict[str, str]:
        return {"type": ids.COMPARE_MEASURE, "name": measure_name(thrower, name)}

    def named(label: str, unit: str = "") -> str | Component:
        after = f", {unit}" if unit else ""
        whose = html.Span(" of the second thrower", className="hidden")
        return html.Span([label, whose, after]) if thrower else f"{label}{after}"

    def number(field: Field) -> Component:
        label = named(field.label, field.unit_in(system))
        return number_field(field, athlete[field.name], label, system, id=measure(field.name))

    def pick(name: str, label: str, words: tuple[str, ...]) -> Component:
        data = [{"value": word, "label": word} for word in words]
        return choice(named(label), data, athlete[name], id=measure(name), placeholder="choose", searchable=False)

    age, *size = (number(field) for field in MEASURES)
    marks = [{"value": key, "label": word} for key, word in MARKS.items()]
    marked = choice(
        named("Still growing"),
        marks,
        athlete[MARK] or BY_AGE,
        "by age: under 18",
        id=measure(MARK),
        searchable=False,
    )
    lengths = [number(field) for field in LENGTHS]
    opened = any(athlete[f.name].strip() for f in LENGTHS)
    return [
        text_field(named("Code"), "no names", value=athlete["code"], id=measure("code")),
        pick("sex", "Sex", ("male", "female")),
        pick("handedness", "Throwing hand", ("right", "left")),
        age,
        marked,
        *size,
        html.Details(
            [
                html.Summary("Measured arm lengths"),
                html.P("Between joint centres. Left out, a length is scaled from stature.", className="quiet"),
                html.Div(lengths, className="lengths"),
            ],
            open=opened,
            id=ids.COMPARE_LENGTHS_OTHER if thrower else ids.COMPARE_LENGTHS,
            className="fold",
        ),
    ]
