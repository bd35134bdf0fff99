"""The Compare page: throws of an athlete's comparison, and what differs between them."""

from dataclasses import replace

from dash import Dash, dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.bind.visit import Visit, nobody
from app.pages.compare import ids, parts
from app.pages.compare.acts import first_acts
from app.pages.compare.along import callbacks as along_callbacks
from app.pages.compare.along.parts import offer, tools
from app.pages.compare.current import current_of
from app.pages.compare.doers import DOERS
from app.pages.compare.register import register as register_compare
from app.pages.compare.who import who
from app.records.acts import Hand
from app.records.tables import new_uid
from app.show.basis import basis_of
from app.show.cautions import cautioned
from app.show.joint_centres import chain_of


def layout(visit: Visit) -> Component:
    """Make the page of the athlete's comparison; an athlete who has none yet gets the first one."""
    if visit.data is None:
        return html.Div([html.H1("Compare throws"), nobody(visit), offer()], className="compare")
    current = current_of(visit)
    if current is None:
        visit.store.act(visit.owner, first_acts(visit.data, new_uid()), Hand(visit.tab), stays=True)
        current = current_of(replace(visit))
    if current is None:
        raise LookupError("the athlete was erased while the page was made")
    people = {by: thrower.person for by, thrower in current.throwers.items()}
    return html.Div(
        [
            dcc.Store(id=ids.COMPARE_DRAWN),
            dcc.Store(id=ids.COMPARE_WIDTH),
            dcc.Store(id=ids.COMPARE_PAPER),
            dcc.Store(id=ids.COMPARE_TOLD),
            dcc.Store(id=ids.COMPARE_EVERY_OPEN),
            dcc.Store(id=ids.COMPARE_IDENTITY),
            parts.header(current, *tools()),
            offer(),
            who(current),
            parts.answer(current),
            parts.picture({by: chain_of(person) for by, person in people.items()}),
            parts.every_quantity(),
            parts.throws(current),
            parts.readings(current),
            html.Div(basis_of(cautioned(people.values())), className="basis"),
        ],
        className="compare",
    )


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    register_compare(app)
    along_callbacks.register(app)


PAGE = Page(path=ids.PATH, title="Compare", layout=layout, register=register, of_athlete=False, doers=DOERS)
