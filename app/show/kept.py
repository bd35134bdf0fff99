"""The values that are kept of an athlete (SI): a text that was refused stands in its field, and counts as no value."""

from collections.abc import Iterable
from typing import Any

from app.records.acts import Edit
from app.records.field_list import field_of
from app.records.reads import AthleteData
from app.units.conversion import UNITS
from app.units.typed import ADDED, NUMBER


def value_of(row: Any, column: str) -> Any:
    """The value in a row's column; None where its text was refused, it is empty or there is no row."""
    return None if row is None or column in row.draft else getattr(row, column)


def setting_of(data: AthleteData, path: str) -> Any:
    """The value of a setting: its default where it was never set, None where its text was refused."""
    row = data.setting_rows.get(path)
    return None if row is not None and "value" in row.draft else data.settings.get(path)


def refused_settings(data: AthleteData, paths: Iterable[str]) -> list[str]:
    """The labels of the settings of which a text was refused."""
    rows = ((path, data.setting_rows.get(path)) for path in paths)
    return [field_of(path, data.settings).label for path, row in rows if row is not None and "value" in row.draft]


def to_mend(labels: Iterable[str]) -> str:
    """Say which fields of the page are empty or were refused; nothing if there are none."""
    named = ", ".join(label[:1].lower() + label[1:] for label in labels)
    return f"Missing or to be mended above: {named}." if named else ""


def setting_text(data: AthleteData, path: str) -> str:
    """What stands in the field of a setting, as a text in its metric unit."""
    settings = data.settings
    field, row = field_of(path, settings), data.setting_rows.get(path)
    draft = row.draft.get("value") if row is not None else None
    if draft is not None:
        return draft
    return field.kept(settings.get(path), row.typed.get("value", "") if row is not None else "")


def with_unit(kept: str, unit: str) -> str:
    """A kept text as a field takes it whatever units the reader has."""
    return f"{kept}{ADDED}{unit}" if NUMBER.fullmatch(kept) and unit in UNITS else kept


def edit_of(path: str, kept: str) -> Edit:
    """An edit that puts a kept text into a setting, whatever units the reader has."""
    return Edit(path, with_unit(kept, field_of(path).unit))
