"""What is thrown: a sphere of given mass and diameter."""

from dataclasses import dataclass

from model.checks import Limit, check_number

BALL_LIMITS = {"mass_kg": Limit(0.001, 3.0, "kg"), "diameter_m": Limit(0.01, 0.35, "m")}

DEFAULT_DIAMETER_M = 0.073  # a baseball's, 72.8-74.8 mm: Official Baseball Rules 3.01 (values.csv 7-ball-rules-02)


@dataclass(frozen=True)
class Ball:
    """A ball: a sphere whose weight and inertia the hand carries until it is let go.

    Parameters
    ----------
    mass_kg, diameter_m : float
        Mass (kg) and diameter (m).

    Raises
    ------
    InputError
        If either lies outside `BALL_LIMITS`.
    """

    mass_kg: float
    diameter_m: float = DEFAULT_DIAMETER_M

    def __post_init__(self) -> None:
        for field, limit in BALL_LIMITS.items():
            object.__setattr__(self, field, check_number(field, getattr(self, field), limit))


def beyond_the_hand_m(diameter_m: float) -> float:
    """Distance of the ball's centre beyond the hand's end, along the hand's long axis.

    The centre lies half the ball's radius beyond the third knuckle, so that with the hand's length it stands
    ``hand_length + diameter / 4`` beyond the wrist: 0.111 m for the reference thrower. An assumption (published
    statements run from 0.09 to 0.12 m; values.csv 3-ball-mass-34).

    Parameters
    ----------
    diameter_m : float or ndarray
        The ball's diameter (m).

    Returns
    -------
    float or ndarray
        Distance (m), same shape.
    """
    return diameter_m / 4.0
