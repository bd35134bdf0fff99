"""The page's callback: it reads the records, calls a pure function, and sets the parts."""

from collections.abc import Sequence
from typing import Any

from dash import ALL, Dash, Input, Output, State, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.claim import ids
from app.pages.claim.answers import claim_of
from app.pages.claim.checks import FIELDS
from app.pages.claim.form import PATHS, form_of, usual_texts, with_usual
from app.pages.claim.view import view_of
from app.show.checks import check_athlete
from app.show.from_records import case_of, measures_of

TYPED = {"type": ids.CLAIM_TYPED, "ball": ALL}

VIEW_OUTPUTS = {
    "empty": Output(ids.CLAIM_EMPTY, "children"),
    "empty_hidden": Output(ids.CLAIM_EMPTY, "hidden"),
    "body_hidden": Output(ids.CLAIM_BODY, "hidden"),
    "sentence": Output(ids.CLAIM_SENTENCE, "children"),
    "readouts": Output(ids.CLAIM_READOUTS, "children"),
    "notes": Output(ids.CLAIM_NOTES, "children"),
}
"""The parts that `View` fills one to one."""


def register(app: Dash) -> None:
    """Give the page's callback to the app."""
    app.callback(
        output={
            "view": VIEW_OUTPUTS,
            "typed_hidden": Output(TYPED, "hidden"),
            "same_hidden": Output(ids.CLAIM_SAME, "hidden"),
        },
        inputs=[Input(bound.VERSION, "data"), State(bound.HERE, "data"), State(TYPED, "id")],
    )(draw)


def draw(_: Any, here: Any, typed_parts: Sequence[Any]) -> dict[str, Any]:
    """Answer the claim and put it into words and pictures."""
    visit = visit_again(here)
    if visit.data is None:
        raise PreventUpdate
    case, asked = case_of(visit.data, visit.today, visit.system), form_of(visit.data)
    form = with_usual(asked, case)
    view = view_of(claim_of(form, case), check_athlete(measures_of(visit.data, visit.today), visit.system))
    for name, text in usual_texts(asked, case).items():
        part = bound.field_id(visit.owner, PATHS[name], "", visit.system.key)
        set_props(part, {"placeholder": FIELDS[name].shown(text, visit.system)})
    return {
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "typed_hidden": [form.held != "typed"] * len(typed_parts),
        "same_hidden": form.held != "same",
    }
