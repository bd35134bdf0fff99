"""What is done to who throws: an invented thrower filled in, a second one, changed measures. Pure."""

from dataclasses import replace

from app.demo import Demo
from app.pages.compare.checks import check_throwers
from app.pages.compare.holding import clocks_kept, speeds_kept
from app.show.checks import check_throw
from app.show.throw_form import OTHER, Form, FormError, demo_form, from_json, measures_of, swapped
from app.show.throw_form_change import Change
from app.units.systems import METRIC, System


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


def joined(form: Form, demo: Demo, code: object) -> Change:
    """Let an invented thrower be the second, in the place of one that may be there.

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
    notice = f"The second thrower is {athlete.athlete}, {athlete.note}."
    return Change(replace(form, other=measures_of(athlete)), notice, undo=True)


def exchanged(form: Form) -> Change:
    """Exchange the two throwers, so that the other pages are about the second."""
    return Change(swapped(form), "The second thrower is the first now; the other pages are about them.", undo=True)


def without_second(form: Form) -> Change:
    """Take the second thrower out, and their throws."""
    throws = tuple(throw for throw in form.throws if not throw.thrower)
    keys = [throw.key for throw in throws]
    reference = form.reference if form.reference in keys else next(iter(keys), "")
    headline = form.headline if form.headline in keys else ""
    made = replace(form, other=Form().other, throws=throws, reference=reference, headline=headline)
    return Change(made, "The second thrower and their throws were removed.", undo=True)


def clocks_kept_since(kept: object, form: Form) -> Form:
    """Keep the clocks of what the browser kept last, see `clocks_kept`; the form as it is if that cannot be read."""
    try:
        return clocks_kept(form, from_json(kept))
    except FormError:
        return form


def remeasured(form: Form, kept: object, before: object, system: System = METRIC) -> Change | None:
    """Let the throws keep their clocks after a measure of a thrower was changed.

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
        None if no throw's speed changes with the measures, and the second thrower is neither new nor gone.
    """
    try:
        last = from_json(kept)
    except FormError:
        return None
    if (form.athlete, form.other) == (last.athlete, last.other):
        return None
    if form.two != last.two:
        return Change(form)  # the throws are to say now who throws them, or no more
    made = clocks_kept(form, last)
    if made is form:  # measures changed once more: what can be put back is still the form before the first of them
        try:
            last = from_json(before)
        except FormError:
            return None
    same_people = all(form.measures(by)["code"] == last.measures(by)["code"] for by in ("", OTHER))
    if not same_people or speeds_kept(made, last) is made:
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
    if place < 0:
        return ""
    throw = form.throws[place]
    line = check_throw(throw, check_throwers(form)[throw.thrower].person)
    return "" if line.speed_m_s is None else system.number(line.speed_m_s, "m/s", least=1, most=1)


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
