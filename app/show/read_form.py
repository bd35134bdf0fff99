"""From the fields on the page to the form. Whatever the browser sends, the result is a form."""

from typing import Any

from app.show.form_fields import BY_AGE, MARK
from app.show.page_parts import is_id
from app.show.throw_form import (
    ATHLETE_NAMES,
    CHOSEN_NAMES,
    LONGEST_KEPT,
    MOST_THROWS,
    OTHER,
    THROW_NAMES,
    Form,
    ThrowForm,
    is_key,
    measure_name,
)


def read_form(measures: object, throws: object, chosen: dict[str, object]) -> Form:
    """Read the form from the fields on the page. Whatever the browser sends, the result is a form.

    Parameters
    ----------
    measures, throws : list of (dict, object)
        Id and value of each field of the athletes, and of each field of a throw.
    chosen : dict of str to object
        Values of the other controls: `CHOSEN_NAMES`.

    Returns
    -------
    Form
    """
    typed = dict.fromkeys((measure_name(by, name) for by in ("", OTHER) for name in ATHLETE_NAMES), "")
    for part, value in _pairs(measures):
        if part.get("name") in typed:
            typed[part["name"]] = _text(value)
    for mark in (measure_name(by, MARK) for by in ("", OTHER)):
        typed[mark] = "" if typed[mark] == BY_AGE else typed[mark]
    athlete, other = ({name: typed[measure_name(by, name)] for name in ATHLETE_NAMES} for by in ("", OTHER))
    lines: dict[str, dict[str, str]] = {}
    for part, value in _pairs(throws):
        key, name = part.get("throw"), part.get("name")
        if not isinstance(key, str) or not is_key(key) or name not in THROW_NAMES:
            continue
        if key in lines or len(lines) < MOST_THROWS:
            lines.setdefault(key, dict.fromkeys(THROW_NAMES, ""))[name] = _text(value)
    for line in lines.values():
        line["by"] = OTHER if line["by"] == OTHER else ""
    words = {name: _text(chosen.get(name)) for name in CHOSEN_NAMES}
    return Form(athlete, tuple(ThrowForm(key, **line) for key, line in lines.items()), other=other, **words)


def _pairs(given: object) -> list[tuple[dict[str, Any], object]]:
    if not isinstance(given, list):
        return []
    return [
        (pair[0], pair[1]) for pair in given if isinstance(pair, list | tuple) and len(pair) == 2 and is_id(pair[0])
    ]


def _text(value: object) -> str:
    if isinstance(value, str):
        return value[:LONGEST_KEPT]
    return str(value)[:LONGEST_KEPT] if isinstance(value, int | float) and not isinstance(value, bool) else ""
