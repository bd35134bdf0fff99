"""A plan as plain data, as a file that opens again. What comes in is read with distrust."""

import base64
import binascii
import json
import math
import unicodedata
from datetime import date
from typing import Any

from pydantic import TypeAdapter, ValidationError

from app.pages.buildup.course import course_of
from app.pages.buildup.known import with_signs
from app.pages.buildup.record import MOST_LOGGED, Record
from app.records.old_plans import PLAN_KIND, upgraded
from app.version import VERSION as MADE_WITH
from model.checks import InputError
from model.session_log import Logged

VERSION = 2
LARGEST_BYTES = 800_000  # a plan of 60 steps with a log of 400 sessions takes about two thirds of it
LONGEST_TEXT = 500
LARGEST = 1e9
FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 12, 31)  # days are counted one by one
NO_LETTERS = ("Cc", "Cs")  # control characters, and halves of a character that no encoding takes
BALL = ("mass_kg", "diameter_m")

RECORD, LOGGED = TypeAdapter(Record), TypeAdapter(Logged)


class FileError(ValueError):
    """A plan that cannot be used; the text says why."""


def to_json(record: Record) -> dict[str, Any]:
    """Write a plan as plain data."""
    made: dict[str, Any] = RECORD.dump_python(record, mode="json")
    table, steps = made.pop("table"), zip(made.pop("throws"), made.pop("repeats"), strict=True)
    made["calendar"]["weekdays"].sort()
    if made["first"] is not None:
        limits = made["first"]["ceilings"]
        made["first"]["ceilings"] = {key: amount for key, amount in limits.items() if amount is not None}
    return made | {
        "kind": PLAN_KIND,
        "version": VERSION,
        "made_with": MADE_WITH,
        "rack": table["balls"],
        "full_speeds_m_s": table["speeds_m_s"],
        **made.pop("limits"),
        "steps": [{**ball, "share": share, "sessions": count} for (ball, share), count in steps],
        "order": made.pop("way"),
        "by_hand": [
            {"session": int(i), **one} for i, one in sorted(made["by_hand"].items(), key=lambda one: int(one[0]))
        ],
    }


def logged_json(one: Logged) -> dict[str, Any]:
    """Write a session that was thrown."""
    made: dict[str, Any] = LOGGED.dump_python(one, mode="json")
    return made


def from_json(kept: object) -> Record:
    """Read a plan.

    Parameters
    ----------
    kept : object
        Whatever the browser or a file brought.

    Returns
    -------
    Record
        With the stop signs that follow from its log.

    Raises
    ------
    FileError
        If it is anything but what `to_json` writes, or a value in it is not accepted.
    """
    record = with_signs(read_bare(kept))
    try:
        course_of(record)  # what cannot be worked out is refused here, not while it is shown
    except InputError as error:
        raise FileError(f"a value in it is not accepted ({error})") from None
    return record


def read_bare(kept: object) -> Record:
    """Read a plan without working out what follows from it; see `from_json`."""
    if not isinstance(kept, dict) or kept.get("kind") != PLAN_KIND:
        raise FileError("this is no build-up plan")
    if kept.get("version") not in (1, VERSION):
        raise FileError("it was made by another version")
    try:
        text = json.dumps(_shaped(upgraded(kept) if kept["version"] == 1 else kept), default=repr)
        return RECORD.validate_json(text, strict=True)
    except ValidationError as error:
        found = error.errors(include_url=False)[0]
        raise FileError(f"a value in it is not accepted ({_where(found)})") from None
    except InputError as error:
        raise FileError(f"a value in it is not accepted ({error})") from None
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as error:
        raise FileError(f"it holds what no plan holds ({type(error).__name__})") from None


def _where(found: Any) -> str:
    refused = found.get("ctx", {}).get("error")
    return str(refused) if refused is not None else f"{' '.join(map(str, found['loc']))}: {found['msg']}"


def _shaped(kept: dict[str, Any]) -> dict[str, Any]:
    """What a file holds, as the fields of a plan."""
    _check_plain(kept)
    steps = kept["steps"]
    made = {
        "table": {"balls": kept["rack"], "speeds_m_s": kept["full_speeds_m_s"]},
        "limits": {"rises": kept["rises"], "caps": kept["caps"]},
        "throws": [({name: one[name] for name in BALL}, one["share"]) for one in steps],
        "repeats": [one["sessions"] for one in steps],
        "way": kept["order"],
        "by_hand": {one["session"]: {"day": one["day"], "throws": one["throws"]} for one in kept["by_hand"]},
    }
    return made | {name: kept[name] for name in AS_IT_IS}


AS_IT_IS = tuple(
    name
    for name in Record.__dataclass_fields__
    if name not in ("table", "limits", "throws", "repeats", "way", "by_hand")
)
"""Fields of a plan that a file has under the same name."""


def _check_plain(kept: Any) -> None:
    """Refuse what is too long, too large, of other letters, or a day too far off, wherever it stands."""
    if isinstance(kept, dict | list):
        if len(kept) > MOST_LOGGED:
            raise InputError("list", len(kept), f"up to {MOST_LOGGED}")
        for one in (*kept, *kept.values()) if isinstance(kept, dict) else kept:
            _check_plain(one)
    elif isinstance(kept, str):
        if len(kept) > LONGEST_TEXT or any(unicodedata.category(letter) in NO_LETTERS for letter in kept):
            raise InputError("text", ascii(kept)[:40], f"up to {LONGEST_TEXT} printable characters")
        if len(kept) == len("2000-01-01") and kept.count("-") == 2:
            day = date.fromisoformat(kept)
            if not FIRST_DAY <= day <= LAST_DAY:
                raise InputError("day", kept, f"{FIRST_DAY} to {LAST_DAY}")
    elif isinstance(kept, int | float) and not (math.isfinite(kept) and 0 <= kept <= LARGEST):
        raise InputError("number", kept, f"0 to {LARGEST:g}")


def text_of(record: Record) -> str:
    """Write a plan as the text of a file."""
    return json.dumps(to_json(record), ensure_ascii=False, indent=1)


def read_upload(contents: object) -> Record:
    """Read an uploaded plan.

    Parameters
    ----------
    contents : object
        As the browser sends a file: ``data:...;base64,...``.

    Raises
    ------
    FileError
        If it is no such file.
    """
    if not isinstance(contents, str) or "," not in contents:
        raise FileError("no file came")
    packed = contents.split(",", 1)[1]
    if len(packed) * 3 // 4 > LARGEST_BYTES:
        raise FileError(f"the file has {len(packed) * 3 // 4:,} bytes; accepted: up to {LARGEST_BYTES:,}")
    try:
        kept = json.loads(base64.b64decode(packed, validate=True).decode("utf-8-sig"))
    except (ValueError, binascii.Error, RecursionError):
        raise FileError("it is no JSON text in UTF-8, as a plan file is") from None
    return from_json(kept)
