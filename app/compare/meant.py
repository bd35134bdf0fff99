"""From what stands in the fields to the form: each text in the unit it was typed in. Pure.

The fields show the form in the reader's units. What they were last made from is kept beside them: a field that still
shows it means the text of then, so that no number changes by being looked at in other units.
"""

from collections.abc import Mapping
from dataclasses import replace

from app import flat_form
from app.compare.fields import BALL_FIELDS, HOLD_FIELDS, LENGTHS, MEASURES, Field
from app.compare.form import LONGEST_KEPT, OTHER, Form, ThrowForm, from_json, to_json
from app.systems import System

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
        return replace(throw, **texts_meant(shown, {name: getattr(old, name) for name in shown}, system))

    athlete, other = (texts_meant(page.measures(by), before.measures(by), system) for by in ("", OTHER))
    return replace(page, athlete=athlete, other=other, throws=tuple(throw_meant(throw) for throw in page.throws))


def texts_meant(
    page: Mapping[str, str],
    before: Mapping[str, str],
    system: System,
    fields: Mapping[str, Field] = ATHLETE_FIELDS | FIELDS_OF_THROW,
) -> dict[str, str]:
    """Give texts by the name of their field their units; a text of no field stays as it is.

    Parameters
    ----------
    page : mapping of str to str
        As the fields show them.
    before : mapping of str to str
        What they were made from.
    system : System
        The units they show.
    fields : mapping of str to Field

    Returns
    -------
    dict of str to str
    """
    return {
        name: fields[name].kept(text, before.get(name, ""), system)[:LONGEST_KEPT] if name in fields else text
        for name, text in page.items()
    }
