"""The strip of who throws: the place of the first thrower, and folded in that of a second."""

from dash import html
from dash.development.base_component import Component

from app.demo import Demo
from app.pages.compare import ids
from app.show.controls import choice


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
