"""A part of the plane of ball mass and release speed, and a place in it."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Window:
    """The part of the mass-speed plane that is drawn (kg, m/s)."""

    mass_low_kg: float
    mass_high_kg: float
    speed_low_m_s: float
    speed_high_m_s: float


@dataclass(frozen=True)
class Spot:
    """A throw that is looked at, and the texts that were typed, where they say more than the numbers."""

    mass_kg: float | None = None
    speed_m_s: float | None = None
    mass_typed: str = field(default="", compare=False)
    speed_typed: str = field(default="", compare=False)
