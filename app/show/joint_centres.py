"""The joint centres of the thrower over a throw, as the browser draws them."""

from typing import Any

import numpy as np

from model.ball import DEFAULT_DIAMETER_M
from model.line_figure import line_figure
from model.person import Person

PLACES = 4  # decimals of a metre: a tenth of a millimetre


def chain_of(person: Person | None, ball_diameter_m: float = DEFAULT_DIAMETER_M) -> dict[str, Any]:
    """The thrower's joint centres over a throw.

    Parameters
    ----------
    person : Person or None
    ball_diameter_m : float
        Diameter of the ball (m).

    Returns
    -------
    dict
        ``phase``, ``points`` by name as lists of (X, Y, Z) in m, ``ball_radius_m``, and ``side``: 1 for a right-hander,
        -1 for a left-hander, who throws on the other side of Z. Empty without a person.
    """
    if person is None:
        return {}
    drawn = line_figure(person, ball_diameter_m)
    return {
        "side": -1 if person.handedness == "left" else 1,
        "phase": np.round(drawn.phase, 4).tolist(),
        "points": {name: np.round(place, PLACES).tolist() for name, place in drawn.points.items()},
        "ball_radius_m": drawn.ball_radius_m,
    }
