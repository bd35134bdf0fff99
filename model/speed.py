"""An athlete's speed profile: how fast this athlete throws that ball at full effort, from radar readings.

    v(m) = v_own ((m_own + mu) / (m + mu))^p

mu is the arm's own equivalent mass, known from the mechanics (`equivalent_mass`); p, v_own and the noise of the
readings are fitted (`speed_posterior`), with a prior for p from published data (`speed_prior`). v_own and every speed
here is the *mean* full-effort throw; a next throw scatters about it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.ball import BALL_LIMITS, Ball
from model.checks import InputError, Limit, check_number
from model.equivalent_mass import equivalent_mass
from model.interval import LEVEL, Interval, check_numbers, tails_of
from model.person import Person
from model.speed_posterior import Posterior, posterior_of
from model.speed_readings import SAME_BALL_KG, Point, RadarReading, observations_of, points_of
from model.throw import SPEED_LIMIT, path_loads

Array = NDArray[np.float64]

MU_LIMIT = Limit(0.01, 5.0, "kg")
COMMON_LIMIT = Limit(0.0, 0.5, "of the speed")


def speed_ratio(mass_kg: ArrayLike, own_mass_kg: float, mu_kg: float, p: ArrayLike) -> Any:
    """Speed with a ball as a share of the speed with the own ball: ((m_own + mu) / (m + mu))^p.

    Parameters
    ----------
    mass_kg, p : array_like
        Ball mass (kg) and exponent, broadcast together.
    own_mass_kg, mu_kg : float
        Own ball and equivalent mass of the arm (kg).
    """
    return ((own_mass_kg + mu_kg) / (np.asarray(mass_kg) + mu_kg)) ** np.asarray(p)


@dataclass(frozen=True)
class SpeedProfile:
    """What is known of how an athlete's full-effort speed depends on the ball's mass.

    Attributes
    ----------
    own_mass_kg, mu_kg : float
        Own ball and equivalent mass of the arm (kg).
    basis : {'all', 'mean', 'best'}
        What was fitted to.
    points : tuple of Point
        What was fitted to.
    left_out : tuple of RadarReading
        Readings at less than full effort.
    own_speed_is_given : bool
        Whether a typed own-ball speed is among the points, there being no reading with the own ball.
    common_relative_sd : float
        Error that all readings share (of a radar correction), relative.
    """

    own_mass_kg: float
    mu_kg: float
    basis: str
    points: tuple[Point, ...]
    left_out: tuple[RadarReading, ...]
    own_speed_is_given: bool
    common_relative_sd: float
    posterior: Posterior

    @property
    def exponent_is_prior(self) -> bool:
        """Whether the readings say nothing of p: there are none, or all are of one ball."""
        return len({round(self.x(point.ball_mass_kg).item(), 6) for point in self.points}) < 2

    def x(self, mass_kg: ArrayLike) -> Array:
        """The abscissa of the regression, ln((m + mu) / (m_own + mu)), for masses in kg; arrays (...) alike."""
        return np.log((np.asarray(mass_kg, dtype=float) + self.mu_kg) / (self.own_mass_kg + self.mu_kg))

    def exponent(self, level: float = LEVEL) -> Interval:
        """The exponent p.

        Parameters
        ----------
        level : float
            Probability of the interval.
        """
        low, middle, high = self.posterior.quantile_p(tails_of(level)).tolist()
        return Interval(middle, low, high, level)

    def probability_below(self, p: ArrayLike) -> Any:
        """Probability that the exponent lies below p."""
        return self.posterior.cdf_p(p)

    def noise(self, level: float = LEVEL) -> Interval:
        """Relative standard deviation of repeated full-effort throws.

        Parameters
        ----------
        level : float
            Probability of the interval.
        """
        low, middle, high = self.posterior.quantile_sigma(tails_of(level)).tolist()
        return Interval(middle, low, high, level)

    def own_speed(self, level: float = LEVEL) -> Interval:
        """Mean full-effort speed with the own ball (m/s): `mean_speed` at that ball, and refused alike."""
        return self.mean_speed(self.own_mass_kg, level)

    def mean_speed(self, mass_kg: ArrayLike, level: float = LEVEL) -> Interval:
        """Mean full-effort speed with a ball.

        Parameters
        ----------
        mass_kg : array_like (M,) or float
            Ball mass (kg).
        level : float
            Probability of the interval.

        Returns
        -------
        Interval
            Speeds (m/s); floats for a float.

        Raises
        ------
        InputError
            Without any full-effort reading or own-ball speed, or if a mass is not accepted.
        """
        return self._speed(mass_kg, level, 0.0)

    def next_speed(self, mass_kg: ArrayLike, level: float = LEVEL) -> Interval:
        """Speed of one more full-effort throw with a ball: the mean's uncertainty and the scatter of throws.

        Parameters
        ----------
        mass_kg : array_like (M,) or float
            Ball mass (kg).
        level : float
            Probability of the interval.

        Returns
        -------
        Interval
            Speeds (m/s); floats for a float.

        Raises
        ------
        InputError
            As `mean_speed`.
        """
        return self._speed(mass_kg, level, 1.0)

    def ratio(self, mass_kg: ArrayLike, level: float = LEVEL) -> Interval:
        """Speed with a ball as a share of the speed with the own ball; needs no reading.

        Parameters
        ----------
        mass_kg : array_like (M,) or float
            Ball mass (kg).
        level : float
            Probability of the interval.
        """
        quantiles = self.posterior.quantile_p(tails_of(level))
        edges = speed_ratio(np.asarray(mass_kg)[..., None], self.own_mass_kg, self.mu_kg, quantiles)
        found = (edges[..., 1], edges.min(axis=-1), edges.max(axis=-1))
        low, middle, high = (value.item() if value.ndim == 0 else value for value in (found[1], found[0], found[2]))
        return Interval(middle, low, high, level)

    def _speed(self, mass_kg: ArrayLike, level: float, noise: float) -> Interval:
        if self.posterior.own is None:
            raise InputError("readings", "none at full effort", "at least one, or an own-ball speed")
        masses = check_numbers("ball_mass_kg", mass_kg, BALL_LIMITS["mass_kg"])
        found = self.posterior.quantile(
            tails_of(level), self.x(masses.ravel()), noise=noise, extra_sd=self.common_relative_sd
        )
        low, middle, high = np.exp(found).reshape(3, *masses.shape)
        if masses.ndim == 0:
            return Interval(middle.item(), low.item(), high.item(), level)
        return Interval(middle, low, high, level)


def fit(
    readings: Iterable[RadarReading],
    own_mass_kg: float,
    mu_kg: float,
    *,
    basis: str = "all",
    own_speed_m_s: float | None = None,
    common_relative_sd: float = 0.0,
) -> SpeedProfile:
    """Fit a speed profile.

    Parameters
    ----------
    readings : iterable of RadarReading
        None, one or many, in any order, with or without the own ball.
    own_mass_kg, mu_kg : float
        Own ball and equivalent mass of the arm (kg).
    basis : {'all', 'mean', 'best'}
        Work from every throw, or from the mean or the best of each ball.
    own_speed_m_s : float, optional
        A typed full-effort speed with the own ball (m/s). Counts as one reading if there is no full-effort reading with
        the own ball; otherwise the readings take its place.
    common_relative_sd : float
        Relative error that all readings share (`radar.Corrected.relative_sd`): widens every speed, not p.

    Returns
    -------
    SpeedProfile
        With no reading, or readings of one ball only, p is as the prior has it.

    Raises
    ------
    InputError
        If a value is outside its accepted range, or as `points_of` says.
    """
    own_mass_kg = check_number("own_mass_kg", own_mass_kg, BALL_LIMITS["mass_kg"])
    mu_kg = check_number("mu_kg", mu_kg, MU_LIMIT)
    common = check_number("common_relative_sd", common_relative_sd, COMMON_LIMIT)
    points, left_out = points_of(readings, basis)
    given = own_speed_m_s is not None and not any(
        abs(point.ball_mass_kg - own_mass_kg) < SAME_BALL_KG for point in points
    )
    if given:
        points = (Point(own_mass_kg, check_number("own_speed_m_s", own_speed_m_s, SPEED_LIMIT), 1), *points)
    posterior = posterior_of(observations_of(points, basis, own_mass_kg, mu_kg))
    return SpeedProfile(own_mass_kg, mu_kg, basis, points, left_out, given, common, posterior)


def fit_athlete(
    person: Person,
    own_ball: Ball,
    readings: Iterable[RadarReading],
    *,
    basis: str = "all",
    own_speed_m_s: float | None = None,
    common_relative_sd: float = 0.0,
) -> SpeedProfile:
    """Fit a speed profile with the equivalent mass of the athlete's own arm.

    Parameters
    ----------
    readings, basis, own_speed_m_s, common_relative_sd : as `fit`

    Raises
    ------
    InputError
        As `fit`.
    """
    mu_kg = equivalent_mass(path_loads(person, own_ball.diameter_m), own_ball.mass_kg).mass_kg
    return fit(
        readings,
        own_ball.mass_kg,
        mu_kg,
        basis=basis,
        own_speed_m_s=own_speed_m_s,
        common_relative_sd=common_relative_sd,
    )
