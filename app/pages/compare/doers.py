"""What the page's buttons and choices do to the records."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from app.bind import ids as bound
from app.bind.edit import Doer, Doing, dom_id
from app.bind.visit import Visit
from app.pages.compare import ids
from app.pages.compare.acts import comparison_acts, in_order, list_acts, throw_act
from app.pages.compare.current import ASKED, Current, current_of, first_form
from app.pages.compare.holding import settled
from app.pages.compare.ready import ready
from app.records.acts import Act, Edit, Put, Remove
from app.records.tables import new_uid
from app.show.form_fields import HOLD_FIELDS
from app.show.throw_form import MOST_THROWS, ThrowForm
from app.units.conversion import from_si, plain

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
    return Doing(comparison_acts(first_form(visit), uid), go=visit.address(ids.PATH, **{ASKED: uid}))


def open_one(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Go to another of the athlete's comparisons."""
    return Doing(go=visit.address(ids.PATH, **{ASKED: str(value)}))


def copy_all(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Copy the comparison, and go to the copy."""
    uid, name = new_uid(), f"{COPY_OF}{current.row.name}"[:LONGEST_NAME] if current.row.name else ""
    acts = comparison_acts(current.form, uid, name, _other(current))
    return Doing(acts, go=current.visit.address(ids.PATH, **{ASKED: uid}))


def remove_all(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove the comparison; where it was the only one, begin the next with the same act: one undo is enough."""
    alone = len(current.data.comparisons) == 1
    next_one = comparison_acts(first_form(current.visit), new_uid()) if alone else []
    return Doing([Remove("comparison", current.row.uid), *next_one], go=current.visit.address(ids.PATH))


def add(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Add an empty throw, ready for its ball."""
    return _added(current, ThrowForm(""), "throw.mass_kg")


def add_ball(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Add a throw with a ball of the records, ready for its speed."""
    ball = next((one for one in current.data.balls.values() if one.uid == value), None)
    if ball is None:
        return Doing()
    sizes = ((ball.mass_kg, "g"), (ball.diameter_m, "mm"))
    mass, diameter = ("" if size is None else plain(from_si(size, unit)) for size, unit in sizes)
    throw = ThrowForm("", mass, diameter) if diameter else ThrowForm("", mass)
    return _added(current, throw, "throw.number")


def _added(current: Current, throw: ThrowForm, focus: str) -> Doing:
    if len(current.throws) >= MOST_THROWS:
        return Doing(said=FULL)
    uid, last = new_uid(), max((one.position for one in current.throws), default=-1)
    acts = [throw_act(throw, current.row.uid, uid, last + 1)]
    first = (
        [] if current.form.place(current.form.reference) >= 0 else [Edit("comparison.reference", uid, current.row.uid)]
    )
    return Doing([*acts, *first], focus=field_of_throw(current, focus, uid))


def copy(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Copy a throw, to right behind it."""
    place, uid = current.place(row), new_uid()
    if place < 0 or len(current.throws) >= MOST_THROWS:
        return Doing(said=FULL if place >= 0 else "")
    throw = current.form.throws[place]
    order = [one.uid for one in current.throws]
    order.insert(place + 1, uid)
    made = throw_act(throw, current.row.uid, uid, place + 1, _other(current) if throw.thrower else "")
    return Doing([made, *in_order(order)], focus=field_of_throw(current, "throw.number", uid))


def remove(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove a throw. If it was the reference, the first of those left becomes it."""
    place = current.place(row)
    if place < 0:
        return Doing()
    left = [one.uid for one in current.throws if one.uid != row]
    focus = button_of_throw(current, "remove", left[min(place, len(left) - 1)]) if left else ""
    return Doing([Remove("throw", row)], focus=focus, said=f"Throw {place + 1} removed.")


def _moved(by: int) -> Any:
    def move(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
        order, place = [one.uid for one in current.throws], current.place(row)
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
    if place < 0 or value not in HOLD_FIELDS or current.throws[place].hold == value:
        return Doing()
    form = current.form
    throws = tuple(replace(one, hold=value) if one.key == row else one for one in form.throws)
    throw = settled(replace(form, throws=throws), current.all_profiles).throws[place]
    number = HOLD_FIELDS[value].read(throw.typed)
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
    theirs = [one.uid for one in current.throws if one.thrower_id is not None]
    code = current.other.athlete.code if current.other else ""
    return Doing([Remove("throw", uid) for uid in theirs], said=f"The throws of {code} were removed.")


def make_ready(current: Current, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Make a ready comparison of the list."""
    form, cases = current.form, current.cases
    place = form.place(form.reference)
    case = cases.get(form.throws[place].thrower if place >= 0 else "", cases[""])
    on_profile = {by for by, one in cases.items() if one.found.used and one.profile}
    made = ready(form, value, case.rack, on_profile)
    if made.form is form:
        return Doing(said=made.said)
    uids = [one.uid for one in current.throws]
    return Doing(list_acts(made.form, current.row.uid, uids, form.reference, _other(current)), said=made.said)


def _other(current: Current) -> str:
    return current.other.athlete.uid if current.other else ""


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
