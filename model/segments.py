"""A person -> the arm's segments: lengths, masses, centres of mass and inertias.

Each segment's frame has its origin at the proximal joint, z along the segment from the proximal to the distal joint,
y along the axis of flexion, x = y x z (forward when the arm is held out sideways with the palm forward). The tables
give principal radii of gyration, so each inertia is diagonal in its segment's frame.

Sources, as found in `published/segment_parameters.csv`; a test holds these tables to it. Adults: de Leva P,
J Biomech 1996;29(9):1223-1230, doi 10.1016/0021-9290(95)00178-6. Children's mass shares: Jensen RK, J Biomech 1989
(6 years) and 1986 (12 years).
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.person import Person

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Table:
    """Parameters of one segment for one sex, as published (see the module's sources)."""

    mass_share: float  # of body mass
    centre_share: float  # of segment length, from the proximal joint
    radii_share: tuple[float, float, float]  # of segment length, about x (sagittal), y (transverse), z (longitudinal)
    length_share: float  # of stature: reference length / mean stature of the sample


_MALE_STATURE_MM, _FEMALE_STATURE_MM = 1741.0, 1735.0  # mean statures of de Leva's samples (memory)

ADULT = {
    "male": {
        "upper_arm": Table(0.0271, 0.5772, (0.285, 0.269, 0.158), 281.7 / _MALE_STATURE_MM),  # de Leva 1996
        "forearm": Table(0.0162, 0.4574, (0.276, 0.265, 0.121), 268.9 / _MALE_STATURE_MM),  # de Leva 1996
        "hand": Table(0.0061, 0.7900, (0.628, 0.513, 0.401), 86.2 / _MALE_STATURE_MM),  # de Leva 1996, to knuckle 3
    },
    "female": {
        "upper_arm": Table(0.0255, 0.5754, (0.278, 0.260, 0.148), 275.1 / _FEMALE_STATURE_MM),  # de Leva 1996
        "forearm": Table(0.0138, 0.4559, (0.261, 0.257, 0.094), 264.3 / _FEMALE_STATURE_MM),  # de Leva 1996
        "hand": Table(0.0056, 0.7474, (0.531, 0.454, 0.335), 78.0 / _FEMALE_STATURE_MM),  # de Leva 1996, to knuckle 3
    },
}

CHILD_MASS_SHARE = {  # at 6 and at 12 years, of body mass: Jensen 1989, 1986 (boys), whose 15 and 18 are not used
    "upper_arm": (0.024, 0.032),
    "forearm": (0.013, 0.017),
    "hand": (0.008, 0.009),
}

SHOULDER_SHARE = (0.02, 0.29, 0.113)  # of stature: shoulder centre forward, up, sideways of the hips (judgement)


@dataclass(frozen=True)
class Segment:
    """One rigid segment. Each field is a number, or an array over many arms.

    Attributes
    ----------
    length_m, mass_kg : float or ndarray
        Length between joint centres (m) and mass (kg).
    centre_m : float or ndarray
        Distance of the centre of mass from the proximal joint along z (m).
    inertia_x_kg_m2, inertia_y_kg_m2, inertia_z_kg_m2 : float or ndarray
        Principal moments of inertia (kg m2), about the centre of mass, expressed in the segment's frame.
    """

    length_m: Any
    mass_kg: Any
    centre_m: Any
    inertia_x_kg_m2: Any
    inertia_y_kg_m2: Any
    inertia_z_kg_m2: Any


@dataclass(frozen=True)
class Arm:
    """The throwing arm of one person, or of many (then every number is an array over the people).

    Attributes
    ----------
    upper_arm, forearm, hand : Segment
        The three segments; the hand ends at the third knuckle.
    shoulder_x_m, shoulder_y_m, shoulder_z_m : float or ndarray
        Shoulder centre in the trunk's frame: forward, up, toward the throwing side of the point between the hips (m).
    stature_m : float or ndarray
        Standing height (m); scales the trunk's travel.
    """

    upper_arm: Segment
    forearm: Segment
    hand: Segment
    shoulder_x_m: Any
    shoulder_y_m: Any
    shoulder_z_m: Any
    stature_m: Any


def mass_share(sex: str, segment: str, age_years: float) -> float:
    """Share of body mass in a segment at an age.

    Held below 6 years, linear from 6 to 12 (Jensen 1989, 1986), then linear to the adult share of the same sex at 18
    (de Leva 1996), so that no birthday brings a jump.

    Parameters
    ----------
    sex : {'male', 'female'}
    segment : {'upper_arm', 'forearm', 'hand'}
    age_years : float
        Age (years).

    Returns
    -------
    float
        Segment mass / body mass.
    """
    at_6, at_12 = CHILD_MASS_SHARE[segment]
    return float(np.interp(age_years, (6.0, 12.0, 18.0), (at_6, at_12, ADULT[sex][segment].mass_share)))


def _segment(person: Person, name: str, measured_length_m: float | None) -> Segment:
    table = ADULT[person.sex][name]
    length_m = table.length_share * person.stature_m if measured_length_m is None else measured_length_m
    mass_kg = mass_share(person.sex, name, person.age_years) * person.body_mass_kg
    # I = m (k L)^2: a measured length carries the centre of mass and the inertia with it (I ~ L^2), but not the mass
    inertia = [mass_kg * (share * length_m) ** 2 for share in table.radii_share]
    return Segment(length_m, mass_kg, table.centre_share * length_m, *inertia)


def arm_of(person: Person) -> Arm:
    """Scale the arm of a person.

    Segment mass = share x body mass; length = share x stature, or as measured; centre of mass = share x length;
    I = m (k L)^2 about each axis.

    Returns
    -------
    Arm
        In SI units; frames as the module describes.
    """
    forward, up, sideways = SHOULDER_SHARE
    return Arm(
        _segment(person, "upper_arm", person.upper_arm_length_m),
        _segment(person, "forearm", person.forearm_length_m),
        _segment(person, "hand", person.hand_length_m),
        forward * person.stature_m,
        up * person.stature_m,
        sideways * person.stature_m,
        person.stature_m,
    )


def stack(arms: Sequence[Arm]) -> Arm:
    """Put many arms into one whose numbers are arrays, so that one pass computes them all.

    Parameters
    ----------
    arms : sequence of Arm
        At least one.

    Returns
    -------
    Arm
        Every number an array of shape (len(arms),).

    Raises
    ------
    ValueError
        If there is no arm.
    """
    if not arms:
        raise ValueError("no arm to stack")

    def column(parts: Sequence[Any]) -> Any:
        if isinstance(parts[0], Segment):
            return Segment(*(column([getattr(p, f.name) for p in parts]) for f in fields(Segment)))
        return np.array(parts, dtype=float)

    return Arm(*(column([getattr(arm, f.name) for arm in arms]) for f in fields(Arm)))
