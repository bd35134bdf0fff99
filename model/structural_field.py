"""What is not known of how one athlete moves, drawn once for all throws and all readouts of that athlete.

    ln R of draw i  =  ln R by the clock law  +  X_i [f(x) - f(x_ref)]  +  Y_i [f(y) - f(y_ref)] X = share (a0 + a1
    alpha) - mean  +  along_x z_x  +  rest_x z      Y = b1 (lack - mean) - g tau + along_y z_y + rest_y z'

share, alpha, lack = 1 - beta, tau, z_x and z_y are the athlete's, z and z' a pair of each readout's own (`band_fit`:
what each is, and how large). A difference vanishes where two throws coincide and turns its sign with their order.
Beyond what was solved (470 g, |y| = 0.5) f goes on rising, more and more slowly:

    f(u) = u up to u0,   u0 + c (1 - exp(-(u - u0) / c)) beyond,   and the same mirrored below zero

The draws fill every factor's distribution evenly, in an order of their own, by a fixed seed: the same question has the
same answer.
"""

import zlib
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtri

from model.band_table import ALPHA_MEAN, ALPHA_SD, LACK_SD, SOLVED_MASS_KG, SOLVED_Y, TAU_SD, Key, stored_band

Array = NDArray[np.float64]

DRAWS = 2048
SEED = 20260113
BEND = 0.5  # c: how soon the field stops growing beyond what was solved; the solves of 600 and 800 g bend like that
NO_CLAIM_X = 1.0  # S in x from which nothing is said across masses: as uncertain as the law's own m + mu is strong
NO_CLAIM_Y = 2.0  # S in y from which nothing is said across speeds: as uncertain as the law's own s2 is strong
SAME = 0.02  # x or y of two throws that are as good as equal in it: some 13 g at 145 g, 2 % of a speed


@lru_cache(maxsize=4096)
def evenly(name: str, stream: int = 0) -> Array:
    """Numbers that fill 0 to 1 evenly, none at the ends, in an order that goes with a name.

    Parameters
    ----------
    name : str
        What they are for; each name has an order of its own.
    stream : int
        Another athlete's order.

    Returns
    -------
    ndarray (DRAWS,)
        Read-only.
    """
    rng = np.random.default_rng((SEED, stream, zlib.crc32(name.encode())))
    found = (rng.permutation(DRAWS) + 0.5) / DRAWS
    found.flags.writeable = False
    return found


@lru_cache(maxsize=4096)
def deviates(name: str, stream: int = 0) -> Array:
    """Standard normal numbers, by `evenly`.

    Returns
    -------
    ndarray (DRAWS,)
        Read-only; mean 0 exactly.
    """
    found = np.asarray(ndtri(evenly(name, stream)))
    found.flags.writeable = False
    return found


@lru_cache(maxsize=512)
def slopes(key: Key, stream: int = 0) -> tuple[Array, Array]:
    """X and Y of a readout for every draw of an athlete.

    Parameters
    ----------
    key : (str, str)
        A reading and a readout of it, one of `grid_table.KEYS`.
    stream : int
        Which athlete.

    Returns
    -------
    (ndarray (DRAWS,), ndarray (DRAWS,))
        Of ln R for each unit of x and of y; NaN where too few solves had the readout.
    """
    spread, own = stored_band()[key], "|".join(key)
    share, alpha = evenly("share", stream), ALPHA_MEAN + ALPHA_SD * deviates("alpha", stream)
    lack, tau = LACK_SD * deviates("lack", stream), TAU_SD * deviates("tau", stream)
    along_x, along_y = spread.along
    made = share * (spread.a0 + spread.a1 * alpha)
    x = made - made.mean() + along_x * deviates("along x", stream) + spread.rest_x * deviates(own + " x", stream)
    y = spread.b1 * lack - spread.g * tau
    y = y + along_y * deviates("along y", stream) + spread.rest_y * deviates(own + " y", stream)
    return x, y


def bent(u: ArrayLike, low: float, high: float) -> Array:
    """Itself within what was solved, and ever more slowly growing beyond.

    Parameters
    ----------
    u : array_like (...)
    low, high : float
        Ends of what was solved, low < 0 < high.

    Returns
    -------
    ndarray (...)
        Strictly growing with u.
    """
    u = np.asarray(u, dtype=float)
    inside = np.clip(u, low, high)
    beyond = u - inside
    return np.asarray(inside + np.sign(beyond) * BEND * -np.expm1(-np.abs(beyond) / BEND))


@dataclass(frozen=True)
class Place:
    """Where a throw lies in the field of its athlete.

    Attributes
    ----------
    x, y : float
        ln((m + mu) / (m_own + mu)) and ln(v / full speed with the own ball).
    bent_x, bent_y : float
        The same, bent beyond what was solved.
    outside : bool
        Whether it lies beyond what was solved.
    """

    x: float
    y: float
    bent_x: float
    bent_y: float
    outside: bool


def place_of(mass_kg: float, speed_m_s: float, own_mass_kg: float, mu_kg: float, full_speed_m_s: float) -> Place:
    """Find a throw's place.

    Parameters
    ----------
    mass_kg, speed_m_s : float
        Ball (kg) and release speed (m/s).
    own_mass_kg, mu_kg : float
        Own ball and equivalent mass of the arm at the varus peak (kg).
    full_speed_m_s : float
        Full-effort speed with the own ball (m/s): the zero of y for every throw of the athlete.
    """

    def x_of(mass: float) -> float:
        return float(np.log((mass + mu_kg) / (own_mass_kg + mu_kg)))

    lightest, heaviest = SOLVED_MASS_KG
    x, y = x_of(mass_kg), float(np.log(speed_m_s / full_speed_m_s))
    high = max(x_of(heaviest), 0.0)
    outside = not (lightest <= mass_kg <= heaviest and abs(y) <= SOLVED_Y)
    return Place(x, y, float(bent(x, -np.inf, high)), float(bent(y, -SOLVED_Y, SOLVED_Y)), outside)


def field(key: Key, place: Place, reference: Place, stream: int = 0) -> Array:
    """What the athlete's way of moving adds to ln R between two throws.

    Parameters
    ----------
    key : (str, str)
        A reading and a readout of it.
    place, reference : Place
        Of the throw, and of the one it is held against.
    stream : int
        Which athlete.

    Returns
    -------
    ndarray (DRAWS,)
        Zero where the two throws coincide, and where too few solves had the readout (`is_claimed` says so).
    """
    if np.isnan(stored_band()[key].size_x):
        return np.zeros(DRAWS)
    x, y = slopes(key, stream)
    return x * (place.bent_x - reference.bent_x) + y * (place.bent_y - reference.bent_y)


def is_claimed(key: Key, place: Place, reference: Place) -> bool:
    """Whether anything can be said of a readout's difference between two throws.

    Parameters
    ----------
    key : (str, str)
        A reading and a readout of it.

    Returns
    -------
    bool
        Not where too few solves had it, nor across masses where S in x is `NO_CLAIM_X` or more, nor across speeds
        where S in y is `NO_CLAIM_Y` or more.
    """
    spread = stored_band()[key]
    same_ball, same_speed = abs(place.x - reference.x) < SAME, abs(place.y - reference.y) < SAME
    if np.isnan(spread.size_x):
        return same_ball and same_speed
    return (same_ball or spread.size_x < NO_CLAIM_X) and (same_speed or spread.size_y < NO_CLAIM_Y)
