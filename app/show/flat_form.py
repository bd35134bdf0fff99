"""Forms that are texts by name and nothing else: kept by the browser, read back with distrust. Pure."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, replace
from dataclasses import fields as fields_of
from typing import Any, TypeVar

from app.show.form_fields import Field
from app.show.throw_form import LONGEST_KEPT, FormError
from app.units.systems import METRIC, System, system_named

Flat = TypeVar("Flat")
"""A frozen dataclass whose every field is a text."""

Texts = TypeVar("Texts", bound=Any)
"""A frozen dataclass, some of whose fields are typed texts."""

Kept = TypeVar("Kept")


def to_json(form: Any, version: int) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep.

    Parameters
    ----------
    form : dataclass of texts
    version : int
        Of its shape.

    Returns
    -------
    dict
    """
    return {"version": version} | asdict(form)


def from_json(kept: object, kind: type[Flat], version: int) -> Flat:
    """Read a form that the browser kept.

    Parameters
    ----------
    kept : object
        Whatever it sent.
    kind : type
        The form.
    version : int
        The one that is understood.

    Returns
    -------
    Flat

    Raises
    ------
    FormError
        If it is anything but what `to_json` writes.
    """
    names = _names(kind)
    if not isinstance(kept, dict) or set(kept) != {"version", *names} or kept["version"] != version:
        raise FormError("unknown shape")
    for name in names:
        if not isinstance(kept[name], str) or len(kept[name]) > LONGEST_KEPT:
            raise FormError(name)
    return kind(**{name: kept[name] for name in names})


def read_form(values: Mapping[str, object], kind: type[Flat]) -> Flat:
    """Read a form from the controls on the page. Whatever the browser sends, the result is a form.

    Parameters
    ----------
    values : mapping of str to object
        Value of each control; what is no text counts as empty.
    kind : type
        The form.

    Returns
    -------
    Flat
    """
    texts = {name: values.get(name) for name in _names(kind)}
    return kind(**{name: text[:LONGEST_KEPT] if isinstance(text, str) else "" for name, text in texts.items()})


def by_name(parts: Sequence[Any], values: Sequence[Any]) -> dict[str, Any]:
    """Put the values of pattern-matched controls under the names in their ids.

    Parameters
    ----------
    parts : sequence
        Their ids, as the browser sent them; what is none is passed over.
    values : sequence

    Returns
    -------
    dict of str to object
    """
    return {str(part.get("name")): value for part, value in zip(parts, values, strict=False) if isinstance(part, dict)}


def read_written(kept: object, read: Callable[[object], Kept], nothing: Kept) -> tuple[Kept, System]:
    """Read what the fields of a page were made from, and in which units they show it.

    Parameters
    ----------
    kept : object
        Whatever the browser sent: the units' key under ``units``, the form under ``form``.
    read : callable
        Reads a kept form; raises `FormError`.
    nothing : Kept
        The form from which no field was made: then every text was typed as it stands.

    Returns
    -------
    Kept
    System
    """
    if not isinstance(kept, dict):
        return nothing, METRIC
    system = system_named(kept.get("units"))
    try:
        return read(kept.get("form")), system
    except FormError:
        return nothing, system


def texts_meant(
    page: Mapping[str, str],
    before: Mapping[str, str],
    system: System,
    fields: Mapping[str, Field],
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


def written(form: Any, version: int, system: System) -> dict[str, object]:
    """Say what the fields of a page are made from, for the browser to keep beside them; `read_written` reads it.

    Parameters
    ----------
    form : dataclass of texts
    version : int
        Of its shape.
    system : System
        The units it is shown in.

    Returns
    -------
    dict
    """
    return {"units": system.key, "form": to_json(form, version)}


def meant(page: Texts, before: Texts, system: System, fields: Mapping[str, Field]) -> Texts:
    """Give the texts of a page their units.

    Parameters
    ----------
    page : Texts
        As the fields show it.
    before : Texts
        What they were made from.
    system : System
        The units they show.
    fields : mapping of str to Field
        Those that are typed into, by their names in the form.

    Returns
    -------
    Texts
    """
    texts, old = ({name: getattr(form, name) for name in fields} for form in (page, before))
    return replace(page, **texts_meant(texts, old, system, fields))


def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields_of(kind))
