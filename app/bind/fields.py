"""Fields that are bound to the records: each knows its row, and shows what is kept there or was refused."""

from typing import Any

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.bind import ids
from app.bind.visit import Visit
from app.records.field_list import FIELDS, field_of, is_setting
from app.records.fields import Field
from app.records.reads import in_field
from app.show.controls import CHOICE, ORDER
from app.show.glossary import field_words
from app.units.conversion import FEET


def bound(
    visit: Visit,
    path: str,
    row: Any = None,
    *,
    label: str | Component | None = None,
    said: str | None = None,
    data: list[Any] | None = None,
    of: str = "",
    usual: str = "",
    **props: Any,
) -> Component:
    """Make the field of a path, of the kind that its values need.

    Parameters
    ----------
    visit : Visit
    path : str
        As in `app.records.field_list`.
    row : Row, optional
        The row of a table; a setting finds its own.
    label : str or Component, optional
        Where the field's own label and unit do not do.
    said : str, optional
        What stands beneath it in the place of what is accepted.
    data : list of dict, optional
        Choices in the place of the field's own; for a link, what it can lead to.
    of : str
        The owner, where it is not the athlete of the page: `TEAM`.
    usual : str
        The choice that counts, and is shown, while none was made.
    **props
        Further properties of the component.

    Returns
    -------
    Component
    """
    settings = visit.data.settings if visit.data else {}
    if is_setting(path):
        row = visit.data.setting_rows.get(path) if visit.data else None
    kind = field_of(path, settings if is_setting(path) else row.__dict__)
    text, problem = _text(visit, kind, path, row, settings)
    owner = of or visit.owner
    uid = "" if is_setting(path) or row is None else row.uid
    part = ids.field_id(owner, path, uid, visit.system.key, ids.FLAG if kind.kind == "flag" else ids.FIELD)
    shown: dict[str, Any] = {"id": part, "error": problem or None}
    unit = kind.unit_in(visit.system) if kind.kind in ("number", "whole") else ""
    named = label if label is not None else (f"{kind.label}, {unit}" if unit else kind.label)
    described = _said(visit, kind) if said is None else said
    shown |= {"description": described} if described else {}
    if kind.kind == "flag":
        return dmc.Checkbox(label=named, checked=text == "yes", **(shown | props))
    shown |= {"label": field_words(named), "inputWrapperOrder": ORDER}
    if kind.kind in ("choice", "link"):
        offered = data if data is not None else [{"value": k, "label": words} for k, words in kind.choices.items()]
        choice = CHOICE | {"allowDeselect": not kind.needed and kind.default is None, "clearable": False}
        return dmc.Select(data=offered, value=text or usual or None, **(choice | {"searchable": False} | shown | props))
    if kind.kind == "note":
        limits = {"maxLength": kind.longest}
        made = {"debounce": True, "autosize": True, "minRows": 2, "attributes": {"input": limits}, "className": "field"}
        return dmc.Textarea(value=text, **(made | shown | props))
    return dmc.TextInput(value=text, **(_typed(kind, unit) | shown | props))


def bound_radios(visit: Visit, path: str, label: str | Component, *, key: str, heard: str = "") -> Component:
    """Make a setting of few choices that are all in sight, worked by a key as well.

    Parameters
    ----------
    visit : Visit
    path : str
        Of a setting with choices and a default.
    label : str or Component
    key : str
    heard : str
        What it is called for those who hear it, where the label does not do.

    Returns
    -------
    Component
    """
    data = visit.data
    settings, row = (data.settings, data.setting_rows.get(path)) if data else ({}, None)
    kind = field_of(path, settings)
    text, problem = _text(visit, kind, path, row, settings)
    boxes = [dmc.Radio(value=value, label=words, size="xs") for value, words in kind.choices.items()]
    return dmc.RadioGroup(
        html.Div(boxes, className="radios"),
        id=ids.field_id(visit.owner, path, "", visit.system.key),
        value=text,
        error=problem or None,
        label=label,
        className="field",
        **{"data-key": key} | ({"aria-label": heard} if heard else {}),
    )


def _typed(kind: Field, unit: str) -> dict[str, Any]:
    numeric = kind.kind in ("number", "whole") and unit != FEET  # a height in feet and inches is more than a number
    attributes = {"maxLength": kind.longest} | ({"inputMode": "decimal"} if numeric else {})
    return {"debounce": True, "spellCheck": False, "className": "field", "attributes": {"input": attributes}}


def _text(visit: Visit, kind: Field, path: str, row: Any, settings: dict[str, Any]) -> tuple[str, str]:
    """What stands in the field and what is wrong with it; of a link the uid it leads to."""
    if kind.kind != "link" or is_setting(path):
        return in_field(path, row, visit.system, settings, visit.today)
    number = getattr(row, f"{kind.name}_id")
    if number is None or visit.data is None:
        return "", ""
    return (visit.data.balls[number].uid if number in visit.data.balls else ""), ""


def _said(visit: Visit, kind: Field) -> str:
    """What stands beneath a field: what is accepted, and what it is where the label does not say it."""
    accepted = kind.accepted(visit.system, visit.today) if kind.kind in ("number", "whole", "day") else ""
    return "; ".join(part for part in (accepted, kind.hint) if part)


def act_button(visit: Visit, words: str, do: str, row: str = "", *, of: str = "", **props: Any) -> Component:
    """A button that changes the records; the page says what by `do`."""
    owner = of or visit.owner
    return html.Button(words, id=ids.act_id(owner, do, row), type="button", n_clicks=0, **props)


def is_path(path: object) -> bool:
    """Whether this is the path of a field that people type into."""
    if not isinstance(path, str):
        return False
    return path in FIELDS or is_setting(path) or path in ("throw.number", "limits.amount", "comparison.above")
