"""Slower throws with a plan's balls: one step below, the way up again, and what pain allows."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.build_up import ROUNDING, SHARE_LIMIT, Step, metrics_at
from model.person import Person
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

HELD_DOWN = ("peak", "shoulder_peak", "rise_rate", "speed")
"""Metrics of a step that are no higher after pain than they were up to it; throws and area are those of the session."""
LOWER = 0.9  # of the speed: one step below where no metric has a step limit; judgement
FINE = 128  # speeds among which a rung of a ladder is chosen
MOST_RUNGS = 100


@dataclass(frozen=True)
class Row:
    """A plan as a row of sessions.

    Attributes
    ----------
    full_speed_m_s : mapping of Ball to float
        With each ball of the plan.
    order : tuple of int
        Which step each session is of.
    rises : mapping of str to float
        The most that each metric may rise from one step to the next.
    """

    person: Person
    full_speed_m_s: Mapping[Ball, float]
    steps: tuple[Step, ...]
    order: tuple[int, ...]
    rises: Mapping[str, float]

    def at(self, ball: Ball, speed_m_s: float) -> Step:
        """A throw as a step."""
        found = metrics_at(self.person, [ball], np.array([speed_m_s]))
        share = speed_m_s / self.full_speed_m_s.get(ball, speed_m_s)
        return Step(ball, share, speed_m_s, {key: float(values[0]) for key, values in found.items()})

    def along(self, ball: Ball, speed_m_s: Array) -> dict[str, Array]:
        """Metrics of a ball at several speeds."""
        return metrics_at(self.person, [ball] * speed_m_s.size, speed_m_s)


@dataclass(frozen=True)
class Rung:
    """A session that is to come.

    Attributes
    ----------
    index, place : int
        Its place in the row, and the step it is of, or climbs to.
    step : Step
        Ball, speed and metrics: those of the plan's step, or of a slower throw with its ball.
    lowered : bool
        Whether it is slower than the plan's step.
    """

    index: int
    place: int
    step: Step
    lowered: bool = False


@dataclass(frozen=True)
class Most:
    """What no planned session is more than after pain.

    Attributes
    ----------
    area_nms : float
        Summed area of the session (N m s).
    metrics : dict of str to float
        For each of `HELD_DOWN`, in SI.
    """

    throws: int
    area_nms: float
    metrics: Mapping[str, float]

    def and_no_more_than(self, other: "Most | None") -> "Most":
        """The less of both in everything."""
        if other is None:
            return self
        metrics = {key: min(value, other.metrics[key]) for key, value in self.metrics.items()}
        return Most(min(self.throws, other.throws), min(self.area_nms, other.area_nms), metrics)


def ladder(row: Row, low: Step, high: Step) -> list[Step]:
    """Steps between two speeds with one ball, each as far above the one before as the limits allow.

    Parameters
    ----------
    low, high : Step
        With the same ball.

    Returns
    -------
    list of Step
        Without either end.
    """
    found: list[Step] = []
    step = low
    while len(found) < MOST_RUNGS:
        speeds = np.linspace(step.speed_m_s, high.speed_m_s, FINE)
        kept = _within(step.metrics, row.along(step.ball, speeds), row.rises)
        if kept[-1]:
            break
        reached = max(1, int(np.flatnonzero(kept)[-1]))
        step = row.at(step.ball, float(speeds[reached]))
        found.append(step)
    return found


def one_below(row: Row, step: Step) -> Step:
    """The slowest throw with the ball from which a step is reached in one, by the plan's limits.

    Returns
    -------
    Step
        Never slower than the slowest accepted throw.
    """
    slowest = max(SPEED_LIMIT.low, LOWER * step.speed_m_s)
    speeds = np.linspace(slowest, step.speed_m_s, FINE)
    along = row.along(step.ball, speeds)
    kept = np.ones(FINE, dtype=bool)
    for key, rise in row.rises.items():
        kept &= step.metrics[key] <= along[key] * (1.0 + rise) * (1.0 + ROUNDING)
    lowest = int(np.flatnonzero(kept)[0])
    return row.at(step.ball, float(speeds[min(lowest, FINE - 2)]))


def _within(before: Mapping[str, float], along: Mapping[str, Array], rises: Mapping[str, float]) -> Array:
    kept = np.ones(FINE, dtype=bool)
    for key, rise in rises.items():
        kept &= along[key] <= before[key] * (1.0 + rise) * (1.0 + ROUNDING)
    return kept


def fitted(row: Row, rung: Rung, most: Most) -> Rung | None:
    """A session no higher than what is allowed: as it is, or slower with its ball.

    Returns
    -------
    Rung or None
        None where no accepted speed with the ball is low enough.
    """
    step = rung.step
    if not _under(step, most):
        floor = max(SPEED_LIMIT.low, SHARE_LIMIT.low * row.full_speed_m_s.get(step.ball, 0.0))
        speeds = np.linspace(floor, max(floor, min(step.speed_m_s, most.metrics["speed"])), FINE)
        along = row.along(step.ball, speeds)
        kept = np.ones(FINE, dtype=bool)
        for key in HELD_DOWN:
            kept &= along[key] <= most.metrics[key] * (1.0 + ROUNDING)
        fitting = np.flatnonzero(kept)
        if not fitting.size:
            return None
        rung = replace(rung, step=row.at(step.ball, float(speeds[fitting[-1]])), lowered=True)
    return rung if rung.step.metrics["area"] <= most.area_nms * (1.0 + ROUNDING) else None


def _under(step: Step, most: Most) -> bool:
    return all(step.metrics[key] <= most.metrics[key] * (1.0 + ROUNDING) for key in HELD_DOWN)
