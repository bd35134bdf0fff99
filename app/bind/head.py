"""The head of an athlete's page: what it is, who throws, undo and redo."""

from dash import html
from dash.development.base_component import Component

from app.bind.steps import steps
from app.bind.visit import Visit
from app.show.person_words import who_words
from app.show.subject import Case


def athlete_head(visit: Visit, title: str, case: Case) -> Component:
    """Make the head of a page; the line that says who throws leads to the measures."""
    told = html.A(who_words(case), href=visit.address("/athlete"), title="Measures and readings")
    return html.Div(
        [html.H1(title), html.P(told, className="summary"), steps(visit)],
        className="page-head",
    )
