"""The rules after a session in words: one place for screen, sheet, files and notes.

`python -m tests.notes.session_rules` prints them for every combination of what can be noted.
"""

from collections.abc import Sequence

from app.records.plan_fields import DECISION_WORDS, ROLE_WORDS
from app.show.numbers import capital
from model.session_log import NOT_DECIDED, Logged
from model.session_rules import (
    ACTIONS,
    ALL_SIGNS,
    COMMON,
    JUDGEMENT,
    OPEN,
    PRINTED,
    URGENT_SIGNS,
    WHEN,
    Advice,
    Facts,
    Notes,
    Rule,
)
from model.stop_signs import CLEARING_ROLES, Signed, StopSign

CLEARING = {role: ROLE_WORDS[role] for role in CLEARING_ROLES}
SITE_WORDS = {"elbow": "elbow", "shoulder": "shoulder", "unknown": "joint not known"}
WHEN_WORDS = dict(
    zip(WHEN, ("before the first throw", "while throwing", "an hour after", "on the next morning"), strict=True)
)
SORE_WORDS = {
    "before": "in the warm-up",
    "throwing": "after the first throws, or again",
    "hour_after": "longer than an hour after",
    "next_morning": "on the next day",
}

ACTION_WORDS = {
    "go_on": "the next session of the plan",
    "repeat": "this session again",
    "session_before": "the session before again",
    "step_back": "one step back",
    "closed": "no next session yet",
    "stop": "no throwing: a stop sign stands",
    "urgent": "urgent care now, no throwing",
}
"""The most that may come next."""

DECIDED_WORDS = {
    NOT_DECIDED: "not decided yet",
    "go_on": "goes on",
    "repeat": "again",
    "session_before": "session before again",
    "step_back": "one step back",
    "stop": "stopped",
}

REASONS = {
    "urgent": "{signs}: urgent care now.",
    "stop_sign": "{signs}: a stop sign. No throwing until a licensed clinician clears it.",
    "not_entered": "Not entered is not none: pain before the first throw and while throwing is to be entered.",
    "pain_twice": "Pain at a joint in two sessions in a row: two days off, then at most one step back.",
    "pain_before": "Pain at a joint before the first throw: two days off, then at most one step back, lower than the "
    "last painless session.",
    "pain": "Pain at a joint: two days off, then at most this session again, with no more throws, area, peak, rise or "
    "speed than up to the pain, until a session without.",
    "sore_throwing": "Muscles sore after the first throws, or again: stop, two days off, then at most one step back.",
    "sore_warm_up": "Muscles sore in the warm-up, not after the first throws: at most the session before again.",
    "sore_later": "Muscles sore for more than an hour, or on the next day: one day off, at most this session again.",
    "painkiller": "A painkiller was taken, or it is not entered whether one was: at most this session again: it does "
    "not count as painless.",
    "morning_missing": "Pain on the next morning is not entered: at most this session again until it is.",
    "speed_not_held": "The speed was not held to the end: at most this session again.",
    "none": "No pain, no soreness and no stop sign: the next session of the plan.",
}
"""Why, by the key of the rule."""

SOURCES = {PRINTED: "printed soreness rules", JUDGEMENT: "our own judgement", COMMON: "common practice, no source"}
SOURCES_TOLD = (
    "The printed soreness rules are about muscles that are sore; clinics print them, after Axe, Wickham and "
    "Snyder-Mackler 2001 (Sports Med Arthrosc 9:24–34; recalled, not looked up). Pain at a joint is not soreness: its "
    "rules here are stricter, our own judgement. Stop signs: common practice, no source. The decision of a licensed "
    "clinician goes before these rules; a stop sign holds until it is cleared all the same."
)
NO_THROWING_TODAY = "Pain at a joint before the first throw: no throwing today."
AS_PAIN = "Soreness of over three days, or in one spot, is treated as pain at the joint."
ENDS_THE_SESSION = "Pain at a joint while throwing: the session ends there. Enter the throws thrown up to it."

CLOSED_WORDS = {
    "stop_sign": "A stop sign stands: no throwing until a licensed clinician clears it.",
    "plan_anew": "The stop sign was cleared. This plan does not go on: say above what is planned, and make it anew.",
    "not_entered": "No next session yet: pain before the first throw and while throwing is to be entered first.",
    "not_decided": "No next session yet: it is to be decided what comes next.",
    "stopped": "The plan was stopped.",
    "too_low": "No next session: after the pain no accepted throw with this ball is low enough. A licensed clinician "
    "decides how it goes on.",
    "limits": "The next step passes a limit from Start, which holds until somebody clears it.",
    "done": "Every session was thrown.",
}
"""Why there is no next session, by `model.course.CLOSED`."""


def sign_words(signs: Sequence[str]) -> str:
    """Name stop signs, such as "swelling; weakness"."""
    return "; ".join(ALL_SIGNS[sign] for sign in signs)


def reason_words(rule: Rule, signs: Sequence[str]) -> str:
    """Say why a rule says what it does."""
    named = [sign for sign in signs if rule.key != "urgent" or sign in URGENT_SIGNS]
    return capital(REASONS[rule.key].format(signs=sign_words(named)))


def missing_words(notes: Notes) -> str:
    """Say what is not entered; empty where nothing is missing."""
    lacking = [f"pain {WHEN_WORDS[when]}" for when in notes.missing]
    if (notes.pain.before or 0) > 0:  # then nothing was thrown that day
        lacking = [one for one in lacking if one not in ("pain while throwing", "pain an hour after")]
    lacking += ["whether a painkiller was taken"] if notes.painkiller is None else []
    return f"Not entered: {', '.join(lacking)}." if lacking else ""


def advice_lines(advice: Advice, facts: Facts) -> list[str]:
    """Say what may come next, every rule that applies with its reason and where it comes from, and what is missing.

    Parameters
    ----------
    facts : Facts
        What it was found from.

    Returns
    -------
    list of str
        The most that may come next first.
    """
    off = advice.days_off or 0
    most = ACTION_WORDS[advice.action]
    if advice.action in OPEN:
        most = f"The most that may come next: {most}"
        if facts.notes.painful:
            before = facts.thrown_up_to_pain == 0
            most += ", lower than the last painless session" if before else ", with no more than up to the pain"
        most += f", after {off} day{'' if off == 1 else 's'} off" if off else ""
    lines = [f"{capital(most)}."]
    pain = facts.notes.pain
    if (pain.before or 0) > 0:
        lines.append(NO_THROWING_TODAY)
    elif (pain.throwing or 0) > 0:
        lines.append(ENDS_THE_SESSION)
    if facts.notes.soreness.as_pain and advice.action in OPEN:
        lines.append(AS_PAIN)
    signed = advice.action in ("stop", "urgent")  # then no rule that speaks of throwing again is told beside it
    for rule in (advice.rule, *(one for one in advice.also if not signed or one.key == "stop_sign")):
        lines.append(f"{reason_words(rule, advice.signs)} ({SOURCES[rule.source]})")
    lacking = missing_words(facts.notes)
    return [*lines, lacking] if lacking else lines


def allowed_decisions(action: str, clinician: bool, signs: bool, before: bool) -> dict[str, str]:
    """What may be decided.

    Parameters
    ----------
    action : str
        The most that the rules allow; one of `ACTIONS`.
    clinician : bool
        Whether a licensed clinician decides: then the rules are no bound, but a stop sign is.
    signs : bool
        Whether there is a stop sign.
    before : bool
        Whether there is a session before.

    Returns
    -------
    dict of str to str
        Key of `DECISIONS`, and in words; empty under a stop sign and while pain is not entered.
    """
    if signs or action not in OPEN:
        return {}
    kept = OPEN if clinician else [one for one in OPEN if ACTIONS.index(one) >= ACTIONS.index(action)]
    return {one: DECISION_WORDS[one] for one in (*kept, "stop") if one != "session_before" or before}


def signed_words(by: Signed) -> str:
    """Say who decided or recorded something, such as "KM, licensed clinician, 2026-03-05: seen and tested"."""
    words = f": {by.words}" if by.words else ""
    return f"{by.by}, {ROLE_WORDS[by.role]}, {by.on}{words}"


def stop_sign_words(one: StopSign, plan: str) -> str:
    """Say a stop sign with its day, who entered it, and what became of it."""
    where = f"session {one.session + 1}, " if one.session is not None and one.plan == plan else ""
    late = f" on {one.entered.on}" if one.entered.on != one.since else ""
    said = f"{capital(ALL_SIGNS[one.sign])} ({where}{one.since}; entered by {one.entered.by}, "
    said += f"{ROLE_WORDS[one.entered.role]}{late}{f': {one.entered.words}' if one.entered.words else ''})"
    if one.withdrawn is not None:
        said += f". Withdrawn by {signed_words(one.withdrawn)}"
    if one.cleared is not None:
        said += f". Cleared by {signed_words(one.cleared)}"
    return f"{said}."


def ratings_words(one: Logged) -> str:
    """The four ratings of pain with the joint, such as "elbow 0 / 3 / – / –"."""
    pain = one.notes.pain
    ratings = " / ".join("–" if getattr(pain, when) is None else str(getattr(pain, when)) for when in WHEN)
    return f"{SITE_WORDS[pain.site]} {ratings}" if pain.worst else ratings


def soreness_words(one: Logged) -> str:
    """When the muscles were sore; a dash where nothing was entered."""
    sore = one.notes.soreness
    found = [words for when, words in SORE_WORDS.items() if getattr(sore, when)]
    found += ["over three days"] if sore.over_three_days else []
    found += ["in one spot"] if sore.one_spot else []
    entered = any(getattr(sore, when) is not None for when in SORE_WORDS)
    return ", ".join(found) if found else "none" if entered else "–"


def decided_words(one: Logged) -> str:
    """Say what was decided and by whom, such as "again (KM, coach)"."""
    off = f", {one.days_off} day{'' if one.days_off == 1 else 's'} off" if one.days_off else ""
    return f"{DECIDED_WORDS[one.decision]}{off} ({one.by}, {ROLE_WORDS[one.role]})"
