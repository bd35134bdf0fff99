"""The Words page: the trade's and the mechanics' words in plain ones."""

from dash import Dash, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.bind.visit import Visit
from app.show.glossary import PATH, glossary


def layout(_: Visit) -> Component:
    """Make the page; it is the same for everybody.

    Parameters
    ----------
    _ : Visit

    Returns
    -------
    Component
    """
    said = "On every page a dotted word can be pressed, and says what stands here."
    return html.Div([html.H1("Words"), html.P(said, className="quiet"), glossary()], className="words-page")


def register(app: Dash) -> None:
    """Give the page's callbacks to the app: it has none.

    Parameters
    ----------
    app : Dash
    """


PAGE = Page(path=PATH, title="Words", layout=layout, register=register, of_athlete=False)
