"""The motion solved anew for other balls, speeds, tolerances and durations: how far the clock law can be off.

The clock law says that a person moves along the same path with every ball, only slower. What a person would do who
adapts is asked of the solver: the same landmarks of angle, the ball and speed of the throw, and tolerances of torque
that go along with the throw (`solve_recipe.recipe_for`). With

    x = ln((m + mu) / (m_own + mu)),    y = ln(v / own full-effort speed with the own ball)

the tolerances of torque are multiplied by k = e^(alpha x + 2 beta y): alpha = beta = 1 tolerates as much as the clock
law predicts at the peak, alpha = beta = 0 no more than with the own ball at full effort. Each body solves its own
full-effort throw with the own ball first, and every difference is told from that. `STRUCTURAL_BAND.md` says what came
out and what is made of it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.band_table import ALPHA_MEAN, ALPHA_SD, LACK_MEAN, LACK_SD, SOLVED_MASS_KG, TAU_SD
from model.equivalent_mass import equivalent_mass
from model.person import Person
from model.solve_motion import Solution, solve
from model.solve_recipe import REFERENCE_BALL, REFERENCE_PERSON, Recipe, Throwing, recipe_for
from model.throw import Throw, curves, path_loads

Array = NDArray[np.float64]

OWN_MASS_KG = REFERENCE_BALL.mass_kg
MASSES_KG = (0.095, 0.120, 0.200, 0.275, 0.360, 0.470, 0.600, 0.800)  # beside the own ball's
SLOW_MASSES_KG = (0.095, 0.145, 0.275, 0.470)
EXPONENTS = (0.3, 0.5, 0.76)  # of the speed profile: full effort with each ball
SHARES = (0.5, 0.6, 0.7, 0.8, 0.85, 0.9)  # of full speed with that ball (exponent 0.76)
DURATIONS = (0.85, 1.15)
PREDICTED, UNCHANGED, SLOWED = (1.0, 1.0), (0.0, 0.0), (0.0, 1.0)  # (alpha, beta): P, k = 1 and k = s2
HELD_OUT = {"man": 48, "woman": 12, "boy": 12}  # solves that no fit sees
SEED = 20260113


@dataclass(frozen=True)
class Body:
    """One who throws in the grid, with the mean full-effort speed with the own ball (m/s)."""

    person: Person
    own_speed_m_s: float


BODIES = {
    "man": Body(REFERENCE_PERSON, 37.0),
    "woman": Body(Person("female", 1.70, 65.0, 22.0), 27.0),
    "boy": Body(Person("male", 1.60, 48.0, 13.0), 24.6),
}


def _scaled(scales: dict[str, float], factor: float) -> dict[str, float]:
    return {key: scale * factor for key, scale in scales.items()}


@cache
def recipes() -> dict[str, Recipe]:
    """The recipe and twelve others that also reach the targets, or nearly: what the band must not hang on."""
    full, never = Recipe(), 1e9
    light = replace(full, torque_scale_nm=_scaled(full.torque_scale_nm, 1 / 0.7))
    return {
        "recipe": full,
        "12 intervals": replace(full, intervals=12),
        "20 intervals": replace(full, intervals=20),
        "24 intervals": replace(full, intervals=24),
        "32 intervals": replace(full, intervals=32),
        "torque x 0.7": light,
        "torque x 1.1": replace(full, torque_scale_nm=_scaled(full.torque_scale_nm, 1 / 1.1)),
        "varus after release 0.4": replace(full, after_release_varus=0.4),
        "varus after release 4": replace(full, after_release_varus=4.0),
        "no other ceilings": replace(full, ceiling_scale_nm=never),
        "no limits of joint speed": replace(
            full, rate_limits=tuple(limit for limit in full.rate_limits if limit[4] >= 1.0)
        ),
        "jerk x 2": replace(full, jerk_weight=_scaled(full.jerk_weight, 2.0)),
        "torque rate x 2": replace(full, torque_rate_scale_nm=_scaled(full.torque_rate_scale_nm, 0.5)),
    }


@dataclass(frozen=True)
class Task:
    """One throw to solve for.

    Attributes
    ----------
    body, recipe : str
        Keys of `BODIES` and `recipes()`.
    mass_kg, speed_m_s : float
        Ball (kg) and release speed (m/s).
    alpha, beta : float
        Of the tolerances.
    duration : float
        Factor on the clock law's time from foot contact to release.
    held_out : bool
        Whether it is kept from the fit, to hold the band against.
    """

    body: str
    recipe: str
    mass_kg: float
    speed_m_s: float
    alpha: float = 1.0
    beta: float = 1.0
    duration: float = 1.0
    held_out: bool = False

    @property
    def key(self) -> str:
        """A name that no other task has."""
        numbers = (self.mass_kg, self.speed_m_s, self.alpha, self.beta, self.duration)
        return "|".join((self.body, self.recipe, *(f"{number:.4f}" for number in numbers)))

    @property
    def x(self) -> float:
        """ln((m + mu) / (m_own + mu))."""
        mu = mu_kg(self.body)
        return float(np.log((self.mass_kg + mu) / (OWN_MASS_KG + mu)))

    @property
    def y(self) -> float:
        """ln(v / own full-effort speed with the own ball)."""
        return float(np.log(self.speed_m_s / BODIES[self.body].own_speed_m_s))

    @property
    def own(self) -> "Task":
        """The same body's full-effort throw with the own ball, by the same recipe."""
        return own_throw(self.body, self.recipe)


@cache
def mu_kg(body: str) -> float:
    """Equivalent mass of a body's arm at the varus peak.

    Returns
    -------
    float
        kg.
    """
    return equivalent_mass(path_loads(BODIES[body].person, REFERENCE_BALL.diameter_m), OWN_MASS_KG).mass_kg


def own_throw(body: str, recipe: str = "recipe") -> Task:
    """A body's full-effort throw with the own ball."""
    return Task(body, recipe, OWN_MASS_KG, BODIES[body].own_speed_m_s)


def _at(body: str, mass_kg: float, p: float, share: float = 1.0, **others: Any) -> Task:
    mu = mu_kg(body)
    speed = BODIES[body].own_speed_m_s * share * ((OWN_MASS_KG + mu) / (mass_kg + mu)) ** p
    return Task(body, others.pop("recipe", "recipe"), mass_kg, speed, **others)


def tasks() -> tuple[Task, ...]:
    """Everything the grid solves, own throws first.

    Returns
    -------
    tuple of Task
        Each once.
    """
    found = [own_throw("man", name) for name in recipes()] + [own_throw("woman"), own_throw("boy")]
    for ways in (_full_effort, _slow, _durations, _between, _other_bodies, _other_recipes, _held_out):
        found += list(ways())
    return tuple({task.key: task for task in found}.values())


def _full_effort() -> Iterator[Task]:
    for mass in MASSES_KG:
        for p in EXPONENTS:
            for alpha, beta in (PREDICTED, UNCHANGED):
                yield _at("man", mass, p, alpha=alpha, beta=beta)


def _slow() -> Iterator[Task]:
    for mass in SLOW_MASSES_KG:
        for share in SHARES:
            for alpha, beta in (PREDICTED, UNCHANGED, SLOWED):
                if mass != OWN_MASS_KG or (alpha, beta) != SLOWED:  # the same as P there
                    yield _at("man", mass, EXPONENTS[-1], share, alpha=alpha, beta=beta)
    for alpha, beta in (SLOWED,):
        yield _at("man", 0.800, EXPONENTS[-1], alpha=alpha, beta=beta)


def _durations() -> Iterator[Task]:
    for duration in DURATIONS:
        for mass, share in ((OWN_MASS_KG, 1.0), (0.275, 1.0), (0.470, 1.0), (OWN_MASS_KG, 0.7), (0.275, 0.85)):
            yield _at("man", mass, EXPONENTS[-1], share, duration=duration)


def _between() -> Iterator[Task]:
    for alpha, beta in ((0.5, 0.5), (0.5, 1.0), (1.0, 0.5), (1.5, 1.0)):
        for mass, share in ((0.275, 1.0), (0.470, 1.0), (0.275, 0.7)):
            yield _at("man", mass, EXPONENTS[-1], share, alpha=alpha, beta=beta)


def _other_bodies() -> Iterator[Task]:
    for body in ("woman", "boy"):
        for alpha, beta in (PREDICTED, UNCHANGED):
            for mass in (0.095, 0.275, 0.470):
                for p in (EXPONENTS[0], EXPONENTS[-1]):
                    yield _at(body, mass, p, alpha=alpha, beta=beta)
            for mass, share in ((OWN_MASS_KG, 0.6), (OWN_MASS_KG, 0.85), (0.275, 0.75)):
                yield _at(body, mass, EXPONENTS[-1], share, alpha=alpha, beta=beta)


def _other_recipes() -> Iterator[Task]:
    for name in list(recipes())[1:]:
        for alpha, beta in (PREDICTED, UNCHANGED):
            for mass, p, share in (
                (0.275, EXPONENTS[-1], 1.0),
                (0.470, EXPONENTS[-1], 1.0),
                (0.470, EXPONENTS[0], 1.0),
                (OWN_MASS_KG, 1.0, 0.85),
                (OWN_MASS_KG, 1.0, 0.65),
            ):
                yield _at("man", mass, p, share, alpha=alpha, beta=beta, recipe=name)


def _held_out() -> Iterator[Task]:
    rng = np.random.default_rng(SEED)
    for body, count in HELD_OUT.items():
        for _ in range(count):
            mass = float(np.exp(rng.uniform(*np.log(SOLVED_MASS_KG))))
            task = _at(body, mass, float(rng.uniform(0.2, 1.1)), float(rng.uniform(0.7, 1.0)))
            alpha, beta = float(rng.normal(ALPHA_MEAN, ALPHA_SD)), 1.0 - float(rng.normal(LACK_MEAN, LACK_SD))
            duration = float(np.exp(-rng.normal(0.0, TAU_SD) * task.y))
            yield replace(task, alpha=alpha, beta=beta, duration=duration, held_out=True)


@cache
def _size(body: str) -> tuple[float, float, float]:
    """Clock, torque and force of a body's own throw by the clock law, as multiples of the reference throw's."""

    def of(body: str) -> tuple[float, float]:
        found = curves(Throw(BODIES[body].person, REFERENCE_BALL, BODIES[body].own_speed_m_s))
        before = found.phase <= 1.0
        return found.values["varus"][before].max(), found.values["shoulder_proximal"].max()

    if body == "man":
        return 1.0, 1.0, 1.0
    loads = path_loads(BODIES[body].person, REFERENCE_BALL.diameter_m)
    torque, force = (own / reference for own, reference in zip(of(body), of("man"), strict=True))
    return float(loads.clock(BODIES[body].own_speed_m_s)), float(torque), float(force)


def problem_of(task: Task) -> tuple[Recipe, Throwing]:
    """What the solver is asked."""
    body = BODIES[task.body]
    own_clock, torque, force = _size(task.body)
    clock = own_clock * task.speed_m_s / body.own_speed_m_s
    tolerance = float(np.exp(task.alpha * task.x + 2.0 * task.beta * task.y))
    recipe = recipe_for(
        recipes()[task.recipe], clock, task.speed_m_s, torque * tolerance, force * tolerance, task.duration
    )
    return recipe, Throwing(body.person, Ball(task.mass_kg, REFERENCE_BALL.diameter_m), clock)


def solve_task(task: Task, start: Array | None = None) -> Solution:
    """Solve one task.

    Parameters
    ----------
    start : ndarray (K * 8,), optional
        Where to begin: the own throw's coefficients (rad) by the same recipe.

    Raises
    ------
    RuntimeError
        If the solver does not come to rest.
    """
    recipe, throwing = problem_of(task)
    return solve(recipe, None, start, throwing)
