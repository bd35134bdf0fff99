"""A part of the plane of ball mass and release speed, and a place in it."""

from collections.abc import Mapping
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
    """The throw that is looked at, if it could be read, a message for each field that could not, and the kept texts."""

    mass_kg: float | None = None
    speed_m_s: float | None = None
    problems: Mapping[str, str] = field(default_factory=dict)
    mass_typed: str = field(default="", compare=False)
    speed_typed: str = field(default="", compare=False)
