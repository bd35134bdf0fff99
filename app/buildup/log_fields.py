"""The callbacks of the fields after a session: filled for the session that is next, kept as typed, and advised on."""

from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx
from dash.exceptions import PreventUpdate

from app import ids
from app.buildup.advice import after_of, read_pains, suggested_words
from app.buildup.before import read_plan
from app.buildup.log_form import TEXTS, fields_of, key_of, shown_for
from app.flat_form import by_name
from model.checks import InputError
from model.soreness import suggest

PAIN = {"type": ids.BUILDUP_PAIN, "name": ALL}
OPENED = f"{ids.BUILDUP_LOG_OPENED}.data"


def fields(kind: type[Input] | type[Output]) -> dict[str, Any]:
    """All that is typed after a session, as inputs or as outputs."""
    return {
        "pains": kind(PAIN, "value"),
        "held": kind(ids.BUILDUP_HELD, "value"),
        "signs": kind(ids.BUILDUP_SIGNS, "value"),
        "decision": kind(ids.BUILDUP_DECISION, "value"),
        "texts": {name: kind({"type": ids.BUILDUP_HAND, "name": name}, "value") for name in TEXTS},
    }


def register(app: Dash) -> None:
    """Give the callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={"fields": fields(Output), "of": Output(ids.BUILDUP_LOG_OF, "data")},
        inputs={
            "plan": Input(ids.BUILDUP_PLAN, "data"),
            "opened": Input(ids.BUILDUP_LOG_OPENED, "data"),
            "typed": State(ids.BUILDUP_LOG_TYPED, "data"),
            "of": State(ids.BUILDUP_LOG_OF, "data"),
            "by": State({"type": ids.BUILDUP_HAND, "name": "by"}, "value"),
        },
    )(fill)
    app.clientside_callback(
        ClientsideFunction("buildup", "typed"),
        Output(ids.BUILDUP_LOG_TYPED, "data"),
        *_one_by_one(fields(Input)),  # a function in the browser is given one value after another
        State(ids.BUILDUP_LOG_OF, "data"),
        State(ids.BUILDUP_LOG_TYPED, "data"),
        prevent_initial_call=True,
    )
    app.callback(
        output={"said": Output(ids.BUILDUP_SUGGESTED, "children"), "errors": Output(PAIN, "error")},
        inputs={
            "pains": Input(PAIN, "value"),
            "pain_ids": State(PAIN, "id"),
            "held": Input(ids.BUILDUP_HELD, "value"),
            "signs": Input(ids.BUILDUP_SIGNS, "value"),
        },
    )(advise)


def _one_by_one(parts: dict[str, Any]) -> list[Any]:
    texts = parts.pop("texts")
    return [*parts.values(), *texts.values()]


def fill(plan: Any, opened: Any, typed: Any, of: Any, by: Any) -> dict[str, Any]:
    """Fill the fields for the session that is next, where they are of another."""
    record = read_plan(plan)
    form = shown_for(record, of, opened if OPENED in ctx.triggered_prop_ids else None, typed, by)
    if record is None or form is None:
        raise PreventUpdate
    return {"fields": fields_of(form), "of": key_of(record)}


def advise(pains: list[Any], pain_ids: list[Any], held: Any, signs: Any) -> dict[str, Any]:
    """Say what the soreness rules suggest, once pain before and after is known."""
    named = by_name(pain_ids, pains)
    problems = read_pains(named)[1]
    errors = [problems.get(str(part.get("name")), "") if isinstance(part, dict) else "" for part in pain_ids]
    try:
        said = suggested_words(suggest(after_of(named, held, signs)))
    except InputError:
        said = ""
    return {"said": said, "errors": errors}
