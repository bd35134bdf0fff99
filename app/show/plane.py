"""Where a mass and a speed lie on the map, and the traces through them."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.show.window import Window
from app.units.conversion import array_from_si

Array = NDArray[np.float64]

LETTER = 0.54  # width of a digit or a small letter, in type sizes


@dataclass(frozen=True)
class Plane:
    """Where a mass and a speed lie on the plotting area (px)."""

    window: Window
    log: bool
    size: tuple[float, float]

    def x(self, mass_kg: Any) -> Any:
        """Place of a mass (kg), to the right."""
        low, high, at = self.window.mass_low_kg, self.window.mass_high_kg, np.asarray(mass_kg, dtype=float)
        share = np.log(at / low) / np.log(high / low) if self.log else (at - low) / (high - low)
        return self.size[0] * share

    def y(self, speed_m_s: Any) -> Any:
        """Place of a speed (m/s), downward."""
        low, high = self.window.speed_low_m_s, self.window.speed_high_m_s
        return self.size[1] * (high - np.asarray(speed_m_s, dtype=float)) / (high - low)

    def path(self, mass_kg: Any, speed_m_s: Any) -> Array:
        """Points inside the area, (N, 2)."""
        points = np.column_stack([np.ravel(self.x(mass_kg)), np.ravel(self.y(speed_m_s))])
        inside = (points >= 0.0).all(axis=1) & (points[:, 0] <= self.size[0]) & (points[:, 1] <= self.size[1])
        return np.asarray(points[inside])


def trace(mass_kg: Any, speed_m_s: Any, **more: Any) -> dict[str, Any]:
    """Make a trace, without anything under the pointer.

    Parameters
    ----------
    mass_kg, speed_m_s : array_like (N,)
        Its points (kg, m/s); NaN is a gap.
    **more
        What it has besides.

    Returns
    -------
    dict
    """
    speeds = [None if not np.isfinite(v) else round(float(v), 3) for v in np.ravel(speed_m_s)]
    masses = np.round(array_from_si(np.ravel(mass_kg), "g"), 2).tolist()
    return {"type": "scatter", "mode": "lines", "x": masses, "y": speeds, "hoverinfo": "skip"} | more


def with_ink(color: str, share: float) -> str:
    """Thin a colour out.

    Parameters
    ----------
    color : str
        ``#rrggbb``.
    share : float
        How much of it covers what lies below, 0 to 1.

    Returns
    -------
    str
        As CSS writes it.
    """
    red, green, blue = (int(color[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},{share:.3f})"
