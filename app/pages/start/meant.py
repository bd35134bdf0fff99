"""From what stands in the fields to the limits, each text in the unit it was typed in. See `app.show.meant`."""

from dataclasses import replace

from app.pages.start.checks import TYPED, bound_of, fields_of
from app.pages.start.form import ABSOLUTE, COUNTED, SHARE, VERSION, StartForm, from_json
from app.show import flat_form
from app.show.rack import left_out
from app.units.conversion import from_si, plain
from app.units.systems import System
from model.ceilings import Amount
from model.limit_draws import Field

NOTHING = StartForm(**dict.fromkeys(TYPED, ""))
"""A form from which no field was made."""

FIGURES = 3  # of a limit that is counted in another way


def written(form: StartForm, system: System, rack: list[str]) -> dict[str, object]:
    """Say what the fields are made from, see `flat_form.written`; and of which balls there are boxes to tick."""
    return flat_form.written(form, VERSION, system) | {"rack": rack}


def read_written(kept: object) -> tuple[StartForm, System]:
    """Read what the fields were made from; an empty form if it cannot be read."""
    return flat_form.read_written(kept, from_json, NOTHING)


def meant(page: StartForm, kept: object, ticked: object) -> StartForm:
    """Give the texts of a page their units; whose arm it is and how a limit is counted are as the fields were made.

    Parameters
    ----------
    page : StartForm
        As the fields show it.
    kept : object
        What the browser sent of `written`.
    ticked : object
        What it sent of the boxes.

    Returns
    -------
    StartForm
    """
    before, system = read_written(kept)
    made = {name: getattr(before, name) for name in ("who", *(f"{name}_in" for name in COUNTED))}
    shown = kept.get("rack") if isinstance(kept, dict) else None
    page = replace(page, **made, left_out=left_out(shown, ticked))
    return flat_form.meant(page, before, system, fields_of(before))


def counted(form: StartForm, chosen: dict[str, object], field: Field | None) -> StartForm:
    """Count limits in the units that were chosen: the same limit as another number.

    Parameters
    ----------
    form : StartForm
    chosen : dict of str to object
        `SHARE` or `ABSOLUTE` for each name of `COUNTED`, as the browser sent it.
    field : model.limit_draws.Field or None
        None while there is no reference throw: then the field is emptied, for its number would mean something else.

    Returns
    -------
    StartForm
    """
    specs = fields_of(form)
    changed: dict[str, str] = {}
    for name in COUNTED:
        way = chosen.get(name)
        if way not in (SHARE, ABSOLUTE) or way == getattr(form, f"{name}_in"):
            continue
        changed |= {f"{name}_in": str(way), name: ""}
        value = specs[name].read(getattr(form, name))
        if value is None or field is None:
            continue
        other = field.recounted(bound_of(name), Amount(value, form.absolute(name)))
        unit = fields_of(replace(form, **{f"{name}_in": str(way)}))[name].unit
        shown = from_si(other.value, unit)
        changed[name] = plain(shown, most=max(0, FIGURES - len(str(int(abs(shown))))))
    return replace(form, **changed)
