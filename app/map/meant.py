"""From what stands in the fields to the map's form: each text in the unit it was typed in. See `app.compare.meant`."""

from dataclasses import replace

from app import flat_form
from app.compare.meant import texts_meant
from app.map.checks import ENDS, MASS, SPEED
from app.map.form import MapForm, from_json, to_json
from app.systems import System

FIELDS = {MASS.name: MASS, SPEED.name: SPEED} | ENDS
"""The fields that are typed into, by their names in the form."""


def written(form: MapForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them.

    Parameters
    ----------
    form : MapForm
    system : System
        The units they are shown in.

    Returns
    -------
    dict
    """
    return {"units": system.key, "form": to_json(form)}


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
    """Give the texts of a page their units.

    Parameters
    ----------
    page : MapForm
        As the fields show it.
    before : MapForm
        What they were made from.
    system : System
        The units they show.

    Returns
    -------
    MapForm
    """
    texts, old = ({name: getattr(form, name) for name in FIELDS} for form in (page, before))
    return replace(page, **texts_meant(texts, old, system, FIELDS))


def shown(form: MapForm, name: str, system: System) -> str:
    """What a control shows of a form, by its name there."""
    kept: str = getattr(form, name)
    return FIELDS[name].shown(kept, system) if name in FIELDS else kept
