"""What the browser keeps: the plan that is shown, and what was before each change, which Undo goes back to. Pure.

What was before a change is ``{"plan": as kept, or None, "form": as `changed_fields` has it}``.
"""

import json
from collections.abc import Mapping
from typing import Any

from app.pages.buildup.file import FileError, from_json
from app.pages.buildup.form import NAMES, PlanForm
from app.pages.buildup.record import Record

MOST_BEFORE = 20
BEFORE_BYTES = 600_000  # of all that was before: they travel with every change, beside the plan and an uploaded file


def read_plan(kept: object) -> Record | None:
    """Read the plan that the browser kept; None if there is none or it cannot be read."""
    if kept is None:
        return None
    try:
        return from_json(kept)
    except FileError:
        return None


def changed_fields(form: PlanForm, changes: Mapping[str, str]) -> dict[str, list[str]]:
    """Say which fields of the form a button changes: from what, and to what.

    Parameters
    ----------
    form : PlanForm
        Before the change.
    """
    return {name: [getattr(form, name), text] for name, text in changes.items() if getattr(form, name) != text}


def fields_back(form: PlanForm, changed: object) -> dict[str, str]:
    """Say which fields go back to what they were; what was typed into one since stays.

    Parameters
    ----------
    form : PlanForm
        As it stands.
    changed : object
        As `changed_fields` made it, and the browser kept it.
    """
    back: dict[str, str] = {}
    for name, texts in changed.items() if isinstance(changed, dict) else ():
        match texts:
            case [str(was), str(became)] if name in NAMES and getattr(form, name) == became:
                back[name] = was
    return back


def remembered(changes: list[Any]) -> list[Any]:
    """Choose which changes can be undone: the newest, as many as a request may carry.

    Parameters
    ----------
    changes : list
        What was before each, the newest last.

    Returns
    -------
    list
        The newest in any case.
    """
    chosen, size = changes[-1:], len(json.dumps(changes[-1:]))
    for one in reversed(changes[-MOST_BEFORE:-1]):
        size += len(json.dumps(one))
        if size > BEFORE_BYTES:
            break
        chosen.insert(0, one)
    return chosen


def readable(changes: list[Any]) -> list[Any]:
    """Leave out what stands at the end and cannot be undone, because it holds no plan that can be read.

    Parameters
    ----------
    changes : list
        As kept, the newest last.
    """
    while changes and not _can_be_undone(changes[-1]):
        changes = changes[:-1]
    return changes


def _can_be_undone(one: object) -> bool:
    if not isinstance(one, dict) or set(one) != {"plan", "form"}:
        return False
    return one["plan"] is None or read_plan(one["plan"]) is not None
