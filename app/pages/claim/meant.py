"""From what stands in the fields to the claim: each text in the unit it was typed in. Pure; see `app.show.meant`."""

from app.pages.claim.checks import FIELDS
from app.pages.claim.form import VERSION, ClaimForm, from_json
from app.show import flat_form
from app.units.systems import System

NOTHING = ClaimForm(first_diameter_mm="", second_diameter_mm="")
"""A form from which no field was made."""


def written(form: ClaimForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them; see `flat_form.written`."""
    return flat_form.written(form, VERSION, system)


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
    """Give the texts of a page their units; see `flat_form.meant`."""
    return flat_form.meant(page, before, system, FIELDS)
