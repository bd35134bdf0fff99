"""The page's callbacks: thin; they read the fields, call a pure function, and set the parts.

The fields on the page are the one truth. `change` runs when the page opens, a ball of the rack is chosen or the balls
are swapped; `draw` runs when any value changed. The Compare form and the readings belong to their own pages' stores:
this page reads them from where the browser keeps them, and writes neither.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import load_demo
from app.pages.claim import ids
from app.pages.claim.answers import claim_of, usual_balls
from app.pages.claim.checks import FIELDS
from app.pages.claim.form import ClaimForm, from_json, read_form, swapped, to_json, with_ball
from app.pages.claim.meant import meant, read_written, written
from app.pages.claim.parts import field_description, field_label
from app.pages.claim.view import view_of
from app.show import ids as shared_ids
from app.show.basis import basis_of
from app.show.checks import check_athlete
from app.show.drawn import drawn
from app.show.flat_form import by_name
from app.show.glossary import field_words
from app.show.invented import is_invented
from app.show.page_parts import names_in
from app.show.rack import rack_of, texts_of
from app.show.subject import case_of
from app.show.throw_form import FormError
from app.show.whose import Whose, whose
from app.units.systems import System, system_named

FIELD = {"type": ids.CLAIM_FIELD, "name": ALL}
RACK = {"type": ids.CLAIM_RACK, "ball": ALL}
TYPED = {"type": ids.CLAIM_TYPED, "ball": ALL}

CONTROLS = {
    "who": ids.CLAIM_ATHLETE,
    "reading": ids.CLAIM_READING,
    "way": ids.CLAIM_WAY,
    "thrown": ids.CLAIM_THROWN,
}

VIEW_OUTPUTS = {
    "who": Output(ids.CLAIM_WHO, "children"),
    "empty": Output(ids.CLAIM_EMPTY, "children"),
    "empty_hidden": Output(ids.CLAIM_EMPTY, "hidden"),
    "body_hidden": Output(ids.CLAIM_BODY, "hidden"),
    "sentence": Output(ids.CLAIM_SENTENCE, "children"),
    "readouts": Output(ids.CLAIM_READOUTS, "children"),
    "notes": Output(ids.CLAIM_NOTES, "children"),
}
"""The parts that `View` fills one to one."""


def _fields(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the claim's form, as inputs or as states."""
    return {
        "controls": {name: kind(part, "value") for name, part in CONTROLS.items()},
        "typed": kind(FIELD, "value"),
        "typed_ids": State(FIELD, "id"),
        "written": State(ids.CLAIM_WRITTEN, "data"),
    }


def _form(fields: dict[str, Any]) -> ClaimForm:
    typed = by_name(fields["typed_ids"], fields["typed"])
    page = read_form(fields["controls"] | {name: typed.get(name) for name in FIELDS})
    return meant(page, *read_written(fields.get("written")))


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "controls": {name: Output(part, "value") for name, part in CONTROLS.items()},
            "typed": Output(FIELD, "value"),
            "picked": Output(RACK, "value"),
            "written": Output(ids.CLAIM_WRITTEN, "data"),
            "labels": Output(FIELD, "label"),
            "descriptions": Output(FIELD, "description"),
        },
        inputs={
            "read": Input(ids.CLAIM_READ, "data"),
            "picked": Input(RACK, "value"),
            "swap": Input(ids.CLAIM_SWAP, "n_clicks"),
            "fields": _fields(State),
            "rack_ids": State(RACK, "id"),
            "saved": State(ids.CLAIM_SAVED, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
        },
    )(change)
    app.callback(
        output={
            "saved": Output(ids.CLAIM_SAVED, "data"),
            "view": VIEW_OUTPUTS,
            "invented": Output(ids.CLAIM_INVENTED, "hidden"),
            "errors": Output(FIELD, "error"),
            "racks": Output(RACK, "data"),
            "typed_hidden": Output(TYPED, "hidden"),
            "same_hidden": Output(ids.CLAIM_SAME, "hidden"),
            "basis": Output(ids.CLAIM_BASIS, "children"),
        },
        inputs={
            "fields": _fields(Input),
            "read": State(ids.CLAIM_READ, "data"),
            "rack_ids": State(RACK, "id"),
            "typed_parts": State(TYPED, "id"),
        },
    )(draw)
    drawn(app, read=ids.CLAIM_READ)


def _whose(form: ClaimForm, read: Any) -> Whose:
    return whose(form.who, read, load_demo(), current_app.config["LEVELPEAK"].demo)


def change(
    read: Any,
    picked: Sequence[Any],
    swap: Any,
    fields: dict[str, Any],
    rack_ids: Sequence[Any],
    saved: Any,
    units: Any = None,
) -> dict[str, Any]:
    """Open the page, show it in other units, put a ball of the rack into its fields, or swap the two."""
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening, and the browser was not asked yet what it keeps
    source, system = ctx.triggered_id, system_named(units)
    if source in (None, ids.CLAIM_READ) or (source == shared_ids.SHELL_UNITS and fields.get("written") is None):
        form = _opened(saved, read)
        controls = {name: getattr(form, name) for name in CONTROLS}
        return _set(form, fields, rack_ids, system) | {"controls": controls}
    still = {"controls": dict.fromkeys(CONTROLS, no_update)}
    if source == ids.CLAIM_SWAP:
        if not swap:
            raise PreventUpdate  # a button that was just made, not one that was pressed
        return _set(swapped(_form(fields)), fields, rack_ids, system) | still
    form = _form(fields)
    if source == shared_ids.SHELL_UNITS:
        return _set(form, fields, rack_ids, system) | still
    for part, value in zip(rack_ids, picked, strict=False):
        form = with_ball(form, str(part.get("ball")) if isinstance(part, dict) else "", value)
    if not any(picked):
        raise PreventUpdate  # a choice that was emptied again
    return _set(form, fields, rack_ids, system) | still


def _set(form: ClaimForm, fields: dict[str, Any], rack_ids: Sequence[Any], system: System) -> dict[str, Any]:
    """The typed fields of a form; the choice from the rack is empty again, for the fields say which ball it is."""
    names = names_in(fields["typed_ids"], FIELDS)
    return {
        "typed": [FIELDS[name].shown(getattr(form, name), system) for name in names],
        "picked": [None] * len(rack_ids),
        "written": written(form, system),
        "labels": [field_words(field_label(name, system)) for name in names],
        "descriptions": [field_description(name, system) for name in names],
    }


def _opened(saved: Any, read: Any) -> ClaimForm:
    try:
        form = from_json(saved)
    except FormError:
        form = ClaimForm()
    if not form.no_balls:
        return form
    arm = _whose(form, read)
    first, second = usual_balls(case_of(arm.compared, arm.profile, date.today()))
    for which, ball in (("first", first), ("second", second)):
        mass, diameter = texts_of(ball)
        form = replace(form, **{f"{which}_mass_g": mass, f"{which}_diameter_mm": diameter})
    return form


def draw(fields: dict[str, Any], read: Any, rack_ids: Sequence[Any], typed_parts: Sequence[Any]) -> dict[str, Any]:
    """Answer the claim and put it into words and pictures; keep the form."""
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening
    form = _form(fields)
    arm = _whose(form, read)
    system = read_written(fields.get("written"))[1]
    answer = claim_of(form, arm.compared, arm.profile, date.today(), system)
    view = view_of(answer, check_athlete(arm.compared.athlete, system), arm.unread)
    return {
        "saved": to_json(form),
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "invented": not is_invented(arm.compared, load_demo()),
        "errors": [answer.checked.problems.get(name, "") for name in names_in(fields["typed_ids"], FIELDS)],
        "racks": [rack_of(answer.case)] * len(rack_ids),
        "typed_hidden": [form.held != "typed"] * len(typed_parts),
        "same_hidden": form.held != "same",
        "basis": basis_of(answer.case.person),
    }
