"""The stop signs of athletes, kept beside the plans: putting a plan away or opening another loses none. Pure.

The browser keeps, by athlete, the signs of all plans, and for each plan that stands still what the next one starts no
higher than.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from app.pages.buildup.kept_parts import BAD_VALUES, most_json, read_most, read_sign, sign_json
from app.pages.buildup.record import Record
from model.course import most_of
from model.ladder import Most
from model.session_log import new_signs
from model.stop_signs import Signed, StopSign, standing, together

MOST_SIGNS = 400
MOST_ATHLETES = 200


@dataclass(frozen=True)
class Known:
    """What is known of an athlete from plans so far.

    Attributes
    ----------
    signs : tuple of StopSign
    most : Most or None
        What a plan starts no higher than, where a sign was cleared.
    """

    signs: tuple[StopSign, ...] = ()
    most: Most | None = None

    @property
    def standing(self) -> tuple[StopSign, ...]:
        """The signs that stand."""
        return standing(self.signs)


NOTHING_KNOWN = Known()


def key_of(code: str, invented: bool, mark: str) -> str:
    """Under what an athlete's signs are kept; one without a code has only those of the one plan."""
    return f"{'invented' if invented else 'code'} {code}" if code else f"plan {mark}"


def known_of(store: object, code: str, invented: bool, mark: str = "") -> Known:
    """Read what the browser kept of an athlete; what cannot be read counts as not there."""
    kept = store.get(key_of(code, invented, mark)) if isinstance(store, dict) else None
    if not isinstance(kept, dict):
        return NOTHING_KNOWN
    signs = []
    for one in kept["signs"] if isinstance(kept.get("signs"), list) else []:
        try:
            signs.append(read_sign(one))
        except BAD_VALUES:
            continue
    most: Most | None = None
    for one in _mosts(kept).values():
        try:
            found = read_most(one)
        except BAD_VALUES:
            continue
        most = found.and_no_more_than(most) if found is not None else most
    return Known(together(signs), most)


def _mosts(kept: Any) -> dict[str, Any]:
    mosts = kept.get("mosts") if isinstance(kept, dict) else None
    return dict(mosts) if isinstance(mosts, dict) else {}


def joined(record: Record, store: object) -> Record:
    """Give a plan the athlete's signs, and those that its own log holds.

    Parameters
    ----------
    store : object
        Whatever the browser kept.

    Returns
    -------
    Record
        Signs of other plans close it as its own do; those that it was made after do not.
    """
    known = known_of(store, record.code, record.invented, record.mark)
    earlier = {one.mark for one in record.earlier}
    others = [one for one in known.signs if one.mark not in earlier or one.stands]
    return with_signs(replace(record, signs=together(record.signs, others)))


def with_signs(record: Record, entered: Mapping[int, Signed] | None = None) -> Record:
    """Give a plan the stop signs that follow from its log.

    Parameters
    ----------
    entered : mapping of int to Signed, optional
        Who entered what was noted of a session.
    """
    found = new_signs(record.log, record.signs, entered or {}, record.mark)
    return replace(record, signs=together(record.signs, found)) if found else record


def noted(store: object, record: Record) -> dict[str, Any]:
    """Write a plan's signs, and what a new one starts no higher than, into what the browser keeps.

    Parameters
    ----------
    store : object
        Whatever the browser kept.
    """
    kept = dict(store) if isinstance(store, dict) else {}
    if not record.signs and not record.earlier:
        return kept
    known = known_of(kept, record.code, record.invented, record.mark)
    signs = together(known.signs, record.earlier, record.signs)
    key = key_of(record.code, record.invented, record.mark)
    mosts = _mosts(kept.pop(key, None))
    stopped = any(one.withdrawn is None and one.plan in ("", record.mark) for one in record.signs)
    if stopped:
        most = most_of(record.row, record.log, record.signs, record.mark) or record.start_most
        mosts[record.mark] = most_json(most)
    elif any(one.notes.painless for one in record.log) and not record.signs:
        mosts = {}  # made after the signs, and thrown without pain since: the next plan begins freely
    elif record.start_most is not None:
        mosts[record.mark] = most_json(record.start_most)
    kept[key] = {"signs": [sign_json(one) for one in signs[-MOST_SIGNS:]], "mosts": mosts}
    return dict(list(kept.items())[-MOST_ATHLETES:])


def kept_signs(store: object, code: str, invented: bool, signs: tuple[StopSign, ...]) -> dict[str, Any]:
    """Write an athlete's signs where there is no plan; see `noted`."""
    kept, key = dict(store) if isinstance(store, dict) else {}, key_of(code, invented, "")
    kept[key] = {"signs": [sign_json(one) for one in signs[-MOST_SIGNS:]], "mosts": _mosts(kept.get(key))}
    return kept


def before_making(store: object, record: Record | None, code: str, invented: bool) -> Known:
    """What is known of an athlete before a plan is made, by what the browser kept and the plan on the page.

    Parameters
    ----------
    record : Record or None
        The plan on the page.

    Returns
    -------
    Known
        Without what a plan starts no higher than where no sign was ever cleared.
    """
    mark = ""
    if record is not None and (record.code, record.invented) == (code, invented):
        store, mark = noted(store, record), record.mark
    known = known_of(store, code, invented, mark)
    cleared = any(one.cleared is not None and one.withdrawn is None for one in known.signs)
    return Known(known.signs, known.most if cleared else None)
