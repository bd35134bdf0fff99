"""What the buttons do to the form, and what is said about it. Pure."""

from dataclasses import dataclass
from typing import Any

from app.athlete.answers import Case
from app.compare.checks import check_athlete, check_throw
from app.compare.fields import HOLD_FIELDS
from app.compare.form import (
    ATHLETE_NAMES,
    CHOSEN_NAMES,
    LONGEST_KEPT,
    MOST_THROWS,
    THROW_NAMES,
    Form,
    FormError,
    ThrowForm,
    add_throw,
    copy_throw,
    demo_form,
    empty_form,
    from_json,
    is_key,
    move_throw,
    remove_throw,
)
from app.compare.holding import clocks_kept, settled, speeds_kept
from app.compare.ready import ready
from app.compare.rows import dom_id, field_id, move_id
from app.demo import Demo
from app.systems import METRIC, System
from model.speed import SpeedProfile

BROKEN = "What was kept from last time could not be read"


@dataclass(frozen=True)
class Change:
    """A form after a button, and what goes with it.

    Attributes
    ----------
    form : Form
        The form now.
    notice : str
        What was done, where something was replaced or removed.
    undo : bool
        Whether the form before is offered to be put back.
    focus : str
        The browser's id of the control to go to; empty to stay.
    speeds : bool
        Whether it is offered to hold the throws at their release speeds again.
    before : Form or None
        What to put back, where it is not the form as it was on the page.
    """

    form: Form
    notice: str = ""
    undo: bool = False
    focus: str = ""
    speeds: bool = False
    before: Form | None = None


def opening(kept: object, demo: Demo, on_demo: bool) -> Change:
    """Choose the form that the page opens with.

    Parameters
    ----------
    kept : object
        What the browser kept; None if nothing.
    demo : Demo
    on_demo : bool
        Whether the program was started on the demo data.

    Returns
    -------
    Change
        What was kept; if there is nothing or it cannot be read, the first demo thrower or an empty form.
    """
    fresh = demo_form(demo, demo.athletes[0]) if on_demo else empty_form()
    if kept is None:
        return Change(fresh)
    try:
        return Change(from_json(kept))
    except FormError:
        start = "the demo data are shown instead" if on_demo else "the form starts empty"
        return Change(fresh, notice=f"{BROKEN}: {start}.")


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


def filled(form: Form, demo: Demo, code: object) -> Change:
    """Fill the form with an invented thrower.

    Parameters
    ----------
    form : Form
    demo : Demo
    code : object
        The thrower's code, as the browser sent it.

    Returns
    -------
    Change
    """
    athlete = demo.athlete(code)
    if athlete is None:
        return Change(form)
    notice = "" if form.untouched else f"Filled in with {athlete.athlete}, {athlete.note}."
    return Change(demo_form(demo, athlete), notice, undo=not form.untouched)


def held_otherwise(form: Form, key: str, profile: SpeedProfile | None) -> Change | None:
    """Hold a throw as was just chosen, its speed left as it is.

    Parameters
    ----------
    form : Form
        As on the page.
    key : str
        The throw's key.
    profile : SpeedProfile or None
        The athlete's.

    Returns
    -------
    Change or None
        None if the throw has its number already.
    """
    made = settled(form, profile)
    return None if made is form else Change(made, focus=dom_id(field_id(key, "hold")))


def clocks_kept_since(kept: object, form: Form) -> Form:
    """Keep the clocks of what the browser kept last, see `clocks_kept`; the form as it is if that cannot be read."""
    try:
        return clocks_kept(form, from_json(kept))
    except FormError:
        return form


def remeasured(form: Form, kept: object, before: object, system: System = METRIC) -> Change | None:
    """Let the throws keep their clocks after a measure of the athlete was changed.

    Parameters
    ----------
    form : Form
        As on the page.
    kept : object
        What the browser kept: the form before this change.
    before : object
        What can be put back at the moment.
    system : System
        The units of what is said.

    Returns
    -------
    Change or None
        None if no throw's speed changes with the measures.
    """
    try:
        last = from_json(kept)
    except FormError:
        return None
    if form.athlete == last.athlete:
        return None
    made = clocks_kept(form, last)
    if made is form:  # measures changed once more: what can be put back is still the form before the first of them
        try:
            last = from_json(before)
        except FormError:
            return None
    if form.athlete["code"] != last.athlete["code"] or speeds_kept(made, last) is made:
        return None
    return Change(made, _clocks_notice(made, last, system), undo=True, speeds=True, before=last)


def _clocks_notice(form: Form, before: Form, system: System) -> str:
    now, then = (_reference_speed(one, system) for one in (form, before))
    said = "The measures changed; the throws keep their joint speeds, so a longer arm releases faster"
    return (
        f"{said}: the reference throw at {now} instead of {then} {system.unit('m/s')}." if now and then else f"{said}."
    )


def _reference_speed(form: Form, system: System) -> str:
    place = form.place(form.reference)
    line = check_throw(form.throws[place], check_athlete(form.athlete).person) if place >= 0 else None
    return "" if line is None or line.speed_m_s is None else system.number(line.speed_m_s, "m/s", least=1, most=1)


def released_as_before(form: Form, before: object) -> Change:
    """Hold the throws at their release speeds again, whatever the measures are now.

    Parameters
    ----------
    form : Form
    before : object
        What the browser kept of the form before the measures changed.

    Returns
    -------
    Change
    """
    try:
        return Change(speeds_kept(form, from_json(before)), "The throws are held at their release speeds.")
    except FormError:
        return Change(form, "There is nothing to put back.")


def readied(form: Form, key: object, case: Case) -> Change:
    """Make a ready comparison of the list of throws.

    Parameters
    ----------
    form : Form
    key : object
        A key of `ready.READY`, as the browser sent it.
    case : app.athlete.answers.Case
        The athlete's balls and readings.

    Returns
    -------
    Change
    """
    made = ready(form, key, case.rack, on_profile=bool(case.found.used) and case.profile is not None)
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


def is_invented(form: Form, demo: Demo) -> bool:
    """Whether the athlete of a form is one of the demo data, as it stands there.

    Parameters
    ----------
    form : Form
    demo : Demo

    Returns
    -------
    bool
    """
    return any(form.athlete == demo_form(demo, athlete).athlete for athlete in demo.athletes)


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


def read_form(measures: object, throws: object, chosen: dict[str, object]) -> Form:
    """Read the form from the fields on the page. Whatever the browser sends, the result is a form.

    Parameters
    ----------
    measures, throws : list of (dict, object)
        Id and value of each field of the athlete, and of each field of a throw.
    chosen : dict of str to object
        Values of the other controls: `CHOSEN_NAMES`.

    Returns
    -------
    Form
    """
    athlete = dict.fromkeys(ATHLETE_NAMES, "")
    for part, value in _pairs(measures):
        if part.get("name") in athlete:
            athlete[part["name"]] = _text(value)
    lines: dict[str, dict[str, str]] = {}
    for part, value in _pairs(throws):
        key, name = part.get("throw"), part.get("name")
        if not isinstance(key, str) or not is_key(key) or name not in THROW_NAMES:
            continue
        if key in lines or len(lines) < MOST_THROWS:
            lines.setdefault(key, dict.fromkeys(THROW_NAMES, ""))[name] = _text(value)
    words = {name: _text(chosen.get(name)) for name in CHOSEN_NAMES}
    return Form(athlete, tuple(ThrowForm(key, **typed) for key, typed in lines.items()), **words)


def _pairs(given: object) -> list[tuple[dict[str, Any], object]]:
    if not isinstance(given, list):
        return []
    return [
        (pair[0], pair[1]) for pair in given if isinstance(pair, list | tuple) and len(pair) == 2 and _is_id(pair[0])
    ]


def _is_id(part: object) -> bool:
    return isinstance(part, dict) and all(isinstance(word, str) for word in part.values())


def _text(value: object) -> str:
    if isinstance(value, str):
        return value[:LONGEST_KEPT]
    return str(value)[:LONGEST_KEPT] if isinstance(value, int | float) and not isinstance(value, bool) else ""


def _speed_of(form: Form, place: int) -> str:
    throw = form.throws[place]
    return dom_id(field_id(throw.key, HOLD_FIELDS[throw.held].name))


def _other(move: str) -> str:
    return "down" if move == "up" else "up"
