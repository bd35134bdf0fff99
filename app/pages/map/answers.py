"""From the records to the map: reference, contour lines, speed profile, and the throw looked at."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from app.pages.map.asked import Asked, asked_of, window_of
from app.pages.map.window import fitting_window, levels_between
from app.records.reads import AthleteData
from app.show.added_throw import thrown
from app.show.from_records import case_of
from app.show.hundred import Hundred, hundred_of
from app.show.subject import Case, Fitted
from app.show.window import Window
from app.units.systems import METRIC, System
from model.ball import BALL_LIMITS, Ball
from model.interval import Interval
from model.load_map import contour, load_map
from model.person import Person
from model.quantity import Quantity, quantity_at
from model.readouts import Readouts, read_curves
from model.speed import SpeedProfile
from model.speed_readings import RadarReading
from model.throw import Throw, curves, path_loads

Array = NDArray[np.float64]

Thrown = tuple[tuple[int, Ball, float], ...]

MASS_ENDS = (BALL_LIMITS["mass_kg"].low, BALL_LIMITS["mass_kg"].high)
NODES = 13  # ball masses at which a line is computed; it is drawn smoothly through them
GRID = (41, 31)  # masses and speeds at which the map tells its value under the pointer


@dataclass(frozen=True)
class Contour:
    """One line of the map.

    Attributes
    ----------
    percent : int
        Of the reference throw's value.
    value : float
        In the quantity's unit.
    speed_m_s : ndarray (M,)
        For each mass of the map (m/s); NaN where no accepted speed reaches the value.
    rack_m_s : tuple of float
        For each ball of the rack, with its own diameter.
    """

    percent: int
    value: float
    speed_m_s: Array
    rack_m_s: tuple[float, ...]


@dataclass(frozen=True)
class Grid:
    """The quantity over the drawn part: masses (M,) in kg, speeds (V,) in m/s, values (M, V) in the quantity's unit."""

    mass_kg: Array
    speed_m_s: Array
    value: Array


@dataclass(frozen=True)
class Looked:
    """The throw that is looked at, and its readings.

    Attributes
    ----------
    throw : Throw
    readouts, reference : Readouts
        Of the throw and of the reference throw.
    full_speed_m_s : Interval or None
        The athlete's mean full-effort throw with this ball; of arrays (1,).
    """

    throw: Throw
    readouts: Readouts
    reference: Readouts
    full_speed_m_s: Interval | None


@dataclass(frozen=True)
class MapAnswer:
    """All that the page shows, as numbers.

    Attributes
    ----------
    case : Case
    asked : Asked
    hundred : Hundred or None
        None while measures or reference are missing: then there is no map.
    value : float
        Of the reference throw; NaN where it has no such quantity, and then there are no lines.
    window : Window or None
    ends_problems : tuple of str
        Of axes whose ends meet or cross.
    mass_kg : ndarray (M,)
        Masses of the lines.
    contours : tuple of Contour
        From the smallest per cent.
    grid : Grid or None
    speeds : Interval or None
        Speed profile over `mass_kg`.
    readings : tuple of RadarReading
        As release speeds.
    thrown : tuple of (int, Ball, float)
        Number, ball and speed (m/s) of the throws in Compare.
    looked : Looked or None
    """

    case: Case
    asked: Asked
    hundred: Hundred | None = None
    value: float = float("nan")
    window: Window | None = None
    ends_problems: tuple[str, ...] = ()
    mass_kg: Array = field(default_factory=lambda: np.empty(0))
    contours: tuple[Contour, ...] = ()
    grid: Grid | None = None
    speeds: Interval | None = None
    readings: tuple[RadarReading, ...] = ()
    thrown: Thrown = ()
    looked: Looked | None = None

    @property
    def on_prior(self) -> bool:
        """Whether published groups alone say how much this athlete slows down with another ball."""
        return self.case.profile is not None and self.case.profile.exponent_is_prior

    @property
    def quantity(self) -> Quantity:
        """What is drawn."""
        return self.asked.quantity


def map_of(data: AthleteData, today: date, system: System = METRIC) -> MapAnswer:
    """Work out all that the page shows; without lines while the measures or the reference are missing."""
    case = case_of(data, today, system)
    asked = asked_of(data, case)
    hundred = hundred_of(case, asked.base)
    if hundred is None or case.person is None:
        return MapAnswer(case, asked)
    in_compare = thrown(data, case)
    others = [(ball, speed) for _, ball, speed in in_compare]
    fitting = fitting_window(hundred.throw, case.rack, case.found.used, case.profile, others)
    window, problems = window_of(data, fitting, system)
    own = hundred.throw.ball
    loads = path_loads(case.person, own.diameter_m)
    value = float(quantity_at(loads, asked.quantity, own.mass_kg, hundred.throw.speed_m_s))
    mass = np.geomspace(window.mass_low_kg, window.mass_high_kg, NODES)
    contours: tuple[Contour, ...] = ()
    grid = None
    if np.isfinite(value) and value > 0.0:
        grid = _grid(case.person, own.diameter_m, asked.quantity, window)
        percents = levels_between(100.0 * grid.value / value)
        nodes = tuple(mass.tolist())
        contours = tuple(_contour(case.person, own, asked.quantity, one, value, nodes, case.rack) for one in percents)
    return MapAnswer(
        case,
        asked,
        hundred,
        value,
        window,
        tuple(problems),
        mass,
        contours,
        grid,
        full_speeds(case.profile, mass.tolist()),
        case.found.used,
        in_compare,
        _looked(case, hundred, asked),
    )


@lru_cache(maxsize=64)
def _grid(person: Person, diameter_m: float, quantity: Quantity, window: Window) -> Grid:
    mass = np.geomspace(window.mass_low_kg, window.mass_high_kg, GRID[0])
    speed = np.linspace(window.speed_low_m_s, window.speed_high_m_s, GRID[1])
    mass[[0, -1]] = window.mass_low_kg, window.mass_high_kg  # a rounding error may leave the accepted range
    return Grid(mass, speed, load_map(path_loads(person, diameter_m), quantity, mass, speed))


@lru_cache(maxsize=1024)
def _contour(
    person: Person,
    own: Ball,
    quantity: Quantity,
    percent: int,
    hundred: float,
    mass_kg: tuple[float, ...],
    rack: tuple[Ball, ...],
) -> Contour:
    """A line, and its speeds for the rack; balls of the own one's diameter are solved for together with the line."""
    value = percent / 100.0 * hundred
    speeds: dict[Ball, float] = {}
    line = np.empty(0)
    for diameter_m in {own.diameter_m, *(ball.diameter_m for ball in rack)}:
        balls = [ball for ball in rack if ball.diameter_m == diameter_m]
        nodes = mass_kg if diameter_m == own.diameter_m else ()
        masses = [*nodes, *(ball.mass_kg for ball in balls)]
        found = contour(path_loads(person, diameter_m), quantity, value, np.clip(masses, *MASS_ENDS))
        speeds |= dict(zip(balls, found[len(nodes) :].tolist(), strict=True))
        if nodes:
            line = found[: len(nodes)]
    return Contour(percent, value, line, tuple(speeds[ball] for ball in rack))


def full_speeds(profile: SpeedProfile | None, mass_kg: Iterable[float]) -> Interval | None:
    """The athlete's mean full-effort speed with each of several balls.

    Parameters
    ----------
    profile : SpeedProfile or None
    mass_kg : iterable of float

    Returns
    -------
    Interval or None
        Of arrays (m/s); None while nothing is known of any speed.
    """
    if profile is None or profile.posterior.own is None:
        return None
    return _full_speeds(Fitted(profile), tuple(mass_kg))


@lru_cache(maxsize=256)
def _full_speeds(fitted: Fitted, mass_kg: tuple[float, ...]) -> Interval:
    return fitted.profile.mean_speed(np.clip(mass_kg, *MASS_ENDS))


def _looked(case: Case, hundred: Hundred, asked: Asked) -> Looked | None:
    spot = asked.spot
    if spot.mass_kg is None or spot.speed_m_s is None:
        return None
    reference = hundred.throw
    throw = Throw(reference.person, Ball(spot.mass_kg, reference.ball.diameter_m), spot.speed_m_s)
    readouts = [read_curves(curves(one), asked.quantity.reading) for one in (throw, reference)]
    return Looked(throw, readouts[0], readouts[1], full_speeds(case.profile, [spot.mass_kg]))
