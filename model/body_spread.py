"""What is not known of an athlete's arm: masses, radii, centres and lengths of its segments, drawn by the path basis.

Relative standard deviations, each segment on its own (judgement: regressions of segment parameters leave some 9 % of
the mass of upper arm and forearm and 12 to 14 % of the hand's, as recalled in `published/LITERATURE.md`; spreads of the
others are not in print here):

    mass 12 %,   radius of gyration 6 %,   centre of mass 4 %,   length 3 %;   a measured length 1 %

A length carries the centre of mass and the inertia with it, as in `segments`. Measured lengths narrow the lengths
alone.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.ball import beyond_the_hand_m
from model.path_basis import products_of_arm, products_of_ball, reference_basis
from model.person import Person
from model.segments import Arm, Segment, arm_of
from model.structural_field import DRAWS, deviates

Array = NDArray[np.float64]

MASS_SD, RADIUS_SD, CENTRE_SD, LENGTH_SD, MEASURED_SD = 0.12, 0.06, 0.04, 0.03, 0.01  # relative
SEGMENTS = ("upper_arm", "forearm", "hand")


@dataclass(frozen=True)
class ArmProducts:
    """Arms as the path basis sees them; one row (1, P) of the best estimate, or DRAWS of them.

    Attributes
    ----------
    arm, ball : ndarray (n, P)
        As `path_basis.products_of_arm` and `products_of_ball`.
    path_speed_m_s : ndarray (n,)
        Release speed at time-scale factor 1 (m/s).
    """

    arm: Array
    ball: Array
    path_speed_m_s: Array


def drawn_arm(person: Person, stream: int = 0) -> Arm:
    """Draw an athlete's arm.

    Parameters
    ----------
    stream : int
        Which athlete.

    Returns
    -------
    Arm
        Of arrays (DRAWS,); medians are the best estimate.
    """
    arm = arm_of(person)
    upper_arm, forearm, hand = (_drawn(getattr(arm, name), name, person, stream) for name in SEGMENTS)
    x, y, z, stature = (
        np.full(DRAWS, number) for number in (arm.shoulder_x_m, arm.shoulder_y_m, arm.shoulder_z_m, arm.stature_m)
    )
    return Arm(upper_arm, forearm, hand, x, y, z, stature)


def _drawn(segment: Segment, name: str, person: Person, stream: int) -> Segment:
    def factor(what: str, sd: float) -> Any:
        return np.exp(sd * deviates(f"{name} {what}", stream))

    measured = getattr(person, f"{name}_length_m") is not None
    mass, radius, centre = factor("mass", MASS_SD), factor("radius", RADIUS_SD), factor("centre", CENTRE_SD)
    length = factor("length", MEASURED_SD if measured else LENGTH_SD)
    inertia = mass * (radius * length) ** 2
    return Segment(
        length * segment.length_m,
        mass * segment.mass_kg,
        length * centre * segment.centre_m,
        inertia * segment.inertia_x_kg_m2,
        inertia * segment.inertia_y_kg_m2,
        inertia * segment.inertia_z_kg_m2,
    )


@lru_cache(maxsize=32)
def drawn_products(person: Person, diameter_m: float, stream: int = 0) -> ArmProducts:
    """An athlete's arm, drawn, with a ball of a diameter.

    Parameters
    ----------
    diameter_m : float
        Of the ball (m).

    Returns
    -------
    ArmProducts
        DRAWS rows.
    """
    return _products(drawn_arm(person, stream), diameter_m)


@lru_cache(maxsize=64)
def best_products(person: Person, diameter_m: float) -> ArmProducts:
    """The best estimate of an athlete's arm.

    Parameters
    ----------
    diameter_m : float
        Of the ball (m).

    Returns
    -------
    ArmProducts
        One row.
    """
    return _products(arm_of(person), diameter_m)


def _products(arm: Arm, diameter_m: float) -> ArmProducts:
    beyond_m = beyond_the_hand_m(diameter_m)
    speed = np.atleast_1d(reference_basis().path_speed_m_s(arm, beyond_m))
    products = (np.atleast_2d(products_of_arm(arm)), np.atleast_2d(products_of_ball(arm, beyond_m)))
    return ArmProducts(*products, speed)
