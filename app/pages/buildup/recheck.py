"""A kept plan held against today's measures and readings: old beside new, and what the new would break. Pure."""

import hashlib
import json
from dataclasses import asdict, dataclass

from app.pages.buildup.athlete import speeds_words
from app.pages.buildup.course import broken, course_of
from app.pages.buildup.first_limits import FirstLimits, again
from app.pages.buildup.record import Record, steps_with
from app.show.subject import Case
from model.build_up import Breach, Step
from model.checks import InputError
from model.full_speeds import SpeedTable, table_of
from model.person import Person

SAME = 5e-4  # relative: speeds that differ by less print alike, and nothing is asked


@dataclass(frozen=True)
class Recheck:
    """New numbers for a kept plan.

    Attributes
    ----------
    person : Person
    table : SpeedTable
    rests_on : str
    mark : str
        Names these numbers, so that they are asked about once.
    then, now : tuple of Step
        The steps that are left, by the old numbers and by the new.
    first : int
        Place of the first of them.
    broken_then, broken_now : tuple of Breach
        Limits that they break; places are those of the whole plan.
    limits : FirstLimits or None
        What the limits from Start allow by the new numbers.
    """

    person: Person
    table: SpeedTable
    rests_on: str
    mark: str
    then: tuple[Step, ...]
    now: tuple[Step, ...]
    first: int
    broken_then: tuple[Breach, ...]
    broken_now: tuple[Breach, ...]
    limits: FirstLimits | None = None


def recheck(record: Record, case: Case) -> Recheck | None:
    """Hold the steps that are left against today's numbers.

    Parameters
    ----------
    case : Case
        The athlete as the other pages have him now.

    Returns
    -------
    Recheck or None
        None if it is another athlete, nothing changed, or no new speed is known.
    """
    if case.person is None or case.profile is None or case.code != record.code:
        return None
    try:
        table = table_of(case.profile, record.table.balls)
    except InputError:
        return None  # nothing is known of the speed any more: nothing new to say
    if case.person == record.person and not _differ(table, record.table):
        return None
    mark = _mark(case.person, table)
    if mark == record.refused:
        return None
    first = min(course_of(record).place, len(record.throws) - 1)
    return Recheck(
        case.person,
        table,
        speeds_words(case),
        mark,
        record.steps[first:],
        steps_with(case.person, table, record.throws)[first:],
        first,
        _left(broken(record.person, record.table, record.throws, record.limits), first),
        _left(broken(case.person, table, record.throws, record.limits), first),
        again(record.first, case),
    )


def _differ(table: SpeedTable, other: SpeedTable) -> bool:
    pairs = zip(table.speeds_m_s, other.speeds_m_s, strict=True)
    return any(abs(new / old - 1.0) > SAME for new, old in pairs)


def _left(breaches: tuple[Breach, ...], first: int) -> tuple[Breach, ...]:
    return tuple(one for one in breaches if one.step >= first)


def _mark(person: Person, table: SpeedTable) -> str:
    numbers = [asdict(person), [round(speed, 3) for speed in table.speeds_m_s]]
    return hashlib.sha256(json.dumps(numbers, sort_keys=True).encode()).hexdigest()[:16]
