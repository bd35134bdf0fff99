"""What a step of a build-up could be, and which of them the order of the balls lets stand where."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.build_up import ROUNDING, SHARE_LIMIT, STEPS_LIMIT, Step, metrics_at
from model.checks import Limit, check_number
from model.full_speeds import FullSpeeds
from model.person import Person
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]
SAME = 1e-9
OWN_BY = 2.0 / 3.0  # of the steps: from there on with the own ball, where it is the goal's; judgement


@dataclass(frozen=True)
class Nodes:
    """Everything that a step could be; arrays (n,).

    Attributes
    ----------
    balls : tuple of Ball (n,)
    share, speed_m_s : ndarray
        Share of full speed with the ball, and the speed it comes to (m/s).
    metrics : dict of str to ndarray
        For each key of `METRICS`, in SI.
    """

    balls: tuple[Ball, ...]
    share: Array
    speed_m_s: Array
    metrics: dict[str, Array]

    def place(self, ball: Ball, share: float) -> int:
        """Index of a node.

        Parameters
        ----------
        share : float
            Of full speed with the ball.
        """
        same = [i for i, one in enumerate(self.balls) if one == ball and abs(self.share[i] - share) < SAME]
        return same[0]

    def step(self, i: int) -> Step:
        """A node as a step."""
        metrics = {key: float(values[i]) for key, values in self.metrics.items()}
        return Step(self.balls[i], float(self.share[i]), float(self.speed_m_s[i]), metrics)

    def rise(self, key: str) -> Array:
        """Relative rise of a metric from each node (row) to each other (column); (n, n).

        Returns
        -------
        ndarray (n, n)
            Infinite where the metric does not exist, and from a node to itself.
        """
        values = self.metrics[key]
        found = values[None, :] / values[:, None] - 1.0
        found[~np.isfinite(found)] = np.inf
        np.fill_diagonal(found, np.inf)
        return found


def nodes_of(person: Person, speeds: FullSpeeds, balls: Sequence[Ball], shares: Sequence[float]) -> Nodes:
    """Make every ball at every share a node; a throw slower or faster than is accepted is none.

    Parameters
    ----------
    shares : sequence of float
        Of full speed, the same for every ball.

    Raises
    ------
    InputError
        If the full speed with a ball is not known.
    """
    full = {ball: float(speeds.mean_speed(ball.mass_kg).estimate) for ball in balls}
    every = [
        (ball, share) for ball in balls for share in shares if SPEED_LIMIT.low <= share * full[ball] <= SPEED_LIMIT.high
    ]
    speed = np.array([share * full[ball] for ball, share in every])
    thrown = tuple(ball for ball, _ in every)
    return Nodes(thrown, np.array([share for _, share in every]), speed, metrics_at(person, thrown, speed))


@dataclass(frozen=True)
class Order:
    """Which balls a plan may go through, and when.

    Parameters
    ----------
    own : Ball, optional
        The goal's ball, where it has to come early: no ball follows that is further from its mass, and from `OWN_BY` of
        the steps on every step is with it.
    own_first_share : float
        The most of full speed with it at which it may come first.
    first_steps : int
        How many first steps keep the limits of the first throw; among these a step may come again.
    first_shares : mapping of Ball to (float, float)
        Least and most of full speed with each ball under these limits; a ball that is left out is not thrown there.
    before : int
        How many steps stand already before the first that is looked for: `OWN_BY` counts them.

    Raises
    ------
    InputError
        If a value is not accepted.
    """

    own: Ball | None = None
    own_first_share: float = 1.0
    first_steps: int = 0
    first_shares: Mapping[Ball, tuple[float, float]] = field(default_factory=dict)
    before: int = 0

    def __post_init__(self) -> None:
        check_number("own_first_share", self.own_first_share, SHARE_LIMIT)
        check_number("first_steps", self.first_steps, Limit(0, STEPS_LIMIT.high, "steps"))

    def own_from(self, count: int) -> int:
        """Place of the first step that has to be with the own ball, from 0, in a plan of so many steps."""
        return max(0, max(1, int(OWN_BY * (count + self.before) + ROUNDING)) - 1 - self.before)

    def may_stand(self, nodes: Nodes, count: int) -> NDArray[np.bool_]:
        """Whether a node may be the k-th step of so many; (count, n)."""
        allowed = np.ones((count, len(nodes.balls)), dtype=bool)
        if self.own is not None:
            allowed[self.own_from(count) :] = [ball == self.own for ball in nodes.balls]
        if self.first_steps:
            low, high = np.array([self.first_shares.get(ball, (1.0, 0.0)) for ball in nodes.balls]).T
            kept = (nodes.share >= low * (1.0 - ROUNDING)) & (nodes.share <= high * (1.0 + ROUNDING))
            allowed[: self.first_steps] &= kept
        return allowed

    def may_move(self, nodes: Nodes) -> NDArray[np.bool_]:
        """Whether a move leads no further from the own ball, and brings it no faster than it may come first; (n, n)."""
        if self.own is None:
            return np.ones((len(nodes.balls),) * 2, dtype=bool)
        own = np.array([ball == self.own for ball in nodes.balls])
        too_fast = own & (nodes.share > self.own_first_share * (1.0 + ROUNDING))
        apart = np.abs(np.log([ball.mass_kg / self.own.mass_kg for ball in nodes.balls]))
        return ~(~own[:, None] & too_fast[None, :]) & (apart[None, :] <= apart[:, None] + SAME)


ANY_ORDER = Order()
