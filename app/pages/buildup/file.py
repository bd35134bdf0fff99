"""A plan as plain data, as a file that opens again. What comes in is read with distrust."""

import base64
import binascii
import json
from dataclasses import asdict
from typing import Any

from app.pages.buildup import kept_parts as read
from app.pages.buildup.aims import AIMS
from app.pages.buildup.course import course_of
from app.pages.buildup.edits import MOST_CHANGES, MOST_STEPS
from app.pages.buildup.first_limits import FirstLimits
from app.pages.buildup.kept_parts import LONGEST_NOTE, LONGEST_WORDS, MOST_LOGGED
from app.pages.buildup.known import MOST_SIGNS, with_signs
from app.pages.buildup.record import Acknowledgement, Asked, HandedOut, KnownReference, Record
from app.records.old_plans import PLAN_KIND, upgraded
from app.records.plan_fields import HOLDS, ORDERS
from app.show.form_fields import LONGEST_CODE
from app.version import VERSION as MADE_WITH
from model.build_up import METRICS, SHARE_LIMIT, STEPS_LIMIT, PlanLimits
from model.calendar_plan import REPEATS_LIMIT, Budget, ByHand, Calendar
from model.ceilings import BOUNDS, KINDS, Amount, Ceilings, Reference
from model.checks import InputError, Limit, check_choice, check_number
from model.full_speeds import SpeedTable
from model.person import Person
from model.session_log import Logged
from model.session_rules import JointPain, Notes, Soreness
from model.start import CERTAINTY_LIMIT

VERSION = 2
LARGEST_BYTES = 800_000  # a plan of 60 steps with a log of 400 sessions takes about two thirds of it
MOST_BALLS = 24


class FileError(ValueError):
    """A plan that cannot be used; the text says why."""


def to_json(record: Record) -> dict[str, Any]:
    """Write a plan as plain data."""
    calendar = asdict(record.calendar) | {"weekdays": sorted(record.calendar.weekdays)}
    made = {
        "kind": PLAN_KIND,
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
        "order": record.way,
        "own_early": record.own_early,
        "own_first": record.own_first,
        "reference": asdict(record.reference),
        "asked": asdict(record.asked),
        "first": None if record.first is None else _first_json(record.first),
        "notes": list(record.notes),
        "by_hand": [{"session": i, **asdict(one)} for i, one in sorted(record.by_hand.items())],
        "changed": list(record.changed),
        "read": None if record.read is None else asdict(record.read),
        "log": [logged_json(one) for one in record.log],
        "signs": [read.sign_json(one) for one in record.signs],
        "earlier": [read.sign_json(one) for one in record.earlier],
        "start_most": read.most_json(record.start_most),
        "lifted": record.lifted,
        "not_before": record.not_before,
        "refused": record.refused,
        "handed_out": [asdict(one) for one in record.handed_out],
        "calendars": record.calendars,
    }
    return _plain(made)


def _plain(made: dict[str, Any]) -> dict[str, Any]:
    plain: dict[str, Any] = json.loads(json.dumps(made, default=read.plain))
    return plain


def logged_json(one: Logged) -> dict[str, Any]:
    """Write a session that was thrown."""
    return _plain(asdict(one))


def _first_json(first: FirstLimits) -> dict[str, Any]:
    amounts = {bound.key: asdict(amount) for bound, amount in first.ceilings.given()}
    return asdict(first) | {"ceilings": amounts, "alone": {key: list(edges) for key, edges in first.alone.items()}}


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
        return _record(upgraded(kept) if kept["version"] == 1 else kept)
    except InputError as error:
        raise FileError(f"a value in it is not accepted ({error})") from None
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as error:
        raise FileError(f"it holds what no plan holds ({type(error).__name__})") from None


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


def _record(kept: dict[str, Any]) -> Record:
    steps = read.listed(kept["steps"], MOST_STEPS)
    record = Record(
        code=read.text(kept["code"], LONGEST_CODE),
        invented=kept["invented"] is True,
        person=Person(**read.numbers(kept["person"], but=("sex", "handedness", "still_growing"))),
        own_ball=read.ball(kept["own_ball"]),
        table=SpeedTable(
            tuple(map(read.ball, read.listed(kept["rack"], MOST_BALLS))),
            tuple(map(read.number, read.listed(kept["full_speeds_m_s"], MOST_BALLS))),
        ),
        rests_on=read.text(kept["rests_on"], LONGEST_WORDS),
        aim=check_choice("aim", kept["aim"], AIMS),
        lead=check_choice("lead", kept["lead"], METRICS),
        limits=PlanLimits(read.numbers(kept["rises"]), read.numbers(kept["caps"])),
        throws=tuple((read.ball(one), check_number("share", one["share"], SHARE_LIMIT)) for one in steps),
        repeats=tuple(read.whole(check_number("sessions", one["sessions"], REPEATS_LIMIT)) for one in steps),
        why=read.text(kept["why"], LONGEST_WORDS),
        calendar=_calendar(kept["calendar"]),
        budget=Budget(**_budget(kept["budget"])),
        made_on=read.day(kept["made_on"]),
        mark=read.mark(kept["mark"]),
        way=check_choice("order", kept["order"], ("", *ORDERS)),
        own_early=read.truth(kept["own_early"]),
        own_first=check_number("own_first", kept["own_first"], SHARE_LIMIT),
        reference=_reference(kept["reference"]),
        asked=_asked(kept["asked"]),
        first=read.maybe(kept["first"], _first),
        notes=tuple(read.text(one, LONGEST_WORDS) for one in read.listed(kept["notes"], MOST_CHANGES)),
        by_hand={read.place(one["session"]): _by_hand(one) for one in read.listed(kept["by_hand"], MOST_LOGGED)},
        changed=tuple(read.text(one, LONGEST_WORDS) for one in read.listed(kept["changed"], MOST_CHANGES)),
        read=read.maybe(kept["read"], lambda one: Acknowledgement(read.text(one["by"], 8), read.day(one["on"]))),
        log=tuple(map(_logged, read.listed(kept["log"], MOST_LOGGED))),
        signs=tuple(map(read.read_sign, read.listed(kept["signs"], MOST_SIGNS))),
        earlier=tuple(map(read.read_sign, read.listed(kept["earlier"], MOST_SIGNS))),
        start_most=read.read_most(kept["start_most"]),
        lifted=read.place(kept["lifted"]),
        not_before=read.maybe(kept["not_before"], read.day),
        refused=read.text(kept["refused"], LONGEST_CODE),
        handed_out=tuple(map(_handed_out, read.listed(kept["handed_out"], MOST_CHANGES))),
        calendars=read.place(kept["calendars"]),
    )
    if not record.throws:
        raise InputError("steps", 0, "one or more")
    if any(one.place >= MOST_STEPS for one in record.log):
        raise InputError("log", "a step beyond the plan", f"up to {MOST_STEPS} steps")
    return record


def _calendar(kept: dict[str, Any]) -> Calendar:
    return Calendar(
        read.day(kept["first_day"]),
        frozenset(map(read.whole, read.listed(kept["weekdays"], 7))),
        read.maybe(kept["easier_every"], read.whole),
        read.number(kept["easier_share"]),
        read.maybe(kept["target_day"], read.day),
    )


def _budget(kept: dict[str, Any]) -> dict[str, Any]:
    counts = ("least_throws", "most_throws")
    return {name: read.whole(one) if name in counts else one for name, one in read.numbers(kept).items()}


def _by_hand(kept: dict[str, Any]) -> ByHand:
    return ByHand(read.maybe(kept["day"], read.day), read.maybe(kept["throws"], read.whole))


def _reference(kept: dict[str, Any]) -> KnownReference:
    kind = check_choice("reference", kept["kind"], ("", *KINDS))
    return KnownReference(kind, read.maybe(kept["on"], read.day), read.maybe(kept["speed_m_s"], read.number))


def _asked(kept: dict[str, Any]) -> Asked:
    weeks, throws = (read.maybe(kept[name], read.place) for name in ("weeks_off", "throws_a_week"))
    return Asked(weeks, throws, read.text(kept["thrown"], LONGEST_NOTE), read.maybe(kept["cleared"], read.read_signed))


def _first(kept: dict[str, Any]) -> FirstLimits:
    amounts = {key: Amount(read.number(one["value"]), one["absolute"] is True) for key, one in kept["ceilings"].items()}
    reference = kept["reference"]
    balls = tuple(map(read.ball, read.listed(kept["balls"], MOST_BALLS)))
    alone = {
        check_choice("limit", key, BOUNDS): tuple((read.number(low), read.number(high)) for low, high in edges)
        for key, edges in kept["alone"].items()
    }
    if any(len(edges) != len(balls) for edges in alone.values()) or set(alone) != set(amounts):
        raise ValueError("limits")
    return FirstLimits(
        read.ball(kept["ball"]),
        check_number("share", read.number(kept["share"]), SHARE_LIMIT),
        Ceilings(**amounts),
        check_number("certainty", read.number(kept["certainty"]), CERTAINTY_LIMIT),
        Reference(
            reference["kind"],
            read.maybe(reference["speed_m_s"], read.number),
            read.maybe(reference["measured_on"], read.day),
            read.maybe(reference["relative_sd"], read.number),
        ),
        read.text(kept["dated"], LONGEST_WORDS),
        check_choice("holds", kept["holds"], HOLDS),
        read.place(kept["count"]),
        int(check_number("steps", read.whole(kept["steps"]), Limit(0, STEPS_LIMIT.high, "steps"))),
        balls,
        alone,
        read.maybe(kept["cleared"], read.read_signed),
    )


def _handed_out(kept: dict[str, Any]) -> HandedOut:
    return HandedOut(read.mark(kept["mark"]), read.place(kept["first"]), read.place(kept["last"]))


def _logged(kept: dict[str, Any]) -> Logged:
    notes = kept["notes"]
    pain, sore = notes["pain"], notes["soreness"]
    ratings = {name: read.maybe(one, read.whole) for name, one in pain.items() if name != "site"}
    return Logged(
        read.day(kept["day"]),
        read.place(kept["index"]),
        read.place(kept["place"]),
        read.ball(kept["ball"]),
        read.number(kept["speed_m_s"]),
        read.place(kept["planned"]),
        read.whole(kept["throws"]),
        Notes(
            JointPain(read.text(pain["site"], 12), **ratings),
            Soreness(**{name: read.maybe(one, read.truth) for name, one in sore.items()}),  # type: ignore[arg-type]
            tuple(read.listed(notes["signs"], 20)),
            read.maybe(notes["painkiller"], read.truth),
            read.maybe(notes["speed_held"], read.truth),
        ),
        kept["decision"],
        read.whole(kept["days_off"]),
        read.text(kept["by"], LONGEST_NOTE),
        kept["role"],
        read.maybe(kept["top_speed_m_s"], read.number),
        read.truth(kept["was_repeat"]),
        read.text(kept["note"], LONGEST_NOTE),
    )
