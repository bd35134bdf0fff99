"""A plan as plain data, for the browser to keep and as a file that opens again. What comes in is read with distrust."""

import base64
import binascii
import json
import re
import unicodedata
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from typing import Any, TypeVar

from app.buildup.aims import AIMS
from app.buildup.edits import LONGEST_INITIALS, LONGEST_NOTE, MOST_CHANGES, MOST_LOGGED, MOST_STEPS
from app.buildup.record import Acknowledgement, Record, course_of
from app.compare.fields import LONGEST_CODE
from app.version import VERSION as MADE_WITH
from model.ball import Ball
from model.build_up import METRICS, SHARE_LIMIT, PlanLimits
from model.calendar_plan import REPEATS_LIMIT, THROWS_LIMIT, Budget, ByHand, Calendar
from model.checks import InputError, check_choice, check_number
from model.course import Thrown
from model.full_speeds import SpeedTable
from model.person import Person
from model.soreness import After
from model.throw import SPEED_LIMIT

KIND = "levelpeak build-up"
VERSION = 1
LARGEST_BYTES = 500_000  # a plan of 60 steps with a log of 400 sessions takes about half of it
MOST_BALLS = 24
LONGEST_WORDS = 500
FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 12, 31)  # days are counted one by one
MARK = re.compile(r"[0-9a-f]{1,64}")
NO_LETTERS = ("Cc", "Cs")  # control characters, and halves of a character that no encoding takes

Made = TypeVar("Made")


class FileError(ValueError):
    """A plan that cannot be used; the text says why."""


def to_json(record: Record) -> dict[str, object]:
    """Write a plan as plain data.

    Parameters
    ----------
    record : Record

    Returns
    -------
    dict
    """
    calendar = asdict(record.calendar) | {"weekdays": sorted(record.calendar.weekdays)}
    made = {
        "kind": KIND,
        "version": VERSION,
        "made_with": MADE_WITH,
        "code": record.code,
        "invented": record.invented,
        "person": asdict(record.person),
        "own_ball": asdict(record.own_ball),
        "rack": [asdict(ball) for ball in record.table.balls],
        "full_speeds_m_s": list(record.table.speeds_m_s),
        "rests_on": record.rests_on,
        "aim": record.aim,
        "lead": record.lead,
        "rises": dict(record.limits.rises),
        "caps": dict(record.limits.caps),
        "steps": [
            {**asdict(ball), "share": share, "sessions": count}
            for (ball, share), count in zip(record.throws, record.repeats, strict=True)
        ],
        "why": record.why,
        "calendar": calendar,
        "budget": asdict(record.budget),
        "made_on": record.made_on,
        "mark": record.mark,
        "by_hand": [{"session": i, **asdict(one)} for i, one in sorted(record.by_hand.items())],
        "changed": list(record.changed),
        "read": None if record.read is None else asdict(record.read),
        "log": [asdict(one) for one in record.log],
        "lifted": record.lifted,
        "not_before": record.not_before,
        "refused": record.refused,
    }
    plain: dict[str, object] = json.loads(json.dumps(made, default=_day_text))
    return plain


def from_json(kept: object) -> Record:
    """Read a plan.

    Parameters
    ----------
    kept : object
        Whatever the browser or a file brought.

    Returns
    -------
    Record

    Raises
    ------
    FileError
        If it is anything but what `to_json` writes, or a value in it is not accepted.
    """
    if not isinstance(kept, dict) or kept.get("kind") != KIND:
        raise FileError("this is no build-up plan")
    if kept.get("version") != VERSION:
        raise FileError("it was made by another version")
    try:
        record = _record(kept)
        course_of(record)  # what cannot be worked out is refused here, not while it is shown
    except InputError as error:
        raise FileError(f"a value in it is not accepted ({error})") from None
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as error:
        raise FileError(f"it holds what no plan holds ({type(error).__name__})") from None
    return record


def text_of(record: Record) -> str:
    """Write a plan as the text of a file."""
    return json.dumps(to_json(record), ensure_ascii=False, indent=1)


def read_upload(contents: object) -> Record:
    """Read an uploaded plan.

    Parameters
    ----------
    contents : object
        As the browser sends a file: ``data:...;base64,...``.

    Returns
    -------
    Record

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


def _record(kept: dict[str, Any]) -> Record:
    steps = _list(kept["steps"], MOST_STEPS)
    record = Record(
        code=_text(kept["code"], LONGEST_CODE),
        invented=kept["invented"] is True,
        person=Person(**_numbers(kept["person"], but=("sex", "handedness", "still_growing"))),
        own_ball=_ball(kept["own_ball"]),
        table=SpeedTable(
            tuple(map(_ball, _list(kept["rack"], MOST_BALLS))),
            tuple(float(_number(one)) for one in _list(kept["full_speeds_m_s"], MOST_BALLS)),
        ),
        rests_on=_text(kept["rests_on"], LONGEST_WORDS),
        aim=check_choice("aim", kept["aim"], AIMS),
        lead=check_choice("lead", kept["lead"], METRICS),
        limits=PlanLimits(_numbers(kept["rises"]), _numbers(kept["caps"])),
        throws=tuple((_ball(one), check_number("share", one["share"], SHARE_LIMIT)) for one in steps),
        repeats=tuple(_whole(check_number("sessions", one["sessions"], REPEATS_LIMIT)) for one in steps),
        why=_text(kept["why"], LONGEST_WORDS),
        calendar=_calendar(kept["calendar"]),
        budget=Budget(**_whole_numbers(kept["budget"], ("least_throws", "most_throws"))),
        made_on=_day(kept["made_on"]),
        mark=_mark(kept["mark"]),
        by_hand={_place(one["session"]): _set_by_hand(one) for one in _list(kept["by_hand"], MOST_LOGGED)},
        changed=tuple(_text(one, LONGEST_WORDS) for one in _list(kept["changed"], MOST_CHANGES)),
        read=_maybe(kept["read"], _acknowledgement),
        log=tuple(map(_thrown, _list(kept["log"], MOST_LOGGED))),
        lifted=_place(kept["lifted"]),
        not_before=_maybe(kept["not_before"], _day),
        refused=_text(kept["refused"], LONGEST_CODE),
    )
    if not record.throws:
        raise InputError("steps", 0, "one or more")
    if any(one.place >= MOST_STEPS for one in record.log):
        raise InputError("log", "a step beyond the plan", f"up to {MOST_STEPS} steps")
    return record


def _calendar(kept: dict[str, Any]) -> Calendar:
    every = kept["easier_every"]
    return Calendar(
        _day(kept["first_day"]),
        frozenset(_whole(_number(one)) for one in _list(kept["weekdays"], 7)),
        None if every is None else _whole(_number(every)),
        _number(kept["easier_share"]),
        _maybe(kept["target_day"], _day),
    )


def _set_by_hand(kept: dict[str, Any]) -> ByHand:
    throws = kept["throws"]
    return ByHand(_maybe(kept["day"], _day), None if throws is None else _whole(_number(throws)))


def _acknowledgement(kept: dict[str, Any]) -> Acknowledgement:
    return Acknowledgement(_text(kept["by"], LONGEST_INITIALS), _day(kept["on"]))


def _thrown(kept: dict[str, Any]) -> Thrown:
    after = dict(kept["after"])
    pains = ("pain_before", "pain_after", "pain_next_morning")
    ratings = {name: None if after[name] is None else _whole(_number(after[name])) for name in pains}
    held = after["speed_held"]
    if held is not None and not isinstance(held, bool):
        raise TypeError("speed_held")
    return Thrown(
        _day(kept["day"]),
        _place(kept["place"]),
        _ball(kept["ball"]),
        check_number("speed_m_s", _number(kept["speed_m_s"]), SPEED_LIMIT),
        _whole(check_number("throws", _number(kept["throws"]), THROWS_LIMIT)),
        After(speed_held=held, signs=tuple(_list(after["signs"], 8)), **ratings),  # type: ignore[arg-type]
        kept["decision"],
        _whole(_number(kept["days_off"])),
        _text(kept["by"], LONGEST_INITIALS),
        _text(kept["note"], LONGEST_NOTE),
    )


def _ball(kept: dict[str, Any]) -> Ball:
    return Ball(_number(kept["mass_kg"]), _number(kept["diameter_m"]))


def _number(given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise TypeError("number")
    return float(given)


def _whole(number: float) -> int:
    if number != int(number):
        raise ValueError("whole number")
    return int(number)


def _place(given: object) -> int:
    found = _whole(_number(given))
    if not 0 <= found <= 10_000:
        raise ValueError("place")
    return found


def _numbers(kept: dict[str, Any], but: tuple[str, ...] = ()) -> dict[str, Any]:
    return {name: one if name in but or one is None else _number(one) for name, one in kept.items()}


def _whole_numbers(kept: dict[str, Any], names: tuple[str, ...]) -> dict[str, Any]:
    return {name: _whole(one) if name in names else one for name, one in _numbers(kept).items()}


def _text(given: object, longest: int) -> str:
    if not isinstance(given, str) or len(given) > longest:
        raise TypeError("text")
    if any(unicodedata.category(letter) in NO_LETTERS for letter in given):
        raise InputError("text", ascii(given)[:40], "printable characters")
    return given


def _mark(given: object) -> str:
    if not isinstance(given, str) or not MARK.fullmatch(given):
        raise TypeError("mark")
    return given


def _list(given: object, most: int) -> list[Any]:
    if not isinstance(given, list) or len(given) > most:
        raise TypeError("list")
    return given


def _day(given: object) -> date:
    day = date.fromisoformat(_text(given, 10))
    if not FIRST_DAY <= day <= LAST_DAY:
        raise InputError("day", str(day), f"{FIRST_DAY} to {LAST_DAY}")
    return day


def _maybe(given: Any, read: Callable[[Any], Made]) -> Made | None:
    return None if given is None else read(given)


def _day_text(given: object) -> object:
    if isinstance(given, date):
        return given.isoformat()
    raise TypeError(type(given).__name__)
