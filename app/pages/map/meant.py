"""From what stands in the fields to the map's form: each text in the unit it was typed in. See `app.show.meant`."""

from app.pages.map.checks import ENDS, MASS, SPEED
from app.pages.map.form import VERSION, MapForm, from_json
from app.show import flat_form
from app.units.systems import System

FIELDS = {MASS.name: MASS, SPEED.name: SPEED} | ENDS
"""The fields that are typed into, by their names in the form."""


def written(form: MapForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them; see `flat_form.written`."""
    return flat_form.written(form, VERSION, system)


def read_written(kept: object) -> tuple[MapForm, System]:
    """Read what the fields were made from; an empty form if it cannot be read.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    MapForm
    System
    """
    return flat_form.read_written(kept, from_json, MapForm())


def meant(page: MapForm, before: MapForm, system: System) -> MapForm:
    """Give the texts of a page their units; see `flat_form.meant`."""
    return flat_form.meant(page, before, system, FIELDS)


def shown(form: MapForm, name: str, system: System) -> str:
    """What a control shows of a form, by its name there."""
    kept: str = getattr(form, name)
    return FIELDS[name].shown(kept, system) if name in FIELDS else kept
