"""The callbacks of the form and of the fields after a session: what is said of what is typed, as it is kept."""

from typing import Any

from dash import Dash, Input, Output, State, ctx, html, no_update, set_props
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.edit import Doing
from app.bind.visit import Visit, visit_again
from app.pages.buildup import acting, form_words, ids, log_parts
from app.pages.buildup.aims import AIMS
from app.pages.buildup.compare_orders import compare
from app.pages.buildup.found import Found
from app.pages.buildup.making import Page, missing_parts
from app.pages.buildup.noted import path_of
from app.pages.buildup.orders import orders_of
from app.pages.buildup.parts import COUNTED, order_choices
from app.pages.buildup.plans import away, brought_back
from app.records.acts import Edit
from app.show.drawn import drawn


def choose_aim(visit: Visit, _: str, value: Any) -> Doing:
    """Another aim: its own days count, and the order is chosen anew."""
    if value not in AIMS or (visit.data and visit.data.settings["plan.aim"] == value):
        raise PreventUpdate
    return Doing([Edit("plan.aim", value), Edit("plan.days", ""), Edit("plan.order", "")])


DOERS = {"buildup/aim": choose_aim, "buildup/away": away, "buildup/this_away": away, "buildup/back": brought_back}


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    version, here = Input(bound.VERSION, "data"), State(bound.HERE, "data")
    app.callback(
        output={
            "missing": Output(ids.BUILDUP_MISSING, "children"),
            "orders": Output(ids.BUILDUP_ORDER_CHOICES, "children"),
            "between_hidden": Output(ids.BUILDUP_BETWEEN, "hidden"),
            "count_hidden": Output(ids.BUILDUP_COUNT, "hidden"),
            "orders_compared": Output(ids.BUILDUP_ORDERS, "children"),
        },
        inputs={"version": version, "here": here},
    )(tell)
    app.callback(
        Output(ids.BUILDUP_ORDERS, "children", allow_duplicate=True),
        Input(ids.BUILDUP_COMPARE, "n_clicks"),
        here,
        running=[(Output(ids.BUILDUP_COMPARE, "disabled"), True, False)],
        prevent_initial_call=True,
    )(compared)
    app.callback(
        Output(ids.BUILDUP_SUGGESTED, "children"),
        version,
        State(ids.BUILDUP_LOG_SESSION, "value"),
        here,
        prevent_initial_call=True,
    )(advise)
    app.callback(
        Output(ids.BUILDUP_LOG_FIELDS, "children"),
        Output(ids.BUILDUP_LOG_TITLE, "children"),
        Input(ids.BUILDUP_LOG_SESSION, "value"),
        here,
        prevent_initial_call=True,
    )(fill)
    drawn(app, width=ids.BUILDUP_WIDTH, papers=[ids.BUILDUP_STAIRS_PAPER, ids.BUILDUP_OVERLAY_PAPER])
    acting.register(app)


def _found(here: Any) -> Found:
    found = Found(visit_again(here))
    if found.visit.data is None:
        raise PreventUpdate
    return found


def tell(version: Any, here: Any) -> dict[str, Any]:
    """Say what is wrong in the form or missing, and what there is to choose of."""
    del version
    found = _found(here)
    wanted, athlete, visit = found.wanted, found.athlete, found.visit
    part = bound.field_id(visit.owner, "plan.between_ball", "", visit.system.key)
    set_props(part, {"data": form_words.between_choices(wanted, athlete)})
    return {
        "missing": [*missing_parts(athlete, ()), *(html.P(text, className="problem") for text in wanted.wrong)],
        "orders": order_choices(list(orders_of(wanted, athlete))),
        "between_hidden": wanted["order"] != "between",
        "count_hidden": wanted["holds"] not in COUNTED,
        "orders_compared": [] if ctx.triggered_id else no_update,  # another form: what was compared no longer holds
    }


def compared(pressed: Any, here: Any) -> list[Component]:
    """Work all orders out."""
    if not pressed:
        raise PreventUpdate
    found = _found(here)
    return compare(Page(found.wanted, found.athlete, None, found.visit.today, system=found.visit.system))


def advise(version: Any, session: Any, here: Any) -> Any:
    """Say what may come next by what is entered so far; what may be decided stands in its list."""
    del version
    found, visit, at = _session(here, session)
    told = log_parts.advised(found, at)
    for name in ("decision", "throws"):
        part = bound.field_id(visit.owner, path_of(name, found.session_key(at)), "", visit.system.key)
        set_props(part, told[name])
    return told["said"]


def fill(session: Any, here: Any) -> tuple[list[Component], str]:
    """Make the fields of the session that is chosen."""
    found, _, at = _session(here, session)
    return log_parts.fields(found, at), log_parts.title_of(found.course, at)


def _session(here: Any, session: Any) -> tuple[Found, Visit, int]:
    found = _found(here)
    at = log_parts.session_of(session, found.course)
    if at is None:
        raise PreventUpdate
    return found, found.visit, at
