"""From what stands in the fields to the form: each text in the unit it was typed in. Pure.

The fields show the form in the reader's units. What they were last made from is kept beside them: a field that still
shows it means the text of then, so that no number changes by being looked at in other units.
"""

from dataclasses import replace

from app.show import flat_form
from app.show.flat_form import texts_meant
from app.show.form_fields import BALL_FIELDS, HOLD_FIELDS, LENGTHS, MEASURES
from app.show.throw_form import OTHER, Form, ThrowForm, from_json, to_json
from app.units.systems import System

ATHLETE_FIELDS = {field.name: field for field in MEASURES + LENGTHS}
FIELDS_OF_THROW = {field.name: field for field in (*BALL_FIELDS, *HOLD_FIELDS.values())}


def written(form: Form, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them.

    Parameters
    ----------
    form : Form
    system : System
        The units they show it in.

    Returns
    -------
    dict
    """
    return {"units": system.key, "form": to_json(form)}


def read_written(kept: object) -> tuple[Form, System]:
    """Read what the fields were made from.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    Form
        An empty one if it cannot be read: then every text was typed as it stands.
    System
    """
    return flat_form.read_written(kept, from_json, Form())


def meant(page: Form, before: Form, system: System) -> Form:
    """Give the texts of a page their units.

    Parameters
    ----------
    page : Form
        As the fields show it.
    before : Form
        What they were made from.
    system : System
        The units they show.

    Returns
    -------
    Form
    """
    then = {throw.key: throw for throw in before.throws}

    def throw_meant(throw: ThrowForm) -> ThrowForm:
        old = then.get(throw.key, ThrowForm(throw.key, ball_diameter_mm=""))
        shown = {name: getattr(throw, name) for name in FIELDS_OF_THROW}
        return replace(
            throw, **texts_meant(shown, {name: getattr(old, name) for name in shown}, system, FIELDS_OF_THROW)
        )

    athlete, other = (texts_meant(page.measures(by), before.measures(by), system, ATHLETE_FIELDS) for by in ("", OTHER))
    return replace(page, athlete=athlete, other=other, throws=tuple(throw_meant(throw) for throw in page.throws))
