"""A limit counted in another way: the same limit as another number. Pure."""

from dataclasses import replace

from app.pages.start.checks import bound_of, fields_of
from app.pages.start.form import ABSOLUTE, COUNTED, SHARE, StartForm
from app.units.conversion import from_si, plain
from model.ceilings import Amount
from model.limit_draws import Field

FIGURES = 3  # of a limit that is counted in another way


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
