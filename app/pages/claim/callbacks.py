"""The page's callback: it reads the records, calls a pure function, and sets the parts."""

from collections.abc import Sequence
from typing import Any

from dash import ALL, Dash, Input, Output, State, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.claim import ids
from app.pages.claim.answers import answer_of
from app.pages.claim.asked import claim_of, usual_values
from app.pages.claim.view import view_of
from app.records.field_list import field_of
from app.show.from_records import case_of

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
    case = case_of(visit.data, visit.today, visit.system)
    claim = claim_of(visit.data, case)
    view = view_of(answer_of(claim, case))
    for path, value in usual_values(visit.data, case).items():
        part = bound.field_id(visit.owner, path, "", visit.system.key)
        set_props(part, {"placeholder": field_of(path).shown(value, "", visit.system)})
    return {
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "typed_hidden": [claim.thrown != "typed"] * len(typed_parts),
        "same_hidden": claim.thrown != "same",
    }
