"""The arm's own equivalent mass: how many kilograms of ball load the elbow as much as the arm itself does."""

from dataclasses import dataclass

import numpy as np

from model.ball import BALL_LIMITS
from model.channels import INDEX, READINGS
from model.checks import check_choice, check_number
from model.identity import PathLoads


@dataclass(frozen=True)
class EquivalentMass:
    """The equivalent mass (kg) and the phase at which it was taken."""

    mass_kg: float
    phase: float


def equivalent_mass(loads: PathLoads, own_mass_kg: float, reading: str = "varus") -> EquivalentMass:
    """Find mu = A / B at the phase at which the inertial torque of the throw with the own ball, A + m_own B, peaks.

    At that phase the inertial torque goes as (m + mu); gravity plays no part, so mu is the same at every speed.

    Parameters
    ----------
    loads : PathLoads
        Of one arm.
    own_mass_kg : float
        Mass of the athlete's own ball (kg).
    reading : str
        A key of `channels.READINGS`; the elbow's varus torque unless another is asked for.

    Returns
    -------
    EquivalentMass
        At the highest sample within the reading's window; 0.495 kg at phase 0.82 for the reference thrower. The top is
        broad: from phase 0.75 to 0.85 the ratio falls from 0.53 to 0.47 kg.

    Raises
    ------
    InputError
        If the mass or the reading is not accepted.
    """
    check_choice("reading", reading, READINGS)
    own_mass_kg = check_number("own_mass_kg", own_mass_kg, BALL_LIMITS["mass_kg"])
    read = READINGS[reading]
    arm, ball = (read.sign * curve[:, INDEX[read.channel]] for curve in (loads.arm, loads.ball))
    window = (loads.phase >= read.start_phase) & (loads.phase <= read.end_phase)
    top = int(np.where(window, arm + own_mass_kg * ball, -np.inf).argmax())
    with np.errstate(divide="ignore", invalid="ignore"):
        return EquivalentMass(float(arm[top] / ball[top]), float(loads.phase[top]))
