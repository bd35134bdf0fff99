"""What is known of an athlete's own-ball speed and, with it, of exponent and noise: measured, or carried over by the
law.

Both ways can be drawn from: a = ln v_own, p and sigma together, evenly, by points of a unit cube.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import CubicHermiteSpline
from scipy.special import ndtri

Array = NDArray[np.float64]

PARTS = 8  # into which the stretch of a about each node is cut, to put the marginal of p together


@dataclass(frozen=True)
class Drawn:
    """Draws, each as probable as the others; arrays (N,).

    Attributes
    ----------
    log_own, p, sigma : ndarray
        ln of the mean full-effort speed with the own ball (m/s), the exponent and the noise.
    common, deviate : ndarray
        Standard normal numbers, independent of all else: for an error that readings share, for a doubt from elsewhere.
    """

    log_own: Array
    p: Array
    sigma: Array
    common: Array
    deviate: Array

    def centres(self, x: ArrayLike, shift: float = 0.0) -> Array:
        """Logarithm of the mean speed at places x (M,) and, with a shift, that many sigma above it; ndarray (M, N)."""
        places = np.asarray(x, dtype=float)[..., None]
        return np.asarray(self.log_own - self.p * places + shift * self.sigma)


@dataclass(frozen=True)
class Regressed:
    """Own-ball speed that no reading was taken of: a given p and sigma is normal, with mean log_speed + p x.

    Attributes
    ----------
    log_speed, x, variance : ndarray (K,)
        For each sigma.
    """

    log_speed: Array
    x: Array
    variance: Array

    def draw(self, p: Array, sigma: Array, weight: Array, cube: Array) -> tuple[Array, Array, Array]:
        """Draw a, p and sigma (N,): p (P,), sigma (K,), their weight (K, P), and points of a unit cube (N, 3)."""
        of_a, of_sigma, of_p = cube.T
        row = np.searchsorted(np.cumsum(weight.sum(axis=1)), of_sigma).clip(max=sigma.size - 1)
        drawn = np.empty(row.size)
        for k in np.unique(row):
            here = row == k
            drawn[here] = np.interp(of_p[here], *distribution(p, weight[k])[::-1])
        return self.log_speed[row] + drawn * self.x[row] + np.sqrt(self.variance[row]) * ndtri(of_a), drawn, sigma[row]


@dataclass(frozen=True)
class Measured:
    """Own-ball speed known from readings with the own ball alone, and p and sigma given it.

    Attributes
    ----------
    fine, density : ndarray (F,)
        Values of a, equally spaced, and their probability density.
    nodes, share : ndarray (J,)
        Some values of a, equally spaced, and the probability that goes with each; sums to 1.
    given : ndarray (J, K, Q)
        Probability of each sigma and offset given each node; each sums to 1.
    offset : ndarray (Q,)
        Of p from slope (a - mean), equally spaced: so the exponents that go with each a lie close together.
    slope, mean : float
        Of p over a, and the a at which the offset is the exponent.
    """

    fine: Array
    density: Array
    nodes: Array
    share: Array
    given: Array
    offset: Array
    slope: float
    mean: float

    def draw(self, p: Array, sigma: Array, weight: Array, cube: Array) -> tuple[Array, Array, Array]:
        """As `Regressed.draw`; a and p have their own distributions exactly, each taken by itself."""
        of_a, of_sigma, of_p = cube.T
        a = np.interp(of_a, *distribution(self.fine, self.density * trapezoid(self.fine))[::-1])
        step = self.nodes[1] - self.nodes[0]
        node = np.rint((a - self.nodes[0]) / step).astype(int).clip(0, self.nodes.size - 1)
        reached = np.cumsum(self.given.sum(axis=2), axis=1)  # (J, K)
        row = (of_sigma[:, None] > reached[node]).sum(axis=1).clip(max=sigma.size - 1)
        group = node * sigma.size + row
        order = np.argsort(group, kind="stable")
        drawn = self.slope * (a - self.mean)
        density = self.given / trapezoid(self.offset)
        rising = np.cumsum(density[..., 1:] + density[..., :-1], axis=-1)
        for same in np.split(order, np.flatnonzero(np.diff(group[order])) + 1):
            reach = np.append(0.0, rising[node[same[0]], row[same[0]]])
            drawn[same] += np.interp(of_p[same] * reach[-1], reach, self.offset)
        rank = np.empty(a.size)
        rank[np.argsort(drawn, kind="stable")] = (np.arange(a.size) + 0.5) / a.size
        return a, np.interp(rank, *distribution(p, weight.sum(axis=0))[::-1]), sigma[row]

    def marginal(self, p: Array) -> Array:
        """Weight (K, P) of sigma and p over all a."""
        step = self.nodes[1] - self.nodes[0]
        parts = ((np.arange(PARTS) + 0.5) / PARTS - 0.5) * step
        finer = replace(self, nodes=(self.nodes[:, None] + parts).ravel())
        share = np.interp(finer.nodes, self.fine, self.density)
        given = np.repeat(self.given, PARTS, axis=0) * share[:, None, None]
        found = finer.over(p, given.transpose(1, 0, 2))
        return np.asarray(found / found.sum())

    def over(self, p: Array, weight: Array) -> Array:
        """Weights of offsets at each node (..., J, Q) -> weights of p (..., P), all nodes together."""
        place = p - self.slope * (self.nodes - self.mean)[:, None] - self.offset[0]
        place = place / (self.offset[1] - self.offset[0])
        left = np.floor(place).astype(int)
        inside = (left >= 0) & (left < self.offset.size - 1)
        left = np.where(inside, left, 0)
        part = place - left
        density = weight / trapezoid(self.offset)
        found = np.zeros((*weight.shape[:-2], p.size))
        for j in range(self.nodes.size):
            at = density[..., j, :]
            between = (1.0 - part[j]) * at[..., left[j]] + part[j] * at[..., left[j] + 1]
            found += np.where(inside[j], between, 0.0)
        return found * trapezoid(p)

    def reach(self, negligible: float) -> tuple[float, float]:
        """Lowest and highest p that is worth looking at: those not less probable than a share."""
        joint = self.share[:, None] * self.given.sum(axis=1)
        kept = joint > negligible * joint.max()
        at = self.offset + self.slope * (self.nodes - self.mean)[:, None]
        return float(at[kept].min()), float(at[kept].max())


def trapezoid(grid: Array) -> Array:
    """Weights of the trapezoid rule.

    Parameters
    ----------
    grid : ndarray (P,)
        Rising places.

    Returns
    -------
    ndarray (P,)
    """
    step = np.diff(grid)
    return 0.5 * (np.append(step, 0.0) + np.append(0.0, step))


def distribution(grid: Array, weight: Array) -> tuple[Array, Array]:
    """Distribution function on a grid ten times as fine, from the trapezoid-weighted probabilities at its points.

    The integral over a step is that of the cubic through both ends with their slopes: h (f0 + f1) / 2 + h^2 (f0' - f1')
    / 12; between the points it is the cubic with the density as its slope.

    Parameters
    ----------
    grid : ndarray (P,)
        Equally spaced.
    weight : ndarray (..., P)
        Not necessarily summing to 1.

    Returns
    -------
    grid : ndarray (10 P - 9,)
    value : ndarray (..., 10 P - 9)
        From 0 to 1.
    """
    step = float(grid[1] - grid[0])
    density = weight / trapezoid(grid)
    slope = np.gradient(density, step, axis=-1, edge_order=2)
    area = 0.5 * step * (density[..., 1:] + density[..., :-1]) - step**2 / 12.0 * np.diff(slope)
    rising = np.concatenate((np.zeros((*weight.shape[:-1], 1)), np.cumsum(area, axis=-1)), axis=-1)
    fine = np.linspace(grid[0], grid[-1], 10 * (grid.size - 1) + 1)
    value = np.maximum.accumulate(CubicHermiteSpline(grid, rising, density, axis=-1)(fine), axis=-1)
    return fine, value / value[..., -1:]
