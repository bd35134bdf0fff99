"""Weakly informed regression of log speed, on a grid.

    ln v_i = a - p x_i + c_i sigma + error,    error variance = d_i sigma^2,    x = ln((m + mu) / (m_own + mu))

Unknown are a = ln v_own (flat prior), p (gamma) and sigma (lognormal; `speed_prior`). p and sigma live on a grid that
closes in on where they may be, given each of some values of a; how probable those are comes from a's own distribution.

The law is a model of how the other balls compare; what was read with the own ball is not moved by it. So where there
are readings with the own ball, a is known from those alone (sigma from the scatter of each ball's readings
about their own mean), and p and sigma from all readings given each a that is then possible: what the others say goes
to p, never back to a. Without a reading of the own ball all is one regression. No random numbers: draws fill the
posterior evenly, and the same readings give the same answer.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtri
from scipy.stats import qmc

from model.speed_own import Drawn, Measured, Regressed, distribution, trapezoid
from model.speed_prior import EXPONENT_SCALE, EXPONENT_SHAPE, NOISE_LOG_SD, NOISE_MEDIAN

Array = NDArray[np.float64]

GRID = (121, 21)  # points over p and over ln sigma: the trapezoid rule converges faster than any power of the step
NODES = np.linspace(-5.0, 5.0, 17)  # values of a, in its standard deviations, given which p and sigma are found
FINE = np.linspace(-7.0, 7.0, 281)  # where the density of a itself is known
NEGLIGIBLE = 16.0  # natural logarithms below the highest posterior density: 1e-7 of it
ROUNDS = 6  # of closing in; two do, unless there are hundreds of readings
OWN_X = 3e-4  # x of what is the own ball: 0.1 g of 145 g is 1.6e-4
DRAWN_LOG2 = 12  # quantiles rest on 4 096 draws: they fill the posterior evenly, so that is good for 1e-3 of a spread
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
        """All but the i-th."""
        return self.only(np.arange(self.x.size) != i)

    def only(self, which: NDArray[np.bool_]) -> "Observations":
        """Some of them.

        Parameters
        ----------
        which : ndarray of bool (n,)
        """
        return Observations(*(values[which] for values in (self.x, self.log_speed, self.shift, self.spread)))


@dataclass(frozen=True)
class Posterior:
    """The joint posterior of p, sigma and a.

    Attributes
    ----------
    p, sigma : ndarray (P,), (K,)
    weight : ndarray (K, P)
        Probability of each pair; sums to 1.
    own : Measured, Regressed or None
        None without observations: then nothing is known of a.
    """

    p: Array
    sigma: Array
    weight: Array
    own: Measured | Regressed | None

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

    @cached_property
    def drawn(self) -> Drawn:
        """The draws that quantiles rest on."""
        return self.draw(DRAWN_LOG2)

    def draw(self, log2: int) -> Drawn:
        """Draw evenly.

        Parameters
        ----------
        log2 : int
            2 to this power is the number of draws.

        Raises
        ------
        ValueError
            Without observations.
        """
        if self.own is None:
            raise ValueError("nothing is known of the own-ball speed")
        cube = _filling(log2)
        three = self.own.draw(self.p, self.sigma, self.weight, cube[:, :3])
        return Drawn(*three, ndtri(cube[:, 3]), ndtri(cube[:, 4]))

    def quantile(
        self, probability: ArrayLike, x: Array, *, noise: float = 0.0, shift: float = 0.0, extra_sd: float = 0.0
    ) -> Array:
        """Quantiles of a - p x + (shift + noise z) sigma + extra_sd z'.

        Parameters
        ----------
        probability : array_like (Q,)
        x : ndarray (M,)
        noise, shift : float
            0 for the mean throw and 1 for one more throw; 0, but for the best of several throws.
        extra_sd : float
            Standard deviation of an independent normal term.

        Returns
        -------
        ndarray (Q, M)
        """
        drawn = self.drawn
        values = drawn.centres(x, shift) + noise * drawn.sigma * drawn.deviate + extra_sd * drawn.common
        return np.asarray(np.quantile(values, np.asarray(probability, dtype=float), axis=1))


@lru_cache(maxsize=4)
def _filling(log2: int) -> Array:
    """Points that fill the unit cube evenly, none on its faces (N, 5)."""
    return np.asarray(qmc.Sobol(5, scramble=False).random_base2(log2) + 0.5 / 2**log2)


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
    own = np.abs(seen.x) < OWN_X
    return _measured(seen, own) if own.any() else _regressed(seen)


def _regressed(seen: Observations) -> Posterior:
    """Without a reading of the own ball: one regression, with a integrated out."""
    if not seen.x.size:
        p, logs, density, _ = _closed_in(lambda p, logs: (_log_prior(p, logs), None))
        own = None
    else:
        p, logs, density, own = _closed_in(lambda p, logs: _without_own_speed(seen, p, logs))
    weight = np.exp(density - density.max()) * _cells(p, logs)
    return Posterior(p, np.exp(logs), weight / weight.sum(), own)


def _measured(seen: Observations, own: NDArray[np.bool_]) -> Posterior:
    """With readings of the own ball: a by those alone, p and sigma given a by all."""
    mean, sd, density_of = _own_ball(seen, own)
    nodes = mean + sd * NODES
    share = density_of(nodes)
    share = share / share.sum()

    typical = seen.spread * NOISE_MEDIAN**2
    doubt = EXPONENT_SHAPE * EXPONENT_SCALE**2  # variance of the prior
    slope = float(np.sum(seen.x / typical) / (np.sum(seen.x**2 / typical) + 1.0 / doubt))

    def given_each(offset: Array, logs: Array) -> tuple[Array, Array]:
        cells = _cells(offset, logs)
        density = np.stack([_given_own_speed(seen, a, offset + slope * (a - mean), logs) for a in nodes])
        given = np.exp(density - density.max(axis=(1, 2), keepdims=True)) * cells
        given /= given.sum(axis=(1, 2), keepdims=True)
        with np.errstate(divide="ignore"):
            return np.log(np.tensordot(share, given, axes=1) / cells), given

    offset, logs, _, given = _closed_in(given_each, _first_box(seen, mean))
    fine = mean + sd * FINE
    own_speed = Measured(fine, density_of(fine), nodes, share, given, offset, slope, mean)
    low, high = own_speed.reach(np.exp(-NEGLIGIBLE))
    p = np.linspace(max(low, WIDEST[0][0]), high, GRID[0]) if slope else offset
    return Posterior(p, np.exp(logs), own_speed.marginal(p), own_speed)


def _first_box(seen: Observations, a: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where to begin to close in on p and ln sigma given a: as if the prior of p were normal, and integrated out."""
    logs = np.linspace(*WIDEST[1], 4 * GRID[1])
    sigma = np.exp(logs)[:, None]
    precision = 1.0 / (seen.spread * sigma**2)
    apart = seen.log_speed - seen.shift * sigma - a
    middle, doubt = EXPONENT_SHAPE * EXPONENT_SCALE, EXPONENT_SHAPE * EXPONENT_SCALE**2
    variance = 1.0 / (np.sum(precision * seen.x**2, axis=1) + 1.0 / doubt)
    p = variance * (middle / doubt - np.sum(precision * apart * seen.x, axis=1))
    left = np.sum(precision * (apart + p[:, None] * seen.x) ** 2, axis=1) + (p - middle) ** 2 / doubt
    density = 0.5 * (np.log(precision).sum(axis=1) + np.log(variance) - left) + _log_prior(np.ones(1), logs)[:, 0]
    kept = density > density.max() - NEGLIGIBLE
    reach = np.maximum(8.0 * np.sqrt(variance), 0.01)[kept]
    low, high = WIDEST[0]
    p_range = max(float((p[kept] - reach).min()), -high), min(float((p[kept] + reach).max()) + low, high)
    return p_range, _around(logs, kept)


_Density = Callable[[Array], Array]
_Found = TypeVar("_Found")


def _closed_in(
    density_of: Callable[[Array, Array], tuple[Array, _Found]],
    widest: tuple[tuple[float, float], tuple[float, float]] = WIDEST,
) -> tuple[Array, Array, Array, _Found]:
    """Close in on where p and ln sigma may be: their grids, the log density there, and what came with it."""
    (p_low, p_high), (log_low, log_high) = widest
    for _ in range(ROUNDS):
        p, logs = np.linspace(p_low, p_high, GRID[0]), np.linspace(log_low, log_high, GRID[1])
        density, found = density_of(p, logs)
        kept = density > density.max() - NEGLIGIBLE
        box = (p_low, p_high, log_low, log_high)
        p_low, p_high = _around(p, kept.any(axis=0))
        log_low, log_high = _around(logs, kept.any(axis=1))
        if (p_high - p_low) > 0.7 * (box[1] - box[0]) and (log_high - log_low) > 0.7 * (box[3] - box[2]):
            break
    return p, logs, density, found


def _own_ball(seen: Observations, own: NDArray[np.bool_]) -> tuple[float, float, _Density]:
    """Mean, standard deviation and density of a by readings with the own ball alone.

    How much throws with each other ball scatter about their own mean tells of sigma, and of nothing else.
    """
    logs = np.linspace(*WIDEST[1], 4 * GRID[1])
    density, known = _without_own_speed(seen.only(own), np.ones(1), logs)
    density = density[:, 0]
    places = np.round(seen.x / OWN_X)
    for place in np.unique(places[~own]):
        alike = (places == place) & ~own
        scatter, _ = _without_own_speed(seen.only(alike), np.ones(1), logs)
        density = density + scatter[:, 0] - _log_prior(np.ones(1), logs)[:, 0]
    weight = np.exp(density - density.max()) * trapezoid(logs)
    return _mixed(known.log_speed, known.variance, weight / weight.sum())


def _mixed(centre: Array, variance: Array, weight: Array) -> tuple[float, float, _Density]:
    """Mean, standard deviation and density of a mixture of normals."""
    mean = float(weight @ centre)
    sd = float(np.sqrt(weight @ (variance + (centre - mean) ** 2)))

    def density(a: Array) -> Array:
        z2 = (a[:, None] - centre) ** 2 / variance
        return np.asarray((np.exp(-0.5 * z2) / np.sqrt(2.0 * np.pi * variance)) @ weight)

    return mean, sd, density


def _given_own_speed(seen: Observations, a: float, p: Array, logs: Array) -> Array:
    """Log posterior of p and ln sigma (K, P) for a given a, up to a constant."""
    sigma = np.exp(logs)[:, None]
    precision = 1.0 / (seen.spread * sigma**2)  # (K, n)
    apart = seen.log_speed - seen.shift * sigma - a
    squares, products, places = (
        np.sum(precision * one, axis=1)[:, None] for one in (apart**2, apart * seen.x, np.square(seen.x))
    )
    likelihood = 0.5 * np.log(precision).sum(axis=1)[:, None] - 0.5 * (squares + 2.0 * p * products + p**2 * places)
    return _log_prior(p, logs) + likelihood


def _without_own_speed(seen: Observations, p: Array, logs: Array) -> tuple[Array, Regressed]:
    """Log posterior of p and ln sigma (K, P), up to a constant, with a integrated out; and what is known of a."""
    sigma = np.exp(logs)[:, None]
    precision = 1.0 / (seen.spread * sigma**2)  # (K, n)
    total = precision.sum(axis=1)
    share = precision / total[:, None]
    y = seen.log_speed - seen.shift * sigma
    y_mean, x_mean = (share * y).sum(axis=1), share @ seen.x
    dy, dx = y - y_mean[:, None], seen.x - x_mean[:, None]
    syy, sxy, sxx = (np.sum(precision * a * b, axis=1)[:, None] for a, b in ((dy, dy), (dy, dx), (dx, dx)))
    density = _log_prior(p, logs) + 0.5 * (np.log(precision).sum(axis=1) - np.log(total))[:, None]
    return density - 0.5 * (syy + 2.0 * p * sxy + p**2 * sxx), Regressed(y_mean, x_mean, 1.0 / total)


def _log_prior(p: Array, logs: Array) -> Array:
    """Log prior of p and ln sigma (K, P), up to a constant."""
    there = p > 0.0
    with np.errstate(divide="ignore"):
        prior = (EXPONENT_SHAPE - 1.0) * np.log(np.where(there, p, 0.0)) - p / EXPONENT_SCALE
    return np.asarray(prior - 0.5 * ((logs[:, None] - np.log(NOISE_MEDIAN)) / NOISE_LOG_SD) ** 2)


def _cells(p: Array, logs: Array) -> Array:
    """Weights of the trapezoid rule over both."""
    return np.outer(trapezoid(logs), trapezoid(p))


def _around(grid: Array, kept: NDArray[np.bool_]) -> tuple[float, float]:
    """The stretch of a grid that is kept, a step wider on both sides."""
    where = np.flatnonzero(kept)
    return float(grid[max(where[0] - 1, 0)]), float(grid[min(where[-1] + 1, grid.size - 1)])
