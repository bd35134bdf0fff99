"""From what stands in the fields to the form: each text in the unit it was typed in; see `app.show.flat_form`."""

from app.pages.buildup.checks import FIELDS
from app.pages.buildup.form import VERSION, PlanForm, from_json
from app.show import flat_form
from app.units.systems import System


def written(form: PlanForm, system: System) -> dict[str, object]:
    """Say what the fields are made from, for the browser to keep beside them; see `flat_form.written`."""
    return flat_form.written(form, VERSION, system)


def read_written(kept: object) -> tuple[PlanForm, System]:
    """Read what the fields were made from; an empty form if it cannot be read; see `flat_form.read_written`."""
    return flat_form.read_written(kept, from_json, PlanForm())


def meant(page: PlanForm, before: PlanForm, system: System) -> PlanForm:
    """Give the texts of a page their units; see `flat_form.meant`."""
    return flat_form.meant(page, before, system, FIELDS)
