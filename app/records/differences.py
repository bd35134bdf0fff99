"""How two bodies of plain data differ: small enough to be kept for every change, and enough to go back and forth."""

from typing import Any

Patch = list[list[Any]]
"""What is to be put where: each a path of keys and places, and the value; without a value the key is taken out."""


def difference(before: Any, after: Any) -> tuple[Patch, Patch]:
    """Compare two bodies.

    Parameters
    ----------
    before, after : dict
        Plain data, as JSON has it.

    Returns
    -------
    Patch
        What makes the second of the first.
    Patch
        What makes the first of the second.
    """
    there: Patch = []
    back: Patch = []
    _compare([], before, after, there, back)
    return there, back


def _compare(path: list[Any], before: Any, after: Any, there: Patch, back: Patch) -> None:
    if isinstance(before, dict) and isinstance(after, dict):
        for key in [*before, *(key for key in after if key not in before)]:
            at = [*path, key]
            if key not in after:
                there.append([at])
                back.append([at, before[key]])
            elif key not in before:
                there.append([at, after[key]])
                back.append([at])
            else:
                _compare(at, before[key], after[key], there, back)
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for place, (old, new) in enumerate(zip(before, after, strict=True)):
            _compare([*path, place], old, new, there, back)
    elif type(before) is not type(after) or before != after:
        there.append([path, after])
        back.append([path, before])


def patched(body: Any, patch: Patch) -> Any:
    """Apply a patch.

    Parameters
    ----------
    body : dict
        Is left as it is.
    patch : Patch

    Returns
    -------
    dict
        A new body; where a path leads nowhere, that part of the patch is passed over.
    """
    made = body
    for path, *value in patch:
        made = _put(made, path, value)
    return made


def _put(body: Any, path: list[Any], value: list[Any]) -> Any:
    if not path:
        return value[0] if value else body
    key, rest = path[0], path[1:]
    if isinstance(body, dict):
        made = dict(body)
        if not rest and not value:
            made.pop(key, None)
        elif not rest:
            made[key] = value[0]
        elif key in made:
            made[key] = _put(made[key], rest, value)
        return made
    if isinstance(body, list) and isinstance(key, int) and 0 <= key < len(body):
        return [*body[:key], _put(body[key], rest, value), *body[key + 1 :]]
    return body


def holds(patch: Patch, body: Any) -> bool:
    """Whether a body is as a patch left it."""
    return bool(patched(body, patch) == body)


def with_text(value: Any, typed: str) -> Any:
    """A value as a line of history keeps it: beside its text, where it has one."""
    return {"value": value, "typed": typed} if typed else value


def from_text(kept: Any) -> tuple[Any, str]:
    """Value and typed text of what `with_text` made."""
    if isinstance(kept, dict) and kept.keys() == {"value", "typed"}:
        return kept["value"], kept["typed"]
    return kept, ""
