"""What is done to the records so that they say what a form says: a new comparison, a throw more, another order."""

from collections.abc import Mapping, Sequence
from typing import Any

from app.records.acts import Act, Add, Edit, Put, Remove
from app.records.field_list import field_of
from app.records.tables import new_uid
from app.show.form_fields import BALL_FIELDS, HOLD_FIELDS
from app.show.from_records import KIND_OF
from app.show.throw_form import Form, ThrowForm
from model.checks import InputError

KIND_IN_RECORDS = {word: kind for kind, word in KIND_OF.items()}


def comparison_acts(form: Form, uid: str, name: str = "", other: str = "") -> list[Act]:
    """Make a comparison of a form.

    Parameters
    ----------
    form : Form
        Texts in metric units, or with their unit behind them. Those that cannot be read are left out.
    uid : str
        Of the comparison.
    name : str
    other : str
        uid of the second thrower; without, the throws of a second thrower are left out.

    Returns
    -------
    list of Act
    """
    throws = [throw for throw in form.throws if other or not throw.thrower]
    keys = {throw.key: new_uid() for throw in throws}
    first = next(iter(keys.values()), None)
    values: dict[str, Any] = {
        "name": name,
        "reference": keys.get(form.reference, first),
        "headline": keys.get(form.headline),
        "kind": KIND_IN_RECORDS.get(form.kind, form.kind),
        "quantity": form.quantity,
        "align": form.align,
        "scale": form.scale,
    }
    values["day"] = _read("comparison.day", form.date, values)
    values["above"] = _read("comparison.above", form.above, values)
    made = [
        throw_act(throw, uid, keys[throw.key], place, other if throw.thrower else "")
        for place, throw in enumerate(throws)
    ]
    return [Add("comparison", values=_known(values), uid=uid), *made]


def throw_act(throw: ThrowForm, comparison: str, uid: str, position: int, thrower: str = "") -> Add:
    """Add a throw to a comparison, at a place of its list; `thrower` is the uid of another athlete."""
    mass, diameter = BALL_FIELDS
    values = {
        "comparison": comparison,
        "position": position,
        "hold": throw.held,
        "mass_kg": mass.read(throw.ball_mass_g),
        "diameter_m": diameter.read(throw.ball_diameter_mm),
        "number": HOLD_FIELDS[throw.held].read(throw.typed),
        "thrower": thrower or None,
    }
    return Add("throw", values=_known(values), uid=uid)


def in_order(uids: Sequence[str]) -> list[Act]:
    """Put throws that are there in this order."""
    return [Put("throw", "position", place, uid) for place, uid in enumerate(uids)]


def list_acts(form: Form, comparison: str, uids: Sequence[str], own: str, other: str) -> list[Act]:
    """Put a form's throws in the place of a comparison's list; the first of them is there and stays.

    Parameters
    ----------
    form : Form
    comparison : str
        Its uid.
    uids : sequence of str
        The throws that are there.
    own : str
        uid of the one that stays.
    other : str
        uid of the second thrower.

    Returns
    -------
    list of Act
    """
    gone = [Remove("throw", uid) for uid in uids if uid != own]
    new = [
        throw_act(throw, comparison, new_uid(), place, other if throw.thrower else "")
        for place, throw in enumerate(form.throws[1:], start=1)
    ]
    return [*gone, Put("throw", "position", 0, own), *new, Edit("comparison.headline", "", comparison)]


def _read(path: str, text: str, row: Mapping[str, Any]) -> Any:
    try:
        return field_of(path, row).parse(text).value
    except InputError:
        return None


def _known(values: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None}
