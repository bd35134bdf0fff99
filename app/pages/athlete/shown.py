"""What the fields of the page are made of, in the reader's units. Pure."""

from dataclasses import replace
from typing import Any

from dash import no_update

from app.pages.athlete import grid
from app.pages.athlete.parts import LABELS, measure_fields, paste_description, typed_description, typed_label
from app.show.glossary import field_words
from app.show.markup import to_html
from app.show.profile_fields import WITH_UNITS
from app.show.profile_form import ProfileForm
from app.show.throw_form import Form
from app.units.systems import System
from model.ball import Ball


def labels(compared: Form, system: System) -> dict[str, Any]:
    """What stands on the page in the reader's units beside the grid."""
    return {
        "measures": measure_fields(compared.athlete, system),
        "labels": [field_words(typed_label(name, system)) for name in LABELS],
        "descriptions": [typed_description(name, system) for name in LABELS],
        "hints": [grid.speed_hint(system), paste_description(system)],
    }


def typed_shown(form: ProfileForm, name: str, system: System) -> str:
    """What a typed field outside the grid shows, by its name in the form."""
    kept: str = getattr(form, name)
    return WITH_UNITS[name].shown(kept, system) if name in WITH_UNITS else kept


def beside(form: ProfileForm, other: ProfileForm) -> ProfileForm:
    """Another athlete's readings, beside which the typed fields stay on the page."""
    return replace(other, **{name: getattr(form, name) for name in WITH_UNITS})


def mass_of(ball: Ball, system: System) -> str:
    """A ball in a list to choose from."""
    return system.text(ball.mass_kg, "g", most=3)


def grid_of(form: ProfileForm, own_kg: float, system: System) -> dict[str, Any]:
    """The grid for the browser: as HTML, the mass whose row is the own ball's, and the units."""
    own = system.number(own_kg, "g", most=3)
    return {"html": to_html(grid.rows(form, system)), "own": own, "mass": system.unit("g"), "speed": system.unit("m/s")}


def details_of(clicks: Any, form: ProfileForm, shown: Any, system: System) -> Any:
    """Day, effort and diameter fields, while their fold is open; left alone while they are those of the readings."""
    wanted = None
    if isinstance(clicks, int) and clicks % 2 == 1:
        wanted = [[row.key, row.mass_g, [cell.speed for cell in row.cells], system.key] for row in form.rows]
    if isinstance(shown, dict) and shown.get("of") == wanted:
        return no_update
    return {"of": wanted, "html": "" if wanted is None else to_html(grid.details(form, system))}
