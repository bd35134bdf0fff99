"""From what stands in the fields to the claim: each text in the unit it was typed in. Pure; see `app.compare.meant`."""

from dataclasses import replace

from app import flat_form
from app.claim.checks import FIELDS
from app.claim.form import ClaimForm, from_json, to_json
from app.compare.meant import texts_meant
from app.systems import System

NOTHING = ClaimForm(first_diameter_mm="", second_diameter_mm="")
"""A form from which no field was made."""


def written(form: ClaimForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them.

    Parameters
    ----------
    form : ClaimForm
    system : System
        The units they are shown in.

    Returns
    -------
    dict
    """
    return {"units": system.key, "form": to_json(form)}


def read_written(kept: object) -> tuple[ClaimForm, System]:
    """Read what the fields were made from; an empty form if it cannot be read.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    ClaimForm
    System
    """
    return flat_form.read_written(kept, from_json, NOTHING)


def meant(page: ClaimForm, before: ClaimForm, system: System) -> ClaimForm:
    """Give the texts of a page their units.

    Parameters
    ----------
    page : ClaimForm
        As the fields show it.
    before : ClaimForm
        What they were made from.
    system : System
        The units they show.

    Returns
    -------
    ClaimForm
    """
    texts, old = ({name: getattr(form, name) for name in FIELDS} for form in (page, before))
    return replace(page, **texts_meant(texts, old, system, FIELDS))
