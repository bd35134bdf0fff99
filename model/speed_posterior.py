"""Weakly informed regression of log speed, exact on a grid.

    ln v_i = a - p x_i + c_i sigma + error,    error variance = d_i sigma^2,    x = ln((m + mu) / (m_own + mu))

Unknown are a = ln v_own (flat prior), p (gamma) and sigma (lognormal; `speed_prior`). For given p and sigma, a is
normal and integrated out by hand; p and sigma live on a grid that closes in on where they may be. No random numbers:
the same readings give the same answer.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import elementwise
from scipy.special import ndtr

from model.speed_prior import EXPONENT_SCALE, EXPONENT_SHAPE, NOISE_LOG_SD, NOISE_MEDIAN

Array = NDArray[np.float64]

GRID = (121, 21)  # points over p and over ln sigma: the trapezoid rule converges faster than any power of the step
NEGLIGIBLE = 16.0  # natural logarithms below the highest posterior density: 1e-7 of it
THINNED = 2  # predictions use every second point both ways: 0.03 % of a speed at the worst, with one reading
DROPPED = 1e-6  # total probability of the grid points left out of predictions, at most
ROUNDS = 6  # of closing in; two do, unless there are hundreds of readings
WIDEST = ((1e-6, 25.0), (np.log(5e-4), np.log(0.4)))  # of p and ln sigma: over ten times the priors' reach either way


@dataclass(frozen=True)
class Observations:
    """What the regression sees; arrays (n,).

    Attributes
    ----------
    x : ndarray
        ln((m + mu) / (m_own + mu)).
    log_speed : ndarray
        ln of the speed in m/s.
    shift, spread : ndarray
        c and d: expected excess over a mean throw in sigma, and variance in sigma^2: 0 and 1 of a single throw, 0 and
        1/n of the mean of n, the normal order statistics of the best of n.
    """

    x: Array
    log_speed: Array
    shift: Array
    spread: Array

    def without(self, i: int) -> "Observations":
        """All but the i-th.

        Parameters
        ----------
        i : int

        Returns
        -------
        Observations
        """
        return Observations(*(np.delete(values, i) for values in (self.x, self.log_speed, self.shift, self.spread)))


@dataclass(frozen=True)
class OwnSpeed:
    """What is known of a = ln v_own for each sigma, p being given: normal, with mean log_speed + p x.

    Attributes
    ----------
    log_speed, x, variance : ndarray (K,)
    """

    log_speed: Array
    x: Array
    variance: Array


@dataclass(frozen=True)
class Posterior:
    """The joint posterior of p, sigma and a.

    Attributes
    ----------
    p, sigma : ndarray (P,), (K,)
    weight : ndarray (K, P)
        Probability of each pair; sums to 1.
    own : OwnSpeed or None
        None without observations: then nothing is known of a.
    """

    p: Array
    sigma: Array
    weight: Array
    own: OwnSpeed | None

    def cdf_p(self, p: ArrayLike) -> Array:
        """Probability that the exponent lies below p; arrays (...) alike."""
        return np.interp(np.asarray(p, dtype=float), *distribution(self.p, self.weight.sum(axis=0)))

    def quantile_p(self, probability: ArrayLike) -> Array:
        """Quantiles of the exponent; arrays (...) alike."""
        return np.interp(np.asarray(probability, dtype=float), *distribution(self.p, self.weight.sum(axis=0))[::-1])

    def quantile_sigma(self, probability: ArrayLike) -> Array:
        """Quantiles of the reading noise; arrays (...) alike."""
        logs = distribution(np.log(self.sigma), self.weight.sum(axis=1))[::-1]
        return np.exp(np.interp(np.asarray(probability, dtype=float), *logs))

    def components(self, x: Array, noise: float, shift: float) -> tuple[Array, Array, Array]:
        """The normals whose mixture is a - p x + (shift + noise z) sigma, z standard normal.

        Parameters
        ----------
        x : ndarray (M,)
        noise : float
            0 for the mean throw, 1 for one more throw.
        shift : float
            0, but for the best of several throws.

        Returns
        -------
        mean, sd : ndarray (M, J)
        weight : ndarray (J,)
            Of those that matter, summing to 1.

        Raises
        ------
        ValueError
            Without observations.
        """
        if self.own is None:
            raise ValueError("nothing is known of the own-ball speed")
        every = slice(None, None, THINNED)
        p, sigma, weight = self.p[every], self.sigma[every], self.weight[every, every]
        kept = weight > DROPPED / weight.size * weight.sum()
        centre = self.own.log_speed[every, None] + shift * sigma[:, None]
        mean = centre + p * (self.own.x[every, None] - x[:, None, None])
        variance = self.own.variance[every, None] + noise**2 * sigma[:, None] ** 2
        sd = np.sqrt(np.broadcast_to(variance, mean.shape)[:, kept])
        return mean[:, kept], sd, weight[kept] / weight[kept].sum()

    def quantile(
        self, probability: ArrayLike, x: Array, *, noise: float = 0.0, shift: float = 0.0, extra_sd: float = 0.0
    ) -> Array:
        """Quantiles of a - p x + (shift + noise z) sigma + extra_sd z'.

        Parameters
        ----------
        probability : array_like (Q,)
        x : ndarray (M,)
        noise, shift : float
            As `components` says.
        extra_sd : float
            Standard deviation of an independent normal term.

        Returns
        -------
        ndarray (Q, M)
        """
        mean, sd, weight = self.components(x, noise, shift)
        return mixture_quantiles(probability, mean, np.hypot(sd, extra_sd), np.broadcast_to(weight, mean.shape))


def mixture_quantiles(probability: ArrayLike, mean: Array, sd: Array, weight: Array) -> Array:
    """Quantiles of mixtures of normals.

    Parameters
    ----------
    probability : array_like (Q,)
    mean, sd, weight : ndarray (M, J)
        Of the normals; the weights of a row sum to 1.

    Returns
    -------
    ndarray (Q, M)
    """
    level = np.asarray(probability, dtype=float)[:, None]
    row = np.broadcast_to(np.arange(len(mean)), (level.size, len(mean)))

    def excess(value: Array, which: NDArray[np.intp], wanted: Array) -> Array:
        return np.einsum("...j,...j", ndtr((value[..., None] - mean[which]) / sd[which]), weight[which]) - wanted

    middle = np.einsum("ij,ij->i", mean, weight)
    whole_sd = np.sqrt(np.einsum("ij,ij->i", sd**2 + (mean - middle[:, None]) ** 2, weight))
    # Cantelli: no quantile lies farther from the mean than this
    reach = 1.001 * np.sqrt(np.maximum(level, 1.0 - level) / np.minimum(level, 1.0 - level)) * whole_sd
    bracket = tuple(np.broadcast_to(middle + sign * reach, row.shape) for sign in (-1.0, 1.0))
    levels = np.broadcast_to(level, row.shape)
    found = elementwise.find_root(excess, bracket, args=(row, levels), tolerances={"xatol": 1e-7})
    return np.asarray(found.x)


def posterior_of(seen: Observations) -> Posterior:
    """Compute the posterior on a grid.

    Parameters
    ----------
    seen : Observations
        None, one or many.

    Returns
    -------
    Posterior
        Without observations the prior.
    """
    (p_low, p_high), (log_low, log_high) = WIDEST
    for _ in range(ROUNDS):
        p, logs = np.linspace(p_low, p_high, GRID[0]), np.linspace(log_low, log_high, GRID[1])
        density, own = _log_density(seen, p, logs)
        kept = density > density.max() - NEGLIGIBLE
        box = (p_low, p_high, log_low, log_high)
        p_low, p_high = _around(p, kept.any(axis=0))
        log_low, log_high = _around(logs, kept.any(axis=1))
        if (p_high - p_low) > 0.7 * (box[1] - box[0]) and (log_high - log_low) > 0.7 * (box[3] - box[2]):
            break
    weight = np.exp(density - density.max()) * np.outer(_trapezoid(logs), _trapezoid(p))
    return Posterior(p, np.exp(logs), weight / weight.sum(), own)


def _log_density(seen: Observations, p: Array, logs: Array) -> tuple[Array, OwnSpeed | None]:
    """Log posterior of p and ln sigma (K, P), up to a constant, with a integrated out; and what is known of a."""
    prior = (EXPONENT_SHAPE - 1.0) * np.log(p) - p / EXPONENT_SCALE
    density = prior - 0.5 * ((logs[:, None] - np.log(NOISE_MEDIAN)) / NOISE_LOG_SD) ** 2
    if not seen.x.size:
        return density, None
    sigma = np.exp(logs)[:, None]
    precision = 1.0 / (seen.spread * sigma**2)  # (K, n)
    total = precision.sum(axis=1)
    share = precision / total[:, None]
    y = seen.log_speed - seen.shift * sigma
    y_mean, x_mean = (share * y).sum(axis=1), share @ seen.x
    dy, dx = y - y_mean[:, None], seen.x - x_mean[:, None]
    syy, sxy, sxx = (np.sum(precision * a * b, axis=1)[:, None] for a, b in ((dy, dy), (dy, dx), (dx, dx)))
    density = density + 0.5 * (np.log(precision).sum(axis=1) - np.log(total))[:, None]
    return density - 0.5 * (syy + 2.0 * p * sxy + p**2 * sxx), OwnSpeed(y_mean, x_mean, 1.0 / total)


def _around(grid: Array, kept: NDArray[np.bool_]) -> tuple[float, float]:
    """The stretch of a grid that is kept, a step wider on both sides."""
    where = np.flatnonzero(kept)
    return float(grid[max(where[0] - 1, 0)]), float(grid[min(where[-1] + 1, grid.size - 1)])


def _trapezoid(grid: Array) -> Array:
    """Weights of the trapezoid rule."""
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
    density = weight / _trapezoid(grid)
    slope = np.gradient(density, step, axis=-1, edge_order=2)
    area = 0.5 * step * (density[..., 1:] + density[..., :-1]) - step**2 / 12.0 * np.diff(slope)
    rising = np.concatenate((np.zeros((*weight.shape[:-1], 1)), np.cumsum(area, axis=-1)), axis=-1)
    fine = np.linspace(grid[0], grid[-1], 10 * (grid.size - 1) + 1)
    value = np.maximum.accumulate(CubicHermiteSpline(grid, rising, density, axis=-1)(fine), axis=-1)
    return fine, value / value[..., -1:]
