"""How to build up: from a first throw to a goal in so many steps, none of which raises any metric by too much.

A node is a ball at a share of this athlete's full speed with that ball, in m/s by the best estimate of the speed
profile. Its metrics come from the mass-speed identity. A move from one node to another is allowed if no metric rises by
more than its step limit. Among all paths of the wanted number of steps the one is taken whose lead readout climbs the
most evenly: the sum over the steps of the squared distance, in ln, from the even staircase between start and goal.
`BUILD_UP.md` tells the formulation and what the defaults rest on.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.checks import Limit, check_choice, check_number
from model.full_speeds import FullSpeeds
from model.person import Person
from model.quantity import Quantity, quantity_at
from model.readouts import read_curves
from model.throw import Throw, curves, path_loads

Array = NDArray[np.float64]

METRICS: dict[str, tuple[str, Quantity | None]] = {
    "rise_rate": ("rise rate at the elbow", Quantity("varus", "rise_rate")),
    "peak": ("peak at the elbow", Quantity("varus", "peak")),
    "shoulder_peak": ("peak at the shoulder", Quantity("internal_rotation", "peak")),
    "loaded_s": ("time loaded", Quantity("varus", "loaded_s")),
    "area": ("area under the curve", Quantity("varus", "area")),
    "braking": ("braking after release", Quantity("horizontal_abduction", "peak")),
    "speed": ("release speed", None),
}
"""What a step is measured by: plain name and quantity; None is the release speed itself."""

RISES = {
    "rise_rate": 0.15,
    "peak": 0.10,
    "shoulder_peak": 0.10,
    "loaded_s": 0.10,
    "area": 0.10,
    "braking": 0.10,
    "speed": 0.10,
}
"""How much of its value each metric may rise from one step to the next. Common practice, no source: the weekly tenth of
tradition (values.csv 9-load-rules-14, not established for throwing), half more for the rise rate, which goes as the
cube of the speed where the peak goes as its square."""

RISE_LIMIT = Limit(0.0, 10.0, "of the value")
STEPS_LIMIT = Limit(1, 60, "steps")
SHARE_LIMIT = Limit(0.05, 1.0, "of full speed")
SHARE_STEP_LIMIT = Limit(0.005, 0.25, "of full speed")
ROUNDING = 1e-9  # relative: a limit met exactly is kept
OFF_PATTERN = 1e-4
"""Cost of a move that is not of the trade's pattern (common practice, no source): as much as a step whose lead readout
lies 1 % off the even staircase."""
BACKWARD = 2.5e-3
"""Cost of a move back: the same ball slower, or a ball away from the goal's side. As a step 5 % off the staircase."""


@dataclass(frozen=True)
class PlanLimits:
    """What every step of a plan keeps.

    Parameters
    ----------
    rises : mapping of str to float
        For keys of `METRICS`, the most that the metric may rise from one step to the next, relative to the former. What
        is left out may rise as it will.
    caps : mapping of str to float
        The most that a metric may be in any step, in SI.

    Raises
    ------
    InputError
        If a key is unknown or a value not accepted.
    """

    rises: Mapping[str, float] = field(default_factory=lambda: dict(RISES))
    caps: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for key, value in self.rises.items():
            check_number(f"rise of {check_choice('rises', key, METRICS)}", value, RISE_LIMIT)
        for key, value in self.caps.items():
            check_number(f"cap of {check_choice('caps', key, METRICS)}", value, Limit(1e-6, 1e6, "in SI"))


@dataclass(frozen=True)
class Step:
    """One step: a ball at a share of full speed with it.

    Attributes
    ----------
    share, speed_m_s : float
        Of the athlete's full speed with the ball, and that speed: the step's speed cap (m/s).
    metrics : dict of str to float
        Value of each key of `METRICS` (SI).
    """

    ball: Ball
    share: float
    speed_m_s: float
    metrics: dict[str, float]


@dataclass(frozen=True)
class Breach:
    """A limit that a step breaks.

    Attributes
    ----------
    step : int
        Place of the step, from 0.
    kind : {'rise', 'cap'}
    key, label : str
        The metric.
    value, limit : float
        Relative rise over the step before, or the metric itself; and what was allowed.
    """

    step: int
    kind: str
    key: str
    label: str
    value: float
    limit: float


@dataclass(frozen=True)
class Plan:
    """Steps from a start to a goal.

    Attributes
    ----------
    limits : PlanLimits
        That every step keeps.
    lead : str
        The readout meant to climb evenly; a key of `METRICS`.
    cost : float
        Sum of squared distances of ln lead from the even staircase, and `OFF_PATTERN` or `BACKWARD` of such moves.
    why : str
        Why the balls come in this order, in one sentence from the numbers.
    """

    person: Person
    steps: tuple[Step, ...]
    limits: PlanLimits
    lead: str
    cost: float
    why: str


@dataclass(frozen=True)
class Loosening:
    """One limit whose change alone would open a path.

    Attributes
    ----------
    kind : {'rise', 'cap'}
    key, label : str
        The metric.
    given, needed : float
        As it is, and the least that would do (a relative rise, or SI).
    """

    kind: str
    key: str
    label: str
    given: float
    needed: float

    @property
    def size(self) -> float:
        """Relative size of the change."""
        if self.kind == "cap":
            return float(np.log(self.needed / self.given))
        return float(np.log((1.0 + self.needed) / (1.0 + self.given)))


@dataclass(frozen=True)
class Together:
    """The least common factor on all step limits that opens a path, where no single change does.

    Attributes
    ----------
    factor : float
        On every rise allowed; more than 1.
    key, label : str
        The metric that blocks at any smaller factor.
    """

    factor: float
    key: str
    label: str


@dataclass(frozen=True)
class NoPlan:
    """No path of the wanted number of steps keeps every limit.

    Attributes
    ----------
    steps : int
        That were wanted.
    fewest_steps : int or None
        The fewest that a path within the limits has, if there is one of any length.
    loosenings : tuple of Loosening
        Every single change that would open a path of the wanted number of steps; the least, which is the limit that
        blocks, first. Empty if no single one would.
    together : Together or None
        Then, what all step limits would have to be multiplied with; None where a cap keeps every path shut.
    shut : tuple of Breach
        Caps that the start or the goal itself is above.
    """

    steps: int
    fewest_steps: int | None
    loosenings: tuple[Loosening, ...]
    together: Together | None
    shut: tuple[Breach, ...]


def metrics_at(person: Person, balls: Sequence[Ball], speed_m_s: Array) -> dict[str, Array]:
    """Metrics of many throws, from the identity.

    Parameters
    ----------
    balls : sequence of Ball (n,)
    speed_m_s : ndarray (n,)

    Returns
    -------
    dict of str to ndarray (n,)
        For each key of `METRICS`, in SI.
    """
    mass = np.array([ball.mass_kg for ball in balls])
    diameter = np.array([ball.diameter_m for ball in balls])
    found = {key: np.array(speed_m_s, dtype=float) for key in METRICS}
    for one in np.unique(diameter):
        here = diameter == one
        loads = path_loads(person, float(one))
        for key, (_, quantity) in METRICS.items():
            if quantity is not None:
                found[key][here] = quantity_at(loads, quantity, mass[here], speed_m_s[here])
    return found


def steps_of(person: Person, speeds: FullSpeeds, throws: Sequence[tuple[Ball, float]]) -> tuple[Step, ...]:
    """Steps as typed by hand.

    Parameters
    ----------
    speeds : FullSpeeds
        A speed profile, or what was known of it.
    throws : sequence of (Ball, float)
        Ball and share of full speed with it.

    Raises
    ------
    InputError
        If a share is not accepted or the full speed with a ball is not known.
    """
    balls = [ball for ball, _ in throws]
    shares = [check_number("share", share, SHARE_LIMIT) for _, share in throws]
    speed = np.array(
        [share * speeds.mean_speed(ball.mass_kg).estimate for ball, share in zip(balls, shares, strict=True)]
    )
    found = metrics_at(person, balls, speed)
    return tuple(
        Step(ball, share, float(speed[i]), {key: float(values[i]) for key, values in found.items()})
        for i, (ball, share) in enumerate(zip(balls, shares, strict=True))
    )


def check_plan(plan: Plan, limits: PlanLimits | None = None) -> tuple[Breach, ...]:
    """Read every step anew off its own whole curves and hold it against the limits.

    Nothing that the search computed is used but ball and speed.

    Parameters
    ----------
    plan : Plan
        Found, or edited by hand.
    limits : PlanLimits, optional
        The plan's own unless given.

    Returns
    -------
    tuple of Breach
        Empty if every step keeps every limit.
    """
    kept = plan.limits if limits is None else limits
    read = []
    for step in plan.steps:
        thrown = curves(Throw(plan.person, step.ball, step.speed_m_s))
        row = {}
        for key, (_, quantity) in METRICS.items():
            if quantity is None:
                row[key] = step.speed_m_s
            else:
                row[key] = float(getattr(read_curves(thrown, quantity.reading), quantity.readout))
        read.append(row)
    found = []
    for i, row in enumerate(read):
        for key, cap in kept.caps.items():
            if not row[key] <= cap * (1.0 + ROUNDING):
                found.append(Breach(i, "cap", key, METRICS[key][0], row[key], cap))
        for key, rise in kept.rises.items():
            ratio = row[key] / read[i - 1][key] if i else 1.0
            if not ratio <= (1.0 + rise) * (1.0 + ROUNDING):
                found.append(Breach(i, "rise", key, METRICS[key][0], ratio - 1.0, rise))
    return tuple(found)
