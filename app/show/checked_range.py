"""The range of balls and speeds in which the calculation was checked, and what kind of check that was."""

from collections.abc import Collection

from app.units.conversion import range_in
from app.units.systems import METRIC, System
from model.checks import Limit

CHECKED_BALL_KG, CHECKED_SPEED_M_S = (0.05, 1.0), (5.0, 50.0)
"""Ball masses (kg) and release speeds (m/s) over which the tests hold the model against Pinocchio and MuJoCo."""
CHECK = "That is a check of the calculation, not of throwers."


def checked_in(what: str, limits: Collection[str]) -> str:
    """Say that something lies outside the range in which the calculation was checked."""
    same = "two other mechanics programs give the same torques"
    return f"{what} is outside the range in which {same}: {' and '.join(limits)}."


def beyond(mass_kg: tuple[float, float], speed_m_s: tuple[float, float], what: str, system: System = METRIC) -> str:
    """Name the range in which the calculation was checked where something leaves it, and what kind of check that was.

    Parameters
    ----------
    mass_kg, speed_m_s : (float, float)
        Its ends (kg, m/s).
    what : str
        What it is called.
    system : System
        The units of the range.

    Returns
    -------
    str
        Nothing inside the range.
    """
    limits = []
    if mass_kg[0] < CHECKED_BALL_KG[0] or mass_kg[1] > CHECKED_BALL_KG[1]:
        limits.append(f"balls from {range_in(Limit(*CHECKED_BALL_KG, 'kg'), system.unit('g'))}")
    if speed_m_s[0] < CHECKED_SPEED_M_S[0] or speed_m_s[1] > CHECKED_SPEED_M_S[1]:
        limits.append(f"speeds from {range_in(Limit(*CHECKED_SPEED_M_S, 'm/s'), system.unit('m/s'))}")
    return f"{checked_in(what, limits)} {CHECK}" if limits else ""
