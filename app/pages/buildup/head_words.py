"""What a plan rests on in words: aim, what was before it, the reference, limits from Start, and why it stands still."""

from collections import Counter

from app.pages.buildup.aims import aim_named
from app.pages.buildup.course import Course
from app.pages.buildup.first_limits import hold_words, limit_words
from app.pages.buildup.record import Record
from app.pages.buildup.rule_words import CLOSED_WORDS, signed_words, stop_sign_words
from app.pages.buildup.words import count_words, metric_words, ranges, why_words
from app.records.plan_fields import ORDERS
from app.show.numbers import capital
from app.units.systems import System
from model.build_up import METRICS
from model.ceilings import BOUNDS

SAME = 5e-3  # relative: speeds that differ by less are one
WAITS_FOR_PAIN = "Only the next session is planned until one was thrown without pain; what comes after depends on it."
WAITS_FOR_LIMITS = "The sessions after these pass a limit from Start: they wait until somebody clears it."


def purpose(course: Course, system: System) -> list[tuple[str, str]]:
    """Say what should improve, which readout is meant to rise, and what ends the plan.

    Returns
    -------
    list of (str, str)
        Term and text.
    """
    record = course.record
    aim, key = aim_named(record.aim), record.lead
    begin, end = record.steps[0].metrics[key], record.steps[-1].metrics[key]
    label = METRICS[key][0]
    span = f"{metric_words(key, begin, system)} to {metric_words(key, end, system)}"
    if not abs(end / begin - 1.0) > 1e-3:
        moves = f"None: {label} stays at {metric_words(key, begin, system)}."
    elif end > begin:
        moves = f"{capital(label)} is meant to rise, as evenly as the limits allow: from {span}."
    else:
        moves = f"None; {label} is meant to fall, evenly: from {span}."
    way = f"{ORDERS[record.way]}. " if record.way else ""
    order = [("Order of the balls", f"{way}{capital(why_words(record, system))}.")] if len(record.throws) > 1 else []
    asked, limits = asked_words(course), first_words(course, system)
    earlier = " ".join(stop_sign_words(one, record.mark) for one in record.earlier)
    return [
        *([("Before it", asked)] if asked else []),
        *([("Stop signs before it", earlier)] if earlier else []),
        *([("Limits from Start", limits)] if limits else []),
        ("What should improve", aim.improves),
        ("Readout meant to rise", moves),
        ("What ends it", aim.ends),
        *order,
        ("Full speeds", f"From {record.rests_on}." if record.rests_on else "Not told."),
    ]


def reference_words(record: Record, system: System) -> str:
    """Say on which reference full speed rests, with its kind and day; empty where that is not known."""
    known = record.reference
    if not known.kind:
        return ""
    if known.speed_m_s is None:
        return f"Reference: {known.words}."
    own = next(
        (v for ball, v in zip(record.table.balls, record.table.speeds_m_s, strict=True) if ball == record.own_ball), 0.0
    )
    speed = system.text(known.speed_m_s, "m/s", least=1, most=1)
    if abs(own / known.speed_m_s - 1.0) < SAME:
        return f"Full speed rests on {speed}, {known.words}."
    now = system.text(own, "m/s", least=1, most=1)
    return f"Full speed with the own ball is {now} by what is known now; the reference is {speed}, {known.words}."


def asked_words(course: Course) -> str:
    """Say what was before the plan, and whether the plan has more throws a week; empty where nothing was asked."""
    asked, told = course.record.asked, []
    if asked.weeks_off is not None:
        told.append(f"{count_words(asked.weeks_off, 'week')} without throwing.")
    if asked.throws_a_week is not None:
        thrown = f" ({asked.thrown})" if asked.thrown else ""
        told.append(f"{count_words(asked.throws_a_week, 'throw')} a week before that{thrown}.")
        weeks = Counter[int]()
        for one in course.schedule.sessions:
            weeks[one.week + 1] += one.throws
        more = [week for week, throws in sorted(weeks.items()) if throws > asked.throws_a_week]
        if more:
            told.append(f"Week {more[0]} is the first with more throws than that.")
    elif asked.thrown:
        told.append(f"Thrown before: {asked.thrown}.")
    if asked.cleared is not None:
        told.append(f"Cleared to throw by {signed_words(asked.cleared)}.")
    return " ".join(told)


def first_words(course: Course, system: System) -> str:
    """Say which limits came over from Start, how long they hold, and which steps pass them; empty without any."""
    first = course.record.first
    if first is None:
        return ""
    limits = [limit_words(bound.key, amount, system) for bound, amount in first.ceilings.given()]
    if not limits:
        return "None were set there."
    sure = f"{100.0 * first.certainty:.0f} % certainty each; 100 % is {first.dated}"
    told = f"{capital('; '.join(limits))} ({sure}). They hold {hold_words(first)}."
    return f"{told} {passes_words(course)}".strip()


def passes_words(course: Course) -> str:
    """Name the steps that pass a limit from Start; empty if none does."""
    first, steps = course.record.first, dict[str, list[int]]()
    for place, keys in sorted(course.passes.items()):
        for key in keys:
            steps.setdefault(key, []).append(place + 1)
    if first is None or not steps:
        return ""
    named = [f"{BOUNDS[key].label} at step{'' if len(at) == 1 else 's'} {ranges(at)}" for key, at in steps.items()]
    return f"Passing a limit: {'; '.join(named)}."


def closed_words(course: Course) -> str:
    """Say why there is no next session; empty where there is one."""
    return course.trouble or CLOSED_WORDS.get(course.closed, "")


def waits_words(course: Course) -> str:
    """Say that later sessions wait for limits to be cleared, or for a session without pain; empty where none does."""
    if course.standing.most is not None:
        return WAITS_FOR_PAIN
    return WAITS_FOR_LIMITS if course.waits else ""


def most_words(course: Course, system: System) -> str:
    """Say what no session is more than after pain; empty where no pain is open."""
    most = course.standing.most
    if most is None:
        return ""
    peak, speed = (metric_words(key, most.metrics[key], system) for key in ("peak", "speed"))
    throws = count_words(most.throws, "throw")
    return (
        f"After pain at a joint, until a session without: no more than {throws}, {most.area_nms:.0f} N·m·s in all, a "
        f"peak of {peak} and {speed}."
    )
