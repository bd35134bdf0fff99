"""What a button does to the throws: the form after it, and what goes with it; the form that a page opens with."""

from dataclasses import dataclass

from app.demo import Demo
from app.show.throw_form import (
    Form,
    FormError,
    demo_form,
    empty_form,
    from_json,
)

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
