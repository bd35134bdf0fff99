"""What is done to the records: a new comparison, a throw more, another list. A throw is its values by column."""

from collections.abc import Mapping, Sequence
from typing import Any

from app.records import tables
from app.records.acts import Act, Add, Edit, Put, Remove
from app.records.reads import AthleteData
from app.records.tables import new_uid
from app.show.from_records import reference_of
from model.ball import DEFAULT_DIAMETER_M

Values = Mapping[str, Any]

BLANK: dict[str, Any] = {"hold": "speed", "diameter_m": DEFAULT_DIAMETER_M}
"""A throw of which nothing is known yet."""

CHOICES = ("kind", "day", "quantity", "above", "align", "scale")
"""What a comparison asks of its throws."""


def values_of(row: tables.Throw, thrower: str = "") -> dict[str, Any]:
    """The values of a throw that is there; `thrower` is the uid of another athlete who throws it."""
    made = {name: getattr(row, name) for name in ("hold", "mass_kg", "diameter_m", "number")}
    return made | ({"thrower": thrower} if thrower else {})


def comparison_acts(
    asked: Values, throws: Sequence[Values], uid: str, reference: int = 0, headline: int | None = None
) -> list[Act]:
    """Make a comparison.

    Parameters
    ----------
    asked : mapping of str to object
        Its name, and what of `CHOICES` is known.
    throws : sequence of mapping of str to object
    uid : str
        Of the comparison.
    reference, headline : int
        Places in the list.

    Returns
    -------
    list of Act
    """
    keys: list[str | None] = [new_uid() for _ in throws]
    named = {"reference": reference, "headline": headline}
    chosen = {name: keys[at] for name, at in named.items() if at is not None and 0 <= at < len(keys)}
    made = [throw_act(throw, uid, str(key), place) for place, (throw, key) in enumerate(zip(throws, keys, strict=True))]
    return [Add("comparison", values=_known({**asked, **chosen}), uid=uid), *made]


def first_acts(data: AthleteData | None, uid: str) -> list[Act]:
    """Make an athlete's first comparison: the reference throw as far as it is known, and an empty one."""
    known = None if data is None else reference_of(data)
    if known is None or not known.found:
        return comparison_acts({}, [BLANK, BLANK], uid)
    own = {"mass_kg": known.ball.mass_kg, "diameter_m": known.ball.diameter_m, "number": known.speed_m_s}
    return comparison_acts({"kind": known.kind, "day": known.day}, [BLANK | own, BLANK], uid)


def throw_act(throw: Values, comparison: str, uid: str, position: int) -> Add:
    """Add a throw to a comparison, at a place of its list."""
    return Add("throw", values=_known({**throw, "comparison": comparison, "position": position}), uid=uid)


def in_order(uids: Sequence[str]) -> list[Act]:
    """Put throws that are there in this order."""
    return [Put("throw", "position", place, uid) for place, uid in enumerate(uids)]


def list_acts(throws: Sequence[Values], comparison: str, uids: Sequence[str], own: str) -> list[Act]:
    """Put new throws in the place of a comparison's list, behind one that stays.

    Parameters
    ----------
    throws : sequence of mapping of str to object
        The new ones.
    comparison : str
        Its uid.
    uids : sequence of str
        The throws that are there.
    own : str
        uid of the one that stays.

    Returns
    -------
    list of Act
    """
    gone = [Remove("throw", uid) for uid in uids if uid != own]
    new = [throw_act(throw, comparison, new_uid(), place) for place, throw in enumerate(throws, start=1)]
    return [*gone, Put("throw", "position", 0, own), *new, Edit("comparison.headline", "", comparison)]


def _known(values: Values) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None}
