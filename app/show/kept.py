"""The profile forms that the browser keeps, one for each athlete's code: readings never pass to another athlete."""

from collections.abc import Mapping

from app.demo import Demo, load_readings
from app.show.profile_form import ProfileForm, from_json, rack_form, to_json, with_readings
from app.show.throw_form import LONGEST_KEPT, Form, FormError

VERSION = 1
MOST_KEPT = 24  # athletes; the one used longest ago goes first
UNNAMED = ""  # code of an athlete who was given none


def read_kept(kept: object) -> dict[str, ProfileForm]:
    """Read what the browser kept.

    Parameters
    ----------
    kept : object
        Whatever it sent.

    Returns
    -------
    dict of str to ProfileForm
        By code, the one used last at the end; empty for None.

    Raises
    ------
    FormError
        If it is anything but what `write_kept` writes.
    """
    if kept is None:
        return {}
    if not isinstance(kept, dict) or set(kept) != {"version", "forms"} or kept["version"] != VERSION:
        raise FormError("unknown shape")
    forms = kept["forms"]
    if not isinstance(forms, list) or len(forms) > MOST_KEPT:
        raise FormError("forms")
    found: dict[str, ProfileForm] = {}
    for pair in forms:
        if not isinstance(pair, list) or len(pair) != 2 or not isinstance(pair[0], str) or len(pair[0]) > LONGEST_KEPT:
            raise FormError("code")
        found[pair[0]] = from_json(pair[1])
    return found


def write_kept(forms: Mapping[str, ProfileForm], code: str, form: ProfileForm) -> dict[str, object]:
    """Write all forms as plain data, that of one athlete anew and last.

    Parameters
    ----------
    forms : mapping of str to ProfileForm
    code : str
    form : ProfileForm

    Returns
    -------
    dict
    """
    others = [[other, to_json(old)] for other, old in forms.items() if other != code]
    return {"version": VERSION, "forms": [*others, [code, to_json(form)]][-MOST_KEPT:]}


def form_of(kept: object, compared: Form, demo: Demo, on_demo: bool) -> tuple[ProfileForm, bool]:
    """Find the readings of the athlete of the Compare form.

    Parameters
    ----------
    kept : object
        What the browser kept.
    compared : app.show.throw_form.Form
        The Compare form.
    demo : Demo
    on_demo : bool
        Whether the program was started on the demo data.

    Returns
    -------
    ProfileForm
        As `form_for`.
    bool
        Whether what was kept could be read.
    """
    try:
        forms, fine = read_kept(kept), True
    except FormError:
        forms, fine = {}, False
    return form_for(forms, compared.athlete["code"].strip(), demo, on_demo), fine


def form_for(forms: Mapping[str, ProfileForm], code: str, demo: Demo, on_demo: bool) -> ProfileForm:
    """Find the form of an athlete.

    Parameters
    ----------
    forms : mapping of str to ProfileForm
        What was kept.
    code : str
        The athlete's code.
    demo : Demo
    on_demo : bool
        Whether the program was started on the demo data.

    Returns
    -------
    ProfileForm
        What was kept under the code; else what was kept without a code; else the readings of the demo thrower of that
        code; else the balls of the rack (of the demo data) or the own ball's row alone, without readings.
    """
    if code in forms:
        return forms[code]
    if demo.athlete(code) is not None and (on_demo or UNNAMED not in forms):
        own = [reading for reading in load_readings() if reading.athlete == code]
        return with_readings(rack_form(demo.rack), own)
    if UNNAMED in forms and not on_demo:
        return forms[UNNAMED]
    return rack_form(demo.rack) if on_demo else ProfileForm()
