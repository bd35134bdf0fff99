"""From what stands in the fields to the profile form: each text in the unit it was typed in. Pure.

As `app.show.meant`: what the fields were made from is kept beside them, and a field that still shows it means it.
"""

from dataclasses import replace

from app.show import flat_form
from app.show import meant as compared
from app.show.form_fields import Field
from app.show.profile_fields import DIAMETER, MASS, SPEED, WITH_UNITS
from app.show.profile_form import BallRow, Cell, ProfileForm, from_json, to_json
from app.show.throw_form import LONGEST_KEPT, Form, FormError
from app.units.systems import System

NOTHING = ProfileForm(own_speed_m_s="", radar_distance_m="", throw_distance_m="", throw_height_m="")
"""A form from which no field was made."""


def written(form: Form, profile: ProfileForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them.

    Parameters
    ----------
    form : app.show.throw_form.Form
        Whose part of the athlete is shown.
    profile : ProfileForm
    system : System
        The units they are shown in.

    Returns
    -------
    dict
    """
    return compared.written(form, system) | {"profile": to_json(profile)}


def read_written(kept: object) -> tuple[Form, ProfileForm, System]:
    """Read what the fields were made from.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    app.show.throw_form.Form
    ProfileForm
        Empty ones if they cannot be read: then every text was typed as it stands.
    System
    """
    form, system = compared.read_written(kept)
    try:
        return form, from_json(kept.get("profile") if isinstance(kept, dict) else None), system
    except FormError:
        return form, NOTHING, system


def meant(page: ProfileForm, before: ProfileForm, system: System) -> ProfileForm:
    """Give the texts of a page their units.

    Parameters
    ----------
    page : ProfileForm
        As the fields show it.
    before : ProfileForm
        What they were made from.
    system : System
        The units they show.

    Returns
    -------
    ProfileForm
    """
    then = {row.key: row for row in before.rows}
    rows = tuple(_row(row, then.get(row.key, BallRow(row.key, diameter_mm="")), system) for row in page.rows)
    return flat_form.meant(replace(page, rows=rows), before, system, WITH_UNITS)


def _row(row: BallRow, before: BallRow, system: System) -> BallRow:
    old = [*before.cells, *(Cell() for _ in row.cells)]
    cells = tuple(
        replace(cell, speed=_kept(SPEED, cell.speed, then.speed, system))
        for cell, then in zip(row.cells, old, strict=False)
    )
    mass = _kept(MASS, row.mass_g, before.mass_g, system)
    return replace(
        row, mass_g=mass, diameter_mm=_kept(DIAMETER, row.diameter_mm, before.diameter_mm, system), cells=cells
    )


def _kept(field: Field, text: str, before: str, system: System) -> str:
    return field.kept(text, before, system)[:LONGEST_KEPT]
