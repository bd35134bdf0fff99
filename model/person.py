"""Who throws: the measures of a person that the arm is scaled from."""

from dataclasses import dataclass

from model.checks import InputError, Limit, check_choice, check_number

SEXES = ("male", "female")
HANDS = ("right", "left")

PERSON_LIMITS = {
    "stature_m": Limit(0.9, 2.3, "m"),
    "body_mass_kg": Limit(12.0, 200.0, "kg"),
    "age_years": Limit(4.0, 100.0, "years"),
    "upper_arm_length_m": Limit(0.10, 0.50, "m"),
    "forearm_length_m": Limit(0.10, 0.45, "m"),
    "hand_length_m": Limit(0.03, 0.14, "m"),
}
"""Accepted ranges. Wide enough for any thrower; narrow enough to catch a wrong unit."""

MEASURED_LENGTHS = ("upper_arm_length_m", "forearm_length_m", "hand_length_m")


@dataclass(frozen=True)
class Person:
    """A thrower's measures.

    Parameters
    ----------
    sex : {'male', 'female'}
        Chooses the table of segment parameters.
    stature_m, body_mass_kg, age_years : float
        Standing height (m), body mass (kg) and age (years).
    upper_arm_length_m, forearm_length_m, hand_length_m : float, optional
        Measured lengths (m) between joint centres: shoulder to elbow, elbow to wrist, and wrist centre to the
        third knuckle (about 0.09 m in an adult; not to the fingertip). What is left out is scaled from stature.
    handedness : {'right', 'left'}
        The throwing hand. A left-hander is the mirror image of a right-hander with the same resolved torques.
    still_growing : bool
        Whether the thrower is marked as still growing, whatever the age. The mechanics do not use it.

    Raises
    ------
    InputError
        If a measure lies outside `PERSON_LIMITS` or a word is none of the choices.
    """

    sex: str
    stature_m: float
    body_mass_kg: float
    age_years: float
    upper_arm_length_m: float | None = None
    forearm_length_m: float | None = None
    hand_length_m: float | None = None
    handedness: str = "right"
    still_growing: bool = False

    def __post_init__(self) -> None:
        check_choice("sex", self.sex, SEXES)
        check_choice("handedness", self.handedness, HANDS)
        if not isinstance(self.still_growing, bool):
            raise InputError("still_growing", self.still_growing, "True or False")
        for field, limit in PERSON_LIMITS.items():
            given = getattr(self, field)
            if given is None and field in MEASURED_LENGTHS:
                continue
            object.__setattr__(self, field, check_number(field, given, limit))
