"""Shared by the tests of logs and courses: a small plan, and sessions of it."""

from datetime import date, timedelta
from functools import cache

from model.ball import Ball
from model.build_up import RISES, Plan, steps_of
from model.ladder import Row, Rung
from model.plan_nodes import Order
from model.plan_search import find_plan
from model.session_log import Logged
from model.session_rules import JointPain, Notes, Soreness
from tests.model.speed_cases import ADULT, OWN
from tests.model.start_cases import measured

FIRST = date(2026, 3, 2)
FINE = Notes(JointPain("", 0, 0, 0, 0), Soreness(False, False, False, False), painkiller=False)
BALLS = (OWN, Ball(0.275), Ball(0.470))


@cache
def plan() -> Plan:
    """The own ball from slow to fast."""
    found = find_plan(ADULT, measured(0.55), (OWN,), (OWN, 1.0), 12, start=(OWN, 0.7), order=Order(OWN, 0.8))
    assert isinstance(found, Plan)
    return found


@cache
def row() -> Row:
    """Two sessions at each step."""
    full = {ball: float(measured(0.55).mean_speed(ball.mass_kg).estimate) for ball in BALLS}
    order = tuple(place for place in range(len(plan().steps)) for _ in range(2))
    return Row(ADULT, full, plan().steps, order, dict(RISES))


@cache
def heavy_row() -> Row:
    """The heaviest ball slow, then lighter and faster, typed by hand: one session at each step."""
    heavy, middle = BALLS[2], BALLS[1]
    throws = [(heavy, 0.5), (heavy, 0.55), (middle, 0.6), (OWN, 0.62), (OWN, 0.7), (OWN, 0.8)]
    full = {ball: float(measured(0.55).mean_speed(ball.mass_kg).estimate) for ball in BALLS}
    steps = steps_of(ADULT, measured(0.55), throws)
    return Row(ADULT, full, steps, tuple(range(6)), dict(RISES))


def pain(before=0, throwing=0, hour_after=0, next_morning=0, site="elbow", **more) -> Notes:
    """Notes with pain at a joint."""
    joint = JointPain(site, before, throwing, hour_after, next_morning)
    return Notes(joint, Soreness(False, False, False, False), painkiller=False, **more)


def logged(
    rung: Rung, notes: Notes = FINE, throws: int = 20, day: date = FIRST, decision: str = "go_on", **more
) -> Logged:
    """A session thrown as planned, with what is told otherwise."""
    base = {"days_off": 0, "by": "AB", "role": "coach", "planned": 20} | more
    step = rung.step
    return Logged(
        day, rung.index, rung.place, step.ball, step.speed_m_s, notes=notes, decision=decision, throws=throws, **base
    )


def on(days: int) -> date:
    """So many days after the first."""
    return FIRST + timedelta(days)
