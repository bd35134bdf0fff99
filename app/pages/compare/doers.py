"""What the page's buttons and choices do to the records."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from app.bind import ids as bound
from app.bind.edit import Doer, Doing, dom_id
from app.bind.visit import Visit
from app.pages.compare import ids
from app.pages.compare.acts import (
    BLANK,
    CHOICES,
    Values,
    comparison_acts,
    first_acts,
    in_order,
    list_acts,
    throw_act,
    values_of,
)
from app.pages.compare.current import ASKED, Current, current_of
from app.pages.compare.holding import held_at
from app.pages.compare.ready import ready
from app.records.acts import Act, Edit, Put, Remove
from app.records.tables import new_uid
from app.show.listed_throw import HOLDS, MOST_THROWS, OTHER

FULL = f"The list is full: {MOST_THROWS} throws. Remove one to add another."
COPY_OF = "Copy of "
LONGEST_NAME = 60


def _of_current(do: Any) -> Doer:
    """A doer that works on the comparison that is shown."""

    def doer(visit: Visit, row: str, value: Any) -> Doing:
        current = current_of(visit)
        made: Doing = Doing() if current is None else do(current, row, value)
        return made

    return doer


def new(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Begin another comparison, and go to it."""
    uid = new_uid()
    return Doing(first_acts(visit.data, uid), go=visit.address(ids.PATH, **{ASKED: uid}))


def open_one(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Go to another of the athlete's comparisons."""
    return Doing(go=visit.address(ids.PATH, **{ASKED: str(value)}))


def copy_all(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Copy the comparison, and go to the copy."""
    uid, kept = new_uid(), current.row
    asked = {name: getattr(kept, name) for name in CHOICES}
    asked["name"] = f"{COPY_OF}{kept.name}"[:LONGEST_NAME] if kept.name else ""
    throws = [values_of(one, current.thrower_uid(one)) for one in current.rows]
    acts = comparison_acts(asked, throws, uid, current.place(kept.reference), current.place(kept.headline))
    return Doing(acts, go=current.visit.address(ids.PATH, **{ASKED: uid}))


def remove_all(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove the comparison; where it was the only one, begin the next with the same act: one undo is enough."""
    alone = len(current.data.comparisons) == 1
    next_one = first_acts(current.visit.data, new_uid()) if alone else []
    return Doing([Remove("comparison", current.row.uid), *next_one], go=current.visit.address(ids.PATH))


def add(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Add an empty throw, ready for its ball."""
    return _added(current, BLANK, "throw.mass_kg")


def add_ball(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Add a throw with a ball of the records, ready for its speed."""
    known = current.visit.data
    ball = next((one for one in known.balls.values() if one.uid == value), None) if known else None
    if ball is None:
        return Doing()
    diameter_m = BLANK["diameter_m"] if ball.diameter_m is None else ball.diameter_m
    return _added(current, {**BLANK, "mass_kg": ball.mass_kg, "diameter_m": diameter_m}, "throw.number")


def _added(current: Current, throw: Values, focus: str) -> Doing:
    if len(current.rows) >= MOST_THROWS:
        return Doing(said=FULL)
    uid, last = new_uid(), max((one.position for one in current.rows), default=-1)
    known = current.place(current.row.reference) >= 0
    first = [] if known else [Edit("comparison.reference", uid, current.row.uid)]
    return Doing([throw_act(throw, current.row.uid, uid, last + 1), *first], focus=field_of_throw(current, focus, uid))


def copy(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Copy a throw, to right behind it."""
    place, uid = current.place(row), new_uid()
    if place < 0 or len(current.rows) >= MOST_THROWS:
        return Doing(said=FULL if place >= 0 else "")
    order = [one.uid for one in current.rows]
    order.insert(place + 1, uid)
    throw = current.rows[place]
    made = throw_act(values_of(throw, current.thrower_uid(throw)), current.row.uid, uid, place + 1)
    return Doing([made, *in_order(order)], focus=field_of_throw(current, "throw.number", uid))


def remove(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove a throw. If it was the reference, the first of those left becomes it."""
    place = current.place(row)
    if place < 0:
        return Doing()
    left = [one.uid for one in current.rows if one.uid != row]
    focus = button_of_throw(current, "remove", left[min(place, len(left) - 1)]) if left else ""
    return Doing([Remove("throw", row)], focus=focus, said=f"Throw {place + 1} removed.")


def _moved(by: int) -> Any:
    def move(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
        order, place = [one.uid for one in current.rows], current.place(row)
        to = place + by
        if place < 0 or not 0 <= to < len(order):
            return Doing()
        order.insert(to, order.pop(place))
        same, back = ("up", "down") if by < 0 else ("down", "up")
        at_end = to in (0, len(order) - 1)
        return Doing(in_order(order), focus=button_of_throw(current, back if at_end else same, row))

    return move


def hold(current: Current, row: str, value: Any) -> Doing:
    """Hold a throw otherwise, with the number that leaves its speed as it is."""
    place = current.place(row)
    if place < 0 or value not in HOLDS or current.rows[place].hold == value:
        return Doing()
    throw = current.throws[place]
    who = current.throwers.get(throw.thrower)
    profile = current.profile(throw.thrower) if value == "profile" else None
    number = held_at(throw, value, who.person if who else None, profile)
    acts: list[Act] = [Edit("throw.hold", value, row)]
    if number is not None:
        acts.append(Put("throw", "number", number, row))
    return Doing(acts, focus=dom_id(bound.act_id(current.visit.owner, ids.HOLD, row, bound.PICK)))


def thrower(current: Current, row: str, value: Any) -> Doing:
    """Say who throws: the athlete of the page, or another one of the records."""
    found = None if value == current.visit.code else current.visit.store.find(str(value))
    if found is None and value != current.visit.code:
        return Doing()
    focus = dom_id(bound.act_id(current.visit.owner, ids.THROWER, row, bound.PICK))
    return Doing([Edit("throw.thrower", found.uid if found else "", row)], focus=focus)


def alone(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove the throws of the second thrower."""
    theirs = [one.uid for one in current.rows if one.thrower_id is not None]
    code = current.other.athlete.code if current.other else ""
    return Doing([Remove("throw", uid) for uid in theirs], said=f"The throws of {code} were removed.")


def make_ready(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Make a ready comparison of the list."""
    place, cases = current.place(current.row.reference), current.cases
    own = current.throws[place] if place >= 0 else None
    case = cases.get(own.thrower if own else "", cases[""])
    on_profile = {by for by, one in cases.items() if one.found.used and one.profile}
    others = {OTHER: current.other.athlete.uid} if current.other else {}
    made = ready(own, value, case.rack, on_profile, others)
    if own is None or not made.throws:
        return Doing(said=made.said)
    uids = [one.uid for one in current.rows]
    return Doing(list_acts(made.throws, current.row.uid, uids, own.uid), said=made.said)


def field_of_throw(current: Current, path: str, uid: str) -> str:
    """A throw's field, as the browser calls it."""
    visit = current.visit
    return dom_id(bound.field_id(visit.owner, path, uid, visit.system.key))


def button_of_throw(current: Current, move: str, uid: str) -> str:
    """A throw's button, as the browser calls it."""
    return dom_id(bound.act_id(current.visit.owner, ids.MOVES[move], uid))


DOERS: Mapping[str, Doer] = MappingProxyType(
    {
        ids.NEW: new,
        ids.OPEN: open_one,
        ids.COPY_ALL: _of_current(copy_all),
        ids.REMOVE_ALL: _of_current(remove_all),
        ids.ADD: _of_current(add),
        ids.BALL: _of_current(add_ball),
        ids.MOVES["copy"]: _of_current(copy),
        ids.MOVES["up"]: _of_current(_moved(-1)),
        ids.MOVES["down"]: _of_current(_moved(1)),
        ids.MOVES["remove"]: _of_current(remove),
        ids.HOLD: _of_current(hold),
        ids.THROWER: _of_current(thrower),
        ids.ALONE: _of_current(alone),
        ids.READY: _of_current(make_ready),
    }
)
"""By the `do` of their ids."""
