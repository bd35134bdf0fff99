"""The plans that the browser keeps: the one that is shown, and those of before, which Undo goes back to. Pure."""

import json
from typing import Any

from app.buildup.file import FileError, from_json
from app.buildup.record import Record

MOST_BEFORE = 20
BEFORE_BYTES = 600_000  # of all plans of before: they travel with every change, beside the plan and an uploaded file


def read_plan(kept: object) -> Record | None:
    """Read the plan that the browser kept; None if there is none or it cannot be read."""
    if kept is None:
        return None
    try:
        return from_json(kept)
    except FileError:
        return None


def remembered(plans: list[Any]) -> list[Any]:
    """Choose which plans Undo can go back to: the newest, as many as a request may carry.

    Parameters
    ----------
    plans : list
        As kept, the newest last.

    Returns
    -------
    list
        The newest in any case.
    """
    chosen, size = plans[-1:], len(json.dumps(plans[-1:]))
    for plan in reversed(plans[-MOST_BEFORE:-1]):
        size += len(json.dumps(plan))
        if size > BEFORE_BYTES:
            break
        chosen.insert(0, plan)
    return chosen


def readable(plans: list[Any]) -> list[Any]:
    """Leave out what stands at the end of the plans of before and is no plan: it takes no plan's place.

    Parameters
    ----------
    plans : list
        As kept, the newest last; None where there was no plan.

    Returns
    -------
    list
    """
    while plans and plans[-1] is not None and read_plan(plans[-1]) is None:
        plans = plans[:-1]
    return plans
