"""What the buttons do to the form, and what is said about it. Pure."""

from collections.abc import Mapping

from app.demo import Demo
from app.pages.compare.holding import settled
from app.pages.compare.ready import ready
from app.pages.compare.rows import field_id, move_id
from app.show.form_fields import HOLD_FIELDS
from app.show.page_parts import dom_id
from app.show.subject import Case
from app.show.throw_form import (
    MOST_THROWS,
    Form,
    FormError,
    add_throw,
    copy_throw,
    empty_form,
    from_json,
    move_throw,
    remove_throw,
)
from app.show.throw_form_change import Change
from model.speed import SpeedProfile


def moved(form: Form, key: str, move: str) -> Change:
    """Copy, remove or move a throw.

    Parameters
    ----------
    form : Form
    key : str
        The throw's key.
    move : str
        "copy", "remove", "up" or "down".

    Returns
    -------
    Change
    """
    place = form.place(key)
    if place < 0:
        return Change(form)
    if move == "copy":
        made = copy_throw(form, key)
        return Change(made, focus=_speed_of(made, place + 1) if made is not form else "")
    if move == "remove":
        made = remove_throw(form, key)
        next_key = made.throws[min(place, len(made.throws) - 1)].key if made.throws else ""
        focus = dom_id(move_id(next_key, "remove")) if next_key else ""
        return Change(made, notice=f"Throw {place + 1} removed.", undo=True, focus=focus)
    by = {"up": -1, "down": 1}.get(move, 0)
    made = move_throw(form, key, by)
    ends = made.place(key) in (0, len(made.throws) - 1)
    return Change(made, focus=dom_id(move_id(key, _other(move) if ends else move)))


def added(form: Form, demo: Demo, rack: object = None) -> Change:
    """Add a throw, blank or with a ball of the rack.

    Parameters
    ----------
    form : Form
    demo : Demo
    rack : object
        Place of the ball in the rack, as the browser sent it; None for a blank throw.

    Returns
    -------
    Change
    """
    if len(form.throws) >= MOST_THROWS:
        return Change(form, notice=f"The list is full: {MOST_THROWS} throws. Remove one to add another.")
    ball = None
    if rack is not None:
        if not isinstance(rack, str) or rack not in {str(i) for i in range(len(demo.rack))}:
            return Change(form)
        ball = demo.rack[int(rack)]
    made = add_throw(form, ball)
    key = made.throws[-1].key
    return Change(made, focus=dom_id(field_id(key, "speed_m_s" if ball else "ball_mass_g")))


def held_otherwise(form: Form, key: str, profiles: Mapping[str, SpeedProfile]) -> Change | None:
    """Hold a throw as was just chosen, its speed left as it is.

    Parameters
    ----------
    form : Form
        As on the page.
    key : str
        The throw's key.
    profiles : mapping of str to SpeedProfile
        By thrower, as far as there are.

    Returns
    -------
    Change or None
        None if the throw has its number already.
    """
    made = settled(form, profiles)
    return None if made is form else Change(made, focus=dom_id(field_id(key, "hold")))


def readied(form: Form, key: object, cases: Mapping[str, Case]) -> Change:
    """Make a ready comparison of the list of throws.

    Parameters
    ----------
    form : Form
    key : object
        A key of `ready.READY`, as the browser sent it.
    cases : mapping of str to app.show.subject.Case
        The balls and readings of each thrower.

    Returns
    -------
    Change
    """
    place = form.place(form.reference)
    rack = cases[form.throws[place].thrower if place >= 0 else ""].rack
    made = ready(form, key, rack, {thrower for thrower, case in cases.items() if case.found.used and case.profile})
    return Change(made.form, made.said, undo=made.form is not form)


def restored(form: Form, sent: object) -> Change:
    """Go back or forward to a form that was on the page before.

    Parameters
    ----------
    form : Form
    sent : object
        The form, as the browser kept it, under ``form``.

    Returns
    -------
    Change
    """
    try:
        return Change(from_json(sent.get("form") if isinstance(sent, dict) else None))
    except FormError:
        return Change(form, "There is nothing to go back to.")


def emptied(form: Form) -> Change:
    """Start with an empty form."""
    return Change(empty_form(), "" if form.untouched else "The form was emptied.", undo=not form.untouched)


def put_back(form: Form, before: object) -> Change:
    """Put back the form before the last change.

    Parameters
    ----------
    form : Form
    before : object
        What the browser kept of it.

    Returns
    -------
    Change
    """
    try:
        return Change(from_json(before), notice="Put back.")
    except FormError:
        return Change(form, notice="There is nothing to put back.")


def _speed_of(form: Form, place: int) -> str:
    throw = form.throws[place]
    return dom_id(field_id(throw.key, HOLD_FIELDS[throw.held].name))


def _other(move: str) -> str:
    return "down" if move == "up" else "up"
