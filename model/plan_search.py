"""The search for a build-up: nodes, moves, the cheapest path, and what blocks where there is none."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.build_up import (
    BACKWARD,
    METRICS,
    OFF_PATTERN,
    ROUNDING,
    SHARE_LIMIT,
    SHARE_STEP_LIMIT,
    STEPS_LIMIT,
    Breach,
    Loosening,
    NoPlan,
    Plan,
    PlanLimits,
    Together,
    check_plan,
)
from model.checks import InputError, check_choice, check_number
from model.full_speeds import FullSpeeds
from model.person import Person
from model.plan_nodes import ANY_ORDER, SAME, Nodes, Order, nodes_of
from model.staircase import cheapest, fewest, is_path, least_worst
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

COARSE = 0.25  # of full speed: below it one per cent of full speed is too large a step for the step limits
FINER = 0.98  # from one share to the next below it
SHARE_PLACES = 3  # as shares are told


def find_plan(
    person: Person,
    speeds: FullSpeeds,
    rack: Sequence[Ball],
    goal: tuple[Ball, float],
    steps: int,
    *,
    start: tuple[Ball, float],
    limits: PlanLimits | None = None,
    lead: str = "rise_rate",
    share_step: float = 0.01,
    order: Order = ANY_ORDER,
) -> Plan | NoPlan:
    """Find the plan whose lead readout climbs most evenly from start to goal.

    Parameters
    ----------
    goal, start : (Ball, float)
        Ball and share of full speed with it.
    steps : int
        How many, start and goal among them; 1 only where they are the same.
    limits : PlanLimits, optional
        The defaults unless given.
    lead : str
        A key of `METRICS`.
    share_step : float
        Grid of the shares looked at, from the lower of start and goal up to full speed; finer below `COARSE`.

    Returns
    -------
    Plan or NoPlan
        A plan has passed `check_plan`. Should more steps be asked for than there is room for, a step may come again.

    Raises
    ------
    InputError
        If a value is not accepted.
    """
    kept = PlanLimits() if limits is None else limits
    check_choice("lead", lead, METRICS)
    count = int(check_number("steps", steps, STEPS_LIMIT))
    step = check_number("share_step", share_step, SHARE_STEP_LIMIT)
    goal_share = check_number("goal share", goal[1], SHARE_LIMIT)
    start_share = check_number("start share", start[1], SHARE_LIMIT)
    balls = list(dict.fromkeys([*rack, goal[0], start[0]]))
    for ball, share in (start, goal):
        check_number("speed_m_s", share * float(speeds.mean_speed(ball.mass_kg).estimate), SPEED_LIMIT)
    nodes = nodes_of(person, speeds, balls, _shares(start_share, goal_share, step, order.own_first_share))
    first, last = nodes.place(start[0], start_share), nodes.place(goal[0], goal_share)
    if count == 1 and first != last:
        raise InputError("steps", steps, "2 or more from one step to another")
    if nodes.balls[first] == order.own and start_share > order.own_first_share * (1.0 + ROUNDING):
        raise InputError("start share", start_share, f"up to {order.own_first_share:g} with the own ball")
    place_cost, move_cost = costs(nodes, first, last, count, kept, lead)
    place_cost = np.where(order.may_stand(nodes, count), place_cost, np.inf)
    move_cost = np.where(order.may_move(nodes), move_cost, np.inf)
    found = cheapest(place_cost, move_cost, first, last, order.first_steps, OFF_PATTERN)
    if found is None:
        return _no_plan(nodes, first, last, count, kept, order)
    cost, path = found
    plan = Plan(person, tuple(nodes.step(i) for i in path), kept, lead, cost, _why(nodes, path, goal_share, lead))
    if breaches := check_plan(plan):
        raise RuntimeError(f"the search let through a step that breaks a limit: {breaches[0]}")
    return plan


def costs(nodes: Nodes, first: int, last: int, count: int, limits: PlanLimits, lead: str) -> tuple[Array, Array]:
    """Costs of standing at each node as the k-th step, and of each move.

    Parameters
    ----------
    first, last : int
        Start and goal.
    count : int
        Number of steps.

    Returns
    -------
    place_cost : ndarray (count, n)
        Squared distance of ln lead from the even staircase; infinite above a cap.
    move_cost : ndarray (n, n)
        0, `OFF_PATTERN` or `BACKWARD`, or infinite where a metric rises by more than its limit.
    """
    logs = np.log(nodes.metrics[lead])
    stairs = np.linspace(logs[first], logs[last], count)
    place = (logs - stairs[:, None]) ** 2
    place = np.where(np.isfinite(place) & _under_caps(nodes, limits), place, np.inf)
    return place, np.where(_allowed(nodes, limits), _preference(nodes, first, last, logs), np.inf)


def _shares(start: float, goal: float, step: float, first: float) -> list[float]:
    """From the lowest of start, goal and the own ball's first to full speed: the grid, and both ends."""
    low = min(start, goal, first)
    coarse = max(low, min(COARSE, 1.0))
    grid = (1.0 - step * np.arange(int((1.0 - coarse) / step + SAME) + 1)).tolist()
    share = grid[-1] * FINER
    while share >= low:
        grid.append(round(share, SHARE_PLACES))
        share *= FINER
    typed = {start, goal}  # stay as they are; the grid's own value of the same share goes
    return sorted(typed | {share for share in grid if all(abs(share - one) > SAME for one in typed)})


def _under_caps(nodes: Nodes, limits: PlanLimits, but: str = "") -> NDArray[np.bool_]:
    kept = np.ones(len(nodes.balls), dtype=bool)
    for key, cap in limits.caps.items():
        if key != but:
            kept &= nodes.metrics[key] <= cap * (1.0 + ROUNDING)
    return kept


def _allowed(nodes: Nodes, limits: PlanLimits, but: str = "") -> NDArray[np.bool_]:
    kept = ~np.eye(len(nodes.balls), dtype=bool)
    for key, rise in limits.rises.items():
        if key != but:
            kept &= 1.0 + nodes.rise(key) <= (1.0 + rise) * (1.0 + 0.5 * ROUNDING)
    return kept


def _preference(nodes: Nodes, first: int, last: int, logs: Array) -> Array:
    """Small costs that decide between staircases that are about as even.

    The trade's pattern is first faster with the ball of the start, then another ball at a held share. Which way the
    mass goes is not laid down: toward the goal's ball, and so that the lead readout climbs. Where the lead readout is
    to fall from start to goal, the same the other way round: slower is forward.
    """
    way = 1.0 if logs[last] >= logs[first] else -1.0
    mass = np.array([ball.mass_kg for ball in nodes.balls])
    ball = np.array([list(dict.fromkeys(nodes.balls)).index(one) for one in nodes.balls])
    same_ball = ball[:, None] == ball[None, :]
    faster = way * (nodes.share[None, :] - nodes.share[:, None]) > SAME
    held = np.abs(nodes.share[None, :] - nodes.share[:, None]) < SAME
    climbs = way * (logs[None, :] - logs[:, None]) > 0.0
    pattern = (same_ball & (ball[:, None] == ball[first]) & faster) | (~same_ball & held & climbs)
    low, high = sorted((mass[first], mass[last]))
    onward = (mass[None, :] - mass[:, None]) * (mass[last] - mass[first]) >= 0.0
    between = (mass >= low) & (mass <= high)
    forward = np.where(same_ball, faster, onward & between[None, :])
    return np.where(forward, np.where(pattern, 0.0, OFF_PATTERN), BACKWARD)


def _no_plan(nodes: Nodes, first: int, last: int, count: int, limits: PlanLimits, order: Order) -> NoPlan:
    """Which single change would open a path of so many steps, exactly how large, and the fewest steps without any."""
    found = []
    stands, moves = order.may_stand(nodes, count), order.may_move(nodes)
    caps = np.where(stands & _under_caps(nodes, limits), -np.inf, np.inf)
    for key, given in limits.rises.items():
        move = np.where(moves & _allowed(nodes, limits, but=key), nodes.rise(key), np.inf)
        needed = least_worst(caps, move, first, last, order.first_steps)
        if np.isfinite(needed):
            found.append(Loosening("rise", key, METRICS[key][0], given, needed))
    free = np.where(moves & _allowed(nodes, limits), -np.inf, np.inf)
    for key, given in limits.caps.items():
        place = np.where(stands & _under_caps(nodes, limits, but=key), nodes.metrics[key], np.inf)
        needed = least_worst(place, free, first, last, order.first_steps)
        if np.isfinite(needed):
            found.append(Loosening("cap", key, METRICS[key][0], given, needed))
    together = None
    if not found:
        over = {key: nodes.rise(key) / rise for key, rise in limits.rises.items() if rise > 0.0}
        fixed = moves & _allowed(nodes, PlanLimits({key: rise for key, rise in limits.rises.items() if rise <= 0.0}))
        worst = np.where(fixed, np.maximum.reduce([*over.values(), np.full(fixed.shape, -np.inf)]), np.inf)
        factor = least_worst(caps, worst, first, last, order.first_steps)
        if np.isfinite(factor):
            key = next(key for key, ratio in over.items() if np.any(fixed & (worst == factor) & (ratio == factor)))
            together = Together(factor, key, METRICS[key][0])
    shut = tuple(
        Breach(step, "cap", key, METRICS[key][0], float(nodes.metrics[key][i]), cap)
        for step, i in ((0, first), (count - 1, last))
        for key, cap in limits.caps.items()
        if nodes.metrics[key][i] > cap * (1.0 + ROUNDING)
    )
    shortest = _fewest(nodes, first, last, limits, order)
    return NoPlan(count, shortest, tuple(sorted(found, key=lambda one: one.size)), together, shut)


def _fewest(nodes: Nodes, first: int, last: int, limits: PlanLimits, order: Order) -> int | None:
    """The fewest steps that the limits and the order of the balls allow."""
    usable = _under_caps(nodes, limits)
    moves = _allowed(nodes, limits) & order.may_move(nodes)
    low = fewest(moves & usable[:, None] & usable[None, :], first, last) if usable[first] and usable[last] else None
    if low is None:
        return None

    def opens(count: int) -> bool:
        return is_path(order.may_stand(nodes, count) & usable, moves, first, last, order.first_steps)

    return next((count for count in range(low, int(STEPS_LIMIT.high) + 1) if opens(count)), None)


def _why(nodes: Nodes, path: tuple[int, ...], share: float, lead: str) -> str:
    """Why the balls come in this order, from the numbers."""
    label = METRICS[lead][0]
    ends = nodes.balls[path[0]], nodes.balls[path[-1]]
    if ends[0] == ends[1]:
        ends = (max(nodes.balls, key=lambda ball: ball.mass_kg), ends[1])
    light, heavy = sorted(ends, key=lambda ball: ball.mass_kg)
    masses = np.array([nodes.balls[i].mass_kg for i in path])
    falls, rises = int((np.diff(masses) < 0.0).sum()), int((np.diff(masses) > 0.0).sum())
    if falls and rises:
        order = f"along the plan the mass falls {falls} and rises {rises} times"
    elif falls or rises:
        order = f"along the plan the mass only {'falls' if falls else 'rises'}"
    else:
        order = "along the plan only the speed changes"
    if light == heavy:
        return order
    of_heavy, of_light = (nodes.metrics[lead][nodes.place(ball, share)] for ball in (heavy, light))
    apart = float(of_heavy / of_light - 1.0)
    side = "above" if apart > 0.0 else "below"
    balls = (
        f"{1000 * heavy.mass_kg:.0f} g ball is {abs(apart):.0%} {side} that with the {1000 * light.mass_kg:.0f} g ball"
    )
    slowing = ""
    if lead in ("rise_rate", "peak", "shoulder_peak", "area"):
        slowing = ": heavier is not lower here" if apart > 0.0 else ": heavier is lower here"
    return f"at {share:.0%} of full speed with each, {label} with the {balls}{slowing}; {order}"
