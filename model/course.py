"""How far a plan has come, and what may come next.

A plan is a row of sessions, each of a step. What was decided after a session, and never more than the rules allow
(`session_rules`), moves the place in that row. After pain at a joint nothing planned is more than the painful session
had up to the pain, until a session without; then the plan climbs from there by its own limits.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from model.ball import Ball
from model.build_up import Step
from model.ladder import HELD_DOWN, Most, Row, Rung, fitted, ladder, one_below
from model.session_log import NONE_WITHDRAWN, NOT_DECIDED, Logged, advice_of, after_a_sign, facts_of, withdrawn_of
from model.session_rules import OPEN, Facts, no_more_than
from model.stop_signs import StopSign, standing

SAME = 1e-6  # relative: speeds that differ by less are one
NO_LIMIT: Mapping[Ball, float] = MappingProxyType({})

CLOSED = ("", "stop_sign", "plan_anew", "not_entered", "not_decided", "stopped", "too_low", "limits", "done")
"""Why there is no next session: there is one; a stop sign stands; one was cleared, and a plan is to be made anew; pain
before and while throwing was not entered; nothing was decided yet; somebody stopped the plan; nothing slow enough can
be planned; a limit of the first throw holds until it is cleared; all was thrown.
"""


@dataclass(frozen=True)
class Standing:
    """Where a plan stands.

    Attributes
    ----------
    closed : str
        One of `CLOSED`.
    rungs : tuple of Rung
        The sessions that are to come; none while it is closed, but those before a limit that is not cleared.
    most : Most or None
        What no session is more than, after pain and until a session without.
    since_pain : Logged or None
        The first session without pain after the last with: weeks and budget climb from it.
    """

    closed: str
    rungs: tuple[Rung, ...] = ()
    most: Most | None = None
    since_pain: Logged | None = None


def most_after(
    row: Row, log: Sequence[Logged], withdrawn: Mapping[int, frozenset[str]] = NONE_WITHDRAWN
) -> tuple[Most | None, Logged | None]:
    """Find what no session is more than, and the session from which the plan climbs again.

    Parameters
    ----------
    withdrawn : mapping of int to frozenset of str
        Stop signs that were withdrawn (`session_log.withdrawn_of`).

    Returns
    -------
    Most or None
        None where no pain is open.
    Logged or None
        The last session without pain that followed one with; None where there is none.
    """
    most: Most | None = None
    painless: Logged | None = None
    climbs_from: Logged | None = None
    for one, facts in zip(log, facts_of(log, withdrawn), strict=True):
        if facts.notes.painful:
            most = _up_to_pain(row, one, facts, painless).and_no_more_than(most)
        elif facts.notes.painless:
            if most is not None:
                climbs_from = one
            most, painless = None, one
        if one.by_clinician and one.decision == "go_on" and not facts.signs:
            most = None  # a licensed clinician decided otherwise
    return most, climbs_from


def _up_to_pain(row: Row, one: Logged, facts: Facts, painless: Logged | None) -> Most:
    """What a painful session had up to the pain; nothing: one step below the last painless one."""
    throws, step = facts.thrown_up_to_pain, row.at(one.ball, one.reached_m_s)
    below = int(facts.painful_in_a_row >= 2)
    if throws == 0:
        before = one if painless is None else painless
        throws = max(1, min(one.planned, before.throws))
        step, below = row.at(before.ball, before.reached_m_s), below + 1
    return _steps_below(row, throws, step, below)


def _steps_below(row: Row, throws: int, step: Step, below: int) -> Most:
    """So many throws of a step, or of a slower one below it: with the lesser area of both, as slower may be longer."""
    low = step
    for _ in range(below):
        low = one_below(row, low)
    area = min(step.metrics["area"], low.metrics["area"])
    return Most(throws, throws * area, {key: low.metrics[key] for key in HELD_DOWN})


def most_of(row: Row, log: Sequence[Logged], signs: Iterable[StopSign] = (), plan: str = "") -> Most | None:
    """What a plan that is made anew after a stop sign starts no higher than: the last painless session, or one below.

    Parameters
    ----------
    signs : iterable of StopSign
        A session since one that was entered late does not count.
    plan : str
        As for `standing_of`.

    Returns
    -------
    Most or None
        Without a painless session: one step below the first that was logged; None where none was.
    """
    signs = tuple(signs)
    late, facts = after_a_sign(log, signs, plan), facts_of(log, withdrawn_of(signs, plan))
    painless = [one for i, one in enumerate(log) if facts[i].notes.painless and i not in late]
    if painless:
        return _steps_below(row, painless[-1].throws, row.at(painless[-1].ball, painless[-1].reached_m_s), 0)
    if not log:
        return None
    return _steps_below(row, max(1, log[0].throws), row.at(log[0].ball, log[0].reached_m_s), 1)


def standing_of(
    row: Row,
    log: Sequence[Logged],
    signs: Iterable[StopSign] = (),
    *,
    plan: str = "",
    lifted: int = 0,
    most_share: Mapping[Ball, float] = NO_LIMIT,
) -> Standing:
    """Find what may come next.

    Parameters
    ----------
    signs : iterable of StopSign
        Of the athlete, those aside that the plan was made after.
    plan : str
        What tells the plan from the athlete's others.
    lifted : int
        A decision to stop among so many first sessions of the log no longer holds.
    most_share : mapping of Ball to float
        The most of full speed with each ball under limits that hold until they are cleared; empty without such.
    """
    signs = tuple(signs)
    if standing(signs):
        return Standing("stop_sign")
    if any(one.cleared is not None for one in signs):
        return Standing("plan_anew")
    if not log:
        return _open(_onward(row, 0), None, None, most_share)
    withdrawn = withdrawn_of(signs, plan)
    advice, last = advice_of(log, withdrawn)[-1], log[-1]
    if advice.action not in OPEN:
        return Standing("stop_sign" if advice.signs else "not_entered")
    action = last.decision
    if action == NOT_DECIDED:
        return Standing("not_decided")
    if action == "stop":
        if len(log) > lifted:
            return Standing("stopped")
        action = "repeat"
    if not last.by_clinician:
        action = no_more_than(action, advice.action)
    most, since_pain = most_after(row, log, withdrawn)
    rungs = _rungs(row, log, action)
    if most is None:
        return _open(rungs, None, since_pain, most_share)
    # while pain is open only the next session is planned: what comes after depends on it
    first = fitted(row, rungs[0] if rungs else _as_rung(row, last), most)
    if first is None:
        return Standing("too_low", most=most)
    return _open((first,), most, None, most_share)


def session_before(row: Row, log: Sequence[Logged], most: Most | None) -> Rung | None:
    """The session before again, thrown in the place of the next one because of soreness in the warm-up.

    Parameters
    ----------
    most : Most or None
        What no session is more than.

    Returns
    -------
    Rung or None
        None without a session before, or where it cannot be slow enough.
    """
    if not log:
        return None
    rung = _as_rung(row, log[-1])
    return rung if most is None else fitted(row, rung, most)


def _open(
    rungs: tuple[Rung, ...], most: Most | None, since_pain: Logged | None, most_share: Mapping[Ball, float]
) -> Standing:
    if not rungs:
        return Standing("done", since_pain=since_pain)

    def passes(step: Step) -> bool:
        return step.share > most_share.get(step.ball, 1.0) * (1.0 + SAME) if most_share else False

    shut = next((i for i, rung in enumerate(rungs) if passes(rung.step)), None)
    return Standing("limits" if shut == 0 else "", rungs[:shut], most, since_pain)


def _onward(row: Row, index: int) -> tuple[Rung, ...]:
    """The plan's own sessions from one on."""
    return tuple(Rung(i, row.order[i], row.steps[row.order[i]]) for i in range(index, len(row.order)))


def _as_rung(row: Row, one: Logged) -> Rung:
    """A logged session as it was planned; steps may have been changed by hand since."""
    place = min(one.place, len(row.steps) - 1)
    index = one.index if one.index < len(row.order) and row.order[one.index] == place else row.order.index(place)
    step = row.steps[place]
    if one.ball == step.ball and one.speed_m_s < step.speed_m_s * (1.0 - SAME):
        return Rung(index, place, row.at(one.ball, one.speed_m_s), lowered=True)
    return Rung(index, place, step)


def _rungs(row: Row, log: Sequence[Logged], action: str) -> tuple[Rung, ...]:
    """The sessions that follow a decision."""
    last = _as_rung(row, log[-1])
    if action == "go_on":
        return _from(row, last)[1:]
    if action == "session_before" and len(log) > 1:
        before = _as_rung(row, log[-2])
        if _no_higher(before.step, last.step):  # else it would be a leap up: after pain the last one was lowered
            return _from(row, before)
    if action in ("repeat", "session_before"):
        return _from(row, last)
    if last.place and _no_higher(row.steps[last.place - 1], last.step):
        return _onward(row, row.order.index(last.place - 1))
    return _from(row, replace(last, step=one_below(row, last.step), lowered=True))


def _no_higher(step: Step, other: Step) -> bool:
    return all(step.metrics[key] <= other.metrics[key] * (1.0 + SAME) for key in HELD_DOWN)


def _from(row: Row, first: Rung) -> tuple[Rung, ...]:
    """A session, those that lead from it to its step where it was lowered, and the plan's own after it."""
    if not first.lowered:
        return (first, *_onward(row, first.index + 1))
    climb = ladder(row, first.step, row.steps[first.place])
    return (first, *(replace(first, step=step) for step in climb), *_onward(row, first.index))
